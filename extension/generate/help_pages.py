"""The help: HTML that opens in any browser. One page per function follows from the catalog; the other pages are written
by hand in extension/texts/<language>/help, without head and foot."""

import copy
import xml.etree.ElementTree as ElementTree

GUIDES, WORKBOOKS = ("first-steps", "heat-day"), ("event", "logbook", "tests", "wall", "roster")

STYLE = """\
:root { color-scheme: light dark; }
body { font: 1rem/1.5 sans-serif; max-width: 44rem; margin: 0 auto; padding: 1rem; }
code { font-size: 1.05em; white-space: nowrap; }
pre { padding: .6rem .8rem; border: 1px solid; overflow-x: auto; white-space: pre-wrap; }
table { border-collapse: collapse; }
th, td { border: 1px solid; padding: .2rem .5rem; text-align: left; vertical-align: top; }
nav { font-size: .9rem; }
"""

BLOCKS = {"h1", "h2", "p", "table", "tr", "ul", "li", "head", "body", "nav"}


def element(tag, *content, **attributes):
    """An element of texts and elements."""
    made = ElementTree.Element(tag, attributes)
    last = None
    for part in content:
        if not isinstance(part, str):
            made.append(part)
            last = part
        elif last is None:
            made.text = (made.text or "") + part
        else:
            last.tail = (last.tail or "") + part
    if tag in ("table", "ul", "body", "html"):
        made.text = "\n"
    if tag in BLOCKS:
        made.tail = "\n"
    return made


def link(page, *title):
    return element("a", *title, href=f"{page}.html")


def page(language, title, body):
    head = element("head", element("meta", charset="utf-8"),
                   element("meta", name="viewport", content="width=device-width"),
                   element("title", f"{title} – Pacecells"), element("link", rel="stylesheet", href="../style.css"))
    contents = element("nav", element("p", link("index", language.help_words["contents"])))
    html = element("html", head, element("body", *body, contents), lang=language.code)
    return "<!DOCTYPE html>\n" + ElementTree.tostring(html, encoding="unicode", method="html") + "\n"


def written(language, name):
    """The elements of a page written by hand, and its title."""
    path = language.folder / "help" / f"{name}.html"
    if not path.is_file():
        raise SystemExit(f"texts/{language.code}/help: no page {name}.html")
    try:
        body = ElementTree.fromstring(f"<body>{path.read_text(encoding='utf-8')}</body>")
    except ElementTree.ParseError as error:
        raise SystemExit(f"texts/{language.code}/help/{name}.html: {error}") from error
    return list(body), body.find("h1")


def function_page(language, function):
    words = language.help_words
    parameters = []
    for parameter in function["parameters"]:
        optional = f" ({words['may be left out']})" if parameter["optional"] else ""
        parameters.append(element("tr", element("th", parameter["name"]),
                                  element("td", language.of_parameter(function, parameter) + optional)))
    first = f" ({words['first']})" if function["kind"] == "array" else ""
    return [
        element("h1", function["name"]),
        element("p", element("code", function["synopsis"])),
        element("p", language.of_function(function, "description")),
        element("h2", words["arguments"]),
        element("table", *parameters),
        element("h2", words["example"]),
        element("p", element("code", function["formula"]), f" {words['gives']} ",
                element("code", language.number(function["answer"])), first),
        element("h2", words["domain"]),
        element("p", language.of_function(function, "domain")),
        element("h2", words["source"]),
        element("p", language.of_function(function, "source"))]


def index(language, titles, functions):
    def links(names):
        return element("ul", *(element("li", linked(name)) for name in names))

    def linked(name):
        heading = copy.deepcopy(titles[name])
        return link(name, heading.text or "", *heading)

    rows = [element("tr", element("td", link(function["name"], function["name"])),
                    element("td", language.of_function(function, "description"))) for function in functions]
    return [element("h1", "Pacecells"), links(GUIDES),
            element("h2", language.help_words["workbooks"]), links(WORKBOOKS),
            element("h2", language.help_words["functions"]), element("table", *rows)]


def pages(functions, languages):
    """Every file of the help: its name below the help's folder, and its text."""
    made = {"style.css": STYLE}
    for language in languages:
        titles = {}
        for name in GUIDES + WORKBOOKS:
            body, titles[name] = written(language, name)
            made[f"{language.code}/{name}.html"] = page(language, "".join(titles[name].itertext()), body)
        for function in functions:
            made[f"{language.code}/{function['name']}.html"] = \
                page(language, function["name"], function_page(language, function))
        contents = language.help_words["contents"]
        made[f"{language.code}/index.html"] = page(language, contents, index(language, titles, functions))
    return made
