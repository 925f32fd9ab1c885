"""An event that is edited at random: what is typed into the workbook, and what the naive plan says of it.

`Event` holds a workout and people as tests/reference has them, and `cells()` what of them is typed, by place. `EDITS` change
one thing each, as a coach does: a number of a station, a rule, a test, a goal, the order of the roster, the whole workout.
"""

import copy

from event_cells import by_key
from naive_athlete import naive
from naive_cases import FORMS, GROUPS, NAMES, own_tests, random_intervals, random_of, random_person, rng
from naive_ergometer import CAL, MACHINES, METRES
from naive_team import naive_team
from office import type_in

PEOPLE, STATIONS = 6, 6
GIVEN = ("Ida Quellmann", "Tarn Overwick", "Ada Brimsole", "Jorin Feldt", "Mave Oskarin", "Bel Tornow")
LATER = ("Runa Heldvig", "Oskar Brandiel", "Pia Wendolm", "Lio Karstane", "Nea Follbrig", "Ulf Dromberg")
TESTS = {"critical": "cp", "reserve": "reserve", "date": "date", "time": "time", "calories": "calories"}
OWN = {"longest": "own_longest", "max": "own_max", "rep_s": "own_rep", "recovery": "recovery"}
RULES = ("fade", "push", "pacing", "slip", "goal_step", "goal_step_time", "rehearsal", "rehearsal_rounds")
WINDOWS = ("windows", "work", "window", "cap", "scoring")


def clock(seconds):
    return f"{seconds // 60}:{seconds % 60:02d}"


def text(value):
    return "" if value is None or value is False else "yes" if value is True else str(value)


class Event:
    def __init__(self):
        self.people = [dict(name=name, row=row, plan="", own={movement: own_tests(True) for movement in NAMES})
                       for row, name in enumerate(GIVEN)]
        self.new_workout()

    def new_workout(self):
        task = random_of(rng.choice(list(FORMS)))
        team = task["team"] if task["team"] > 1 else 1
        task.update(share=1 / team, at_once=min(team, task["at_once"]), split=None)
        if team > 1:
            task["split"] = rng.choice((None, "any", (60, 40) if team == 2 else (50, 30, 20)))
        for one in task["stations"]:
            for key in OWN.values():
                del one[key]
        self.task = task
        for person in self.people:
            person.update(random_person(self.whole(person)), plan="")

    def whole(self, person):
        """The workout with the tests of that person's movements in it, as the naive plan wants it."""
        none = dict.fromkeys(OWN.values())
        return dict(self.task, stations=[dict(one, **(person["own"][one["name"]] if one["unit"] == "rep" else none))
                                         for one in self.task["stations"]])

    def other_goals(self):
        """After a change of the stations, for a goal may name one, or more reps than there are now."""
        for person in self.people:
            person["goal"] = random_person(self.whole(person))["goal"]

    def plans(self):
        """The naive plan of each person in the order of the roster; None of one without a goal."""
        team = self.task["team"]
        if team == 1:
            return [naive(self.whole(one), one) if not one["plan"] else None for one in self.people]
        plans = []
        for first in range(0, PEOPLE, team):
            plans += naive_team([(self.whole(one), one) for one in self.people[first:first + team]])
        return plans

    # What is typed ----------------------------------------------------------------------------------------------

    def cells(self):
        """(table, key, row): text. Blank where nothing is."""
        task, found = self.task, {}
        intervals = task["format"] == "intervals"
        split = task["split"]
        for key, value in {
                "format": task["format"], "cap": "" if intervals else clock(task["cap"]), "rounds": text(task["rounds"]),
                "date": task["date"], "fade": task["fade"], "push": task["push"], "pacing": text(task["pacing"]),
                "slip_s": task["slip"], "goal_step": text(task["goal_step"]),
                "goal_step_time": clock(task["goal_step_time"]), "rehearsal": task["rehearsal"],
                "rehearsal_rounds": task["rehearsal_rounds"], "team": task["team"] if task["team"] > 1 else "",
                "at_once": task["at_once"] if task["team"] > 1 else "",
                "split": "/".join(map(str, split)) if isinstance(split, tuple) else text(split),
                "work_s": task["work"] if intervals else "", "rest_s": task["window"] - task["work"] if intervals else "",
                "windows": task["windows"] if intervals else "", "in_turn": text(intervals and task["in_turn"]),
                "scoring": task["scoring"] if intervals else ""}.items():
            found["workout", key, 0] = str(value)
        for row in range(STATIONS):
            found |= self.station(row)
        groups = [(name, *factors) for name, factors in GROUPS.items()] + [("", "", "", "")] * 2
        for row, values in enumerate(groups):
            for key, value in zip(("name", "erg", "rep", "sets"), values):
                found["workout", f"groups.{key}", row] = str(value)
        for column, name in enumerate(("open", "")):
            found["workout", "divisions", column] = name
        for place, person in enumerate(self.people):
            found |= self.on_roster(place, person) | self.in_tests(person)
        return found

    def station(self, row):
        one = self.task["stations"][row] if row < len(self.task["stations"]) else None
        keys = ("movement", "unit", "when", "amount.1", "load.1")
        paces = ("rep_s", "calh", "pace", "handling_s", "steps", "grip", "away_share", "longest")
        if one is None:
            stations, values = [""] * len(keys), [""] * len(paces)
        else:
            unit, usual, (kind, amounts) = one["unit"], one["usual"], one["amounts"]
            stations = [one["name"], unit, "" if one["when"] == "every" else one["when"],
                        "-".join(map(str, amounts)) + ("-…" if kind == "open" else ""), text(one["load"])]
            values = [text(usual if unit in ("rep", "carry m") else None), text(usual if unit in CAL else None),
                      clock(usual) if unit in METRES else "", text(one["handling"]), text(one["steps"]),
                      text(one["grip"]), text(one["away_share"]), text(one["longest"])]
        return ({("workout", f"stations.{key}", row): value for key, value in zip(keys, stations)}
                | {("workout", f"paces.{key}", row): value for key, value in zip(paces, values)})

    def on_roster(self, place, person):
        goal = ""
        if person["goal"]:
            kind, rounds, more = person["goal"]
            goal = {"rounds": f"{rounds}", "score": f"{rounds}+{more}", "time": clock(more) if kind == "time" else "",
                    "station": f"{rounds} + {self.task['stations'][more]['name']}" if kind == "station" else ""}[kind]
        team = f"Team {place // self.task['team'] + 1}" if self.task["team"] > 1 else ""
        return {("roster", key, place): text(value) for key, value in {
            "name": person["name"], "division": "open", "plan": person["plan"], "group": person["group_name"],
            "goal": goal, "answer": person["answer"], "pacing": person["pacing"], "team": team}.items()}

    def in_tests(self, person):
        row, found = person["row"], {("tests", "name", person["row"]): person["name"]}
        found["tests", "factor", row] = text(person["factor"])
        found["tests", "factor_sd", row] = text(person["factor_sd"])
        for machine in MACHINES:
            one = person["tests"].get(machine, {})
            for key, what in TESTS.items():
                if machine == "armbike" and key in ("critical", "reserve"):
                    continue
                value = one.get(what)
                found["tests", f"{machine}.{key}", row] = clock(value) if what == "time" and value else text(value)
        for slot, movement in enumerate(NAMES):
            for key, what in OWN.items():
                found["tests", (slot, key), row] = text(person["own"][movement][what])
        return found


