"""Writes the table of reference leans: a rigid frame on two front corners, an anti-roll bar and two leaves.

    python leans.py --out leans.csv

A front corner is `corner.py`'s free knuckle, held at a height of its contact with the ground in place
of one of its wheel's centre, by `scipy.optimize.fsolve`. What the truck stores is a sum: each front
spring by its own movement (a bar's twist, a coil's length, a plain rate's rise), wheel and knuckle by
their height, the anti-roll bar by its twist, the leaves by how far their pads rise and fall, less the
load of the front at the heights of the frame over both contacts. Those two heights are where it is
least: `scipy.optimize.root` takes its slope, by differences of sixth order, to nothing, and all round
it there is more. A free spring is the one whose energy is level where the truck was measured. No rate
of a motion is written down anywhere.

Before the leans each corner stands alone, and the tires are as far apart as they then are.

x forward, y left, z up; millimetres, degrees, newtons. A lean is + where the left is low.
"""

import argparse

import numpy as np
from corner import MOST_RESIDUAL_MM, TURN_SCALE, UP, X_TOLERANCE, Corner, rotation
from scipy.optimize import fsolve, root

# An invented pickup's left front corner, and one that leans its arms and its wheels more.
TRUCKS = {
    "level": {
        "loaded_radius_mm": 312.0,
        "camber_deg": 0.0,
        "toe_deg": 0.0,
        "lower_front_mm": [430, 318, 261],
        "lower_rear_mm": [-8, 287, 256],
        "lower_ball_mm": [3, 655, 228],
        "upper_front_mm": [88, 404, 462],
        "upper_rear_mm": [-112, 406, 455],
        "upper_ball_mm": [-5, 617, 448],
        "wheel_centre_mm": [0, 702, 312],
        "tie_inner_mm": [-102, 324, 298],
        "tie_outer_mm": [-116, 634, 276],
    },
    "steep": {
        "loaded_radius_mm": 305.0,
        "camber_deg": 0.0,
        "toe_deg": 0.0,
        "lower_front_mm": [150, 300, 285],
        "lower_rear_mm": [-170, 280, 270],
        "lower_ball_mm": [5, 640, 222],
        "upper_front_mm": [90, 390, 440],
        "upper_rear_mm": [-110, 380, 450],
        "upper_ball_mm": [-20, 600, 470],
        "wheel_centre_mm": [0, 690, 305],
        "tie_inner_mm": [-140, 320, 300],
        "tie_outer_mm": [-130, 620, 268],
    },
}
LOAD_N, UNSPRUNG_N = 3900.0, 420.0
MODULUS = 79300.0
BAR_MM, BAR_LENGTH_MM, LEVER_MM = 25.4, 1090.0, 152.0
WIRE_MM, MEAN_MM, COILS = 15.5, 108.0, 7.0
SEATS = {"lower": [0.0, 500.0, 247.0], "body": [-5.0, 455.0, 487.0]}
RATE = 21.0
SOFT, STIFF = (24.0, 920.0, 1390.0), (46.0, 1080.0, 1450.0)
NONE, THIN, THICK = None, (19.0, 820.0, 230.0, 190.0), (28.0, 700.0, 180.0, 260.0)
# truck, spring, (leaf rate, springs apart, tires apart), (bar, length, lever, link),
# what is done at the left: push of the anchor's bolt, spacer on the coil, radius of the tire; and at the right
CASES = [
    ("level", "torsion_bar", SOFT, NONE, (10.0, 0.0)),
    ("level", "torsion_bar", SOFT, NONE, (-10.0, 0.0)),
    ("level", "torsion_bar", SOFT, NONE, (0.0, 10.0)),
    ("level", "torsion_bar", SOFT, THIN, (10.0, 0.0)),
    ("level", "torsion_bar", STIFF, THIN, (-10.0, 0.0)),
    ("level", "torsion_bar", STIFF, THICK, (0.0, -10.0)),
    ("level", "torsion_bar", STIFF, THICK, (6.0, -4.0)),
    ("level", "torsion_bar", SOFT, THICK, (-8.0, -3.0)),
    ("steep", "torsion_bar", SOFT, NONE, (-10.0, 0.0)),
    ("steep", "torsion_bar", SOFT, THIN, (0.0, 10.0)),
    ("steep", "torsion_bar", STIFF, THICK, (4.0, 0.0)),
    ("level", "coil", SOFT, NONE, (12.0, 0.0)),
    ("level", "coil", STIFF, THIN, (0.0, 12.0)),
    ("level", "coil", SOFT, THICK, (-9.0, 0.0)),
    ("level", "wheel_rate", SOFT, NONE, (-12.0, 0.0)),
    ("level", "wheel_rate", STIFF, THICK, (0.0, -12.0)),
    ("steep", "wheel_rate", SOFT, THIN, (9.0, 0.0)),
    ("steep", "wheel_rate", STIFF, NONE, (0.0, 9.0)),
]
NAMES = ["left_down", "right_down", "left_alone", "right_alone"]
FORCES = ["left_more", "right_more", "rear_left_more"]


