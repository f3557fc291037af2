"""Writes the table of reference rears: leaf springs hung and seated otherwise, at rest under their load.

    python rears.py --out rears.csv

The main leaf is a curve of constant curvature and length, given by the direction in which it leaves
its fixed eye. What was measured makes its curvature, its two lengths and that direction by
`scipy.optimize.fsolve`. Hung on other bolts, the direction follows from the length of the shackle,
and the curvature from the least of potential energy: what the spring stores, which the measured
hangers and rate say, less the load times the height of the axle. The slope of the energy is had by
a complex step, so no derivative is written down; its zero by `scipy.optimize.brentq`.

x is from the fixed eye towards the shackle, z up, from the fixed eye as measured; millimetres, degrees, newtons.
"""

import argparse

import numpy as np
from scipy.optimize import brentq, fsolve

# Invented rears: shackles that hang, stand and lean both ways, springs flat, arched and bent back,
# eyes level and not, the axle on top of its springs and under them.
REARS = {
    # name: span, part, arch, eye_up, bolt_up, beyond, seat, rate, load
    "usual": (1250.0, 600.0, 45.0, 6.0, 85.0, 28.0, -62.0, 30.0, 2600.0),
    "standing shackle": (1250.0, 600.0, 45.0, 6.0, -70.0, 28.0, -62.0, 30.0, 2600.0),
    "leaning back": (1180.0, 560.0, 70.0, -12.0, 60.0, -45.0, 70.0, 24.0, 2300.0),
    "long arch": (1320.0, 640.0, 150.0, 20.0, 110.0, 35.0, 66.0, 19.0, 2100.0),
    "flat": (1200.0, 590.0, 1.0, 0.0, 80.0, 20.0, -58.0, 34.0, 3100.0),
    "bent back": (1230.0, 615.0, -25.0, 4.0, 90.0, 18.0, -60.0, 40.0, 3600.0),
    "middle bolt": (1100.0, 552.0, 60.0, -30.0, 55.0, 12.0, 55.0, 28.0, 2400.0),
    "short front": (1400.0, 520.0, 80.0, 10.0, 95.0, 40.0, -64.0, 22.0, 2500.0),
    "steep shackle": (1240.0, 600.0, 55.0, 5.0, 100.0, 3.0, -60.0, 31.0, 2700.0),
    "leaning shackle": (1240.0, 600.0, 55.0, 5.0, 45.0, 80.0, -60.0, 31.0, 2700.0),
    "long bed": (1520.0, 700.0, 60.0, 0.0, 115.0, 30.0, -72.0, 21.0, 2900.0),
    "short bed": (1050.0, 500.0, 40.0, 8.0, 70.0, 22.0, -55.0, 38.0, 2200.0),
    "long rear": (1300.0, 780.0, 65.0, -15.0, 90.0, 25.0, 62.0, 27.0, 2650.0),
    "under and standing": (1260.0, 610.0, 75.0, 12.0, -60.0, 15.0, 74.0, 25.0, 2450.0),
    "stiff": (1200.0, 560.0, 20.0, -5.0, 75.0, 24.0, -66.0, 95.0, 4800.0),
    "soft": (1280.0, 620.0, 95.0, 3.0, 88.0, 30.0, -58.0, 12.0, 1900.0),
    "eye high": (1230.0, 590.0, 50.0, 120.0, 205.0, 26.0, -61.0, 29.0, 2550.0),
    "eye low": (1230.0, 590.0, 50.0, -120.0, -30.0, 26.0, -61.0, 29.0, 2550.0),
    "seat at the leaf": (1250.0, 605.0, 48.0, 4.0, 82.0, 21.0, 10.0, 30.0, 2600.0),
    "short shackle": (1220.0, 600.0, 40.0, 2.0, 52.0, 14.0, -59.0, 33.0, 2750.0),
}
# shackle longer, fixed up, bolt up, bolt away, flatter, seat after (as a change of it), more load
CASES = [
    (25.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (-2.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (0.0, 30.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (0.0, 0.0, 25.0, 10.0, 0.0, 0.0, 0.0),
    (0.0, 0.0, 0.0, 0.0, 20.0, 0.0, 0.0),
    (0.0, 0.0, 0.0, 0.0, 0.0, -50.8, 0.0),
    (0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 900.0),
    (12.0, 5.0, 8.0, -6.0, 10.0, 25.4, 400.0),
]


def curve(start, bend, along, tangent):
    """Where a curve of constant bend is after so far, from a start, leaving at an angle."""
    if abs(bend) < 1e-9:
        # To third order: a nearly flat leaf.
        mid = tangent + bend * along / 2
        return start + along * (1 - (bend * along) ** 2 / 24) * np.array([np.cos(mid), np.sin(mid)])
    end = tangent + bend * along
    return start + np.array([np.sin(end) - np.sin(tangent), np.cos(tangent) - np.cos(end)]) / bend


def measured(span, part, arch, eye_up):
    """Curvature, both lengths and the tangent at the fixed eye."""

    def off(unknown):
        bend, length, to_bolt, tangent = unknown[0] / 1e3, unknown[1], unknown[2], unknown[3]
        zero = np.zeros(2)
        eye, bolt = curve(zero, bend, length, tangent), curve(zero, bend, to_bolt, tangent)
        line = eye / np.linalg.norm(eye)
        below = line[1] * bolt[0] - line[0] * bolt[1]
        return [np.linalg.norm(eye) - span, np.linalg.norm(bolt) - part, below - arch, eye[1] - eye_up]

    guess = [8e3 * arch / span**2, span, part, -4 * arch / span]
    found, _, status, message = fsolve(off, guess, xtol=1e-14, full_output=True)
    assert np.max(np.abs(off(found))) < 1e-9, (message, off(found))
    return found[0] / 1e3, found[1], found[2], found[3]


class OutOfReach(Exception):
    pass


class Hung:
    def __init__(self, leaf, fixed, hanger, shackle, hangs):
        self.length, self.to_bolt = leaf
        self.fixed, self.hanger, self.shackle, self.hangs = fixed, hanger, shackle, hangs

    def tangent(self, bend):
        """The direction in which the leaf leaves the fixed eye so that the shackle reaches."""
        free = curve(np.zeros(2), bend, self.length, 0.0)

        def eye(angle):
            return self.hanger + self.shackle * np.array([np.cos(angle), np.sin(angle)]) - self.fixed

        def off(angle, free=free.real):
            return eye(angle) @ eye(angle) - free @ free

        # The way in which the shackle hangs is the nearest to the measured one.
        step, reach = 0.01, 0
        while off(self.hangs - reach * step) * off(self.hangs) > 0 and off(self.hangs + reach * step) * off(self.hangs) > 0:
            reach += 1
            if reach > 320:
                raise OutOfReach
        is_below = off(self.hangs - reach * step) * off(self.hangs) <= 0
        ends = (-reach, 1 - reach) if is_below else (reach - 1, reach)
        found = self.hangs
        if reach:
            found = brentq(off, self.hangs + ends[0] * step, self.hangs + ends[1] * step, xtol=1e-16, rtol=1e-15)
        # What a step of the bend off the real numbers makes of it.
        found = found - 1j * off(found, free).imag / (off(found + 1e-30j).imag / 1e-30)
        end = eye(found)
        # Both point to the shackle, so their angles are those of their tangents, off the real numbers too.
        return np.arctan(end[1] / end[0]) - np.arctan(free[1] / free[0])

    def axle(self, bend, seat):
        tangent = self.tangent(bend)
        rise = tangent + bend * self.to_bolt
        return curve(self.fixed, bend, self.to_bolt, tangent) + seat * np.array([np.sin(rise), -np.cos(rise)]), rise


def solved(rear, case):
    span, part, arch, eye_up, bolt_up, beyond, seat, rate, load = rear
    longer, fixed_up, hanger_up, away, flatter, more_seat, more_load = case
    bend, length, to_bolt, tangent = measured(span, part, arch, eye_up)
    zero = np.zeros(2)
    eye = curve(zero, bend, length, tangent)
    hanger = np.array([eye[0] - beyond, bolt_up])
    shackle = np.hypot(beyond, eye[1] - bolt_up)
    leaf = (length, to_bolt)
    hangs = np.arctan2(eye[1] - bolt_up, beyond)
    old = Hung(leaf, zero, hanger, shackle, hangs)
    new = Hung(leaf, np.array([0.0, fixed_up]), hanger + [away, hanger_up], shackle + longer, hangs)
    shaped = bend
    if flatter:
        # As deep under a line between its ends as it should be, whichever way it points.
        def deep(at):
            end, bolt = curve(zero, at, length, 0.0), curve(zero, at, to_bolt, 0.0)
            line = end / np.linalg.norm(end)
            return line[1] * bolt[0] - line[0] * bolt[1] - (arch - flatter)

        shaped = brentq(deep, -1.5e-3, 1.5e-3, xtol=1e-18, rtol=1e-15)
    seats = (seat, seat + more_seat)
    rest = old.axle(shaped, seat)[0][1].real

    def slope(at):
        at = at + 1e-30j
        rise = old.axle(at, seats[0])[0][1] - rest
        stored = load * rise + rate / 2 * rise**2
        return (stored - (load + more_load) * new.axle(at, seats[1])[0][1]).imag / 1e-30

    # Downhill from where it was, to where that ends: the nearest least of energy. Any other place where
    # the slope is nothing is a summit, or beyond one.
    step = -2e-6 if slope(shaped) > 0 else 2e-6
    last = shaped
    while slope(last) * slope(last + step) > 0:
        last += step
    bracket = sorted((last, last + step))
    low, high = bracket
    found = brentq(slope, low, high, xtol=1e-18, rtol=1e-15)
    (before, rise_before), (after, rise_after) = old.axle(bend, seats[0]), new.axle(found, seats[1])
    end = curve(new.fixed, found, length, new.tangent(found).real)
    moved = (after - before).real
    return [moved[1], moved[0], np.degrees((rise_after - rise_before).real), *end]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--out", required=True)
    out = parser.parse_args().out
    given = ["span", "fixed_part", "arch", "eye_up", "bolt_up", "beyond", "seat"]
    given = [name + "_mm" for name in given] + ["rate_n_per_mm", "load_n"]
    laid = ["longer", "fixed_raised", "bolt_raised", "bolt_away", "flatter", "seat_more"]
    laid = [name + "_mm" for name in laid] + ["more_n"]
    said = ["axle_up_mm", "axle_away_mm", "rise_deg", "eye_x_mm", "eye_z_mm"]
    lines = [",".join(["rear", *given, *laid, *said])]
    for name, rear in REARS.items():
        for case in CASES:
            numbers = [f"{value}" for value in (*rear, *case)]
            lines.append(",".join([name, *numbers, *(f"{value:.8f}" for value in solved(rear, case))]))
    with open(out, "w", encoding="utf-8", newline="\n") as file:
        file.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
