#!/usr/bin/env python3
"""Seals revisions A and B of the invented puffin again: what the folder was before each change, sealed in turn.

    spec-examples/history.py BACKTACK

BACKTACK is the program (`cargo build` leaves it in target/debug). The folder `spec-examples/puffin` is revision C; each
earlier revision is told below as what differed then. Writes spec-examples/puffin/revisions/A.sealed and B.sealed, the same
bytes for the same folder and program. Their secret is no secret: the example is public.
"""

import hashlib
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import outlines

FOLDER = Path(__file__).resolve().parent / "puffin"
SALT = hashlib.sha256(b"Puffin Skerry, an invented example").hexdigest()
BY = "Runa Halden"

# What the feet measured before revision C, against the drawn ones.
FEET = {"S": 0.95, "L": 1.27}

# By revision, newest first: file, what the next revision says, what this one said.
BEFORE = {
    "B": [
        ("style.toml", 'id = "C"\ndate = 2026-11-02\nstage = "pre-production"', 'id = "B"\ndate = 2026-09-14\nstage = "counter sample"'),
        ("style.toml", 'reason = "Larger feet, as the counter samples asked"', 'reason = "Firmer body, closer wings, for the counter samples"'),
        ("style.toml", "answer = 2026-11-16", "answer = 2026-09-21"),
        ("pieces.toml", 'mass = { S = "1.8 g ±0.4 g", L = "4 g ±0.6 g" }', 'mass = { S = "1.6 g ±0.4 g", L = "3.5 g ±0.6 g" }'),
        ("measurements.toml", 'target = { S = "50 mm ±3 mm", L = "67 mm ±4 mm" }', 'target = { S = "47 mm ±3 mm", L = "63 mm ±4 mm" }'),
    ],
    "A": [
        ("style.toml", 'id = "B"\ndate = 2026-09-14\nstage = "counter sample"', 'id = "A"\ndate = 2026-07-20\nstage = "prototype"'),
        ("style.toml", 'reason = "Firmer body, closer wings, for the counter samples"', 'reason = "First package"'),
        ("style.toml", "answer = 2026-09-21", "answer = 2026-08-03"),
        ("pieces.toml", 'mass = { S = "62 g ±5 %", L = "140 g ±5 %" }', 'mass = { S = "58 g ±5 %", L = "132 g ±5 %" }'),
        ("measurements.toml", 'target = { S = "102 mm ±4 mm", L = "145 mm ±5 mm" }', 'target = { S = "102 mm ±6 mm", L = "145 mm ±8 mm" }'),
        ("measurements.toml", 'difference = "3 mm"\n', ""),
    ],
}


def earlier(folder, revision):
    """Turns a folder into what it was one revision before."""
    for name, new, old in BEFORE[revision]:
        path = folder / name
        text = path.read_text(encoding="utf-8")
        if text.count(new) != 1:
            sys.exit(f"{name} does not say once: {new}")
        path.write_text(text.replace(new, old), encoding="utf-8")


def main():
    program = Path(sys.argv[1]).resolve()
    with tempfile.TemporaryDirectory() as work:
        folders = {}
        for revision in BEFORE:
            folder = Path(work) / revision / "puffin"
            source = folders.get("B", FOLDER)
            # Orders and samples came later, and lays are found again.
            leave = shutil.ignore_patterns("revisions", "orders", "samples", "out", "private", "backtack.lock")
            shutil.copytree(source, folder, ignore=leave)
            earlier(folder, revision)
            for size, factors in outlines.SIZES.items():
                drawn = outlines.drawing(size, factors | {"foot": FEET[size]})
                (folder / "outlines" / f"{size}.svg").write_text(drawn, encoding="utf-8")
            folders[revision] = folder
        sealed = Path(work) / "revisions"
        sealed.mkdir()
        for revision in sorted(folders):
            folder = folders[revision]
            (folder / "private").mkdir()
            (folder / "private" / "salt.txt").write_text(SALT + "\n", encoding="utf-8")
            shutil.copytree(sealed, folder / "revisions")
            subprocess.run([program, "seal", folder, revision, "--by", BY], check=True)
            shutil.copy(folder / "revisions" / f"{revision}.sealed", sealed)
        (FOLDER / "revisions").mkdir(exist_ok=True)
        for file in sorted(sealed.iterdir()):
            shutil.copy(file, FOLDER / "revisions")


if __name__ == "__main__":
    main()
