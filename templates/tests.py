"""The test-results workbook: athletes write down what they did, and see at once what it means.

One row per athlete on the sheet Tests; a page for one athlete; a summary that event workbooks take over. The workings
are a hidden sheet with one row an athlete, so that every number can be traced.
"""

from builder import CAUTION, SERIES, Book, address, column, day_text, pc, quoted
from office import save
from workings import RIEGEL, Columns

ATHLETES, MOVEMENTS = 200, 10
FIRST = 9  # first athlete
LAST = FIRST + ATHLETES - 1
WINDOW = (120, 1200)  # s, where the line through the tests is honest (common practice around critical power)
NEAR = 1.5  # tests whose lengths differ by less than this factor hardly fix a line (judgement, no source)
WIDE = 0.05  # a standard error above this share of critical power asks for another test (judgement, no source)
SECOND, HOUR = 1 / 86400, 1 / 24

MACHINES = (("row", "Rower", (1000, 2000)), ("ski", "Ski ergometer", (1000, 2000)),
            ("bike", "Bike ergometer", (2000, 4000)))
KINDS = ("metres", "metres", "calories", "calories in", "watts")
MOVEMENT_NAMES = ("Hanging leg raise", "Single-arm hang to overhead", "Pull-up", "Push-up", "Burpee", "Box step-over",
                  "Deadlift", "Clean and jerk", "Front squat", "Overhead squat")

TIME_MESSAGE = ("Type minutes and seconds with a colon, such as 7:45. Allowed: 0:30 to 59:59. Only the time that you "
                "really did.")
UNIT = " Not more than the best in the world: is the unit right?"
OVER_RESULTS = " If there are results below, do not change this: they were done over it."


def lay_out(book):
    book.how = book.sheet("How to test")
    book.entry = book.sheet("Tests")
    book.mine = book.sheet("My tests")
    book.summary = book.sheet("Summary")
    book.setup = book.sheet("Set-up")
    book.work = book.sheet("Workings")
    book.work_bikes = book.sheet("Workings, bikes")
    book.lists = book.sheet("Lists")
    make_lists(book)
    make_setup(book)
    make_entry(book)
    make_work(book)
    make_meaning(book)
    make_summary(book)
    make_mine(book)
    make_how(book)
    for sheet in (book.work, book.work_bikes, book.lists):
        sheet.sheet.IsVisible = False


def make(office, folder, language):
    book = Book(office, language)
    book.make(lay_out)
    book.finish("Test results")
    save(book.document, folder / "tests.ots")
    book.document.close(True)
    return book.texts


def heading(sheet, title):
    sheet.text("A1", title, "title")
    sheet.heights(1, 1, 11)
    sheet.put("A2", "=setup_heading", "stamp")


def make_lists(book):
    sheet = book.lists
    for row, word in enumerate(("ready", "newcomer", "minor", "returning", "injured"), 1):
        sheet.put(f"A{row}", book.texts(word), "working")
    sheet.name("list_status", "A1:A5")


def make_setup(book):
    sheet, say = book.setup, book.texts.say
    sheet.widths("A", 95, 85)
    heading(sheet, "Set-up")
    rows = (("Gym", "setup_gym", "input text", None), ("Title", "setup_title", "input text", book.texts("Test results")),
            ("Test age counted up to", "setup_today", "input date", "=TODAY()"),
            ("Tests valid for, weeks", "setup_weeks", "input number", 12),
            ("Time cap for the floor", "setup_cap", "input time", 20 * 60 * SECOND),
            ("Floor: % of ergometer-only watts", "setup_share", "input share", 0.75))
    for row, (label, name, style, value) in enumerate(rows, 4):
        sheet.text(f"A{row}", label)
        sheet.put(f"B{row}", value, style)
        sheet.name(name, f"B{row}")
    sheet.limit("B6", 36526, 73050, "Enter a date. To count up to today, clear the cell and type =TODAY().")
    sheet.whole("B7", 1, 104, "Enter weeks as a whole number, 1 to 104. Fitness changes: 12 is typical.")
    sheet.limit("B8", 2 * 60 * SECOND, 4 * HOUR - 1e-9, "Enter minutes and seconds, such as 20:00.")
    sheet.limit("B9", 0.4, 1, "Enter a percentage from 40% to 100%. 75% is our judgement for mixed workouts.")
    sheet.text("A11", "Printed on every sheet")
    sheet.put("B11", "=" + book.unless_absent("setup_answers", say(
        "{gym}{title}, as of {day}", gym='IF(setup_gym="";"";setup_gym&": ")', title="setup_title",
        day=day_text("setup_today", book.texts.date))))
    sheet.name("setup_heading", "B11")
    book.answers(book.lists, "setup_answers", "E1")
    sheet.merged("A13:B13", book.texts(
        "The amounts of the tests (2000 m, 50 cal, 3:00) and the names of the movements are in the headings of the sheet Tests. Change them there before anyone enters a result."), "note")
    sheet.heights(13, 13, 10)
    sheet.page("A1:B13")


# Entry --------------------------------------------------------------------------------------------------------------

GROUP = 12  # columns a machine takes: five tests, date, effort; five of meaning
ROW_AT = {key: 3 + GROUP * m for m, (key, *_) in enumerate(MACHINES)}  # first column, counted from 0
ARM_AT = 3 + GROUP * len(MACHINES)
ARM_WIDTH = 6
SETS_AT = ARM_AT + ARM_WIDTH  # the date of sets and loads, then four columns a movement


def rows(col, count=1, first=FIRST, last=LAST):
    """A block of entry columns, col counted from 0."""
    return f"{address(col, first - 1)}:{address(col + count - 1, last - 1)}"


