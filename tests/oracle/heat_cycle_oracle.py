"""Heats two joints and lets hydrogen out of a third by finite elements.

Another method (finite elements, quadratic triangles, implicit midpoint) on another mesh, by
general libraries; the properties of steel are written anew here. Prints JSON.
`tests/oracle/heat_cycle_oracle.json` is a committed run of it; `tests/engine/heat_cycle/`
compares the engine with that file:

    python3 -m pip install scikit-fem==12.0.2 numpy scipy
    python3 tests/oracle/heat_cycle_oracle.py > tests/oracle/heat_cycle_oracle.json
"""

import json
import pathlib
import platform
import re
from importlib.metadata import version

import numpy as np
from scipy.sparse.linalg import splu
from skfem import Basis, BilinearForm, ElementTriP1, ElementTriP2, FacetBasis, LinearForm, MeshTri, asm
from skfem.helpers import dot, grad

ROOT = pathlib.Path(__file__).resolve().parents[2]
SIGMA = 5.670374419e-8
DENSITY = 7850.0


def specific_heat(t):
    """EN 1993-1-2, clause 3.4.1.2."""
    t = np.maximum(t, 20.0)
    return np.select(
        [t < 600, t < 735, t < 900],
        [425 + 0.773 * t - 1.69e-3 * t**2 + 2.22e-6 * t**3, 666 + 13002 / (738 - t), 545 + 17820 / (t - 731)],
        650.0,
    )


def conductivity(t):
    """EN 1993-1-2, clause 3.4.1.3."""
    return np.where(t < 800, 54 - 0.0333 * np.maximum(t, 20.0), 27.3)


def slow_diffusivity(t):
    """m²/s: straight in ln D over 1/T between the rows of the data file."""
    text = (ROOT / "data" / "post_heat.ron").read_text(encoding="utf-8")
    rows = re.findall(r"at_c: ([\d.]+), cm2_per_s: ([\d.e-]+)", text.split("slow: [")[1].split("]")[0])
    at, d = np.array(rows, dtype=float).T
    inverse = 1 / (at[::-1] + 273.15)
    return float(np.exp(np.interp(1 / (t + 273.15), inverse, np.log(d[::-1])))) * 1e-4


def lines(marks, widths):
    """Lines at the marks and between them, no farther apart than the width of each gap."""
    out = [marks[0]]
    for low, high, width in zip(marks, marks[1:], widths):
        count = max(1, int(np.ceil((high - low) / width - 1e-9)))
        out += list(low + (high - low) * np.arange(1, count + 1) / count)
    return np.array(out)


def mesh(xs, ys, solid, slit=None):
    """Triangles, each rectangle cut from lower right to upper left; nodes on a slit are doubled."""
    nx, ny = len(xs), len(ys)
    points = np.array([[x, y] for y in ys for x in xs])
    number = lambda i, j: j * nx + i
    triangles = []
    for j in range(ny - 1):
        for i in range(nx - 1):
            a, b, c, d = number(i, j), number(i + 1, j), number(i, j + 1), number(i + 1, j + 1)
            for corners in ((a, b, c), (b, d, c)):
                x, y = points[list(corners)].mean(axis=0)
                if solid(x, y):
                    triangles.append(list(corners))
    if slit is not None:
        low, high, level = slit
        double = {}
        for k, (x, y) in enumerate(points.tolist()):
            if low - 1e-9 < x < high - 1e-9 and abs(y - level) < 1e-9:
                double[k] = len(points) + len(double)
        points = np.vstack([points, points[list(double)]])
        for corners in triangles:
            if points[corners][:, 1].mean() > level:
                corners[:] = [double.get(k, k) for k in corners]
    triangles = np.array(triangles)
    used, inverse = np.unique(triangles, return_inverse=True)
    return MeshTri(points[used].T.copy(), inverse.reshape(triangles.shape).T.copy())


