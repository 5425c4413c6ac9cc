"""Reads a PDF with poppler and puts its pages together again by their registration marks alone, as whoever prints them
does. read_tiles.py FILE FIRST_PAGE [LAST_PAGE] prints "TILES n", "RULER mm" for each ruler found, "JOINTS n WORST mm" with the worst
disagreement of two marks of a joint, then a line for each stroke: "WIDTH x y x y …", mm, x right, y down."""
import re
import subprocess
import sys
import tempfile

MM = 25.4 / 72
pdf, first = sys.argv[1], int(sys.argv[2])
last = int(re.search(r"Pages: +(\d+)", subprocess.check_output(["pdfinfo", pdf], text=True)).group(1))
if len(sys.argv) > 3:
    last = int(sys.argv[3])
pages = range(first, last + 1)


def strokes_of(page):
    """(width, closed, points) of every stroke, mm from the page's top left corner."""
    with tempfile.NamedTemporaryFile(suffix=".svg") as out:
        # Without these poppler shrinks a page of 841.89 points to whole points.
        exact = ["-noshrink", "-nocenter"]
        subprocess.check_call(["pdftocairo", "-svg", *exact, "-f", str(page), "-l", str(page), pdf, out.name])
        text = open(out.name, encoding="utf-8").read()
    found = []
    for tag in re.findall(r"<path [^>]*stroke-width[^>]*>", text):
        width = float(re.search(r"stroke-width:([0-9.]+)", tag).group(1)) * MM
        a, b, c, d, e, f = (float(x) for x in re.search(r'matrix\(([^)]*)\)', tag).group(1).split(","))
        data = re.search(r' d="([^"]*)"', tag).group(1)
        assert not re.search("[A-KN-Y]", data), data
        closed = "Z" in data
        numbers = [float(x) for x in re.findall(r"-?[0-9.]+", data.split("Z")[0])]
        points = [((a * x + c * y + e) * MM, (b * x + d * y + f) * MM) for x, y in zip(numbers[::2], numbers[1::2])]
        found.append((width, closed, points))
    return found


def numbers_of(page):
    """(number, x, y) of every word that is one."""
    text = subprocess.check_output(["pdftotext", "-bbox", "-f", str(page), "-l", str(page), pdf, "-"], text=True)
    words = re.findall(r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(\d+)<', text)
    return [(int(w), (float(a) + float(c)) / 2 * MM, (float(b) + float(d)) / 2 * MM) for a, b, c, d, w in words]


def near(a, b, within=0.02):
    return abs(a[0] - b[0]) < within and abs(a[1] - b[1]) < within


def marks_of(strokes, numbers):
    """number -> (is the sheet that is laid over, [two middles])"""
    marks = {}
    for width, closed, p in strokes:
        if abs(width - 0.18) > 0.01 or len(p) != (4 if closed else 3):
            continue
        middle = ((p[0][0] + p[2][0]) / 2, (p[0][1] + p[2][1]) / 2)
        span = abs(p[0][0] - p[2][0]) + abs(p[0][1] - p[2][1])
        if abs(span - 8) > 0.05:
            continue
        beside = sorted((abs(x - middle[0]) + abs(y - middle[1]), n) for n, x, y in numbers)
        assert beside and beside[0][0] < 13, f"a mark at {middle} has no number"
        over, places = marks.setdefault(beside[0][1], (not closed, []))
        assert over == (not closed)
        places.append(middle)
    for number, (_, places) in marks.items():
        assert len(places) == 2, f"joint {number} has {len(places)} marks on a sheet"
        places.sort()
    return marks


tiles = [strokes_of(page) for page in pages]
marks = [marks_of(strokes, numbers_of(page)) for page, strokes in zip(pages, tiles)]
sheets = {}  # joint -> [(tile, is laid over)]
for tile, own in enumerate(marks):
    for number, (over, _) in own.items():
        sheets.setdefault(number, []).append((tile, over))
for number, pair in sheets.items():
    assert sorted(over for _, over in pair) == [False, True], f"joint {number}: {pair}"

shift, worst, todo = {0: (0.0, 0.0)}, 0.0, [0]
while todo:
    here = todo.pop()
    for number, (_, places) in marks[here].items():
        other = next(t for t, _ in sheets[number] if t != here)
        theirs = marks[other][number][1]
        moves = [(a[0] - b[0] + shift[here][0], a[1] - b[1] + shift[here][1]) for a, b in zip(places, theirs)]
        worst = max(worst, abs(moves[0][0] - moves[1][0]), abs(moves[0][1] - moves[1][1]))
        if other in shift:
            worst = max(worst, abs(moves[0][0] - shift[other][0]), abs(moves[0][1] - shift[other][1]))
        else:
            shift[other] = moves[0]
            todo.append(other)
assert len(shift) == len(tiles), f"{len(shift)} of {len(tiles)} tiles hang together"

print("TILES", len(tiles))
print("JOINTS", len(sheets), "WORST", f"{worst:.4f}")
for strokes in tiles:
    # A ruler: ticks at right angles to a line of 4 in; those of 100 mm are the outermost on one side.
    for width, closed, p in strokes:
        if abs(width - 0.18) < 0.01 and len(p) == 2 and abs(abs(p[0][0] - p[1][0]) + abs(p[0][1] - p[1][1]) - 101.6) < 0.5:
            level = abs(p[0][1] - p[1][1]) < 0.01
            along, across = (0, 1) if level else (1, 0)
            base = p[0][across]
            ticks = {True: [], False: []}
            for _, _, q in strokes:
                if len(q) == 2 and abs(q[0][along] - q[1][along]) < 0.01 and abs(q[0][across] - base) < 0.01:
                    if 1 < abs(q[1][across] - base) < 4 and p[0][along] - 0.1 < q[0][along] < p[1][along] + 0.1:
                        ticks[q[1][across] < base if level else q[1][across] > base].append(q[0][along])
            print("RULER", f"{max(ticks[True]) - min(ticks[True]):.4f} {max(ticks[False]) - min(ticks[False]):.4f}")
for tile, strokes in enumerate(tiles):
    dx, dy = shift[tile]
    for width, closed, p in strokes:
        points = p + p[:1] if closed else p
        print(f"{width:.3f}", " ".join(f"{x + dx:.5f} {y + dy:.5f}" for x, y in points))
