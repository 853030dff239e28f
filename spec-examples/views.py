"""Draws the views of the puffin as SVG files: flat shapes only. An invented toy, nothing photographed.

    python3 spec-examples/views.py            # writes spec-examples/puffin/pictures/*.svg
    python3 spec-examples/views.py --check    # writes nothing; fails where the files differ from what it would write

Only the standard library. Millimetres of the small size, y down, the middle of the base at 0, 0.
"""

import math
import sys
from pathlib import Path

sys.dont_write_bytecode = True
from outlines import at, keep, knots, length, number

FOLDER = Path(__file__).resolve().parent / "puffin" / "pictures"
WIDTH, HEIGHT = 400, 300

SUMMER = {
    "black": ("#191a1e", "#26272c", "#34353c", "#4a4c55"),
    "white": ("#cdc8bf", "#ebe7e0", "#faf8f4", "#ffffff"),
    "face": ("#cfccc6", "#e9e6e1", "#fbfaf8", "#ffffff"),
    "band": ("#3e4e62", "#54687f", "#6f849b", "#8fa2b5"),
    "bright": ("#c4441c", "#e8602e", "#f47f4a", "#f9a577"),
    "rim": ("#d99a22", "#f2bd4b"),
    "ring": "#e0512c",
    "lid": "#5d7085",
}
WINTER = {
    **SUMMER,
    "face": ("#7f8288", "#979a9f", "#abaeb2", "#c3c5c8"),
    "band": ("#1b1c20", "#2b2c31", "#3b3c43", "#55575f"),
    "bright": ("#84602f", "#a27540", "#b98b53", "#cda878"),
    "rim": ("#5f5a52", "#77726a"),
    "ring": "#7d6a52",
    "lid": "#4c5157",
}


def noise(n):
    """The same scatter on every machine: a number from 0 to 1 for a whole number."""
    n = (n * 1103515245 + 12345) & 0x7FFFFFFF
    n = ((n >> 13) ^ n) * 1274126177 & 0x7FFFFFFF
    return ((n >> 11) ^ n) % 10007 / 10007


def ring(*places):
    """A smooth closed line through places."""
    whole = [complex(*place) for place in places]
    around = whole[-3:] + whole + whole[:4]
    return knots(around)[3 : 3 + len(whole)]


def oval(x, y, rx, ry):
    """An ellipse as four cubics."""
    k = 4 / 3 * (math.sqrt(2) - 1)
    spot = lambda u, v: complex(x + rx * u, y + ry * v)
    return [
        (spot(1, 0), spot(1, k), spot(k, 1), spot(0, 1)),
        (spot(0, 1), spot(-k, 1), spot(-1, k), spot(-1, 0)),
        (spot(-1, 0), spot(-1, -k), spot(-k, -1), spot(0, -1)),
        (spot(0, -1), spot(k, -1), spot(1, -k), spot(1, 0)),
    ]


def open_line(*places, start=None, end=None):
    return knots([complex(*place) for place in places], start, end)


def spots(curves, step):
    """Places along curves, about one for each step."""
    found = []
    for curve in curves:
        count = max(1, round(length(curve) / step))
        found += [at(curve, n / count) for n in range(count)]
    return found


def inside(place, polygon):
    hit = False
    for a, b in zip(polygon, polygon[1:] + polygon[:1]):
        if (a.imag > place.imag) != (b.imag > place.imag):
            if place.real < a.real + (place.imag - a.imag) / (b.imag - a.imag) * (b.real - a.real):
                hit = not hit
    return hit


def shrunk(curves, share, towards):
    towards = complex(*towards)
    return [tuple(towards + (p - towards) * share for p in curve) for curve in curves]


