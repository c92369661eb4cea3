#!/usr/bin/env python3
"""Counts by other means what `plain.rulebook.toml` and `loose.rulebook.toml` admit above the cantus
of their sheets: by dynamic programming, by depth-first search, and, where it is installed, by a
general-purpose constraint solver. Prints one line a method: its name, the count, the milliseconds.

    python3 plain_rules.py plain|loose
"""

import sys
import time
from functools import lru_cache

CANTUS = [62, 65, 64, 62, 67, 65, 69, 67, 65, 64, 62]
LAST = len(CANTUS) - 1
CONSONANT = {0, 3, 4, 7, 8, 9, 12, 15, 16, 19}
SUNG = {0, 1, 2, 3, 4, 5, 7, 12}


def pitches(bar, is_loose):
    """What may stand against the cantus in a bar, each bar by itself."""
    top = 84 if is_loose else 76
    natural = [p for p in range(60, top + 1) if p % 12 in (0, 2, 4, 5, 7, 9, 11)]
    known = natural + ([p for p in (61, 73) if p <= top] if bar == LAST - 1 else [])
    return sorted(p for p in known if fits(bar, p - CANTUS[bar], is_loose))


def fits(bar, above, is_loose):
    if above not in CONSONANT or (above == 0 and 0 < bar < LAST):
        return False
    if bar == 0:
        return above % 12 in (0, 7)
    if bar == LAST:
        return above in (0, 12)
    if bar == LAST - 1:
        return above % 12 in (3, 4, 8, 9) if is_loose else above == 9
    return True


def goes(bar, one, two):
    """Whether `two` in the bar after may follow `one`."""
    leap = two - one
    if abs(leap) not in SUNG and leap != 8:
        return False
    kinds = [(p - CANTUS[b]) % 12 for b, p in ((bar, one), (bar + 1, two))]
    if kinds[1] not in (0, 7):
        return True
    way = leap * (CANTUS[bar + 1] - CANTUS[bar])
    return kinds[0] != kinds[1] and way <= 0


def turns(one, two, three, is_loose):
    """Whether three notes in a row may be sung."""
    if one == two == three:
        return False
    leap, after = two - one, three - two
    is_wide = abs(leap) > 4 and not is_loose
    return not is_wide or (leap * after < 0 and abs(after) <= 2)


def by_programming(is_loose):
    @lru_cache(maxsize=None)
    def ways(bar, before, now):
        if bar == LAST:
            return 1
        return sum(
            ways(bar + 1, now, after)
            for after in pitches(bar + 1, is_loose)
            if goes(bar, now, after)
            and (before is None or turns(before, now, after, is_loose))
        )

    return sum(ways(0, None, first) for first in pitches(0, is_loose))


def by_search(is_loose):
    options = [pitches(bar, is_loose) for bar in range(LAST + 1)]
    count, open_ways = 0, [(p,) for p in options[0]]
    while open_ways:
        way = open_ways.pop()
        if len(way) > LAST:
            count += 1
            continue
        for after in options[len(way)]:
            if goes(len(way) - 1, way[-1], after) and (
                len(way) < 2 or turns(way[-2], way[-1], after, is_loose)
            ):
                open_ways.append(way + (after,))
    return count


def by_constraints(is_loose):
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    options = [pitches(bar, is_loose) for bar in range(LAST + 1)]
    notes = [
        model.NewIntVarFromDomain(cp_model.Domain.FromValues(values), f"bar{bar}")
        for bar, values in enumerate(options)
    ]
    for bar in range(LAST):
        pairs = [(a, b) for a in options[bar] for b in options[bar + 1] if goes(bar, a, b)]
        model.AddAllowedAssignments(notes[bar : bar + 2], pairs)
    for bar in range(LAST - 1):
        threes = [
            (a, b, c)
            for a in options[bar]
            for b in options[bar + 1]
            for c in options[bar + 2]
            if turns(a, b, c, is_loose)
        ]
        model.AddAllowedAssignments(notes[bar : bar + 3], threes)

    class Counter(cp_model.CpSolverSolutionCallback):
        count = 0

        def on_solution_callback(self):
            self.count += 1

    solver, counter = cp_model.CpSolver(), Counter()
    solver.parameters.enumerate_all_solutions = True
    solver.parameters.num_workers = 1
    solver.Solve(model, counter)
    return counter.count


def main():
    is_loose = sys.argv[1:] == ["loose"]
    methods = [by_programming, by_search]
    try:
        import ortools  # noqa: F401
    except ImportError:
        pass
    else:
        methods.append(by_constraints)
    for method in methods:
        start = time.perf_counter()
        count = method(is_loose)
        print(method.__name__, count, f"{(time.perf_counter() - start) * 1e3:.2f}")


if __name__ == "__main__":
    main()
