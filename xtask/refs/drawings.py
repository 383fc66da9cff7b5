"""What ezdxf reads in the DXF files that `papers` writes, as a table for its test.

Every file is audited; the columns are: for a file its name, format, unit, errors and fixes; for a stroke
its kind, layer, the layer's line type, whether it is closed, and its coordinates.
"""

from pathlib import Path

import ezdxf
from ezdxf import recover

DATA = Path(__file__).resolve().parents[2] / "crates/papers/tests/data"


def stroke(drawing, entity):
    layer = entity.dxf.layer
    dashes = drawing.layers.get(layer).dxf.linetype
    if entity.dxftype() == "POINT":
        points, closed = [entity.dxf.location], False
    else:
        points, closed = list(entity.vertices()), entity.closed
    numbers = " ".join(repr(float(n)) for p in points for n in (p[0], p[1]))
    return f"{entity.dxftype()},{layer},{dashes},{'closed' if closed else 'open'},{numbers}"


def main():
    lines = [f"# ezdxf {ezdxf.__version__}", "kind,layer,dashes,closed,coordinates"]
    for name in ["in", "mm"]:
        path = DATA / f"strokes-{name}.dxf"
        ezdxf.readfile(path)  # the strict reader: it raises on a broken structure
        drawing, auditor = recover.readfile(path)
        head = ["file", name, drawing.dxfversion, drawing.header["$INSUNITS"], len(auditor.errors), len(auditor.fixes)]
        lines.append(",".join(str(part) for part in head))
        lines.extend(stroke(drawing, entity) for entity in drawing.modelspace())
    (DATA / "strokes.csv").write_text("\n".join(lines) + "\n")


main()
