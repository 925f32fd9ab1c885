"""The wall pace table in the real office, as office staff use it: open, change, print.

Uses BUILD/functions.oxt and BUILD/templates/en/wall.ots; leaves pictures for a person to look at in BUILD/look. Expected
numbers are arithmetic done here, not by the functions.
"""

import math
import re
import subprocess

from compare import check
from office import recalculate, save, type_in
from sharing import BUILD, FUNCTIONS, folder_of, shared, shown

WORK, LOOK = folder_of(__file__), BUILD / "look"
TEMPLATE = BUILD / "templates" / "en" / "wall.ots"
BAD = re.compile(r"###|Err:\d+|#(?:NAME|VALUE|REF|N/A|NUM|DIV)")
ROWS, COLUMNS = 12, 7

def cell(document, name):
    return document.NamedRanges.getByName(name).ReferredCells.getCellByPosition(0, 0)


def change(document, **typed):
    """What staff type, as keys would give it; block is a place in the list."""
    for name, text in typed.items():
        if name == "block":
            text = document.NamedRanges.getByName("list_block").ReferredCells.getCellByPosition(0, text - 1).String
        type_in(cell(document, f"wall_{name}"), text)


def table(document):
    """Heads and rows as shown, without those that are empty."""
    body = document.NamedRanges.getByName("wall_table").ReferredCells
    sheet, area = body.Spreadsheet, body.RangeAddress
    rows = shown(sheet.getCellRangeByPosition(0, area.StartRow - 1, COLUMNS - 1, area.EndRow))
    return rows[0], [row for row in rows[1:] if any(row)]


def clock(seconds):
    whole = math.floor(seconds + 0.5 + 1e-6)
    return f"{whole // 60}:{whole % 60:02}"


def pace_row(cap, goal, calories, other, limit):
    mean = cap / goal
    room = mean - other
    rate = calories * 3600 / room if calories and room > 0 else None
    words = "" if not calories else "✕ no time left" if rate is None else "▲ too fast" if rate > limit else ""
    shown = ["", ""] if not calories else ["–", "–"] if rate is None else [f"{math.floor(rate + 0.5)}",
             clock(room) if rate <= 5000 else "–"]  # beyond what any machine shows
    # at half time half the rounds are done; of a half one the calories are, where they take less than half of it
    half = f"{goal // 2:g}" + (" + cal" if goal % 2 and calories and 0 < room <= mean / 2 else "")
    return [f"{goal:g}", clock(mean), half, *shown, clock(mean / 0.825), words]


def test_numbers():
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        rows = table(document)[1]
        check("as it comes: eleven goals", [row[0] for row in rows], [f"{6 + 0.5 * i:g}" for i in range(11)])
        check("as it comes: whole rounds", rows[::2], [pace_row(1200, goal, 15, 75, 1500) for goal in range(6, 12)])
        times = [int(row[1].split(":")[0]) * 60 + int(row[1].split(":")[1]) for row in rows]
        check("as it comes: half rounds between them", times, sorted(times, reverse=True))
        check("as it comes: nothing is missing", cell(document, "wall_check").String, "")
        # Common practice: in 20 minutes 8 rounds are 2:30 each, 10 are 2:00.
        rows = {row[0]: row for row in table(document)[1]}
        check("8 rounds", rows["8"][1], "2:30")
        check("10 rounds", rows["10"][1], "2:00")
        # On paper: 2:30 less 75 s leaves 75 s for 15 cal, 720 cal/h.
        check("8 rounds, rate", rows["8"][3:5], ["720", "1:15"])

        change(document, cap="18:00", **{"from": "5", "to": "16", "step": "1"}, calories="14", other_s="94")
        check("18 minutes, goals without room", [row[:2] + row[3:] for row in table(document)[1]],
              [pace_row(1080, goal, 14, 94, 1500)[:2] + pace_row(1080, goal, 14, 94, 1500)[3:] for goal in range(5, 17)])
        check("some are too fast", {row[6] for row in table(document)[1]}, {"", "▲ too fast", "✕ no time left"})
        change(document, calories="0")
        heads, rows = table(document)
        check("without an ergometer: no rates", [heads[3], heads[4], heads[6]] + sum(([r[3], r[4], r[6]] for r in rows), []),
              [""] * (3 + 3 * 12))

        change(document, block=2, step="1", to="10", fade="0%")
        heads, rows = table(document)
        check("clock table: heads", heads, ["Round"] + [f"Goal {g}" for g in range(5, 11)])
        check("clock table", rows, [[f"{k}"] + [clock(1080 / g * k) if k <= g else "" for g in range(5, 11)]
                                    for k in range(1, 11)])
        change(document, **{"from": "20", "to": "25"})
        check("clock table of many rounds: each third", [row[0] for row in table(document)[1]],
              [f"{k}" for k in range(3, 27, 3)][:8])
        change(document, **{"from": "7.5", "to": "7.5"})
        check("clock table: half a round", [row[1] for row in table(document)[1]],
              [clock(1080 / 7.5 * k) for k in range(1, 8)])

        change(document, block=3, rate_from="700", rate_step="100", calories_from="10", calories_step="2")
        heads, rows = table(document)
        check("ergometer table: heads", heads, ["Calories"] + [f"{700 + 100 * j} cal/h" for j in range(6)])
        check("ergometer table", rows, [[f"{c}"] + [clock(c * 3600 / (700 + 100 * j)) for j in range(6)]
                                        for c in range(10, 34, 2)])


