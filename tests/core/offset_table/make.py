"""Areas and lengths of equal offsets of 20 polygons by another library (shapely, GEOS).

Writes areas.csv beside this file: shape, allowance in mm, corner style, area in mm2, length in mm. Run it with
`python3 make.py` where shapely is installed; the version is in the first line of the table.
"""

import math
import pathlib

import shapely
from shapely.geometry import Polygon


def regular(count, radius):
    step = 2.0 * math.pi / count
    return [(round(radius * math.cos(n * step), 3), round(radius * math.sin(n * step), 3)) for n in range(count)]


def star(count, inner, outer):
    step = math.pi / count
    radii = [outer, inner]
    return [
        (round(radii[n % 2] * math.cos(n * step), 3), round(radii[n % 2] * math.sin(n * step), 3))
        for n in range(2 * count)
    ]


SHAPES = {
    "panel": [(0, 0), (80, 0), (80, 120), (0, 120)],
    "strip": [(0, 0), (400, 0), (400, 30), (0, 30)],
    "triangle": [(0, 0), (120, 0), (120, 90)],
    "equal triangle": regular(3, 80),
    "pentagon": regular(5, 60),
    "hexagon": regular(6, 60),
    "octagon": regular(8, 75),
    "fine ring": regular(48, 90),
    "ell": [(0, 0), (120, 0), (120, 60), (60, 60), (60, 120), (0, 120)],
    "tee": [(0, 80), (0, 60), (40, 60), (40, 0), (80, 0), (80, 60), (120, 60), (120, 80)],
    "cross": [(40, 0), (80, 0), (80, 40), (120, 40), (120, 80), (80, 80), (80, 120), (40, 120), (40, 80), (0, 80),
              (0, 40), (40, 40)],
    "arrow": [(0, 0), (60, 30), (120, 0), (60, 120)],
    "kite": [(0, 0), (50, 60), (0, 150), (-50, 60)],
    "slanted": [(0, 0), (100, 0), (140, 70), (40, 70)],
    "trapeze": [(0, 0), (140, 0), (100, 60), (40, 60)],
    "wedge": [(0, 0), (150, 0), (150, 40), (0, 80)],
    "star": star(5, 40, 90),
    "blunt star": star(7, 60, 85),
    "house": [(0, 0), (90, 0), (90, 60), (45, 100), (0, 60)],
    "saddle": [(0, 0), (160, 0), (160, 90), (120, 100), (80, 70), (40, 100), (0, 90)],
}


def main():
    lines = [f"shape,allowance,corner,area,length  # shapely {shapely.__version__}, GEOS {shapely.geos_version_string}"]
    for name, corners in SHAPES.items():
        shape = Polygon(corners)
        assert shape.is_valid and shape.exterior.is_ccw, name
        for allowance in (5.0, 10.0, -5.0):
            for style, join in (("mitre", 2), ("round", 1)):
                grown = shape.buffer(allowance, quad_segs=2048, join_style=join, mitre_limit=50.0)
                assert grown.geom_type == "Polygon" and not grown.interiors, (name, allowance)
                lines.append(f"{name},{allowance},{style},{grown.area:.3f},{grown.length:.3f}")
    for name, corners in SHAPES.items():
        lines.append("#" + name + "," + ",".join(f"{x} {y}" for x, y in corners))
    pathlib.Path(__file__).with_name("areas.csv").write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