def make_entry(book):
    sheet, _ = book.entry, book.texts
    heading(sheet, "Tests")
    sheet.widths("A", 36, 22, 76)
    sheet.merged("A3:C3", _("One row per athlete. Type only in the yellow cells: your results, under the machine "
                            "you used. The white cells update at once. To read and print your page: sheet My "
                            "tests. To test safely: sheet How to test."), "note")
    sheet.merged("A4:C4", _(CAUTION), "caution")
    sheet.heights(3, 3, 13)
    sheet.heights(4, 4, 19)
    sheet.merged("A6:A8", _("Name"), "head")
    sheet.merged("B6:B8", _("Status"), "head")
    sheet.merged("C6:C8", _("Check"), "head")
    sheet.heights(6, 6, 7)
    sheet.heights(7, 7, 13)
    sheet.heights(8, 8, 7)
    sheet.heights(FIRST, LAST, 9)
    sheet.styled(f"A{FIRST}:A{LAST}", "input text")
    sheet.name("athlete_name", f"A{FIRST}:A{LAST}")
    sheet.check(f"A{FIRST}:A{LAST}", f"AND(ISTEXT(A{FIRST});SUMPRODUCT($A${FIRST}:$A${LAST}=A{FIRST})=1)",
                "This name is already on the list, or it is not a name. Use the existing row; if two people share "
                "a name, add a letter.")
    sheet.styled(f"B{FIRST}:B{LAST}", "input")
    sheet.name("athlete_status", f"B{FIRST}:B{LAST}")
    sheet.choose(f"B{FIRST}:B{LAST}", "list_status", "Choose from the list; empty means ready.")
    for machine in MACHINES:
        entry_machine(sheet, *machine)
    entry_armbike(sheet)
    entry_sets(sheet)
    sheet.freeze(f"B{FIRST}")
    sheet.page(f"A5:{address(SETS_AT + 4 * MOVEMENTS, LAST - 1)}", landscape=True, repeat=(5, 8),
               repeat_columns=("A", "A"), wide=0, scale=84, fit="entry")
    # A page for each machine, three for the sets, each with the stamp; the scale fits A4 and Letter.
    breaks = [*ROW_AT.values(), ARM_AT, SETS_AT, *(SETS_AT + 1 + 4 * k for k in (3, 7))]
    for col in breaks:
        sheet.sheet.Columns.getByIndex(col).IsStartOfNewPage = True
    for col in (1, *breaks):
        sheet.put(address(col, 4), "=setup_heading", "stamp")


def watts_of(kind, time, amount, machine):
    """Mean watts of a test; an error where nobody holds that much for that long."""
    done = {"metres": f'{amount}&" m"', "watts": f'{amount}&" W"'}.get(kind, amount)
    return pc("ERG.CONVERT", pc("TEST.RATE", time, done, time, 1, quoted(machine)), '"cal/h"', '"W"')


def entry_tests(sheet, machine, first, kinds, amounts):
    """Columns of results, one kind of test each, the amount in the head. A kind says what is typed below."""
    heads = {"metres": "Time over", "calories": "Time for", "calories in": "Calories in", "watts": "Average watts over"}
    for step, (kind, amount) in enumerate(zip(kinds, amounts)):
        letter = column(first + step)
        sheet.text(f"{letter}7", heads[kind], "head")
        head, cells = f"{letter}8", f"{letter}{FIRST}:{letter}{LAST}"
        empty = f"COUNTA({letter}${FIRST}:{letter}${LAST})=0"
        timed = kind in ("calories in", "watts")
        sheet.put(head, amount, "input head time" if timed else f"input head {kind}")
        sheet.styled(cells, "input number" if timed else "input time")
        if timed:
            sheet.check(head, f"AND(ISNUMBER({head});{head}>={30 * SECOND};{head}<{HOUR};{empty})",
                        "Type minutes and seconds with a colon, such as 10:00; from 0:30 to 59:59." + OVER_RESULTS)
        elif kind == "metres":
            sheet.check(head, f"AND(ISNUMBER({head});{head}>=100;{head}<=30000;{empty})",
                        "Enter metres, 100 to 30000." + OVER_RESULTS)
        else:
            sheet.check(head, f"AND(ISNUMBER({head});{head}>=5;{head}<=500;{empty})",
                        "Enter calories, 5 to 500." + OVER_RESULTS)
        here, amount = f"{letter}{FIRST}", f"{letter}$8"
        fits = "TRUE()" if machine == "armbike" else "ISNUMBER(" + (
            watts_of(kind, amount, here, machine) if timed else watts_of(kind, here, amount, machine)) + ")"
        if not timed:
            sheet.check(cells, f"AND({here}>={30 * SECOND};{here}<{HOUR};{fits})", TIME_MESSAGE + UNIT)
        elif kind == "watts":
            sheet.check(cells, f"AND({here}>=20;{here}<=1000;{fits})",
                        "Type the average watts that the monitor showed at the end, 20 to 1000." + UNIT)
        else:
            sheet.check(cells, f"AND({here}>=3;{here}<=1500;{fits})",
                        "Type the calories that the monitor showed at the end, 3 to 1500." + UNIT)


def entry_date(sheet, col, name):
    sheet.merged(f"{address(col, 6)}:{address(col, 7)}", sheet._("Date of the oldest test used"), "head")
    sheet.styled(rows(col), "input date")
    sheet.limit(rows(col), "36526", "setup_today+1",
                "Enter the day of the tests, such as 2026-03-14. A future day is not accepted.")
    sheet.name(name, rows(col))


def entry_machine(sheet, key, title, distances):
    first = ROW_AT[key]
    sheet.widths(column(first), *[15.5] * 5, 21, 16.5, 16, 16, 15, 66, 32)
    sheet.merged(f"{address(first, 5)}:{address(first + GROUP - 1, 5)}", sheet._(title), "head")
    entry_tests(sheet, key, first, KINDS,
                (*distances, 50, 600 * SECOND, 180 * SECOND))
    sheet.name(f"header_{key}", f"{address(first, 7)}:{address(first + 4, 7)}")
    sheet.name(f"athlete_{key}", rows(first, 5))
    entry_date(sheet, first + 5, f"athlete_{key}_date")
    effort = first + 6
    sheet.merged(f"{address(effort, 6)}:{address(effort, 7)}", sheet._("Effort elsewhere, from an event"), "head")
    sheet.styled(rows(effort), "input share")
    sheet.limit(rows(effort), 0.1, 2, "Enter the effort at the other stations from the review of an earlier "
                                      "event, such as 104%. Leave empty if there was none.")
    sheet.name(f"athlete_{key}_effort", rows(effort))
    for step, head in enumerate(("Critical power, W", "Reserve, kJ", "Floor, cal/h", "How sure", "Age of the tests"), 7):
        sheet.merged(f"{address(first + step, 6)}:{address(first + step, 7)}", sheet._(head), "head")


