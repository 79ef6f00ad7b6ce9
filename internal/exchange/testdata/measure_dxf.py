# Reads a DXF with ezdxf, a general-purpose library, and prints for every block
# what it measures: area and length round of each closed line, length of each open
# one, points and text by layer. No code of the project is used.
import json
import math
import sys

import ezdxf

doc = ezdxf.readfile(sys.argv[1])
audit = doc.audit()


def points(e):
    return [(v.dxf.location.x, v.dxf.location.y) for v in e.vertices]


def length(p):
    return sum(math.dist(a, b) for a, b in zip(p, p[1:]))


def area(p):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(p, p[1:])) / 2


blocks = {}
for block in doc.blocks:
    if block.name.startswith("*"):
        continue
    b = {"closed": {}, "open": {}, "points": {}, "text": {}}
    for e in block:
        layer = e.dxf.layer
        kind = e.dxftype()
        if kind == "POLYLINE":
            p = points(e)
            if e.is_closed:
                p.append(p[0])
                b["closed"].setdefault(layer, []).append({"area": area(p), "length": length(p)})
            else:
                b["open"].setdefault(layer, []).append(length(p))
        elif kind == "LINE":
            p = [(e.dxf.start.x, e.dxf.start.y), (e.dxf.end.x, e.dxf.end.y)]
            b["open"].setdefault(layer, []).append(length(p))
        elif kind == "POINT":
            b["points"].setdefault(layer, []).append([e.dxf.location.x, e.dxf.location.y])
        elif kind == "TEXT":
            b["text"].setdefault(layer, []).append(e.dxf.text)
        else:
            raise SystemExit("unexpected " + kind)
    blocks[block.name] = b

print(json.dumps({
    "errors": len(audit.errors),
    # Release 12 has no owners; ezdxf 0.18 complains of each end of a polyline
    # inside a block that it has none.
    "fixes": [f.message for f in audit.fixes if "SEQEND" not in f.message],
    "version": doc.dxfversion,
    "style": [e.dxf.text for e in doc.modelspace() if e.dxftype() == "TEXT"],
    "inserts": [e.dxf.name for e in doc.modelspace() if e.dxftype() == "INSERT"],
    "blocks": blocks,
}))
