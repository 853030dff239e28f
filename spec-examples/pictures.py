"""Draws the pictures of the examples: invented products, nothing photographed.

    python3 -m venv venv && venv/bin/pip install numpy pillow
    venv/bin/python spec-examples/pictures.py [cushion] [ball]

Each product is a signed distance function in millimetres. It is looked at through a pinhole camera by sphere tracing,
shaded in a few soft tones, and inked where the surface, the material or the depth changes. Greys and one colour only, so
that a page printed in black still shows everything. The spots of the measurement arrows are printed at the end.
"""

import sys
from pathlib import Path

import numpy as np
from PIL import Image

HERE = Path(__file__).resolve().parent
WIDTH, HEIGHT, FINE = 1600, 1200, 2
INK = np.array([38, 40, 42], np.float32)
PAPER = np.array([255, 255, 255], np.float32)


class Camera:
    """A pinhole camera that looks at a target from a direction given in degrees."""

    def __init__(self, turn, rise, distance, target=(0, 0, 0), field=20.0):
        turn, rise = np.radians(turn), np.radians(rise)
        back = np.array([np.sin(turn) * np.cos(rise), -np.cos(turn) * np.cos(rise), np.sin(rise)])
        self.eye = np.array(target, float) + distance * back
        self.ahead = -back
        self.right = np.cross(self.ahead, [0, 0, 1.0])
        self.right /= np.linalg.norm(self.right)
        self.up = np.cross(self.right, self.ahead)
        self.half = np.tan(np.radians(field) / 2)
        light = 0.40 * back - 0.72 * self.right + 0.70 * np.array([0, 0, 1.0])
        self.light = (light / np.linalg.norm(light)).astype(np.float32)

    def rays(self):
        """Directions through every fine pixel, row by row."""
        w, h = WIDTH * FINE, HEIGHT * FINE
        x = (np.arange(w) + 0.5) / w * 2 - 1
        y = (1 - (np.arange(h) + 0.5) / h * 2) * HEIGHT / WIDTH
        x, y = np.meshgrid(x * self.half, y * self.half)
        rays = self.ahead + x[..., None] * self.right + y[..., None] * self.up
        return (rays / np.linalg.norm(rays, axis=-1, keepdims=True)).astype(np.float32).reshape(-1, 3)

    def spot(self, point):
        """Where a point is seen, in hundredths of width and height from the top left."""
        p = np.array(point, float) - self.eye
        depth = p @ self.ahead
        x, y = p @ self.right / depth / self.half, p @ self.up / depth / self.half
        return f"{50 + 50 * x:.1f} % {50 - 50 * y * WIDTH / HEIGHT:.1f} %"


def smooth_max(a, b, k):
    """The larger of two distances, rounded over k."""
    h = np.clip(0.5 + 0.5 * (a - b) / k, 0, 1)
    return b + (a - b) * h + k * h * (1 - h)


def rounded_square(x, y, half, radius):
    """Distance to a square with round corners in the plane."""
    qx, qy = np.abs(x) - (half - radius), np.abs(y) - (half - radius)
    outside = np.hypot(np.maximum(qx, 0), np.maximum(qy, 0))
    return outside + np.minimum(np.maximum(qx, qy), 0) - radius


