"""Writes the table of reference fits: points that agree best with a tape and with two gauges.

    python fits.py --out fits.csv

The balls of the demo's left corner, each known to a quarter of an inch either way, of two standard
deviations. Caster and inclination were read to a tenth of a degree. `scipy.optimize.least_squares`
minimises the squares of what each number and each reading is off, in its own deviations; caster and
inclination are those of the line through the two balls.
"""

import argparse

import numpy as np
from scipy.optimize import least_squares

# x, y, z of the lower ball, then of the upper; millimetres.
MEASURED = np.array([3.0, 655.0, 228.0, -5.0, 617.0, 448.0])
BALL_MM = 6.35 / 2.0
GAUGE = np.radians(0.1) / 2.0
CASTERS_DEG = [-2.5, 0.0, 1.5, 3.5, 5.5, 8.0]
INCLINATIONS_DEG = [6.0, 9.8, 12.5]
NAMES = [f"{ball}_{axis}" for ball in ("lower_ball", "upper_ball") for axis in "xyz"]


def angles(points):
    x, y, z = points[3:] - points[:3]
    return np.array([np.arctan2(-x, z), np.arctan2(-y, z)])


def fitted(read):
    def off(scaled):
        return np.concatenate([scaled, (read - angles(MEASURED + BALL_MM * scaled)) / GAUGE])

    found = least_squares(off, np.zeros(6), jac="3-point", method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert found.success, found.message
    return MEASURED + BALL_MM * found.x


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--out", required=True)
    out = parser.parse_args().out
    lines = [",".join(["caster_deg", "inclination_deg", *(name + "_mm" for name in NAMES)])]
    for caster in CASTERS_DEG:
        for inclination in INCLINATIONS_DEG:
            points = fitted(np.radians([caster, inclination]))
            # Where a sum of squares is least is known to the root of what the sum itself is.
            lines.append(",".join([f"{caster}", f"{inclination}", *(f"{value:.7f}" for value in points)]))
    with open(out, "w", encoding="utf-8", newline="\n") as file:
        file.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