class Standing(Corner):
    """A corner whose contact is held at a height, and what it stores there; its own side is the left."""

    def __init__(self, name, spring, done, link):
        super().__init__(TRUCKS[name])
        self.kind, self.link = spring, link
        pivots = self.point["lower_front"], self.point["lower_rear"]
        self.pivot = (pivots[0] + pivots[1]) / 2
        self.axle = (pivots[0] - pivots[1]) / np.linalg.norm(pivots[0] - pivots[1])
        out = self.point["lower_ball"] - self.pivot
        out = out - self.axle * (out @ self.axle)
        self.out = out / np.linalg.norm(out)
        self.preload, self.moved = 0.0, 0.0
        self.known = {}
        # Level where it was measured: what the free spring then has to be.
        self.preload = -slope_at(self.loaded, 0.0) / slope_at(self.movement, 0.0)
        if spring == "torsion_bar":
            self.moved = np.arctan2(done, LEVER_MM)
        if spring == "coil":
            self.moved = done
        if spring == "wheel_rate":
            self.radius += done
        self.known = {}

    def residual(self, unknown, height, link):
        gaps = super().residual(unknown, 0.0, np.zeros(3))
        spin = rotation(unknown[3:] / TURN_SCALE) @ self.spin
        down = (spin * spin[2] - UP) / np.hypot(spin[0], spin[1])
        gaps[5] = unknown[2] + self.radius * down[2] - height
        return gaps

    def pose(self, height):
        if height not in self.known:
            self.known[height] = self.closed(height)
        return self.known[height]

    def closed(self, height):
        found = fsolve(self.residual, self.at_rest(), args=(height, None), xtol=X_TOLERANCE)
        worst = np.abs(self.residual(found, height, None)).max()
        if not worst < MOST_RESIDUAL_MM:
            raise ArithmeticError(f"residual {worst:.3g} mm at {height}")
        return found

    def on_arm(self, found, point):
        """Where a point of the lower arm is."""
        ball = found[:3] + rotation(found[3:] / TURN_SCALE) @ self.knuckle[0]
        turn = self.turn_of_lower_arm(ball)
        return self.pivot + rotation(self.axle * turn) @ (point - self.pivot)

    def sprung(self, found):
        """The spring's movement that stores more: a turn of the arm, a coil shorter, the wheel up."""
        if self.kind == "torsion_bar":
            return self.turn_of_lower_arm(found[:3] + rotation(found[3:] / TURN_SCALE) @ self.knuckle[0])
        if self.kind == "coil":
            body = np.array(SEATS["body"])
            seat = self.on_arm(found, np.array(SEATS["lower"]))
            was = np.linalg.norm(np.array(SEATS["lower"]) - body)
            return was - np.linalg.norm(seat - body)
        return found[2] - self.wheel_centre[2]

    def movement(self, height):
        return self.sprung(self.pose(height))

    def rate(self):
        if self.kind == "torsion_bar":
            return np.pi * BAR_MM**4 * MODULUS / (32 * BAR_LENGTH_MM)
        if self.kind == "coil":
            return MODULUS * WIRE_MM**4 / (8 * MEAN_MM**3 * COILS)
        return RATE

    def stored(self, height):
        """Spring, and what does not hang on it, at a height of the contact."""
        found = self.pose(height)
        moved = self.sprung(found) + self.moved
        return self.preload * moved + self.rate() / 2 * moved**2 + UNSPRUNG_N * found[2]

    def loaded(self, height):
        return self.stored(height) - LOAD_N * height

    def link_height(self, height):
        if self.link is None:
            return 0.0
        point = self.pivot + self.out * self.link
        return self.on_arm(self.pose(height), point)[2] - point[2]

    def alone(self):
        """The height at which it stands with no frame to help it."""
        return level(lambda at: [slope_at(self.loaded, at[0])], [0.0])[0]

    def contact_y(self, height):
        found = self.pose(height)
        spin = rotation(found[3:] / TURN_SCALE) @ self.spin
        down = (spin * spin[2] - UP) / np.hypot(spin[0], spin[1])
        return found[1] + self.radius * down[1]


