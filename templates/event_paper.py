"""What is printed and hung up before the start: schemes, versions, wall tables, cards, warm-up, heats, judge sheets."""

from builder import LINE, address, column, line, pc
from event_base import (ATHLETES, CARD_ROWS, CAUTION, REP, ROUNDS, STATIONS, no_athletes, own, stamp,
                        texts_clock)

SCHEMES = 5   # stations with repetitions on the sheet Sets
CLOCK_GOALS = 9
JUDGED = 12   # rounds on a judge sheet
LANES = 12    # judge sheets in a heat
JUDGE_ROWS = 28


def make(book):
    make_sets(book)
    make_version(book)
    make_clocks(book)
    make_ergometer(book)
    make_cards(book)
    make_messages(book)
    make_warmup(book)
    make_heats(book)
    make_judge(book)


def division_amounts(d):
    """The amounts of division d, as many rounds as differ."""
    return f"INDEX(amounts_all;0;({d}-1)*{ROUNDS}+1):INDEX(amounts_all;0;({d}-1)*{ROUNDS}+event_columns)"


def division_reps(d):
    return f"INDEX(reps_all;1;({d}-1)*{ROUNDS}+1):INDEX(reps_all;1;({d}-1)*{ROUNDS}+event_columns)"


# Sets -------------------------------------------------------------------------------------------------------------

def make_sets(book):
    sheet, _, lit = book.sets, book.texts, book.texts.lit
    stamp(sheet, "Sets")
    sheet.merged("A3:J3", _("Open with the first scheme; fall back to the second when the first no longer holds. "
                            "In hand: repetitions left at the worst moment, by a model of fatigue borrowed from "
                            "whole-body work; a mark where fewer than two are left. One repetition of test noise can "
                            "move a scheme."), "note")
    sheet.heights(3, 3, 10)
    sheet.text("A5", "No.", "head")
    sheet.text("B5", "Name", "head")
    sheet.widths("A", 8, 46, *[24, 26, 26, 16] * SCHEMES)
    own(sheet, "sets", no="A")
    sheet.numbers("A6", ATHLETES)
    sheet.down("B6", "=INDEX(a_name;sets_its_no)", ATHLETES, "cell")
    for k in range(SCHEMES):
        first = 2 + 4 * k
        at = f"IFERROR(MATCH({k + 1};st_rank;0);0)"
        # the station's name stands in row 4, its number in row 1, white on white
        number = address(first, 0, "cr")
        sheet.put(address(first, 0), f"={at}", "working").CharColor = 0xFFFFFF
        sheet.merged(f"{address(first, 3)}:{address(first + 3, 3)}", f'=IF({number}=0;" ";INDEX(st_name;{number}))', "head")
        for step, (head, block, style) in enumerate((("Longest set", "max", "cell center"), ("Open with", "open", "cell strong"),
                                                     ("Fall back to", "back", "cell center"), ("In hand", "hand", "cell tenth"))):
            sheet.text(address(first + step, 4), head, "head")
            value = f"INDEX(s_{block};{number};sets_its_no)"
            if block == "max":
                shown = f'ROUND({value};0)&CHOOSE(INDEX(s_from;{number};sets_its_no)+1;"";"";" "&{lit("(load)")};" "&{lit("(group)")};"")'
            else:
                shown = value
            sheet.down(address(first + step, 5), f'=IF({number}*INDEX(a_ok;sets_its_no)=0;"";IF(INDEX(s_max;{number};sets_its_no)<=0;"";{shown}))',
                       ATHLETES, style)
        hand = address(first + 3, 5)
        sheet.mark(f"{hand}:{address(first + 3, 4 + ATHLETES)}", (f"AND(ISNUMBER({hand});{hand}<0)", "mark strong"),
                   (f"AND(ISNUMBER({hand});{hand}<2)", "mark center"))
    sheet.heights(5, 5, 9)
    sheet.heights(6, 5 + ATHLETES, 6.5)
    sheet.freeze("C6")
    sheet.page(f"A1:{column(1 + 4 * SCHEMES)}{5 + ATHLETES}", landscape=True, repeat=(1, 5), fit="sets")


# Which version ----------------------------------------------------------------------------------------------------

