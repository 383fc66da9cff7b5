"""Writes crates/plane/tests/data/geometry.csv: areas that shapely (GEOS) finds for polygons
which crates/plane/tests/reference.rs makes again from the same seeds.

Run:  pip install shapely && python xtask/refs/geometry.py

The generator, the same in both languages (only + - * / and square roots, so the same bits):
  dice      splitmix64; a share is the upper 53 bits times 2^-53; `below(n)` is floor(share * n)
  case i    dice seeded with SEED * 1000003 + i
  around(s) the point of the unit circle at share s of the way round: the point of the square
            |x| + |y| = 1 at that share, brought to length 1
  round     n corners around((k + share * 0.9) / n) * (w, h) + shift: convex
  star      the same, each times a reach of 0.3 to 1 (no ellipse): concave, star-shaped
  skyline   2 to 7 columns on the 1/64-inch grid: steps of 1 to 6 to the right, bottom -8 to 8,
            1 to 8 from bottom to top; walked along the bottoms and back along the tops
  line      through shift, towards around(share); inside on the left

Columns: kind, then for pairs (convex, concave, grid): area of first, of second, intersection,
union, difference; for half: area, area inside the line; for offset: area, grown by d, shrunk
by d with mitred corners (limit 100), d. GEOS cuts mitres off at corners that turn by less
than about 0.06 degrees (1e-8 of the area in three cases here); where a corner turns by less than
0.1 degrees the same library's union and difference of the strips beside the sides are taken.
"""

import math
import pathlib

import shapely
from shapely.geometry import Polygon

SEED = 20
CASES = 10_000
MASK = (1 << 64) - 1


class Dice:
    def __init__(self, seed):
        self.state = seed & MASK

    def share(self):
        self.state = (self.state + 0x9E3779B97F4A7C15) & MASK
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & MASK
        z ^= z >> 31
        return (z >> 11) * 2.0**-53

    def between(self, low, high):
        return low + (high - low) * self.share()

    def below(self, n):
        return int(self.share() * n)


def around(share):
    at = 4.0 * share
    quarter = int(at)
    t = at - quarter
    x, y = [(1.0 - t, t), (-t, 1.0 - t), (t - 1.0, -t), (t, t - 1.0)][quarter % 4]
    length = math.sqrt(x * x + y * y)
    return x / length, y / length


def round_outline(dice):
    n = 3 + dice.below(8)
    w, h = dice.between(0.5, 4.0), dice.between(0.5, 4.0)
    sx, sy = dice.between(-2.0, 2.0), dice.between(-2.0, 2.0)
    corners = []
    for k in range(n):
        x, y = around((k + dice.share() * 0.9) / n)
        corners.append((x * w + sx, y * h + sy))
    return corners


def star_outline(dice):
    n = 5 + dice.below(12)
    size = dice.between(0.5, 4.0)
    sx, sy = dice.between(-2.0, 2.0), dice.between(-2.0, 2.0)
    corners = []
    for k in range(n):
        x, y = around((k + dice.share() * 0.9) / n)
        reach = size * dice.between(0.3, 1.0)
        corners.append((x * reach + sx, y * reach + sy))
    return corners


def skyline(dice):
    columns = 2 + dice.below(6)
    x = dice.below(17) - 8
    bottoms, tops = [], []
    for _ in range(columns):
        bottom = dice.below(17) - 8
        top = bottom + 1 + dice.below(8)
        bottoms.append((x / 64.0, bottom / 64.0))
        tops.append((x / 64.0, top / 64.0))
        x += 1 + dice.below(6)
    return bottoms + tops[::-1]


def number(value):
    return f"{value:.15g}"


def pair(kind, one, other):
    a, b = Polygon(one), Polygon(other)
    assert a.is_valid and b.is_valid, kind
    values = [a.area, b.area, a.intersection(b).area, a.union(b).area, a.difference(b).area]
    return [kind] + [number(v) for v in values]


def half(outline, through, along):
    far = 100.0
    (x, y), (u, v) = through, along
    box = Polygon([
        (x - far * u, y - far * v),
        (x + far * u, y + far * v),
        (x + far * u - far * v, y + far * v + far * u),
        (x - far * u - far * v, y - far * v + far * u),
    ])
    a = Polygon(outline)
    assert a.is_valid
    return ["half", number(a.area), number(a.intersection(box).area)]


def directions(outline):
    for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1]):
        length = math.hypot(bx - ax, by - ay)
        yield (bx - ax) / length, (by - ay) / length


def strips(outline, d):
    """The strip beside each side, outside when d > 0, with mitres where the corner opens."""
    along = list(directions(outline))
    n = len(outline)

    def end(corner, before, after, own):
        (x, y), (ux, uy), (vx, vy) = corner, before, after
        sine = ux * vy - uy * vx
        if sine * d > 0.0:
            return x + d * (ux - vx) / sine, y + d * (uy - vy) / sine
        return x + d * own[1], y - d * own[0]

    for k in range(n):
        a, b, u = outline[k], outline[(k + 1) % n], along[k]
        a_out = end(a, along[k - 1], u, u)
        b_out = end(b, u, along[(k + 1) % n], u)
        yield Polygon([a, a_out, b_out, b])


def nearly_straight(outline):
    along = list(directions(outline))
    return any(
        abs(ux * vy - uy * vx) < math.sin(math.radians(0.1)) and ux * vx + uy * vy > 0.0
        for (ux, uy), (vx, vy) in zip(along, along[1:] + along[:1])
    )


def offset(outline, d):
    a = Polygon(outline)
    assert a.is_valid
    if nearly_straight(outline):
        grown = shapely.union_all([a, *strips(outline, d)])
        shrunk = a.difference(shapely.union_all(list(strips(outline, -d))))
    else:
        grown = a.buffer(d, join_style="mitre", mitre_limit=100.0)
        shrunk = a.buffer(-d, join_style="mitre", mitre_limit=100.0)
    return ["offset", number(a.area), number(grown.area), number(shrunk.area), number(d)]


def row(i):
    dice = Dice(SEED * 1000003 + i)
    kind = i % 8
    if kind in (0, 1):
        return pair("convex", round_outline(dice), round_outline(dice))
    if kind in (2, 3):
        return pair("concave", star_outline(dice), star_outline(dice))
    if kind in (4, 5):
        return pair("grid", skyline(dice), skyline(dice))
    if kind == 6:
        outline = star_outline(dice)
        through = (dice.between(-2.0, 2.0), dice.between(-2.0, 2.0))
        return half(outline, through, around(dice.share()))
    outline = round_outline(dice) if dice.share() < 0.5 else star_outline(dice)
    return offset(outline, dice.between(0.05, 0.5))


def main():
    here = pathlib.Path(__file__).resolve().parent
    path = here.parent.parent / "crates/plane/tests/data/geometry.csv"
    geos = ".".join(str(part) for part in shapely.geos_version)
    lines = [f"# shapely {shapely.__version__}, GEOS {geos}; seed {SEED}; xtask/refs/geometry.py"]
    lines += [",".join(row(i)) for i in range(CASES)]
    path.write_text("\n".join(lines) + "\n")
    print(f"{path.name}: {CASES} rows")


if __name__ == "__main__":
    main()
