"""The day itself and what comes after it: results, review, layout, the field, the season."""

from builder import address, column, pc, quoted
from event_base import ATHLETES, CAUTION, ROUNDS, STATIONS, no_athletes, own, stamp
from event_paper import division_reps

DAY = 6            # first athlete on Event day
CLOCKS = 20        # column of the first clock, counted from 0
REVIEWED = 20      # rounds in the review of one athlete
EVENTS = 8         # events of a season


def make(book):
    work_day(book)
    make_day(book)
    make_review(book)
    make_layout(book)
    make_field(book)
    make_season(book)


# Event day --------------------------------------------------------------------------------------------------------

def work_day(book):
    """What the clocks of the day say of each athlete, in rounds evened by their work."""
    sheet, a = book.by_day, book.athletes
    a.carry_on(sheet, book.texts("One row an athlete: the day"))
    a.add("done", "IF({ok}=0;0;COUNT(INDEX(day_clocks;{n};0)))")
    # a gap, a word or a clock before the one of the round before
    earlier = f"INDEX(day_clocks;{{n}};1):INDEX(day_clocks;{{n}};{ROUNDS - 1})"
    later = f"INDEX(day_clocks;{{n}};2):INDEX(day_clocks;{{n}};{ROUNDS})"
    a.add("misread", "IF(COUNTA(INDEX(day_clocks;{n};0))=0;0;IF(OR(COUNTA(INDEX(day_clocks;{n};0))>{done};"
          f'SUMPRODUCT(({later}<>"")*({later}<={earlier}))+SUMPRODUCT(({later}<>"")*({earlier}=""))>0);1;0))')
    a.add("clock", "IF({done}=0;0;MAX(INDEX(day_clocks;{n};0)))")
    a.add("behind", "IF({done}=0;0;INDEX(cum_work;1;{first}+{done}-1))")
    # Rounds of unequal work are compared as if each had the work of one of them: a clock that runs on by each round's
    # time for a unit of its work.
    a.add("unit", "IF({ok}=0;0;INDEX(work_all;1;{first}+event_ref-1))")
    first = 20
    sheet.row(address(first, 2), range(1, ROUNDS + 1), "working head")
    sheet.moving("here_round_of_day", "A$3")
    sheet.moving("here_before", "A1", seen_from="B1")
    clock = "INDEX(day_clocks;{n};here_round_of_day)"
    before = "IF(here_round_of_day=1;0;INDEX(day_clocks;{n};here_round_of_day-1))"
    sheet.block(address(first, 3), "=" + a.at(f'IF(OR(event_columns=1;here_round_of_day>{{done}});"";'
                f'IFERROR(IF(here_round_of_day=1;0;here_before)+({clock}-{before})*{{unit}}/'
                'INDEX(work_all;1;{first}+here_round_of_day-1);""))'), ATHLETES, ROUNDS, "working")
    sheet.name("day_even", f"{address(first, 3)}:{address(first + ROUNDS - 1, 2 + ATHLETES)}")
    even = "IF(event_columns=1;INDEX(day_clocks;{n};0);INDEX(day_even;{n};0))"
    a.add("evened", f"IF({{done}}=0;0;MAX({even}))")
    a.add("fade", f'IF({{done}}<2;"";IFERROR({pc("SCORE.FADE", even)};""))')
    a.add("varies", f'IF({{done}}<2;"";IFERROR({pc("SCORE.STEADINESS", even)};""))')
    # a score at the cap: evened rounds, the work that they are, the units that this work is
    units = division_reps("{d}")
    k = f"MATCH({{cap_work_@}};INDEX(cum_work;1;{{first}}):INDEX(cum_work;1;{{first}}+{ROUNDS - 1});1)"
    walked = (f"IF({{cap_work_@}}<INDEX(cum_work;1;{{first}});{{cap_work_@}}/INDEX(cum_work;1;{{first}})*INDEX(cum_reps;1;{{first}});"
              f"INDEX(cum_reps;1;{{first}}+{k}-1)+({{cap_work_@}}-INDEX(cum_work;1;{{first}}+{k}-1))/"
              f"INDEX(work_all;1;{{first}}+{k})*INDEX(reps_all;1;{{first}}+{k}))")
    for i, name in enumerate(("low", "expected", "high"), 1):
        rounds = pc("SCORE.FORECAST", "event_cap+{evened}-{clock}", even, "1", "0.9", i)
        a.add(f"cap_work_{name}", f'IF(OR({{done}}=0;event_kind=2;event_columns=1);0;IFERROR({{behind}}+({rounds}-{{done}})*{{unit}};0))')
        a.add(f"cap_{name}", 'IF(OR({done}=0;event_kind=2;{per_round}=0);"";IFERROR(IF(event_columns=1;'
              + pc("SCORE.FORECAST", "event_cap", even, units, "0.9", i) + f';IF({{cap_work_{name}}}=0;"";{walked.replace("@", name)}));""))')
    # a finish: the rest of the work at the mean pace so far, with the prediction interval of a sum of steady rounds
    a.add("togo", "IF(OR({done}=0;{misread}=1;event_kind<>2;{unit}=0);0;MAX(0;(INDEX(cum_work;1;{first}+event_rounds-1)-{behind})/{unit}))")
    a.add("finish_expected", 'IF({togo}=0;"";IFERROR({clock}+{clock}/{behind}*{togo}*{unit};""))')
    a.add("finish_within", 'IF(OR({togo}=0;{done}<2);"";IFERROR(TINV(0.1;{done}-1)*{varies}*{evened}/{done}*SQRT({togo}+{togo}^2/{done});""))')
    a.add("finish_low", 'IF({finish_within}="";"";MAX({clock};{finish_expected}-{finish_within}))')
    a.add("finish_high", 'IF({finish_within}="";"";{finish_expected}+{finish_within})')