def make_version(book):
    sheet, _, lit, say = book.version, book.texts, book.texts.lit, book.texts.say
    stamp(sheet, "Which version")
    sheet.text("A3", "As written:")
    sheet.styled("C3", "input")
    sheet.text("E3", "Adapted:")
    sheet.styled("F3", "input")
    sheet.merged("D3:D3", None, "label")
    for name, cell in (("version_written", "C3"), ("version_adapted", "F3")):
        sheet.name(name, cell)
        sheet.choose(cell, "division_names", "Choose a division; they are named on the sheet Event.")
    sheet.put("C3", '=INDEX(division_names;1)&""')
    sheet.put("F3", '=INDEX(division_names;2)&""')
    sheet.merged("A4:K4", _("Heaviest load as a share of the one-repetition maximum; largest set asked for as a share of "
                            "the longest set; what the task would come to. A repeated load above 70 % speaks for the "
                            "adapted version."), "note")
    sheet.heights(4, 4, 9)
    sheet.merged("D5:F5", "=version_written", "head")
    sheet.merged("G5:I5", "=version_adapted", "head")
    for col, head in zip("ABCDEFGHIJ", ("No.", "Name", "Division", "Load", "Largest set", "Would come to", "Load", "Largest set",
                                        "Would come to", "We suggest")):
        sheet.text(f"{col}6", head, "head")
    sheet.widths("A", 8, 44, 26, 18, 20, 24, 18, 20, 24, 122)
    sheet.heights(7, 6 + ATHLETES, 6.5)
    own(sheet, "version", no="A", load="D", part="E", lighter="G")
    sheet.numbers("A7", ATHLETES)
    sheet.down("B7", "=INDEX(a_name;version_its_no)", ATHLETES, "cell")
    sheet.down("C7", "=INDEX(a_division;version_its_no)", ATHLETES, "cell")
    # the divisions by number, out of sight
    sheet.put("M1", "=IFERROR(MATCH(version_written;division_names;0);0)", "working")
    sheet.put("N1", "=IFERROR(MATCH(version_adapted;division_names;0);0)", "working")
    both = "INDEX(a_ok;version_its_no)*$M$1*$N$1"
    for load, part, score, d in (("D", "E", "F", "$M$1"), ("G", "H", "I", "$N$1")):
        sheet.down(f"{load}7", f'=IF({both}=0;"";IF(SUM(INDEX(s_inverse;0;version_its_no))=0;"";SUMPRODUCT(MAX(INDEX(station_loads;0;{d})*INDEX(s_inverse;0;version_its_no)))))', ATHLETES, "cell share")
        column_of = f"INDEX(amounts_all;0;({d}-1)*{ROUNDS}+event_ref)"
        sheet.down(f"{part}7", f'=IF({both}=0;"";SUMPRODUCT(MAX((INDEX(s_max;0;version_its_no)>0)*{column_of}/(INDEX(s_max;0;version_its_no)+(INDEX(s_max;0;version_its_no)<=0)))))',
                   ATHLETES, "cell share")
        walk = ("station_units", division_amounts(d), "INDEX(s_rate2;0;version_its_no)", "INDEX(s_extras2;0;version_its_no)")
        sheet.down(f"{score}7", f'=IF(OR({both}=0;INDEX(a_status;version_its_no)<>1);"";IFERROR(IF(event_kind=2;'
                                f'{pc("CLOCK.TEXT", pc("PLAN.FINISH", "event_rounds", *walk) + "/(1-event_fade/2)")};'
                                f'{pc("SCORE.TEXT", pc("PLAN.SCORE", "event_fresh", *walk, "st_counts"), division_reps(d))});""))',
                   ATHLETES, "cell center")
        sheet.mark(f"{load}7:{load}{6 + ATHLETES}", (f"AND(ISNUMBER({load}7);{load}7>0.7)", "mark center"))
        sheet.mark(f"{part}7:{part}{6 + ATHLETES}", (f"AND(ISNUMBER({part}7);{part}7>0.6)", "mark center"))
    percent = lambda cell: f'ROUND(100*{cell};0)'
    sheet.down("J7", f'=IF({both}=0;"";IF(INDEX(a_status;version_its_no)<>1;{lit("adapted, easy and without a goal")};'
                     f'IF(AND(N(version_its_load)=0;N(version_its_part)=0);{lit("no tests: as the coach sees it")};'
                     f'IF(N(version_its_lighter)>0.7;{say("adapted and lighter still: {load} % of the maximum again and again", load=percent("version_its_lighter"))};'
                     f'IF(N(version_its_load)>0.7;{say("adapted: as written the load is {load} % of the maximum", load=percent("version_its_load"))};'
                     f'IF(version_its_part>0.6;{say("adapted: as written one set is {part} % of the longest set", part=percent("version_its_part"))};'
                     f'IF(N(version_its_load)=0;{say("as written: largest set {part} % of the longest, load not tested", part=percent("version_its_part"))};'
                     f'{say("as written: load {load} % of the maximum, largest set {part} % of the longest", load=percent("version_its_load"), part=percent("version_its_part"))})'
                     f'))))))', ATHLETES, "cell words")
    sheet.sheet.Columns.getByName("M").IsVisible = sheet.sheet.Columns.getByName("N").IsVisible = False
    sheet.freeze("C7")
    sheet.page(f"A1:J{6 + ATHLETES}", landscape=True, repeat=(1, 6), fit="version")


