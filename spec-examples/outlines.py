"""Draws the outlines of the puffin in both sizes: an invented toy, true to scale.

    python3 spec-examples/outlines.py            # writes spec-examples/puffin/outlines/S.svg and L.svg
    python3 spec-examples/outlines.py --check    # writes nothing; fails where the files differ from what it would write

Only the standard library. A few knots of each piece are given by hand, in millimetres of the small size; smooth curves go
through them. Whatever has to fit something else is then solved by true length: the neck of the body from the neck of the
head, the belly and the crown from the edges they are sewn to, the base from what stands on it, the beak from its line on
the head. Points that lie on a curve are put there by the length along it.
"""

import cmath
import math
import sys
from pathlib import Path

FOLDER = Path(__file__).resolve().parent / "puffin" / "outlines"

# Factors of each size on the small one. The small one has the larger head and the shorter wings: a small toy is no
# reduced large one.
SIZES = {
    "S": {"body": 1.0, "head": 1.0, "wing": 1.0, "foot": 1.0, "tail": 1.0, "beak": 1.0},
    "L": {"body": 1.35, "head": 1.30, "wing": 1.42, "foot": 1.34, "tail": 1.38, "beak": 1.30},
}

# How much longer the outer layer is, so that the seam rolls to the under side.
EASE = {"crown": 1.015, "wing": 1.012, "foot": 1.015}


# Curves: a cubic is four complex numbers.


def knots(points, start=None, end=None):
    """A smooth curve through points, after J. D. Hobby, "Smooth, easy to compute interpolating splines" (1986), with
    tension 1 and curl 1; `start` and `end` are directions in degrees, on the page, y down."""
    n = len(points) - 1
    if n == 1 and start is None and end is None:
        return [line(*points)]
    chords = [points[i + 1] - points[i] for i in range(n)]
    size = [abs(chord) for chord in chords]
    turn = [0.0] + [cmath.phase(chords[i] / chords[i - 1]) for i in range(1, n)] + [0.0]
    low, mid, high, right = [0.0] * (n + 1), [1.0] * (n + 1), [0.0] * (n + 1), [0.0] * (n + 1)
    if start is None:
        high[0], right[0] = 1.0, -turn[1]
    else:
        right[0] = between(cmath.phase(chords[0]), math.radians(start))
    for k in range(1, n):
        low[k], mid[k], high[k] = 1 / size[k - 1], 2 / size[k - 1] + 2 / size[k], 1 / size[k]
        right[k] = -2 * turn[k] / size[k - 1] - turn[k + 1] / size[k]
    if end is None:
        low[n] = 1.0
    else:
        right[n] = between(cmath.phase(chords[n - 1]), math.radians(end))
    for k in range(1, n + 1):
        share = low[k] / mid[k - 1]
        mid[k] -= share * high[k - 1]
        right[k] -= share * right[k - 1]
    theta = [0.0] * (n + 1)
    theta[n] = right[n] / mid[n]
    for k in range(n - 1, -1, -1):
        theta[k] = (right[k] - high[k] * theta[k + 1]) / mid[k]
    curves = []
    for k in range(n):
        out, back = theta[k], -theta[k + 1] - turn[k + 1]
        a = points[k] + cmath.rect(reach(out, back), out) * chords[k]
        b = points[k + 1] - cmath.rect(reach(back, out), -back) * chords[k]
        curves.append((points[k], a, b, points[k + 1]))
    return curves


def between(one, other):
    """The turn from one direction to another."""
    return (other - one + math.pi) % (2 * math.pi) - math.pi


def reach(theta, phi):
    """How far the handle of a knot reaches, in chords."""
    st, sp, ct, cp = math.sin(theta), math.sin(phi), math.cos(theta), math.cos(phi)
    over = 2 + math.sqrt(2) * (st - sp / 16) * (sp - st / 16) * (ct - cp)
    return over / (3 * (1 + (math.sqrt(5) - 1) / 2 * ct + (3 - math.sqrt(5)) / 2 * cp))


def line(a, b):
    return (a, a + (b - a) / 3, b - (b - a) / 3, b)


def at(curve, t):
    a, b, c, d = curve
    s = 1 - t
    return s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d


