"""What the cells of a workout answer, and what of a sheet cannot be meant: place, content and the sentence about it."""

import re

SECOND = 1 / 86400

# The workout itself: 14 or 12 calories, 6, 10 or 8, 8 or 6 repetitions.
WORKOUT = [
    ("=WORKOUT.CHECK(workout)", ""),
    ('=WORKOUT.REPS(workout;"scaled")', 32),
    ('=WORKOUT.REPS(workout;"as prescribed";3)', 38),
    ("=WORKOUT.REPS(workout)", 38),
    ('=WORKOUT.REPS(workout;"beginners")', "Err:502"),
    ('=WORKOUT.COUNT(workout;"scaled";0)', 0),
    ('=WORKOUT.COUNT(workout;"scaled";1;1)', 12),
    ('=WORKOUT.COUNT(workout;"scaled";2;1)', 44),
    ('=WORKOUT.COUNT(workout;"scaled";3;"Box step-overs")', 90),
    ('=WORKOUT.COUNT(workout;" Scaled ";3)', 96),
    ('=WORKOUT.COUNT(workout;"scaled";2;5)', ""),
    ('=WORKOUT.COUNT(workout;"scaled";2;0)', "Err:502"),
    ('=HEAT.SHEET(workout;"scaled";0;0)', "running count"),
    ('=HEAT.SHEET(workout;"scaled";3;0;6)', "8 Box step-overs"),
    ('=HEAT.SHEET(workout;"scaled";3;3;6)', "90 "),
    ('=HEAT.SHEET(workout;"scaled";0;8;6)', "R8"),
    ('=HEAT.SHEET(workout;"scaled";0;9;6)', ""),
    ('=HEAT.SHEET(workout;"scaled";5;0;6)', ""),
    ('=HEAT.SHEET(workout;"scaled";-1;0;6)', "Err:502"),
    ('=WORKOUT.TEXT(workout;"scaled")',
     "17 min AMRAP, scaled: 12 ski cal, 6 Sandbags 30 kg, 8 Box step-overs, 6 Ring rows"),
    ('=WORKOUT.TEXT(workout;"scaled";0)', "17 min AMRAP, scaled"),
    ('=WORKOUT.TEXT(workout;"as prescribed";2)', "6 Sandbags 45 kg"),
    ('=WORKOUT.TEXT(workout;;"ring rows")', "8 Ring rows"),
    ('=WORKOUT.TEXT(workout;"scaled";5)', ""),
    ("=WORKOUT.TABLE(workout;5;7;1;0;1)", "GOAL"),
    ("=WORKOUT.TABLE(workout;5;7;1;0;3)", "AT 8:30"),
    ("=WORKOUT.TABLE(workout;5;7;1;0;4)", "SKI as prescribed"),
    ("=WORKOUT.TABLE(workout;5;7;1;1;1)", 5),
    ("=WORKOUT.TABLE(workout;5;7;1;3;1)", 7),
    ("=WORKOUT.TABLE(workout;5;7;1;4;1)", ""),
    ("=WORKOUT.TABLE(workout;5;7;1;1;9)", ""),
    ("=WORKOUT.TABLE(workout;30;30;1;1;4)", "–"),  # boxes, bags and rings alone take longer than 34 s
    ("=WORKOUT.TABLE(workout;7;5)", "Err:502"),
    ("=WORKOUT.TABLE(workout;5;7;1;0;9)", ""),
    ("=WORKOUT.TABLE(workout;5;7;1;-2)", "Err:502"),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";0;2)', "ski cal"),
    ('=WORKOUT.CLOCKS(workout;900;"scaled";0;2)', "ski cal"),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";3;1)', 3),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";7;1)', ""),
    ('=WORKOUT.TABLE(workout;5;7;1;-1)', ""),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";-1;1;;1)', "Clock for goal 6"),
    ('=WORKOUT.CLOCKS(workout;"6";"scaled";-1;1;;1)', "Clock for goal 6"),  # as a cell of text has it
    ('=WORKOUT.CLOCKS(workout;"5,5 ";"scaled";-1;1;;1)', "Clock for goal 5.5"),
    ('=WORKOUT.CLOCKS(workout;"six";"scaled";1;1)', "Err:502"),
    ('=WORKOUT.CLOCKS(workout;"six";"scaled";-1;1;;1)', ""),  # a page is blank, and says why beside the goal
    ('=WORKOUT.CLOCKS(workout;"six";"scaled";1;1;;1)', ""),
    ('=WORKOUT.CLOCKS(workout;"six";"scaled";-1;2;;1)', "Goal shown"),
    ('=WORKOUT.CLOCKS(workout;"six";"scaled";-1;4;;1)', "Enter rounds such as 6.5, or for time a finish such as 13:00."),
    ('=WORKOUT.CLOCKS(workout;250;"scaled";-1;4;;1)', "The goal must be 0.1 to 199 rounds, or for time a time up to the cap; got 250."),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";-1;4;;1)', ""),
    ('=WORKOUT.CLOCKS(workout;6;"";-1;1;;1)', "Clock for goal 6"),
    ('=WORKOUT.TABLE(workout;"5";"7";"1";3;1)', 7),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";-1;1;;2)', ""),
    ('=WORKOUT.CLOCKS(workout;;"scaled";-1;2;;1)', "Goal shown"),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";1;1;;2)', ""),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";1;1;;3)', "Err:502"),
    ('=WORKOUT.CLOCKS(workout;6;"scaled";3;1;{5;7})', 3),  # no list of goals where there are rounds
    # Usual pace, scaled: 4 s to strap in, then 620 cal/h: 5.3 calories after 35 s, 12 after 73.7 s, then walking. At
    # twice that pace 2 s, then 1240 cal/h: 11.4 calories.
    ('=WORKOUT.SCORE(workout;"scaled";"0:35")', 5),
    ('=WORKOUT.SCORE(workout;"scaled";"1:15")', 12),
    ('=WORKOUT.SCORE(workout;"scaled";"1:15";;2)', 12 / 32),
    ('=WORKOUT.SCORE(workout;"scaled";"1:15";;3)', "0+12"),
    ('=WORKOUT.SCORE(workout;"scaled";"0:35";2)', 11),
    ('=WORKOUT.RESULT(workout;"scaled";"")', ""),
    ('=WORKOUT.RESULT(workout;"scaled";"15 14")', "Err:502"),  # no intervals
    ('=WORKOUT.RESULT(workout;"scaled";6)', 6),
    ('=WORKOUT.RESULT(workout;"scaled";6;{"1:10"|"2:25"})', 70),  # rounds of 32
    ('=WORKOUT.RESULT(workout;"scaled";6;{"1:10"|"2:25"};2)', "2+6"),
    ('=WORKOUT.RESULT(workout;"scaled";"";{"1:10"|"2:25"};2)', "2+0"),
    ('=WORKOUT.RESULT(workout;"scaled";32;{"1:10"|"2:25"})', "Err:502"),  # a whole round
    ('=WORKOUT.RESULT(workout;"scaled";6;{"2:25"|"1:10"})', "Err:502"),
    ('=WORKOUT.RESULT(workout;"scaled";6;{"1:10"|""|"2:25"})', "Err:502"),
    ('=WORKOUT.RESULT(workout;"scaled";32;{"1:10"|"2:25"};2)', "! unreadable"),
    ('=WORKOUT.RESULT(workout;"scaled";32;{"1:10"|"2:25"};3)', ""),
    ('=WORKOUT.RESULT(workout;"scaled";6;{"1:10"};3)', 38),
    ('=WORKOUT.RESULT(workout;"scaled";6;{"1:10"};5)', "Err:502"),
    ('=WORKOUT.RESULT(workout;"scaled";6;{"1:10"|""|"2:25"};2)', "! unreadable"),
    ('=WORKOUT.RESULT(workout;"scaled";{6;6;6;6;6;6})', "Err:502"),
    ('=WORKOUT.SCORE(workout;"scaled";"20:00")', "Err:502"),
    ('=WORKOUT.SCORE(workout;"scaled";"2:00";9)', "Err:502"),
    ("=WORKOUT.CHECK(5)", "Err:504"),
    ('=WORKOUT.CHECK({1|2})', "Err:504"),
    ("=WORKOUT.CHECK(tests)", "This is not a workout: its first key must be \"pacecells.workout\"."),
    ("=WORKOUT.TEXT(tests)", "Err:502"),
]

