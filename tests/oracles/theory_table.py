"""Writes the tables in theory/ with music21, a general-purpose library for music theory.

    pip install music21==10.5.1
    python theory_table.py

What the columns mean and how they differ from bicinium's own definitions is told in README.md.
"""

import itertools
import random
from pathlib import Path

import music21
from music21 import interval, key, note, pitch, roman, voiceLeading

VERSION = "10.5.1"
FOLDER = Path(__file__).parent / "theory"

LETTERS = "CDEFGAB"
# Our spelling of an accidental, and music21's.
ACCIDENTALS = {"bb": "--", "b": "-", "": "", "#": "#", "x": "##"}
CLASSES = [letter + sign for letter in LETTERS for sign in ACCIDENTALS]
TONICS = ["Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#", "G#", "D#"]
MODES = ["major", "minor", "ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian"]
NUMERALS = [
    "I", "i", "I6", "i6", "I6/4", "i6/4", "I7", "i7", "ii", "ii6", "ii7", "ii6/5", "ii°", "ii°6", "ii°7", "ii°6/5",
    "iii", "iii6", "III", "III6", "III+", "III+6", "IV", "iv", "IV6", "iv6", "IV7", "iv7", "V", "v", "V6", "v6", "V6/4",
    "V7", "V6/5", "V4/3", "V4/2", "vi", "vi6", "VI", "VI6", "vii°", "vii°6", "vii°7", "vii°6/5", "vii°4/3", "vii°4/2",
    "vi°", "vi°6", "VII", "VII6",
]


def theirs(name):
    """Our name of a note in music21's spelling."""
    letter, sign, octave = name[0], name[1:].rstrip("0123456789"), name[1:].lstrip("#bx")
    return pitch.Pitch(letter + ACCIDENTALS[sign] + octave)


def ours(named):
    """The name, without octave, of a music21 pitch in our spelling; None beyond double accidentals."""
    signs = {foreign: own for own, foreign in ACCIDENTALS.items()}
    sign = signs.get(named.name[1:])
    return None if sign is None else named.step + sign


def step_name(step):
    """The white-key pitch so many diatonic steps above C0."""
    return f"{LETTERS[step % 7]}{step // 7}"


def pitches():
    for name in (f"{name}{octave}" for octave in range(10) for name in CLASSES):
        found = theirs(name)
        # `midi` would be bent into 0..127; `ps` is the same number unbent. Steps count from C0 as 1.
        yield name, int(found.ps), found.diatonicNoteNum - 1, f"{found.frequency:.6f}"


def named_interval(low, high):
    """The interval between two pitches, or None where music21 has no name for it, or a name of another size."""
    try:
        found = interval.Interval(theirs(low), theirs(high))
        named = interval.Interval(found.directedName)
    except interval.IntervalException:
        return None
    return found if named.semitones == found.semitones else None


def interval_pairs():
    near = itertools.product(CLASSES, CLASSES, (3, 4, 5))
    yield from ((f"{low}4", f"{high}{octave}") for low, high, octave in near)
    far = itertools.product((step_name(step) for step in range(14, 28)), (step_name(step) for step in range(35, 49)))
    yield from far


def complement(found):
    """The name of the inversion; empty where music21 finds a diminished unison, which is none."""
    name = found.complement.name
    return "" if name.startswith("d") and name.endswith("d1") else name


def intervals():
    for low, high in interval_pairs():
        found = named_interval(low, high)
        if found is not None:
            yield low, high, found.name, found.semiSimpleName, complement(found), int(found.semitones)


def interval_words():
    found = (named_interval(low, high) for low, high in interval_pairs())
    names = {entry.name: entry.niceName for entry in found if entry is not None}
    yield from sorted(names.items(), key=lambda row: (int(row[0].lstrip("PMmdA")), row[0]))


def degrees():
    for tonic, mode in itertools.product(TONICS, MODES):
        scale = key.Key(theirs(tonic).name, mode)
        for name in CLASSES:
            number, sign = scale.getScaleDegreeAndAccidentalFromPitch(theirs(name))
            yield tonic, mode, scale.sharps, name, number, int(sign.alter) if sign else 0


def chords():
    for tonic, mode, numeral in itertools.product(TONICS, ("major", "minor"), NUMERALS):
        figure = numeral.replace("°", "o")
        home = key.Key(theirs(tonic).name, mode)
        chord = roman.RomanNumeral(figure, home)
        names = [ours(member) for member in chord.pitches]
        if None not in names:
            yield f"{tonic} {mode}", numeral, " ".join(names)


def diatonic_moves():
    """White-key steps: every letter below, the intervals that matter above, steps and leaps in both voices."""
    moves = (-4, -2, -1, 0, 1, 2, 4)
    above = (-4, 0, 2, 4, 5, 7, 9, 11, 14)
    for low, gap, down, up in itertools.product(range(22, 29), above, moves, moves):
        yield tuple(map(step_name, (low + gap, low + gap + up, low, low + down)))


def contrary_perfects():
    """A fifth or octave kept by contrary motion, which takes one voice through an octave."""
    for low, gap, move in itertools.product(range(22, 29), (4, 7), (1, 2, 3, 4)):
        yield tuple(map(step_name, (low + gap, low + gap + move, low, low + move - 7)))
        yield tuple(map(step_name, (low + gap + 7, low + gap + 7 - move, low, low + 7 - move)))


def chromatic_moves():
    """Moves among notes with single accidentals, drawn at random but always the same."""
    chance = random.Random(1725)
    names = [f"{letter}{sign}{octave}" for octave in (3, 4) for letter in LETTERS for sign in ("b", "", "#")]
    for _ in range(1500):
        upper, lower = chance.randrange(15, 42), chance.randrange(0, 30)
        move = chance.randrange(-6, 7)
        yield (
            names[upper],
            names[max(0, min(41, upper + chance.choice((move, move, chance.randrange(-6, 7)))))],
            names[lower],
            names[max(0, min(41, lower + move))],
        )


def motions():
    moves = itertools.chain(diatonic_moves(), contrary_perfects(), chromatic_moves())
    for move in dict.fromkeys(moves):
        quartet = voiceLeading.VoiceLeadingQuartet(*(note.Note(theirs(name)) for name in move))
        verdicts = (
            quartet.parallelFifth(),
            quartet.parallelOctave(),
            quartet.parallelUnison(),
            quartet.hiddenFifth(),
            quartet.hiddenOctave(),
        )
        yield *move, quartet.motionType().value.lower(), *(int(verdict) for verdict in verdicts)


TABLES = {
    "pitches": (pitches, "pitch midi step hertz"),
    "intervals": (intervals, "from to name simple inversion semitones"),
    "interval_words": (interval_words, "name words"),
    "degrees": (degrees, "tonic mode signature note degree alteration"),
    "chords": (chords, "key numeral notes"),
    "motions": (
        motions,
        "upper upper_next lower lower_next motion "
        "parallel_fifth parallel_octave parallel_unison hidden_fifth hidden_octave",
    ),
}


def write(name, rows, columns):
    lines = [f"# music21 {music21.__version__}", "\t".join(columns.split())]
    lines += ["\t".join(map(str, row)) for row in rows]
    (FOLDER / f"{name}.tsv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{name}: {len(lines) - 2} rows")


if __name__ == "__main__":
    if music21.__version__ != VERSION:
        raise SystemExit(f"This table is made with music21 {VERSION}, not {music21.__version__}.")
    FOLDER.mkdir(exist_ok=True)
    for table, (rows, columns) in TABLES.items():
        write(table, rows(), columns)