def slope(curve, t):
    a, b, c, d = curve
    s = 1 - t
    return 3 * (s * s * (b - a) + 2 * s * t * (c - b) + t * t * (d - c))


# Gauss and Legendre, five places.
PLACES = [(0.0, 128 / 225)] + [
    (sign * math.sqrt(5 + way * 2 * math.sqrt(10 / 7)) / 3, (322 - way * 13 * math.sqrt(70)) / 900)
    for way in (-1, 1)
    for sign in (-1, 1)
]


def length(curve, end=1.0, panels=12):
    """Length of a cubic up to a parameter."""
    half = end / panels / 2
    middles = [(2 * panel + 1) * half for panel in range(panels)]
    return sum(weight * abs(slope(curve, middle + half * x)) for middle in middles for x, weight in PLACES) * half


def cut(curve, t):
    """Both parts of a cubic parted at a parameter (de Casteljau)."""
    a, b, c, d = curve
    ab, bc, cd = a + t * (b - a), b + t * (c - b), c + t * (d - c)
    abc, bcd = ab + t * (bc - ab), bc + t * (cd - bc)
    middle = abc + t * (bcd - abc)
    return (a, ab, abc, middle), (middle, bcd, cd, d)


def solve(f, low, high):
    """Where a growing or falling function is 0."""
    rising = f(high) > 0
    if rising == (f(low) > 0):
        raise ValueError(f"no solution between {low} and {high}: {f(low):.3f}, {f(high):.3f}")
    for _ in range(70):
        middle = (low + high) / 2
        if (f(middle) > 0) == rising:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def turned(curve):
    return tuple(reversed(curve))


class Piece:
    """An outline of named runs, and what is drawn inside it."""

    def __init__(self, name):
        self.name = name
        self.curves, self.points = [], []  # a point may stand at the start of each curve
        self.lines, self.marks, self.notches = {}, {}, {}
        self.grain = self.pile = self.last = None

    def go(self, *places, start=None, end=None):
        """Goes on through places: complex numbers, or pairs of a name and a number. The first is where it stands."""
        pairs = [place if isinstance(place, tuple) else (None, place) for place in places]
        self.curves += knots([place for _, place in pairs], start, end)
        self.points += [name for name, _ in pairs[:-1]]
        self.last = pairs[-1][0]
        return self

    def straight(self, a, b):
        self.curves.append(line(a[1], b[1]))
        self.points.append(a[0])
        return self

    def walk(self, a, b):
        """The curves from one named point on to another."""
        first, count = self.points.index(a), len(self.curves)
        found = []
        for n in range(count):
            k = (first + n) % count
            if n and self.points[k] == b:
                return found
            found.append(self.curves[k])
            if k == count - 1 and self.last == b:
                return found
        if a == b:
            return found
        raise ValueError(f"{self.name} has no run {a}-{b}")

    def length(self, *names):
        pairs = zip(names, names[1:])
        return sum(length(curve) for a, b in pairs for curve in self.walk(a, b))

    def place(self, name, a, distance):
        """A new point at a distance after another, on the curve."""
        k = self.points.index(a)
        while True:
            whole = length(self.curves[k])
            if distance < whole:
                break
            distance -= whole
            k = (k + 1) % len(self.curves)
        t = solve(lambda t: length(self.curves[k], t) - distance, 0, 1)
        self.curves[k : k + 1] = cut(self.curves[k], t)
        self.points[k : k + 1] = [self.points[k], name]
        return self

    def spot(self, name):
        return self.curves[self.points.index(name)][0]

    def dart(self, mouth, tip, deep, other, bow=0.06):
        """A dart from one named place of its mouth to the other, with legs alike, bent a little towards each other."""
        (_, a), (_, b) = mouth, other
        axis = (b - a) / abs(b - a) * 1j
        point = (a + b) / 2 + deep * axis
        leg = [a, a + (point - a) / 3 + bow * deep * axis / 1j, a + (point - a) * 2 / 3 + bow * deep * axis / 1j, point]
        flip = lambda place: point + ((place - point) / axis).conjugate() * axis
        self.curves += [tuple(leg), tuple(map(flip, reversed(leg)))]
        self.points += [mouth[0], tip]
        self.last = other[0]
        return self

    def notch(self, name, a, distance, half=3.0):
        """A notch at a distance after a point."""
        k = self.points.index(a)
        while distance > length(self.curves[k]):
            distance -= length(self.curves[k])
            k = (k + 1) % len(self.curves)
        t = solve(lambda t: length(self.curves[k], t) - distance, 0, 1)
        way = slope(self.curves[k], t)
        normal = way / abs(way) * 1j
        self.notches[name] = (at(self.curves[k], t) - half * normal, at(self.curves[k], t) + half * normal)

    def mirrored(self, name):
        """The mirror image under another name, with the same points."""
        flip = lambda place: complex(-place.real, place.imag)
        image = Piece(name)
        count = len(self.curves)
        for k in range(count - 1, -1, -1):
            image.curves.append(tuple(flip(place) for place in turned(self.curves[k])))
            image.points.append(self.points[(k + 1) % count])
        image.lines = {key: [tuple(flip(p) for p in curve) for curve in curves] for key, curves in self.lines.items()}
        image.marks = {key: flip(place) for key, place in self.marks.items()}
        image.notches = {key: (flip(a), flip(b)) for key, (a, b) in self.notches.items()}
        image.grain = self.grain and tuple(flip(p) for p in self.grain)
        image.pile = self.pile and tuple(flip(p) for p in self.pile)
        return image

    def stroke(self, middle, half, both=True):
        """Grain and pile as vertical lines round a place: the grain up the page, the pile down it."""
        self.grain = (middle + 1j * half, middle - 1j * half)
        if both:
            self.pile = (middle + 7 - 1j * half, middle + 7 + 1j * half)
        return self


