"""A photograph of a table that our renderer had no hand in: cards printed by poppler, cloths cut from real
photographs that come with scikit-image (brick, grass and gravel: CC0, Poly Haven; chelsea: CC0, S. van der Walt), laid
out, tilted and blurred by OpenCV.

    ragbag cards --to cards.pdf
    python table_photo.py cards.pdf table.jpg     # tells the areas in square inches
    ragbag scrap photo table.jpg
"""

import subprocess
import sys
import tempfile

import cv2
import numpy
from skimage import data

DPI = 100
WIDE, HIGH = 30, 22
CLOTHS = {
    "brick": [(4, 4), (11, 5), (10, 10), (4.5, 9)],
    "grass": [(13, 5), (19, 4), (20, 9.5)],
    "gravel": [(5, 12), (10, 11.5), (11, 17), (6, 18)],
    "chelsea": [(14, 12), (22, 11), (23, 17), (15, 18)],
}


def cards(pdf):
    """The cards of the page, each cut out with its white margin."""
    with tempfile.TemporaryDirectory() as folder:
        place = f"{folder}/page"
        subprocess.run(["pdftoppm", "-r", str(DPI), "-png", "-singlefile", pdf, place], check=True)
        page = cv2.imread(f"{place}.png")
    family = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    found, _, _ = cv2.aruco.ArucoDetector(family).detectMarkers(page)
    margin = int(0.28 * DPI)
    for marker in found:
        (left, top), (right, bottom) = marker[0].min(axis=0).astype(int), marker[0].max(axis=0).astype(int)
        yield page[top - margin : bottom + margin, left - margin : right + margin]


def main(pdf, out):
    dice = numpy.random.default_rng(5)
    table = numpy.full((HIGH * DPI, WIDE * DPI, 3), (104, 122, 128), numpy.float32)
    table += dice.normal(0, 3, table.shape[:2])[..., None]
    places = [(0.3, 0.3), (26.8, 0.3), (0.3, 18), (26.8, 18), (13, 0.3), (12, 18.1)]
    for (x, y), card in zip(places, cards(pdf)):
        x, y = int(x * DPI), int(y * DPI)
        h, w = min(card.shape[0], table.shape[0] - y), min(card.shape[1], table.shape[1] - x)
        table[y : y + h, x : x + w] = card[:h, :w]
    for name, corners in CLOTHS.items():
        points = (numpy.array(corners) * DPI).astype(numpy.int32)
        picture = getattr(data, name)()
        if picture.ndim == 2:
            tint = {"brick": (70, 90, 200), "grass": (60, 150, 70), "gravel": (190, 120, 70)}[name]
            picture = picture[..., None] / 255.0 * numpy.array(tint)
        else:
            picture = picture[..., ::-1]
        x, y, w, h = cv2.boundingRect(points)
        cloth = cv2.resize(picture.astype(numpy.float32), (w, h), interpolation=cv2.INTER_AREA)
        mask = numpy.zeros(table.shape[:2], numpy.uint8)
        cv2.fillPoly(mask, [points], 1, cv2.LINE_8)
        part = table[y : y + h, x : x + w]
        inside = mask[y : y + h, x : x + w, None].astype(bool)
        table[y : y + h, x : x + w] = numpy.where(inside, cloth, part)
        print(f"{name}: {cv2.contourArea(points.astype(numpy.float32)) / DPI**2:.2f} square inches")
    size = (4000, 3000)
    seen = numpy.float32([(420, 300), (3620, 240), (3900, 2820), (130, 2700)])
    whole = numpy.float32([(0, 0), (WIDE * DPI, 0), (WIDE * DPI, HIGH * DPI), (0, HIGH * DPI)])
    warp = cv2.getPerspectiveTransform(whole, seen)
    photo = cv2.warpPerspective(table, warp, size, flags=cv2.INTER_LINEAR, borderValue=(60, 62, 66))
    photo = cv2.GaussianBlur(photo, (0, 0), 0.8) + dice.normal(0, 2, (size[1], size[0], 1))
    cv2.imwrite(out, numpy.clip(photo, 0, 255).astype(numpy.uint8), [cv2.IMWRITE_JPEG_QUALITY, 92])


main(*sys.argv[1:])
