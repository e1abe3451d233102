"""A rigid body hung from one hook by legs that pull and cannot push; solved with scipy.

Unknowns, five numbers: where the body's origin is (x, y, z, metres, world axes with z up and the hook
at the origin) and two turns, `pitch` about the world's y axis after `roll` about the body's x axis.
A turn of everything about the vertical through the hook changes neither energy, tension nor tilt, so
the sixth freedom is left out; the residual is nevertheless checked with all six equations of statics.

Energy (newton metres): weight * z_cg + sum 0.5 * stiffness * max(0, distance - length)**2.
"""

from dataclasses import dataclass

import numpy as np
from scipy import optimize

VERTICAL = np.array([0.0, 0.0, 1.0])
ROLLS_OVER_DEG = 60.0
# Largest step of the downhill walk, in radians of turn or parts of the mean leg length.
STEP = 0.04


@dataclass
class Rig:
    """weight in N; cg (3,) and points (n, 3) in the body's frame in m; lengths (n,) in m unstretched;
    stiffnesses (n,) in N/m."""

    weight: float
    cg: np.ndarray
    points: np.ndarray
    lengths: np.ndarray
    stiffnesses: np.ndarray

    @staticmethod
    def from_json(rig):
        legs = rig["legs"]
        return Rig(
            float(rig["weight_n"]),
            np.array(rig["cg_m"], float),
            np.array([leg["point_m"] for leg in legs], float),
            np.array([leg["length_m"] for leg in legs], float),
            np.array([leg["stiffness_n_per_m"] for leg in legs], float),
        )

    @property
    def scale(self):
        """Mean leg length, m: makes positions comparable with radians."""
        return float(self.lengths.mean())


def rotations(pitch, roll):
    """R = Ry(pitch) Rx(roll) and its first and second derivatives, in the order of (pitch, roll)."""
    s, c = np.sin(pitch), np.cos(pitch)
    y0 = np.array([[c, 0, s], [0, 1, 0], [-s, 0, c]])
    y1 = np.array([[-s, 0, c], [0, 0, 0], [-c, 0, -s]])
    y2 = np.array([[-c, 0, -s], [0, 0, 0], [s, 0, -c]])
    s, c = np.sin(roll), np.cos(roll)
    x0 = np.array([[1, 0, 0], [0, c, -s], [0, s, c]])
    x1 = np.array([[0, 0, 0], [0, -s, -c], [0, c, -s]])
    x2 = np.array([[0, 0, 0], [0, -c, s], [0, -s, -c]])
    return y0 @ x0, (y1 @ x0, y0 @ x1), ((y2 @ x0, y1 @ x1), (y1 @ x1, y0 @ x2))


def legs_at(rig, pose):
    """World positions of the points (n, 3), distances from the hook (n,), tensions (n,)."""
    turn = rotations(pose[3], pose[4])[0]
    positions = pose[:3] + rig.points @ turn.T
    distances = np.linalg.norm(positions, axis=1)
    return positions, distances, rig.stiffnesses * np.maximum(0.0, distances - rig.lengths)


def energy(rig, pose):
    """Potential energy, N m."""
    turn = rotations(pose[3], pose[4])[0]
    _, distances, _ = legs_at(rig, pose)
    stretch = np.maximum(0.0, distances - rig.lengths)
    return rig.weight * (pose[2] + (turn @ rig.cg)[2]) + 0.5 * float(rig.stiffnesses @ stretch**2)


def slopes(rig, pose):
    """Gradient (5,) and Hessian (5, 5) of the energy."""
    _, first, second = rotations(pose[3], pose[4])
    positions, distances, tensions = legs_at(rig, pose)
    along = positions / distances[:, None]
    pulls = tensions[:, None] * along
    lever = np.stack([rig.points @ d.T for d in first], axis=2)  # (n, 3, 2)
    moves = np.concatenate([np.broadcast_to(np.eye(3), (len(lever), 3, 3)), lever], axis=2)
    gradient = np.einsum("nij,ni->j", moves, pulls)
    gradient[2] += rig.weight
    taut = tensions > 0
    outer = along[:, :, None] * along[:, None, :]
    stiff = (rig.stiffnesses * taut)[:, None, None] * outer
    stiff += (tensions / distances)[:, None, None] * (np.eye(3) - outer)
    hessian = np.einsum("nij,nik,nkl->jl", moves, stiff, moves)
    for i in range(2):
        gradient[3 + i] += rig.weight * (first[i] @ rig.cg)[2]
        for j in range(2):
            bend = second[i][j]
            hessian[3 + i, 3 + j] += np.sum(pulls * (rig.points @ bend.T))
            hessian[3 + i, 3 + j] += rig.weight * (bend @ rig.cg)[2]
    return gradient, hessian