def entry_armbike(sheet):
    first = ARM_AT
    sheet.widths(column(first), 17, 17, 21, 24, 20, 40)
    sheet.merged(f"{address(first, 5)}:{address(first + ARM_WIDTH - 1, 5)}", sheet._("Fan bike: its own tests only"), "head")
    entry_tests(sheet, "armbike", first, ("calories", "calories in"), (50, 600 * SECOND))
    sheet.name("header_armbike", f"{address(first, 7)}:{address(first + 1, 7)}")
    sheet.name("athlete_armbike", rows(first, 2))
    entry_date(sheet, first + 2, "athlete_armbike_date")
    for step, head in enumerate(("Longest test, cal/h", "Floor, cal/h", "Age of the tests"), 3):
        sheet.merged(f"{address(first + step, 6)}:{address(first + step, 7)}", sheet._(head), "head")


def entry_sets(sheet):
    first = SETS_AT
    sheet.widths(column(first), 21, *[15] * 4 * MOVEMENTS)
    sheet.text(address(first, 5), "Sets, loads", "head")
    entry_date(sheet, first, "athlete_sets_date")
    for k in range(MOVEMENTS):
        at = first + 1 + 4 * k
        sheet.merged(f"{address(at, 5)}:{address(at + 3, 5)}", sheet._(MOVEMENT_NAMES[k]), "input head")
        for step, head in enumerate(("Longest set", "Load, kg", "Reps at that load", "Seconds per rep")):
            sheet.merged(f"{address(at + step, 6)}:{address(at + step, 7)}", sheet._(head), "head")
        sheet.styled(rows(at, 4), "input number")
        sheet.whole(rows(at), 1, 999, "Enter the longest unbroken set as a whole number, done fresh and with good "
                                      "form.")
        sheet.limit(rows(at + 1), 1, 500, "Enter kilograms, 1 to 500.")
        sheet.whole(rows(at + 2), 1, 10, "Enter the reps done at that load, 1 to 10; beyond 10 they say little "
                                         "about the one-rep max. Empty means one.")
        sheet.limit(rows(at + 3), 0.17, 600, "Enter seconds as a plain number, such as 2.5.")
    end = first + 4 * MOVEMENTS
    sheet.name("athlete_movements", f"{address(first + 1, 5)}:{address(end, 5)}")
    sheet.name("athlete_sets", rows(first + 1, 4 * MOVEMENTS))


# Workings -----------------------------------------------------------------------------------------------------------

def make_work(book):
    sheet = book.work
    sheet.put("A1", book.texts("One row per athlete"), "working head")
    w = Columns(sheet, 4, ATHLETES, "w", long=True)
    w.add("n", None)
    w.add("name", 'INDEX(athlete_name;{n})&""')
    w.add("twice", 'IF({name}="";0;IF(COUNTIF(athlete_name;{name})>1;1;0))')
    w.add("status", 'IF(INDEX(athlete_status;{n})="";1;IFERROR(MATCH(INDEX(athlete_status;{n});list_status;0);0))')
    for key, *_ in MACHINES:
        if key == "bike":
            w.carry_on(book.work_bikes, book.texts("One row per athlete: bikes, sets"))
        work_machine(w, key)
    work_armbike(w)
    w.add("sets_n", "COUNT(INDEX(athlete_sets;{n};0))")
    w.add("sets_old", "IF({sets_n}=0;0;" + age("athlete_sets_date") + ")")
    w.add("entries", "COUNTA(INDEX(athlete_sets;{n};0))" + "".join(
        f"+COUNTA(INDEX(athlete_{key};{{n}};0))" for key in ("row", "ski", "bike", "armbike")))
    w.add("no_number", "{entries}-{sets_n}" + "".join(
        f"-COUNT(INDEX(athlete_{key};{{n}};0))" for key in ("row", "ski", "bike", "armbike")))
    return w


def age(dates):
    """1: within the weeks that a test counts; 2: older; 3: no date; 4: a day to come."""
    day = f"N(INDEX({dates};{{n}}))"
    return f"IF({day}<=0;3;IF({day}>setup_today+1;4;IF(setup_today-{day}>7*setup_weeks;2;1)))"


def typed(key, i):
    return f"N(INDEX(athlete_{key};{{n}};{i}))"


def common(w, key, tests):
    """Which tests count: those of 2 to 20 minutes where there are two of them, else all. -1 stands for a result that
    cannot be."""
    w.add(f"{key}_bad", "0" + "".join(f"+({{{key}_w{i}}}<0)" for i in tests))
    inside = [f"AND({{{key}_w{i}}}>0;{{{key}_t{i}}}>{WINDOW[0]}/86400-1E-9;{{{key}_t{i}}}<{WINDOW[1]}/86400+1E-9)"
              for i in tests]
    for i, formula in zip(tests, inside):
        w.add(f"{key}_in{i}", f"IF({formula};1;0)")
    w.add(f"{key}_inside", "+".join(f"{{{key}_in{i}}}" for i in tests))
    for i in tests:
        w.add(f"{key}_ut{i}", f'IF(AND({{{key}_w{i}}}>0;OR({{{key}_inside}}<2;{{{key}_in{i}}}=1));{{{key}_t{i}}};"")')
    for i in tests:
        w.add(f"{key}_uw{i}", f'IF({{{key}_ut{i}}}="";"";{{{key}_w{i}}})')
    times, watts = f"{{{key}_times}}", f"{{{key}_watts}}"
    w.span(f"{key}_times", f"{key}_ut{tests[0]}", f"{key}_ut{tests[-1]}")
    w.span(f"{key}_watts", f"{key}_uw{tests[0]}", f"{key}_uw{tests[-1]}")
    w.add(f"{key}_used", f"COUNT({times})")
    w.add(f"{key}_longest", f"IF({{{key}_used}}=0;0;MAX({times}))")
    w.add(f"{key}_rate", f"IF({{{key}_used}}=0;0;INDEX({watts};MATCH({{{key}_longest}};{times};0)))")
    return times, watts