def flame(case):
    """Temperatures at the probes, at each time."""
    grid = mesh(case["xs"], case["ys"], case["solid"])
    round_part = case["round"]
    weight = (lambda w: 2 * np.pi * w.x[0]) if round_part else (lambda w: 1.0)
    basis = Basis(grid, ElementTriP2(), intorder=4)
    facets = grid.boundary_facets()
    if round_part:
        facets = facets[grid.p[0, grid.facets[:, facets]].max(axis=0) > 1e-9]
    middles = grid.p[:, grid.facets[:, facets]].mean(axis=1)
    toes = np.array(case["toes"])
    near = np.min(np.hypot(*(middles[:, :, None] - toes.T[:, None, :])), axis=1) <= case["zone"]
    edge = FacetBasis(grid, ElementTriP2(), facets=facets, intorder=4)
    zone = FacetBasis(grid, ElementTriP2(), facets=facets[near], intorder=4)
    area = LinearForm(lambda v, w: weight(w) * v)
    heated = asm(area, zone).sum() * case["length"]
    flux = case["power"] / heated
    shine = asm(area, zone) * flux
    mass_form = BilinearForm(lambda u, v, w: weight(w) * DENSITY * specific_heat(w.t) * u * v)
    flow_form = BilinearForm(lambda u, v, w: weight(w) * conductivity(w.t) * dot(grad(u), grad(v)))
    around = case["around"]

    def transfer(t):
        k, ka = t + 273.15, around + 273.15
        return 10.0 + 0.8 * SIGMA * (k + ka) * (k**2 + ka**2)

    loss_form = BilinearForm(lambda u, v, w: weight(w) * transfer(w.t) * u * v)
    gain_form = LinearForm(lambda v, w: weight(w) * transfer(w.t) * around * v)
    field = np.full(basis.N, case["around"])
    now, found = 0.0, []
    probes = basis.probes(np.array(case["probes"]).T)
    for time in case["times"]:
        while now < time - 1e-9:
            hot = now < case["flame"] - 1e-9
            end = min(time, case["flame"] if hot else time)
            dt = min(2.0 if hot or now < case["flame"] + 60 else 5.0, end - now)
            guess = field
            for _ in range(3):
                middle = 0.5 * (field + guess)
                at, on = basis.interpolate(middle), edge.interpolate(middle)
                mass = asm(mass_form, basis, t=at)
                stiff = asm(flow_form, basis, t=at) + asm(loss_form, edge, t=on)
                load = asm(gain_form, edge, t=on) + (shine if hot else 0)
                rate = splu((mass + 0.5 * dt * stiff).tocsc()).solve(load - stiff @ field)
                guess = field + dt * rate
            field = guess
            now += dt
        found.append([round(float(t), 3) for t in probes @ field])
    return found


def hydrogen(case):
    """Peak and share kept of a weld charged with 1, at each time."""
    grid = mesh(case["xs"], case["ys"], case["solid"], case["slit"])
    basis = Basis(grid, ElementTriP1())
    facets = grid.boundary_facets()
    low, high, level = case["slit"]
    ends = grid.p[:, grid.facets[:, facets]]
    on_slit = np.all((np.abs(ends[1] - level) < 1e-9) & (ends[0] > low - 1e-9) & (ends[0] < high + 1e-9), axis=0)
    open_nodes = np.unique(grid.facets[:, facets[~on_slit]])
    mass = asm(BilinearForm(lambda u, v, w: u * v), basis)
    stiff = asm(BilinearForm(lambda u, v, w: dot(grad(u), grad(v))), basis)
    # The charge by its moments, so that a node on its border holds its share.
    inside = np.array([case["weld"](*grid.p[:, k].mean(axis=1)) for k in grid.t.T], dtype=float)
    charge = LinearForm(lambda v, w: inside[:, None] * np.ones_like(w.x[0]) * v).assemble(basis)
    start = charge.sum()
    free = np.setdiff1d(np.arange(basis.N), open_nodes)
    d = slow_diffusivity(case["at"])
    field, now, found = None, 0.0, []
    solver, step = None, None
    for time in case["times"]:
        while now < time - 1e-9:
            dt = min(20.0 if now < 3600 else 40.0, time - now)
            first = field is None
            # Two damped half steps at first: the charge jumps at its border.
            for part in ((0.5, 0.5) if first else (1.0,)):
                theta = 1.0 if first else 0.5
                if step != (dt * part, theta):
                    step = (dt * part, theta)
                    solver = splu((mass + theta * dt * part * d * stiff)[free][:, free].tocsc())
                if field is None:
                    right = charge
                    full = np.zeros(basis.N)
                else:
                    full = field
                    right = mass @ field - (1 - theta) * dt * part * d * (stiff @ field)
                field = np.zeros_like(full)
                field[free] = solver.solve(right[free])
            now += dt
        found.append({"peak": float(field.max()), "kept": float((mass @ field).sum() / start)})
    return found


