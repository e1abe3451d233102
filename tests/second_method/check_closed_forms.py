"""How the two Python methods agree with closed forms of statics. Prints a table; fails if one is off.

The closed forms are elementary statics (sum of forces, Lami's law of sines): common practice, no source.
"""

import sys

import numpy as np

import hook_in_body
import suspended_body
from suspended_body import Rig

GOOD = 1e-9


def both(rig):
    """Tensions (n,) and tilt in degrees, by suspended_body and by hook_in_body."""
    pose, _ = suspended_body.walk_downhill(rig, suspended_body.as_installed(rig))
    pose = suspended_body.polish(rig, pose)
    first = (suspended_body.legs_at(rig, pose)[2], suspended_body.tilt_deg(pose))
    one = hook_in_body.Batch.repeat(rig, 1)
    hook, _, _ = hook_in_body.turn_slowly(one, hook_in_body.cap([0.0], 1))
    second = (hook_in_body.springs(one, hook)[2][0], float(hook_in_body.tilt_deg(one, hook)[0]))
    return first, second


def ring(number, radius, height, first_deg=0.0):
    """`number` points on a ring."""
    angle = np.radians(first_deg) + 2 * np.pi * np.arange(number) / number
    return np.stack([radius * np.cos(angle), radius * np.sin(angle), np.full(number, height)], axis=1)


def unstretched(rig_points, hook, tensions, stiffnesses):
    """The lengths that give these tensions with the hook there: distance minus tension / stiffness."""
    return np.linalg.norm(hook - rig_points, axis=1) - tensions / stiffnesses


def symmetric(number):
    """Textbook statics: T = W / (n sin(angle from horizontal)) for n equal legs on a ring."""
    weight, points, hook = 120e3, ring(number, 1.2, 1.0), np.array([0.0, 0.0, 4.0])
    expected = np.full(number, weight / (number * 3.0 / np.hypot(1.2, 3.0)))
    stiffnesses = np.full(number, 6e6)
    lengths = unstretched(points, hook, expected, stiffnesses)
    return Rig(weight, np.array([0.0, 0.0, 0.4]), points, lengths, stiffnesses), expected, 0.0


def two_unequal():
    """Law of sines for two legs in one plane through the centre of gravity (Lami):
    T1 = W sin(b) / sin(a + b), a and b the angles of the legs from the vertical."""
    weight, hook = 80e3, np.array([0.0, 0.0, 5.0])
    points = np.array([[-1.0, 0.0, 1.0], [2.0, 0.0, 2.0]])
    a, b = np.arctan2(1.0, 4.0), np.arctan2(2.0, 3.0)
    expected = weight * np.array([np.sin(b), np.sin(a)]) / np.sin(a + b)
    stiffnesses = np.array([3e6, 9e6])
    lengths = unstretched(points, hook, expected, stiffnesses)
    return Rig(weight, np.array([0.0, 0.0, 0.0]), points, lengths, stiffnesses), expected, 0.0


def three_offset():
    """Three legs, centre of gravity under the hook but off the middle: three equations of statics."""
    weight, hook = 300e3, np.array([0.3, -0.2, 6.0])
    points = np.array([[2.0, 0.0, 1.0], [-1.0, 1.8, 1.3], [-1.2, -1.5, 0.8]])
    along = (hook - points) / np.linalg.norm(hook - points, axis=1)[:, None]
    expected = np.linalg.solve(along.T, [0.0, 0.0, weight])
    stiffnesses = np.array([2e7, 5e6, 1e7])
    lengths = unstretched(points, hook, expected, stiffnesses)
    return Rig(weight, np.array([0.3, -0.2, 1.9]), points, lengths, stiffnesses), expected, 0.0


def tilted():
    """The same hook and points, centre of gravity moved: the body turns until the hook is above it, and
    the tensions are those of three equations with the vertical along hook - cg."""
    rig, _, _ = three_offset()
    hook, cg = np.array([0.3, -0.2, 6.0]), np.array([0.8, 0.1, 0.5])
    arm = hook - cg
    along = (hook - rig.points) / np.linalg.norm(hook - rig.points, axis=1)[:, None]
    expected = np.linalg.solve(along.T, rig.weight * arm / np.linalg.norm(arm))
    lengths = unstretched(rig.points, hook, expected, rig.stiffnesses)
    tilt = np.degrees(np.arctan(np.hypot(arm[0], arm[1]) / arm[2]))
    return Rig(rig.weight, cg, rig.points, lengths, rig.stiffnesses), expected, tilt