# Wall tables ------------------------------------------------------------------------------------------------------

def wall_head(sheet):
    book = sheet.book
    sheet.put("A1", "=event_called", "wall title")
    sheet.heights(1, 1, 18)
    cap = book.texts.say("cap {cap}", cap=pc("CLOCK.TEXT", "event_cap"))
    sheet.put("A2", f'=TEXTJOIN(", ";TRUE();event_format;IF(N(event_cap)>0;{cap};"");event_stamp)', "wall stamp")
    sheet.heights(2, 2, 10)


def make_clocks(book):
    sheet, _ = book.clocks, book.texts
    rows = 20
    wall_head(sheet)
    no_athletes(sheet, "A3")
    sheet.merged(f"B4:{column(CLOCK_GOALS)}4", _("What the clock shows at the end of each round, by goal"), "wall head")
    sheet.text("A5", "Round", "wall head")
    sheet.right("B5", '=INDEX(wall_goals;COLUMN()-1)&""', CLOCK_GOALS, "wall head")
    # beyond twenty rounds every second stands here
    sheet.down("A6", f"=(ROW()-5)*MAX(1;ROUNDUP(MAX(wall_rounds)/{rows};0))", rows, "wall goal")
    goal = "INDEX(wall_rounds;COLUMN()-1)"
    at = f"IF(event_columns=1;$A6;{goal}*INDEX(cum_work;1;$A6)/INDEX(wall_work;COLUMN()-1))"
    sheet.block("B6", f'=IF(OR({goal}=0;$A6>{goal}+1E-9);"";IFERROR({pc("PACE.CLOCK", "INDEX(wall_clock;COLUMN()-1)", goal, at)};""))',
                rows, CLOCK_GOALS, "wall time")
    past = "AND($A6>1;$A6>MAX(wall_rounds)"  # the first row past the last leaves that one its line
    sheet.mark(f"A6:{column(CLOCK_GOALS)}{5 + rows}", (f"{past};N($A5)<=MAX(wall_rounds))", "blank below"),
               (f"{past})", "blank row"))
    sheet.heights(4, 5, 11)
    sheet.widths("A", 36, *[28] * CLOCK_GOALS)
    end = 6 + rows
    sheet.merged(f"A{end}:{column(CLOCK_GOALS)}{end}", _("Even pace. The goals are set on the sheet Event; the first nine are shown."), "wall note")
    sheet.merged(f"A{end + 1}:{column(CLOCK_GOALS)}{end + 1}", _(CAUTION), "caution")
    sheet.heights(end + 1, end + 1, 12)
    sheet.page(f"A1:{column(CLOCK_GOALS)}{end + 1}", tall=1, wide=1, centre=True)


