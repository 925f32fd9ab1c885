"""Random workouts and athletes, and how they are written in cells."""
import random

from naive_ergometer import CAL, MACHINES, METRES
from naive_walk import task_amount

rng = random.Random()

NAMES = ("Sandbags", "Box step-overs", "Ring rows", "Floor presses", "Kettle swings", "Leg raises")
GROUPS = {"quick": (1.15, 0.9, 1.2), "middle": (1, 1, 1), "steady": (0.85, 1.15, 0.8)}


def own_tests(rep):
    return dict(own_rep=rng.choice((None, None, 1.8, 2.7)) if rep else None,
                own_longest=rng.choice((None, None, 6, 10, 25)) if rep else None,
                own_max=rng.choice((None, None, 35, 60)) if rep else None,
                recovery=rng.choice((None, None, 0.8, 1.3)) if rep else None)


def random_task():
    timed = rng.random() < 0.35
    rounds = rng.randint(1, 6) if timed else None
    ladder = rng.random() < 0.25 and (not timed or rounds > 1)
    names = rng.sample(NAMES, len(NAMES))
    units = rng.sample(("rep", "rep", "rep", "rep", "row cal", "ski cal", "bike cal", "armbike cal", "row m", "bike m",
                        "run m", "carry m", "hold", "rest"), rng.randint(2, 5))
    if all(u in ("rest", "hold") for u in units):
        units[0] = "rep"
    stations = []
    for i, unit in enumerate(units):
        usual = (rng.choice((1.5, 2, 2.5, 3, 5)) if unit == "rep" else 50 * rng.randint(9, 22) if unit in CAL
                 else rng.randint(100, 160) if unit in ("row m", "ski m") else rng.randint(110, 190) if unit == "bike m"
                 else rng.randint(240, 400) if unit == "run m" else 0.8 if unit == "carry m" else 0)
        amount = lambda: (rng.randint(4, 20) if unit == "rep" or unit in CAL else 50 * rng.randint(2, 8)
                          if unit in METRES else rng.randint(10, 40))
        amounts = ("every", [amount()])
        if ladder and unit == "rep":
            if timed:
                amounts = ("list", [rng.randint(3, 30) for _ in range(rounds)])
            else:
                start, grow = rng.randint(1, 5), rng.randint(1, 3)
                amounts = ("open", [start, start + grow, start + 2 * grow])
        when = "every"
        if rng.random() < 0.1 and i > 0 and amounts[0] == "every":
            when = "last" if timed and rng.random() < 0.5 else "first"
        rep = unit == "rep"
        stations.append(dict(
            unit=unit, name=names.pop() if rep else unit, amounts=amounts, when=when, usual=usual,
            handling=rng.choice((None, 4, 6)), steps=rng.choice((None, None, 0, 8)),
            grip=rep and rng.random() < 0.3, away_share=rng.choice((None, None, None, 0.2, 1)),
            longest=rng.choice((None, 8, 12, 20)) if rep else None, points=1 if rep or unit in CAL else 0,
            load=rng.choice((None, 20, 40)) if rep else None, **own_tests(rep)))
    if all(s["when"] != "every" for s in stations):
        stations[0]["when"] = "every"
    team = rng.choice((1, 1, 1, 2, 3))
    share = 1 if team == 1 else rng.choice((None, 0.4, 0.6)) or 1 / team
    return dict(team=team, at_once=rng.randint(1, team), share=share, split=None, format="time" if timed else "amrap", rounds=rounds, cap=60 * rng.randint(5, 24), stations=stations,
                fade=rng.choice((0.06, 0.06, 0, 0.12, 0.3)), slip=rng.choice((10, 10, 0, 20)), steps=3, date=46354,
                goal_step=rng.choice((None, None, None, 0.5, 1)),
                pacing=rng.choice((None, None, "even", "fade", "faster")), push=rng.choice((0.06, 0.06, 0.2)),
                goal_step_time=rng.choice((10, 10, 15, 60)), rehearsal=rng.choice((0.825, 0.7)),
                rehearsal_rounds=rng.choice((3, 3, 1, 2)))


def random_intervals():
    task = random_task()
    while task["format"] == "time" or any(s["amounts"][0] != "every" for s in task["stations"]):
        task = random_task()
    for s in task["stations"]:
        s["when"] = "every"
        if s["unit"] in METRES:
            s["amounts"] = ("every", [50 * rng.randint(1, 4)])
    many, in_turn = rng.randint(3, 12), rng.random() < 0.5
    work = rng.choice((40, 60, 90)) if in_turn else rng.choice((120, 180, 240))
    rest = rng.choice((0, 0, 20, 60))
    task.update(format="intervals", windows=many, in_turn=in_turn, work=work, window=work + rest, rounds=None,
                cap=many * (work + rest), goal_step=None, scoring=rng.choice(("lowest", "sum")))
    return task


