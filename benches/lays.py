#!/usr/bin/env python3
"""Lays of this packer beside those of the Python wheel `spyrrow` 0.9.0, in one run: the same seconds, two threads, seeds in turn.

    benches/lays.py FOLDER [--seconds S] [--seeds N] [--toys] [--only NAME ...]
    benches/lays.py FOLDER --rows

FOLDER holds instances of the public packing format as JSON; this packer is given them in its own words (see the README). The wheel goes into a throw-away environment. `--toys` adds soft toys of our
own making: curved pieces with 5 mm allowance, pile one way, 1.48 m wide. A table shows mean density and its standard error,
and which rows fall short. `--rows` measures this packer alone instead: lays of 1, 2 and 8 threads and of builds with and
without wide vectors byte by byte, the usual budget against ten times that, and a thousand pieces against a hundred of the
same mix. A busy machine falsifies it: the load is printed.
"""

import argparse
import json
import math
import os
import pathlib
import random
import statistics
import subprocess
import sys
import tempfile

# Best known densities and the 20-minute means of the published method, %: the public result archive that accompanies
# arXiv 2509.13329.
PUBLISHED = {
    "albano": (89.82, 89.46), "dagli": (90.17, 89.23), "fu": (92.39, 92.25), "jakobs1": (89.24, 89.08), "jakobs2": (87.72, 84.88),
    "mao": (86.87, 86.09), "shapes0": (69.98, 68.57), "shapes1": (76.72, 75.74), "shirts": (90.92, 89.72),
}

OTHER = """
import json, sys, spyrrow
data, seconds, seed = json.load(open(sys.argv[1])), int(float(sys.argv[2])), int(sys.argv[3])
items = [spyrrow.Item(str(i["id"]), [tuple(p) for p in i["shape"]["data"]], i["demand"], i["allowed_orientations"])
         for i in data["items"]]
config = spyrrow.StripPackingConfig(early_termination=False, total_computation_time=seconds, num_workers=2, seed=seed)
print(spyrrow.StripPackingInstance(data["name"], data["strip_height"], items).solve(config).width)
"""


def area(points):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:]))) / 2


def curve(radius, count=36):
    """A closed outline in mm, given by its distance from the middle at every angle."""
    points = []
    for step in range(count):
        angle = 2 * math.pi * step / count
        x, y = radius(angle)
        points.append([round(x, 3), round(y, 3)])
    return points + points[:1]


def toy(chance, scale=1.0):
    """Pieces of one invented toy: body, head, gusset, limbs, ears, soles, tail. Each outline holds 5 mm of allowance."""
    def blob(width, height, lean, dent):
        def at(angle):
            bulge = 1 + lean * math.cos(angle) + dent * math.cos(3 * angle)
            return ((width * scale / 2 * bulge + 5) * math.cos(angle), (height * scale / 2 * bulge + 5) * math.sin(angle))
        return curve(at)

    def banana(length, width, bend):
        def at(angle):
            x = (length * scale / 2 + 5) * math.cos(angle)
            return (x, (width * scale / 2 + 5) * math.sin(angle) + bend * scale * (2 * x / length / scale) ** 2)
        return curve(at)

    vary = lambda low, high: chance.uniform(low, high)
    kinds = [
        (blob(vary(170, 200), vary(110, 140), 0.12, 0.05), 2), (blob(vary(140, 170), vary(90, 120), 0.2, 0.03), 2),
        (blob(vary(110, 140), vary(90, 120), 0.1, 0.06), 2), (banana(vary(200, 240), vary(50, 70), vary(20, 40)), 1),
        (banana(vary(100, 130), vary(40, 55), vary(10, 25)), 4), (blob(vary(110, 140), vary(50, 65), 0.15, 0.02), 4),
        (blob(vary(50, 70), vary(40, 50), 0.1, 0.0), 4), (banana(vary(60, 80), vary(30, 40), vary(5, 15)), 2),
        (blob(vary(40, 60), vary(20, 30), 0.2, 0.0), 2), (blob(vary(30, 40), vary(30, 40), 0.0, 0.08), 1),
    ]
    return kinds