def make_day(book):
    sheet, _, lit = book.day, book.texts, book.texts.lit
    stamp(sheet, "Event day")
    no_athletes(sheet, "H2")
    sheet.merged("A3:T3", _("Type the clock at the end of each round as it is shouted, and the repetitions of the open round. "
                            "The projection carries the pace so far to the cap or to the end; low and high hold nine times in ten if the "
                            "pace stays as steady as it was. Rounds of unequal work are compared by their work."), "note")
    sheet.heights(3, 3, 9)
    heads = ("No.", "Name", "Division", "Heat", "Lane", "Goal", "Round target", "Rounds done", "Result", "Place", "Low",
             "Expected", "High", "Reads", "Fade a round", "Partial reps", "Reps left at the cap", "Finish", "Tie-break", "Withdrew")
    for step, head in enumerate(heads):
        sheet.text(address(step, 4), head, "head")
    for k in range(ROUNDS):
        sheet.put(address(CLOCKS + k, 4), k + 1, "head")
        sheet.put(address(CLOCKS + ROUNDS + k, 4), k + 1, "head")
    sheet.put(address(CLOCKS, 3), _("Clock at the end of round"), "section")
    sheet.put(address(CLOCKS + ROUNDS, 3), _("Time of day of each stamp"), "section")
    sheet.heights(5, 5, 14)
    sheet.widths("A", 8, 40, 24, 12, 12, 15, 16, 16, 24, 13, 14, 18, 14, 18, 16, 16, 17, 17, 18, 19, *[15] * (2 * ROUNDS), 20, 20)
    last = DAY + ATHLETES - 1
    first_clock, last_clock = column(CLOCKS), column(CLOCKS + ROUNDS - 1)
    score, tie = column(CLOCKS + 2 * ROUNDS), column(CLOCKS + 2 * ROUNDS + 1)
    r = DAY
    own(sheet, "day", no="A", name="B", division="C", done="H", expected="L", partial="P", left="Q", finish="R", tiebreak="S",
        out="T", clocks=f"{first_clock}:{last_clock}", score=score, tie=tie)
    n, clocks = "day_its_no", "day_its_clocks"
    of = lambda name: f"INDEX(a_{name};{n})"
    per_round = division_reps(of("d"))
    out = 'day_its_out<>""'
    sheet.numbers(f"A{r}", ATHLETES)
    sheet.heights(r, last, 7.5)
    heat = 'IFERROR(INDEX(heat_list;MATCH(day_its_name;INDEX(heat_list;0;4);0);{k});"")'
    done = "day_its_done"
    reps = (f'IF(event_columns=1;{done}*{of("per_round")};IF({done}=0;0;INDEX(cum_reps;1;{of("first")}+{done}-1)))+N(day_its_partial)')
    total = "day_its_score"
    projected = lambda bound: f'=IF(event_kind=2;{of("finish_" + bound)};{of("cap_" + bound)})'
    outputs = (
        ("B", f"={of('name')}", "cell", "name"), ("C", f"={of('division')}", "cell", "division"),
        ("D", f'=IF({of("ok")}=0;"";{heat.format(k=1)})', "cell center", "heat"),
        ("E", f'=IF({of("ok")}=0;"";{heat.format(k=2)})', "cell center", "lane"),
        ("F", f"={of('goal')}", "cell center", "goal"), ("G", f"={of('target')}", "cell time", "target"),
        ("H", f'=IF({of("ok")}=0;"";COUNT({clocks}))', "cell center", "done"),
        ("I", f'=IF({total}="";IF(AND({of("ok")}=1;{out});{lit("withdrew")};"");IFERROR(IF(event_kind=2;'
              f'IF(N(day_its_finish)>0;{pc("SCORE.RESULT", "day_its_finish", "event_cap")};{pc("SCORE.RESULT", "event_cap", "event_cap", "day_its_left")});'
              f'IF({of("per_round")}=0;FIXED({done};0);{pc("SCORE.TEXT", total, per_round)}));{lit("check the entry")}))', "cell strong", "result"),
        ("J", f'=IF({total}="";"";IFERROR({pc("SCORE.PLACE", total, "day_score", "IF(event_kind=2;" + chr(34) + "low" + chr(34) + ";" + chr(34) + "high" + chr(34) + ")", "day_its_division", "day_division", "day_its_tie", "day_tie")};""))',
         "cell strong", "place"),
        ("K", projected("low"), "cell whole", "low"),
        ("L", projected("expected"), "cell whole", "expected"),
        ("M", projected("high"), "cell whole", "high"),
        ("N", f'=IF({of("misread")}=1;{lit("▲ check the clocks")};IF(day_its_expected="";"";IFERROR(IF(event_kind=2;IF(day_its_expected>event_cap;{lit("past the cap")};{pc("CLOCK.TEXT", "day_its_expected")});{pc("SCORE.TEXT", "day_its_expected", per_round)});"")))',
         "cell center", "reads"),
        ("O", f"={of('fade')}", "cell share", "fade"),
    )
    for letter, formula, style, name in outputs:
        sheet.down(f"{letter}{r}", formula, ATHLETES, style)
        sheet.name(f"day_{name}", f"{letter}{r}:{letter}{last}")
    for letter, name, style in (("P", "partial", "input number"), ("Q", "left", "input number"), ("R", "finish", "input time"),
                                ("S", "tiebreak", "input time"), ("T", "out", "input center")):
        sheet.styled(f"{letter}{r}:{letter}{last}", style)
        sheet.name(f"day_{name}", f"{letter}{r}:{letter}{last}")
    sheet.styled(f"{first_clock}{r}:{last_clock}{last}", "input time")
    sheet.name("day_clocks", f"{first_clock}{r}:{last_clock}{last}")
    stamps = f"{column(CLOCKS + ROUNDS)}{r}:{column(CLOCKS + 2 * ROUNDS - 1)}{last}"
    sheet.styled(stamps, "input clock")
    sheet.name("day_stamps", stamps)
    sheet.text(f"{score}5", "Score", "head")
    sheet.text(f"{tie}5", "Tie", "head")
    # withdrawn athletes have no place; a result that cannot be is no score
    sheet.down(f"{score}{r}", f'=IF(OR({of("ok")}=0;{out});"";IF(event_kind=2;IF(N(day_its_finish)>0;IF(day_its_finish<=event_cap;day_its_finish;"");IF(N(day_its_left)>0;IFERROR({pc("SCORE.CAPPED", "day_its_left", "event_cap")};"");""));'
                              f'IF(AND({done}=0;day_its_partial="");"";{reps})))', ATHLETES, "cell")
    sheet.name("day_score", f"{score}{r}:{score}{last}")
    sheet.down(f"{tie}{r}", '=IF(N(day_its_tiebreak)>0;day_its_tiebreak;"")', ATHLETES, "cell")
    sheet.name("day_tie", f"{tie}{r}:{tie}{last}")
    sheet.limit(f"P{r}:P{last}", 0, 9999, "Give the repetitions done in the round still open.")
    sheet.whole(f"Q{r}:Q{last}", 1, 9999, "Give the whole repetitions not done at the cap.")
    for cells in (f"R{r}:R{last}", f"S{r}:S{last}"):
        sheet.limit(cells, 1 / 86400, 4 / 24 - 1e-9, "Give minutes and seconds such as 11:42.")
    sheet.choose(f"T{r}:T{last}", "list_yes", "Choose yes where the athlete stopped; else leave empty.")
    here = f"{first_clock}{r}"
    sheet.check(f"{first_clock}{r}:{last_clock}{last}",
                f"AND(ISNUMBER({here});{here}>0;{here}<=event_cap+1E-9;COUNTIF(${first_clock}{r}:{here};\">\"&{here})=0)",
                "Give the clock as minutes and seconds, later than the round before and not past the cap.")
    sheet.mark(f"K{r}:M{last}", (f"AND($A{r}>0;event_kind=2)", "cell time"))
    sheet.mark(f"P{r}:P{last}", (f"AND($A{r}>0;event_kind=2)", "not used"))
    sheet.mark(f"Q{r}:R{last}", (f"AND($A{r}>0;event_kind<>2)", "not used"))
    sheet.freeze(f"C{r}")
    sheet.put(f"{first_clock}3", "=event_heading", "stamp")
    # results on one page, clocks on the next; the scale fits A4 and Letter
    sheet.sheet.Columns.getByIndex(CLOCKS).IsStartOfNewPage = True
    sheet.page(f"A1:{column(CLOCKS + 19)}{last}", landscape=True, repeat=(1, 5), repeat_columns=("A", "B"), wide=0, scale=72,
               fit="day")


