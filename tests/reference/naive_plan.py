#!/usr/bin/python3
"""Compares the plans of the model with a second, naive implementation: naive_plan.py PATH_TO_plan_reference [SEED [FILE]].

PACECELLS_CASES random workouts and athletes (150 unless told) of each form of workout (FORMS in naive_cases.py). In the
naive plan (naive_athlete.py) the workout is a list of single units with the time at which each is done; a score is how
many of them are done by then. Sets are simulated set by set, rests found by halving. Nothing is shared with the model
but the meaning of the numbers; defaults and constants are written a second time, as include/pacecells says.
A file named takes the cases and what the naive plan says of them, which tests/unit/plan_naive_test.cpp compares again:
PACECELLS_CASES=12 naive_plan.py PATH_TO_plan_reference 8 tests/data/plans.txt
"""
import math
import os
import random
import subprocess
import sys
from pathlib import Path

from naive_athlete import naive
from naive_cases import FORMS, random_members, random_of, random_person, rng, written
from naive_ergometer import MACHINES
from naive_sets import text
from naive_team import naive_team

driver = sys.argv[1]
seed = int(sys.argv[2]) if len(sys.argv) > 2 else random.SystemRandom().randrange(2**32)
count = int(os.environ.get("PACECELLS_CASES", 150))
print(f"seed {seed}")
rng.seed(seed)


class Word(str):
    """A word of the driver; the naive plan's is kept beside it."""
    naive = "*"

    def keep(self, expected):
        self.naive = "-" if expected is None else f"{expected:.10g}" if isinstance(expected, (int, float)) else expected


def complaints(answer, want):
    """What differs between the lines of the driver and the naive plan."""
    wrong = []

    def same(what, got, expected, tolerance=1e-7):
        got.keep(expected)
        if got == "-" or expected is None:
            good = got == "-" and expected is None
        else:
            good = math.isclose(float(got), expected, rel_tol=tolerance, abs_tol=1e-6)
        if not good:
            wrong.append(f"{what}: got {got}, expected {expected}")

    def words_of(what, got, expected):
        for word, other in zip(got, expected.split()):
            word.keep(other)
        if " ".join(got) != expected:
            wrong.append(f"{what}: got {' '.join(got)}, expected {expected}")

    seen, order = set(), []
    for name, *words in answer:
        seen.add(name)
        order.append(name)
        if name in ("rate", "each", "sets", "goal_clock", "down_clock"):
            words[0].keep(str(words[0]))  # which machine, station or round
        if name == "rate":
            one = want["rate"][MACHINES[int(words[0])]]
            same("source", words[1], one["source"])
            for what, word in zip(("rate", "share", "doubt", "alone"), words[2:]):
                same(f"{what} of {MACHINES[int(words[0])]}", word, one[what])
        elif name == "each":
            same("seconds each", words[1], want["each"][int(words[0])])
        elif name == "sets":
            one = want["sets"].get(int(words[0]))
            if one is None:
                wrong.append("sets where none are expected")
                continue
            words[1].keep(text(one["scheme"]))
            words[3].keep(text(one["back"]))
            if (words[1], words[3]) != (text(one["scheme"]), text(one["back"])):
                wrong.append(f"schemes {words[1]}, {words[3]}: expected {text(one['scheme'])}, {text(one['back'])}")
            for what, word in zip(("rest", "back_rest", "left", "away", "rounds", "most", "hard"), [words[2], *words[4:]]):
                same(f"{what} of sets", word, one[what], 1e-6)
        elif name == "other":
            for word, value in zip(words, want["other"]):
                same("other time", word, value)
        elif name == "round":
            same("round", words[0], want["round"])
        elif name in ("low", "expected", "high"):
            for what, word in zip(("rounds", "reps", "time"), words):
                same(f"{name} {what}", word, want[name][what])
            if "words" in want[name]:
                words_of(name, words[3:], want[name]["words"])
        elif name in ("suggested", "goal", "down"):
            same(f"{name} clock", words[1], want[name][1] if want[name] else None)
            if want.get(name + "_words"):
                same(f"{name} rounds", words[0], want[name + "_rounds"])
                words_of(name, words[2 if name == "suggested" else 3:], want[name + "_words"])
            if want[name] and name != "suggested":
                same(f"{name} target", words[2], want["line" if name == "goal" else "down_line"]["target"])
        elif name in ("goal_clock", "down_clock"):
            if not want[name[:4]]:
                continue
            clocks = want["line" if name == "goal_clock" else "down_line"]["clocks"]
            k = int(words[0])
            same(f"{name} {k}", words[1], clocks.get((k, "end")))
            for i, word in enumerate(words[2:]):
                same(f"{name} {k}, station {i}", word, clocks.get((k, i)))
        elif name in ("goal_quarter", "down_quarter"):
            line = want["line" if name == "goal_quarter" else "down_line"] if want[name[:4]] else {}
            quarter = sum(one == name for one in order[:-1])
            if "quarters" in line:
                for word in words:
                    word.keep(str(word))
            if "quarters" in line and tuple(map(float, words)) not in line["quarters"][quarter]:
                wrong.append(f"{name} {quarter + 1}: got {words}, expected {line['quarters'][quarter]}")
        elif name == "check":
            same("check round", words[0], want["check"] and want["check"][0])
            same("check clock", words[1], want["check"] and want["check"][1])
        elif name == "pacing":
            near = want.get("pacing")
            if words[0] != "-" and near is not None and abs(float(words[0]) - near) < 1e-3:
                near = float(words[0])  # stepped in parts
            same("what the pacing costs", words[0], near)
        elif name == "needs":
            same("needs", words[0], want["needs"])
            same("no room", words[1], want["no_room"])
        elif name == "ceiling":
            same("ceiling", words[0], want.get("ceiling"))
        elif name == "card":
            for what, word in zip(("hold", "never", "situation", "chance", "start", "in_hand", "to_find"), words):
                same(what, word, want["card"] and want["card"][what], 1e-6)
        elif name == "window":
            for what, word, value in zip(("start", "needed", "spare", "reps"), words[1:], want["window"][int(words[0])]):
                same(f"{what} of window {words[0]}", word, value)
            words[0].keep(str(words[0]))
        elif name == "failing":
            same("the first window that does not hold", words[0], want.get("failing"))
        elif name == "on_machine":
            same("seconds on the machine", words[0], want.get("on_machine"))
        elif name == "rehearsal" and "rehearsal" in want:
            for what, word, value in zip(("easy", "planned", "easy time", "time", "easy rate", "rate"), words, want["rehearsal"]):
                same(f"practice, {what}", word, value)
    if ("card" in seen) != bool(want["card"]) or ("down" in seen) != bool(want["down"]):
        wrong.append("a card or a next goal down where none is expected, or the other way round")
    return wrong