def tilt_deg(pose):
    """Angle between the body's z axis and the vertical, degrees."""
    turn = rotations(pose[3], pose[4])[0]
    across = np.hypot(turn[0, 2], turn[1, 2])
    return float(np.degrees(np.arctan2(across, turn[2, 2])))


def as_installed(rig, pitch=0.0, roll=0.0):
    """The pose with the given turns whose position alone has come to rest (a convex problem)."""
    turn = rotations(pitch, roll)[0]
    reach = rig.lengths.max() + np.ptp(rig.points, axis=0).max()
    start = -turn @ rig.points.mean(axis=0) - reach * VERTICAL
    unit, work = rig.scale, rig.weight * rig.scale

    def pose(x):
        return np.concatenate([x * unit, [pitch, roll]])

    def slope(x):
        return slopes(rig, pose(x))[0][:3] * unit / work

    def bend(x):
        return slopes(rig, pose(x))[1][:3, :3] * unit**2 / work

    found = optimize.minimize(
        lambda x: energy(rig, pose(x)) / work,
        start / unit,
        jac=slope,
        hess=bend,
        method="trust-exact",
        options={"gtol": 1e-9, "maxiter": 500},
    )
    # To the last digits: an attitude that is balanced exactly must be seen to be.
    exact = optimize.root(slope, found.x, jac=bend, method="hybr", options={"xtol": 1e-15}).x
    return pose(min(found.x, exact, key=lambda x: np.abs(slope(x)).max()))


def scaled(rig):
    """Diagonal that makes a pose free of units, and the energy that goes with it."""
    return np.array([rig.scale] * 3 + [1.0, 1.0]), rig.weight * rig.scale


def walk_downhill(rig, start):
    """Follow the energy down from `start` in small steps.

    Gives (pose at rest, largest tilt on the way in degrees). Stops early once the tilt has passed
    ROLLS_OVER_DEG.
    """
    unit, work = scaled(rig)
    largest = [tilt_deg(start)]

    def watch(intermediate_result):
        largest[0] = max(largest[0], tilt_deg(intermediate_result.x * unit))
        if largest[0] > ROLLS_OVER_DEG:
            raise StopIteration

    found = optimize.minimize(
        lambda x: energy(rig, x * unit) / work,
        start / unit,
        jac=lambda x: slopes(rig, x * unit)[0] * unit / work,
        hess=lambda x: slopes(rig, x * unit)[1] * np.outer(unit, unit) / work,
        method="trust-exact",
        callback=watch,
        options={
            "gtol": 1e-9,
            "maxiter": 1000,
            "initial_trust_radius": STEP / 2,
            "max_trust_radius": STEP,
        },
    )
    return found.x * unit, largest[0]


def polish(rig, pose):
    """Solve the equations of rest from a pose that is nearly at rest (scipy.optimize.root)."""
    unit, work = scaled(rig)
    found = optimize.root(
        lambda x: slopes(rig, x * unit)[0] * unit / work,
        pose / unit,
        jac=lambda x: slopes(rig, x * unit)[1] * np.outer(unit, unit) / work,
        method="hybr",
        options={"xtol": 1e-15},
    )
    return found.x * unit


def residual(rig, pose):
    """Largest of the six unbalanced forces (parts of weight) and moments about the hook (parts of
    weight times mean leg length), from plain statics and not from the energy."""
    turn = rotations(pose[3], pose[4])[0]
    positions, distances, tensions = legs_at(rig, pose)
    pulls = -(tensions / distances)[:, None] * positions
    load = -rig.weight * VERTICAL
    force = pulls.sum(axis=0) + load
    # Each pull passes through the hook, so its moment there is only rounding; it is summed anyhow.
    moment = np.cross(positions, pulls).sum(axis=0) + np.cross(pose[:3] + turn @ rig.cg, load)
    return float(max(np.abs(force).max(), np.abs(moment).max() / rig.scale) / rig.weight)


def firmness(rig, pose):
    """Smallest and largest eigenvalue of the Hessian free of units; rest is stable if both are > 0."""
    unit, work = scaled(rig)
    values = np.linalg.eigvalsh(slopes(rig, pose)[1] * np.outer(unit, unit) / work)
    return float(values[0]), float(values[-1])