def scaled(factor):
    """A place of the small size, in another."""
    return lambda x, y: complex(x, y) * factor


# The pieces, each seen from its right side; the puffin looks to the left.


def head(f):
    """One side of the head: f forehead, x1 p x2 a dart in the crown, g back of the neck, y1 q y2 a dart in the neck,
    n front of the neck, t throat, and up the middle of the face to f again."""
    c = scaled(f["head"])
    piece = Piece("HEAD")
    f_, x1, x2 = c(10, 52), c(86, 6), c(99, 11)
    g, y1, y2, n, t = c(135, 87), c(99, 110), c(86, 114), c(40, 113), c(13, 93)
    piece.go(("f", f_), c(26, 25), c(54, 7), ("x1", x1), start=-66)
    piece.dart(("x1", x1), "p", 27 * f["head"], ("x2", x2))
    piece.go(("x2", x2), c(124, 38), ("g", g), start=30, end=88)
    piece.go(("g", g), ("y1", y1))
    piece.dart(("y1", y1), "q", 28 * f["head"], ("y2", y2))
    piece.go(("y2", y2), c(62, 116), ("n", n)).go(("n", n), c(24, 105), ("t", t))
    piece.go(("t", t), c(6, 72), ("f", f_), end=-66)
    return piece


def beak_line(piece, f):
    """Where the base of the beak is sewn onto the head: from the front edge round and back to it."""
    c = scaled(f["head"])
    whole = piece.length("t", "f")
    low = Piece("-")
    low.curves, low.points = list(piece.curves), list(piece.points)
    low.place("a", "t", 0.10 * whole).place("b", "a", 0.82 * whole)
    return knots([low.spot("b"), c(18, 62), c(20, 72), c(18.5, 83), low.spot("a")], start=35, end=138)


def face(f):
    """The white of the face, under the beak in front and drawn out behind the eye."""
    c = scaled(f["head"])
    piece = Piece("FACE")
    piece.go(
        ("m", c(11, 68)), c(22, 46), c(42, 34), c(66, 36), c(90, 50), ("k", c(104, 63)), start=-80, end=35
    )
    piece.go(("k", c(104, 63)), c(86, 70), c(66, 88), ("l", c(44, 96)), c(24, 88), ("m", c(11, 68)), start=-195, end=-80)
    piece.marks["eye"] = c(43, 57)
    piece.lines["crease"] = knots([c(62, 60), c(75, 64), c(89, 62)])
    piece.stroke(c(62, 66), 12 * f["head"])
    return piece