def test_mistakes():
    """What staff can get wrong is said in words, and no error shows."""
    cases = [
        (dict(cap=""), "cap"), (dict(cap="twenty"), "cap"), (dict(cap="900"), "cap"),
        ({"from": "12", "to": "8"}, "above the last"), ({"step": "0"}, "above 0"), ({"from": "few"}, "above 0"),
        ({"from": "1", "to": "30", "step": "1"}, "Too many goals"), (dict(block=2, **{"from": "1", "to": "9", "step": "1"}), "ends at 6"),
        (dict(calories="many"), ""), (dict(other_s="long"), ""), (dict(other_s="4000"), ""), (dict(version=""), ""),
        (dict(issued=""), ""), (dict(date="soon"), ""), (dict(fade="a bit"), None), (dict(limit=""), ""),
        (dict(block=3, rate_from=""), "as numbers"), (dict(block=3, calories_step="x"), "as numbers"),
    ]
    with shared([FUNCTIONS]) as office:
        for typed, word in cases:
            document = office.open(TEMPLATE)
            change(document, **typed)
            said = cell(document, "wall_check").String
            if word is not None:
                check(f"{typed}: what is said", said, re.compile(word) if word else "")
            heads, rows = table(document)
            check(f"{typed}: no error shows", BAD.findall(" ".join(sum(rows, heads) + [said])), [])
            document.close(True)
        document = office.open(TEMPLATE)
        cell(document, "wall_block").String = "no such table"
        check("no such table", cell(document, "wall_check").String, re.compile("Choose one of the tables"))
        check("an empty table", table(document), ([""] * COLUMNS, []))


def test_locked():
    """Only the choices are unlocked, each with a rule that explains itself."""
    names = ("gym", "title", "block", "date", "version", "issued", "cap", "from", "to", "step", "fade", "calories",
             "other_s", "limit", "rate_from", "rate_step", "calories_from", "calories_step")
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        check("sheets are protected", {sheet.isProtected() for sheet in document.Sheets}, {True})
        free = {cell(document, f"wall_{name}").AbsoluteName for name in names}
        sheet = document.Sheets[0]
        found = {sheet.getCellByPosition(col, row).AbsoluteName for row in range(40) for col in range(12)
                 if not sheet.getCellByPosition(col, row).CellProtection.IsLocked}
        check("unlocked cells", found, free)
        silent = []
        for name in names[2:]:
            rule = cell(document, f"wall_{name}").Validation
            if rule.Type.value == "ANY" or not rule.ShowErrorMessage or len(rule.ErrorMessage) < 20:
                silent.append(name)
        check("rules that explain themselves", silent, [])


def test_paper():
    """One page at once, on A4 and Letter, whatever is chosen; the right numbers are on it."""
    LOOK.mkdir(parents=True, exist_ok=True)
    with shared([FUNCTIONS]) as office:
        for block, word, numbers_there in ((1, "pace", ("2:30", "At 10:00", "720", "✕ no time left")),
                                           (2, "clock", ("Goal 8", "17:30", "20:00")),
                                           (3, "ergometer", ("900 cal/h", "1:00"))):
            document = office.open(TEMPLATE)
            change(document, gym="Quayside Shed", title="Slack Water", version="2", issued="21:40", block=block,
                   **({"to": "17", "step": "1"} if block == 1 else {"step": "1"}))
            for paper_size, width, height in (("A4", 21000, 29700), ("Letter", 21590, 27940)):
                style = document.StyleFamilies.getByName("PageStyles").getByName(document.Sheets[0].PageStyle)
                style.Width, style.Height = height, width
                pdf = WORK / f"{word}-{paper_size}.pdf"
                save(document, pdf)
                text = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True, text=True).stdout
                info = subprocess.run(["pdfinfo", pdf], check=True, capture_output=True, text=True).stdout
                check(f"{word}, {paper_size}: pages", re.search(r"Pages:\s+(\d+)", info)[1], "1")
                check(f"{word}, {paper_size}: no errors", BAD.findall(text), [])
                for there in (*numbers_there, "Slack Water", "Quayside Shed", "version 2", "21:40", "not medical advice",
                              "Stop on chest pain"):
                    check(f"{word}, {paper_size}: {there}", there in text, True)
                check(f"{word}, {paper_size}: nothing but the page", "Choose here" in text, False)
                if paper_size == "A4":
                    subprocess.run(["pdftoppm", "-r", "80", "-png", "-singlefile", pdf, LOOK / f"wall-{word}"], check=True)
                    subprocess.run(["pdftoppm", "-r", "80", "-gray", "-png", "-singlefile", pdf, LOOK / f"wall-{word}-grey"],
                                   check=True)
            document.close(True)


def test_files():
    """Saved and opened again: formulas and values stay."""
    with shared([FUNCTIONS]) as office:
        document = office.open(TEMPLATE)
        wanted, formula = table(document), cell(document, "wall_table").Formula
        for kind in ("ods", "fods", "xlsx"):
            save(document, WORK / f"saved.{kind}")
        document.close(True)
        for kind in ("ods", "fods", "xlsx"):
            again = office.open(WORK / f"saved.{kind}")
            check(f"{kind}: values", table(again), wanted)
            recalculate(again)
            check(f"{kind}: values, calculated anew", table(again), wanted)
            check(f"{kind}: formula", cell(again, "wall_table").Formula, formula)
            type_in(cell(again, "wall_cap"), "18:00")
            check(f"{kind}: still alive", table(again)[1][4][1], clock(1080 / 8))
            again.close(True)