# Review -----------------------------------------------------------------------------------------------------------

def make_review(book):
    sheet, _, lit = book.review, book.texts, book.texts.lit
    stamp(sheet, "Review")
    sheet.text("A3", "Athlete")
    sheet.merged("B3:D3", None, "input")
    sheet.name("review_athlete", "B3")
    sheet.choose("B3", "roster_name", "Choose an athlete of the roster.")
    sheet.widths("A", 42, 22, 22, 22, 22, 26, 64, 32)
    sheet.put("J1", '=IF(review_athlete="";0;IFERROR(MATCH(review_athlete;a_name;0);0))', "working")
    who = "$J$1"
    sheet.name("review_n", "J1")
    of = lambda name: f"INDEX(a_{name};{who})"
    for col, head in zip("ABCDEF", ("Round", "Clock planned", "Round planned", "Clock", "Round", "Later than planned, s")):
        sheet.text(f"{col}5", head, "head")
    sheet.heights(5, 5, 10)
    sheet.numbers("A6", REVIEWED)
    sheet.down("B6", f'=IF({who}=0;"";INDEX(a_clocks;{who};$A6))', REVIEWED, "cell time")
    sheet.down("C6", '=IF(B6="";"";B6-N(B5))', REVIEWED, "cell time")
    sheet.down("D6", f'=IF({who}=0;"";IF(N(INDEX(day_clocks;{who};$A6))>0;INDEX(day_clocks;{who};$A6);""))', REVIEWED, "cell time")
    sheet.down("E6", '=IF(D6="";"";D6-N(D5))', REVIEWED, "cell time")
    sheet.down("F6", '=IF(OR(B6="";D6="");"";ROUND(86400*(D6-B6);0))', REVIEWED, "cell center")
    # what the chart draws: no point where there is no round
    sheet.down("K6", "=$A6", REVIEWED, "working")
    sheet.text("L5", "Planned", "working head")
    sheet.text("M5", "Actual", "working head")
    sheet.down("L6", '=IF(C6="";NA();C6)', REVIEWED, "working")
    sheet.down("M6", '=IF(E6="";NA();E6)', REVIEWED, "working")
    lines = (
        ("Goal", f'=IF({who}=0;"";{of("goal")})', "cell strong"),
        ("Result", f'=IF({who}=0;"";INDEX(day_result;{who}))', "cell strong"),
        ("Fade a round", f'=IF({who}=0;"";{of("fade")})', "cell share"),
        ("Round times vary by", f'=IF({who}=0;"";{of("varies")})', "cell share"),
        ("At the middle round time to the end", f'=IF({who}=0;"";IF(OR(event_columns>1;COUNT(E$6:E${5 + REVIEWED})<3);"";IFERROR(IF(event_kind=2;'
         + pc("CLOCK.TEXT", f"MEDIAN(E$6:E${5 + REVIEWED})*event_rounds") + ";"
         + pc("SCORE.TEXT", pc("PACE.ROUNDS", "event_cap", f"MEDIAN(E$6:E${5 + REVIEWED})") + f"*{of('per_round')}", of("per_round")) + ');"")))', "cell strong"),
        ("Ergometer that the result implies, cal/h", f'=IF({who}=0;"";INDEX(review_rate;{who}))', "cell whole"),
        ("Factor from this result", f'=IF({who}=0;"";INDEX(review_effort;{who}))', "cell share"),
    )
    for row, (label, formula, style) in enumerate(lines, 6):
        sheet.text(f"G{row}", label, "cell words")
        sheet.put(f"H{row}", formula, style)
    sheet.heights(6, 5 + REVIEWED, 6.2)
    sheet.merged("G14:H22", _("A second attempt: no sooner than 48 to 72 hours, rested, and not for newcomers or anyone in pain. What it "
                             "could bring is seen best in the middle round time held to the end."), "note")
    end = 6 + REVIEWED
    sheet.put(f"A{end}", f'=IF({who}=0;"";IF(MAX({of("goal_rounds")};{of("done")})>{REVIEWED};{lit("▲ Rounds after the twentieth stand on the sheet Event day.")};""))', "note").IsTextWrapped = False
    sheet.chart("review", "Line", f"A{end + 1}", (200, 80), (f"K5:M{5 + REVIEWED}",), "Round times, planned and actual", "Round", None, 2, time=True)
    top = 46
    sheet.styled(f"A{top - 1}:H{top - 1}", "section")
    sheet.text(f"A{top - 1}", "All athletes", "section")
    for step, head in enumerate(("Name", "Goal", "Result", "Fade a round", "Vary by", "Implied cal/h", "Factor from this result", "In words")):
        sheet.text(address(step, top - 1), head, "head")
    sheet.heights(top, top, 10)
    first, last = top + 1, top + ATHLETES
    own(sheet, "review", result="C", fade="D", rate="F")
    n = f"(ROW()-{top})"
    a = lambda name: f"INDEX(a_{name};{n})"
    its = f"INDEX(day_clocks;{n};0)"
    done = f"N(INDEX(day_done;{n}))"
    walk = ("station_units", f"INDEX(amounts_all;0;{a('first')}):INDEX(amounts_all;0;{a('first')}+event_columns-1)",
            f"INDEX(s_rate2;0;{n})", f"INDEX(s_extras2;0;{n})")
    rate = pc("PLAN.ERGNEED", f"MAX({its})", done, *walk, "event_main")
    watts = lambda cal_per_hour: pc("ERG.CONVERT", cal_per_hour, quoted("cal/h"), quoted("W"))
    factor = f'{watts("review_its_rate")}/{watts(a("floor"))}'
    for col, formula, style in (
            ("A", f"={a('name')}", "cell"), ("B", f"={a('goal')}", "cell center"), ("C", f"=INDEX(day_result;{n})", "cell strong"),
            ("D", f"=INDEX(day_fade;{n})", "cell share"),
            ("E", f"={a('varies')}", "cell share"),
            ("F", f'=IF(OR({a("ok")}=0;{done}<1;event_main=0);"";IFERROR({rate};""))', "cell whole"),
            ("G", '=IF(OR(review_its_rate="";' f'{a("cp")}=0);"";IFERROR({factor};""))', "cell share"),
            ("H", f'=IF(OR({a("free")}=0;review_its_result="";review_its_fade="");"";IF(review_its_fade>0.02;{lit("opened too fast")};IF(review_its_fade<-0.02;{lit("could have opened faster")};{lit("evenly paced")})))', "cell words")):
        sheet.down(f"{col}{first}", formula, ATHLETES, style)
    sheet.name("review_rate", f"F{first}:F{last}")
    sheet.name("review_effort", f"G{first}:G{last}")
    for letter in "JKLM":
        sheet.sheet.Columns.getByName(letter).Width = 10
    sheet.break_before(top - 1)
    sheet.page(f"A1:H{last}", repeat=(1, 2), fit="review")