def toys(folder):
    """Writes the soft-toy set: one toy, four of it, three sizes mixed, and a thousand pieces."""
    sets = {"toy-1": [(1.0, 1)], "toy-4": [(1.0, 4)], "toy-sizes": [(0.8, 2), (1.0, 2), (1.25, 2)]}
    for name, sizes in sets.items():
        items = []
        for size, times in sizes:
            for outline, demand in toy(random.Random(11), size):
                shape = {"type": "simple_polygon", "data": outline}
                items.append({"id": f"{len(items)}", "demand": demand * times, "allowed_orientations": [0.0], "shape": shape})
        data = {"name": name, "strip_height": 1480.0, "items": items}
        (folder / f"{name}.json").write_text(json.dumps(data))
    return [folder / f"{name}.json" for name in sets]


def in_our_words(data):
    """An instance of the public format as `backtack lay` reads it."""
    pieces = [
        {"id": item["id"], "quantity": item["demand"], "may-lie": item["allowed_orientations"], "outline": item["shape"]["data"]}
        for item in data["items"]
    ]
    return {"name": data["name"], "cuttable-width": data["strip_height"], "pieces": pieces}


def run(binary, path, seed, *options, threads=2):
    """What one run of this packer tells: length, density, evaluations, seconds, memory."""
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(in_our_words(json.loads(path.read_text())), file)
        file.flush()
        command = [binary, file.name, "--seed", str(seed), "--threads", str(threads), *map(str, options)]
        return json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)


def ours(binary, path, seconds, seed):
    return run(binary, path, seed, "--seconds", seconds)["length"]


def other(python, path, seconds, seed):
    command = [python, "-c", OTHER, str(path), str(seconds), str(seed)]
    return float(subprocess.run(command, check=True, capture_output=True, text=True).stdout)


def built(root, **environment):
    """The runner of this packer, compiled for speed."""
    command = ["cargo", "bench", "-p", "backtack-core", "--bench", "lays", "--no-run", "--message-format=json"]
    environment = os.environ | environment
    lines = subprocess.run(command, check=True, capture_output=True, text=True, cwd=root, env=environment).stdout.splitlines()
    made = [json.loads(line) for line in lines if line.startswith("{")]
    return [one["executable"] for one in made if one.get("executable") and one["target"]["name"] == "lays"][-1]


def row(name, measured, limit, short):
    print(f"{name:44} {measured:>26} {limit:>22}{'  SHORT' if short else ''}", flush=True)


def budgets(binary, path, seeds=5):
    """The usual budget against ten times that, and how long it takes."""
    usual = [run(binary, path, seed) for seed in range(1, seeds + 1)]
    tenfold = [run(binary, path, seed, "--evaluations", 10 * usual[0]["evaluations"]) for seed in range(1, seeds + 1)]
    mean = lambda runs: statistics.mean(one["length"] for one in runs)
    longer = (mean(usual) / mean(tenfold) - 1) * 100
    row(f"{path.stem}: usual budget longer than 10 x", f"{longer:+.2f} %", "at most 1.50 %", longer > 1.5)
    seconds = statistics.mean(one["seconds"] for one in usual)
    row(f"{path.stem}: usual budget takes", f"{seconds:.2f} s", "under 3 s, 30 pieces", seconds >= 3)


def thousand(binary, work, seconds=60):
    """A thousand pieces against about a hundred of the same mix: density and memory."""
    many, few = work / "toy-40.json", work / "toy-4.json"
    data = json.loads(few.read_text())
    for item in data["items"]:
        item["demand"] *= 10
    many.write_text(json.dumps(data))
    small, large = (run(binary, path, 1, "--seconds", seconds) for path in (few, many))
    count = sum(item["demand"] for item in data["items"])
    less = small["density"] - large["density"]
    name = f"{count} pieces under {count // 10} of the mix, {seconds} s"
    row(name, f"{large['density']:.2f}, {small['density']:.2f}: {less:+.2f}", "at most +1.00", less > 1)
    row(f"{count} pieces: peak memory", f"{large['memory']:.0f} MB", "under 100 MB", large["memory"] >= 100)


def threads(binary, paths, work):
    """Whether 1, 2 and 8 threads lay the same, byte by byte."""
    for path in paths:
        found = set()
        for count in (1, 2, 8):
            places = work / "places.txt"
            run(binary, path, 1, "--evaluations", 1_000_000, "--places", places, threads=count)
            found.add(places.read_bytes())
        row(f"{path.stem}: lays of 1, 2, 8 threads", f"{len(found)} different", "1", len(found) > 1)