def make_ergometer(book):
    sheet, _ = book.ergometer, book.texts
    rows, rates = 20, 10
    wall_head(sheet)
    for cells, label in (("A3:A3", "Calories from"), ("D3:E3", "cal/h from"), ("G3:H3", "in steps of"), ("J3:J3", "Spin-up, s")):
        sheet.merged(cells, _(label), "wall note")
    sheet.heights(3, 3, 8)
    for cell, name, value, low, high, message in (
            ("B3", "erg_calories_from", 5, 1, 200, "Give calories, such as 5."),
            ("F3", "erg_rate_from", 600, 100, 5000, "Give calories an hour, such as 600."),
            ("I3", "erg_rate_step", 100, 1, 1000, "Give calories an hour, such as 100."),
            ("K3", "erg_spin_up", 0, 0, 20, "Give seconds until the machine counts; 0 is usual.")):
        sheet.put(cell, value, "input number")
        sheet.name(name, cell)
        sheet.limit(cell, low, high, message)
    sheet.merged(f"B4:{column(rates)}4", _("Time on the ergometer at so many cal/h"), "wall head")
    sheet.text("A5", "Calories", "wall head")
    sheet.right("B5", "=erg_rate_from+(COLUMN()-2)*erg_rate_step", rates, "wall head")
    sheet.down("A6", "=erg_calories_from+ROW()-6", rows, "wall goal")
    sheet.block("B6", f'=IFERROR({pc("ERG.TIME", "$A6", "B$5", "erg_spin_up")};"")', rows, rates, "wall time")
    sheet.heights(4, 5, 11)
    sheet.widths("A", 42, *[26] * rates)
    end = 6 + rows
    sheet.merged(f"A{end}:{column(rates)}{end}", _("Calories as the monitor counts them; check yours once against a stopwatch."), "wall note")
    sheet.merged(f"A{end + 1}:{column(rates)}{end + 1}", _(CAUTION), "caution")
    sheet.heights(end + 1, end + 1, 12)
    sheet.page(f"A1:{column(rates)}{end + 1}", tall=1, wide=1, centre=True)


# Cards ------------------------------------------------------------------------------------------------------------

CARD_COLUMNS = 10
CARD_HEIGHTS = (10, 5, 9, 12, 6, 28, 11, 7, 6, 5.5, 6.5, 5.5, 6.5, 8.5)  # 127 mm: two cards on A4 and on Letter