class Page:
    def __init__(self, scale, left, top, alt):
        self.scale, self.left, self.top, self.alt = scale, left, top, alt
        self.rows = []
        self.count = 0

    def move(self, p):
        return f"{number(round(p.real * self.scale + self.left, 2))} {number(round(p.imag * self.scale + self.top, 2))}"

    def smooth(self, curves, close=True):
        text = "M" + self.move(curves[0][0])
        for _, b, c, d in curves:
            text += f"C{self.move(b)} {self.move(c)} {self.move(d)}"
        return text + ("Z" if close else "")

    def fill(self, curves, colour, opacity=None, name=None):
        extra = f' fill-opacity="{opacity}"' if opacity else ""
        extra += f' id="{name}"' if name else ""
        self.rows.append(f'<path{extra} fill="{colour}" d="{self.smooth(curves)}"/>')

    def line(self, curves, colour, width, opacity=None):
        extra = f' stroke-opacity="{opacity}"' if opacity else ""
        self.rows.append(
            f'<path fill="none" stroke="{colour}"{extra} stroke-width="{number(width * self.scale)}" '
            f'stroke-linecap="round" d="{self.smooth(curves, close=False)}"/>'
        )

    def fur(self, curves, colour, pile=3.0, step=2.0, comb=(0, 0.6), opacity=None, name=None):
        """A shape with an edge of pile, combed in a direction."""
        edge = spots(curves, step)
        area = sum((a.conjugate() * b).imag for a, b in zip(edge, edge[1:] + edge[:1]))
        way = 1 if area > 0 else -1
        out = []
        for n, place in enumerate(edge):
            before, after = edge[n - 1], edge[(n + 1) % len(edge)]
            along = (after - before) / abs(after - before)
            normal = along * -1j * way
            self.count += 1
            tuft = pile * (0.45 + 0.75 * noise(self.count))
            out.append(place)
            out.append(place + along * step * 0.5 + tuft * (0.75 * normal + 0.55 * complex(*comb)))
        text = "M" + "L".join(self.move(p) for p in out) + "Z"
        extra = f' fill-opacity="{opacity}"' if opacity else ""
        extra += f' id="{name}"' if name else ""
        self.rows.append(f'<path{extra} fill="{colour}" d="{text}"/>')

    def plush(self, curves, tones, middle, pile=3.0, comb=(0, 0.6), strokes=1.0, name=None):
        """A body of pile: darker at its edge, lighter towards the light, with strokes of pile on it."""
        dark, base, light, shine = tones
        self.fur(curves, dark, pile, comb=comb, name=name)
        mx, my = middle
        edge = spots(curves, 5)
        wide = max(p.real for p in edge) - min(p.real for p in edge)
        high = max(p.imag for p in edge) - min(p.imag for p in edge)
        self.fur(shrunk(curves, 0.93, (mx - 0.04 * wide, my - 0.05 * high)), base, pile * 0.8, comb=comb)
        self.fur(shrunk(curves, 0.62, (mx - 0.13 * wide, my - 0.17 * high)), light, pile * 1.2, 2.6, comb, opacity=0.55)
        self.strokes(curves, shine, dark, comb, strokes)

    def strokes(self, curves, light, dark, comb, share):
        polygon = spots(shrunk(curves, 0.95, centre(curves)), 4)
        xs, ys = [p.real for p in polygon], [p.imag for p in polygon]
        area = (max(xs) - min(xs)) * (max(ys) - min(ys))
        paths = {light: "", dark: ""}
        comb = complex(*comb)
        for n in range(int(area / 42 * share)):
            self.count += 1
            place = complex(
                min(xs) + noise(self.count * 3) * (max(xs) - min(xs)), min(ys) + noise(self.count * 3 + 1) * (max(ys) - min(ys))
            )
            if not inside(place, polygon):
                continue
            way = comb / abs(comb) + complex(noise(self.count * 3 + 2) - 0.5, 0) * 0.9
            end = place + way * (3 + 2.5 * noise(self.count + 5))
            middle = (place + end) / 2 + way * 0.3j
            colour = light if n % 2 else dark
            paths[colour] += f"M{self.move(place)}Q{self.move(middle)} {self.move(end)}"
        for colour, text in paths.items():
            if text:
                self.rows.append(
                    f'<path fill="none" stroke="{colour}" stroke-opacity="0.5" stroke-linecap="round" '
                    f'stroke-width="{number(0.55 * self.scale)}" d="{text}"/>'
                )

    def felt(self, curves, tones, middle, name=None):
        """A short-piled or embroidered shape: smooth edge, three tones."""
        dark, base, light, _ = tones
        mx, my = middle
        self.fill(curves, dark, name=name)
        self.fill(shrunk(curves, 0.93, (mx - 2, my - 2.5)), base)
        self.fill(shrunk(curves, 0.6, (mx - 6, my - 8)), light, 0.6)

    def eye(self, x, y, r, look, tones):
        """Embroidered: corners, ring, pupil and two lights. `look` is −1 where the outer corner lies left."""
        up = open_line((x - r * 1.05, y - r * 0.95), (x - r * 0.3, y - r * 1.75), (x + look * r * 0.1, y - r * 2.15))
        up += open_line((x + look * r * 0.1, y - r * 2.15), (x + r * 0.5, y - r * 1.65), (x + r * 1.05, y - r * 0.95))
        up += open_line((x + r * 1.05, y - r * 0.95), (x - r * 1.05, y - r * 0.95))
        low = ring((x - r * 1.0, y + r * 1.2), (x, y + r * 1.3), (x + r * 1.0, y + r * 1.2), (x, y + r * 1.72))
        self.fill(up, tones["lid"])
        self.fill(low, tones["lid"])
        self.disc(x, y, r * 1.28, tones["ring"])
        self.disc(x, y, r, "#0e0e11")
        self.disc(x - look * r * 0.05, y + r * 0.3, r * 0.55, "#3a2c28")
        self.disc(x - r * 0.34, y - r * 0.36, r * 0.34, "#ffffff")
        self.disc(x + r * 0.38, y + r * 0.36, r * 0.15, "#ffffff", 0.85)

    def disc(self, x, y, r, colour, opacity=None):
        self.fill(oval(x, y, r, r), colour, opacity)

    def svg(self):
        return "\n".join(
            [
                '<?xml version="1.0" encoding="UTF-8"?>',
                f"<!-- {self.alt} Drawn by spec-examples/views.py. -->",
                f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}mm" height="{HEIGHT}mm" '
                f'viewBox="0 0 {WIDTH} {HEIGHT}">',
                *self.rows,
                "</svg>",
                "",
            ]
        )