def vectors(binary, paths, work, root):
    """Whether a build that may use every instruction of this processor, wide vectors too, lays the same."""
    wide = built(root, RUSTFLAGS="-C target-cpu=native", CARGO_TARGET_DIR=str(work / "wide"))
    for path in paths:
        found = set()
        for one in (binary, wide):
            places = work / "places.txt"
            run(one, path, 1, "--evaluations", 1_000_000, "--places", places)
            found.add(places.read_bytes())
        row(f"{path.stem}: lays with and without wide vectors", f"{len(found)} different", "1", len(found) > 1)


def rows(binary, paths, work, root):
    print(f"this packer alone, load before {os.getloadavg()[0]:.1f}")
    own = toys(work)
    threads(binary, paths + own, work)
    vectors(binary, paths + own, work, root)
    # Not the single toy: it is as long as its longest piece, whatever the budget.
    for path in paths:
        count = sum(item["demand"] for item in json.loads(path.read_text())["items"])
        if 20 <= count <= 30:
            budgets(binary, path)
    thousand(binary, work)
    print(f"load after {os.getloadavg()[0]:.1f}")


def spread(values):
    return statistics.stdev(values) / math.sqrt(len(values)) if len(values) > 1 else float("nan")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("--seconds", type=int, default=10)
    parser.add_argument("--seeds", type=int, default=8)
    parser.add_argument("--toys", action="store_true")
    parser.add_argument("--only", nargs="*", default=[])
    parser.add_argument("--binary", help="the runner, if it is built already")
    parser.add_argument("--python", help="a Python with spyrrow 0.9.0, if there is one already")
    parser.add_argument("--rows", action="store_true", help="measure this packer alone")
    asked = parser.parse_args()
    root = pathlib.Path(__file__).resolve().parent.parent
    with tempfile.TemporaryDirectory() as work:
        work = pathlib.Path(work)
        if asked.rows:
            rows(asked.binary or built(root), sorted(asked.folder.glob("*.json")), work, root)
            return
        python = asked.python
        if not python:
            subprocess.run([sys.executable, "-m", "venv", str(work / "venv")], check=True)
            python = str(work / "venv" / "bin" / "python")
            subprocess.run([python, "-m", "pip", "install", "-q", "spyrrow==0.9.0"], check=True)
        paths = sorted(asked.folder.glob("*.json")) + (toys(work) if asked.toys else [])
        paths = [path for path in paths if not asked.only or path.stem in asked.only]
        compare(paths, asked, asked.binary or built(root), python)


def compare(paths, asked, binary, python):
    print(f"{asked.seconds} s, {asked.seeds} seeds, 2 threads, load before {os.getloadavg()[0]:.1f}")
    print(f"{'instance':10} {'ours %':>8} {'± se':>6} {'spyrrow %':>10} {'± se':>6} {'diff':>6} {'record':>7} {'20 min':>7}")
    means, short = [], []
    for path in paths:
        data = json.loads(path.read_text())
        whole = sum(area(item["shape"]["data"]) * item["demand"] for item in data["items"]) / data["strip_height"] * 100
        pairs = []
        for seed in range(1, asked.seeds + 1):
            # In turn, so that both meet the same load.
            pairs.append((whole / ours(binary, path, asked.seconds, seed), whole / other(python, path, asked.seconds, seed)))
        a, b = [pair[0] for pair in pairs], [pair[1] for pair in pairs]
        lead = statistics.mean(a) - statistics.mean(b)
        error = math.hypot(spread(a), spread(b)) if asked.seeds > 1 else 0.0
        record, mean = PUBLISHED.get(data["name"], (float("nan"), float("nan")))
        mark = " SHORT" if lead < -max(1.0, 2 * error) else ""
        means.append((statistics.mean(a), statistics.mean(b), error))
        short += [data["name"]] if mark else []
        print(f"{data['name']:10} {statistics.mean(a):8.2f} {spread(a):6.2f} {statistics.mean(b):10.2f} {spread(b):6.2f} "
              f"{lead:+6.2f} {record:7.2f} {mean:7.2f}{mark}", flush=True)
    lead = statistics.mean(one[0] - one[1] for one in means)
    error = math.sqrt(sum(one[2] ** 2 for one in means)) / len(means)
    print(f"mean {statistics.mean(one[0] for one in means):.2f} against {statistics.mean(one[1] for one in means):.2f}: "
          f"{lead:+.2f} ± {error:.2f}; wanted: +0.50; load after {os.getloadavg()[0]:.1f}")
    print("fall short: " + (", ".join(short) or "none") + ("" if lead >= 0.5 else "; and the mean"))


if __name__ == "__main__":
    main()