def work_machine(w, key):
    tests = range(1, 6)
    amount = lambda i: f"INDEX(header_{key};{i})"
    for i in tests:
        w.add(f"{key}_t{i}", typed(key, i) if i <= 3 else f"IF({typed(key, i)}=0;0;{amount(i)})")
    for i, kind in zip(tests, KINDS):
        time = f"{{{key}_t{i}}}"
        w.add(f"{key}_w{i}", f"IF({time}=0;0;IFERROR({watts_of(kind, time, amount(i) if i <= 3 else typed(key, i), key)};-1))")
    times, watts = common(w, key, tests)
    k = lambda text: text.replace("@", key)
    fit = lambda i: pc("TEST.CRITICAL", times, watts, i)
    # 0: none, 1: one test, 2: two, 3: more, 4: they contradict each other, 5: two of the same length
    w.add(k("@_alike"), k("IF({@_used}<2;0;0") + "".join(
        f"+IF({{{key}_ut{i}}}=\"\";0;COUNTIF({times};{{{key}_ut{i}}})-1)" for i in tests) + ")")
    w.add(k("@_cp"), k("IF(OR({@_used}<2;{@_alike}>0);0;IFERROR(") + fit(1) + ";0))")
    w.add(k("@_reserve"), k("IF({@_cp}=0;0;") + fit(2) + ")")
    w.add(k("@_state"), k("IF({@_used}<2;{@_used};IF({@_alike}>0;5;IF({@_cp}=0;4;MIN({@_used};3))))"))
    w.add(k("@_error"), k("IF({@_state}<>3;0;") + fit(3) + ")")
    w.add(k("@_reserve_error"), k("IF({@_state}<>3;0;") + fit(4) + ")")
    w.add(k("@_out"), k("IF(OR({@_used}=0;{@_inside}={@_used});0;1)"))
    w.add(k("@_near"), k(f"IF({{@_used}}<2;0;IF(MAX({times})<{NEAR}*MIN({times});1;0))"))
    w.add(k("@_old"), k("IF({@_used}=0;0;") + age(f"athlete_{key}_date") + ")")
    single = f"setup_share*{{{key}_rate}}*({{{key}_longest}}/setup_cap)^{RIEGEL:.15g}"
    w.add(k("@_floor"), k("IF(OR({@_used}=0;{status}<>1);0;IFERROR(IF({@_cp}>0;") +
          pc("TEST.FLOOR", "setup_cap", k("{@_cp}"), k("{@_reserve}"), "setup_share") + ";" +
          pc("ERG.CONVERT", single, '"W"', '"cal/h"', quoted(key)) + ");0))")
    w.add(k("@_cal"), k("IF({@_used}=0;0;IFERROR(") + pc(
        "ERG.CALORIES", k("{@_longest}"), pc("ERG.CONVERT", k("{@_rate}"), '"W"', '"cal/h"', quoted(key))) + ";0))")


def work_armbike(w):
    key, tests = "armbike", (1, 2)
    w.add("armbike_t1", f"{typed(key, 1)}")
    w.add("armbike_t2", f"IF({typed(key, 2)}=0;0;INDEX(header_armbike;2))")
    for i, calories in ((1, "INDEX(header_armbike;1)"), (2, typed(key, 2))):
        rate = pc("ERG.RATE", calories, f"{{armbike_t{i}}}")
        w.add(f"armbike_w{i}", f"IF({{armbike_t{i}}}=0;0;IFERROR(IF({rate}<6000;{rate};-1);-1))")
    common(w, key, tests)
    w.add("armbike_old", "IF({armbike_used}=0;0;" + age("athlete_armbike_date") + ")")
    w.add("armbike_floor", "IF(OR({armbike_used}=0;{status}<>1);0;setup_share*{armbike_rate}*"
          f"({{armbike_longest}}/setup_cap)^{RIEGEL:.15g})")
    w.add("armbike_cal", "IF({armbike_used}=0;0;{armbike_longest}*24*{armbike_rate})")


# What the tests mean, beside them -------------------------------------------------------------------------------------

def sure(book, key, of):
    """The words for how sure critical power is; of("cp") gives the cell of that working."""
    say, lit = book.texts.say, book.texts.lit
    percent = f'ROUND(100*{of("error")}/{of("cp")};1)'
    three = "IF({wide};{unsure};{fine})".format(
        wide=f"{of('error')}>{WIDE}*{of('cp')}",
        unsure=say("▲ {n} tests, ± {w} W ({share}%): too uncertain, repeat the one you trust least", n=of("used"),
                   w=f'ROUND({of("error")};0)', share=percent),
        fine=say("{n} tests: ± {w} W ({share}%)", n=of("used"), w=f'ROUND({of("error")};1)', share=percent))
    return (f'IF({of("used")}=0;"";IF({of("state")}=4;{lit("▲ the tests contradict each other: repeat the shorter one")};'
            f'IF({of("state")}=5;{lit("▲ two tests of the same length: leave one out")};'
            f'IF({of("state")}=1;IF({of("out")}=1;{lit("▲ one test, outside 2 to 20 minutes: a guess")};'
            f'{lit("one test: only a share of it is used; add one of a different length")});'
            f'IF({of("out")}=1;{lit("▲ tests outside 2 to 20 minutes: a guess")};'
            f'IF({of("near")}=1;{lit("▲ tests close in length: unsure, add one three times as long")};'
            f'IF({of("state")}=2;{lit("two tests: the line is exact, its error unknown")};{three})))))))')


def how_old(book, old, dates, n):
    """The words for the age of tests."""
    say, lit = book.texts.say, book.texts.lit
    weeks = f"INT((setup_today-INDEX({dates};{n}))/7)"
    return (f'IF({old}=0;"";IF({old}=3;{lit("▲ no date: does not count")};IF({old}=4;{lit("▲ a date in the future")};'
            f'IF({old}=2;{say("▲ too old, weeks: {w}", w=weeks)};{say("weeks old: {w}", w=weeks)}))))')


