"""The same hanging seen from the body: a hook moving in the body's frame. Own numpy, many rigs at once.

For a hook at `h` in the body's frame the body is at rest only with the hook straight above the centre of
gravity, so the pose is the hook's position and nothing else: three unknowns. The energy is

    E(h) = -weight * |h - cg| + sum 0.5 * stiffness * max(0, |h - point| - length)**2

and a rest is stable where its Hessian is positive definite. With the body's upward direction `u` held,
E(h; u) = -weight * u . (h - cg) + (the same sum) is convex in h; that serves to turn the body slowly.

Shares no formula and no unknown with suspended_body.py, only the rig.
"""

from dataclasses import dataclass

import numpy as np


@dataclass
class Batch:
    """weight (b,), cg (b, 3), points (b, n, 3), lengths (b, n), stiffnesses (b, n); N and m."""

    weight: np.ndarray
    cg: np.ndarray
    points: np.ndarray
    lengths: np.ndarray
    stiffnesses: np.ndarray

    @staticmethod
    def repeat(rig, times):
        """The same rig (suspended_body.Rig or alike) `times` over."""
        return Batch(
            np.full(times, rig.weight),
            np.tile(rig.cg, (times, 1)),
            np.tile(rig.points, (times, 1, 1)),
            np.tile(rig.lengths, (times, 1)),
            np.tile(rig.stiffnesses, (times, 1)),
        )

    def only(self, which):
        """The rigs picked by a mask or by indices."""
        fields = (self.weight, self.cg, self.points, self.lengths, self.stiffnesses)
        return Batch(*(field[which] for field in fields))


def springs(batch, hook):
    """Directions point -> hook (b, n, 3), distances (b, n) and tensions (b, n)."""
    reach = hook[:, None, :] - batch.points
    distances = np.sqrt(np.einsum("bni,bni->bn", reach, reach))
    tensions = batch.stiffnesses * np.maximum(0.0, distances - batch.lengths)
    return reach / distances[..., None], distances, tensions


def value(batch, hook, up):
    """Energy (b,) with `up` held, or with the hook above the centre of gravity if `up` is None."""
    _, distances, _ = springs(batch, hook)
    stretch = np.maximum(0.0, distances - batch.lengths)
    arm = hook - batch.cg
    height = np.linalg.norm(arm, axis=1) if up is None else np.einsum("bi,bi->b", arm, up)
    return 0.5 * np.einsum("bn,bn->b", batch.stiffnesses, stretch**2) - batch.weight * height


def derivatives(batch, hook, up):
    """Gradient (b, 3) and Hessian (b, 3, 3) of `value`."""
    along, distances, tensions = springs(batch, hook)
    arm = hook - batch.cg
    height = np.linalg.norm(arm, axis=1)
    straight = arm / height[:, None]
    gradient = np.einsum("bn,bni->bi", tensions, along)
    gradient -= batch.weight[:, None] * (straight if up is None else up)
    across = tensions / distances
    stiff = batch.stiffnesses * (tensions > 0) - across
    hessian = np.einsum("bn,bni,bnj->bij", stiff, along, along)
    hessian += across.sum(axis=1)[:, None, None] * np.eye(3)
    if up is None:
        level = np.eye(3) - straight[:, :, None] * straight[:, None, :]
        hessian -= (batch.weight / height)[:, None, None] * level
    return gradient, hessian


def newton_step(batch, hook, up):
    """The step (b, 3), m, and the residual in parts of weight (b,) before it."""
    gradient, hessian = derivatives(batch, hook, up)
    scale = batch.lengths.mean(axis=1)
    values, vectors = np.linalg.eigh(hessian)
    floor = 1e-4 * (batch.weight / scale)[:, None]
    # Negative curvature is turned round, so that a step leaves a saddle instead of seeking it.
    step = np.einsum("bji,bj->bi", vectors, gradient) / np.maximum(np.abs(values), floor)
    step = -np.einsum("bij,bj->bi", vectors, step)
    length = np.maximum(np.linalg.norm(step, axis=1), 1e-300)
    step *= np.minimum(1.0, 0.3 * scale / length)[:, None]
    return step, np.abs(gradient).max(axis=1) / batch.weight


