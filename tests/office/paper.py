"""Pages as people hold them: the print of a workbook as PDF, how much of each page is used, and how small its letters are."""

import re
import subprocess
from dataclasses import dataclass

import numpy
from office import named

SIZES = {"A4": (21000, 29700), "Letter": (21590, 27940)}  # 1/100 mm
DOTS = 50                 # per inch, to measure by
FINE, LABELS = 150, 130   # dots per inch for lines; points from the left where the clocks of cards begin
MARGIN, FOOTER = 12, 21   # mm: at the sides and on top; below, with the two lines of the footer


@dataclass
class Page:
    text: str
    wide: float      # share of the width between the margins that has ink, up to its outermost points
    deep: float      # share of the height above the footer, likewise
    smallest: float  # size of the smallest letters, in points
    unseen: list     # texts that are as white as the paper

    @property
    def used(self):
        return self.wide * self.deep


def use_paper(document, paper):
    """Sets every page of a document to A4 or Letter, as somebody with such paper does."""
    narrow, tall = SIZES[paper]
    styles = document.StyleFamilies.getByName("PageStyles")
    for sheet in document.Sheets:
        style = styles.getByName(sheet.PageStyle)
        style.Width, style.Height = (tall, narrow) if style.IsLandscape else (narrow, tall)


def print_pack(office, document, path):
    """The whole pack as the menu prints it; what it said."""
    path.unlink(missing_ok=True)
    done = office.dispatch(document, "vnd.org.pacecells:print-pack", Silent="true", File=str(path), Overwrite="true", Announcement="9")
    assert path.is_file(), done.Result
    return done.Result


def print_sheet(document, sheet, path):
    """One sheet alone, as Calc prints it."""
    areas = {other.Name: other.getPrintAreas() for other in document.Sheets}
    try:
        for other in document.Sheets:
            if other.Name != sheet.Name:
                other.setPrintAreas(())
        document.storeToURL(path.as_uri(), named(FilterName="calc_pdf_Export", Overwrite=True))
    finally:
        for other in document.Sheets:
            other.setPrintAreas(areas[other.Name])


def _shares(pixels):
    """How far the ink reaches, of the space between the margins and above the footer."""
    edge, foot = round(MARGIN / 25.4 * DOTS) - 1, round(FOOTER / 25.4 * DOTS)
    body = pixels[edge:-foot, edge:-edge] < 200
    rows, columns = numpy.flatnonzero(body.any(axis=1)), numpy.flatnonzero(body.any(axis=0))
    if not rows.size:
        return 0.0, 0.0
    return float(columns[-1] - columns[0] + 1) / body.shape[1], float(rows[-1] - rows[0] + 1) / body.shape[0]


def pages_of(pdf):
    """Every page of a PDF, measured."""
    def tool(*command):
        return subprocess.run(command, capture_output=True, check=True).stdout
    texts = tool("pdftotext", "-layout", pdf, "-").decode().split("\f")[:-1]
    shapes, at = [], 0
    raw = tool("pdftoppm", "-gray", "-r", str(DOTS), pdf)
    while at < len(raw):
        head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", raw[at:at + 40])
        width, height = int(head[1]), int(head[2])
        start = at + head.end()
        shapes.append(_shares(numpy.frombuffer(raw, numpy.uint8, width * height, start).reshape(height, width)))
        at = start + width * height
    marked = tool("pdftohtml", "-xml", "-i", "-zoom", "1", "-stdout", pdf).decode()
    fonts, pages = {font: (int(size), colour) for font, size, colour in
                    re.findall(r'<fontspec id="(\d+)" size="(\d+)" [^>]*color="(#\w+)"', marked)}, []
    for page in marked.split("<page ")[1:]:
        used = re.findall(r'<text [^>]*font="(\d+)">(.*?)</text>', page)
        pages.append((min((fonts[font][0] for font, _ in used), default=0),
                      [text for font, text in used if fonts[font][1] == "#ffffff" and text.strip()]))
    return [Page(text, *shape, *letters) for text, shape, letters in zip(texts, shapes, pages, strict=True)]


def unboxed(pdf):
    """Clocks of cards, and the rounds over them, that have no line around them, and what is beside the last of them."""
    def tool(*command):
        return subprocess.run(command, capture_output=True, check=True).stdout
    points, found = FINE / 72, []
    for number, page in enumerate(tool("pdftotext", "-bbox", pdf, "-").decode().split("<page ")[1:], 1):
        words = [(text, *(float(edge) for edge in edges)) for *edges, text in re.findall(
            r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>', page)]
        raw = tool("pdftoppm", "-gray", "-r", str(FINE), "-f", str(number), "-l", str(number), pdf)
        head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", raw)
        pixels = numpy.frombuffer(raw, numpy.uint8, offset=head.end()).reshape(int(head[2]), int(head[1]))

        def ink(left, top, right, bottom, darkness):
            area = pixels[round(top * points):round(bottom * points), round(left * points):round(right * points)]
            return bool((area < darkness).any())

        for label, left, above, _, below in words:
            if label not in ("after", "for") or left > 60:
                continue
            middle = (above + below) / 2
            clocks = [word for word in words if word[1] > LABELS and word[2] < middle < word[4] and re.fullmatch(r"\d+" if label == "after" else r"\d+:\d\d", word[0])]
            for text, left, _, right, _ in clocks:
                centre = (left + right) / 2
                sides = ((centre, middle - 10, centre + 1, middle - 4), (centre, middle + 4, centre + 1, middle + 10),
                         (left - 13, middle, left - 0.3, middle + 1), (right + 0.3, middle, right + 13, middle + 1))
                found += [f"page {number}: {text} {side}" for side, line in zip(("above", "below", "left", "right"), sides) if not ink(*line, 200)]
            if clocks and ink(clocks[-1][3] + 14, middle, pixels.shape[1] / points, middle + 1, 250):
                found.append(f"page {number}: beside {clocks[-1][0]}")
    return found


def overlapping(pdf):
    """Words that lie upon another one: a text that has more lines than its cell has room for is cut there."""
    boxes = subprocess.run(["pdftotext", "-bbox", pdf, "-"], capture_output=True, check=True).stdout.decode()
    found = []
    for number, page in enumerate(boxes.split("<page ")[1:], 1):
        words = [(text, *(float(edge) for edge in edges)) for *edges, text in re.findall(
            r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>', page)]
        for place, (text, left, above, right, below) in enumerate(words):
            for other, x, top, end, bottom in words[place + 1:]:
                deep, wide = min(below, bottom) - max(above, top), min(right, end) - max(left, x)
                if wide > 1 and deep > 0.4 * min(below - above, bottom - top):
                    found.append(f"page {number}: {text} and {other}")
    return found


def pictures(pdf, folder, dots=70):
    """One PNG for each page, named after the PDF."""
    for old in folder.glob(f"{pdf.stem}-*.png"):
        old.unlink()
    subprocess.run(["pdftoppm", "-r", str(dots), "-png", pdf, folder / pdf.stem], check=True)