def side(f, neck):
    """One side of the body: n g the neck, z the tail, b the front corner of the base."""
    c = scaled(f["body"])

    def drawn(shift):
        piece = Piece("SIDE")
        n, g, z, b = c(31, 13) + shift, c(120, 6) - shift, c(141, 124), c(34, 132)
        piece.go(("n", n), c(75, 3), ("g", g), start=-18, end=10)
        piece.go(("g", g), c(134, 48), c(140, 88), ("z", z), start=62, end=84)
        piece.go(("z", z), c(92, 138), ("b", b), end=-172)
        piece.go(("b", b), c(14, 100), c(10, 60), ("n", n), end=-52)
        return piece

    piece = drawn(solve(lambda shift: drawn(shift).length("n", "g") - neck, -20 * f["body"], 20 * f["body"]))
    return piece


def belly(throat, front, f):
    """Halves of the black throat, t to the collar n c, and of the white belly, from there to m; b its corner."""
    c = scaled(f["body"])

    def drawn(high, low):
        t, b = 0j, complex(45 * f["body"], high + low)
        n = complex(25 * f["head"], high)
        piece = Piece("BELLY")
        piece.go(("t", t), ("n", n), complex(55 * f["body"], high + 0.52 * low), ("b", b), start=38, end=112)
        m = complex(0, b.imag + 13 * f["body"])
        piece.go(("b", b), ("m", m), start=158, end=180)
        return piece

    # n moves the length of the throat, b that of the front: a few rounds settle both.
    high, low = 22 * f["head"], 115 * f["body"]
    for _ in range(60):
        now = drawn(high, low)
        high *= 1 + 0.8 * (throat / now.length("t", "n") - 1)
        low *= 1 + 0.8 * (front / now.length("n", "b") - 1)
    whole = drawn(high, low)
    n, m = whole.spot("n"), whole.curves[-1][3]
    c = complex(0, n.imag + 5 * f["head"])
    collar = knots([n, c], end=180)
    throat_piece, piece = Piece("THROAT"), Piece("BELLY")
    throat_piece.curves = whole.walk("t", "n") + collar
    throat_piece.points = ["t", "n"]
    throat_piece.straight(("c", c), ("t", 0j))
    throat_piece.stroke(complex(5 * f["head"], 0.66 * high), 6 * f["head"])
    piece.curves = [turned(curve) for curve in reversed(collar)] + whole.walk("n", "b") + whole.walk("b", "m")
    piece.points = ["c", "n"] + [None] * (len(whole.walk("n", "b")) - 1) + ["b"]
    piece.straight(("m", m), ("c", c))
    piece.stroke(complex(18, 82) * f["body"], 25 * f["body"])
    return throat_piece, piece


def crown(front, back, f):
    """Half of the strip over the head, from the forehead f to the nape g; x where the darts meet it."""

    def drawn(high):
        piece = Piece("CROWN")
        wide = 23 * f["head"]
        half = [complex(-wide * share, high * down) for share, down in ((0.62, 0.2), (1, 0.52), (0.62, 0.84))]
        piece.go(("f", 0j), *half, ("g", complex(0, high)))
        return piece

    high = solve(lambda high: drawn(high).length("f", "g") - front - back, 60, 400)
    piece = drawn(high).straight(("g", complex(0, high)), ("f", 0j))
    piece.place("x", "f", front)
    # The pile lies from the forehead to the nape: down the page, as everywhere.
    return piece.stroke(complex(-14 * f["head"], high * 0.5), 20 * f["head"])


def base(front, back, f):
    """Half of the base: m in front, b the corner, z under the tail."""
    s = f["body"]

    def fore(deep):
        return knots([complex(0, -deep), 42 * s - 27j * s], start=0, end=52)

    def rear(deep):
        return knots([42 * s - 27j * s, 51 * s + 6j * s, complex(0, deep)], start=52, end=180)

    total = lambda curves: sum(map(length, curves))
    m = solve(lambda deep: total(fore(deep)) - front, 27.5 * s, 90 * s)
    z = solve(lambda deep: total(rear(deep)) - back, 20 * s, 160 * s)
    piece = Piece("BASE")
    piece.curves = fore(m) + rear(z) + [line(complex(0, z), complex(0, -m))]
    piece.points = ["m", "b", None, "z"]
    return piece.stroke(complex(14 * s, 2 * s), 22 * s)


