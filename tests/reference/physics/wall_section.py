"""The crawl wall in its ground by finite elements: writes wall_section.csv.

Quadratic elements of scikit-fem on a tensor mesh, weak form with Robin films: another method and
another code than the project's finite volumes. Grade outside is y = 0, the wall's outer face x = 0.
"""
import csv
import pathlib

import numpy as np
from skfem import Basis, BilinearForm, ElementQuad2, FacetBasis, LinearForm, MeshQuad, asm, solve
from skfem.helpers import dot, grad

half, z, h, w, d, band, reach = 4.0, 0.6, 0.4, 0.2, 0.038, 0.1, 20.0
soil, wall, board = 2.0, 1.0, 0.024
t_in, t_out = 20.0, 0.0
left = -w - half


def graded(a, b, first=0.008, growth=1.35, most=1.2):
    steps, at, step = [], 0.0, first
    while at < (b - a) / 2:
        steps.append(step)
        at += step
        step = min(step * growth, most)
    all_steps = np.array(steps + steps[::-1])
    return a + np.concatenate([[0], np.cumsum(all_steps)]) * (b - a) / all_steps.sum()


def lines(edges):
    return np.unique(np.round(np.concatenate([graded(a, b) for a, b in zip(edges, edges[1:])]), 9))


mesh = MeshQuad.init_tensor(lines([left, -w - d, -w, 0.0, reach]), lines([-z - reach, -z, 0.0, h - band, h]))
x, y = mesh.p[:, mesh.t].mean(axis=1)
is_board = (x > -w - d) & (x < -w) & (y > -z) & (y < h - band)
is_wall = (x > -w) & (x < 0) & (y > -z)
is_soil = (y < -z) | ((x > 0) & (y < 0))
solid = is_board | is_wall | is_soil
conductivity = np.select([is_board, is_wall], [board, wall], soil)[solid]
mesh = mesh.restrict(np.nonzero(solid)[0])
basis = Basis(mesh, ElementQuad2())
lam = conductivity[:, None] * np.ones_like(basis.dx)


@BilinearForm
def conduction(u, v, p):
    return p["lam"] * dot(grad(u), grad(v))


matrix = asm(conduction, basis, lam=lam)
load = np.zeros(matrix.shape[0])
films = []
for facets, r, t in [
    (lambda m: (m[1] > -z - 1e-9) & (m[0] < -w + 1e-9) & (m[1] < h - 1e-9) & (m[0] > left + 1e-9), None, t_in),
    (lambda m: (m[0] > -1e-9) & (m[1] > -1e-9) & (m[1] < h - 1e-9) & (m[0] < reach - 1e-9), 0.04, t_out),
]:
    found = mesh.facets_satisfying(facets, boundaries_only=True)
    fb = FacetBasis(mesh, ElementQuad2(), facets=found)
    # The floor and the ledge over the board are level; the wall is upright.
    level = np.abs(fb.normals[1]) > 0.5
    u_film = 1.0 / np.where(level, 0.17, 0.13) if r is None else np.full(fb.dx.shape, 1.0 / r)
    matrix = matrix + asm(BilinearForm(lambda u, v, p: p["h"] * u * v), fb, h=u_film)
    load = load + asm(LinearForm(lambda v, p: p["h"] * p["t"] * v), fb, h=u_film, t=t * np.ones(fb.dx.shape))
    films.append((fb, u_film, t))
field = solve(matrix, load)
heat = [float((u * (t - fb.interpolate(field)) * fb.dx).sum()) for fb, u, t in films]
e = 1e-6  # just inside the solids
probe = basis.probes(np.array([[e - w, e - w - d, -w - 2.0, -e], [h - 0.05, e, -z - e, 0.2]])) @ field
here = pathlib.Path(__file__).parent
with open(here / "wall_section.csv", "w", newline="") as out:
    o = csv.writer(out, lineterminator="\n")
    o.writerow(["quantity", "value"])
    o.writerow(["heat_from_inside_w_m", f"{heat[0]:.5f}"])
    o.writerow(["heat_from_outside_w_m", f"{heat[1]:.5f}"])
    for name, t in zip(["band_c", "board_at_grade_c", "floor_two_metres_in_c", "outer_face_c"], probe):
        o.writerow([name, f"{t:.4f}"])
