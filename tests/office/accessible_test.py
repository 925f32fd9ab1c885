"""The workbooks for people who see little or nothing: contrast, and what a screen reader has to say.

From the built files: each cell style's text against its fill, both set by the style, so that light and
dark mode show the same; title and language of each file; charts with a name. Contrast is the ratio of WCAG 2.1, whose
least for text is 4.5 to 1, for lines of a chart 3 to 1 (success criteria 1.4.3 and 1.4.11).
"""

import re
import zipfile
from xml.etree import ElementTree

import pytest
from commands import private_office
from examples import open_example
from languages import languages
from office import save
from sharing import BUILD, ROOT, folder_of

WORK = folder_of(__file__)

ODF = {"fo": "urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0", "svg": "urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0"}
ODF |= {name: f"urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"
        for name in ("style", "office", "table", "text", "chart", "meta")}
ODF |= {"draw": "urn:oasis:names:tc:opendocument:xmlns:drawing:1.0", "dc": "http://purl.org/dc/elements/1.1/"}
TEXT, LINES = 4.5, 3
HIDDEN = re.compile(r"pace-(blank|card-empty)")  # of conditional formats: what is in the cell is not meant to be seen
FILES = [(language, kind) for language in languages()
         for kind in ("event", "logbook", "person", "testday", "wall", "roster")]
each_file = pytest.mark.parametrize("language, kind", FILES, ids=lambda value: getattr(value, "code", value))