def main():
    mm = 1e-3
    leg, lower, upper, overlap = 8 * mm, 25 * mm, 15 * mm, 80 * mm
    lap_solid = lambda x, y: (y < 0 and x > -overlap) or (0 < y < upper and x < 0) or (
        x > 0 and y > 0 and x + y < leg
    )

    def lap(fine):
        # Lines where the zone ends: on the upper top, on the underside twice, on the lower top.
        z = 75 * mm
        above, below = np.sqrt(z**2 - (upper - leg) ** 2), np.sqrt(z**2 - lower**2)
        marks = [-200 * mm, -overlap, -above, -below, 0, leg, leg + below, leg + z, 200 * mm]
        xs = lines(marks, [6 * mm, 3 * mm, 2 * mm, 3 * mm, fine, 3 * mm, 2 * mm, 6 * mm])
        ys = lines([-lower, 0, leg, upper], [2.5 * mm, fine, 2.5 * mm])
        return xs, ys

    xs, ys = lap(1 * mm)
    lap_case = dict(
        xs=xs, ys=ys, solid=lap_solid, round=False, toes=[(leg, 0), (0, leg)], zone=75 * mm, length=0.3,
        power=8000.0, around=15.0, flame=240.0, times=[120.0, 240.0, 270.0, 600.0, 1500.0],
        probes=[(0.004, -0.0125), (0.06, -0.0125), (0.06, -0.0005), (0.19, -0.0125), (-0.06, 0.0075), (-0.19, 0.0075)],
    )
    radius, layer, band, long = 35 * mm, 3 * mm, 40 * mm, 400 * mm
    low, high, z = (long - band) / 2, (long + band) / 2, 75 * mm
    shaft_case = dict(
        xs=lines([0, radius, radius + layer], [2.5 * mm, 1 * mm]),
        ys=lines([0, low - z, low, high, high + z, long], [6 * mm, 3 * mm, 2 * mm, 3 * mm, 6 * mm]),
        solid=lambda r, y: r < radius or low < y < high, round=True, toes=[(radius, low), (radius, high)],
        zone=z, length=1.0, power=6000.0, around=15.0, flame=200.0, times=[100.0, 200.0, 230.0, 500.0, 1500.0],
        probes=[(0.0001, 0.2), (0.034, 0.2), (0.0175, 0.27), (0.0001, 0.37), (0.034, 0.1)],
    )
    # For hydrogen the cells near the weld are finer.
    fine = 0.4 * mm
    hydrogen_case = dict(
        xs=lines([-overlap, -30 * mm, -8 * mm, 0, leg, 16 * mm, 40 * mm, 90 * mm], [4 * mm, 1 * mm, fine, fine, fine, 1 * mm, 4 * mm]),
        ys=lines([-lower, -8 * mm, 0, leg, upper], [1 * mm, fine, fine, 0.7 * mm]),
        solid=lap_solid, slit=(-overlap, 0.0, 0.0), weld=lambda x, y: x > 0 and y > 0, at=250.0,
        times=[1800.0, 3600.0, 14400.0],
    )
    keep = lambda case: {key: value for key, value in case.items() if key in ("times", "power", "flame", "around", "probes", "at")}
    print(json.dumps({
        "libraries": {name: version(name) for name in ("numpy", "scipy", "scikit-fem")} | {"python": platform.python_version()},
        "lap": keep(lap_case) | {"temperature_c": flame(lap_case)},
        "shaft": keep(shaft_case) | {"temperature_c": flame(shaft_case)},
        "lap_hydrogen": keep(hydrogen_case) | {"left": hydrogen(hydrogen_case)},
    }, indent=1))


main()