def amounts_of(task, kind):
    return any(s["amounts"][0] == kind for s in task["stations"])


# Each form of workout, by what makes a random one belong to it.
FORMS = {
    "rounds": (random_task, lambda t: t["format"] == "amrap" and not amounts_of(t, "open")),
    "for time": (random_task, lambda t: t["format"] == "time" and t["rounds"] > 1 and not amounts_of(t, "list")),
    "rep scheme": (random_task, lambda t: amounts_of(t, "list")),
    "ladder": (random_task, lambda t: amounts_of(t, "open")),
    "chipper": (random_task, lambda t: t["format"] == "time" and t["rounds"] == 1 and len(t["stations"]) > 2),
    "teams": (random_task, lambda t: t["team"] > 1),
    "all in a window": (random_intervals, lambda t: not t["in_turn"]),
    "in turn": (random_intervals, lambda t: t["in_turn"]),
    "teams in windows": (random_intervals, lambda t: t["team"] > 1),
    "known teams": (random_task, lambda t: t["team"] > 1),
    "known teams in windows": (random_intervals, lambda t: t["team"] > 1),
}


def random_of(form):
    make, belongs = FORMS[form]
    while not belongs(task := make()):
        pass
    return task


def random_person(task):
    tests = {}
    for m in MACHINES:
        if rng.random() < 0.5:
            continue
        one = {"date": rng.choice((None, 46300, 46320, 46200))}
        if rng.random() < 0.6 and m != "armbike":
            one["cp"], one["reserve"] = rng.randint(120, 320), 500 * rng.randint(12, 50)
        if rng.random() < 0.6:
            one["time"] = rng.choice((180, 300, 480, 720))
            one["calories"] = round(one["time"] / 3600 * rng.randint(700, 1600))
        tests[m] = one
    goal = None
    kind = rng.choice((None, None, "rounds", "score", "station", "time"))
    if task["format"] == "intervals":
        kind = rng.choice((None, None, "rounds"))
    most = task["rounds"] if task["format"] == "time" else task["windows"] if task["format"] == "intervals" else 9
    round_points = lambda k: sum(task_amount(task, i, k) * s["points"] for i, s in enumerate(task["stations"]))
    if kind == "rounds":
        goal = (kind, min(most, rng.choice((1, 2, 3.5, 4, 5.25, 6) if task["format"] != "intervals" else (1, 3, 5))), None)
    elif kind == "score":
        k = rng.randint(0, most - 1)
        if round_points(k + 1) > 1:
            goal = (kind, k, rng.randint(1, round_points(k + 1) - 1))
    elif kind == "station":
        k = rng.randint(0, most - 1)
        i = rng.randrange(len(task["stations"]))
        if task_amount(task, i, k + 1) > 0 and task["stations"][i]["unit"] != "rest" \
                and sum(s["name"] == task["stations"][i]["name"] for s in task["stations"]) == 1:
            goal = (kind, k, i)
    elif kind == "time" and task["format"] == "time":
        goal = (kind, 0, rng.randint(120, task["cap"] - task["slip"]))
    name = rng.choice((None, *GROUPS))
    return dict(group=GROUPS.get(name), group_name=name, tests=tests, goal=goal,
                factor=rng.choice((1, 1, 0.93, 1.08)), factor_sd=rng.choice((None, 0.05)),
                answer=rng.choice((None, None, None, "more_left", "only_just", "no")),
                pacing=rng.choice((None, None, None, "even", "fade", "faster")))


def random_members(task):
    """The people of a team, each with tests of one's own."""
    task["split"] = rng.choice((None, "any", (60, 40) if task["team"] == 2 else (50, 30, 20)))
    task["share"] = 1 / task["team"]
    members = []
    for _ in range(task["team"]):
        own = dict(task, stations=[dict(s, **own_tests(s["unit"] == "rep")) for s in task["stations"]])
        members.append((own, random_person(own)))
    return members