def downhill(batch, hook, step, up):
    """`hook` moved by `step`, or by a part of it if that passes far beyond the lowest place along it.
    The slope tells that to the last digit; the energy, coarser, only keeps it honest."""
    grain = 1e-12 * batch.weight * batch.lengths.mean(axis=1)
    now = value(batch, hook, up)
    slope = np.einsum("bi,bi->b", derivatives(batch, hook, up)[0], step)
    moved, waiting, share = hook.copy(), np.arange(len(hook)), np.ones(len(hook))
    for _ in range(30):
        part, held = batch.only(waiting), None if up is None else up[waiting]
        trial = hook[waiting] + share[:, None] * step[waiting]
        rise = value(part, trial, held) - now[waiting]
        after = np.einsum("bi,bi->b", derivatives(part, trial, held)[0], step[waiting])
        fits = (rise < grain[waiting]) & (after <= 0.9 * np.abs(slope[waiting]))
        moved[waiting[fits]] = trial[fits]
        # Where a straight line between the two slopes would put the lowest place.
        secant = np.abs(slope[waiting]) / np.maximum(np.abs(slope[waiting]) + after, 1e-300)
        share = (share * np.clip(secant, 0.05, 0.5))[~fits]
        waiting = waiting[~fits]
        if not len(waiting):
            break
    return moved


def settle(batch, hook, up=None, rounds=80):
    """Damped Newton from `hook` (b, 3), always downhill. Gives (hook, residual in parts of weight).

    A residual that is not small means that the iteration has not come to rest; the caller must look.
    """
    hook, going = hook.copy(), np.arange(len(hook))
    for _ in range(rounds):
        part, held = batch.only(going), None if up is None else up[going]
        step, left = newton_step(part, hook[going], held)
        length = np.linalg.norm(step, axis=1)
        open_ = (left >= 5e-13) & (length >= 1e-15 * part.lengths.mean(axis=1))
        going, step = going[open_], step[open_]
        if not len(going):
            break
        held = None if up is None else up[going]
        hook[going] = downhill(batch.only(going), hook[going], step, held)
    gradient, _ = derivatives(batch, hook, up)
    return hook, np.abs(gradient).max(axis=1) / batch.weight


def stable(batch, hook):
    """Smallest eigenvalue (b,) of the Hessian, in parts of weight over mean leg length."""
    _, hessian = derivatives(batch, hook, None)
    return np.linalg.eigvalsh(hessian)[:, 0] * batch.lengths.mean(axis=1) / batch.weight


def tilt_deg(batch, hook):
    """Angle (b,) between the body's z axis and the vertical, degrees."""
    arm = hook - batch.cg
    return np.degrees(np.arctan2(np.hypot(arm[:, 0], arm[:, 1]), arm[:, 2]))


def turn_slowly(batch, up, steps=1500, part=0.25):
    """From the upward directions `up` (b, 3) let each body turn downhill with its hook always settled.

    Each step takes `part` of the way to the attitude that has the hook above the centre of gravity,
    which never raises the energy. Gives (hook at rest, largest tilt on the way, residual).
    """
    up = up.copy()
    reach = batch.lengths.max(axis=1) + np.ptp(batch.points, axis=1).max(axis=1)
    hook, _ = settle(batch, batch.points.mean(axis=1) + reach[:, None] * up, up, 40)
    largest = np.degrees(np.arccos(np.clip(up[:, 2], -1, 1)))
    for _ in range(steps):
        hook, _ = settle(batch, hook, up, 12)
        arm = hook - batch.cg
        goal = arm / np.linalg.norm(arm, axis=1)[:, None]
        moved = np.linalg.norm(goal - up, axis=1)
        if np.all(moved < 1e-4):
            break
        up = up + part * (goal - up)
        up /= np.linalg.norm(up, axis=1)[:, None]
        largest = np.maximum(largest, np.degrees(np.arccos(np.clip(up[:, 2], -1, 1))))
    hook, left = settle(batch, hook, None, 80)
    return hook, np.maximum(largest, tilt_deg(batch, hook)), left


def cap(tilts_deg, around):
    """Upward directions tilted by each of `tilts_deg`, at `around` azimuths each (one if 0 degrees)."""
    found = []
    for tilt in tilts_deg:
        for i in range(around if tilt else 1):
            # 0.4: no start lies on a plane of symmetry of the usual rigs.
            azimuth = 0.4 + 2 * np.pi * i / around
            slope = np.radians(tilt)
            found.append([np.sin(slope) * np.cos(azimuth), np.sin(slope) * np.sin(azimuth), np.cos(slope)])
    return np.array(found)
