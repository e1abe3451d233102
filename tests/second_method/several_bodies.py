"""Rigid bodies in tiers under one or more fixed hooks, hung by legs that pull and cannot push; solved with scipy.

Unknowns, seven numbers a body: where its origin is (metres, world axes, z up) and a quaternion whose length does not
matter. Nothing is linearised. The energy is minimised from the declared attitude by L-BFGS in stages of growing
stiffness, then the slope is brought to nothing by `least_squares`. Statics are summed anew from the pulls.
"""

import numpy as np
from scipy import optimize

VERTICAL = np.array([0.0, 0.0, 1.0])


def rotation(q):
    w, x, y, z = q / np.linalg.norm(q)
    return np.array(
        [
            [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
            [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
            [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
        ]
    )


def rotation_slopes(q):
    """The rotation and its four derivatives in q."""
    n = np.linalg.norm(q)
    turn = rotation(q)
    out = []
    w, x, y, z = q / n
    by = np.array(
        [
            [[0, -z, y], [z, 0, -x], [-y, x, 0]],
            [[0, y, z], [y, -2 * x, -w], [z, w, -2 * x]],
            [[-2 * y, x, w], [x, 0, z], [-w, z, -2 * y]],
            [[-2 * z, -w, x], [w, -2 * z, y], [x, y, 0]],
        ]
    ) * 2.0
    unit = q / n
    for k in range(4):
        # Chain rule through q / |q|.
        lead = (np.eye(4)[k] - unit * unit[k]) / n
        out.append(np.einsum("a,aij->ij", lead, by))
    return turn, out


class Rig:
    def __init__(self, data):
        self.bodies = data["bodies"]
        self.hooks = [np.array(h, float) for h in data["hooks_m"]]
        self.legs = data["legs"]
        self.weights = np.array([b["weight_n"] for b in self.bodies])
        self.cgs = [np.array(b["cg_m"], float) for b in self.bodies]
        self.lengths = np.array([l["length_m"] for l in self.legs])
        self.stiffness = np.array([l["stiffness_n_per_m"] for l in self.legs])
        self.work = self.weights.sum()

    def end(self, end, places):
        if "hook" in end:
            return self.hooks[end["hook"]], None, None
        body, point = end["body"], np.array(end["at_m"], float)
        origin, turn, _ = places[body]
        return origin + turn @ point, body, point

    def places(self, x):
        all_ = []
        for b in range(len(self.bodies)):
            part = x[7 * b : 7 * b + 7]
            turn, slopes = rotation_slopes(part[3:])
            all_.append((part[:3], turn, slopes))
        return all_

    def energy(self, x, soft=1.0):
        places = self.places(x)
        value, slope = 0.0, np.zeros_like(x)

        def push(body, point, force):
            slope[7 * body : 7 * body + 3] += force
            for k in range(4):
                slope[7 * body + 3 + k] += force @ (places[body][2][k] @ point)

        for b, (origin, turn, _) in enumerate(places):
            value += self.weights[b] * (origin + turn @ self.cgs[b])[2]
            push(b, self.cgs[b], self.weights[b] * VERTICAL)
        for leg, data in enumerate(self.legs):
            above, upper, upper_point = self.end(data["upper"], places)
            below, lower, lower_point = self.end(data["lower"], places)
            along = above - below
            distance = np.linalg.norm(along)
            stretch = distance - self.lengths[leg]
            if stretch <= 0:
                continue
            k = self.stiffness[leg] * soft
            value += 0.5 * k * stretch**2
            pull = k * stretch * along / distance
            if upper is not None:
                push(upper, upper_point, pull)
            if lower is not None:
                push(lower, lower_point, -pull)
        # The length of a quaternion means nothing: it is held at one.
        for b in range(len(self.bodies)):
            q = x[7 * b + 3 : 7 * b + 7]
            value += 0.5 * self.work * (q @ q - 1) ** 2
            slope[7 * b + 3 : 7 * b + 7] += 2 * self.work * (q @ q - 1) * q
        return value / self.work, slope / self.work

    def start(self):
        """Each body in its declared turn, plumb below what carries it."""
        x = np.zeros(7 * len(self.bodies))
        placed = {}
        while len(placed) < len(self.bodies):
            for data in self.legs:
                lower, upper = data["lower"], data["upper"]
                body = lower.get("body")
                if body is None or body in placed or ("body" in upper and upper["body"] not in placed):
                    continue
                if "hook" in upper:
                    above = self.hooks[upper["hook"]]
                else:
                    origin, turn = placed[upper["body"]]
                    above = origin + turn @ np.array(upper["at_m"])
                angle = self.bodies[body]["turned_rad"]
                q = np.array([np.cos(angle / 2), 0, 0, np.sin(angle / 2)])
                turn = rotation(q)
                origin = above - data["length_m"] * VERTICAL - turn @ np.array(lower["at_m"])
                placed[body] = (origin, turn)
                x[7 * body : 7 * body + 3], x[7 * body + 3 : 7 * body + 7] = origin, q
        return x

    def solve(self):
        x = self.start()
        for soft in (1e-2, 1e-1, 1.0):
            for _ in range(3):
                found = optimize.minimize(
                    self.energy, x, args=(soft,), jac=True, method="L-BFGS-B",
                    options={"maxiter": 4000, "maxfun": 8000, "ftol": 1e-16, "gtol": 1e-10, "maxcor": 40},
                )
                x = found.x
        fine = optimize.least_squares(
            lambda y: self.energy(y)[1], x, method="trf", xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=400
        )
        return fine.x

    def read(self, x):
        places = self.places(x)
        tensions, sums = [], [[-w * VERTICAL, np.zeros(3)] for w in self.weights]
        for leg, data in enumerate(self.legs):
            above, upper, upper_point = self.end(data["upper"], places)
            below, lower, lower_point = self.end(data["lower"], places)
            along = above - below
            distance = np.linalg.norm(along)
            pull = max(0.0, self.stiffness[leg] * (distance - self.lengths[leg]))
            tensions.append(pull)
            for body, point, sign in ((upper, upper_point, -1), (lower, lower_point, 1)):
                if body is not None:
                    force = sign * pull * along / distance
                    arm = places[body][1] @ (point - self.cgs[body])
                    sums[body][0] = sums[body][0] + force
                    sums[body][1] = sums[body][1] + np.cross(arm, force)
        left = max(max(np.abs(f).max(), np.abs(m).max()) for f, m in sums) / self.work
        tilts = []
        for _, turn, _ in places:
            tilts.append(float(np.degrees(np.arctan2(np.hypot(turn[0, 2], turn[1, 2]), turn[2, 2]))))
        slack = [
            abs(self.stiffness[leg] * (np.linalg.norm(self.end(d["upper"], places)[0] - self.end(d["lower"], places)[0]) - self.lengths[leg]))
            for leg, d in enumerate(self.legs)
        ]
        return np.array(tensions), tilts, float(left), min(slack) / self.work
