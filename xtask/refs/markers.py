"""Holds two general-purpose marker detectors against the pictures that

    cargo run -p vision --example cards_accuracy -- target/markers

writes, and prints how many markers each finds, how far their corners lie off (outwards, and root of the
mean square), and how long it takes. The corners that this program found (`ours.csv`) go through the same
sums. Where the pictures are missing it says so and does nothing.

Places are in pixels, the middle of the first pixel at 0.5: OpenCV counts from 0 there.
"""

import csv
import pathlib
import statistics
import time

import cv2
import numpy
import pupil_apriltags

FOLDER = pathlib.Path(__file__).parents[2] / "target" / "markers"


def table(name):
    corners = {}
    with open(FOLDER / name, newline="") as lines:
        for line in csv.reader(lines):
            points = numpy.array([float(x) for x in line[2:]]).reshape(4, 2)
            corners.setdefault(line[0], {})[int(line[1])] = points
    return corners


def apriltag(decimate):
    detector = pupil_apriltags.Detector(families="tag36h11", nthreads=2, quad_decimate=decimate)
    return lambda grey: {d.tag_id: d.corners for d in detector.detect(grey)}


def opencv():
    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    family = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    detector = cv2.aruco.ArucoDetector(family, settings)

    def find(grey):
        corners, numbers, _ = detector.detectMarkers(grey)
        if numbers is None:
            return {}
        return {int(n): c[0] + 0.5 for n, c in zip(numbers.ravel(), corners)}

    return find


def off(true, seen):
    """Distances outwards and in all, the order of corners aside."""
    turns = [numpy.roll(order, k, axis=0) for order in (seen, seen[::-1]) for k in range(4)]
    best = min(turns, key=lambda c: numpy.linalg.norm(c - true, axis=1).sum())
    out = true - true.mean(axis=0)
    out /= numpy.linalg.norm(out, axis=1)[:, None]
    return ((best - true) * out).sum(axis=1), numpy.linalg.norm(best - true, axis=1)


def main():
    if not (FOLDER / "truth.csv").is_file():
        print("markers: no pictures in target/markers: run the example cards_accuracy first")
        return
    truth, ours = table("truth.csv"), table("ours.csv")
    peers = {f"apriltag, decimate {d}": apriltag(d) for d in (1.0, 2.0, 4.0)}
    peers["OpenCV aruco, subpix"] = opencv()
    print(f"pupil-apriltags and OpenCV {cv2.__version__}")
    kinds = sorted({name.split("-")[0] for name in truth})
    for kind in kinds:
        names = [name for name in truth if name.startswith(kind)]
        for peer, find in [("ours", None), *peers.items()]:
            outs, offs, times, found, total = [], [], [], 0, 0
            for name in names:
                if find is None:
                    seen = ours.get(name, {})
                else:
                    grey = cv2.imread(str(FOLDER / f"{name}.jpg"), cv2.IMREAD_GRAYSCALE)
                    start = time.perf_counter()
                    seen = find(grey)
                    times.append(1000 * (time.perf_counter() - start))
                for number, corners in truth[name].items():
                    total += 1
                    if number in seen:
                        found += 1
                        out, distance = off(corners, numpy.asarray(seen[number]))
                        outs.extend(out)
                        offs.extend(distance)
            rms = (sum(d * d for d in offs) / max(len(offs), 1)) ** 0.5
            clock = f"{statistics.median(times):.0f} ms" if times else "-"
            mean = sum(outs) / max(len(outs), 1)
            print(f"{kind:<8} {peer:<22} {found:>2} of {total}  outwards {mean:>6.3f}  rms {rms:.3f}  most {max(offs, default=0):.3f}  {clock}")


main()
