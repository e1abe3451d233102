"""Random rigs of realistic size, by recipe. All numbers are drawn already rounded (millimetres, four
digits of stiffness), so that the data file holds exactly what was computed with."""

import numpy as np

GENERAL, SLACK, FLAT, HIGH, FALLING, NARROW, BALANCED = (
    "general",
    "slack",
    "flat",
    "high",
    "falling",
    "narrow",
    "balanced",
)


def digits(value, count):
    """`value` to `count` significant digits."""
    return float(f"{value:.{count - 1}e}")


def millimetres(values):
    return [round(float(v), 3) + 0.0 for v in values]  # + 0.0: no minus zero


def log_uniform(rng, low, high, size=None):
    return np.exp(rng.uniform(np.log(low), np.log(high), size))


def layout(rng, recipe):
    """Number of legs, hook height above the points' mean level, and points (n, 3) about that level."""
    number = int(rng.integers(4 if recipe == SLACK else 3, 9))
    if recipe == BALANCED:
        number = int(rng.choice([4, 6, 8]))
    length = log_uniform(rng, 1.3, 13.0)
    angle = {FLAT: (17, 31), NARROW: (76, 86), BALANCED: (84, 88)}.get(recipe, (40, 78))
    angle = np.radians(rng.uniform(*angle))
    radius, height = length * np.cos(angle), length * np.sin(angle)
    azimuth = 2 * np.pi * (np.arange(number) + rng.uniform()) / number
    if recipe == BALANCED:
        azimuth = 2 * np.pi * np.arange(number) / number
        jitter, rise = np.ones(number), np.zeros(number)
    else:
        azimuth = azimuth + rng.uniform(-0.35, 0.35, number) * 2 * np.pi / number
        jitter = rng.uniform(0.75, 1.2, number)
        rise = rng.uniform(-0.1, 0.1, number) * height
    points = np.stack([radius * jitter * np.cos(azimuth), radius * jitter * np.sin(azimuth), rise], axis=1)
    if recipe in (GENERAL, SLACK) and number == 4 and rng.uniform() < 0.6:
        a, b = radius * np.cos(azimuth[0]), radius * np.sin(azimuth[0])
        points = np.array([[a, b, 0], [-a, b, 0], [-a, -b, 0], [a, -b, 0]], float)
    return number, height, radius, points


def centre_of_gravity(rng, recipe, height, radius):
    """About the points' mean level and middle."""
    direction = rng.uniform(0, 2 * np.pi)
    off, up = rng.uniform(0, 0.3), rng.uniform(-0.8, -0.1)
    if recipe == HIGH:
        off, up = rng.uniform(0, 0.25), rng.uniform(-0.05, 0.45)
    elif recipe == SLACK:
        off = rng.uniform(0, 0.6)
    elif recipe == FALLING:
        off, up = rng.uniform(0.5, 1.1), rng.uniform(0.1, 1.15)
    elif recipe == NARROW:
        off, up = rng.uniform(0, 0.3), rng.uniform(0.1, 0.5)
    elif recipe == BALANCED:
        off, up = 0.0, rng.uniform(0.1, 0.5)
    return np.array([off * radius * np.cos(direction), off * radius * np.sin(direction), up * height])


def stretches(rng, recipe, number):
    """Stretch of each leg under an equal share of the weight, in parts of its length."""
    if recipe == BALANCED:
        return np.full(number, rng.uniform(0.008, 0.02))
    if recipe == NARROW:
        return np.full(number, log_uniform(rng, 0.0006, 0.015)) * rng.uniform(0.9, 1.1, number)
    kind = rng.integers(0, 3)
    if kind == 0:
        return np.full(number, log_uniform(rng, 0.0005, 0.01))
    if kind == 1:
        return log_uniform(rng, 0.0005, 0.012, number)
    # Two materials in one rig: chain or wire rope beside soft synthetic slings.
    return np.where(rng.uniform(size=number) < 0.5, log_uniform(rng, 0.0005, 0.001), rng.uniform(0.01, 0.016))


def draw(rng, recipe):
    """One rig in the form of the data file, without `id` and `expect`."""
    number, height, radius, points = layout(rng, recipe)
    cg = centre_of_gravity(rng, recipe, height, radius)
    lengths = np.linalg.norm(np.array([0, 0, height]) - points, axis=1)
    spread = {SLACK: (0.003, 0.02), BALANCED: (0.0, 0.0)}.get(recipe, (0.0, 0.008))
    if recipe == GENERAL and rng.uniform() < 0.3:
        spread = (0.0, 0.0)
    lengths = lengths * (1 + rng.uniform(-1, 1, number) * rng.uniform(*spread))
    weight = digits(log_uniform(rng, 5e3, 2e6), 4)
    stiffness = weight / number / (stretches(rng, recipe, number) * lengths)
    # The frame's origin is anywhere, so that nobody may lean on where it is.
    origin = rng.uniform(-1, 1, 3) * [2.0, 2.0, 1.0] if recipe != BALANCED else np.zeros(3)
    return {
        "weight_n": weight,
        "cg_m": millimetres(cg + origin),
        "legs": [
            {
                "point_m": millimetres(points[i] + origin),
                "length_m": round(float(lengths[i]), 3),
                "stiffness_n_per_m": digits(stiffness[i], 4),
            }
            for i in range(number)
        ],
    }