def centre(curves):
    edge = spots(curves, 5)
    return sum(p.real for p in edge) / len(edge), sum(p.imag for p in edge) / len(edge)


def mirrored(curves):
    return [tuple(complex(-p.real, p.imag) for p in curve) for curve in curves]


def ground(page, wide, x=0):
    """A pale round behind the toy, so that white stands off white paper, and its shadow."""
    page.fill(oval(x, -102, 118, 112), "#e3ecf0")
    for share, opacity in ((1.0, 0.08), (0.88, 0.10), (0.74, 0.12)):
        page.fill(oval(x, 3, wide * share, 9 * share), "#1c2a33", opacity)


def foot_front(page, side, tones):
    """A webbed foot seen from the front and above, toes towards the viewer."""
    toes = ring((15, -13), (9, -3), (6, 5), (13, 8), (19, 5.5), (26, 10.5), (33, 6), (40, 8.5), (47, 4), (43, -4), (36, -13))
    lines = [open_line((24, -7), (21, -1), (19.5, 4)), open_line((29, -7), (32, -1), (33, 4.5))]
    if side < 0:
        toes, lines = mirrored(toes), [mirrored(one) for one in lines]
    x = side * 27
    page.fur(toes, tones[0], 0.9, 1.2)
    page.fur(shrunk(toes, 0.92, (x, -3)), tones[1], 0.8, 1.2)
    page.fill(shrunk(toes, 0.5, (x - 5, -9)), tones[2], 0.7)
    for one in lines:
        page.line(one, tones[0], 0.9)


def wings(page, wing, feathers, tones, out):
    """Both wings from the right one with its stitched lines; the light falls on them `out` mm from the middle."""
    for side in (-1, 1):
        own, lines = (wing, feathers) if side > 0 else (mirrored(wing), [mirrored(one) for one in feathers])
        page.plush(own, tones, (side * out, -60), 3.0, comb=(side * 0.35, 0.7), strokes=0.9, name="wing" if side > 0 else None)
        for one in lines:
            page.line(one, tones[0], 1.0)
            page.line([tuple(p + 0.9 for p in curve) for curve in one], tones[3], 0.5, 0.7)


