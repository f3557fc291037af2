"""Writes the table of reference poses: every truck over travel and steer.

    python solve.py --out poses.csv
"""

import argparse

import numpy as np

from corner import Corner, trucks

TRAVELS_MM = [-60, -45, -30, -15, 0, 15, 30, 45, 60]
LINKS_MM = [-40, -20, 0, 20, 40]
# The solution is followed in steps no longer than this.
STEP_MM = 5.0


def link_displacement(along_y, radius):
    """A rack moves along y alone; a relay rod swings on arms of `radius` that point back."""
    swing = 0.0 if radius is None else radius - np.sqrt(radius**2 - along_y**2)
    # Rounded to what the table shows, so that its reader starts from the same number.
    return np.array([round(swing, 6), float(along_y), 0.0])


def follow(corner, unknown, begin, end):
    """The unknowns at `end`, from those at `begin`; both are (travel, link)."""
    way = max(abs(end[0] - begin[0]), np.abs(end[1] - begin[1]).max())
    steps = max(1, int(np.ceil(way / STEP_MM)))
    for step in range(1, steps + 1):
        part = step / steps
        travel = begin[0] + part * (end[0] - begin[0])
        unknown = corner.solve(unknown, travel, begin[1] + part * (end[1] - begin[1]))
    return unknown


def rows(truck):
    corner = Corner(truck)
    still = np.zeros(3)
    for along_y in LINKS_MM:
        link = link_displacement(along_y, truck["link_radius_mm"])
        steered = follow(corner, corner.at_rest(), (0.0, still), (0.0, link))
        for travel in TRAVELS_MM:
            unknown = follow(corner, steered, (0.0, link), (float(travel), link))
            head = dict(zip(["link_x_mm", "link_y_mm", "link_z_mm"], link))
            yield {"travel_mm": float(travel), **head, **corner.read(unknown)}


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--out", required=True, help="the file to write")
    out = parser.parse_args().out
    lines = []
    for truck in trucks():
        for row in rows(truck):
            if not lines:
                lines.append(",".join(["truck", *row]))
            # Minus nothing is nothing: the text must not hang on a rounding's sign.
            numbers = [f"{value:.11f}" for value in row.values()]
            zero = f"{0.0:.11f}"
            numbers = [zero if text == "-" + zero else text for text in numbers]
            lines.append(",".join([truck["name"], *numbers]))
    with open(out, "w", encoding="utf-8", newline="\n") as file:
        file.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
