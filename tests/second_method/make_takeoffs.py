"""Writes takeoff.json: random take-offs with holes, their mass, centre of gravity and inertia, and how far the mass
and the centre of gravity can go inside their bands.

Nothing here knows a formula for a solid: polyhedra are closed triangle meshes (trimesh), round solids are summed over
points of a Gauss quadrature in cylinder coordinates, which is exact for the polynomials that are asked for. The ends
are searched by drawing at random, then by the corner that the slope points at, then number by number: a search from
inside, so it can only stop too near.
"""

import functools
import json
import math
import sys

import numpy as np
import trimesh
from shapely.geometry import Polygon

SEED = 20261125
COUNT, BANDED = 200, 40
GAUSS, WEIGHT = np.polynomial.legendre.leggauss(6)


def turns(rng):
    """Own axes along axes of the load: own z along one of six directions, by the same words as the data."""
    axis = "xyz"[rng.integers(3)]
    sign = 1.0 if rng.random() < 0.5 else -1.0
    x = {
        "x": [[0, 0, -sign], [0, 1, 0], [sign, 0, 0]],
        "y": [[1, 0, 0], [0, 0, -sign], [0, sign, 0]],
        "z": [[1, 0, 0], [0, sign, 0], [0, 0, sign]],
    }[axis]
    heading = float(rng.integers(0, 360)) if rng.random() < 0.3 else 0.0
    c, s = math.cos(math.radians(heading)), math.sin(math.radians(heading))
    about = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])
    return axis, sign > 0, heading, about @ np.array(x, float).T


def revolved(radii, low, high):
    """Points and weights of a solid of revolution about z between two radii(z)."""
    points, weights = [], []
    for g, w in zip(GAUSS, WEIGHT):
        z = (low + high) / 2 + (high - low) / 2 * g
        inner, outer = radii(z)
        # r dr is integrated in s = r^2, in which every moment wanted is a polynomial.
        for gs, ws in zip(GAUSS, WEIGHT):
            square = (inner**2 + outer**2) / 2 + (outer**2 - inner**2) / 2 * gs
            r = math.sqrt(max(square, 0.0))
            for phi in np.arange(8) * math.pi / 4 + 0.1:
                points.append((r * math.cos(phi), r * math.sin(phi), z))
                weights.append(w * (high - low) / 2 * ws * (outer**2 - inner**2) / 4 * math.pi / 4)
    return np.array(points), np.array(weights)


def polyhedron(mesh):
    """Points and weights of a mesh: each tetrahedron from the origin by the four-point rule of degree two."""
    tets = mesh.triangles
    volume = np.einsum("ni,ni->n", tets[:, 0], np.cross(tets[:, 1], tets[:, 2])) / 6
    a, b = (5 + 3 * math.sqrt(5)) / 20, (5 - math.sqrt(5)) / 20
    corners = np.concatenate([np.zeros((len(tets), 1, 3)), tets], axis=1)
    share = np.full((4, 4), b) + np.eye(4) * (a - b)
    points = np.einsum("kc,ncx->nkx", share, corners).reshape(-1, 3)
    return points, np.repeat(volume / 4, 4)


def solid(kind, d):
    """Points and weights (volume, or mass where the solid is given by its mass) in the solid's own frame."""
    if kind == "block":
        return polyhedron(trimesh.creation.box(extents=d))
    if kind == "round":
        return revolved(lambda z: (0.0, d[0] / 2), -d[1] / 2, d[1] / 2)
    if kind == "tube":
        return revolved(lambda z: (d[1] / 2, d[0] / 2), -d[2] / 2, d[2] / 2)
    if kind == "frustum":
        return revolved(lambda z: (0.0, (d[0] + (d[1] - d[0]) * z / d[2]) / 2), 0.0, d[2])
    if kind == "sphere":
        return revolved(lambda z: (0.0, math.sqrt(max((d[0] / 2) ** 2 - z * z, 0))), -d[0] / 2, d[0] / 2)
    if kind == "dome":
        a, h = d[0] / 2, d[1]
        ball = (a * a + h * h) / (2 * h)
        return revolved(lambda z: (0.0, math.sqrt(max(ball**2 - (z + ball - h) ** 2, 0))), 0.0, h)
    if kind == "prism":
        mesh = trimesh.creation.extrude_polygon(Polygon(np.array(d[1:]).reshape(-1, 2)), d[0])
        mesh.apply_translation([0, 0, -d[0] / 2])
        return polyhedron(mesh)
    if kind == "section":
        z = d[1] / 2 * GAUSS
        points = np.stack([0 * z, 0 * z, z], axis=1)
        return points, WEIGHT * d[1] / 2 * d[0]
    raise ValueError(kind)


