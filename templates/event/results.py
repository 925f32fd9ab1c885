"""The sheet Results: clocks, score and place. A result belongs to the name in its row, never to a row of the roster."""

from builder import Column, column, pc

from event.sizes import ATHLETES, ROUNDS, athlete, top

KEYS, HEAD, FIRST = 5, 6, 7
LAST = FIRST + ATHLETES - 1


AHEAD = '=IF(OR(${who}{row}=0;COUNT({clocks})=0);"";' + athlete("FORECAST", "INDEX(roster_people;${who}{row};0)", "{clocks}", "%d") + ")"


def typed(cells, *index):
    """What WORKOUT.RESULT makes of these cells of the row, with its clocks."""
    return pc("WORKOUT.RESULT", "workout", "${division}{row}", cells, "{clocks}", *index)


COLUMNS = (
    Column("name", "Name", 44, "input text shrunk", named=True),
    Column("division", "Division", 42, "cell shrunk",
           '=IF(${name}{row}="";"";IF(${who}{row}=0;{lost};INDEX(roster_division;${who}{row})))', named=True),
    Column("heat", "Heat", 13, "input number", named=True),
    Column("lane", "Lane", 13, "input number", named=True),
    Column("offset", "Starts later by", 16, "input time", shown="hidden"),
    Column("result", "Result", 28, "cell strong", '=IF(${who}{row}=0;"";' + typed("${partial}{row}:${out}{row}", 2) + ")", named=True),
    Column("place", "Place", 15, "cell strong",
           '=IF(${score}{row}="";"";' + pc("SCORE.PLACE", "${score}{row}", "results_score", 'IF(event_kind=2;"low";"high")', "${division}{row}",
                                          "results_division", 'IF(${tiebreak}{row}="";"";${tiebreak}{row})', "results_tiebreak") + ")", named=True),
    Column("partial", "Reps in the open round", 44, "input number shrunk", named=True,
           rule=("check", f"ISNUMBER({typed('{partial}{row}')})",
                 "Enter whole reps, fewer than the round has. Of intervals: those of each window, such as 15 14 13, or the score alone.")),
    Column("finish", "Finish time", 20, "input time", named=True,
           rule=("check", "AND(ISNUMBER({finish}{row});{finish}{row}>0;{finish}{row}<={cap})", "Enter minutes and seconds, not past the cap.")),
    Column("left", "Reps left at the cap", 22, "input number", named=True,
           rule=("check", f"AND(ISNUMBER({{left}}{{row}});{{left}}{{row}}>0;ISNUMBER({typed('{partial}{row}:{left}{row}')}))",
                 "Enter the whole reps not done at the cap.")),
    Column("tiebreak", "Tie-break", 21, "input time", named=True,
           rule=("check", "AND(ISNUMBER({tiebreak}{row});{tiebreak}{row}>0;{tiebreak}{row}<={cap})", "Enter minutes and seconds, not past the cap.")),
    Column("out", "Withdrew", 23, "input center", named=True, rule=("choose", "list_yes", "Choose yes if the athlete stopped; otherwise leave empty.")),
    Column("low", "Forecast low", 17, "cell rate", AHEAD.replace("%d", "1")),
    Column("expected", "Expected", 17, "cell rate", AHEAD.replace("%d", "2")),
    Column("high", "High", 17, "cell rate", AHEAD.replace("%d", "3")),
    Column("erg_times", "Ergometer times, timed rounds", 34, "input text"),
    Column("who", "Row", 12, "working",
           '=IF(${name}{row}="";0;IF(COUNTIF(roster_lane;TRIM(${name}{row}))*COUNTIF(results_name;${name}{row})=1;MATCH(TRIM(${name}{row});roster_lane;0);0))', shown="hidden"),
    # what cannot be read is told in the column Result, and has no place
    Column("score", "Score", 14, "working", '=IF(${who}{row}=0;"";' + typed("${partial}{row}:${out}{row}", 3) + ")", named=True, shown="hidden"),
)


