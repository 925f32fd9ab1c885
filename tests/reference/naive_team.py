"""A team whose people are known, naively: first a plan of each as if the partners had the same pace, then the plans with
what they take together."""
import math

from naive_athlete import naive
from naive_walk import task_amount


def split_evenly(each):
    """Shares at which everybody works equally long, by halving."""
    low, high = 0.0, max(each)
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if sum(middle / one for one in each) < 1 else (low, middle)
    return [low / one for one in each]


def fits(jobs, lanes, time):
    """Whether the jobs are done by then, nobody at two places at once: laid end to end and cut into lanes."""
    if any(rested > time * (1 + 1e-12) for _, rested in jobs):
        return False
    return sum(work for work, _ in jobs) <= lanes * time * (1 + 1e-12)


def together(jobs, lanes):
    """The shortest time for the jobs (work, work with its pauses), by halving."""
    low, high = 0.0, sum(rested for _, rested in jobs)
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (low, middle) if fits(jobs, lanes, middle) else (middle, high)
    return high


def naive_team(members):
    """members: (task, person) of each. Their plans, in order."""
    first = [naive(task, person) for task, person in members]
    task = members[0][0]
    people = len(members)
    parts = [[] for _ in members]
    for i, station in enumerate(task["stations"]):
        each = [plan["each"][i] for plan in first]
        shares = [1 / people] * people
        if station["unit"] in ("hold", "rest"):
            for part in parts:
                part.append((0, 1, 1))
            continue
        if task["split"] == "any":
            shares = split_evenly(each)
        elif task["split"]:
            shares = [one / 100 for one in task["split"]]
        jobs = []
        for plan, one, share in zip(first, each, shares):
            units = sum(task_amount(task, i, k) for k in range(1, plan["whole"] + 1)) / people
            pause = plan["pause_of"][i] / units if units else 0
            jobs.append((share * one, share * (one + pause)))
        for j, part in enumerate(parts):
            part.append((sum(shares[:j]), shares[j], together(jobs, min(people, task["at_once"]))))
    spread = [math.hypot(*(plan[key] for plan in first)) for key in ("spread", "spread_below")]
    answers = [person["answer"] for _, person in members if person["answer"]]
    careful = max(answers, key=("more_left", "only_just", "no").index) if answers else None
    goal = next((person["goal"] for _, person in members if person["goal"]), None)
    return [naive(dict(one, part=part, spread=spread[0], spread_below=spread[1]), dict(person, goal=goal, answer=careful))
            for (one, person), part in zip(members, parts)]