# Layout -----------------------------------------------------------------------------------------------------------

def make_layout(book):
    sheet, _, lit, say = book.layout, book.texts, book.texts.lit, book.texts.say
    stamp(sheet, "Layout")
    sheet.text("A3", "Athlete")
    sheet.merged("B3:D3", None, "input")
    sheet.name("layout_athlete", "B3")
    sheet.choose("B3", "roster_name", "Choose an athlete of the roster.")
    sheet.widths("A", 62, *[24] * 8)
    sheet.heights(6, 9, 8)
    sheet.put("L1", '=IF(layout_athlete="";0;IFERROR(MATCH(layout_athlete;a_name;0);0))', "working")
    sheet.merged("A4:I4", _("What the steps from station to station cost: the same athlete, the same rates, the stations walked with so "
                            "many steps everywhere."), "note")
    who = "$L$1"
    of = lambda name: f"INDEX(a_{name};{who})"
    sheet.text("A6", "Steps between stations", "head left")
    for col, steps in zip("BCDEFGHI", (1.5, 3, 4, 6, 8, 12, 16, 20)):
        sheet.put(f"{col}6", steps, "input number")
    sheet.limit("B6:I6", 0, 200, "Give a number of steps.")
    used = "SUMPRODUCT((st_kind>0)*1)"
    sheet.text("A7", "Walking a round", "cell")
    sheet.right("B7", f'=B6*event_step_s*{used}/86400', 8, "cell time")
    amounts = f"INDEX(amounts_all;0;{of('first')}):INDEX(amounts_all;0;{of('first')}+event_columns-1)"
    first = 22
    extras = f"B${first}:B${first + STATIONS - 1}"
    walk = ("station_units", amounts, f"INDEX(s_rate2;0;{who})", extras)
    reps = pc("PLAN.SCORE", "event_fresh", *walk, "st_counts")
    finish = pc("PLAN.FINISH", "event_rounds", *walk) + "/(1-event_fade/2)"
    sheet.text("A8", "Would come to", "cell")
    sheet.right("B8", f'=IF({who}=0;"";IF({of("ok")}=0;"";IFERROR(IF(event_kind=2;{pc("CLOCK.TEXT", finish)};{pc("SCORE.TEXT", reps, division_reps(of("d")))});"")))', 8, "cell strong")
    sheet.text("A9", "Lost against the fewest steps", "cell")
    sheet.right("B10", f'=IF({who}=0;"";IF({of("ok")}=0;"";IFERROR(IF(event_kind=2;{finish};{reps});"")))', 8, "working")
    sheet.right("B9", f'=IF(B10="";"";IF(event_kind=2;{say("{seconds} s", seconds="ROUND(86400*(B10-MIN($B10:$I10));0)")};{say("{reps} reps", reps="MAX($B10:$I10)-B10")}))', 8, "cell center")
    sheet.sheet.Rows.getByIndex(9).IsVisible = False
    # seconds a round beside the work, station by station, for each number of steps
    sheet.numbers(f"A{first}", STATIONS, "working")
    sheet.block(f"B{first}", f'=IF({who}=0;0;IF(INDEX(st_kind;$A{first})=0;0;MAX(0;INDEX(s_extras2;$A{first};{who})-INDEX(st_extras;$A{first})+N(INDEX(station_handling;$A{first}))+event_step_s*B$6)))',
                STATIONS, 8, "working")
    for row in range(first - 1, first + STATIONS):
        sheet.sheet.Rows.getByIndex(row - 1).IsVisible = False
    sheet.merged("A12:I12", _(CAUTION), "caution")
    sheet.heights(12, 12, 12)
    sheet.merged("A11:I11", _("Three steps saved at each of four stations are about 7 s a round: mark the floor, set things within reach."), "note")
    sheet.sheet.Columns.getByName("L").IsVisible = False
    sheet.page("A1:I12", landscape=True)


