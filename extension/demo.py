"""The second half of extension/demo: the example event in a real Calc. Arguments: BUILD, FOLDER, [--open]."""

import os
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "templates"))
from examples import open_example  # noqa: E402
from office import Office, recalculate, save  # noqa: E402

SHOWN = {"athlete": "name", "goal": "aim", "per round": "target", "rate to hold": "hold", "predicted": "predicted",
         "margin": "margin", "to fix": "note"}  # columns of the roster, by key
FORMULA_ERRORS = 4  # com.sun.star.sheet.FormulaResult.ERROR


def column(document, key):
    cells = document.NamedRanges.getByName("roster").ReferredCells
    place = cells.getDataArray()[0].index(key)
    return [cells.getCellByPosition(place, row).String for row in range(2, cells.Rows.Count)]


def print_table(document):
    rows = [row for row in zip(*(column(document, name) for name in SHOWN.values())) if row[0]]
    widths = [max(map(len, cells)) for cells in zip(SHOWN, *rows)]
    for row in [tuple(SHOWN), *rows]:
        print("  ".join(cell.ljust(width) for cell, width in zip(row, widths)).rstrip())
    return len(rows)


def errors(document):
    """The visible cells that show an error; #N/A is left out, it is how a chart is told to skip a point."""
    found = []
    for sheet in document.Sheets:
        if not sheet.IsVisible:
            continue
        for cell in sheet.queryFormulaCells(FORMULA_ERRORS).Cells:
            if cell.String != "#N/A":
                found.append(f"{cell.AbsoluteName} {cell.String}")
    return found


def main():
    build, folder = (Path(argument).resolve() for argument in sys.argv[1:3])
    roster, prints = folder / "roster.ods", folder / "prints.pdf"
    display = os.environ.get("DISPLAY", ":0") if "--open" in sys.argv else None
    folder.mkdir(parents=True, exist_ok=True)
    with Office([build / "pacecells.oxt"], folder / "office", reuse=True, display=display, limit=None if display else 600) as office:
        document = open_example(office, "rounds", hidden=not display)
        recalculate(document)
        if display:
            print("The example event is open in a window of its own; this ends when you close it.")
            office.process.wait()
            return 0
        count = print_table(document)
        wrong = errors(document)
        if wrong or not count:
            print(f"The workbook does not calculate as it should: {', '.join(wrong[:10]) or 'no athletes'}",
                  file=sys.stderr)
            return 1
        save(document, roster)
        done = office.dispatch(document, "vnd.org.pacecells:print-pack", Silent="true", File=str(prints), Overwrite="true")
        print(f"\n{done.Result}")
    print(f"{count} athletes. The workbook: {roster}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
