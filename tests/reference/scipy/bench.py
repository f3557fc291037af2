"""Times a travel sweep of 61 poses by `fsolve`, each started from its neighbour, read out in full.

Prints one line with the median of five.
"""

import statistics
import time

import numpy as np

from corner import Corner, trucks

POSES = 61


def sweep(corner):
    unknown = corner.at_rest()
    still = np.zeros(3)
    for travel in np.linspace(-60.0, 60.0, POSES):
        unknown = corner.solve(unknown, travel, still)
        corner.read(unknown)


def main():
    corner = Corner(trucks()[0])
    sweep(corner)
    seconds = []
    for _ in range(5):
        begin = time.perf_counter()
        sweep(corner)
        seconds.append(time.perf_counter() - begin)
    middle = statistics.median(seconds)
    print(f"scipy fsolve: sweep of {POSES} poses {middle * 1e3:.2f} ms, {middle / POSES * 1e9:.0f} ns a pose")


if __name__ == "__main__":
    main()
