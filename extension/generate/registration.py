"""What the office is told: the functions with their texts, menu and toolbar, and the extension's description."""

import xml.etree.ElementTree as ElementTree
from xml.etree.ElementTree import SubElement

from interface import idl_name

REGISTRY = "http://openoffice.org/2001/registry"
DESCRIPTION = "http://openoffice.org/extensions/description/2006"
LINK = "http://www.w3.org/1999/xlink"
for prefix, space in (("oor", REGISTRY), ("d", DESCRIPTION), ("xlink", LINK),
                      ("l", "http://libreoffice.org/extensions/description/2011")):
    ElementTree.register_namespace(prefix, space)

LANGUAGE = "{http://www.w3.org/XML/1998/namespace}lang"
SHEETS_ONLY = "com.sun.star.sheet.SpreadsheetDocument"


def document(root):
    ElementTree.indent(root, " ")
    return ElementTree.tostring(root, encoding="utf-8", xml_declaration=True) + b"\n"


def registry(name):
    return ElementTree.Element(f"{{{REGISTRY}}}component-data", {
        f"{{{REGISTRY}}}name": name, f"{{{REGISTRY}}}package": "org.openoffice.Office",
        "xmlns:xs": "http://www.w3.org/2001/XMLSchema"})


def group(parent, name):
    return SubElement(parent, "node", {f"{{{REGISTRY}}}name": name})


def node(parent, name):
    return SubElement(parent, "node", {f"{{{REGISTRY}}}name": name, f"{{{REGISTRY}}}op": "replace"})


def prop(parent, name, value):
    """A property: one text, or texts by language."""
    element = SubElement(parent, "prop", {f"{{{REGISTRY}}}name": name, f"{{{REGISTRY}}}type": "xs:string"})
    for language, text in value.items() if isinstance(value, dict) else ((None, value),):
        SubElement(element, "value", {LANGUAGE: language} if language else {}).text = text


def functions(catalog, languages):
    root = registry("CalcAddIns")
    parent = group(node(group(root, "AddInInfo"), "org.pacecells.Functions"), "AddInFunctions")
    for function in catalog:
        entry = node(parent, function["method"])
        prop(entry, "DisplayName", {"en": function["name"]})
        prop(entry, "Description",
             {language.code: language.of_function(function, "description") for language in languages})
        prop(entry, "Category", "Add-In")
        parameters = group(entry, "Parameters")
        for parameter in function["parameters"]:
            shown = node(parameters, idl_name(parameter["name"]))
            prop(shown, "DisplayName", {"en": parameter["name"]})
            prop(shown, "Description",
                 {language.code: language.in_wizard(function, parameter) for language in languages})
    return document(root)


def menu(shown, sentences):
    """Nodes sort by their names."""
    def title(parent, english):
        if english not in sentences:
            raise SystemExit(f"menu: no text for {english!r}")
        prop(parent, "Title", {"en-US": english} | sentences[english])

    def entry(parent, name, item, for_sheets):
        element = node(parent, name)
        if for_sheets:
            prop(element, "Context", SHEETS_ONLY)
        prop(element, "URL", shown["protocol"] + item["command"])
        prop(element, "Target", "_self")
        title(element, item["label"])

    root = registry("Addons")
    parent = group(root, "AddonUI")
    bar = node(group(parent, "OfficeMenuBar"), "org.pacecells.menu")
    prop(bar, "Context", SHEETS_ONLY)
    title(bar, shown["title"])
    top = group(bar, "Submenu")
    toolbar = node(group(parent, "OfficeToolBar"), "org.pacecells.toolbar")
    images = group(parent, "Images")
    submenus = {"": top}
    for i, item in enumerate(shown["items"]):
        if item["submenu"] not in submenus:
            opened = node(top, f"m{i:02}b")
            title(opened, item["submenu"])
            submenus[item["submenu"]] = group(opened, "Submenu")
        submenu = submenus[item["submenu"]]
        if item["starts_group"]:
            prop(node(submenu, f"m{i:02}a"), "URL", "private:separator")
        entry(submenu, f"m{i:02}b", item, for_sheets=False)
        if item["in_toolbar"]:
            entry(toolbar, f"m{i:02}b", item, for_sheets=True)
        image = node(images, f"org.pacecells.images.{item['command']}")
        prop(image, "URL", shown["protocol"] + item["command"])
        pictures = group(image, "UserDefinedImages")
        prop(pictures, "ImageSmallURL", f"%origin%/icons/{item['command']}_16.png")
        prop(pictures, "ImageBigURL", f"%origin%/icons/{item['command']}_26.png")
    return document(root)


def description(source, version, languages):
    root = ElementTree.parse(source).getroot()
    root.find(f"{{{DESCRIPTION}}}version").set("value", version)
    texts = root.find(f"{{{DESCRIPTION}}}extension-description")
    for language in languages:
        SubElement(texts, f"{{{DESCRIPTION}}}src",
                   {f"{{{LINK}}}href": f"description/{language.code}.txt", "lang": language.code})
    return document(root)