def front(tones, alt):
    page = Page(1.29, 200, 279, alt)
    ground(page, 78)
    black, white = tones["black"], tones["white"]

    # Wings behind the outline of the body, body, belly.
    body = ring((-57, -52), (-51, -88), (-38, -112), (0, -118), (38, -112), (51, -88), (57, -52), (47, -14), (24, -2), (0, 0), (-24, -2), (-47, -14))
    page.plush(body, black, (0, -60), 3.2, name="body")
    belly = ring((0, -100), (25, -97), (40, -72), (44, -42), (35, -12), (17, -3), (0, -1), (-17, -3), (-35, -12), (-44, -42), (-40, -72), (-25, -97))
    page.plush(belly, white, (0, -50), 2.6, strokes=0.8, name="belly")
    wing = ring((43, -98), (58, -92), (73, -64), (79, -38), (77, -22), (69, -27), (58, -42), (47, -66), (41, -86))
    feathers = [open_line((56, -62), (64, -46), (72, -33)), open_line((63, -70), (70, -52), (75, -36))]
    wings(page, wing, feathers, black, 60)
    for side in (-1, 1):
        foot_front(page, side, tones["bright"])

    # Head: black collar under the chin, crown, faces.
    page.fill(oval(0, -99, 34, 7), "#000000", 0.2)
    head = ring((-61, -146), (-56, -174), (-36, -195), (0, -203), (36, -195), (56, -174), (61, -146), (52, -117), (28, -101), (0, -97), (-28, -101), (-52, -117))
    page.plush(head, black, (0, -152), 3.4, comb=(0, 0.7), name="head")
    for side in (-1, 1):
        cheek = ring((5, -151), (9, -170), (22, -181), (38, -177), (50, -161), (54, -143), (47, -124), (33, -112), (17, -113), (7, -126))
        if side < 0:
            cheek = mirrored(cheek)
        page.plush(cheek, tones["face"], (side * 28 - 2, -148), 1.7, comb=(side * 0.5, 0.5), strokes=0.7, name="face" if side > 0 else None)
    # The crown comes down to the beak between the faces.
    page.fur(ring((-13, -196), (0, -199), (13, -196), (9, -178), (5, -160), (0, -150), (-5, -160), (-9, -178)), black[1], 1.6, comb=(0, 0.7))
    for side in (-1, 1):
        page.eye(side * 29, -152, 8.8, side, tones)
        crease = open_line((37, -146), (43, -139), (47, -131))
        page.line(crease if side > 0 else mirrored(crease), tones["face"][0], 1.0, 0.9)

    beak_front(page, tones)
    return page


def beak_front(page, tones):
    """The beak towards the viewer and a little down: a tall wedge, broad at the face."""
    band, bright = tones["band"], tones["bright"]
    page.fill(oval(2, -131, 20, 21), "#000000", 0.13)
    rim = ring((0, -161), (11, -154), (18, -138), (15, -122), (0, -114), (-15, -122), (-18, -138), (-11, -154))
    page.fur(rim, tones["rim"][0], 0.8, 1.2)
    page.fill(shrunk(rim, 0.93, (-1, -139)), tones["rim"][1])
    base = shrunk(rim, 0.86, (0, -139))
    page.felt(base, band, (0, -142), name="band")
    tip = ring((0, -154), (7.5, -148), (11.5, -136), (9.5, -122), (4, -112), (0, -109), (-4, -112), (-9.5, -122), (-11.5, -136), (-7.5, -148))
    page.fill(shrunk(tip, 1.12, (0, -134)), tones["rim"][1])
    page.felt(tip, bright, (0, -137), name="tip")
    ridge = ring((0, -152), (2.6, -140), (2.8, -124), (0, -110), (-2.8, -124), (-2.6, -140))
    page.fill(ridge, bright[3], 0.75)
    for shift in (0, 8):
        for side in (-1, 1):
            groove = open_line((2.5, -138 + shift), (6.5, -135 + shift), (9.6 - shift * 0.12, -129 + shift))
            page.line(groove if side > 0 else mirrored(groove), bright[0], 0.8)
    mouth = open_line((-14.5, -125), (-8, -118.5), (0, -115.5), (8, -118.5), (14.5, -125))
    page.line(mouth, "#3a1d14", 0.7, 0.75)


def head_side(page, tones):
    black = tones["black"]
    head = ring((-57, -148), (-50, -176), (-28, -197), (4, -203), (35, -193), (53, -168), (54, -140), (44, -115), (20, -101), (-10, -98), (-36, -104), (-51, -122))
    page.plush(head, black, (0, -152), 3.4, comb=(0.35, 0.6), name="head")
    cheek = ring((-52, -146), (-46, -167), (-28, -180), (-4, -178), (18, -166), (36, -150), (20, -143), (2, -124), (-20, -113), (-42, -121))
    page.plush(cheek, tones["face"], (-16, -148), 1.7, comb=(0.6, 0.35), strokes=0.7, name="face")
    page.line(open_line((-2, -151), (12, -148), (27, -149)), tones["face"][0], 1.1, 0.9)
    page.eye(-20, -152, 9.2, 1, tones)
    beak_side(page, tones)