class Cushion:
    """A square box cushion, 450 mm wide and 100 mm high at its sides, piped along both edges."""

    FABRIC, CORD, METAL, TAPE = 1, 2, 3, 4
    TONES = {
        1: np.array([139, 148, 104], np.float32),
        2: np.array([236, 232, 222], np.float32),
        3: np.array([206, 208, 210], np.float32),
        4: np.array([205, 208, 190], np.float32),
    }
    half, high, corner, cord = 225.0, 50.0, 26.0, 5.6
    gap, floor, reach = 3.0, -56.5, 1.0

    def body(self, x, y, z):
        flat = rounded_square(x, y, self.half, self.corner)
        u, v = np.clip(x / self.half, -1, 1) ** 2, np.clip(y / self.half, -1, 1) ** 2
        dome = np.where(z > 0, 36, 5) * ((1 - u) * (1 - v)) ** 0.62
        along = np.where(u > v, y, x)
        inward = np.maximum(-flat, 0)
        pucker = 0.9 * np.sin(along * 0.17 + 2 * np.sin(along * 0.031)) * np.exp(-inward / 20) * inward / 20
        top = np.abs(z) - (self.high - 1 + dome + pucker)
        belly = 7 * np.clip(1 - (z / self.high) ** 2, 0, 1)
        side = flat + 2.5 - belly + 2.6 * np.exp(-((z / 3.4) ** 2)) * (y > 150) * (np.abs(x) < 214)
        return smooth_max(top, side, 5) * 0.8

    def piping(self, x, y, z):
        flat = rounded_square(x, y, self.half, self.corner)
        return np.hypot(flat, np.abs(z) - self.high) - self.cord

    def slider(self, x, y, z):
        """The slider near the left end of the zip and the puller that hangs from it."""
        y = y - 231
        body = np.maximum(np.maximum(np.abs(x + 186) - 7, np.abs(z) - 4.5), np.abs(y) - 3) - 1
        tab = np.hypot(np.maximum(np.abs(x + 186) - 3, 0), np.maximum(np.abs(z + 17) - 11, 0)) - 2.5
        tab = np.maximum(tab, np.abs(y - 2.5) - 1.2)
        hole = np.hypot(x + 186, z + 24) - 2.2
        return np.minimum(body, np.maximum(tab, -hole))

    def parts(self, p):
        x, y, z = p[:, 0], p[:, 1], p[:, 2]
        return np.stack([self.body(x, y, z), self.piping(x, y, z), self.slider(x, y, z)])

    def materials(self, p, part):
        """Material of each point: the part it lies on, and the coil in the gap of the zip."""
        x, y, z = p[:, 0], p[:, 1], p[:, 2]
        found = np.array([self.FABRIC, self.CORD, self.METAL])[part]
        coil = (found == self.FABRIC) & (y > 200) & (np.abs(z) < self.gap) & (np.abs(x) < 200)
        return np.where(coil, self.TAPE, found)

    def marks(self, p, material):
        """How much ink each point carries of itself: seams, stitches, teeth; from 0 to 1."""
        x, y, z = p[:, 0], p[:, 1], p[:, 2]
        fabric = material == self.FABRIC
        back = (y > 200) & (np.abs(x) < 222) & (fabric | (material == self.TAPE))
        teeth = (material == self.TAPE) & (np.mod(x, 4.4) < 2.0)
        fold = back & (np.abs(np.abs(z) - self.gap) < 0.6) & (np.abs(x) < 200)
        seam = back & (np.abs(z) < 0.8) & (np.abs(x) >= 200)
        stitch = back & (np.abs(np.abs(z) - 11) < 0.75) & (np.abs(x) < 200) & (np.mod(x, 6.0) < 3.8)
        tack = back & (np.abs(np.abs(x) - 201) < 1.3) & (np.abs(z) < 10)
        end = fabric & (y > 200) & (np.abs(np.abs(x) - y) < 1.1) & (np.abs(z) < self.high - 4)
        return 0.8 * teeth + 0.8 * fold + 0.8 * seam + 0.65 * stitch + 0.9 * tack + 0.6 * end

    def shadow(self, x, y):
        """How dark the table is."""
        near = rounded_square(x, y, self.half - 12, 50)
        return 0.34 * np.exp(-np.maximum(near, 0) / 26) + 0.12 * np.exp(-np.maximum(near, 0) / 70)