def alike(lines, others):
    """The same words, and the same numbers but for rounding."""
    words, other_words = (" ".join(one).split() for one in (lines, others))
    number = lambda word: float(word) if word.replace(".", "").replace("-", "").isdigit() and word != "-" else None
    return len(words) == len(other_words) and all(
        a == b or (isinstance(number(a), float) and isinstance(number(b), float) and math.isclose(number(a), number(b), rel_tol=1e-9))
        for a, b in zip(words, other_words))


forms = [form for form in FORMS for _ in range(count)]
cases = [random_members(task) if form.startswith("known") else [(task, random_person(task))]
         for form, task in ((form, random_of(form)) for form in forms)]
answers = subprocess.run([driver], input="".join(map(written, cases)), text=True, check=True,
                         stdout=subprocess.PIPE).stdout.split("==\n")[:-1]
if len(answers) != len(cases):
    sys.exit(f"{len(cases)} cases, but {len(answers)} answers")
kept = ["# Cases, and the lines of their plans as tests/reference/naive_plan.py says; * is what it does not say.\n"]
bad, refused, compared = 0, 0, dict.fromkeys(FORMS, 0)
for form, case, answer in zip(forms, cases, answers):
    if answer.startswith("refused"):
        refused += 1
        print(answer.strip())
        continue
    compared[form] += 1
    wants = naive_team(case) if len(case) > 1 else [naive(*case[0])]
    people = answer.split("person\n")[1:]
    naive_lines = []
    wrong = [f"{len(people)} plans"] if len(people) != len(wants) else []
    for plan, want in zip(people, wants):
        lines = [[Word(word) for word in line.split()] for line in plan.splitlines()]
        wrong += complaints(lines, want)
        naive_lines += ["person", *(" ".join([line[0], *(word.naive for word in line[1:])]).rstrip(" *") for line in lines)]
    lines = [[line for line in plan.splitlines() if line.startswith(("low", "expected", "high", "goal", "down"))] for plan in people]
    if any(not alike(one, lines[0]) for one in lines[1:]):
        wrong.append("people of one team have other clocks, goals or ranges")
    kept.append(written(case).replace("==\n", "\n".join(["--", *naive_lines, "==", ""])))
    if wrong:
        bad += 1
        if bad <= 5:
            print(f"MISMATCH, {form}", *wrong[:8], "in", written(case), answer, sep="\n  ")
print(", ".join(f"{number} {form}" for form, number in compared.items()))
if len(sys.argv) > 3:
    Path(sys.argv[3]).write_text("".join(kept), encoding="utf-8")
print(f"{len(cases)} plans, {refused} refused, {bad} mismatches")
if refused > len(cases) / 20:
    sys.exit("too many refused")
sys.exit(1 if bad else 0)
