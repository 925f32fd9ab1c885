"""The sheet How to test: who may, and how. On the sheet for a test day and in the file of one person."""

from builder import CAUTION

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
        "Each is a row: the time, and calories, metres or average watts. Type what the monitor shows at the end, of that one "
        "effort.",
        "A rower's test says nothing of the ski ergometer or the bike. A fan bike's calories follow no formula of power: "
        "it has its own tests and a share of them.",
        "One test alone gives a careful share of it. Two give an exact line, with no way of telling its error. Three or "
        "more give the error too.")),
    ("Longest sets", (
        "Fresh, with the load of the event and full range: count until the first break or the first bad repetition. Stop "
        "one repetition before you would fall off or lose the load.",
        "A second set to failure after a rest of half a minute, with that rest in seconds, says how well you recover.")),
    ("Loads", (
        "A one-rep max is for experienced lifters, with a coach, spotters or safety arms. Everyone else lifts a "
        "load they can move 3 to 8 times with good form and enters load and reps; the sheet works out the rest.",
        "Build up in sets of 5, 3, 2, 1 with full rest. Two failed attempts end the day.")),
    ("Writing it down", (
        "Your tests are in rows with your name. Times are minutes and seconds with a colon: 7:45.",
        "What a test says is beside it at once. A wrong value is corrected by typing over it; one that cannot be is marked ▲, "
        "with what to put right.",
        "After 12 weeks, or whatever your coach has set, a test is out of date and does not count until repeated.")),
)


def make_how(sheet):
    _ = sheet._
    sheet.text("A1", "How to test", "title")
    sheet.heights(1, 1, 11)
    sheet.widths("A", 6, 174)
    row = 3
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
    sheet.page(f"A1:B{row - 2}", wide=1, tall=1, caution=False)