def beak_side(page, tones):
    band, bright, rim = tones["band"], tones["bright"], tones["rim"]
    edge = ring((-49, -164), (-42, -152), (-40, -138), (-44, -122), (-52, -116), (-56, -124), (-57, -142), (-55, -158))
    page.fur(edge, rim[0], 0.9, 1.2)
    page.fill(shrunk(edge, 0.9, (-49, -140)), rim[1])
    base = knots([complex(*p) for p in ((-52, -163), (-63, -162), (-73, -157))], start=-165, end=160)
    base += open_line((-73, -157), (-76, -140), (-72, -121), start=110, end=70)
    base += open_line((-72, -121), (-60, -117), (-51, -117))
    base += open_line((-51, -117), (-44.5, -140), (-52, -163), start=-55, end=-125)
    page.felt(base, band, (-60, -142), name="band")
    tip = open_line((-72, -158), (-91, -149), (-105, -130), start=165, end=108)
    tip += open_line((-105, -130), (-107.5, -122), (-103, -121), start=105, end=10)
    tip += open_line((-103, -121), (-88, -122), (-71, -120), start=-12, end=4)
    tip += open_line((-71, -120), (-75, -140), (-72, -158), start=-115, end=-80)
    seam = open_line((-72.4, -158), (-75.6, -140), (-71.4, -120), start=100, end=75)
    page.felt(tip, bright, (-86, -142), name="tip")
    page.line(seam, rim[1], 3.0)
    page.line(seam, rim[0], 0.5)
    for a, b, c in (((-82, -153.6), (-85.4, -140), (-82.5, -122.5)), ((-91.5, -147.6), (-94.5, -137), (-92.5, -122.5))):
        page.line(open_line(a, b, c), bright[0], 1.1)
        page.line([tuple(p + 1.2 for p in curve) for curve in open_line(a, b, c)], bright[3], 0.6, 0.8)
    page.line(open_line((-103, -126), (-84, -133), (-60, -133), (-49, -129)), "#3a1d14", 0.9, 0.8)
    page.disc(-46.5, -128.5, 4.6, rim[0])
    page.disc(-47, -129, 3.4, rim[1])


def side(tones, alt):
    page = Page(1.29, 214, 279, alt)
    ground(page, 74, -8)
    black, white, bright = tones["black"], tones["white"], tones["bright"]
    # Tail, far foot, body, belly, near wing, near foot.
    tail = ring((44, -28), (62, -26), (80, -18), (88, -9), (76, -7), (56, -8), (42, -12))
    page.plush(tail, black, (64, -18), 2.6, comb=(0.8, 0.25), strokes=0.8, name="tail")
    toe = ring((-36, -10), (-50, -9), (-63, -6), (-74, -2), (-75, 2), (-68, 3), (-63, 2.5), (-58, 5.5), (-50, 5), (-45, 7), (-36, 6.5), (-28, 3), (-26, -5))
    page.fur([tuple(p + complex(-5, -3) for p in curve) for curve in toe], bright[0], 0.9, 1.2)
    body = ring((-58, -54), (-52, -88), (-38, -112), (0, -118), (34, -108), (54, -78), (60, -44), (52, -14), (28, -2), (-4, 0), (-34, -3), (-51, -18))
    page.plush(body, black, (0, -60), 3.2, comb=(0.1, 0.7), name="body")
    belly = ring((-58, -54), (-53, -84), (-43, -101), (-33, -92), (-33, -62), (-33, -30), (-29, -8), (-30, -1), (-39, -4), (-52, -18))
    page.plush(belly, white, (-44, -52), 2.4, strokes=0.8, name="belly")
    page.fur(toe, bright[0], 0.9, 1.2)
    page.fur(shrunk(toe, 0.93, (-50, -4)), bright[1], 0.8, 1.2, name="foot")
    page.fill(shrunk(toe, 0.5, (-52, -8)), bright[2], 0.7)
    page.line(open_line((-46, -3), (-56, -1), (-65, 1.5)), bright[0], 0.9)
    page.line(open_line((-42, -1), (-47, 1), (-52, 3)), bright[0], 0.9)
    wing = ring((-30, -98), (-8, -99), (18, -82), (42, -54), (58, -32), (62, -22), (50, -24), (28, -30), (2, -44), (-22, -66), (-33, -84))
    page.fill([tuple(p + complex(2, 4) for p in curve) for curve in wing], "#000000", 0.35)
    page.plush(wing, black, (6, -66), 3.0, comb=(0.6, 0.45), strokes=0.9, name="wing")
    for places in (((10, -52), (28, -42), (46, -31)), ((12, -68), (32, -52), (52, -32))):
        page.line(open_line(*places), black[0], 1.1)
        page.line([tuple(p + 0.9j for p in curve) for curve in open_line(*places)], black[3], 0.6, 0.8)
    page.fill(oval(0, -101, 38, 6), "#000000", 0.35)
    head_side(page, tones)
    return page