def make_cards(book):
    sheet, _, lit, say = book.cards, book.texts, book.texts.lit, book.texts.say
    sheet.widths("A", *[8.6] * CARD_COLUMNS, 5, 5, *[8.6] * CARD_COLUMNS)
    for side, name, letter in ((0, "card_left", "X"), (12, "card_right", "Y")):
        # whose card it is stands beside it, out of sight
        sheet.down(f"{letter}1", f"=2*INT((ROW()-1)/{CARD_ROWS})+{1 if side == 0 else 2}", CARD_ROWS, "working")
        sheet.moving(name, f"${letter}1")
        sheet.sheet.Columns.getByName(letter).IsVisible = False
        make_card(sheet, side, name)
    for row, height in enumerate(CARD_HEIGHTS, 1):
        sheet.heights(row, row, height)
    pages = ATHLETES // 2
    sheet.repeat_down(f"A1:Y{CARD_ROWS}", pages)
    sheet.name("card_one", f"A1:{column(CARD_COLUMNS - 1)}{CARD_ROWS}")
    sheet.name("card_two", f"{column(12)}1:{column(11 + CARD_COLUMNS)}{CARD_ROWS}")
    sheet.break_before(*[1 + 2 * CARD_ROWS * page for page in range(1, pages // 2)])
    sheet.page(f"A1:{column(21)}{pages * CARD_ROWS}", footer=False, wide=0, margin=10, fit="cards")


def make_card(sheet, side, n):
    _, lit, say = sheet._, sheet.book.texts.lit, sheet.book.texts.say
    at = lambda col, row: address(side + col, row - 1)
    across = lambda first, last, row: f"{at(first, row)}:{at(last, row)}"
    of = lambda name: f"INDEX(a_{name};{n})"
    time = lambda name: f'IFERROR({pc("CLOCK.TEXT", of(name))};"")'
    sheet.merged(across(0, 6, 1), f"={of('name')}", "card name")
    sheet.merged(across(7, 9, 1), f'=IF({of("name")}="";"";event_stamp)', "card line")
    sheet.merged(across(0, 9, 2), f'=IF({of("name")}="";"";TEXTJOIN(", ";TRUE();event_called;{of("division")}))', "card line")
    for first, last, label, value in (
            (0, 1, "Goal", of("goal")), (2, 3, "Round target", time("target")),
            (4, 6, "Ergometer cal/h, at least", f'IF({of("floor_shown")}="";"";ROUND({of("floor_shown")};0))'),
            (7, 9, "Clock after round 1", time("open"))):
        sheet.merged(across(first, last, 3), f'=IF({of("name")}="";"";{lit(label)})', "card label")
        sheet.merged(across(first, last, 4), f"={value}", "card value")
    sheet.merged(across(0, 9, 5), f'=IF({of("name")}="";"";{lit("Open with, then fall back to")})', "card line")
    sheet.merged(across(0, 9, 6), f'=IF({of("ok")}=0;"";TEXTJOIN(CHAR(10);TRUE();INDEX(s_line;0;{n})))', "card words")
    rule = say("If round 3 ends after {late}, the goal is now {low}: {target} a round.", late=time("late"), low=of("low"), target=time("low_target"))
    sheet.merged(across(0, 9, 7), f'=IF({of("name")}="";"";IF({of("free")}=0;{of("note")};IF({of("late")}="";"";{rule})))', "card words")
    band = say("Needed {need} cal/h, {words}", need=f"ROUND({of('need')};0)", words=of("words"))
    sheet.merged(across(0, 9, 8), f'=IF({of("need")}>0;{band};"")', "card line")
    sheet.merged(across(0, 9, 9), f'=IF({of("free")}=0;"";{lit("Clock after these rounds: tape to the machine")})', "card line")
    for half in range(2):
        row, step = 10 + 2 * half, f"COLUMN(){CARD_COLUMNS * half - side:+d}"
        sheet.right(at(0, row), f"=INDEX(a_strip;{n};{step})", CARD_COLUMNS, "card strip")
        sheet.right(at(0, row + 1), f"=INDEX(a_strip_clock;{n};{step})", CARD_COLUMNS, "card strip time")
        blank = f'{at(0, row)}=""'
        sheet.mark(across(0, 9, row), (blank, "blank below" if half else "blank strip"))
        sheet.mark(across(0, 9, row + 1), (blank, "blank below"))
    sheet.merged(across(0, 9, 14), f'=IF({of("name")}="";"";{lit("Stop on chest pain, faintness or unusual pain. A plan is no medical advice.")})', "card words")
    gap = address(side + CARD_COLUMNS, 0)
    if side == 0:
        sheet.styled(f"{gap}:{address(side + CARD_COLUMNS, CARD_ROWS - 1)}", "cut right")
    for part in (f"{at(0, CARD_ROWS)}:{at(9, CARD_ROWS)}",):
        sheet[part].BottomBorder = line(LINE, True)
    sheet[address(10, CARD_ROWS - 1)].BottomBorder = sheet[address(11, CARD_ROWS - 1)].BottomBorder = line(LINE, True)


def make_messages(book):
    sheet, _, lit, say = book.messages, book.texts, book.texts.lit, book.texts.say
    stamp(sheet, "Messages")
    sheet.merged("A3:C3", _("One cell an athlete: copy it into a message."), "note")
    for col, head in zip("ABC", ("No.", "Name", "Text for the phone")):
        sheet.text(f"{col}5", head, "head")
    sheet.widths("A", 8, 44, 134)
    own(sheet, "message", no="A")
    sheet.numbers("A6", ATHLETES)
    sheet.down("B6", "=INDEX(a_name;message_its_no)", ATHLETES, "cell")
    of = lambda name: f"INDEX(a_{name};message_its_no)"
    time = lambda name: f'IF({of(name)}="";"";IFERROR({pc("CLOCK.TEXT", of(name))};""))'
    goal = say("{name}, {event}: goal {goal}. Round {target}, clock after round 1 {open}.", name=of("name"), event="event_title",
               goal=of("goal"), target=time("target"), open=time("open"))
    machine = f'IF({of("floor_shown")}="";"";" "&{say("Ergometer at least {floor} cal/h.", floor="ROUND(" + of("floor_shown") + ";0)")})'
    sets = f'IF({of("schemes")}="";"";" "&{say("Sets: {schemes}.", schemes="TEXTJOIN(" + chr(34) + "; " + chr(34) + ";TRUE();INDEX(s_line;0;message_its_no))")})'
    late = f'IF({of("late")}="";"";" "&{say("Round 3 after {late}: goal {low}.", late=time("late"), low=of("low"))})'
    plain = say("{name}, {event}: {note}.", name=of("name"), event="event_title", note=of("note"))
    stop = lit("Stop on chest pain, faintness or unusual pain.")
    sheet.down("C6", f'=IF({of("name")}="";"";IF({of("free")}=0;{plain};{goal}&{machine}&{sets}&{late})&" "&{stop}&" ("&event_stamp&")")',
               ATHLETES, "cell words")
    sheet.name("message_text", f"C6:C{5 + ATHLETES}")
    sheet.heights(6, 5 + ATHLETES, 17)
    sheet.freeze("C6")
    sheet.page(f"A1:C{5 + ATHLETES}", repeat=(1, 5), fit="messages")


# Warm-up ----------------------------------------------------------------------------------------------------------

def make_warmup(book):
    sheet, _, say = book.warmup, book.texts, book.texts.say
    stamp(sheet, "Warm-up")
    sheet.widths("A", 26, 22, 132)
    rounds = "MAX(1;MIN(3;INT(IF(event_kind=2;event_rounds;wall_from)/5+1E-9)))"
    share = "ROUND(100*event_rehearsal;0)"
    steps = (
        (45, "General", _("5 to 7 minutes on two or three easy cyclic machines, able to talk.")),
        (37, "Dynamic", _("7 to 10 drills through the full range of the joints that the task loads: hips, ankles, shoulders, wrists, back.")),
        (28, "Build-up", _("Two or three short sets at each loaded station, up to the load of the day.")),
        (20, "Rehearsal", "=" + say("The task itself at {share} % of the planned pace: {rounds} round(s), no more than a fifth of the work. Rehearsal times are on the roster.",
                                    share=share, rounds=rounds)),
        (12, "Decide", _("Could you go on like this to the end? With more left: keep the goal, open 2 to 3 % slower, push in the last quarter. "
                         "Only just: the next lower goal. No: the rehearsed pace is the goal. Tell the coach.")),
        (8, "Settle", _("Walk, sip, set out what you need within reach; stations a step and a half apart or less.")),
        (3, "Ready", _("Lane, judge, card on the machine.")),
    )
    for col, head in zip("ABC", ("First heat at", "Before the start", "What")):
        sheet.text(f"{col}4", head, "head left")
    for row, (before, title, words) in enumerate(steps, 5):
        sheet.put(f"A{row}", f'=IF(N(event_first_start)<=0;"";event_first_start-{before}/1440)', "cell clock")
        sheet.put(f"B{row}", "=" + say("{minutes} min", minutes=f'"{before}"'), "cell center")
        sheet.put(f"C{row}", words if words.startswith("=") else f"{_(title)}. {words}", "cell words")
        if words.startswith("="):
            sheet.put(f"C{row}", f'="{_(title)}. "&{words[1:]}')
        sheet.heights(row, row, 13)
    first = 6 + len(steps)
    sheet.text(f"A{first}", "The days before", "section")
    sheet.styled(f"A{first}:C{first}", "section")
    for row, words in enumerate((_("8 to 10 hours of sleep; drink to thirst over the 24 to 48 hours before; food as on any other day."),
                                 _("No maximal test in the three days before; 48 to 72 hours before a second attempt."),
                                 _("Try the machine, the load and the grip you will use. Tape or grips for torn hands."),
                                 _("Hanging sets that will not last unbroken: single repetitions from the start are a sound option.")), first + 1):
        sheet.merged(f"A{row}:C{row}", "☐ " + words, "cell words")
        sheet.heights(row, row, 8)
    row = first + 6
    sheet.merged(f"A{row}:C{row}", _(CAUTION) + " " + _("Newcomers and those returning build up over weeks: muscle breakdown after too much too "
                                                       "soon is real."), "caution")
    sheet.heights(row, row, 18)
    sheet.page(f"A1:C{row}", tall=1)


# Heats ------------------------------------------------------------------------------------------------------------

def make_heats(book):
    sheet, _, say = book.heats, book.texts, book.texts.say
    stamp(sheet, "Heats")
    no_athletes(sheet, "E2")
    hidden = book.by_goal
    # One call for the whole list; the sheet picks its rows. Out of the way of the columns of workings.
    last = 3 + ATHLETES
    area = hidden[f"CA4:CE{last}"]
    area.setArrayFormula("=" + pc("HEAT.LIST", "a_heat_name", "a_heat_order", "event_lanes", "event_first_start", "event_every", "a_division"))
    hidden.put("CA3", "heat list", "working head")
    hidden.name("heat_raw", f"CA4:CE{last}")
    for step, head in enumerate(("Heat", "Lane", "Start", "Name", "Judge", "Division", "Goal", "Round target")):
        sheet.text(address(step, 4), head, "head")
    sheet.heights(5, 5, 9)
    sheet.merged("A3:H3", "=" + say("{lanes} athletes a heat, from start to start {every}; slowest heats first; the judge is an athlete of another heat.",
                                    lanes="event_lanes", every=f'IFERROR({pc("CLOCK.TEXT", "event_every")};"")'), "note")
    sheet.widths("A", 14, 14, 18, 46, 46, 26, 18, 20)
    own(sheet, "heat", name="D")
    # &"" makes a text of this document of what the array returned; only then does MATCH find it
    raw = lambda k: f'IFERROR(INDEX(heat_raw;ROW()-5;{k}){"&" + chr(34) * 2 if k > 3 else ""};"")'
    for k, style in ((1, "cell strong"), (2, "cell center"), (3, "cell clock"), (4, "cell"), (5, "cell")):
        sheet.down(address(k - 1, 5), f"={raw(k)}", ATHLETES, style)
    sheet.heights(6, 5 + ATHLETES, 6)
    for col, name, style in (("F", "a_division", "cell"), ("G", "a_goal", "cell center"), ("H", "a_target", "cell time")):
        sheet.down(f"{col}6", f'=IF(heat_its_name="";"";IFERROR(INDEX({name};MATCH(heat_its_name;a_name;0));""))', ATHLETES, style)
    sheet.name("heat_list", f"A6:E{5 + ATHLETES}")
    for cells, style in ((f"A6:C{5 + ATHLETES}", "first of heat"), (f"D6:F{5 + ATHLETES}", "first of heat left"),
                         (f"G6:G{5 + ATHLETES}", "first of heat"), (f"H6:H{5 + ATHLETES}", "first of heat time")):
        sheet.mark(cells, ("$B6=1", style))
    sheet.freeze("A6")
    sheet.page(f"A1:H{5 + ATHLETES}", repeat=(1, 5), fit="heats")


def make_judge(book):
    sheet, _, lit, say = book.judge, book.texts, book.texts.lit, book.texts.say
    sheet.widths("A", 52, 24, *[17] * JUDGED, 6, 34)
    end, side = column(1 + JUDGED), column(3 + JUDGED)
    for row, label, name in ((1, "Heat to show", "judge_heat"), (4, "Rounds from", "judge_from")):
        sheet.text(f"{side}{row}", label, "head")
        sheet.put(f"{side}{row + 1}", 1, "input number")
        sheet.name(name, f"{side}{row + 1}")
    sheet.whole(f"{side}2", 1, 200, "Give the number of a heat.")
    sheet.whole(f"{side}5", 1, ROUNDS, "Give the first round of the sheet, 1 to 40.")
    most = "IF(event_kind=2;N(event_rounds);MAX(a_goal_rounds)+1)"
    sheet.merged(f"{side}6:{side}12", f'=IF({most}>judge_from+{JUDGED - 1};"▲ "&'
                 + say("More rounds than stand here: print these, then again with rounds from {next}.", next=f"judge_from+{JUDGED}")
                 + ';"")', "note")
    # beside each row, out of sight: the place in the list of heats, the athlete, the station
    own(sheet, "judge", place="T", athlete="U", station="V")
    lane = f"INT((ROW()-1)/{JUDGE_ROWS})"
    there = f"MATCH(judge_heat;INDEX(heat_list;0;1);0)+{lane}"
    for letter, formula in (("T", f"IFERROR(IF(INDEX(heat_list;{there};1)=judge_heat;{there};0);0)"),
                            ("U", "IF(judge_its_place=0;0;IFERROR(MATCH(INDEX(heat_list;judge_its_place;4);a_name;0);0))"),
                            ("V", f"MOD(ROW()-1;{JUDGE_ROWS})-3")):
        sheet.down(f"{letter}1", f"={formula}", JUDGE_ROWS, "working")
        sheet.sheet.Columns.getByName(letter).IsVisible = False
    listed = lambda k: f"INDEX(heat_list;judge_its_place;{k})"
    known = lambda value: f'IF(judge_its_place=0;"";{value})'
    sheet.merged(f"A1:{column(7)}1", "=" + known(listed(4)), "wall title")
    sheet.heights(1, 1, 16)
    sheet.merged(f"{column(8)}1:{end}1", "=" + say("Heat {heat}, lane {lane}", heat="judge_heat", lane=f"({lane}+1)"), "wall stamp")
    sheet.put("A2", f'=event_heading&IF(judge_its_athlete=0;"";", "&INDEX(a_division;judge_its_athlete))', "stamp")
    start = listed(3)
    words = say("Start {start}, judge: {judge}, cap {cap}", judge=f'IF({listed(5)}="";"________";{listed(5)})', cap=pc("CLOCK.TEXT", "event_cap"),
                start=f"IF(N({start})=0;{lit('open')};{texts_clock(start)})")
    sheet.put("A3", f'=IF(judge_its_place=0;{lit("No athlete in this lane.")};{words})', "stamp")
    sheet.text("A4", "Station: running score at its end", "head left")
    sheet.text("B4", "Amount", "head")
    played = "judge_from+COLUMN()-3"
    sheet.right("C4", f'={lit("Round")}&" "&({played})', JUDGED, "head")
    station, d = "judge_its_station", f"(INDEX(a_d;judge_its_athlete)-1)*{ROUNDS}"
    sheet.down("A5", f'=IF(judge_its_athlete=0;"";INDEX(st_name;{station}))', STATIONS, "cell")
    amount = f"INDEX(amounts_all;{station};{d}+IF(INDEX(st_when;{station})=2;1;event_ref))"
    sheet.down("B5", f'=IF(judge_its_athlete=0;"";IF({amount}=0;"";{amount}&IF(INDEX(st_kind;{station})={REP};"";" "&INDEX(st_unit;{station}))))',
               STATIONS, "cell center")
    at = f"INDEX(a_d;judge_its_athlete)*{ROUNDS}-{ROUNDS}+{played}"
    sheet.block("C5", f'=IF(OR(judge_its_athlete=0;{played}>IF(event_kind=2;event_rounds;{ROUNDS}));"";'
                      f'IF(INDEX(amounts_all;{station};{at})=0;"";IF(INDEX(st_counts;{station})=0;"☐";INDEX(cum_station;{station};{at}))))',
                STATIONS, JUDGED, "cell center")
    after = 5 + STATIONS
    for row, label in enumerate(("No-reps (strokes)", "Clock at the end of the round"), after):
        sheet.text(f"A{row}", label, "cell")
        sheet.styled(f"B{row}:{end}{row}", "cell")
        sheet.heights(row, row, 9)
    row = after + 3
    sheet.put(f"A{row}", f'={lit("Tie-break")}&": "&event_tiebreak', "label")
    sheet.merged(f"{column(5)}{row}:{column(7)}{row}", None, "cell")
    sheet.text(f"{column(9)}{row}", "Result")
    sheet.merged(f"{column(11)}{row}:{end}{row}", None, "cell")
    sheet.text(f"A{row + 2}", "Judge signs")
    sheet.merged(f"B{row + 2}:{column(5)}{row + 2}", None, "cell")
    sheet.text(f"{column(7)}{row + 2}", "Athlete signs")
    sheet.merged(f"{column(9)}{row + 2}:{end}{row + 2}", None, "cell")
    sheet.heights(row, row, 10)
    sheet.heights(row + 2, row + 2, 10)
    sheet.text(f"A{row + 4}", "Count out loud. No-rep: say why. Stop the athlete on chest pain, faintness or unusual pain.", "stamp")
    for letters in (f"A1:{end}{JUDGE_ROWS}", f"T1:V{JUDGE_ROWS}"):
        sheet.repeat_down(letters, LANES)
    sheet.break_before(*[1 + lane * JUDGE_ROWS for lane in range(1, LANES)])
    sheet.page(f"A1:{end}{LANES * JUDGE_ROWS}", landscape=True, fit="judge")
