"""Writes tiers.json: random rigs with spreaders, two tiers, intermediate rings and two hooks, and how each hangs.

Kinds: `bar` (a bar under two legs, two legs down), `frame` (four tops, four ends, eight legs), `crossed` (two bars side by
side, each by two legs to the hook, two legs each down), `two-hooks` (a load by two legs from each of two hooks),
`two-hooks-bar` (one hook by a bar, the other by one leg).
"""

import json
import pathlib
import platform

import numpy as np
import scipy

from several_bodies import Rig

SEED = 41_207
HERE = pathlib.Path(__file__).parent
WANTED = {"bar": 16, "frame": 16, "crossed": 12, "two-hooks": 12, "two-hooks-bar": 8}
NOTE = (
    "Invented rigs: rigid bodies (the load first), hung from fixed hooks, z up. Positions of points in each body's own "
    "frame, turned about z as declared (`turned_rad`). A leg pulls stiffness * (distance - length) when stretched and "
    "cannot push. Expected: the stable rest reached downhill from the declared attitudes; tilts in degrees."
)


def digits(value, count=10):
    return float(f"{float(value):.{count}g}")


def on(body, *at):
    return {"body": body, "at_m": [digits(v, 6) for v in at]}


def build(kind, rng):
    weight = float(10 ** rng.uniform(4, 6))
    half = rng.uniform(1.0, 3.0)
    side = rng.uniform(0.6, 1.6)
    high = rng.uniform(1.0, 2.5)
    cg = [rng.uniform(-0.15, 0.15), rng.uniform(-0.1, 0.1), rng.uniform(0.2, 0.7) * high]
    bodies = [{"weight_n": digits(weight, 6), "cg_m": [digits(v, 4) for v in cg], "turned_rad": 0.0}]
    legs = []

    def bar(turn=0.0):
        own = weight * rng.uniform(0.02, 0.12)
        at = [digits(rng.uniform(-0.03, 0.03), 3), digits(rng.uniform(-0.01, 0.01), 3), digits(rng.uniform(-0.05, 0.05), 3)]
        bodies.append({"weight_n": digits(own, 6), "cg_m": at, "turned_rad": turn})
        return len(bodies) - 1

    def leg(upper, lower, length, stiff):
        length *= 1 + rng.uniform(-0.006, 0.006)
        k = weight / length / stiff * rng.uniform(0.7, 1.4)
        legs.append({"upper": upper, "lower": lower, "length_m": digits(length, 6), "stiffness_n_per_m": digits(k, 6)})

    stiff = 10 ** rng.uniform(-3, -2)
    hook = {"hook": 0}
    hooks = [[0.0, 0.0, 0.0]]
    if kind == "bar":
        one = bar()
        up = rng.uniform(1.2, 2.5) * half
        for s in (-1, 1):
            leg(on(one, s * half, 0, -0.2), on(0, s * half * rng.uniform(0.9, 1.05), 0, high), rng.uniform(1.5, 4), stiff)
            leg(hook, on(one, s * half, 0, 0.2), np.hypot(half, up), stiff)
        # One length below, so that it hangs near level.
        legs[2]["length_m"] = digits(legs[0]["length_m"] * (1 + rng.uniform(-0.005, 0.005)), 6)
    elif kind == "frame":
        one = bar()
        up, below = rng.uniform(1.5, 3) * half, rng.uniform(1.5, 4)
        for sx, sy in ((1, 1), (-1, 1), (-1, -1), (1, -1)):
            leg(on(one, sx * half, sy * side, -0.2), on(0, sx * half, sy * side, high), below, stiff)
            leg(hook, on(one, sx * half, sy * side, 0.2), np.sqrt(half**2 + side**2 + up**2), stiff)
    elif kind == "crossed":
        up, below = rng.uniform(2.0, 3.0) * max(half, side), rng.uniform(1.5, 4)
        for sx in (-1, 1):
            one = bar(np.pi / 2)
            # The bar lies along the load's y.
            for s in (-1, 1):
                leg(on(one, s * side, 0, -0.2), on(0, sx * half, s * side, high), below, stiff)
                leg(hook, on(one, s * side, 0, 0.2), np.sqrt(half**2 + side**2 + up**2), stiff)
    elif kind == "two-hooks":
        hooks = [[-half, 0.0, 0.0], [half, 0.0, 0.0]]
        up = rng.uniform(1.5, 4)
        for h, sx in enumerate((-1, 1)):
            for s in (-1, 1):
                leg({"hook": h}, on(0, sx * half, s * side, high), np.hypot(side, up), stiff)
    else:
        hooks = [[-half, 0.0, 0.0], [half, 0.0, 0.0]]
        one = bar(np.pi / 2)
        up, below = rng.uniform(1.2, 2.5) * side, rng.uniform(1.5, 3)
        for s in (-1, 1):
            leg(on(one, s * side, 0, -0.2), on(0, -half, s * side, high), below, stiff)
            leg({"hook": 0}, on(one, s * side, 0, 0.2), np.hypot(side, up), stiff)
        leg({"hook": 1}, on(0, half, 0, high), up + below + 0.4, stiff)
    return {"kind": kind, "bodies": bodies, "hooks_m": hooks, "legs": legs}


def main():
    rng = np.random.default_rng(SEED)
    rigs, left_over = [], 0.0
    for kind, wanted in WANTED.items():
        done, tried = 0, 0
        while done < wanted:
            tried += 1
            data = build(kind, rng)
            rig = Rig(data)
            x = rig.solve()
            tension, tilts, left, margin = rig.read(x)
            # Clear only: at rest, no leg at the border of slack, no body far over.
            if left > 1e-8 or margin < 1e-3 or max(tilts) > 25:
                print(f"{kind}: left out, {left:.1e} left, margin {margin:.1e}, tilt {max(tilts):.0f}", flush=True)
                continue
            left_over = max(left_over, left)
            data["id"] = f"{kind}-{done + 1}"
            data["expect"] = {
                "tension_n": [digits(t) if t > 0 else 0 for t in tension],
                "tilt_deg": [digits(t) for t in tilts],
            }
            rigs.append(data)
            done += 1
        print(kind, done, "of", tried, flush=True)
    head = {
        "note": NOTE,
        "made_by": {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__, "seed": SEED},
        "counts": {"rigs": len(rigs), "slack": sum(0 in r["expect"]["tension_n"] for r in rigs)},
        "worst": {"left_over": digits(left_over, 2)},
    }
    lines = ",\n".join(json.dumps(rig) for rig in rigs)
    text = json.dumps(head)[:-1] + ', "rigs": [\n' + lines + "\n]}\n"
    (HERE / "tiers.json").write_text(text, encoding="utf-8")
    print(head["counts"], head["worst"])


if __name__ == "__main__":
    main()
