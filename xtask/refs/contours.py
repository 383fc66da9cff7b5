"""Rings round the set cells of random masks and the areas in them, as a table for vision's test: scikit-image
draws its contours halfway between set and bare cells, as vision's rings run, and takes set cells that only
touch at a corner as apart.

Each line: the mask's width, its rows from the top as 0 and 1, and the areas of all rings in square cells,
least first; those of holes are negative.
"""

import pathlib

import numpy
import skimage
from skimage.measure import find_contours

DATA = pathlib.Path(__file__).resolve().parents[2] / "crates/vision/tests/data"


def areas(mask):
    rings = find_contours(numpy.pad(mask, 1).astype(float), 0.5, fully_connected="low")
    signed = []
    for ring in rings:
        y, x = ring[:-1].T
        signed.append(float(numpy.sum(x * numpy.roll(y, -1) - numpy.roll(x, -1) * y)) / 2)
    return signed


def main():
    dice = numpy.random.default_rng(97)
    dot = areas(numpy.ones((1, 1)))[0]
    lines = [f"# scikit-image {skimage.__version__} find_contours"]
    for _ in range(60):
        height, width = dice.integers(4, 25, 2)
        noise = dice.normal(size=(height + 2, width + 2))
        calm = sum(noise[r : r + height, c : c + width] for r in range(3) for c in range(3))
        mask = (calm if dice.random() < 0.7 else noise[1:-1, 1:-1]) > dice.uniform(-1, 1)
        rows = "".join("1" if cell else "0" for cell in mask.ravel())
        found = sorted(round(area * numpy.sign(dot), 6) for area in areas(mask))
        lines.append(",".join([str(width), rows, *(repr(float(area)) for area in found)]))
    DATA.mkdir(parents=True, exist_ok=True)
    (DATA / "contours.csv").write_text("\n".join(lines) + "\n")


main()
