"""What ezdxf and svgelements read in the files for machines that `workroom` writes of a quilt's templates, as a table
for its test.

Every DXF is audited; the columns are: for a file its name, format or version, unit, errors and fixes; for a line its
layer, whether it is closed, and its coordinates: units of the drawing in a DXF, inches from the lower left corner in
an SVG, whose own size and unit say how large it is.
"""

from pathlib import Path

import ezdxf
import svgelements
from ezdxf import recover
from svgelements import SVG, Close, Group, Move, Line

DATA = Path(__file__).resolve().parents[2] / "crates/workroom/tests/data"
PIXELS_PER_IN = 96


def row(layer, closed, points):
    numbers = " ".join(repr(float(n)) for p in points for n in p)
    return f"{layer},{'closed' if closed else 'open'},{numbers}"


def of_dxf(name):
    path = DATA / name
    ezdxf.readfile(path)  # the strict reader: it raises on a broken structure
    drawing, auditor = recover.readfile(path)
    yield f"file,{name},{drawing.dxfversion},{drawing.header['$INSUNITS']},{len(auditor.errors)},{len(auditor.fixes)}"
    for entity in drawing.modelspace():
        points = [(p[0], p[1]) for p in entity.vertices()]
        yield row(entity.dxf.layer, entity.closed, points)


def of_svg(name):
    svg = SVG.parse(DATA / name, ppi=PIXELS_PER_IN, reify=True)
    yield f"file,{name},svg,in,0,0"
    for group in (part for part in svg if isinstance(part, Group)):
        for path in group:
            parts = list(path)
            assert all(isinstance(part, (Move, Line, Close)) for part in parts), parts
            points = [part.end for part in parts if not isinstance(part, Close)]
            places = [(p.x / PIXELS_PER_IN, (svg.height - p.y) / PIXELS_PER_IN) for p in points]
            yield row(group.id, isinstance(parts[-1], Close), places)


def main():
    lines = [f"# ezdxf {ezdxf.__version__}, svgelements {svgelements.svgelements.SVGELEMENTS_VERSION}"]
    lines.append("layer,closed,coordinates")
    for unit in ["in", "mm"]:
        lines.extend(of_dxf(f"templates-{unit}.dxf"))
        lines.extend(of_svg(f"templates-{unit}.svg"))
    (DATA / "templates.csv").write_text("\n".join(lines) + "\n")


main()