def luminance(colour):
    """Of "#1b2430", as WCAG defines it."""
    shares = [int(colour[at:at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (share / 12.92 if share <= 0.03928 else ((share + 0.055) / 1.055) ** 2.4 for share in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_contrast_is_that_of_the_standard():
    """Black on white is 21; #767676 is the lightest grey that passes on white, as WebAIM and others print."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast("#777777", "#ffffff") < 4.5


def name(tag):
    space, _, local = tag.partition(":")
    return f"{{{ODF[space]}}}{local}"


def part(package, path):
    return ElementTree.fromstring(package.read(path))


def package_of(language, kind):
    return zipfile.ZipFile(BUILD / "templates" / language.code / f"{kind}.ots")


def cell_styles(package):
    """What each cell style says itself of text and fill, by its name; with its parent."""
    found = {}
    for style in part(package, "styles.xml").iter(name("style:style")):
        if style.get(name("style:family")) == "table-cell":
            text, cell = (style.find(f"style:{kind}-properties", ODF) for kind in ("text", "table-cell"))
            found[style.get(name("style:name"))] = (
                style.get(name("style:parent-style-name")), style.get(name("style:display-name"), style.get(name("style:name"))),
                None if text is None else text.get(name("fo:color")),
                None if cell is None else cell.get(name("fo:background-color")))
    return found


def resolved(styles, style, which):
    """The colour that a style has, by itself or from those that it is made from."""
    while style in styles:
        if value := styles[style][which]:
            return value
        style = styles[style][0]
    return None


@each_file
def test_text_stands_out_from_its_fill(language, kind):
    with package_of(language, kind) as package:
        styles = cell_styles(package)
        content = part(package, "content.xml")
    ours = [style for style, (_, shown, *_colours) in styles.items() if shown.startswith("pace-")]
    assert len(ours) > 5, "the workbook has styles of its own"
    wrong = []
    for style in ours:
        ink, fill = resolved(styles, style, 2), resolved(styles, style, 3)
        shown = styles[style][1]
        if HIDDEN.match(shown):
            continue
        if not (ink and fill and ink.startswith("#") and fill.startswith("#")):
            wrong.append(f"{shown}: text {ink} and fill {fill} are not both set")
        elif contrast(ink, fill) < TEXT:
            wrong.append(f"{shown}: {ink} on {fill} is {contrast(ink, fill):.2f} to 1")
    assert wrong == []
    # no cell changes a style's colours by itself, so these are all there are
    own = [style.get(name("style:name")) for style in content.iter(name("style:style"))
           if any(properties.get(name(key)) not in (None, "transparent")
                  for properties in style for key in ("fo:color", "fo:background-color"))]
    assert own == []


@each_file
def test_file_has_a_title_and_a_language(language, kind):
    with package_of(language, kind) as package:
        title = part(package, "meta.xml").find(".//dc:title", ODF)
        styles = part(package, "styles.xml")
    assert title is not None and title.text.strip()
    default = next(style for style in styles.iter(name("style:default-style"))
                   if style.get(name("style:family")) == "table-cell")
    said = default.find("style:text-properties", ODF)
    assert f"{said.get(name('fo:language'))}-{said.get(name('fo:country'))}" == language.locale


@each_file
def test_nothing_is_drawn_before_it_is_asked_for(language, kind):
    """Whatever a file draws needs a name to be read: the charts of the review get theirs from the command, below."""
    with package_of(language, kind) as package:
        assert list(part(package, "content.xml").iter(name("draw:frame"))) == []


@pytest.fixture(scope="module", params=languages(), ids=lambda language: language.code)
def reviewed(request):
    """The first example as it is saved when its sheet Review was shown, twice; and its language."""
    file = WORK / f"reviewed {request.param.code}.ods"
    with private_office(request.param.code) as office:
        document = open_example(office, "rounds")
        for _ in range(2):
            done = office.dispatch(document, "vnd.org.pacecells:review", Silent="true")
            assert done.State == 1, done.Result
        save(document, file)
    with zipfile.ZipFile(file) as package:
        yield package, request.param


CHARTS = ("Seconds per round, planned and actual", "The field: reps, or minutes, from first to last",
          "Test curve: watts that can be held, by minutes")


def test_charts_have_a_name_to_be_read(reviewed):
    package, language = reviewed
    titles = [frame.find("svg:title", ODF).text for frame in part(package, "content.xml").iter(name("draw:frame"))]
    assert titles == [language.workbooks.get(title, title) for title in CHARTS]


def test_charts_can_be_seen(reviewed):
    """Text and lines of a chart against its paper, which is white."""
    package, _ = reviewed
    charts = [part(package, path) for path in package.namelist() if re.fullmatch(r"[^/]+/content\.xml", path)]
    assert len(charts) == 3
    for chart in charts:
        inks = [item.get(name("fo:color")) for item in chart.iter(name("style:text-properties"))]
        assert all(ink is None or contrast(ink, "#ffffff") >= TEXT for ink in inks), inks
        series = [item.get(name("chart:style-name")) for item in chart.iter(name("chart:series"))]
        strokes = [properties.get(name("svg:stroke-color")) for style in chart.iter(name("style:style"))
                   if style.get(name("style:name")) in series for properties in style if properties.get(name("svg:stroke-color"))]
        assert len(strokes) >= len(series) and all(contrast(stroke, "#ffffff") >= LINES for stroke in strokes), strokes


@pytest.mark.parametrize("palette", ("light", "dark"))
def test_window_of_a_heat_in_light_and_dark(palette):
    """Its colours as the source has them, for they are drawn: every ink on the paper and on a fresh stamp's fill."""
    source = (ROOT / "extension" / "commands" / "heat_day" / "heat_day_paint.cpp").read_text()
    found = re.search(rf"constexpr Palette {palette}\{{([^}}]*)\}}", source)[1]
    paper, ink, soft, _line, ahead, behind, fresh = ("#" + colour.strip()[2:].lower() for colour in found.split(","))
    for text in (ink, soft, ahead, behind):
        for fill in (paper, fresh):
            assert contrast(text, fill) >= TEXT, (text, fill)


def test_other_windows_leave_colours_to_the_system():
    """Which has light, dark and high contrast as people set them: no other source of ours names a colour of a control."""
    folder = ROOT / "extension"
    named = [path.name for path in (*folder.glob("dialogs/*.cpp"), *folder.glob("commands/**/*.cpp"))
             if re.search(r'"(Text|Background|Fill|Border)Color"', path.read_text())]
    assert named == []
