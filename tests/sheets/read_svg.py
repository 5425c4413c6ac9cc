"""Reads an SVG file with Python's XML reader and prints "WIDTH HEIGHT" in mm, then a line for each path that has a
layer: "LAYER closed|open x y x y …", mm. Fails where a unit of the drawing is not a millimetre."""
import re
import sys
import xml.etree.ElementTree as ElementTree

root = ElementTree.parse(sys.argv[1]).getroot()
width, height = (float(re.fullmatch(r"([0-9.]+)mm", root.get(k)).group(1)) for k in ("width", "height"))
box = [float(x) for x in root.get("viewBox").split()]
assert box == [0, 0, width, height], box
assert all(e.get("transform") is None for e in root.iter() if not e.tag.endswith("text"))
print(width, height)
for path in root.iter("{http://www.w3.org/2000/svg}path"):
    layer = path.get("data-layer")
    if layer is None:
        continue
    data = path.get("d")
    assert re.fullmatch(r"M[-0-9. ]+(L[-0-9. ]+)*Z?", data), data
    numbers = re.findall(r"-?[0-9.]+", data)
    print(layer, "closed" if data.endswith("Z") else "open", " ".join(numbers))
