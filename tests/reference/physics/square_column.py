"""Half a square column, one side at 20 degC and the others at 0: writes square_column.csv.

The case is ISO 10211 annex A case 1. The series is the textbook Fourier solution of Laplace's
equation in a square with one held side; the grid is an eighth of the side.
"""
import csv
import math
import pathlib

here = pathlib.Path(__file__).parent
with open(here / "square_column.csv", "w", newline="") as out:
    w = csv.writer(out, lineterminator="\n")
    w.writerow(["x", "y_from_warm_side", "t_c"])
    for row in range(1, 8):
        for column in range(1, 5):
            x, y = column / 8, 1 - row / 8
            t = sum(
                4 * 20 / (n * math.pi) * math.sin(n * math.pi * x)
                * math.exp(n * math.pi * (y - 1)) * (1 - math.exp(-2 * n * math.pi * y)) / (1 - math.exp(-2 * n * math.pi))
                for n in range(1, 400, 2)
            )
            w.writerow([x, row / 8, f"{t:.4f}"])
