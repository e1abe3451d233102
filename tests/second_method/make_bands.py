"""Writes hanging_bands.json: rigs of hanging.json with a band on every number, and the largest tension that
each leg can get anywhere within the bands. Searched by CMA-ES (the package `cma`), not by scipy."""

import json
import pathlib
import platform
import sys
import time

import cma
import numpy as np

import hook_in_body
import suspended_body
from draw_rigs import digits
from make_hanging import HERE, write
from suspended_body import Rig

SEED = 20_262
WANTED = 50
POPULATION = 20
GENERATIONS = 300
MORE_SEARCHES = 3
SAME = 1e-6  # of the weight
ALL_CORNERS_UP_TO = 16  # free numbers; more than that, as many corners are tried as this would have
TOGETHER = 4096  # rests solved in one go
NOTE = (
    "Rigs of hanging.json, each number free within its band and independent of the others: the largest "
    "tension of each leg over the whole box, found by CMA-ES from several starts and by trying corners (all of "
    "them where all_corners_tried), at least two searches agreeing to 1e-6 of weight, and where. A search from "
    "inside can only be too low: a true maximum may be higher, never lower. corner says whether every number "
    "stands at an end of its band there (numbers that do not matter are put at an end). starts_apart is by how "
    "much the poorer of two free searches stayed below the best of all, in parts of weight: large where a "
    "single climb is easily caught. No point seen in any box rolls over."
)


class Unfit(Exception):
    """Somewhere in the box the rig rolls over, or nearly: a largest tension would mean nothing."""


class Box:
    """The bands of a rig as a cube: a point of it is a row of numbers from 0 to 1."""

    def __init__(self, bands):
        self.legs = len(bands["length_m"])
        rows = [bands["weight_n"], *bands["cg_m"], *bands["length_m"], *bands["stiffness_n_per_m"]]
        self.low, self.high = np.array(rows, float).T
        self.free = self.high > self.low

    def numbers(self, cube):
        """(b, free) in [0, 1] -> (b, all) in N, m and N/m; the ends exactly."""
        part = np.zeros((len(cube), len(self.low)))
        part[:, self.free] = cube
        inside = self.low + part * (self.high - self.low)
        return np.where(part == 1, self.high, inside)

    def batch(self, points, numbers):
        n = self.legs
        return hook_in_body.Batch(
            numbers[:, 0],
            numbers[:, 1:4],
            np.tile(points, (len(numbers), 1, 1)),
            numbers[:, 4 : 4 + n],
            numbers[:, 4 + n :],
        )