def back(tones, alt):
    page = Page(1.29, 200, 279, alt)
    ground(page, 76)
    black, bright = tones["black"], tones["bright"]
    for turn in (-1, 1):
        toes = ring((18, -8), (14, 0), (20, 3.5), (28, 4), (38, 3), (42, -2), (36, -8))
        toes = toes if turn > 0 else mirrored(toes)
        page.fur(toes, bright[0], 0.9, 1.2)
    body = ring((-57, -52), (-51, -88), (-38, -112), (0, -118), (38, -112), (51, -88), (57, -52), (47, -14), (24, -2), (0, 0), (-24, -2), (-47, -14))
    page.plush(body, black, (0, -60), 3.2, name="body")
    seam = open_line((0, -112), (1.2, -70), (0, -24))
    page.line(seam, "#0a0a0c", 1.3)
    ladder = spots(open_line((0.5, -98), (1.2, -70), (0.6, -44)), 3.4)
    for p in ladder:
        page.line(open_line((p.real - 1.6, p.imag), (p.real + 1.6, p.imag)), black[3], 0.55, 0.9)
    wing = ring((44, -99), (58, -92), (72, -64), (78, -38), (75, -22), (66, -26), (52, -44), (43, -70), (39, -88))
    feathers = [open_line((53, -62), (61, -46), (70, -33)), open_line((60, -70), (67, -52), (73, -36))]
    wings(page, wing, feathers, black, 58)
    corners = [(33, -8), (34.5, 7), (46, 5.5), (44.5, -9.5)]
    label = sum((open_line(a, b) for a, b in zip(corners, corners[1:] + corners[:1])), [])
    page.fill(label, "#c9c6bf")
    page.fill(shrunk(label, 0.9, (39, -2)), "#f4f2ee", name="label")
    for n in range(4):
        page.line(open_line((36.4 + 0.2 * n, -3.6 + 2.4 * n), (42.8 + 0.2 * n, -4.4 + 2.4 * n)), "#8b8d90", 0.5)
    tail = ring((-20, -24), (0, -27), (20, -24), (27, -10), (17, 4), (0, 8), (-17, 4), (-27, -10))
    page.fill([tuple(p + 2j for p in curve) for curve in tail], "#000000", 0.4)
    page.plush(tail, black, (0, -12), 2.8, comb=(0, 0.9), strokes=0.9, name="tail")
    page.fill(oval(0, -101, 40, 6), "#000000", 0.35)
    head = ring((-61, -146), (-56, -174), (-36, -195), (0, -203), (36, -195), (56, -174), (61, -146), (52, -117), (28, -101), (0, -97), (-28, -101), (-52, -117))
    page.plush(head, black, (0, -152), 3.4, comb=(0, 0.7), name="head")
    for turn in (-1, 1):
        strip = open_line((9, -201), (20, -160), (13, -120), (2, -100))
        page.line(strip if turn > 0 else mirrored(strip), "#0a0a0c", 1.1, 0.8)
    return page


def face(tones, alt):
    page = Page(2.35, 260, 507, alt)
    page.fill(ring((-106, -150), (-24, -216), (56, -150), (-24, -86)), "#e3ecf0")
    body = ring((-58, -54), (-52, -88), (-40, -106), (0, -112), (34, -106), (50, -88), (60, -54), (20, -70), (-20, -70))
    page.plush(body, tones["black"], (0, -90), 3.0, comb=(0.1, 0.7))
    white = ring((-59, -60), (-54, -84), (-45, -99), (-34, -92), (-33, -66), (-40, -58))
    page.plush(white, tones["white"], (-46, -80), 2.4, strokes=0.8)
    page.fill(oval(0, -101, 38, 6), "#000000", 0.35)
    head_side(page, tones)
    return page


def views():
    return {
        "front": front(SUMMER, "The puffin from the front in summer colours."),
        "winter": front(WINTER, "The puffin from the front in winter colours."),
        "side": side(SUMMER, "The puffin from its left side."),
        "back": back(SUMMER, "The puffin from behind."),
        "face": face(SUMMER, "The face of the puffin from its left side."),
    }


if __name__ == "__main__":
    keep(FOLDER, {f"{name}.svg": page.svg() for name, page in views().items()})