@functools.lru_cache(maxsize=200_000)
def moments(kind, d):
    """Volume, first and second moments of a solid about its own origin."""
    points, weights = solid(kind, list(d))
    return weights.sum(), weights @ points, (weights[:, None] * points).T @ points


def draw_solid(rng, kind, scale):
    u = lambda lo, hi: float(rng.uniform(lo, hi) * scale)
    if kind == "block":
        return [u(0.1, 1), u(0.1, 1), u(0.1, 1)]
    if kind == "round":
        return [u(0.1, 1), u(0.1, 1)]
    if kind == "tube":
        outside = u(0.2, 1)
        return [outside, outside * float(rng.uniform(0.3, 0.9)), u(0.1, 1)]
    if kind == "frustum":
        return [u(0.3, 1), 0.0 if rng.random() < 0.2 else u(0.1, 1), u(0.1, 1)]
    if kind == "sphere":
        return [u(0.2, 0.8)]
    if kind == "dome":
        return [u(0.3, 1), u(0.05, 0.8)]
    if kind == "section":
        return [float(rng.uniform(20, 200)), u(0.5, 2)]
    while True:
        corners = int(rng.integers(3, 7))
        angles = np.sort(rng.uniform(0, 2 * math.pi, corners))
        radii = rng.uniform(0.25, 0.5, corners) * scale
        outline = np.stack([radii * np.cos(angles), radii * np.sin(angles)], axis=1)
        polygon = Polygon(outline)
        # Clear of itself by far more than the tolerance of a corner.
        if polygon.is_valid and polygon.area > 0.3 * polygon.convex_hull.area and polygon.buffer(-0.01 * scale).area > 0:
            break
    outline = outline + rng.uniform(-1, 1, 2)
    return [u(0.02, 0.2), *(float(v) for v in outline.ravel())]


KINDS = ["block", "round", "tube", "frustum", "sphere", "dome", "prism"]


def around(rng, value, share, least=0.0):
    by = abs(value) * float(rng.uniform(0, share)) + least
    return [round(value - by, 6), round(value + by, 6)]


def draw_piece(rng, kind, scale, centre, banded):
    d = draw_solid(rng, kind, scale)
    axis, forwards, heading, matrix = turns(rng)
    if kind == "prism":
        sides = [around(rng, d[0], 0.05)] + [around(rng, v, 0.0, 0.002) for v in d[1:]]
    else:
        sides = [around(rng, v, 0.05) if v else [0.0, 0.0] for v in d]
    at = [around(rng, float(c), 0.0, float(rng.uniform(0, 0.02))) for c in centre]
    if not banded:
        sides = [[round(v, 6)] * 2 for v in d]
        at = [[round(float(c), 6)] * 2 for c in centre]
    return {
        "kind": kind, "sides": sides, "at": at, "along": axis, "forwards": forwards, "heading_deg": heading,
        "matrix": matrix,
    }


def draw(rng, banded):
    parts = []
    for _ in range(int(rng.integers(2, 8))):
        kind = "section" if rng.random() < 0.05 else KINDS[rng.integers(len(KINDS))]
        centre = rng.uniform(-2, 2, 3)
        piece = draw_piece(rng, kind, float(rng.uniform(0.5, 2)), centre, banded)
        holes = []
        if kind != "section":
            for _ in range(int(rng.integers(0, 3))):
                hole = KINDS[rng.integers(len(KINDS))]
                holes.append(draw_piece(rng, hole, 0.2, centre + rng.uniform(-0.2, 0.2, 3), banded))
        density = None
        if kind != "section":
            density = around(rng, float(rng.uniform(1000, 9000)), 0.03 if banded else 0.0)
        parts.append({"piece": piece, "density": density, "holes": holes})
    return parts


def variables(parts):
    """Ends of every free number, in order."""
    ends = []
    for part in parts:
        if part["density"]:
            ends.append(part["density"])
        for piece in [part["piece"], *part["holes"]]:
            ends += piece["sides"] + piece["at"]
    return np.array(ends, float)


