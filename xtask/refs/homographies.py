"""Perspective maps from four places to four, solved in fractions without any rounding, as a table for
vision's test. OpenCV, which rounds to single precision on the way, must agree to a few parts in 100,000.

Each line: four places, where they go, a fifth place, and where the map takes it.
"""

import pathlib
from fractions import Fraction

import cv2
import numpy

DATA = pathlib.Path(__file__).resolve().parents[2] / "crates/vision/tests/data"


def exact(start, corners, place):
    rows = []
    for (x, y), (u, v) in zip(start, corners):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y, u])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y, v])
    for i in range(8):
        pivot = next(r for r in range(i, 8) if rows[r][i] != 0)
        rows[i], rows[pivot] = rows[pivot], rows[i]
        for r in range(8):
            if r != i:
                share = rows[r][i] / rows[i][i]
                rows[r] = [a - share * b for a, b in zip(rows[r], rows[i])]
    h = [rows[i][8] / rows[i][i] for i in range(8)]
    x, y = place
    depth = h[6] * x + h[7] * y + 1
    return (h[0] * x + h[1] * y + h[2]) / depth, (h[3] * x + h[4] * y + h[5]) / depth


def fractions(points):
    return [tuple(Fraction(float(n)) for n in point) for point in points]


def main():
    dice = numpy.random.default_rng(41)
    lines = [f"# exact fractions, held against OpenCV {cv2.__version__} getPerspectiveTransform"]
    square = numpy.array([[0, 0], [2, 0], [2, 2], [0, 2]], dtype=float)
    while len(lines) < 201:
        side = 10 ** dice.uniform(1, 3.3)
        middle = dice.uniform(0, 4000, 2)
        corners = middle + side * (square / 2 - 0.5 + dice.uniform(-0.25, 0.25, (4, 2)))
        start = square + dice.uniform(-0.3, 0.3, (4, 2))
        # single precision in, as the library wants; the rounded places are what is written down
        start, corners = start.astype(numpy.float32), corners.astype(numpy.float32)
        matrix = cv2.getPerspectiveTransform(start, corners)
        place = dice.uniform(-1, 3, 2)
        if numpy.dot(matrix[2], [*place, 1]) < 0.2:
            continue
        peer = cv2.perspectiveTransform(place.reshape(1, 1, 2), matrix).ravel()
        to = [float(n) for n in exact(fractions(start), fractions(corners), fractions([place])[0])]
        assert numpy.abs(peer - to).max() < 3e-5 * (1 + numpy.abs(to).max()), (peer, to)
        numbers = [*start.ravel(), *corners.ravel(), *place, *to]
        lines.append(",".join(repr(float(n)) for n in numbers))
    DATA.mkdir(parents=True, exist_ok=True)
    (DATA / "homographies.csv").write_text("\n".join(lines) + "\n")


main()