def make_meaning(book):
    sheet, lit, say = book.entry, book.texts.lit, book.texts.say
    n = f"(ROW()-{FIRST - 1})"
    work = lambda name: f"INDEX(w_{name};{n})"
    for key, title, _distances in MACHINES:
        of = lambda name, key=key: work(f"{key}_{name}")
        first = ROW_AT[key] + 7
        cells = [address(first + step, FIRST - 1) for step in range(5)]
        sheet.down(cells[0], f'=IF({of("cp")}=0;"";{of("cp")})', ATHLETES, "cell whole")
        sheet.down(cells[1], f'=IF({of("cp")}=0;"";{of("reserve")}/1000)', ATHLETES, "cell tenth")
        sheet.down(cells[2], f'=IF({of("floor")}=0;"";{of("floor")})', ATHLETES, "cell whole")
        sheet.down(cells[3], "=" + sure(book, key, of), ATHLETES, "cell words")
        sheet.down(cells[4], "=" + how_old(book, of("old"), f"athlete_{key}_date", n), ATHLETES, "cell words")
        sheet.mark(rows(first + 3, 2), (f'LEFT({address(first + 3, FIRST - 1)};1)="▲"', "mark words"))
    first = ARM_AT + 3
    of = lambda name: work(f"armbike_{name}")
    sheet.down(address(first, FIRST - 1), f'=IF({of("used")}=0;"";{of("rate")})', ATHLETES, "cell whole")
    sheet.down(address(first + 1, FIRST - 1), f'=IF({of("floor")}=0;"";{of("floor")})', ATHLETES, "cell whole")
    sheet.down(address(first + 2, FIRST - 1), "=" + how_old(book, of("old"), "athlete_armbike_date", n), ATHLETES,
               "cell words")
    sheet.mark(rows(first + 2), (f'LEFT({address(first + 2, FIRST - 1)};1)="▲"', "mark words"))
    machines = [key for key, *_ in MACHINES]
    any_of = lambda test: "OR(" + ";".join(test.replace("@", key) for key in machines) + ")"
    olds = [*machines, "armbike", "sets"]
    words = [
        (f'AND({work("name")}="";{work("entries")}>0)', lit("▲ results without a name: whose are they?")),
        (f'{work("name")}=""', '""'),
        (f'{work("twice")}=1', lit("▲ the name is here twice: only the first row is used")),
        (f'{work("status")}=0', lit("▲ status is not on the list: no floor until it is")),
        (f'{work("no_number")}>0', lit("▲ a result is text, not a number or a time: type it again, such as 7:45")),
        ("+".join(work(f"{key}_bad") for key in (*machines, "armbike")) + ">0",
         lit("▲ impossible result: more than the best in the world, or none; is the unit right? It is ignored")),
    ]
    for status, word in enumerate(("newcomer: no maximal test, no floor; build up over weeks",
                                   "minor: no maximal test, no floor; local rules come first",
                                   "returning: no maximal test, no floor; build up over weeks",
                                   "injured: no maximal test, no floor; a licensed professional decides"), 2):
        words.append((f'{work("status")}={status}', lit("● " + word)))
    words += [
        (any_of(f"INDEX(w_@_state;{n})=4"),
         lit("▲ tests contradict each other: the longest one alone is used until one is repeated")),
        ("OR(" + ";".join(f"{work(key + '_old')}>=3" for key in olds) + ")",
         lit("▲ enter the date of the tests: without it they do not count")),
        ("OR(" + ";".join(f"{work(key + '_old')}=2" for key in olds) + ")",
         say("▲ tests older than {w} weeks: they count no longer", w="setup_weeks")),
        (f'{work("entries")}=0', lit("no tests yet: the pace group is used")),
    ]
    formula = '""'
    for test, word in reversed(words):
        formula = f"IF({test};{word};{formula})"
    sheet.down(f"C{FIRST}", "=" + formula, ATHLETES, "cell words")
    sheet.mark(f"C{FIRST}:C{LAST}", (f'LEFT(C{FIRST};1)="▲"', "mark words"))


# Summary ------------------------------------------------------------------------------------------------------------

TOP = 8  # first athlete of the summary


def make_summary(book):
    sheet, _ = book.summary, book.texts
    heading(sheet, "Summary")
    last, n = TOP + ATHLETES - 1, f"(ROW()-{TOP - 1})"
    sheet.merged("A3:G3", _("What an event workbook needs. The command Import test results, in its menu "
                            "Pacecells, copies it by name."),
                 "note")
    sheet.heights(3, 3, 13)
    sheet.heights(6, 6, 8)
    sheet.heights(7, 7, 18)
    sheet.heights(TOP, last, 7)
    sheet.widths("A", 42, *[17, 17, 21, 17, 17, 17] * 4, *[17] * 3 * MOVEMENTS, 118)
    sheet.text("A7", "Name", "head")
    sheet.down(f"A{TOP}", f"=INDEX(w_name;{n})", ATHLETES, "cell")
    sheet.name("tests_name", f"A{TOP}:A{last}")
    heads = ("Critical power, W", "Reserve, J", "Date", "One test: time", "One test: calories", "Fitted effort elsewhere")
    titles = [(key, title) for key, title, *_rest in MACHINES] + [("armbike", "Fan bike")]
    for m, (key, title) in enumerate(titles):
        first = 1 + 6 * m
        cell = lambda step, first=first: address(first + step, TOP - 1)
        of = lambda name, key=key: f"INDEX(w_{key}_{name};{n})"
        sheet.merged(f"{address(first, 5)}:{address(first + 5, 5)}", _(title), "head")
        for step, head in enumerate(heads):
            sheet.text(address(first + step, 6), head, "head")
        positive = lambda value, test=None: f'=IF({test or value}=0;"";{value})'
        number = lambda name: f"N(INDEX(athlete_{key}_{name};{n}))"
        if key == "armbike":
            sheet.styled(f"{cell(0)}:{address(first + 1, last - 1)}", "not used")
            sheet.styled(f"{cell(5)}:{address(first + 5, last - 1)}", "not used")
        else:
            sheet.down(cell(0), positive(of("cp")), ATHLETES, "cell whole")
            sheet.down(cell(1), positive(of("reserve")), ATHLETES, "cell whole")
            sheet.down(cell(5), positive(number("effort")), ATHLETES, "cell share")
        sheet.down(cell(2), f'=IF({of("used")}*{number("date")}=0;"";{number("date")})', ATHLETES, "cell date")
        sheet.down(cell(3), positive(of("longest"), of("cal")), ATHLETES, "cell time")
        sheet.down(cell(4), positive(of("cal")), ATHLETES, "cell tenth")
        sheet.mark(f"{cell(2)}:{address(first + 2, last - 1)}", (f"INDEX(w_{key}_old;ROW()-{TOP - 1})=2", "mark"))
        sheet.name(f"tests_{key}", f"{cell(0)}:{address(first + 5, last - 1)}")
    first = 25
    for k in range(MOVEMENTS):
        at, four = first + 3 * k, 4 * k + 1
        sheet.merged(f"{address(at, 5)}:{address(at + 2, 5)}", f'=INDEX(athlete_movements;{four})&""', "head")
        for step, head in enumerate(("Longest set", "1RM, kg", "Own seconds per rep")):
            sheet.text(address(at + step, 6), head, "head")
        of = lambda step: f"N(INDEX(athlete_sets;{n};{four + step}))"
        best = pc("SETS.ONEREPMAX", of(1), f"IF({of(2)}=0;1;{of(2)})")
        sheet.down(address(at, TOP - 1), f'=IF({of(0)}=0;"";{of(0)})', ATHLETES, "cell whole")
        sheet.down(address(at + 1, TOP - 1), f'=IF({of(1)}=0;"";IFERROR({best};""))', ATHLETES, "cell tenth")
        sheet.down(address(at + 2, TOP - 1), f'=IF({of(3)}=0;"";{of(3)})', ATHLETES, "cell tenth")
    end = first + 3 * MOVEMENTS
    sheet.name("tests_movements", f"{address(first, 5)}:{address(end - 1, 5)}")
    sheet.name("tests_sets", f"{address(first, TOP - 1)}:{address(end - 1, last - 1)}")
    sheet.text(address(end, 6), "Check", "head")
    sheet.down(address(end, TOP - 1), f"=INDEX(Tests.$C${FIRST}:$C${LAST};{n})".replace("Tests", f"$'{book.entry.title}'"),
               ATHLETES, "cell words")
    sheet.name("tests_note", f"{address(end, TOP - 1)}:{address(end, last - 1)}")
    sheet.freeze(f"B{TOP}")
    # Two machines or four movements a page, each with the stamp; the scale fits A4 and Letter.
    breaks = (13, 25, 37, 49)
    for col in (1, *breaks):
        sheet.put(address(col, 4), "=setup_heading", "stamp")
    for col in breaks:
        sheet.sheet.Columns.getByIndex(col).IsStartOfNewPage = True
    sheet.page(f"A5:{address(end, last - 1)}", landscape=True, repeat=(5, 7), repeat_columns=("A", "A"), wide=0, scale=96,
               fit="summary")


