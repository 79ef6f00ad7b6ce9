# Writes a DXF whose outline is three splines and a line, with ezdxf, a
# general-purpose library, and prints points of the splines that ezdxf computes. No
# code of the project is used.
import json
import sys

import ezdxf
from ezdxf.math import BSpline, open_uniform_knot_vector

doc = ezdxf.new("R2000", units=4)
block = doc.blocks.new("CUFF")
runs = [
    (3, [(0, 0), (40, -30), (90, 25), (150, -10), (200, 0)], None),
    (2, [(200, 0), (230, 40), (190, 70), (200, 120)], None),
    (3, [(200, 120), (150, 140), (80, 90), (60, 150), (20, 130), (0, 120)], [0, 0, 0, 0, 1, 1.5, 3, 3, 3, 3]),
]
points = []
for degree, control, knots in runs:
    knots = knots or list(open_uniform_knot_vector(len(control), degree + 1))
    block.add_open_spline(control, degree=degree, knots=knots, dxfattribs={"layer": "1"})
    curve = BSpline(control, order=degree + 1, knots=knots)
    points.append([(p.x, p.y) for p in curve.approximate(200)])
block.add_line((0, 120), (0, 0), dxfattribs={"layer": "1"})
doc.modelspace().add_blockref("CUFF", (0, 0), dxfattribs={"layer": "1"})
doc.saveas(sys.argv[1])
print(json.dumps(points))