def wing(root, f):
    """The outer layer of the left wing: r the front of the root at the top, s its end, e the tip."""
    c = scaled(f["wing"])
    r = c(0, 0)
    s = r + root * cmath.rect(1, math.radians(62))
    piece = Piece("WING")
    piece.go(("r", r), c(34, -13), c(72, 8), ("e", c(104, 52)), start=-58, end=66)
    piece.go(("e", c(104, 52)), c(84, 52), c(50, 47), ("s", s), start=-160, end=-165)
    piece.straight(("s", s), ("r", r))
    piece.lines["feather1"] = knots([c(54, 36), c(72, 39), c(90, 44)])
    piece.lines["feather2"] = knots([c(50, 24), c(72, 30), c(94, 42)])
    # Down the wing: from the root to the tip.
    piece.pile = (c(30, 14), c(62, 26))
    piece.grain = (c(62, 18), c(30, 6))
    return piece


def longer(piece, share, names, stay):
    """A copy of a piece a little longer along a path, the straight edge between two points as it was: the knots move
    away from the middle of that edge."""
    a, b = piece.spot(stay[0]), piece.spot(stay[1])
    axis = (b - a) / abs(b - a)
    middle = (a + b) / 2
    wanted = piece.length(*names) * share

    def drawn(factor):
        def move(place):
            local = (place - middle) / axis
            # Only away from the edge, not along it.
            return middle + complex(local.real, local.imag * factor) * axis

        copy = Piece(piece.name)
        copy.curves = [tuple(map(move, curve)) for curve in piece.curves]
        copy.points = list(piece.points)
        copy.lines = {key: [tuple(map(move, curve)) for curve in curves] for key, curves in piece.lines.items()}
        copy.marks = {key: move(place) for key, place in piece.marks.items()}
        copy.grain, copy.pile = piece.grain, piece.pile
        return copy

    return drawn(solve(lambda factor: drawn(factor).length(*names) - wanted, 1.0, 1.2))


def foot(root, f):
    """The sole of the left foot: r and s its root, o m i the toes, outer to inner."""
    c = scaled(f["foot"])
    r, s = complex(-root / 2, 0), complex(root / 2, 0)
    piece = Piece("SOLE")
    piece.go(("r", r), c(-21, 18), c(-26, 36), ("o", c(-20, 45)), c(-11, 43), c(-6, 46), ("m", c(1, 52)), c(8, 47), c(13, 43), ("i", c(22, 43)), c(25, 33), c(20, 17), ("s", s), start=112, end=-112)
    piece.straight(("s", s), ("r", r))
    piece.stroke(c(-3, 22), 13 * f["foot"])
    return piece


def tail(root, f):
    """The upper side of the tail, half: r the end of its root, e the middle of its edge, d the middle of its root."""
    c = scaled(f["tail"])
    piece = Piece("TAIL")
    r = complex(root / 2, 0)
    piece.go(("r", r), c(27, 22), c(18, 39), ("e", c(0, 44)), start=70, end=180)
    piece.straight(("e", c(0, 44)), ("d", 0j)).straight(("d", 0j), ("r", r))
    return piece.stroke(c(8, 20), 11 * f["tail"])


