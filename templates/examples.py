"""Events of an invented gym, to see each format at work. Names, tests and times are made up."""

import random

MINUTE, HOUR = 1 / 1440, 1 / 24

DEFAULTS = {
    "event_version": 1, "event_steps": 4, "event_step_s": 0.6, "event_rest_s": 3, "event_fade": 0.06, "event_push": 0.06,
    "event_goal_step": 0.5, "event_goal_step_time": 0.5 * MINUTE, "event_share": 0.75, "event_effort": 1.10,
    "event_keep": 0.10, "event_rehearsal": 0.825, "event_test_weeks": 12, "event_changeover": 5 * MINUTE,
    "event_places": 8, "event_first_start": 9 * HOUR, "wall_from": 4, "wall_to": 10, "wall_step": 0.5,
    "wall_from_time": 8 * MINUTE, "wall_to_time": 14 * MINUTE, "wall_step_time": 0.5 * MINUTE, "wall_most": 1600,
    "division_names": ["as written", "adapted", "men", "women"],
    "group_names": ["A", "B", "C", "D", "E"], "group_erg": [1.2, 1.1, 1, 0.9, 0.8],
    "group_rep": [0.85, 0.92, 1, 1.12, 1.3], "group_sets": [1.5, 1.2, 1, 0.8, 0.6],
}

# A 17-minute task on the ski ergometer: as many rounds as possible.
ROUNDS = {
    "event_gym": "Quayside Shed", "event_title": "Tide Table", "event_date": (2026, 11, 28), "event_version": 2,
    "event_issued": (21 + 40 / 60) * HOUR, "event_format": 0, "event_cap": 17 * MINUTE, "event_steps": 3,
    "event_tiebreak": "clock after the third sandbag station", "event_first_start": 9.5 * HOUR, "event_places": 6,
    "wall_from": 5, "wall_to": 11, "machine_counts": [4, 6, 2, 0],
    "stations": [
        # movement, unit, when, change, amounts, loads, s a rep, cal/h, pace, handling, next, held, longest, credit
        ("Ski", "ski cal", None, None, [12, 9, 12, 10], [], None, 850, None, 4, None, None, None, None),
        ("Sandbag over shoulder", "rep", None, None, [6, 6, 6, 6], [45, 30, 45, 30], 3.4, None, None, 3, None, True, 26, None),
        ("Box step-over", "rep", None, None, [10, 8, 10, 10], [], 2.6, None, None, 2, None, None, 60, None),
        ("Ring row", "rep", None, None, [8, 6, 10, 8], [], 1.9, None, None, 3, 5, True, 32, None),
    ],
}

# Four rounds for time, bought into with a bike; the running is not counted.
TIME = {
    "event_gym": "Quayside Shed", "event_title": "Long Pier", "event_date": (2026, 12, 12), "event_version": 1,
    "event_issued": 20 * HOUR, "event_format": 1, "event_cap": 19 * MINUTE, "event_rounds": 4, "event_steps": 6,
    "event_tiebreak": "clock at the end of round 3", "event_places": 8, "machine_counts": [4, 6, 5, 0],
    "wall_from_time": 13 * MINUTE, "wall_to_time": 19 * MINUTE, "wall_step_time": 0.5 * MINUTE,
    "stations": [
        ("Bike", "bike cal", 1, None, [25, 18, 25, 20], [], None, 900, None, 5, None, None, None, None),
        ("Run", "run m", None, None, [350, 250, 350, 350], [], None, None, 4.9 * MINUTE, 0, None, None, None, None),
        ("Goblet squat", "rep", None, None, [16, 12, 16, 16], [24, 12, 24, 16], 2.1, None, None, 3, None, None, 60, None),
        ("Push-up", "rep", None, None, [14, 10, 16, 10], [], 1.5, None, None, 1, None, True, 46, None),
    ],
}

# A ladder: two more each round, the rower the same every time.
LADDER = {
    "event_gym": "Quayside Shed", "event_title": "Stair Well", "event_date": (2027, 1, 16), "event_version": 1,
    "event_issued": 19.5 * HOUR, "event_format": 2, "event_cap": 13 * MINUTE, "event_steps": 4,
    "event_tiebreak": "clock after the round of 8", "event_places": 10, "machine_counts": [5, 6, 2, 0],
    "wall_from": 4, "wall_to": 9, "wall_step": 0.5,
    "stations": [
        ("Row", "row cal", None, None, [7, 5, 7, 6], [], None, 900, None, 7, None, None, None, None),
        ("Push press", "rep", None, 2, [4, 4, 4, 4], [40, 25, 45, 30], 2.2, None, None, 4, None, True, 36, None),
        ("Burpee over the bar", "rep", None, 2, [4, 2, 4, 4], [], 3.6, None, None, 0, None, None, 90, None),
    ],
}

NAMES = ("Ada Brinkhorst", "Bela Ossian", "Cora Varga", "Dagny Tell", "Emil Sandgren", "Fenja Okoro", "Goran Whitlock",
         "Hedda Marais", "Ivo Lindqvist", "Juna Castellan", "Kasimir Dove", "Lale Petrakis", "Milo Hargrave",
         "Nadja Fairweather", "Odo Kessling", "Paloma Reuter", "Quirin Aske", "Runa Delacroix", "Silas Montane",
         "Tilda Zervas", "Ugo Ferrand", "Vesna Holloway", "Wim Adelaar", "Xenia Brandt")

WOMEN = {"Ada", "Cora", "Dagny", "Fenja", "Hedda", "Juna", "Lale", "Nadja", "Paloma", "Runa", "Tilda", "Vesna", "Xenia"}


def athletes(count=24, seed=17):
    """Invented athletes: dicts with name, division, status, group and tests (None where there are none)."""
    dice = random.Random(seed)
    firsts = [name.split()[0] for name in NAMES]
    lasts = [name.split()[1] for name in NAMES]
    people = []
    for i in range(count):
        name = NAMES[i] if i < len(NAMES) else f"{firsts[i % 24]} {lasts[(i // 24 + i) % 24]} {i}"
        level = dice.gauss(0, 1)
        woman = name.split()[0] in WOMEN
        division = 1 if level < -0.9 else (3 if woman else 2) if i % 3 else 0
        power = max(90, (165 if woman else 215) + 28 * level)
        people.append({
            "name": name, "division": division, "status": {5: 1, 11: 3, 16: 2, 21: 4}.get(i),
            "group": None if i == 9 else min(4, max(0, round(2 - level))),
            "kind": ("fitted", "tests", "tests", "one", None, "old")[i % 6],
            "power": round(power), "reserve": round(max(6000, (11500 if woman else 15500) + 1800 * dice.gauss(0, 1)) / 100) * 100,
            "effort": round(1.02 + 0.05 * dice.random(), 2), "days": 20 + dice.randrange(40),
            "longest": max(0.5, 1 + 0.22 * level + 0.05 * dice.gauss(0, 1)),
            "strength": round((62 if woman else 88) + 9 * level),
        })
    return people