# One athlete's page ---------------------------------------------------------------------------------------------------

def make_mine(book):
    sheet, _, lit, say = book.mine, book.texts, book.texts.lit, book.texts.say
    heading(sheet, "My tests")
    sheet.widths("A", 58, *[29] * 6)
    sheet.text("A4", "Choose your name", "label")
    sheet.styled("A5", "input text")
    sheet.name("mine_athlete", "A5")
    sheet.choose("A5", "athlete_name", "Choose a name from the list. Names are written on the sheet Tests.")
    sheet.put("I5", "=IFERROR(MATCH(mine_athlete;athlete_name;0);0)", "working")
    sheet.name("mine_row", "I5")
    note = f"INDEX($'{book.entry.title}'.$C${FIRST}:$C${LAST};mine_row)"
    sheet.merged("B5:G5", f'=IF(mine_row=0;IF(mine_athlete="";{lit("No name chosen yet.")};'
                          f'{lit("▲ This name is not on the sheet Tests.")});{note})', "problem")
    sheet.heights(5, 5, 10)
    of = lambda key, name: f"INDEX(w_{key}_{name};mine_row)"
    show = lambda value, shown=None: f'=IF(mine_row=0;"";IF({value}=0;"";{shown or value}))'

    sheet.merged("A7:G7", _("What your tests say"), "section")
    for letter, head in zip("BCDE", ("Critical power, W", "Standard error, W", "Reserve, kJ", "Standard error, kJ")):
        sheet.text(f"{letter}8", head, "head")
    sheet.text("A8", "Machine", "head left")
    sheet.merged("F8:G8", "=" + say("Floor for {cap}: cal/h and split", cap=f'IFERROR({pc("CLOCK.TEXT", "setup_cap")};"")'), "head")
    sheet.heights(8, 8, 10)
    for step, (key, title, _d) in enumerate(MACHINES):
        row = 9 + step
        sheet.text(f"A{row}", title, "cell")
        sheet.put(f"B{row}", show(of(key, "cp")), "cell whole")
        sheet.put(f"C{row}", show(of(key, "error")), "cell tenth")
        sheet.put(f"D{row}", show(of(key, "reserve"), of(key, "reserve") + "/1000"), "cell tenth")
        sheet.put(f"E{row}", show(of(key, "reserve_error"), of(key, "reserve_error") + "/1000"), "cell tenth")
        sheet.put(f"F{row}", show(of(key, "floor")), "cell whole")
        split = pc("ERG.CONVERT", of(key, "floor"), '"cal/h"', '"split"', f'"{key}"')
        sheet.put(f"G{row}", show(of(key, "floor"), f'IFERROR({split};"")'), "cell time")
    sheet.text("A12", "Fan bike", "cell")
    sheet.styled("B12:G12", "not used")
    sheet.put("F12", show(of("armbike", "floor")), "cell whole")
    for step, (key, title, _d) in enumerate(MACHINES):
        row = 14 + step
        sheet.text(f"A{row}", title, "cell")
        words = sure(book, key, lambda name, key=key: of(key, name))
        sheet.merged(f"B{row}:E{row}", f'=IF(mine_row=0;"";{words})', "cell words")
        sheet.merged(f"F{row}:G{row}", f'=IF(mine_row=0;"";{how_old(book, of(key, "old"), f"athlete_{key}_date", "mine_row")})', "cell words")
    sheet.text("A17", "Fan bike", "cell")
    sheet.merged("B17:E17", f'=IF(mine_row=0;"";IF({of("armbike", "used")}=0;"";{lit("its calories do not follow a power formula: a share of the longest test only")}))', "cell words")
    sheet.merged("F17:G17", f'=IF(mine_row=0;"";{how_old(book, of("armbike", "old"), "athlete_armbike_date", "mine_row")})', "cell words")
    sheet.text("A13", "Machine", "head left")
    sheet.merged("B13:E13", _("How sure"), "head")
    sheet.merged("F13:G13", _("Age of the tests"), "head")
    sheet.heights(14, 17, 6)
    sheet.mark("B14:G17", ('LEFT(B14;1)="▲"', "mark words"))

    sheet.merged("A19:G19", _("What you could hold: cal/h, fresh and on this machine only"), "section")
    sheet.text("A20", "For", "head left")
    minutes = (2, 5, 8, 12, 15, 20)
    for step, minute in enumerate(minutes, 1):
        sheet.put(address(step, 19), minute * 60 * SECOND, "head")
        sheet[address(step, 19)].NumberFormat = book.format("[M]:SS")
    for step, (key, title, _d) in enumerate(MACHINES):
        row = 21 + step
        sheet.text(f"A{row}", title, "cell")
        alone = pc("TEST.ALONE", "B$20", of(key, "cp"), of(key, "reserve"))
        ready = f'OR({of(key, "cp")}=0;INDEX(w_status;mine_row)<>1)'
        sheet.right(f"B{row}", f'=IF(mine_row=0;"";IF({ready};"";IFERROR({alone};"")))', len(minutes), "cell whole")

    row = 25
    sheet.merged(f"A{row}:G{row}", _("Sets and loads"), "section")
    row += 1
    for letter, head in zip("ABCDEFG", ("Movement", "Longest set", "Load, kg", "Reps at that load",
                                        "1RM, kg", "70% of 1RM, kg", "Seconds per rep")):
        sheet.text(f"{letter}{row}", head, "head")
    sheet.heights(row, row, 10)
    for k in range(MOVEMENTS):
        row += 1
        cell = lambda step: f"N(INDEX(athlete_sets;mine_row;{4 * k + 1 + step}))"
        sheet.put(f"A{row}", f'=INDEX(athlete_movements;{4 * k + 1})&""', "cell")
        best = pc("SETS.ONEREPMAX", cell(1), f"IF({cell(2)}=0;1;{cell(2)})")
        for letter, value, shown, style in (("B", cell(0), None, "cell whole"), ("C", cell(1), None, "cell center"),
                                            ("D", cell(1), f"IF({cell(2)}=0;1;{cell(2)})", "cell whole"),
                                            ("E", cell(1), f'IFERROR({best};"")', "cell tenth"),
                                            ("F", cell(1), f'IFERROR(0.7*{best};"")', "cell tenth"),
                                            ("G", cell(3), None, "cell tenth")):
            sheet.put(f"{letter}{row}", show(value, shown), style)
    row += 1
    sheet.merged(f"A{row}:G{row}", f'=IF(mine_row=0;"";{how_old(book, "INDEX(w_sets_old;mine_row)", "athlete_sets_date", "mine_row")})', "cell words")
    sheet.mark(f"A{row}:G{row}", (f'LEFT($A{row};1)="▲"', "mark words"))
    row += 2
    row = my_list(book, row, of)
    row += 1
    sheet.merged(f"A{row}:G{row}", _(
        "Critical power: what you can hold for a long time. Reserve: the work you can do above it before it runs "
        "out. Floor: the rate to hold to the end of a mixed workout, a share of what the machine alone would "
        "allow; the rest is left for the other stations. A test counts only for its own machine. 70%: if the load "
        "is lifted repeatedly above this, use the scaled version."),
        "note")
    sheet.heights(row, row, 13)
    row += 1
    sheet.merged(f"A{row}:G{row}", _(CAUTION), "caution")
    sheet.heights(row, row, 13)
    row += 2
    my_line(book, row)
    sheet.break_before(row)
    sheet.page(f"A1:G{row + 28}", repeat=(1, 2), wide=0, scale=75)


