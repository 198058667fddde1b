"""Lower bounds for cutting problems from an independent solver.

Reads instances.json and writes bounds.json beside it: for every instance the value of the pattern
relaxation, and where patterns are whole numbers the best plan over the patterns found (HiGHS MIP).
Pricing is by plain tables that try every cut on the unit grid, with no thought of which positions
matter, so that it shares nothing with the planner under test.

Run: pip install highspy numpy; python bounds.py
"""

import json
import math
from pathlib import Path

import highspy
import numpy as np

HERE = Path(__file__).parent


def solve(columns, demand, whole):
    """Fewest sheets over the columns: objective, amounts, prices."""
    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("time_limit", 60.0)
    cut = [h.addVariable(lb=0, obj=1) for _ in columns]
    for i, d in enumerate(demand):
        h.addConstr(h.qsum(c[i] * x for c, x in zip(columns, cut) if c[i] > 0) >= d)
    if whole:
        h.setInteger(cut)
    h.run()
    s = h.getSolution()
    return h.getInfo().objective_function_value, list(s.col_value), list(s.row_dual)


def relax(demand, start, price):
    columns = list(start)
    while True:
        value, _, prices = solve(columns, demand, whole=False)
        worth, column = price([max(p, 0.0) for p in prices])
        if worth <= 1 + 1e-9:
            return value, columns
        columns.append(column)


def bar_price(capacity, pieces):
    def price(prices):
        best = [(0.0, ())] * (capacity + 1)
        lots = []
        for i, (size, count) in enumerate(pieces):
            lots += [(size, i)] * min(count, capacity // size)
        value = np.zeros(capacity + 1)
        take = np.zeros((len(lots), capacity + 1), dtype=bool)
        for n, (size, i) in enumerate(lots):
            with_it = np.full(capacity + 1, -1.0)
            with_it[size:] = value[: capacity + 1 - size] + prices[i]
            take[n] = with_it > value + 1e-12
            value = np.maximum(value, with_it)
        column, at = [0] * len(pieces), capacity
        for n in range(len(lots) - 1, -1, -1):
            if take[n][at]:
                column[lots[n][1]] += 1
                at -= lots[n][0]
        return sum(c * p for c, p in zip(column, prices)), column

    return price


def guillotine(leaf, length, width):
    """Best worth of every rectangle up to length x width with cuts anywhere on the grid."""
    f = leaf.copy()
    for x in range(1, length + 1):
        for c in range(1, x // 2 + 1):
            np.maximum(f[x], f[c] + f[x - c], out=f[x])
        for y in range(1, width + 1):
            if y > 1:
                half = y // 2
                f[x][y] = max(f[x][y], (f[x][1 : half + 1] + f[x][y - 1 : y - half - 1 : -1]).max())
    return f


def traced(f, leaf, length, width, visit):
    stack = [(length, width)]
    while stack:
        x, y = stack.pop()
        if x == 0 or y == 0 or f[x][y] <= 0:
            continue
        if leaf[x][y] >= f[x][y] - 1e-9:
            visit(x, y)
            continue
        for c in range(1, x // 2 + 1):
            if f[c][y] + f[x - c][y] >= f[x][y] - 1e-9:
                stack += [(c, y), (x - c, y)]
                break
        else:
            for c in range(1, y // 2 + 1):
                if f[x][c] + f[x][y - c] >= f[x][y] - 1e-9:
                    stack += [(x, c), (x, y - c)]
                    break


def sheet_price(sheet, pieces, turn):
    length, width = sheet

    def ways(i):
        l, w, _ = pieces[i]
        return [(l, w), (w, l)] if turn else [(l, w)]

    def price(prices):
        leaf = np.zeros((length + 1, width + 1))
        for i in range(len(pieces)):
            for l, w in ways(i):
                if l <= length and w <= width:
                    np.maximum(leaf[l:, w:], prices[i], out=leaf[l:, w:])
        f = guillotine(leaf, length, width)
        column = [0] * len(pieces)

        def visit(x, y):
            fitting = [i for i in range(len(pieces)) if any(l <= x and w <= y for l, w in ways(i))]
            column[max(fitting, key=lambda i: prices[i])] += 1

        traced(f, leaf, length, width, visit)
        return f[length][width], column

    return price


def wall_price(case):
    unit = case["unit"]
    units = lambda v: round(v / unit)
    kerf, least = units(case["kerf"]), units(case["least"])
    length, width = (units(v) + kerf for v in case["sheet"])
    heights = [units(h) for _, h in case["walls"]]
    xs = np.arange(length + 1)[:, None]
    ys = np.arange(width + 1)[None, :]

    def strips(i, prices, run, height):
        net = run - kerf
        return np.where((height >= heights[i] + kerf) & (net >= max(least, 1)), prices[i] * net, 0.0)

    def leaves(prices):
        each = []
        for i in range(len(heights)):
            each.append((i, strips(i, prices, xs, ys)))
            if case["turn"]:
                each.append((i, strips(i, prices, ys, xs)))
        return each

    def price(prices):
        each = leaves(prices)
        leaf = np.zeros((length + 1, width + 1))
        for _, worth in each:
            leaf = np.maximum(leaf, worth)
        f = guillotine(leaf, length, width)
        column = [0.0] * len(heights)

        def visit(x, y):
            i, worth = max(each, key=lambda e: e[1][x][y])
            column[i] += worth[x][y] / prices[i]

        traced(f, leaf, length, width, visit)
        return f[length][width], column

    return price


def alone(count, price):
    """One pattern for each demand by itself, so that the first relaxation can be met."""
    return [price([1.0 if j == i else 0.0 for j in range(count)])[1] for i in range(count)]


def main():
    cases = json.loads((HERE / "instances.json").read_text())
    found = {}
    for c in cases["bars"]:
        price = bar_price(c["capacity"], c["pieces"])
        demand = [n for _, n in c["pieces"]]
        bound, columns = relax(demand, alone(len(demand), price), price)
        plan, _, _ = solve(columns, demand, whole=True)
        found[c["name"]] = {"bound": round(bound, 6), "plan": round(plan)}
    for c in cases["sheets"]:
        price = sheet_price(c["sheet"], c["pieces"], c["turn"])
        demand = [n for _, _, n in c["pieces"]]
        bound, columns = relax(demand, alone(len(demand), price), price)
        plan, _, _ = solve(columns, demand, whole=True)
        found[c["name"]] = {"bound": round(bound, 6), "plan": round(plan)}
    for c in cases["walls"]:
        price = wall_price(c)
        demand = [length / c["unit"] for length, _ in c["walls"]]
        bound, _ = relax(demand, alone(len(demand), price), price)
        found[c["name"]] = {"bound": round(bound, 6)}
    for name, value in found.items():
        print(name, value, math.ceil(value["bound"] - 1e-6))
    (HERE / "bounds.json").write_text(json.dumps(found, indent=1) + "\n")


if __name__ == "__main__":
    main()