# The field --------------------------------------------------------------------------------------------------------

def make_field(book):
    sheet, _ = book.field, book.texts
    stamp(sheet, "The field")
    no_athletes(sheet, "F2")
    sheet.merged("A3:G3", _("Planned pace of all who have a goal: the slowest tenth, the middle, the fastest tenth. No names, so it may hang on the wall."), "note")
    for step, head in enumerate(("Round", "Slowest tenth", "Middle", "Fastest tenth")):
        sheet.text(address(step, 4), head, "head")
    sheet.heights(5, 5, 8)
    sheet.widths("A", 22, 30, 30, 30, 6, 40, 24)
    # beyond twenty rounds every second stands here
    sheet.down("A6", f'=(ROW()-5)*IF($G$8="";1;MAX(1;ROUNDUP(event_cap/$G$8/{REVIEWED}-1E-9;0)))', REVIEWED, "cell center")
    # round times as planned, mean over the task
    sheet.merged("F5:G5", _("Round target"), "head")
    sheet.text("F10", "Athletes with a goal", "cell words")
    for row, (label, share) in enumerate((("Slowest tenth", 0.9), ("Middle", 0.5), ("Fastest tenth", 0.1)), 6):
        sheet.text(f"F{row}", label, "cell words")
        sheet.put(f"G{row}", f'=IF(COUNT(a_target)=0;"";PERCENTILE(a_target;{share}))', "cell time")
    sheet.put("G10", "=COUNT(a_target)", "cell center")
    for col, row in (("B", 6), ("C", 7), ("D", 8)):
        sheet.down(f"{col}6", f'=IF($G${row}="";"";IF(OR($A6*$G${row}>event_cap+1E-9;AND(event_kind=2;$A6>event_rounds));"";$A6*$G${row}))', REVIEWED, "cell time")
        chart_col = {"B": "J", "C": "K", "D": "L"}[col]
        sheet.down(f"{chart_col}6", f'=IF({col}6="";NA();1440*{col}6)', REVIEWED, "working")
        sheet.put(f"{chart_col}5", f"={col}5", "working head")
    sheet.down("I6", "=$A6", REVIEWED, "working")
    sheet.chart("field", "Line", f"A{7 + REVIEWED}", (178, 90), (f"I5:L{5 + REVIEWED}",), "Planned clock at the end of each round", "Round", "Minutes", 3)
    for letter in "IJKL":
        sheet.sheet.Columns.getByName(letter).Width = 10
    sheet.page(f"A1:G{7 + REVIEWED + 24}", tall=1)


