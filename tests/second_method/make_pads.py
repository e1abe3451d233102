"""Writes pads.json: 200 invented bodies on 3 to 8 pads, and the most that each pad can get of the weight.

Second method for worst_pad_shares: no sets of three and no cutting of shapes, but a linear programme. Reactions push
or are zero, add up to the weight and balance its moments; the place of the centre of gravity in its box is unknown
too; the reaction of one pad is made as large as it can be (scipy.optimize.linprog, HiGHS). As a share of the weight:

    most    l_i
    so that l_j >= 0, sum l_j = 1, sum l_j p_j = origin + R(heading) (x, y), x and y inside their bands

`shares` is that. `shares_at_corners` is the same with the centre of gravity at the worst corner of its box only: it
can be less, since the most that a pad can get is greatest over the pad itself.

Where any place of the box lies outside the pads' hull the body tips, and `beyond_m` says by how much: the largest
gap, over all directions u and box corners c, between u.c and the farthest pad along u.
"""

import json
import pathlib

import numpy as np
from scipy.optimize import linprog, minimize_scalar

SEED = 20_262
CASES = 200
CLEAR = 1e-4  # m: a box that ends nearer to the edge of the hull than this is drawn again
HERE = pathlib.Path(__file__).parent
EXACT = {"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10}
NOTE = (
    "Invented rigid bodies on pads that push and cannot pull. pads_m: in the plant's frame. cg_m: band of the centre "
    "of gravity along the body's x and y, seen from origin_m, turned by heading_deg anticlockwise. shares: the "
    "most that each pad can get of the weight. How they were made stands in make_pads.py."
)


def turn(degrees):
    angle = np.radians(degrees)
    return np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])


def draw_pads(rng):
    """Pads in the body's own axes: rectangles and rows as machines stand on, rings, and any."""
    kind = rng.choice(["three", "rectangle", "rows", "ring", "any"], p=[0.1, 0.2, 0.2, 0.2, 0.3])
    length, width = rng.uniform(1.0, 9.0, 2)
    if kind == "three":
        return rng.uniform(-5.0, 5.0, (3, 2))
    if kind == "rectangle":
        return np.array([[length, width], [-length, width], [-length, -width], [length, -width]]) / 2
    if kind == "rows":
        columns = rng.integers(3, 5)
        along = np.linspace(-length, length, columns)
        return np.array([[x, y] for y in (-width / 2, width / 2) for x in along])
    if kind == "ring":
        count = rng.integers(3, 9)
        around = 2 * np.pi * np.arange(count) / count
        return length / 2 * np.column_stack([np.cos(around), np.sin(around)])
    return rng.uniform(-5.0, 5.0, (rng.integers(4, 9), 2))


def draw(rng):
    """Rounded as written, so that the file holds exactly what was solved."""
    heading = float(rng.choice([0.0, 90.0, -180.0, np.round(rng.uniform(-180.0, 180.0), 1)]))
    origin = np.round(rng.uniform(-30.0, 30.0, 2), 3)
    body = draw_pads(rng)
    pads = np.round(origin + body @ turn(heading).T, 3)
    rng.shuffle(pads)
    middle = np.average(body, axis=0, weights=rng.uniform(0.3, 1.0, len(body)))
    if rng.random() < 0.15:
        middle = np.zeros(2)
    reach = np.ptp(body, axis=0)
    half = reach * rng.choice([0.0, 0.02, 0.1, 0.3]) * rng.uniform(0.3, 1.0, 2)
    band = np.round(np.column_stack([middle - half, middle + half]), 3)
    return pads, band, heading, origin


def corners(band, heading, origin):
    (x0, x1), (y0, y1) = band
    return origin + np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]]) @ turn(heading).T


def most(pads, band, heading, origin):
    """The largest share of each pad; none where no place of the box can be held."""
    count = len(pads)
    balance = np.zeros((3, count + 2))
    balance[:2, :count] = pads.T
    balance[:2, count:] = -turn(heading)
    balance[2, :count] = 1.0
    right = [*origin, 1.0]
    bounds = [(0.0, None)] * count + [tuple(side) for side in band]
    shares = []
    for pad in range(count):
        cost = np.zeros(count + 2)
        cost[pad] = -1.0
        answer = linprog(cost, A_eq=balance, b_eq=right, bounds=bounds, method="highs", options=EXACT)
        if answer.status == 2:
            return None
        assert answer.status == 0, answer.message
        shares.append(-answer.fun)
    return np.array(shares)


def outside(pads, place):
    """How far a place lies outside the pads' hull; negative inside."""

    def gap(angle):
        u = np.array([np.cos(angle), np.sin(angle)])
        return u @ place - np.max(pads @ u)

    grid = np.linspace(0.0, 2 * np.pi, 721)
    best = grid[np.argmax([gap(a) for a in grid])]
    near = minimize_scalar(
        lambda a: -gap(a), bounds=(best - 0.01, best + 0.01), method="bounded", options={"xatol": 1e-12}
    )
    return max(-near.fun, gap(best))


def solve(pads, band, heading, origin):
    places = corners(band, heading, origin)
    beyond = max(outside(pads, place) for place in places)
    if abs(beyond) < CLEAR:
        return None
    case = {
        "pads_m": pads.tolist(),
        "cg_m": band.tolist(),
        "heading_deg": heading,
        "origin_m": origin.tolist(),
    }
    point = np.array([[0.0, 0.0], [0.0, 0.0]])
    at_corners = [most(pads, point, 0.0, place) for place in places]
    if beyond > 0.0:
        assert any(shares is None for shares in at_corners), "the programme holds what lies outside"
        return case | {"beyond_m": round(beyond, 7)}
    assert all(shares is not None for shares in at_corners), "the programme drops what lies inside"
    shares = most(pads, band, heading, origin)
    worst_corner = np.max(at_corners, axis=0)
    assert np.all(worst_corner <= shares + 1e-8)
    return case | {
        "shares": np.round(shares, 9).tolist(),
        "shares_at_corners": np.round(worst_corner, 9).tolist(),
    }


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    while len(cases) < CASES:
        case = solve(*draw(rng))
        if case is not None:
            cases.append(case)
    held = [case for case in cases if "shares" in case]
    counts = {
        "cases": len(cases),
        "held": len(held),
        "tips": len(cases) - len(held),
        "four_pads_or_more": sum(len(case["pads_m"]) > 3 for case in held),
        "corners_are_not_enough": sum(
            float(max(np.subtract(case["shares"], case["shares_at_corners"]))) > 1e-3 for case in held
        ),
    }
    assert counts["tips"] >= 20 and counts["corners_are_not_enough"] >= 20, counts
    lines = ",\n".join(json.dumps(case, separators=(",", ":")) for case in cases)
    head = json.dumps({"note": NOTE, "seed": SEED, "counts": counts}, indent=1)[:-2]
    (HERE / "pads.json").write_text(f'{head},\n "cases": [\n{lines}\n]}}\n')
    print(counts)


if __name__ == "__main__":
    main()
