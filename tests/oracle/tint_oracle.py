"""Computes films, colours, radiances and growth with general libraries.

Prints JSON. `tests/oracle/tint_oracle.json` is a committed run of it; `tests/tint/`
compares the engine with that file, and runs this script again where Python has the
packages:

    python3 -m pip install tmm==0.2.0 colour-science==0.4.7 numpy scipy
    python3 tests/oracle/tint_oracle.py > tests/oracle/tint_oracle.json
"""

import json
import pathlib
import platform
import re
from importlib.metadata import version

import colour
import numpy as np
import scipy.constants as const
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq
from tmm import coh_tmm

ROOT = pathlib.Path(__file__).resolve().parents[2]
TEXT = (ROOT / "data" / "optics.ron").read_text(encoding="utf-8")
FILMS = [0, 5, 9, 12, 16.8, 20, 22.8, 25, 28, 30, 32.5, 35, 38, 40, 42.8, 45, 47, 50, 55, 60, 66, 75, 85, 100, 120]


def materials():
    """Wavelength to complex index of each material, as the data file holds them."""
    rows = re.findall(r"\(nm: (\d+), iron: .*", TEXT)
    lines = [line for line in TEXT.splitlines() if "iron:" in line and "nm:" in line]
    assert len(rows) == len(lines) == 21
    table = {}
    for line in lines:
        nm = float(re.search(r"nm: (\d+)", line).group(1))
        for name, n, k in re.findall(r"(\w+): \(([\d.]+), ([\d.]+)\)", line):
            table.setdefault(name, []).append((nm, float(n) + 1j * float(k)))
    return {name: tuple(map(np.array, zip(*pairs))) for name, pairs in table.items()}


MATERIALS = materials()


def index(name, nm):
    grid, values = MATERIALS[name]
    return np.interp(nm, grid, values.real) + 1j * np.interp(nm, grid, values.imag)


def reflectance(nm, film, share=0.15, bulk=0.5):
    inner = (1 - bulk) * index("magnetite_clear", nm) + bulk * index("magnetite_bulk", nm)
    stack = [1, index("hematite", nm), inner, index("iron", nm)]
    return float(coh_tmm("s", stack, [np.inf, share * film, (1 - share) * film, np.inf], 0, nm)["R"])


def swatches():
    shape = colour.SpectralShape(380, 780, 10)
    eye = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape).values
    light = colour.SDS_ILLUMINANTS["D65"].copy().align(shape).values
    nodes, weights = np.polynomial.hermite.hermgauss(7)
    weights = weights / np.sqrt(np.pi)
    white = (eye * light[:, None]).sum(axis=0)
    found = []
    for film in FILMS:
        spectrum = np.array([
            sum(w * reflectance(nm, film * (1 + 0.1 * np.sqrt(2) * x)) for x, w in zip(nodes, weights))
            for nm in shape.wavelengths
        ])
        xyz = (eye * (light * spectrum)[:, None]).sum(axis=0) / white[1]
        lab = colour.XYZ_to_Lab(xyz, colour.XYZ_to_xy(white / white[1]))
        matrix = np.array([
            [3.2404542, -1.5371385, -0.4985314],
            [-0.9692660, 1.8760108, 0.0415560],
            [0.0556434, -0.2040259, 1.0572252],
        ])
        srgb = colour.cctf_encoding(np.clip(matrix @ xyz, 0, 1), "sRGB")
        found.append({"film_nm": film, "xyz": list(xyz), "lab": list(lab), "srgb": list(np.round(255 * srgb))})
    return found


C1, C2 = 2 * const.h * const.c**2, const.h * const.c / const.k


def radiance(celsius):
    kelvin = celsius + 273.15
    planck = lambda m: C1 / m**5 / np.expm1(C2 / (m * kelvin))
    return quad(planck, 8e-6, 14e-6, epsabs=0, epsrel=1e-12)[0]


