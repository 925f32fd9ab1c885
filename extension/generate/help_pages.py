"""The help: HTML that opens in any browser. One page per function follows from the catalog, and one per menu command from
a section of commands.html; the other pages are written by hand. All that is written is in extension/texts/<language>/help,
without head and foot."""

import copy
import re
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


# Hides what does not hold every word that is typed; without scripts the contents are just a list.
SEARCH = """
document.getElementById("search").oninput = function () {
  var wanted = this.value.toLowerCase().split(/\\s+/).filter(Boolean);
  document.querySelectorAll("[data-words]").forEach(function (entry) {
    var words = entry.dataset.words + " " + entry.textContent.toLowerCase();
    entry.hidden = !wanted.every(function (word) { return words.indexOf(word) >= 0; });
  });
};
"""


def words_of(elements):
    """All words of a page in lower case, each once, for the search."""
    text = " ".join(" ".join(part.itertext()) for part in elements).lower()
    return " ".join(dict.fromkeys(re.findall(r"[\w.:#=+]+", text)))


def index(language, titles, commands, functions, bodies):
    def entry(tag, name, *content):
        return element(tag, *content, **{"data-words": words_of(bodies[name])})

    def links(names):
        return element("ul", *(entry("li", name, linked(name)) for name in names))

    def linked(name):
        heading = copy.deepcopy(titles[name])
        return link(name, heading.text or "", *heading)

    rows = [entry("tr", function["name"], element("td", link(function["name"], function["name"])),
                    element("td", language.of_function(function, "description"))) for function in functions]
    search = element("input", id="search", type="search", placeholder=language.help_words["search"])
    search.set("aria-label", language.help_words["search"])
    return [element("h1", "Pacecells"), element("p", search), links(GUIDES),
            element("h2", language.help_words["workbooks"]), links(WORKBOOKS),
            element("h2", language.help_words["commands"]),
            element("ul", *(entry("li", name, link(name, title)) for name, title in commands.items())),
            element("h2", language.help_words["functions"]), element("table", *rows), element("script", SEARCH)]


def pages(functions, menu, languages):
    """Every file of the help: its name below the help's folder, and its text or picture."""
    made = {"style.css": STYLE}
    for language in languages:
        paths = ways(language, menu)
        commands, bodies = command_pages(language, menu, paths)
        titles, page_titles = {}, dict(commands)
        for name in GUIDES + WORKBOOKS:
            bodies[name], titles[name] = written(language, name)
            name_commands(bodies[name], commands, paths)
            page_titles[name] = "".join(titles[name].itertext())
        for function in functions:
            bodies[function["name"]] = function_page(language, function)
        contents = language.help_words["contents"]
        made[f"{language.code}/index.html"] = \
            page(language, contents, index(language, titles, commands, functions, bodies))
        for name, body in bodies.items():
            made[f"{language.code}/{name}.html"] = page(language, page_titles.get(name, name), body)
        for picture in sorted((language.folder / "help").glob("*.png")):
            made[f"{language.code}/{picture.name}"] = picture.read_bytes()
    return made