class Ball:
    """A juggling ball of six gores, 65 mm across, filled with pellets so that it sags a little."""

    COLOUR, GREY, THREAD = 1, 2, 3
    TONES = {
        1: np.array([186, 84, 66], np.float32),
        2: np.array([226, 224, 219], np.float32),
        3: np.array([120, 60, 50], np.float32),
    }
    radius = 32.5
    floor, reach = -29.6, 0.8

    def __init__(self, tilt, closing=None):
        """A ball turned by two angles; `closing` is the gore at whose end the closed opening is seen."""
        self.closing = closing
        a, b = np.radians(tilt)
        about_x = np.array([[1, 0, 0], [0, np.cos(a), -np.sin(a)], [0, np.sin(a), np.cos(a)]])
        about_z = np.array([[np.cos(b), -np.sin(b), 0], [np.sin(b), np.cos(b), 0], [0, 0, 1]])
        self.own = (about_z @ about_x).astype(np.float32)

    def angles(self, p):
        """Place on the ball: longitude from the nearest seam, gore number, polar distance from -1 to 1, radius."""
        q = p @ self.own.T
        r = np.linalg.norm(q, axis=-1) + 1e-6
        turn = np.arctan2(q[:, 1], q[:, 0]) / (np.pi / 3)
        gore = np.floor(turn)
        return (turn - gore - 0.5) * (np.pi / 3), gore, q[:, 2] / r, r

    def parts(self, p):
        sag = p * np.array([1, 1, 1.07], np.float32) + np.array([0, 0, -0.4], np.float32)
        offset, _, pole, r = self.angles(sag)
        across = np.sqrt(np.maximum(1 - pole**2, 0)) * self.radius
        seam = (1 - (offset / (np.pi / 6)) ** 2) * np.pi / 12 * across
        groove = 1.5 * np.exp(-seam / 1.3) + 1.1 * np.exp(-seam / 5)
        dent = 1.6 * np.exp(-((across / 5) ** 2))
        lumps = 0.17 * np.sin(p[:, 0] * 0.62 + 1.3) * np.sin(p[:, 1] * 0.57 + 0.4) * np.sin(p[:, 2] * 0.66)
        round_ = r - (self.radius + 1.0 - groove - dent + lumps)
        low = -p[:, 2] - 29.6
        return smooth_max(round_, low, 5)[None] * 0.75

    def materials(self, p, _part):
        _, gore, _, _ = self.angles(p * np.array([1, 1, 1.07], np.float32))
        return np.where(np.mod(gore, 2) == 0, self.COLOUR, self.GREY)

    def marks(self, p, _material):
        """The ladder stitch that closes the opening, across one seam near the middle."""
        offset, gore, pole, _ = self.angles(p * np.array([1, 1, 1.07], np.float32))
        across = np.sqrt(np.maximum(1 - pole**2, 0)) * self.radius
        seam = (np.pi / 6 - np.abs(offset)) * across
        if self.closing is None:
            return 0.8 * (seam < 0.28)
        closed = ((gore == self.closing) & (offset > 0)) | ((gore == self.closing + 1) & (offset < 0))
        height = np.arcsin(np.clip(pole, -1, 1)) * self.radius
        rung = (np.mod(height, 3.0) < 0.7) & (np.abs(height) < 36) & (seam < 1.0)
        return 0.75 * (rung & closed) + 0.8 * (seam < 0.28)

    def shadow(self, x, y):
        r = np.hypot(x, y)
        return 0.42 * np.exp(-((r / 23) ** 4)) + 0.14 * np.exp(-((r / 30) ** 2))


def trace(thing, camera, rays):
    """Distance along each ray to the surface; infinity where it meets none."""
    eye = camera.eye.astype(np.float32)
    size = getattr(thing, "half", thing.radius if hasattr(thing, "radius") else 1) * 1.75
    middle = -rays @ eye
    gap = np.linalg.norm(eye + middle[:, None] * rays, axis=-1)
    live = np.flatnonzero(gap < size)
    far = np.full(len(rays), np.inf, np.float32)
    t = middle[live] - np.sqrt(size**2 - gap[live] ** 2)
    for _ in range(320):
        d = thing.parts(eye + t[:, None] * rays[live]).min(axis=0)
        done = d < 0.005 * thing.reach
        far[live[done]] = t[done]
        keep = ~done & (t < middle[live] + size)
        live, t = live[keep], t[keep] + d[keep] * 0.9
        if not len(live):
            break
    return far


def normals(thing, p):
    """Directions away from the surface."""
    e = 0.12 * thing.reach
    corners = np.array([[1, -1, -1], [-1, -1, 1], [-1, 1, -1], [1, 1, 1]], np.float32)
    n = sum(c * thing.parts(p + e * c).min(axis=0)[:, None] for c in corners)
    return n / np.maximum(np.linalg.norm(n, axis=-1, keepdims=True), 1e-6)


def openness(thing, p, n):
    """How free a point stands: 1 in the open, less in a corner."""
    shade = np.ones(len(p), np.float32)
    for step in (3, 8, 18):
        step = step * (0.25 if thing.reach < 1 else 1)
        d = thing.parts(p + step * n).min(axis=0)
        shade -= 0.28 * np.clip(1 - d / step, 0, 1)
    return np.clip(shade, 0.25, 1)


def shade(thing, p, n, material, view, light):
    """Colour of surface points: a lit tone, a little gloss, darker where the place is narrow."""
    tone = np.zeros((len(p), 3), np.float32)
    for number, colour in thing.TONES.items():
        tone[material == number] = colour
    lit = np.clip(n @ light, -1, 1)
    facing = np.clip(-(n * view).sum(axis=-1), 0, 1)
    soft = 0.40 + 0.62 * np.clip(lit * 0.75 + 0.25, 0, 1) + 0.10 * (n[:, 2] * 0.5 + 0.5)
    soft *= 0.86 + 0.14 * np.minimum(facing * 1.6, 1)
    soft *= 0.55 + 0.45 * openness(thing, p, n)
    half = light - view
    half /= np.linalg.norm(half, axis=-1, keepdims=True)
    gloss = np.clip((n * half).sum(axis=-1), 0, 1) ** 26 * 0.10
    return tone * soft[:, None] + 255 * gloss[:, None]