class Search:
    """Signed tensions over one rig's box."""

    def __init__(self, rig, box):
        self.rig, self.box = rig, box
        one = hook_in_body.Batch.repeat(rig, 1)
        self.hook, _, _ = hook_in_body.turn_slowly(one, hook_in_body.cap([0.0], 1))
        self.evaluations = 0

    def signed(self, numbers):
        """stiffness * (distance - length), (b, n): the tension, or how far a slack leg is from one."""
        batch = self.box.batch(self.rig.points, numbers)
        hook, left = hook_in_body.settle(batch, np.tile(self.hook, (len(numbers), 1)))
        self.evaluations += len(numbers)
        if left.max() > 1e-9:
            raise Unfit("does not come to rest")
        if hook_in_body.stable(batch, hook).min() < 2e-3 or hook_in_body.tilt_deg(batch, hook).max() > 45:
            raise Unfit("nearly rolls over")
        _, distances, _ = hook_in_body.springs(batch, hook)
        return batch.stiffnesses * (distances - batch.lengths)

    def of(self, cube):
        return self.signed(self.box.numbers(cube))

    def climb_corners(self, leg, cube):
        """From `cube`, move one number at a time to an end of its band as long as that helps."""
        best = float(self.of(cube[None])[0, leg])
        while True:
            tries = np.tile(cube, (2 * len(cube), 1))
            index = np.arange(len(cube))
            tries[index, index], tries[len(cube) + index, index] = 0.0, 1.0
            reached = self.of(tries)[:, leg]
            top = int(np.argmax(reached))
            if reached[top] <= best + 1e-13 * self.rig.weight:
                return cube, best
            cube, best = tries[top], float(reached[top])

    def evolve(self, starts, width, seed):
        """CMA-ES in step for each of `starts` {leg: cube}; then corners as far as they help. Gives
        {leg: (cube, tension)}."""
        options = {"bounds": [0, 1], "popsize": POPULATION, "verbose": -9, "tolfun": 1e-10, "tolx": 1e-8}
        runs = {
            leg: cma.CMAEvolutionStrategy(start, width, {**options, "seed": seed + leg})
            for leg, start in starts.items()
        }
        for _ in range(GENERATIONS):
            going = [leg for leg, run in runs.items() if not run.stop()]
            if not going:
                break
            asked = [np.array(runs[leg].ask()) for leg in going]
            reached = self.of(np.concatenate(asked)).reshape(len(going), POPULATION, -1)
            for leg, cubes, values in zip(going, asked, reached):
                runs[leg].tell(list(cubes), list(-values[:, leg] / self.rig.weight))
        ends = {leg: np.clip(run.result.xbest, 0, 1) for leg, run in runs.items()}
        return {leg: self.climb_corners(leg, cube) for leg, cube in ends.items()}

    def best_corners(self, rng):
        """The best corner for each leg, and whether all were tried."""
        size, number = int(self.box.free.sum()), 2**ALL_CORNERS_UP_TO
        everything = size <= ALL_CORNERS_UP_TO
        best, tops = None, None
        for start in range(0, 2**size if everything else number, TOGETHER):
            if everything:
                index = np.arange(start, min(start + TOGETHER, 2**size))
                cubes = (index[:, None] >> np.arange(size) & 1).astype(float)
            else:
                cubes = (rng.uniform(size=(TOGETHER, size)) < 0.5).astype(float)
            signed = self.of(cubes)
            where = np.argmax(signed, axis=0)
            reached = signed[where, np.arange(self.box.legs)]
            if best is None:
                best, tops = cubes[where], reached
            best = np.where((reached > tops)[:, None], cubes[where], best)
            tops = np.maximum(tops, reached)
        return list(best), everything

    def snap(self, leg, cube, best):
        """Numbers that do not matter go to an end of their band: what stays inside then matters."""
        for index in np.flatnonzero((cube > 0) & (cube < 1)):
            tries = np.tile(cube, (2, 1))
            tries[0, index], tries[1, index] = np.round(cube[index]), 1 - np.round(cube[index])
            reached = self.of(tries)[:, leg]
            for trial, value in zip(tries, reached):
                if value >= best - 1e-13 * self.rig.weight:
                    cube, best = trial, max(best, float(value))
                    break
        return cube

    def maxima(self, rng):
        """Best cube of each leg, by how much the first two free searches differed from it in parts of
        weight, and whether every corner of the box was tried."""
        size, legs = int(self.box.free.sum()), range(self.box.legs)
        # Corners first: they also find a box that rolls over before time is spent on it.
        corners, all_of_them = self.best_corners(rng)

        def anywhere(which, width):
            starts = {leg: rng.uniform(size=size) for leg in which}
            return self.evolve(starts, width, int(rng.integers(1, 2**30)))

        middle = {leg: np.full(size, 0.5) for leg in legs}
        found = [self.evolve(middle, 0.3, int(rng.integers(1, 2**30))), anywhere(legs, 0.5)]
        found.append({leg: self.climb_corners(leg, cube) for leg, cube in enumerate(corners)})
        for _ in range(MORE_SEARCHES):
            doubtful = [leg for leg in legs if not self.confirmed(found, leg)]
            if not doubtful:
                break
            found.append(anywhere(doubtful, 0.4))
        if not all(self.confirmed(found, leg) for leg in legs):
            raise Unfit("no two searches agree on the largest tension")
        tops = [self.best(found, leg) for leg in legs]
        apart = max(max(tops[leg][1], 0) - max(run[leg][1], 0) for run in found[:2] for leg in legs)
        return [self.snap(leg, *tops[leg]) for leg in legs], apart / self.rig.weight, all_of_them

    @staticmethod
    def best(found, leg):
        return max((run[leg] for run in found if leg in run), key=lambda top: top[1])

    def confirmed(self, found, leg):
        """Two searches from different starts ended at the best tension."""
        least = max(self.best(found, leg)[1], 0) - SAME * self.rig.weight
        return sum(max(run[leg][1], 0) >= least for run in found if leg in run) >= 2