def my_list(book, row, of):
    """The tests of the chosen athlete one below the other; the columns I to O, hidden, hold all that there could be.
    Gives the row below."""
    sheet, _, lit, say = book.mine, book.texts, book.texts.lit, book.texts.say
    sheet.merged(f"A{row}:G{row}", _("The tests you wrote down"), "section")
    row += 1
    for letter, head in zip("ABCDE", ("Machine", "Test", "Time", "Watts", "cal/h")):
        sheet.text(f"{letter}{row}", head, "head")
    sheet.merged(f"F{row}:G{row}", _("Counted"), "head")
    row += 1
    first = at = row
    for key, title, *_rest in (*MACHINES, ("armbike", "Fan bike")):
        kinds = (("calories", "calories in") if key == "armbike" else
                 KINDS)
        for i, kind in enumerate(kinds, 1):
            amount = f"INDEX(header_{key};{i})"
            time, rate, used = of(key, f"t{i}"), of(key, f"w{i}"), of(key, f"ut{i}")
            clock = f'IFERROR({pc("CLOCK.TEXT", amount)};"")'
            what = {"metres": say("{m} m", m=amount), "calories": say("{c} cal", c=amount),
                    "calories in": say("{c} cal in {t}", c=f"INDEX(athlete_{key};mine_row;{i})", t=clock),
                    "watts": say("watts over {t}", t=clock)}[kind]
            rated = rate if key == "armbike" else f'IFERROR({pc("ERG.CONVERT", rate, quoted("W"), quoted("cal/h"), quoted(key))};"")'
            counted = (f'IF({rate}<0;{lit("▲ no: impossible value")};IF({used}="";{lit("▲ no: outside 2 to 20 minutes")};'
                       f'IF({of(key, f"in{i}")}=0;{lit("▲ yes, though outside 2 to 20 minutes")};{lit("yes")})))')
            sheet.put(f"I{at}", f"=IF(mine_row=0;0;IF({time}=0;0;1+MAX(I${first - 1}:I{at - 1})))", "working")
            watts = '""' if key == "armbike" else f'IF({rate}<0;"";{rate})'
            for letter, value in zip("JKLMNO", (lit(title), what, time, watts, f'IF({rate}<0;"";{rated})', counted)):
                sheet.put(f"{letter}{at}", f'=IF(I{at}=0;"";{value})', "working")
            at += 1
    for letter, source, style in zip("ABCDEF", "JKLMNO", ("cell", "cell center", "cell time", "cell whole", "cell whole",
                                                          "cell words")):
        shown = sheet.down(f"{letter}{first}", f'=IFERROR(INDEX(${source}${first}:${source}${at - 1};'
                           f'MATCH(ROW()-{first - 1};$I${first}:$I${at - 1};0));"")', at - first, "label")
        if letter != "F":
            sheet.mark(shown, (f'$A{first}<>""', style))
    for line in range(first, at):
        sheet[f"F{line}:G{line}"].merge(True)
    sheet.mark(f"F{first}:G{at - 1}", (f'LEFT($F{first};1)="▲"', "mark words"), (f'$A{first}<>""', "cell words"))
    for letter in "IJKLMNO":
        sheet.sheet.Columns.getByName(letter).IsVisible = False
    return at


