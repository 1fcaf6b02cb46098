"""How long must a flame heat a tee with a fillet on one side? A second reckoning for tests/published/heat_cycle.ron.

Explicit finite differences on equal squares, by nothing but Python: carbon-steel properties of EN 1993-1-2
3.4.1 with 0.85 of the conductivity, still air of 10 W/(m2 K) and emissivity 0.8 on all faces, a flame spread
evenly over every face within 75 mm of a toe, until all of it within 50 mm of a toe has 280 degrees.

    python3 tests/oracle/tee_flame.py 5      # 28.6 min, seconds to run
    python3 tests/oracle/tee_flame.py 2.5    # 29.2 min, minutes to run
"""

import math
import sys

SIDE_M = float(sys.argv[1]) / 1000
# Plate of 30 mm and 600 mm wide, web of 20 mm and 300 mm high, leg of 8 mm.
PLATE_M, HALF_M, WEB_HALF_M, HEIGHT_M, LEG_M = 0.030, 0.300, 0.010, 0.300, 0.008
ZONE_M, REQUIRED_M = 0.075, 0.050
# A weld of 300 mm, heated past both of its ends.
LENGTH_M = 0.300 + 2 * ZONE_M
# 1 m3/h of acetylene, 53.9137 MJ/m3, of which 0.4 stays in the part.
POWER_W = 53.9137e6 / 3600 * 0.4
SHOP_C, MINIMUM_C, GOAL_C, MOST_S = 20.0, 250.0, 280.0, 7200.0


def conductivity(at_c):
    return 0.85 * (54 - 3.33e-2 * at_c)


def specific_heat(at_c):
    return 425 + 7.73e-1 * at_c - 1.69e-3 * at_c**2 + 2.22e-6 * at_c**3


def squares(length_m):
    return round(length_m / SIDE_M)


def steel():
    """All squares as (column, row); the plate's top is row 0, the web's middle is column 0."""
    plate = [(i, j) for i in range(-squares(HALF_M), squares(HALF_M)) for j in range(-squares(PLATE_M), 0)]
    half = squares(WEB_HALF_M)
    web = [(i, j) for i in range(-half, half) for j in range(squares(HEIGHT_M))]
    leg = range(squares(LEG_M))
    fillet = [(half + i, j) for i in leg for j in leg if (i + j + 1) * SIDE_M <= LEG_M + 1e-9]
    return plate + web + fillet


cells = steel()
place = {cell: number for number, cell in enumerate(cells)}
toes = [(WEB_HALF_M + LEG_M, 0.0), (WEB_HALF_M, LEG_M)]
links, faces = [], []
for (i, j), number in place.items():
    for out, up in ((1, 0), (0, 1), (-1, 0), (0, -1)):
        other = place.get((i + out, j + up))
        if other is None:
            x, y = (i + 0.5 + out / 2) * SIDE_M, (j + 0.5 + up / 2) * SIDE_M
            faces.append((number, any(math.hypot(x - a, y - b) <= ZONE_M for a, b in toes)))
        elif out + up > 0:
            links.append((number, other))


def is_required(i, j):
    x, y = (i + 0.5) * SIDE_M, (j + 0.5) * SIDE_M
    if j >= 0:
        return y <= LEG_M + REQUIRED_M
    return -WEB_HALF_M - REQUIRED_M <= x <= WEB_HALF_M + LEG_M + REQUIRED_M


required = [number for (i, j), number in place.items() if is_required(i, j)]
flux = POWER_W / (LENGTH_M * SIDE_M * sum(heated for _, heated in faces))
at_c = [SHOP_C] * len(cells)
step_s = min(0.3, 0.2 * SIDE_M**2 * 7850 * 440 / conductivity(0))
time_s, minimum_min = 0.0, None
while time_s < MOST_S:
    net_w = [0.0] * len(cells)
    for one, other in links:
        passed = conductivity((at_c[one] + at_c[other]) / 2) * (at_c[one] - at_c[other])
        net_w[one] -= passed
        net_w[other] += passed
    for number, heated in faces:
        kelvin = at_c[number] + 273.15
        lost = 10 * (at_c[number] - SHOP_C) + 0.8 * 5.670374e-8 * (kelvin**4 - (SHOP_C + 273.15) ** 4)
        net_w[number] += SIDE_M * (heated * flux - lost)
    for number in range(len(cells)):
        at_c[number] += step_s * net_w[number] / (7850 * specific_heat(at_c[number]) * SIDE_M**2)
    time_s += step_s
    coldest_c = min(at_c[number] for number in required)
    if coldest_c >= MINIMUM_C and minimum_min is None:
        minimum_min = time_s / 60
    if coldest_c >= GOAL_C:
        print(f"{minimum_min:.2f} min to the minimum, {time_s / 60:.2f} min to the goal")
        break
else:
    print("never")
