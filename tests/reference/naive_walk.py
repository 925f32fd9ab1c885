"""A workout as a list of units, each with the time at which it is done."""
import math

class Walk:
    """legs: (round, station, amount, seconds of work, of pauses, of walking)."""

    def __init__(self, task, each, pauses, rounds):
        self.task, self.legs = task, []
        for k in range(1, rounds + 1):
            for i, s in enumerate(task["stations"]):
                amount = task_amount(task, i, k)
                if amount > 0:
                    walk = (s["handling"] or 0) + (task["steps"] if s["steps"] is None else s["steps"]) * 0.6
                    shared = task["team"] > 1 and s["unit"] not in ("rest", "hold")
                    if shared and task.get("part"):  # the partners are known
                        together = amount * task["part"][i][2]
                        work = min(together, amount * each[i] * task["part"][i][1])
                        self.legs.append((k, i, amount, work, together - work, walk))
                        continue
                    work = amount * each[i] * (task["share"] if shared else 1)
                    waits = amount * each[i] / task["at_once"] - work if shared else 0  # the partners are at it
                    self.legs.append((k, i, amount, work, max(pauses(i, k), waits), walk))
        self.rounds = rounds
        if task["format"] == "time" and rounds == task["rounds"]:  # the clock stops with the last unit
            self.legs[-1] = (*self.legs[-1][:5], 0)
        self.last = {leg[0]: leg for leg in self.legs}  # of each round
        # intervals: the rest of a window goes to the walking of its last station
        self.idle = {}
        if task["format"] == "intervals":
            for k in range(1, rounds + 1):
                busy = sum(leg[3] + leg[4] + leg[5] for leg in self.legs if leg[0] == k)
                self.idle[k] = max(0, task["window"] - busy)

    def units(self):
        """Times at which each unit is done, and when each station and round is over."""
        now, out = 0.0, []
        for k, i, amount, work, pause, walk in self.legs:
            out += [(now + (work + pause) * u / amount, k, i, u) for u in range(1, amount + 1)]
            now += work + pause + walk
        return out

    def round_time(self, k):
        return sum(w + p + x for r, _, _, w, p, x in self.legs if r == k)

    def points(self, k):
        return sum(a * self.task["stations"][i]["points"] for r, i, a, *_ in self.legs if r == k)

    # a point is (whole rounds, station, amount of it); (k, 0, 0) is the end of round k
    def tidy(self, point):
        k, i, amount = point
        if amount and k < self.rounds and self.last[k + 1][1] == i and amount >= self.last[k + 1][2] - 1e-9:
            return (k + 1, 0, 0)
        return point

    def at(self, seconds):
        """The point reached by then."""
        now, point = 0.0, (0, 0, 0)
        for k, i, amount, work, pause, walk in self.legs:
            each = (work + pause) / amount
            done = min(amount, math.floor((seconds - now) / each + 1e-9)) if seconds >= now - 1e-9 else 0
            if seconds + 1e-9 < now + work + pause:
                return self.tidy((k - 1, i, max(0, done)))
            point = self.tidy((k - 1, i, amount))
            now += work + pause + walk
            if seconds + 1e-9 < now:
                return point
        return (self.rounds, 0, 0)

    def seconds(self, point):
        k, i, amount = point
        total = 0.0
        for r, j, a, work, pause, walk in self.legs:
            if r <= k or (r == k + 1 and j < i):
                total += work + pause + walk
            elif r == k + 1 and j == i and amount:
                total += (work + pause) * min(1, amount / a)
        return total

    def reps(self, point):
        k, i, amount = point
        points = [s["points"] for s in self.task["stations"]]
        return sum(a * points[j] for r, j, a, *_ in self.legs if r <= k or (r == k + 1 and j < i)) + \
            sum(math.floor(min(a, amount) + 1e-9) * points[j] for r, j, a, *_ in self.legs if r == k + 1 and j == i and amount)

    def decimal(self, point):
        k, i, amount = point
        if k >= self.rounds:
            return k
        by_points, part = self.points(k + 1) > 0, 0.0
        for r, j, a, w, p, x in self.legs:
            if r != k + 1 or j > i:
                continue
            share = 1 if j < i else min(1, amount / a)
            part += share * (a * self.task["stations"][j]["points"] / self.points(k + 1) if by_points
                             else (w + p + x) / self.round_time(k + 1))
        return k + part

    def of(self, rounds):
        whole = math.floor(rounds + 1e-9)
        part = rounds - whole
        if whole >= self.rounds:
            return (self.rounds, 0, 0)
        if part <= 1e-9:
            return (whole, 0, 0)
        by_points = self.points(whole + 1) > 0
        left_over = part * (self.points(whole + 1) if by_points else self.round_time(whole + 1))
        for r, j, a, w, p, x in self.legs:
            if r == whole + 1:
                each = self.task["stations"][j]["points"] if by_points else (w + p + x) / a
                if each > 0 and each * a >= left_over - 1e-9:
                    return self.tidy((whole, j, min(a, left_over / each)))
                left_over -= each * a
        return (whole + 1, 0, 0)

    def station_end(self, seconds):
        now, found = 0.0, None
        for k, i, amount, work, pause, walk in self.legs:
            last = self.last[k][1] == i
            if now + work + pause + (walk if last else 0) > seconds + 1e-9:
                return found
            if self.task["stations"][i]["unit"] != "rest":
                found = self.tidy((k - 1, i, amount))
            now += work + pause + walk
        return found

    def first_end(self):
        return next(self.tidy((k - 1, i, a)) for k, i, a, *_ in self.legs if self.task["stations"][i]["unit"] != "rest")


def share_of(task, i):
    """Of the work of the team at a station that is not for all alike."""
    return task["part"][i][1] if task.get("part") else task["share"]


def own_units(task, i, amount):
    """Whole units of one person; those of all in a team add up to the amount."""
    if not task.get("part"):
        return math.ceil(amount * task["share"] - 1e-9)
    before, share, _ = task["part"][i]
    return math.floor(amount * (before + share) + 0.5 + 1e-9) - math.floor(amount * before + 0.5 + 1e-9)


def task_amount(task, i, k):
    s = task["stations"][i]
    if (s["when"] == "first" and k != 1) or (s["when"] == "last" and k != task["rounds"]):
        return 0
    kind, values = s["amounts"]
    if task.get("in_turn") and (k - 1) % len(task["stations"]) != i:
        return 0
    if kind == "every":
        return values[0]
    if k <= len(values):
        return values[k - 1]
    return values[-1] + (values[1] - values[0]) * (k - len(values)) if kind == "open" else 0