def bands_for(rng, data):
    """Random bands of the sizes met in practice (invented), already rounded."""

    def around(value, part, count):
        return [digits(value * (1 - part), count), digits(value * (1 + part), count)]

    def within(value, metres):
        return [round(value - metres, 3), round(value + metres, 3)]

    soft = float(rng.choice([0.0, 0.05, 0.1, 0.2]))
    return {
        "weight_n": around(data["weight_n"], rng.integers(2, 11) / 100, 6),
        "cg_m": [within(value, rng.integers(20, 101) / 1000) for value in data["cg_m"]],
        "length_m": [within(leg["length_m"], rng.integers(5, 26) / 1000) for leg in data["legs"]],
        "stiffness_n_per_m": [around(leg["stiffness_n_per_m"], soft, 6) for leg in data["legs"]],
    }


def place(search, leg, cube):
    """The place of a leg's maximum with ten digits, and its tension exactly there."""
    box, n = search.box, search.box.legs
    free = np.array([digits(value, 10) for value in box.numbers(cube[None])[0]])
    numbers = np.clip(free, box.low, box.high)
    tension = max(0.0, float(search.signed(numbers[None])[0, leg]))
    check_by_scipy(search, leg, numbers, tension)
    values = [float(value) for value in numbers]
    at = {
        "corner": bool(np.all((numbers == box.low) | (numbers == box.high))),
        "weight_n": values[0],
        "cg_m": values[1:4],
        "length_m": values[4 : 4 + n],
        "stiffness_n_per_m": values[4 + n :],
    }
    return digits(tension, 10) if tension > 0 else 0, at


def check_by_scipy(search, leg, numbers, tension):
    """The same tension from as installed, downhill by suspended_body: no other rest was taken."""
    n = search.box.legs
    rig = Rig(numbers[0], numbers[1:4], search.rig.points, numbers[4 : 4 + n], numbers[4 + n :])
    pose, _ = suspended_body.walk_downhill(rig, suspended_body.as_installed(rig))
    other = suspended_body.legs_at(rig, suspended_body.polish(rig, pose))[2][leg]
    if abs(other - tension) > 1e-7 * rig.weight:
        raise Unfit(f"scipy finds another rest: {other:.6g} against {tension:.6g} N")


def order(rigs, rng):
    """Candidates in turn from each class and the rest, so that every class is among the first."""
    groups = {}
    for data in rigs:
        if data["expect"]["equilibrium"] and data["expect"]["tilt_deg"] < 25:
            groups.setdefault(tuple(data["classes"]), []).append(data)
    heaps = [list(rng.permutation(len(group))) for group in groups.values()]
    while any(heaps):
        for group, heap in zip(groups.values(), heaps):
            if heap:
                yield group[heap.pop()]


def main(wanted=WANTED):
    rng = np.random.default_rng(SEED)
    rigs = json.loads((HERE / "hanging.json").read_text(encoding="utf-8"))["rigs"]
    made_by = {"python": platform.python_version(), "numpy": np.__version__, "cma": cma.__version__.split()[0]}
    head = {"note": NOTE, "made_by": {**made_by, "seed": SEED}}
    target = HERE / "hanging_bands.json" if wanted >= WANTED else pathlib.Path("/dev/null")
    started, done, evaluations = time.monotonic(), [], 0
    for data in order(rigs, rng):
        if len(done) == wanted:
            break
        bands = bands_for(rng, data)
        search = Search(Rig.from_json(data), Box(bands))
        try:
            best, apart, all_corners = search.maxima(rng)
            tops = [place(search, leg, cube) for leg, cube in enumerate(best)]
        except Unfit as reason:
            print(f"{data['id']}: left out, {reason}", flush=True)
            continue
        evaluations += search.evaluations
        rig = {key: data[key] for key in ("id", "classes", "weight_n", "cg_m", "legs")}
        rig |= {"bands": bands, "expect_max_tension_n": [top for top, _ in tops]}
        rig |= {"all_corners_tried": all_corners, "starts_apart": digits(max(apart, 0.0), 2)}
        done.append({**rig, "at": [at for _, at in tops]})
        head["counts"] = {"rigs": len(done), "legs": sum(len(one["legs"]) for one in done)}
        head["counts"]["maxima_inside"] = sum(not at["corner"] for one in done for at in one["at"])
        write(target, head, done)
        spent = time.monotonic() - started
        print(f"{spent:6.1f} s {data['id']} {len(data['legs'])} legs, apart {apart:.1e}", flush=True)
    print(head["counts"], f"{evaluations} rests solved")
    assert len(done) == wanted


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else WANTED)
