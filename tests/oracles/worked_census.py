"""Writes ../worked/fux-1725-census.tsv: what the examples of the treatise do, counted from the bare notes.

    python worked_census.py

It shares nothing with the analyser but the sheets, and needs nothing but Python 3.9 or later. What its columns mean is
told in ../worked/README.md.
"""

from collections import defaultdict
from pathlib import Path

from census_figures import eighths, figures
from census_habits import habits
from strict_sheet import read
from strict_time import LOWER, UPPER

FOLDER = Path(__file__).parent.parent / "worked"
HEAD = """\
# What J. J. Fux does in the two-part examples, counted from the bare notes by tests/oracles/worked_census.py.
species\tcounter\twhat\ttimes\tfigures
"""


def counted():
    """Everything counted, with the figures in which it stands, once for each time."""
    counts = defaultdict(list)
    for path in sorted(FOLDER.glob("fux-1725-species-*.bicinium")):
        for written in read(path.read_text(encoding="utf-8")):
            for place, what in of_example(written.exercise()):
                counts[written.species, place, what].append(written.title.removeprefix("figure "))
    return counts


def of_example(exercise):
    above = exercise.cantus == LOWER
    counter = exercise.lines[UPPER if above else LOWER]
    cantus = exercise.lines[exercise.cantus]
    for what in (*figures(counter, cantus), *eighths(counter), *habits(counter, cantus, above)):
        yield "above" if above else "below", what


def main():
    lines = [
        f"{species}\t{place}\t{what}\t{len(titles)}\t{' '.join(sorted(set(titles)))}\n"
        for (species, place, what), titles in sorted(counted().items())
    ]
    (FOLDER / "fux-1725-census.tsv").write_text(HEAD + "".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
