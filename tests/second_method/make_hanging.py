"""Writes hanging.json: 300 random rigs and how each hangs. See README.md for what each class means."""

import json
import pathlib
import platform
import sys
import time

import numpy as np
import scipy

import draw_rigs
import hook_in_body
import suspended_body
from suspended_body import Rig

SEED = 20_261
HERE = pathlib.Path(__file__).parent
PLAN = (
    (draw_rigs.GENERAL, 70),
    (draw_rigs.SLACK, 75),
    (draw_rigs.FLAT, 55),
    (draw_rigs.HIGH, 50),
    (draw_rigs.NARROW, 20),
    (draw_rigs.FALLING, 22),
    (draw_rigs.BALANCED, 8),
)
LEAST = {
    "rigs": 300,
    "slack_leg": 60,
    "leg_flatter_than_35_deg": 40,
    "cg_above_a_point": 40,
    "cg_above_all_points": 15,
    "no_equilibrium": 20,
    "upright_unstable": 4,
    "stiffness_ratio_above_20": 20,
}
CLEAR_TILT_DEG = 50.0  # a rig that rests between this and ROLLS_OVER_DEG is redrawn
CLEAR_TENSION = 1e-3  # of the weight
NOTE = (
    "Invented rigs: one rigid body hung from one hook at the world's origin, z up. Positions in the body's "
    "frame, whose axes are the world's as installed. A leg pulls stiffness * (distance - length) when "
    "stretched and cannot push. Equilibrium: the stable rest reached downhill from the as-installed "
    "attitude; false if the body turns by more than 60 degrees on the way. Angles from the horizontal, "
    "legs under tension only."
)


class Redraw(Exception):
    """The rig is not clear enough to be a check value."""


def need(condition, why):
    if not condition:
        raise Redraw(why)


def rests_from_all_round(rig):
    """Where the body comes to rest from starts all round, by hook_in_body: hooks (b, 3), tilts at rest,
    tilts of the starts."""
    starts = np.array([0.0, 2, 5, 15, 30, 45, 57])
    up = hook_in_body.cap(starts, 10)
    batch = hook_in_body.Batch.repeat(rig, len(up))
    hook, _, left = hook_in_body.turn_slowly(batch, up)
    need(left.max() < 1e-9, "a start did not come to rest")
    steady = hook_in_body.stable(batch, hook)
    # Only the exactly upright start may be left standing on a saddle.
    need(np.all(steady[1:] > 1e-4), "rests on an edge")
    return hook, hook_in_body.tilt_deg(batch, hook), np.degrees(np.arccos(np.clip(up[:, 2], -1, 1)))


def judge_standing(rig, pose):
    """The `expect` of a rig that hangs, checked to be clear."""
    pose = suspended_body.polish(rig, pose)
    positions, distances, tensions = suspended_body.legs_at(rig, pose)
    least, most = suspended_body.firmness(rig, pose)
    need(suspended_body.residual(rig, pose) < 1e-11, "residual")
    need(suspended_body.tilt_deg(pose) < CLEAR_TILT_DEG, "tilt near the limit")
    need(least > 2e-3 and most / least < 1e7, "badly conditioned")
    signed = rig.stiffnesses * (distances - rig.lengths)
    need(np.all(np.abs(signed) > CLEAR_TENSION * rig.weight), "nearly slack")
    need(np.all(signed < 0.02 * rig.stiffnesses * rig.lengths), "stretched by more than 2 %")
    angles = np.degrees(np.arcsin(-positions[:, 2] / distances))
    need(np.all(positions[:, 2] < 0), "a point above the hook")
    return pose, {
        "equilibrium": True,
        "tension_n": [draw_rigs.digits(t, 10) if t > 0 else 0 for t in tensions],
        "slack": [bool(t <= 0) for t in tensions],
        "tilt_deg": draw_rigs.digits(suspended_body.tilt_deg(pose), 10),
        "min_horizontal_angle_deg": draw_rigs.digits(angles[tensions > 0].min(), 10),
    }


def agree(rig, pose, hook, worst):
    """The two methods give the same rest, or the rig is refused loudly: that would be an error of ours."""
    one = hook_in_body.Batch.repeat(rig, 1)
    tensions = suspended_body.legs_at(rig, pose)[2]
    apart = np.abs(tensions - hook_in_body.springs(one, hook[None])[2][0]).max() / rig.weight
    turned = abs(suspended_body.tilt_deg(pose) - float(hook_in_body.tilt_deg(one, hook[None])[0]))
    if apart > 1e-9 or turned > 1e-7:
        raise SystemExit(f"the two methods disagree: {apart:.1e} of the weight, {turned:.1e} degrees")
    worst["methods_apart_in_weight"] = max(worst["methods_apart_in_weight"], apart)
    worst["methods_apart_in_degrees"] = max(worst["methods_apart_in_degrees"], turned)
    worst["residual"] = max(worst["residual"], suspended_body.residual(rig, pose))