# Edits: each changes the event, or answers False where it does not fit. --------------------------------------------------


def fresh_of(event):
    """A random workout of the same format, to take parts from."""
    while True:
        other = random_of(rng.choice([form for form, (make, _) in FORMS.items()
                                      if (make is random_intervals) == (event.task["format"] == "intervals")]))
        if other["format"] == event.task["format"]:
            return other


def a_station(event):
    """One station becomes another, or a new one comes, or one goes."""
    stations, other = event.task["stations"], fresh_of(event)
    how = rng.choice(("change", "change", "insert", "remove"))
    place = rng.randrange(len(stations))
    if how == "remove":
        if len(stations) == 2:
            return False
        del stations[place]
    else:
        one = {key: value for key, value in rng.choice(other["stations"]).items() if key not in OWN.values()}
        taken = [s["name"] for i, s in enumerate(stations) if how == "insert" or i != place]
        if one["name"] in taken or len(stations) == STATIONS and how == "insert":
            return False
        if one["amounts"][0] == "list" and len(one["amounts"][1]) != event.task["rounds"]:
            return False
        stations[place:place + (how == "change")] = [one]
    if all(s["unit"] in ("rest", "hold") or s["when"] != "every" for s in stations):
        return False
    event.other_goals()
    return True


def a_number_of_a_station(event):
    """Amount, load, usual pace and the like, from another station with the same unit."""
    one, other = rng.choice(event.task["stations"]), fresh_of(event)
    like = [s for s in other["stations"] if s["unit"] == one["unit"]]
    if not like:
        return False
    key = rng.choice(("amounts", "amounts", "usual", "handling", "steps", "grip", "away_share", "longest", "load"))
    value = like[0][key]
    if value == one[key] or key == "amounts" and (value[0] != one["amounts"][0] or len(value[1]) != len(one["amounts"][1])):
        return False
    one[key] = value
    if key == "amounts":
        event.other_goals()
    return True