def true_temperature(reading, eps_set, eps, surroundings, assumed):
    seen = eps_set * radiance(reading) + (1 - eps_set) * radiance(assumed)
    return brentq(lambda t: eps * radiance(t) + (1 - eps) * radiance(surroundings) - seen, -50, 1500, xtol=1e-9)


LN_A, B, T_REF = 11.566474882336182, 4450.22366372696, 1.2


def rate(celsius, p):
    return np.exp(p * (LN_A - B / (celsius + 273.15))) / T_REF


def film(points, p=3.5, before=0.0):
    """Film after straight lines between (minute, °C), by a stiff-safe fine-step integration."""
    total = before**p
    for (t0, c0), (t1, c1) in zip(points, points[1:]):
        slope = (c1 - c0) / (t1 - t0)
        steps = solve_ivp(
            lambda t, _: [rate(c0 + slope * (t - t0), p)], (t0, t1), [0.0],
            method="DOP853", rtol=1e-12, atol=1e-9, max_step=(t1 - t0) / 400,
        )
        total += steps.y[0][-1]
    return total ** (1 / p)


def histories():
    found = []
    for name, before, points in [
        ("ramp 2.5 min to 260", 0, [(0, 20), (2.5, 260)]),
        ("ramp 5 min to 300", 0, [(0, 20), (5, 300)]),
        ("ramp 10 min to 335", 0, [(0, 20), (10, 335)]),
        ("ramp 1 min to 200", 0, [(0, 20), (1, 200)]),
        ("ramp, 3 min at 260", 0, [(0, 20), (2.5, 260), (5.5, 260)]),
        ("ramp, 3 min at 260, 10 K/min to 200", 0, [(0, 20), (2.5, 260), (5.5, 260), (11.5, 200)]),
        ("slow cooling from 300 to 20", 0, [(0, 300), (28, 20)]),
        ("second heating on 28 nm", 28, [(0, 20), (3, 270), (6, 270), (31, 20)]),
        ("hour at 220, then 260", 0, [(0, 220), (60, 220), (61, 260), (64, 260)]),
    ]:
        for p in (2.7, 3.5, 5.0):
            found.append({"name": name, "exponent": p, "before_nm": before, "points": points, "film_nm": film(points, p, before)})
    return found


def main():
    rng = np.random.default_rng(7)
    pairs = []
    for _ in range(60):
        a, b = rng.uniform([0, -100, -100], [100, 100, 100], (2, 3)).round(3)
        if len(pairs) >= 30:
            b = (a + rng.uniform(-6, 6, 3)).round(3)
        pairs.append({"a": list(a), "b": list(b), "difference": float(colour.delta_E(a, b, method="CIE 2000"))})
    out = {
        "made_with": {
            "python": platform.python_version(),
            **{name: version(name) for name in ("tmm", "colour-science", "numpy", "scipy")},
        },
        "reflectance": [
            {"nm": nm, "film_nm": d, "reflectance": reflectance(nm, d)}
            for nm in range(380, 781, 40) for d in FILMS
        ],
        "swatches": swatches(),
        "differences": pairs,
        "radiance": [{"celsius": t, "radiance": radiance(t)} for t in (-40, 0, 20, 60, 100, 150, 200, 260, 300, 500, 900, 1500)],
        "ir": [
            {"reading_c": r, "set": s, "emissivity": e, "surroundings_c": u, "assumed_c": a,
             "true_c": true_temperature(r, s, e, u, a)}
            for r, s, e, u, a in [
                (150, 0.95, 0.35, 20, 20), (150, 0.95, 0.8, 20, 20), (150, 1.0, 0.35, 20, 20),
                (150, 0.95, 0.35, 60, 20), (120, 0.95, 0.2, 20, 20), (200, 0.95, 0.6, 35, 20),
            ]
        ],
        "histories": histories(),
    }
    print(json.dumps(out, indent=1, ensure_ascii=False))


if __name__ == "__main__":
    main()