def written(members):
    """A case for the driver: one person, or the people of a team."""
    task, person = members[0]
    people = ["Ida Quellmann", "Tarn Overwick", "Ada Brimsole"][:len(members)]
    known = len(members) > 1
    cell = lambda x: "" if x is None or x is False else str(x)
    clock = lambda s: f"{s // 60}:{s % 60:02d}"
    lines = ["pacecells.workout | value", "version | 1", "language | en", f"format | {task['format']}",
             f"cap | {clock(task['cap']) if task['format'] != 'intervals' else ''}", f"rounds | {cell(task['rounds'])}", f"date | {task['date']}",
             f"fade | {task['fade']}", f"push | {task['push']}", f"pacing | {cell(task['pacing'])}", f"slip_s | {task['slip']}", f"goal_step | {cell(task['goal_step'])}",
             f"goal_step_time | {clock(task['goal_step_time'])}", f"rehearsal | {task['rehearsal']}",
             f"rehearsal_rounds | {task['rehearsal_rounds']}",
             f"team | {task['team']}", f"at_once | {task['at_once']}",
             f"split | {task['split'] if not isinstance(task['split'], tuple) else '/'.join(map(str, task['split']))}" if task["split"] else "",
             *([f"work_s | {task['work']}", f"rest_s | {task['window'] - task['work']}", f"windows | {task['windows']}",
                f"in_turn | {'yes' if task['in_turn'] else ''}", f"scoring | {task['scoring']}"]
               if task["format"] == "intervals" else []),
             "stations | no | movement | unit | when | amount.1 | load.1", "divisions | | | | | open |"]
    for no, s in enumerate(task["stations"], 1):
        kind, values = s["amounts"]
        amounts = "-".join(map(str, values)) + ("-…" if kind == "open" else "")
        if kind == "list" and len(values) == 1:
            amounts = str(values[0])
        lines.append(f"station | {no} | {s['name']} | {s['unit']} | {'' if s['when'] == 'every' else s['when']} | {amounts} | {cell(s['load'])}")
    lines.append("paces | no | rep_s | calh | pace | handling_s | steps | grip | away_share | longest | counts")
    for no, s in enumerate(task["stations"], 1):
        unit = s["unit"]
        rep = s["usual"] if unit in ("rep", "carry m") else None
        pace = clock(s["usual"]) if unit in METRES else None
        lines.append(f"pace | {no} | {cell(rep)} | {cell(s['usual'] if unit in CAL else None)} | {cell(pace)} | "
                     f"{cell(s['handling'])} | {cell(s['steps'])} | {'yes' if s['grip'] else ''} | {cell(s['away_share'])} | "
                     f"{cell(s['longest'])} |")
    lines.append("groups | name | erg | rep | sets")
    lines += [f"group | {name} | {a} | {b} | {c}" for name, (a, b, c) in GROUPS.items()]
    lines += ["end |", "--"]
    keys, labels = ["name", "factor", "factor_sd"], ["", "", ""]
    rows = [[name, one["factor"], cell(one["factor_sd"])] for name, (_, one) in zip(people, members)]
    for m in MACHINES:
        tests = [one["tests"].get(m, {}) for _, one in members]
        if not any(tests):
            continue
        for key, what in (("critical", "cp"), ("reserve", "reserve"), ("date", "date"), ("calories", "calories"), ("time", "time")):
            keys.append(f"{m}.{key}"), labels.append("")
            for row, one in zip(rows, tests):
                row.append(clock(one[what]) if what == "time" and what in one else cell(one.get(what)))
    for i, s in enumerate(task["stations"]):
        if s["unit"] == "rep":
            for key, what in (("longest", "own_longest"), ("max", "own_max"), ("rep_s", "own_rep"), ("recovery", "recovery")):
                keys.append(key), labels.append(s["name"])
                for row, (own, _) in zip(rows, members):
                    row.append(cell(own["stations"][i][what]))
    lines += [" | ".join(map(str, part)) for part in (keys, labels, *rows)]
    lines += ["--", "name | division | group | goal | answer | pacing | share"]
    for name, (own, one) in zip(people, members):
        goal = ""
        if one["goal"]:
            kind, rounds, more = one["goal"]
            goal = {"rounds": f"{rounds}", "score": f"{rounds}+{more}", "time": clock(more) if kind == "time" else "",
                    "station": f"{rounds} + {task['stations'][more]['name']}" if kind == "station" else ""}[kind]
        lines.append(f"{name} | open | {cell(one['group_name'])} | {goal} | {cell(one['answer'])} | {cell(one['pacing'])} | "
                     f"{task['share'] if task['team'] > 1 and not known else ''}")
    return "\n".join(lines + ["=="]) + "\n"