def a_rule(event):
    other, task = fresh_of(event), event.task
    key = rng.choice(RULES)
    if task[key] == other[key] or key == "goal_step" and task["format"] == "intervals":
        return False
    task[key] = other[key]
    return True


def the_clock(event):
    """The cap, or the windows."""
    task, other = event.task, fresh_of(event)
    if task["format"] != "intervals":
        task["cap"] = 60 * rng.randint(5, 24)
    else:
        if task["in_turn"] != other["in_turn"]:
            return False
        task.update({key: other[key] for key in WINDOWS})
    event.other_goals()
    return True


def a_person(event):
    """Group, goal, answer, pacing, what past results say, or the tests on one machine."""
    person = rng.choice(event.people)
    other = random_person(event.whole(person))
    key = rng.choice(("group", "goal", "goal", "answer", "pacing", "factor", "factor_sd", "tests", "tests", "tests"))
    if key == "tests":
        machine = rng.choice(MACHINES)
        person["tests"] = {**person["tests"], machine: other["tests"].get(machine, {})}
        if not person["tests"][machine]:
            del person["tests"][machine]
    elif key == "group":
        person["group"], person["group_name"] = other["group"], other["group_name"]
    else:
        person[key] = other[key]
    return True


def own_test(event):
    person, movement = rng.choice(event.people), rng.choice(NAMES)
    person["own"] = {**person["own"], movement: own_tests(True)}
    return True


def plan_for_the_day(event):
    """Easy, technique or not today: without a goal. Back to a full plan."""
    if event.task["team"] > 1:
        return False
    person = rng.choice(event.people)
    person["plan"] = "" if person["plan"] else rng.choice(("easy", "technique", "not today"))
    return True


def two_people_change_places(event):
    first, second = rng.sample(range(PEOPLE), 2)
    event.people[first], event.people[second] = event.people[second], event.people[first]
    return True


def another_name(event):
    """On the roster and over the tests; the tests stay the person's own."""
    person = rng.choice(event.people)
    person["name"] = rng.choice([name for name in GIVEN + LATER if all(name != one["name"] for one in event.people)])
    return True


def another_workout(event):
    event.new_workout()
    return True


EDITS = ([a_person] * 6 + [a_number_of_a_station] * 6 + [a_station] * 4 + [a_rule] * 3 + [own_test] * 3
         + [the_clock, plan_for_the_day, two_people_change_places, another_name, another_workout])


def edit(event):
    """One random edit; its name and the event after it. The one before stays as it is."""
    while True:
        after, one = copy.deepcopy(event), rng.choice(EDITS)
        if one(after) and after.cells() != event.cells():
            return one.__name__.replace("_", " "), after


class Sheets:
    """The cells of the open workbook. Remembers what is typed, and types what differs."""

    def __init__(self, document):
        self.document, self.typed, self.places = document, {}, {}
        for place, movement in enumerate(NAMES):
            type_in(by_key(document, "tests_movements").getCellByPosition(4 * place, 0), movement)

    def opened_again(self, document):
        self.document, self.places = document, {}

    def block(self, table, key):
        """Where the cells of a key begin: sheet, column, row, and whether the cells run across."""
        if (table, key) not in self.places:
            if key == "divisions":
                cells = by_key(self.document, "workout.divisions.amount.1")
            elif isinstance(key, tuple):
                slot, what = key
                cells = by_key(self.document, "tests_sets")
                cells = cells.getCellRangeByPosition(4 * slot + list(OWN).index(what), 0, cells.Columns.Count - 1, 0)
            elif table == "workout":
                cells = by_key(self.document, f"workout.{key}")
            else:
                cells = by_key(self.document, table)
                column = cells.getDataArray()[0].index(key)
                cells = cells.getCellRangeByPosition(column, 2, column, cells.Rows.Count - 1)
            area = cells.RangeAddress
            self.places[table, key] = self.document.Sheets[area.Sheet], area.StartColumn, area.StartRow
        return self.places[table, key]

    def cell(self, table, key, row):
        sheet, column, first = self.block(table, key)
        across = key == "divisions"
        return sheet.getCellByPosition(column + row * across, first + row * (not across))

    def type(self, cells):
        """What differs from what is there; the number of cells typed."""
        changed = [(place, value) for place, value in cells.items() if self.typed.get(place) != value]
        for place, value in changed:
            type_in(self.cell(*place), value)
        self.typed = dict(cells)
        return len(changed)