def judge(rig, worst):
    """The `expect` of a rig. Raises Redraw unless every way to look at it says the same."""
    upright = suspended_body.as_installed(rig)
    hooks, rests, starts = rests_from_all_round(rig)
    near = rests < suspended_body.ROLLS_OVER_DEG
    need(np.all(np.abs(rests - suspended_body.ROLLS_OVER_DEG) > 10), "rests near the limit")
    disturbed = (starts > 0) & (starts <= 5.1)
    walked = [suspended_body.walk_downhill(rig, upright)]
    nudges = ((2e-3, 1e-3), (-1e-3, 2e-3), (-2e-3, -1e-3), (1e-3, -2e-3))
    walked += [suspended_body.walk_downhill(rig, suspended_body.as_installed(rig, *n)) for n in nudges]
    fell = np.array([largest > suspended_body.ROLLS_OVER_DEG for _, largest in walked])
    if not np.any(near[1:]):
        need(np.all(fell[1:]), "the walks do not all roll over")
        return {"equilibrium": False, "why": why_not(rig, upright, rests)}
    need(not fell.any() and near[0] and np.all(near[disturbed]), "some roll over and some do not")
    pose, expect = judge_standing(rig, walked[0][0])
    for hook in hooks[near]:
        need(np.linalg.norm(hook - hooks[near][0]) < 1e-6 * rig.scale, "more than one rest below 60 degrees")
    for other, _ in walked[1:]:
        apart = suspended_body.legs_at(rig, suspended_body.polish(rig, other))[2]
        apart = np.abs(apart - suspended_body.legs_at(rig, pose)[2]).max()
        need(apart < 1e-8 * rig.weight, "the walks end apart")
    agree(rig, pose, hooks[near][0], worst)
    return expect


def why_not(rig, upright, rests):
    """Why no rest counts, in words."""
    end = f"{np.median(rests[1:]):.0f} degrees"
    if suspended_body.residual(rig, upright) < 1e-8:
        least, _ = suspended_body.firmness(rig, upright)
        need(least < -2e-3, "upright neither stable nor unstable")
        return (
            "upright unstable: balanced as installed, but the least disturbance rolls it over past 60 "
            f"degrees, to {end}; no stable rest below 60 degrees"
        )
    return (
        "rolls over: downhill from as installed it turns past 60 degrees and rests at "
        f"{end}; no stable rest below 60 degrees"
    )


def classes(rig, expect):
    """Names of the classes of LEAST that the rig counts for."""
    found = []
    if expect["equilibrium"]:
        found += ["slack_leg"] * any(expect["slack"])
        found += ["leg_flatter_than_35_deg"] * (expect["min_horizontal_angle_deg"] < 35)
        above = rig.cg[2] > rig.points[:, 2]
        found += ["cg_above_a_point"] * bool(above.any())
        found += ["cg_above_all_points"] * bool(above.all())
    else:
        found += ["no_equilibrium"]
        found += ["upright_unstable"] * expect["why"].startswith("upright")
    ratio = rig.stiffnesses.max() / rig.stiffnesses.min()
    need(ratio <= 50, "stiffness ratio")
    need(rig.lengths.min() >= 1 and rig.lengths.max() <= 15, "length")
    share = rig.weight / len(rig.lengths) / rig.stiffnesses / rig.lengths
    need(share.min() > 0.00049 and share.max() < 0.0201, "stretch")
    return found + ["stiffness_ratio_above_20"] * bool(ratio > 20)


def make(rng, recipe, worst, refused):
    """Draw until a rig of the recipe is clear."""
    wants_fall = recipe in (draw_rigs.FALLING, draw_rigs.BALANCED)
    while True:
        data = draw_rigs.draw(rng, recipe)
        rig = Rig.from_json(data)
        try:
            classes(rig, {"equilibrium": False, "why": ""})
            expect = judge(rig, worst)
            need(wants_fall != expect["equilibrium"] or recipe == draw_rigs.NARROW, "other class")
            need(recipe != draw_rigs.SLACK or any(expect["slack"]), "other class")
            return data, expect, classes(rig, expect)
        except Redraw as reason:
            refused[str(reason)] = refused.get(str(reason), 0) + 1


def write(path, head, rigs):
    """One rig a line, so that a change can be read."""
    head = json.dumps(head, separators=(",", ":"))[:-1]
    lines = ",\n".join(json.dumps(rig, separators=(",", ":")) for rig in rigs)
    path.write_text(f'{head},"rigs":[\n{lines}\n]}}\n', encoding="utf-8")


def main(part=1.0):
    rng = np.random.default_rng(SEED)
    started, rigs, refused = time.monotonic(), [], {}
    worst = {"residual": 0.0, "methods_apart_in_weight": 0.0, "methods_apart_in_degrees": 0.0}
    counts = dict.fromkeys(LEAST, 0)
    for recipe, number in PLAN:
        for _ in range(max(1, round(number * part))):
            data, expect, found = make(rng, recipe, worst, refused)
            rigs.append({"id": f"R{len(rigs) + 1:03d}", "classes": found, **data, "expect": expect})
            for name in ["rigs", *found]:
                counts[name] += 1
        print(f"{time.monotonic() - started:6.1f} s {recipe}: {len(rigs)} rigs", flush=True)
    made_by = {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__}
    head = {"note": NOTE, "made_by": {**made_by, "seed": SEED}, "counts": counts}
    head["worst"] = {name: draw_rigs.digits(value, 2) for name, value in worst.items()}
    print("counts", counts, "\nworst", worst, "\nredrawn", refused)
    if part < 1:
        return
    for name, least in LEAST.items():
        assert counts[name] >= least, f"{name}: {counts[name]} of at least {least}"
    write(HERE / "hanging.json", head, rigs)


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 1.0)