def inked(field, width):
    """Fine pixels next to a jump of the field, thickened to a line."""
    edge = np.zeros(field.shape, bool)
    edge[:, 1:] |= field[:, 1:] != field[:, :-1]
    edge[1:, :] |= field[1:, :] != field[:-1, :]
    return thick(edge, width)


def thick(edge, width):
    """Grows marked pixels to a disc of that radius."""
    grown = edge.copy()
    edge = np.pad(edge, width)
    inside = (slice(width, -width), slice(width, -width))
    for dy in range(-width, width + 1):
        for dx in range(-width, width + 1):
            if dx * dx + dy * dy <= width * width + 1:
                grown |= np.roll(edge, (dy, dx), (0, 1))[inside]
    return grown


def table(thing, camera, rays, far):
    """The shadow on the table under the thing, for rays that meet nothing else."""
    dark = np.zeros(len(rays), np.float32)
    down = (rays[:, 2] < -1e-4) & ~np.isfinite(far)
    t = (thing.floor - camera.eye[2]) / rays[down, 2]
    spot = camera.eye + t[:, None] * rays[down]
    dark[down] = thing.shadow(spot[:, 0], spot[:, 1])
    return np.clip(dark - 0.02, 0, 1)


def draw(thing, camera, path):
    """One picture, written as a PNG with a small palette."""
    rays = camera.rays()
    far = trace(thing, camera, rays)
    hit = np.flatnonzero(np.isfinite(far))
    p = (camera.eye + far[hit, None] * rays[hit]).astype(np.float32)
    part = thing.parts(p).argmin(axis=0)
    material = thing.materials(p, part)
    n = normals(thing, p)
    image = PAPER * (1 - table(thing, camera, rays, far))[:, None]
    colour = shade(thing, p, n, material, rays[hit], camera.light)
    ink = np.clip(thing.marks(p, material), 0, 1)[:, None]
    image[hit] = colour * (1 - ink) + INK * ink
    shape = (HEIGHT * FINE, WIDTH * FINE)
    outer, inner = np.zeros(len(rays), np.int8), np.zeros(len(rays), np.int8)
    outer[hit], inner[hit] = 1, material
    image = image.reshape(*shape, 3)
    image[inked(inner.reshape(shape), 1)] = INK
    image[inked(outer.reshape(shape), 3)] = INK
    save(image, path)


def save(image, path):
    """Averages the fine pixels and keeps 160 tones."""
    small = image.reshape(HEIGHT, FINE, WIDTH, FINE, 3).mean(axis=(1, 3))
    picture = Image.fromarray(np.clip(small + 0.5, 0, 255).astype(np.uint8))
    path.parent.mkdir(parents=True, exist_ok=True)
    palette = picture.quantize(160, method=Image.Quantize.MEDIANCUT, kmeans=2, dither=Image.Dither.NONE)
    palette.save(path, optimize=True)
    print(f"{path.relative_to(HERE)}: {path.stat().st_size // 1024} kB")


def cushion():
    """Front, left side and back of the cushion, and where its arrows start and end."""
    thing, folder = Cushion(), HERE / "floor-cushion" / "pictures"
    a, h = thing.half, thing.high
    front = Camera(-28, 30, 2250, (0, 0, -4))
    side = Camera(-90, 0.6, 2150, (0, 0, 6))
    back = Camera(180 - 26, 24, 2250, (0, 0, 0))
    for camera, name in ((front, "front"), (side, "side"), (back, "back")):
        draw(thing, camera, folder / f"{name}.png")
    arrows = {
        "A": (front, (-a, -120, h + 12), (a, -120, h + 12)),
        "B": (front, (-165, -a, h + 8), (-165, a, h + 8)),
        "E": (front, (-a, -a, h), (-a, -a, -h)),
        "C": (front, (120, -a - 5, h), (120, -a - 5, -h)),
        "F": (side, (0, 0, -55), (0, 0, 86)),
        "D": (back, (-200, a + 8, -34), (200, a + 8, -34)),
    }
    for name, (camera, start, end) in arrows.items():
        print(f'{name}: ["{camera.spot(start)}", "{camera.spot(end)}"]')


def ball():
    """The ball with its pole towards the viewer's top, and the closed seam."""
    folder = HERE / "juggling-ball" / "pictures"
    draw(Ball((-32, 14)), Camera(0, 14, 285), folder / "front.png")
    draw(Ball((6, -38), closing=-3), Camera(0, 8, 285), folder / "seam.png")


if __name__ == "__main__":
    wanted = sys.argv[1:] or ["cushion", "ball"]
    for name in wanted:
        {"cushion": cushion, "ball": ball}[name]()
