"""The help: one file of HTML per language, index.html, that opens in any browser. A page is a section of it: one per
function follows from the catalog, and one per menu command from a section of commands.html; the other pages are written by
hand. All that is written is in extension/texts/<language>/help, without head and foot. A script shows the page that the
address names after the #, else the contents; without scripts all pages are there, one below the other."""

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
img { max-width: 100%; border: 1px solid; }
input { font: inherit; width: 100%; box-sizing: border-box; padding: .3rem; }
[hidden] { display: none; }
"""

BLOCKS = {"section", "h1", "h2", "p", "table", "tr", "ul", "li", "head", "body", "nav"}


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
    if tag in ("table", "ul", "body", "html", "section"):
        made.text = "\n"
    if tag in BLOCKS:
        made.tail = "\n"
    return made


def link(page, *title):
    return element("a", *title, href=f"#{page}")


def page(language, name, body):
    """A section that leads back to the contents. Its links to other pages lead to their sections."""
    for part in body:
        for to in part.iter("a"):
            if to.get("href", "").endswith(".html") and ":" not in to.get("href"):
                to.set("href", "#" + to.get("href").removesuffix(".html"))
    return element("section", *body, element("nav", element("p", link("contents", language.help_words["contents"]))), id=name)


def whole(language, sections):
    head = element("head", element("meta", charset="utf-8"),
                   element("meta", name="viewport", content="width=device-width"), element("title", "Pacecells"),
                   element("style", STYLE))
    html = element("html", head, element("body", *sections, element("script", SCRIPT)), lang=language.code)
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


def shown(language, label):
    """A label of the menu in running text."""
    return language.sentence(label).replace("~", "").rstrip("…")


def ways(language, menu):
    """How to come to each command: the menu, the submenu and the command."""
    return {item["command"]: ", ".join(["Pacecells", *(shown(language, label) for label in (item["submenu"], item["label"])
                                                       if label)]) for item in menu}


def name_commands(body, commands, ways):
    """Where a page names a command of the menu, as in <b>Pacecells, Start list</b>, it says the submenu too and leads to
    the command's page."""
    pages = {f"Pacecells, {title}": name for name, title in commands.items()}
    for bold in [bold for part in body for bold in part.iter("b")]:
        name = pages.get((bold.text or "").replace("\u00a0", " "))
        if name:
            bold.text = None
            bold.append(link(name, ways[name]))


def command_pages(language, menu, ways):
    """Each command's title, as the menu has it, and the elements of its page: a section of commands.html, or a page of
    its own where there is one."""
    body, _ = written(language, "commands")
    sections = {section.get("id"): section for section in body}
    commands = [item["command"] for item in menu if item["command"] not in GUIDES]
    if list(sections) != commands:
        raise SystemExit(f"texts/{language.code}/help/commands.html: sections {list(sections)}, and the menu has {commands}")
    titles = {item["command"]: shown(language, item["label"]) for item in menu}
    return titles, {name: [element("h1", titles[name]), element("p", element("b", ways[name])), *section]
                    for name, section in sections.items()}


def function_page(language, function):
    words = language.help_words
    parameters = []
    for parameter in function["parameters"]:
        optional = f" ({words['may be left out']})" if parameter["optional"] and not language.default(parameter) else ""
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


# Shows one page, and in the contents the entries of those pages that hold every word that is typed.
SCRIPT = """
var pages = document.querySelectorAll("body > section"), contents = document.getElementById("contents");
function show() {
  var page = document.getElementById(decodeURIComponent(location.hash.slice(1))) || contents;
  pages.forEach(function (other) { other.hidden = other !== page; });
  document.title = (page === contents ? "" : page.querySelector("h1").textContent + " – ") + "Pacecells";
  scrollTo(0, 0);
}
document.getElementById("search").oninput = function () {
  var wanted = this.value.toLowerCase().split(/\\s+/).filter(Boolean);
  contents.querySelectorAll("li, tr").forEach(function (entry) {
    var page = document.getElementById(entry.querySelector("a").hash.slice(1)), text = page.textContent.toLowerCase();
    entry.hidden = !wanted.every(function (word) { return text.indexOf(word) >= 0; });
  });
};
onhashchange = show;
show();
"""


def contents(language, titles, commands, functions):
    def links(names):
        return element("ul", *(element("li", linked(name)) for name in names))

    def linked(name):
        heading = copy.deepcopy(titles[name])
        return link(name, heading.text or "", *heading)

    rows = [element("tr", element("td", link(function["name"], function["name"])),
                    element("td", language.of_function(function, "description"))) for function in functions]
    search = element("input", id="search", type="search", placeholder=language.help_words["search"])
    search.set("aria-label", language.help_words["search"])
    return element("section", element("h1", "Pacecells"), element("p", search), links(GUIDES),
                   element("h2", language.help_words["workbooks"]), links(WORKBOOKS),
                   element("h2", language.help_words["commands"]),
                   element("ul", *(element("li", link(name, title)) for name, title in commands.items())),
                   element("h2", language.help_words["functions"]), element("table", *rows), id="contents")


def pages(functions, menu, languages):
    """Every file of the help: its name below the help's folder, and its text or picture."""
    made = {}
    for language in languages:
        paths = ways(language, menu)
        commands, bodies = command_pages(language, menu, paths)
        titles = {}
        for name in GUIDES + WORKBOOKS:
            bodies[name], titles[name] = written(language, name)
            name_commands(bodies[name], commands, paths)
        for function in functions:
            bodies[function["name"]] = function_page(language, function)
        first = contents(language, titles, commands, functions)
        made[f"{language.code}/index.html"] = \
            whole(language, [first, *(page(language, name, body) for name, body in bodies.items())])
        for picture in sorted((language.folder / "help").glob("*.png")):
            made[f"{language.code}/{picture.name}"] = picture.read_bytes()
    return made