def slope_at(energy, at, step=0.4):
    """Its slope, by six values: what is left out is of the seventh derivative."""
    weights = {1: 3 / 4, 2: -3 / 20, 3: 1 / 60}
    return sum(w * (energy(at + k * step) - energy(at - k * step)) for k, w in weights.items()) / step


def level(push, start):
    """Where the slope of an energy is nothing; its own slope is had by differences of a millimetre."""

    def jac(at):
        each = np.eye(len(at)) / 2
        return np.array([np.subtract(push(at + step), push(at - step)) for step in each]).T

    found = root(push, start, jac=jac, tol=1e-13).x
    assert np.abs(push(found)).max() < 1e-5, push(found)
    return found


def solved(case):
    name, spring, (leaf, apart, tires), bar, done = case
    sides = [Standing(name, spring, at, bar[3] if bar else None) for at in done]
    alone = [side.alone() for side in sides]
    track = sum(side.contact_y(height) for side, height in zip(sides, alone))
    twist = 0.0 if bar is None else np.pi * bar[0] ** 4 * MODULUS / (32 * bar[1])

    def fronts(heights):
        stored = sum(side.stored(height) for side, height in zip(sides, heights))
        if bar:
            links = [side.link_height(height) for side, height in zip(sides, heights)]
            stored += twist / 2 * ((links[0] - links[1]) / bar[2]) ** 2
        return stored

    def pads(slope):
        return sum(leaf / 2 * (side * apart / 2 * slope) ** 2 for side in (1, -1))

    def whole(left, right):
        return fronts((left, right)) + pads((left - right) / track) - LOAD_N * (left + right)

    def push(heights):
        left, right = heights
        return [slope_at(lambda at: whole(at, right), left), slope_at(lambda at: whole(left, at), right)]

    left, right = level(push, alone)
    slope, least = (left - right) / track, whole(left, right)
    for away in [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1)]:
        assert whole(left + away[0], right + away[1]) > least, case
    more = [
        slope_at(lambda at: fronts((at, right)), left) - LOAD_N,
        slope_at(lambda at: fronts((left, at)), right) - LOAD_N,
    ]
    # Of a couple that far apart, what the leaves hold.
    rear = slope_at(pads, slope, 1e-3) / tires
    return [left, right, *alone, np.degrees(np.arctan(slope)), *more, rear]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--out", required=True)
    out = parser.parse_args().out
    given = ["truck", "spring", "leaf_n_per_mm", "springs_apart_mm", "tires_apart_mm"]
    given += [f"anti_roll_{what}_mm" for what in ("diameter", "length", "lever", "link")]
    given += ["left_mm", "right_mm"]
    said = [name + "_mm" for name in NAMES] + ["lean_deg"] + [name + "_n" for name in FORCES]
    lines = [",".join([*given, *said])]
    for case in CASES:
        name, spring, rear, bar, done = case
        numbers = [f"{value}" for value in (*rear, *(bar or (0.0,) * 4), *done)]
        lines.append(",".join([name, spring, *numbers, *(f"{value:.6f}" for value in solved(case))]))
    with open(out, "w", encoding="utf-8", newline="\n") as file:
        file.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