def make(book):
    sheet, _ = book.results, book.texts
    top(sheet, "Results")
    letters = {col.key: column(place) for place, col in enumerate(COLUMNS)}
    first_clock, last_clock = column(len(COLUMNS)), column(len(COLUMNS) + ROUNDS - 1)
    first_stamp, last_stamp = column(len(COLUMNS) + ROUNDS), column(len(COLUMNS) + 2 * ROUNDS - 1)
    cap = f"$'{book.workout.title}'.{book.settings['cap']}"
    words = {"row": FIRST, "cap": cap, "clocks": f"${first_clock}{FIRST}:${last_clock}{FIRST}", "lost": _.lit("! on the roster once, and here once"), **letters}
    for col in COLUMNS:
        letter = letters[col.key]
        cells = f"{letter}{FIRST}:{letter}{LAST}"
        sheet.put(f"{letter}{KEYS}", col.key, "working")
        sheet.text(f"{letter}{HEAD}", col.label, "column head")
        if col.formula:
            sheet.down(f"{letter}{FIRST}", col.formula.format(**words), ATHLETES, col.style)
        else:
            sheet.styled(cells, col.style)
        if col.rule:
            kind, *rule = col.rule
            getattr(sheet, kind)(cells, *[part.format(**words) if isinstance(part, str) else part for part in rule])
        if col.named:
            sheet.name(f"results_{col.key}", cells)
        if col.shown == "hidden":
            sheet.hide_columns(letter, letter)
    sheet.put(f"{letters['partial']}{HEAD}", f'=IF(event_kind=3;{_.lit("Reps by window, or score")};{_.lit("Reps in the open round")})')
    for start, key in ((first_clock, "clock"), (first_stamp, "stamp")):
        place = len(COLUMNS) + (ROUNDS if key == "stamp" else 0)
        for k in range(ROUNDS):
            sheet.put(f"{column(place + k)}{KEYS}", f"{key}.{k + 1}", "working")
            sheet.put(f"{column(place + k)}{HEAD}", k + 1, "head")
    sheet.text(f"{first_clock}4", "Clock at the end of round", "section")
    sheet.styled(f"{first_clock}{FIRST}:{last_clock}{LAST}", "input time")
    sheet.styled(f"{first_stamp}{FIRST}:{last_stamp}{LAST}", "input clock")
    sheet.hide_columns(first_stamp, last_stamp)
    here, before = f"{first_clock}{FIRST}", f"${first_clock}{FIRST}:{first_clock}{FIRST}"
    sheet.check(f"{first_clock}{FIRST}:{last_clock}{LAST}",
                f"AND({here}<={cap}+1E-9;{here}=MAX({before});COUNT({before})=COLUMNS({before});{here}>N(OFFSET({here};0;-1))*(COLUMNS({before})>1))",
                "Enter the clock as minutes and seconds, later than the round before and not past the cap. Leave no round out.")
    sheet.name("results_clocks", f"{first_clock}{FIRST}:{last_clock}{LAST}")
    sheet.name("results_stamps", f"{first_stamp}{FIRST}:{last_stamp}{LAST}")
    sheet.name("results", f"A{KEYS}:{last_stamp}{LAST}")
    sheet.mark(f"{letters['partial']}{FIRST}:{letters['partial']}{LAST}", (f"AND($A{FIRST}<>\"\";event_kind=2)", "not used"))
    sheet.mark(f"{first_clock}{FIRST}:{last_clock}{LAST}", (f"AND($A{FIRST}<>\"\";event_kind=3)", "not used"))
    sheet.mark(f"{letters['finish']}{FIRST}:{letters['left']}{LAST}", (f"AND($A{FIRST}<>\"\";event_kind<>2)", "not used"))
    sheet.widths("A", *[col.width for col in COLUMNS], *[15] * (2 * ROUNDS))
    sheet.hide_rows(KEYS, KEYS)
    sheet.heights(HEAD, HEAD, 13)
    sheet.heights(FIRST, LAST, 5.6)
    sheet.freeze(f"B{FIRST}")
    sheet.page(f"A1:{letters['out']}{LAST}", landscape=True, repeat=(1, HEAD))
