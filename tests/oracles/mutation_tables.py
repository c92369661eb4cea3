"""Writes the tables in mutations/: single notes of the worked examples changed at random, and exercises drawn at random,
each with what strict_style.py finds in it.

    pip install music21==10.5.1
    python mutation_tables.py

music21 takes part as a check on the arithmetic (library_check.py). The same seeds give the same tables to the byte.
"""

import random
from fractions import Fraction
from pathlib import Path

import library_check
import random_exercises
import strict_sheet
from strict_pitch import pitch, spelled
from strict_style import findings, rules

HERE = Path(__file__).parent
WORKED = HERE.parent / "worked"
FOLDER = HERE / "mutations"
# How often each note of a voice is changed, by school and by the role of the voice.
TIMES = {"modal": {"counter": 8, "cantus": 2}, "tonal": {"counter": 1, "cantus": 0}}
# One spelling for every sound, so that no voice changes its name without moving.
USUAL = [spelled(step, sign) for step in range(14, 42) for sign in (-1, 0, 1)]
USUAL = [note for note in USUAL if note.name[:-1] in "C C# D Eb E F F# G G# A Bb B".split()]
ALTERED = 0.2
# How far away a note is looked for, in steps.
REACHES = (1, 2, 3, 5, 9)


def place(onset, beats):
    """Bar and beat, both from 1: `3:1.5` is halfway to the second beat of the third bar."""
    bar, within = divmod(onset, 1)
    return f"{bar + 1}:{float(1 + within * beats):g}"


def told(exercise, school):
    library_check.check(exercise)
    found = findings(exercise, school)
    return " ".join(sorted(f"{rule}@{voice}@{place(Fraction(onset), exercise.beats)}" for rule, voice, onset in found))


def another(chance, name):
    """Another pitch not farther than a tenth away, rather a near one and mostly without accidental."""
    old, reach = pitch(name), chance.choice(REACHES)
    near = [note for note in USUAL if note.name != name and abs(note.step - old.step) <= reach]
    is_altered = chance.random() < ALTERED
    return chance.choice([note for note in near if ("#" in note.name or "b" in note.name) == is_altered]).name


def mutations(chance, written, times):
    """Single notes of an exercise with another pitch each: voice, bar, note of the bar, pitch."""
    for voice, row in written.rows.items():
        for bar in range(len(row.bars)):
            for index, name in enumerate(row.names(bar)):
                for _ in range(times[row.role]):
                    yield voice, bar, index, another(chance, name)


def worked_rows():
    chance = random.Random(1725)
    for school, times in TIMES.items():
        for species in range(1, 6):
            text = (WORKED / f"fux-1725-species-{species}.bicinium").read_text(encoding="utf-8")
            for written in strict_sheet.read(text):
                yield school, species, written.title, "", "", "", "", told(written.exercise(), school)
                for voice, bar, index, name in mutations(chance, written, times):
                    changed = written.replaced(voice, bar, index, name).exercise()
                    yield school, species, written.title, voice, bar + 1, index + 1, name, told(changed, school)


def random_rows():
    for school, written in random_exercises.drawn():
        rows = [f"{row.register} {row.role} | {' | '.join(row.bars)} |" for row in written.rows.values()]
        yield school, written.species, written.key, f"{written.beats}/2", *rows, told(written.exercise(), school)


def watched():
    """The rules on which the oracle has an opinion."""
    for school in ("modal", "tonal"):
        for species in range(1, 6):
            yield f"# rules {school} {species}: {' '.join(sorted(rules(school, species)))}"


def write(name, rows, columns):
    lines = [*watched(), "\t".join(columns.split())]
    lines += ["\t".join(map(str, row)) for row in rows]
    (FOLDER / f"{name}.tsv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{name}: {len(lines) - 11} rows")


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    write("worked", worked_rows(), "school species exercise voice bar note pitch findings")
    write("random", random_rows(), "school species key meter upper lower findings")