def four_by_stiffness():
    """Four legs of a square, one diagonal pair q times as stiff, all of one length: the same angle and
    stretch, so each stiff leg carries q / (2 (1 + q)) of W / sin(angle)."""
    weight, points, q = 200e3, ring(4, 1.5, 1.0, 45.0), 3.0
    stiffnesses = np.array([q, 1.0, q, 1.0]) * 4e6
    distance = np.hypot(1.5, 3.5)
    share = weight / (2 * (1 + q) * 3.5 / distance)
    expected = share * np.array([q, 1.0, q, 1.0])
    lengths = np.full(4, distance - share / 4e6)
    return Rig(weight, np.array([0.0, 0.0, 0.3]), points, lengths, stiffnesses), expected, 0.0


def four_two_slack():
    """The other pair 50 mm longer than it would need: it hangs slack and two legs carry W / (2 sin)."""
    weight, points = 200e3, ring(4, 1.5, 1.0, 45.0)
    stiffnesses = np.full(4, 2e7)
    distance = np.hypot(1.5, 3.5)
    tension = weight / (2 * 3.5 / distance)
    lengths = np.array([distance - tension / 2e7, distance + 0.05] * 2)
    expected = np.array([tension, 0.0, tension, 0.0])
    return Rig(weight, np.array([0.0, 0.0, 0.3]), points, lengths, stiffnesses), expected, 0.0


CASES = {
    "2 legs, unequal, law of sines": two_unequal,
    "3 legs, symmetric": lambda: symmetric(3),
    "8 legs, symmetric": lambda: symmetric(8),
    "3 legs, cg off the middle, level": three_offset,
    "3 legs, cg off the hook, tilted": tilted,
    "4 legs, shared by stiffness": four_by_stiffness,
    "4 legs, one pair slack": four_two_slack,
}


def upright_turns_unstable():
    """Load standing tall on narrow, stretching legs. A hook moved sideways by a little in the body's frame
    is pulled back by n/2 k sin(b)**2 + T/d (n - n/2 sin(b)**2) per metre (b from the vertical) and the
    load's pull follows it by W/h, h the hook's height above the centre of gravity. The stiffness at which
    the two are equal parts stable from unstable. Gives whether both methods say stable 0.1 % above it
    and unstable 0.1 % below, and that stiffness in N/m."""
    weight, number, radius, drop, height = 50e3, 4, 0.3, 8.0, 6.0
    points, distance = ring(number, radius, 1.0), np.hypot(radius, drop)
    tension, sine2 = weight / (number * drop / distance), (radius / distance) ** 2
    pull_back = tension / distance * (number - number / 2 * sine2)
    critical = (weight / height - pull_back) / (number / 2 * sine2)
    verdicts = []
    for factor in (1.001, 0.999):
        k = np.full(number, critical * factor)
        lengths = unstretched(points, np.array([0.0, 0.0, 1.0 + drop]), np.full(number, tension), k)
        rig = Rig(weight, np.array([0.0, 0.0, 1.0 + drop - height]), points, lengths, k)
        one = hook_in_body.Batch.repeat(rig, 1)
        in_body = hook_in_body.stable(one, np.array([[0.0, 0.0, 1.0 + drop]]))[0] > 0
        pose = np.array([0.0, 0.0, -1.0 - drop, 0.0, 0.0])
        verdicts.append((bool(suspended_body.firmness(rig, pose)[0] > 0), bool(in_body)))
    return verdicts == [(True, True), (False, False)], critical


def main():
    bad = 0
    print(f"{'case':36} {'tilt deg':>9} {'scipy: dT/W':>12} {'dtilt':>9} {'numpy: dT/W':>12} {'dtilt':>9}")
    for name, make in CASES.items():
        rig, expected, tilt = make()
        row = []
        for tensions, found in both(rig):
            row += [np.abs(tensions - expected).max() / rig.weight, abs(found - tilt)]
        bad += any(off > limit for off, limit in zip(row, [GOOD, 1e-6] * 2))
        print(f"{name:36} {tilt:9.4f} {row[0]:12.1e} {row[1]:9.1e} {row[2]:12.1e} {row[3]:9.1e}")
    fits, critical = upright_turns_unstable()
    bad += not fits
    print(f"stable above {critical:.0f} N/m and unstable below, by both: {'yes' if fits else 'NO'}")
    sys.exit(1 if bad else 0)


if __name__ == "__main__":
    main()
