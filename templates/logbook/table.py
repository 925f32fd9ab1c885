"""A table of the logbook: a title, a line on what it holds, a hidden row of keys, headings, and rows to fill in."""

from builder import column

KEYS, HEAD, FIRST = 3, 4, 5  # rows, counted from 1
WHOLE = 1048576  # rows of a sheet


def make_table(sheet, name, title, line, columns, rows, printed=None, landscape=True):
    """The table `name` with room for so many rows. Its named range begins with the row of keys. printed: the key of the last
    column that is printed; what stands behind it is for commands, or would make the letters too small."""
    last = FIRST + rows - 1
    sheet.text("A1", title, "title")
    sheet.text("A2", line, "note line")
    for place, col in enumerate(columns):
        letter = column(place)
        cells = f"{letter}{FIRST}:{letter}{last}"
        sheet.put(f"{letter}{KEYS}", col.key, "working")
        sheet.text(f"{letter}{HEAD}", col.label, "column head")
        sheet.styled(cells, col.style)
        col.limit(sheet, cells)
        if col.help:
            sheet.hint(f"{letter}{HEAD}", col.label, col.help)
    end = column(len(columns) - 1)
    sheet.name(name, f"A{KEYS}:{end}{last}")
    sheet.widths("A", *[col.width for col in columns])
    sheet.heights(1, 1, 10)
    sheet.heights(2, 2, 5.5)
    sheet.heights(HEAD, HEAD, 17)
    sheet.hide_rows(KEYS, KEYS)
    sheet.freeze(f"B{FIRST}")
    last_printed = column(next((place for place, col in enumerate(columns) if col.key == printed), len(columns) - 1))
    # Of a print area of whole columns the office prints the rows in use alone.
    sheet.page(f"A1:{last_printed}{WHOLE}", landscape=landscape, repeat=(1, HEAD), caution=False)