def sums(parts, x):
    """Mass and first moments at the numbers `x`."""
    mass, first, second, at = 0.0, np.zeros(3), np.zeros((3, 3)), 0
    for part in parts:
        rho = 1.0
        if part["density"]:
            rho, at = x[at], at + 1
        for sign, piece in [(1.0, part["piece"]), *[(-1.0, hole) for hole in part["holes"]]]:
            n = len(piece["sides"])
            volume, own, products = moments(piece["kind"], tuple(x[at : at + n]))
            place, turn = x[at + n : at + n + 3], piece["matrix"]
            at += n + 3
            own = turn @ own
            mass += sign * rho * volume
            first = first + sign * rho * (own + volume * place)
            across = np.outer(own, place)
            second = second + sign * rho * (
                turn @ products @ turn.T + across + across.T + volume * np.outer(place, place))
    return mass, first, second


def results(parts):
    ends = variables(parts)
    mass, first, second = sums(parts, ends.mean(axis=1))
    cg = first / mass
    inertia = None
    if all(part["piece"]["kind"] != "section" for part in parts):
        products = second - mass * np.outer(cg, cg)
        inertia = products.copy()
        for i in range(3):
            inertia[i, i] = products.trace() - products[i, i]
        inertia = inertia.tolist()
    return mass, cg, inertia


def search(rng, parts, of):
    """The largest `of(x)` found inside the box."""
    ends = variables(parts)
    low, wide = ends[:, 0], ends[:, 1] - ends[:, 0]
    value = lambda s: of(low + wide * s)
    free = np.flatnonzero(wide > 0)
    best, at = -math.inf, None
    for _ in range(25):
        s = rng.random(len(low))
        if (v := value(s)) > best:
            best, at = v, s
    for _ in range(4):
        here = value(at)
        slope = np.zeros(len(low))
        for i in free:
            step = at.copy()
            step[i] = step[i] + 1e-4 if step[i] < 0.5 else step[i] - 1e-4
            slope[i] = (value(step) - here) / (step[i] - at[i])
        corner = np.where(slope > 0, 1.0, 0.0)
        if (v := value(corner)) <= best + 1e-13:
            break
        best, at = v, corner
    for i in [*free, *free]:
        for end in (0.0, 0.5, 1.0):
            step = at.copy()
            step[i] = end
            if (v := value(step)) > best:
                best, at = v, step
    return best


def main():
    rng = np.random.default_rng(SEED)
    out, tried = [], 0
    while len(out) < COUNT:
        tried += 1
        banded = len(out) < BANDED
        parts = draw(rng, banded)
        mass, cg, inertia = results(parts)
        volumes_ok = all(
            sums([part], variables([part]).mean(axis=1))[0] > 0.3 * sums([{**part, "holes": []}], variables(
                [{**part, "holes": []}]).mean(axis=1))[0]
            for part in parts
        )
        walls_ok = all(
            piece["sides"][1][1] < piece["sides"][0][0]
            for part in parts for piece in [part["piece"], *part["holes"]] if piece["kind"] == "tube"
        )
        if not (volumes_ok and walls_ok):
            continue
        row = {"parts": parts, "mass": mass, "cg": list(cg), "inertia": inertia}
        if banded:
            row["mass_ends"] = [
                -search(rng, parts, lambda x: -sums(parts, x)[0]), search(rng, parts, lambda x: sums(parts, x)[0])]
            ratio = lambda x, k: (lambda m: m[1][k] / m[0])(sums(parts, x))
            row["cg_ends"] = [
                [-search(rng, parts, lambda x: -ratio(x, k)), search(rng, parts, lambda x: ratio(x, k))]
                for k in range(3)
            ]
            print(len(out), row["mass_ends"], row["cg_ends"], file=sys.stderr, flush=True)
        for part in parts:
            for piece in [part["piece"], *part["holes"]]:
                del piece["matrix"]
        out.append(row)
    text = {"seed": SEED, "drawn": tried, "takeoffs": out}
    text = json.loads(json.dumps(text), parse_float=lambda s: float(f"{float(s):.13g}"))
    with open("takeoff.json", "w", encoding="utf-8") as file:
        json.dump(text, file, separators=(",", ":"))
        file.write("\n")


if __name__ == "__main__":
    main()