# What is changed, and the sentence of ATHLETE.NOTE; the goal is Err:502 then.
BAD_ROSTER = [
    ("B1", "", "The key \"name\" is missing over the roster. Was a column deleted?"),
    ("C1", "", 'The key "division" is missing over the roster. Was a column deleted?'),
    ("D1", "name", 'column 3 of the row: the key "name" is there twice.'),
    ("G1", "colour", 'column 6 of the row: the key "colour" is not known over the roster.'),
    ("C2", "juniors", 'column 2 of the row: there is no division "juniors" in the workout.'),
    ("F2", "seven", 'column 5 of the row: the goal "seven" names no one station: write the station as it is in the workout.'),
    ("F2", "5+40", 'column 5 of the row: the goal "5+40" has more reps than that round, which has 32.'),
    ("H2", 1, 'column 1 of the row: the name "Ilka Moorvane" is on the roster twice: add an initial.'),
    ("E2", "fast", 'column 4 of the row: there is no pace group "fast" in the workout.'),
]

BAD_BLOCK = [
    ("A5", "", "Enter the cap as minutes and seconds, such as 18:00."),
    ("A7", "cap", 'Workout.A7: the key "cap" is there twice.'),
    ("A7", "stepps", 'Workout.A7: the key "stepps" is not known. Was a key typed over?'),
    ("A12", "", "Workout.C12: this row of the workout has no key: copy the row above it, then type."),
    ("J15", "", 'Workout.A15: the key "longest" is missing in this row.'),
    ("A26", "", 'The workout has no end: its last key must be "end". Was a row deleted?'),
    ("C2", 2, re.compile("newer version")),
    ("C2", 0, re.compile("make a new workbook")),
    ("D10", "furlong", re.compile('^Workout.D10: station 1 has the unit "furlong", which is not known')),
    ("G9", "As Prescribed", re.compile('^Workout.G9: there is already a division "as prescribed"', re.I)),
]

BAD_TESTS = [
    ("A4", "Ilka  MOORVANE", 'Tests.A3 and Tests.A4: the tests have the name "Ilka Moorvane" twice.'),
    ("B1", "ski.critcal", 'Tests.B1: the key "ski.critcal" is not known over the tests.'),
]