# Season -----------------------------------------------------------------------------------------------------------

def make_season(book):
    sheet, _, lit, say = book.season, book.texts, book.texts.lit, book.texts.say
    sheet.put("A1", _("Season"), "title")
    sheet.put("A2", '=event_gym', "stamp")
    sheet.text("A3", "Missed event counts as")
    sheet.merged("B3:C3", _("one place behind the last"), "input")
    sheet.name("season_missed", "B3")
    sheet.choose("B3", "list_missed", "Choose a rule from the list.")
    sheet.text("D3", "Fixed place")
    sheet.put("E3", 30, "input number")
    sheet.name("season_fixed", "E3")
    sheet.whole("E3", 1, 999, "Give a place.")
    sheet.merged("A4:V4", _("Results as numbers: repetitions, or time as minutes and seconds. Places within each division."), "note")
    for step, head in enumerate(("Name", "Division", "Sum of places", "Rank", "Trend")):
        sheet.text(address(step, 6), head, "head")
    sheet.heights(7, 7, 10)
    first_result = 5
    last = 7 + ATHLETES
    results = lambda e: f"season_results_{e + 1}"
    sheet.text("D5", "Event")
    sheet.text("D6", "Better is")
    own(sheet, "season", name="A", division="B", sum="C",
        **{f"result_{e + 1}": column(first_result + 2 * e) for e in range(EVENTS)},
        **{f"place_{e + 1}": column(first_result + 2 * e + 1) for e in range(EVENTS)})
    for e in range(EVENTS):
        its = f"season_its_result_{e + 1}"
        left, right = column(first_result + 2 * e), column(first_result + 2 * e + 1)
        sheet.merged(f"{left}5:{right}5", None, "input head")
        sheet.merged(f"{left}6:{right}6", None, "input center")
        sheet.choose(f"{left}6", "list_order", "Choose high where more is better, low for times.")
        sheet.text(f"{left}7", "Result", "head")
        sheet.text(f"{right}7", "Place", "head")
        sheet.styled(f"{left}8:{left}{last}", "input number")
        sheet.mark(f"{left}8:{left}{last}", (f'{left}$6=INDEX(list_order;2)', "time shown"))
        order = f'IF({left}$6=INDEX(list_order;2);"low";"high")'
        missed = (f'IF(COUNT({results(e)})=0;"";IF(season_missed=INDEX(list_missed;2);season_fixed;IF(season_missed=INDEX(list_missed;3);"";'
                  f'SUMPRODUCT((season_divisions=season_its_division)*ISNUMBER({results(e)}))+1)))')
        placed = pc("SCORE.PLACE", its, results(e), order, "season_its_division", "season_divisions")
        sheet.down(f"{right}8", f'=IF(season_its_name="";"";IF(ISNUMBER({its});IFERROR({placed};"");{missed}))', ATHLETES, "cell center")
    sheet.styled(f"A8:A{last}", "input text")
    sheet.styled(f"B8:B{last}", "input")
    sheet.choose(f"B8:B{last}", "division_names", "Choose a division; they are named on the sheet Event.")
    sheet.name("season_names", f"A8:A{last}")
    sheet.name("season_divisions", f"B8:B{last}")
    for e in range(EVENTS):
        sheet.name(f"season_results_{e + 1}", f"{column(first_result + 2 * e)}8:{column(first_result + 2 * e)}{last}")
    sheet.name("season_titles", f"{column(first_result)}5:{column(first_result + 2 * EVENTS - 1)}5")
    sheet.name("season_order", f"{column(first_result)}6:{column(first_result + 2 * EVENTS - 1)}6")
    place = [f"season_its_place_{e + 1}" for e in range(EVENTS)]
    count = "COUNT(" + ";".join(place) + ")"
    sheet.down("C8", f'=IF(OR(season_its_name="";{count}=0);"";SUM({";".join(place)}))', ATHLETES, "cell strong")
    sheet.down("D8", f'=IF(season_its_sum="";"";IFERROR({pc("SCORE.PLACE", "season_its_sum", f"$C$8:$C${last}", chr(34) + "low" + chr(34), "season_its_division", "season_divisions")};""))', ATHLETES, "cell strong")
    # trend: the sign of the least-squares slope of the places over the events
    cells = [f"N({p})" for p in place]
    there = [f"ISNUMBER({p})" for p in place]
    sx = "(" + "+".join(f"{i}*{t}" for i, t in enumerate(there)) + ")"
    sy = "(" + "+".join(cells) + ")"
    sxy = "(" + "+".join(f"{i}*{c}" for i, c in enumerate(cells)) + ")"
    slope_sign = f"({count}*{sxy}-{sx}*{sy})"
    sheet.down("E8", f'=IF({count}<3;"";IF({slope_sign}<-0.5;"▲ "&{lit("rising")};IF({slope_sign}>0.5;"▼ "&{lit("falling")};"= "&{lit("steady")})))', ATHLETES, "cell words")
    sheet.widths("A", 46, 26, 20, 24, 24, *[17, 13] * EVENTS)
    sheet.freeze("C8")
    sheet.page(f"A1:{column(first_result + 2 * EVENTS - 1)}{last}", landscape=True, repeat=(1, 7), fit="season")