def beak(rim, f):
    """Both parts of one side of the beak: the base with its rim r1 r2, sewn to the head, and its seam s1 s2 to the tip."""
    c = scaled(f["beak"])
    r1, s1, s2, r2 = c(38, 1), c(21, 2.5), c(21, 35.5), c(38, 38)
    bulge = lambda sag: knots([r2, complex((r1 + r2).real / 2 + sag, (r1 + r2).imag / 2), r1])
    total = lambda curves: sum(map(length, curves))
    sag = solve(lambda sag: total(bulge(sag)) - rim, 0.1, 60)
    first = Piece("BILL")
    first.go(("r1", r1), ("s1", s1), start=192, end=172)
    first.go(("s1", s1), c(18.5, 19), ("s2", s2))
    first.go(("s2", s2), ("r2", r2), start=4, end=12)
    first.curves += bulge(sag)
    first.points += ["r2", None]
    first.grain, first.pile = (c(24, 15), c(38, 15)), (c(38, 22), c(24, 22))
    tip = Piece("TIP")
    o = c(-14, 28)
    tip.go(("s1", s1), c(2, 7), ("o", o), start=172, end=108)
    tip.go(("o", o), c(4, 32.5), ("s2", s2), start=-4, end=4)
    tip.curves += [turned(curve) for curve in reversed(first.walk("s1", "s2"))]
    tip.points += ["s2", None]
    tip.lines["groove1"] = knots([c(9, 7.5), c(6, 19), c(8.5, 30.5)])
    tip.lines["groove2"] = knots([c(0.5, 11.5), c(-2.5, 20), c(-1, 28.5)])
    # Bands of yellow along rim and seam, and the line of the mouth over both parts, to the corner where the rosette sits.
    middle = complex((r1 + r2).real / 2 + sag, (r1 + r2).imag / 2)
    first.lines["rim"] = knots([r1 + c(-3, 2.5), middle - c(4, 0), r2 + c(-3, -2.5)])
    first.lines["band"] = knots([s1 + c(2.6, 2), c(21.1, 19), s2 + c(2.6, -2)])
    first.lines["mouth"] = knots([c(33, 28), c(27, 26.5), c(20.5, 25.5)])
    first.marks["rosette"] = c(35, 28.5)
    tip.lines["mouth"] = knots([c(18, 25.3), c(4, 25), c(-9, 27.2)])
    tip.grain, tip.pile = (c(3, 26), c(17, 26)), (c(17, 15), c(3, 15))
    return first, tip


def pieces(f):
    """Every piece of a size, each solved from those it is sewn to."""
    one = head(f)
    one.lines["beak"] = beak_line(one, f)
    patch = face(f)
    one.lines["face"] = list(patch.curves)
    one.stroke(complex(104, 62) * f["head"], 14 * f["head"])
    neck = one.length("g", "y1") + one.length("y2", "n")
    body = side(f, neck)
    body.stroke(complex(84, 76) * f["body"], 28 * f["body"])

    root, foot_root, tail_root = 36 * f["wing"], 30 * f["foot"], 44 * f["tail"]
    back, front = body.length("g", "z"), body.length("b", "n")
    body.place("u", "g", 0.22 * back).place("v", "u", 0.58 * back)
    body.place("k", "z", tail_root / 2)
    throat, wide = belly(one.length("n", "t"), front, f)
    # Wing and foot take their places by length, on both layers of their seams.
    shoulder = 0.12 * front
    body.place("w2", "b", front - shoulder - root).place("w1", "w2", root)
    wide.place("w1", "n", shoulder).place("w2", "w1", root)
    edge = wide.length("b", "m")
    inner = 0.26 * edge
    wide.place("j", "b", edge - inner - foot_root).place("i", "j", foot_root)
    seat = base(edge, body.length("z", "b"), f)
    seat.place("i", "m", inner).place("j", "i", foot_root)
    seat.place("k", "b", seat.length("b", "z") - tail_root / 2)

    strip = crown(one.length("f", "x1") / EASE["crown"], one.length("x2", "g") / EASE["crown"], f)
    # A notch halfway down the side of the body, another on the belly beside it.
    body.notch("a", "b", 0.35 * front)
    wide.notch("a", "n", 0.65 * front)

    outer = wing(root, f)
    outer, inner_wing = longer(outer, EASE["wing"], ("r", "e", "s"), ("r", "s")), outer.mirrored("WINGIN")
    inner_wing.lines = {}
    sole = foot(root=foot_root, f=f)
    upper = longer(sole, EASE["foot"], ("r", "o", "m", "i", "s"), ("r", "s")).mirrored("FOOT")
    c = scaled(f["foot"])
    upper.lines["toe1"] = knots([c(10, 40), c(7, 30), c(5, 20)])
    upper.lines["toe2"] = knots([c(-11, 39), c(-8, 30), c(-5, 20)])
    top = tail(tail_root, f)
    under = tail(tail_root, f)
    under.name = "UNDER"
    rim, tip = beak(sum(map(length, one.lines["beak"])), f)
    return [body, one, strip, throat, wide, seat, outer, inner_wing, upper, sole, top, under, rim, tip, patch]


# Writing.