def my_line(book, row):
    """Power against time: the tests and, where there are two or more, the line through them. What the chart draws stands
    beside the page, in columns too narrow to see."""
    sheet, _ = book.mine, book.texts
    sheet.merged(f"A{row}:G{row}", '=IF(mine_row=0;"";mine_athlete&": ")&' + book.texts.lit("your tests and the line through them"), "section")
    longest, tests = 20, 5
    first = row + 1
    last = first + longest - 1 + tests * len(MACHINES)
    heads = [_("Minutes")] + [f"{_(title)}{part}" for _key, title, *_rest in MACHINES
                              for part in ("", ": " + _("tests"))]
    sheet.row(f"Q{row}", heads, "working")
    sheet.numbers(f"Q{first}", longest - 1, "working", start=2)
    for m, (key, *_rest) in enumerate(MACHINES):
        of = lambda name, key=key: f"INDEX(w_{key}_{name};mine_row)"
        line, points = column(17 + 2 * m), column(18 + 2 * m)
        for letter in (line, points):
            sheet.down(f"{letter}{first}", "=NA()", last - first, "working")
        sheet.down(f"{line}{first}", f'=IF(mine_row=0;NA();IF({of("cp")}=0;NA();{of("cp")}+{of("reserve")}/(60*$Q{first})))',
                   longest - 1, "working")
        for i in range(tests):
            at = first + longest - 1 + tests * m + i
            sheet.put(f"Q{at}", f'=IF(mine_row=0;NA();IF({of(f"w{i + 1}")}>0;1440*{of(f"t{i + 1}")};NA()))', "working")
            sheet.put(f"{points}{at}", f'=IF(mine_row=0;NA();IF({of(f"w{i + 1}")}>0;{of(f"w{i + 1}")};NA()))', "working")
    chart = sheet.chart("power", "XY", f"A{first}", (230, 120), (f"Q{row}:{column(16 + 2 * len(MACHINES))}{last - 1}",),
                        "Power against time", "Minutes", "Watts", 0)
    for m in range(len(MACHINES)):
        ink, dash, symbol = SERIES[m]
        sheet.series(chart, 2 * m, ink, dash, None)
        sheet.series(chart, 2 * m + 1, ink, None, symbol)
    for step in range(1 + 2 * len(MACHINES)):
        sheet.sheet.Columns.getByIndex(16 + step).Width = 10


# How to test ----------------------------------------------------------------------------------------------------------

HOW = (
    ("Who should test, and who should not", (
        "Only healthy athletes with weeks of regular training behind them, screened first (PAR-Q+ or what your gym uses).",
        "No maximal test for newcomers, minors, people coming back after a break, an illness or childbirth, and "
        "people with an injury. They train in a pace group, which the coach chooses from watching them.",
        ("No maximal test in the three days before an event, and never two on one day. Leave two easy days between "
         "them."),
        "Stop at once on chest pain, faintness, dizziness, unusual breathlessness or unusual pain. Call for help; do not "
        "finish first. Dark urine or swollen, very sore muscles in the days after: see a doctor the same day.",
        "A coach's plan is not medical advice. Licensed professionals and local rules come first.")),
    ("Before a test", (
        "Eight to ten hours of sleep, food as on any other day, drink to thirst. Never alone: somebody watches.",
        "Warm up 10 to 15 minutes: easy work on the machine, joints through their full range, three short builds to the "
        "pace of the test. Then 5 minutes easy.",
        ("Set the damper and foot straps as usual, and the monitor to the test. If your hands are torn, wait until "
         "they heal."))),
    ("Tests on a machine", (
        "Two or more tests of different length on the same machine, each all out and evenly paced. About 3 and 12 "
        "minutes is best; a third in between shows how reliable the result is. Only tests of 2 to 20 minutes "
        "count in full.",
        "Each is a column of the sheet Tests: a time over a distance, a time for calories, calories in a time, or average "
        "watts over a time. Type what the monitor shows at the end, of that one effort.",
        "A rower's test says nothing of the ski ergometer or the bike. A fan bike's calories follow no formula of power: "
        "it has its own tests and a share of them.",
        "One test alone gives a careful share of it. Two give an exact line, with no way of telling its error. Three or "
        "more give the error too.")),
    ("Longest sets", (
        "Fresh, with the load of the event and full range: count until the first break or the first bad repetition. Stop "
        "one repetition before you would fall off or lose the load.",
        "Seconds per repetition: time a set of five at the pace of an event and divide by five.")),
    ("Loads", (
        "A one-rep max is for experienced lifters, with a coach, spotters or safety arms. Everyone else lifts a "
        "load they can move 3 to 8 times with good form and enters load and reps; the sheet works out the rest.",
        "Build up in sets of 5, 3, 2, 1 with full rest. Two failed attempts end the day.")),
    ("Writing it down", (
        "Find your row on the sheet Tests; a name is there once. Times are minutes and seconds with a colon: 7:45.",
        "A wrong value is corrected by typing over it. An impossible value is refused, and the sheet says why.",
        "Enter the date of the oldest test still in use. After 12 weeks, or whatever your coach has set, tests "
        "are marked old (▲) and do not count until repeated.")),
)


def make_how(book):
    sheet, _ = book.how, book.texts
    heading(sheet, "How to test")
    sheet.widths("A", 6, 174)
    row = 4
    sheet.merged(f"A{row}:B{row}", _(CAUTION), "caution")
    sheet.heights(row, row, 16)
    row += 2
    for title, lines in HOW:
        sheet.merged(f"A{row}:B{row}", _(title), "section")
        sheet.heights(row, row, 8)
        for line in lines:
            row += 1
            sheet.put(f"A{row}", "•", "note")
            sheet.text(f"B{row}", line, "note")
            sheet.sheet.Rows.getByIndex(row - 1).OptimalHeight = True
        row += 2
    sheet.page(f"A1:B{row - 2}", wide=1, tall=1)
