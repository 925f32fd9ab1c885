"""The functions as an interface: UNO's description of it, its methods in C++, and the table in the README."""

# Words that the interface language keeps for itself.
KEYWORDS = {"in", "out", "inout", "any", "get", "set", "sets", "raises"}

IDL_TYPES = {"any": "any", "range": "com::sun::star::table::XCellRange"}
CPP_TYPES = {"any": "Any", "range": "CellRange"}


def idl_name(name):
    """critical_W -> criticalW"""
    first, *others = name.split("_")
    return name + "Value" if name in KEYWORDS else first + "".join(word[:1].upper() + word[1:] for word in others)


def idl(functions):
    def method(function):
        parameters = ", ".join(f"[in] {IDL_TYPES[parameter['type']]} {idl_name(parameter['name'])}"
                               for parameter in function["parameters"])
        return f"    any {function['method']}({parameters});\n"

    return ("module org { module pacecells {\n\ninterface XFunctions : com::sun::star::uno::XInterface {\n"
            + "".join(map(method, functions)) + "};\n\n}; };\n")


def methods(functions):
    """Each method hands its arguments to the row of the catalog with its number."""
    def method(number, function):
        parameters = ", ".join(f"const {CPP_TYPES[parameter['type']]}& a{i}"
                               for i, parameter in enumerate(function["parameters"]))
        arguments = "".join(f", a{i}" for i in range(len(function["parameters"])))
        return f"Any SAL_CALL {function['method']}({parameters}) override {{ return call({number}{arguments}); }}\n"

    return "".join(method(number, function) for number, function in enumerate(functions))


def markdown(functions):
    rows = ["| function | gives |", "|---|---|"]
    for function in functions:
        description = function["description"].replace("|", "\\|")
        rows.append(f"| `{function['synopsis']}` | {description} |")
    return "\n".join(rows) + "\n"