def number(value):
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def place(p):
    return f"{number(p.real)} {number(p.imag)}"


def path(curves, close=False):
    text = "M " + place(curves[0][0])
    for a, b, c, d in curves:
        straight = abs((b - a) - (d - a) / 3) < 1e-9 and abs((d - c) - (d - a) / 3) < 1e-9
        text += f" L {place(d)}" if straight else f" C {place(b)} {place(c)} {place(d)}"
    return text + (" Z" if close else "")


def box(curves):
    spots = [at(curve, n / 24) for curve in curves for n in range(25)]
    xs, ys = [p.real for p in spots], [p.imag for p in spots]
    return min(xs), min(ys), max(xs), max(ys)


def moved(piece, by):
    shift = lambda curve: tuple(p + by for p in curve)
    piece.curves = [shift(curve) for curve in piece.curves]
    piece.lines = {key: [shift(curve) for curve in curves] for key, curves in piece.lines.items()}
    piece.marks = {key: p + by for key, p in piece.marks.items()}
    piece.notches = {key: shift(pair) for key, pair in piece.notches.items()}
    piece.grain = piece.grain and shift(piece.grain)
    piece.pile = piece.pile and shift(piece.pile)


def arranged(all_pieces, width, gap=24.0):
    """Puts the pieces on the page in rows; returns the height that takes."""
    x = y = gap
    row = 0.0
    for piece in sorted(all_pieces, key=lambda one: -(box(one.curves)[3] - box(one.curves)[1])):
        left, top, right, low = box(piece.curves)
        if x + right - left + gap > width:
            x, y, row = gap, y + row + gap, 0.0
        moved(piece, complex(round(x - left, 3), round(y - top, 3)))
        x += right - left + gap
        row = max(row, low - top)
    return y + row + gap


def drawing(size, factors):
    all_pieces = pieces(factors)
    width = 560 if size == "S" else 760
    height = math.ceil(arranged(all_pieces, width)) + 16
    rows = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f"<!-- Puffin, size {size}: sew lines in true size, written by spec-examples/outlines.py. An invented toy. -->",
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}" '
        'fill="none" stroke="#000000" stroke-width="0.35">',
        f'  <line id="gauge" x1="24" y1="{height - 12}" x2="124" y2="{height - 12}"/>',
    ]
    for piece in all_pieces:
        rows.append(f'  <g id="{piece.name}">')
        rows.append(f'    <path id="{piece.name}.outline" d="{path(piece.curves, close=True)}"/>')
        for name, curve in zip(piece.points, piece.curves):
            if name:
                x, y = number(curve[0].real), number(curve[0].imag)
                rows.append(f'    <circle id="{piece.name}.{name}" cx="{x}" cy="{y}" r="1"/>')
        for name, (a, b) in (("grain", piece.grain), ("pile", piece.pile)):
            rows.append(f'    <path id="{piece.name}.{name}" stroke="#3a6ea5" d="M {place(a)} L {place(b)}"/>')
        for name, curves in piece.lines.items():
            closed = abs(curves[0][0] - curves[-1][3]) < 1e-9
            rows.append(f'    <path id="{piece.name}.line.{name}" stroke="#b3541e" d="{path(curves, closed)}"/>')
        for name, p in piece.marks.items():
            rows.append(f'    <circle id="{piece.name}.mark.{name}" cx="{number(p.real)}" cy="{number(p.imag)}" r="2"/>')
        for name, (a, b) in piece.notches.items():
            rows.append(f'    <path id="{piece.name}.notch.{name}" d="M {place(a)} L {place(b)}"/>')
        rows.append("  </g>")
    return "\n".join(rows + ["</svg>", ""])


def keep(folder, texts):
    """Writes each text to its file; with --check compares instead, and ends in failure where a file differs."""
    if "--check" in sys.argv[1:]:
        current = {name: (folder / name).read_text(encoding="utf-8") for name in texts if (folder / name).exists()}
        stale = [name for name, text in texts.items() if current.get(name) != text]
        if stale:
            sys.exit(f"not what {Path(sys.argv[0]).name} draws: {', '.join(stale)}")
        return
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    keep(FOLDER, {f"{size}.svg": drawing(size, factors) for size, factors in SIZES.items()})
