"""Reads a DXF file with ezdxf (MIT licence) and prints what it finds: the version and units; then a line for each
polyline, "LAYER closed|open x y x y …", and for each text, "TEXT LAYER words". Audits it first."""
import sys

from ezdxf import recover

drawing, audit = recover.readfile(sys.argv[1])
if audit.has_errors or audit.has_fixes:
    sys.exit("\n".join(str(e.message) for e in audit.errors + audit.fixes))
print(drawing.dxfversion, drawing.header["$INSUNITS"], drawing.header["$MEASUREMENT"])
for entity in drawing.modelspace():
    if entity.dxftype() == "POLYLINE":
        points = " ".join(f"{p.x:.6f} {p.y:.6f}" for p in entity.points())
        print(entity.dxf.layer, "closed" if entity.is_closed else "open", points)
    elif entity.dxftype() == "TEXT":
        print("TEXT", entity.dxf.layer, entity.dxf.text)
    else:
        sys.exit(f"unexpected {entity.dxftype()}")
