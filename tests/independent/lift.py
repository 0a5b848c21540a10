"""Seats the links of small loads by every choice in turn; one load a line of JSON on standard input.

    python3 tests/independent/lift.py [stiff] < loads

Written from core/rigging/FORMAT.md and a page of statics; shares nothing with the program. A load hangs where the pulls of its
legs, seen from the load, add up to its weight along the line from the centre of gravity to the hook. That is three equations
for the place of the hook; they are solved by differences and halved steps, not by energy. "stiff" breaks the stretch.
"""

import itertools
import json
import math
import sys

STIFF = "stiff" in sys.argv[1:]


def less(a, b):
    return [x - y for x, y in zip(a, b)]


def size(a):
    return math.sqrt(sum(x * x for x in a))


def pulls(hook, legs, lengths):
    """Each leg's pull, by Hooke's law from its rating and its stretch there."""
    found = []
    for leg, length in zip(legs, lengths):
        span = less(hook, leg["point"])
        reach = size(span)
        stretch = leg["stretch"] / (5 if STIFF else 1)
        tension = max(0.0, reach - length) / length / stretch * leg["rating"]
        found.append((tension, [part / reach for part in span]))
    return found


def miss(hook, weight, legs, lengths):
    high = size(hook)
    total = [-weight * part / high for part in hook]
    for tension, way in pulls(hook, legs, lengths):
        total = [a + tension * b for a, b in zip(total, way)]
    return [part / weight for part in total]


def solve3(rows, right):
    """Gauss with the largest pivot."""
    rows = [list(row) + [value] for row, value in zip(rows, right)]
    for at in range(3):
        pivot = max(range(at, 3), key=lambda row: abs(rows[row][at]))
        rows[at], rows[pivot] = rows[pivot], rows[at]
        if abs(rows[at][at]) < 1e-14:
            return None
        for row in range(3):
            if row != at:
                share = rows[row][at] / rows[at][at]
                rows[row] = [a - share * b for a, b in zip(rows[row], rows[at])]
    return [rows[at][3] / rows[at][at] for at in range(3)]


def rest(weight, legs, lengths, start):
    hook, value = start, miss(start, weight, legs, lengths)
    for _ in range(200):
        if size(value) < 1e-11:
            return hook
        columns = []
        for axis in range(3):
            moved = list(hook)
            moved[axis] += 1e-7
            columns.append([(a - b) / 1e-7 for a, b in zip(miss(moved, weight, legs, lengths), value)])
        step = solve3([[columns[axis][row] for axis in range(3)] for row in range(3)], [-part for part in value])
        if step is None:
            return None
        share = 1.0
        while share > 1e-6:
            there = [a + share * b for a, b in zip(hook, step)]
            found = miss(there, weight, legs, lengths)
            if size(found) < size(value):
                break
            share /= 2
        else:
            return hook if size(value) < 1e-8 else None
        hook, value = there, found
    return None


def best(load):
    centre = load["centre"]
    legs = [dict(leg, point=less(leg["point"], centre)) for leg in load["legs"]]
    p, r = math.radians(load["pitch"]), math.radians(load["roll"])
    wanted = [math.sin(p), math.cos(p) * math.sin(r), math.cos(p) * math.cos(r)]
    found = None
    for links in itertools.product(*[range(1, leg["links"]) for leg in legs]):
        lengths = [leg["rope"] + (leg["links"] - link) * leg["pitch"] for leg, link in zip(legs, links)]
        mean = sum(lengths) / len(lengths)
        # A leg that falls slack on the way bends the equations: from one start the steps may stick, from another they do not.
        starts = ([0.0, 0.0, share * mean] for share in (1.3, 1.1, 1.03, 1.0, 0.97))
        hooks = (rest(load["weight"], legs, lengths, start) for start in starts)
        hook = next((hook for hook in hooks if hook is not None and hook[2] > 0), None)
        if hook is None:
            continue
        carried = [tension for tension, _ in pulls(hook, legs, lengths)]
        shares = [tension / leg["rating"] for tension, leg in zip(carried, legs)]
        up = [part / size(hook) for part in hook]
        rises = all(sum(a * b for a, b in zip(way, up)) > 0 for _, way in pulls(hook, legs, lengths))
        if min(carried) <= 1e-9 * load["weight"] or max(shares) > 1 or not rises:
            continue
        if load["down"] is not None and math.degrees(math.asin(up[0])) > -load["down"] + 1e-9:
            continue
        off = math.degrees(2 * math.asin(min(1.0, size(less(up, wanted)) / 2)))
        if off > 10:
            continue
        key = [math.floor(off / 0.1 + 1e-6), math.floor(max(shares) / 1e-4 + 1e-6), list(links)]
        found = key if found is None else min(found, key)
    return found


def main():
    loads, wrong = 0, 0
    for line in sys.stdin:
        load = json.loads(line)
        loads += 1
        ours = best(load)
        # A step of utilisation is a hundredth of a per cent: two methods may round to either side of it.
        same = ours == load["best"] or (
            ours and load["best"] and ours[0] == load["best"][0] and abs(ours[1] - load["best"][1]) <= 1
        )
        if not same:
            wrong += 1
            print(f"load {loads}: {ours} here, {load['best']} there")
    print(f"{loads} loads, {wrong} disagree")
    return 1 if wrong or not loads else 0


sys.exit(main())
