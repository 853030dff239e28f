"""Makes the built-in fonts, and the list of characters they show, from the fonts of their makers.

    python3 templates/fonts/subset.py NotoSansSC_400Regular.ttf NotoSansSC_700Bold.ttf NotoSans-Regular.ttf NotoSans-Bold.ttf

Needs fontTools. README.md beside this file says where the four files come from and which digests they have.
"""

import hashlib
import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter, load_font, save_font

HERE = Path(__file__).resolve().parent
COVERED = HERE / "../../src/core/glyphs/covered.txt"
# Not used: vertical setting, styles of a variable font, signatures.
TABLES = ["vhea", "vmtx", "STAT", "DSIG"]
FEATURES = {"vert", "vrt2", "vhal", "vkrn", "vpal"}


def wanted():
    """The code points of each family, by the name of its files."""
    families = {}
    for line in (HERE / "codepoints.txt").read_text(encoding="ascii").splitlines():
        if line.startswith("["):
            family = families[line.strip("[]")] = set()
        elif line and not line.startswith("#"):
            *standard, ends = line.split()
            first, last = (int(end, 16) for end in ends.split("-"))
            family.update(c for c in range(first, last + 1) if all(holds(name, c) for name in standard))
    return families


def holds(standard, code):
    """Whether a standard has a character."""
    try:
        chr(code).encode(standard)
    except UnicodeEncodeError:
        return False
    return True


def digest(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


def subset(source, families):
    """Writes the subset of one font; gives its weight and the code points it shows."""
    options = Options(hinting=False, name_IDs=["*"])
    options.drop_tables += TABLES
    options.layout_features = [one for one in options.layout_features if one not in FEATURES]
    font = load_font(source, options)
    name = font["name"].getDebugName(6)
    family, weight = name.split("-")
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=families[family])
    subsetter.subset(font)
    target = HERE / f"{name}.subset.ttf"
    save_font(font, target, options)
    print(f"{digest(Path(source))}  {Path(source).name}\n{digest(target)}  {target.name}, {target.stat().st_size} bytes")
    return weight, set(font.getBestCmap())


def ranges(codes):
    """Runs of neighbours, as text."""
    runs = []
    for code in sorted(codes):
        if runs and runs[-1][1] == code - 1:
            runs[-1][1] = code
        else:
            runs.append([code, code])
    return [f"{first:04X}-{last:04X}" for first, last in runs]


def main():
    families = wanted()
    weights = {}
    for source in sys.argv[1:]:
        weight, codes = subset(source, families)
        weights.setdefault(weight, set()).update(codes)
    if sorted(weights) != ["Bold", "Regular"] or len(sys.argv) != 1 + 2 * len(families):
        sys.exit("give the regular and the bold file of each family")
    covered = set.intersection(*weights.values())
    COVERED.write_text("\n".join(ranges(covered)) + "\n", encoding="ascii")
    print(f"{len(covered)} characters in {COVERED.name}")


main()
