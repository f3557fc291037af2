"""One left front corner solved numerically: a second opinion on the closed form.

The knuckle is a free rigid body of six unknowns, three for the place of the
wheel centre and three for its turn. Six conditions hold it: the distance of
each ball to each of its arm's two pivots (four), the tie rod's length, and the
height of the wheel centre. Nothing here knows of circles, roots or branches:
the solution is followed in small steps from the measured state, whose turn is
zero by definition.

Axes: x forward, y left, z up; millimetres; degrees only where a name says so.
"""

import json
from pathlib import Path

import numpy as np
from scipy.optimize import fsolve

# A millimetre and a hundredth of a radian move a knuckle's points about alike.
TURN_SCALE = 100.0
X_TOLERANCE = 1e-13
MOST_RESIDUAL_MM = 1e-10
UP = np.array([0.0, 0.0, 1.0])


def trucks():
    return json.loads(Path(__file__).with_name("trucks.json").read_text("utf-8"))


def rotation(turn):
    """The matrix of a rotation vector (Rodrigues)."""
    angle = np.sqrt(turn @ turn)
    x, y, z = turn
    skew = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    # sin(a)/a and (1 - cos(a))/a^2, both smooth through zero.
    first = np.sinc(angle / np.pi)
    second = np.sinc(angle / (2.0 * np.pi)) ** 2 / 2.0
    return np.eye(3) + first * skew + second * (skew @ skew)


class Corner:
    def __init__(self, truck):
        point = {
            key[: -len("_mm")]: np.array(value, dtype=float)
            for key, value in truck.items()
            if isinstance(value, list)
        }
        self.radius = truck["loaded_radius_mm"]
        self.point = point
        self.wheel_centre = point["wheel_centre"]
        # Of the knuckle, from the wheel centre, in the measured state.
        self.knuckle = np.array(
            [point[name] - self.wheel_centre for name in ("lower_ball", "upper_ball", "tie_outer")]
        )
        # The outboard direction of the spin axis: down with the top out, forward with the front in.
        camber, toe = np.radians([truck["camber_deg"], truck["toe_deg"]])
        level = np.array([np.sin(toe), np.cos(toe), 0.0])
        self.spin = np.cos(camber) * level - np.sin(camber) * UP
        self.anchors = np.array(
            [
                point[name]
                for name in ("lower_front", "lower_rear", "upper_front", "upper_rear", "tie_inner")
            ]
        )
        self.ends = [0, 0, 1, 1, 2]
        self.lengths = self.reaches(self.wheel_centre, np.eye(3), np.zeros(3))

    def reaches(self, place, matrix, link):
        """The five distances between knuckle and body."""
        moved = place + self.knuckle @ matrix.T
        between = moved[self.ends] - self.anchors
        between[4] -= link
        return np.sqrt(np.einsum("ij,ij->i", between, between))

    def residual(self, unknown, travel, link):
        place = unknown[:3]
        gaps = np.empty(6)
        gaps[:5] = self.reaches(place, rotation(unknown[3:] / TURN_SCALE), link) - self.lengths
        gaps[5] = place[2] - self.wheel_centre[2] - travel
        return gaps

    def at_rest(self):
        return np.concatenate([self.wheel_centre, np.zeros(3)])

    def solve(self, start, travel, link):
        """The six unknowns at a travel and a displacement of the inner tie-rod end."""
        found = fsolve(self.residual, start, args=(travel, link), xtol=X_TOLERANCE)
        worst = np.abs(self.residual(found, travel, link)).max()
        if not worst < MOST_RESIDUAL_MM:
            raise ArithmeticError(f"residual {worst:.3g} mm at travel {travel}, link {link}")
        return found

    def read(self, unknown):
        """What a gauge would read, by name with the unit in it."""
        place, matrix = unknown[:3], rotation(unknown[3:] / TURN_SCALE)
        lower, upper, tie = place + self.knuckle @ matrix.T
        spin = matrix @ self.spin
        # The wheel's plane cut level: forward, and square to it in the plane, down.
        forward = np.cross(spin, UP)
        forward /= np.sqrt(forward @ forward)
        down = np.cross(spin, forward)
        outboard = np.cross(UP, forward)
        contact = place + self.radius * down
        axis = upper - lower
        foot = lower + axis * (contact[2] - lower[2]) / axis[2]
        return {
            "turn_deg": np.degrees(self.turn_of_lower_arm(lower)),
            **named("lower_ball", lower),
            **named("upper_ball", upper),
            **named("tie_outer", tie),
            **named("wheel_centre", place),
            "camber_deg": np.degrees(np.arcsin(-spin[2])),
            "toe_deg": np.degrees(np.arctan2(-forward[1], forward[0])),
            "caster_deg": np.degrees(np.arctan(-axis[0] / axis[2])),
            "inclination_deg": np.degrees(np.arctan(-axis[1] / axis[2])),
            "scrub_radius_mm": (contact - foot) @ outboard,
            "trail_mm": (foot - contact) @ forward,
            **named("contact", contact),
        }

    def turn_of_lower_arm(self, ball):
        """The arm's turn about its pivots from the measured state, + up at the ball."""
        front, rear = self.point["lower_front"], self.point["lower_rear"]
        axis = (front - rear) / np.linalg.norm(front - rear)
        was = self.point["lower_ball"] - rear
        now = ball - rear
        was, now = was - axis * (was @ axis), now - axis * (now @ axis)
        return np.arctan2(axis @ np.cross(was, now), was @ now)


def named(name, point):
    return {f"{name}_{axis}_mm": value for axis, value in zip("xyz", point)}
