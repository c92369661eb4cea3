"""Writes two-part scores by a library of another make.

Called with a folder. For each score there are NAME.musicxml or NAME.mxl, NAME.tsv with its notes, one a
line: voice, onset, length (64 to a whole note), pitch; and NAME.heading with key and meter.
"""

import pathlib
import random
import sys

from music21 import clef, key, metadata, meter, note, stream

TICKS_PER_QUARTER = 16
SIGNS = {0: "", 1: "#", 2: "x", -1: "b", -2: "bb"}
KEYS = [("C", "major"), ("D", "dorian"), ("E-", "minor"), ("F#", "major"), ("G", "mixolydian"),
        ("B-", "major"), ("C#", "phrygian"), ("A-", "lydian")]
METERS = ["2/2", "4/4", "3/4", "3/2"]


def pitch_name(tone):
    return f"{tone.step}{SIGNS[int(tone.alter)]}{tone.octave}"


def line(chance, bars, length, low):
    """Notes that fill the bars, some of them over the barline, as (onset, length, pitch or None)."""
    found, now, end = [], 0, bars * length
    while now < end:
        duration = min(chance.choice([0.5, 1, 1, 2, 2, 4]), end - now)
        if chance.random() < 0.1:
            found.append((now, duration, None))
        else:
            step = chance.choice("CDEFGAB")
            sign = chance.choice(["", "", "", "#", "-", "##", "--"])
            found.append((now, duration, f"{step}{sign}{low + chance.randrange(2)}"))
        now += duration
    return found


def part(notes, signature, time, own_clef, name):
    own = stream.Part()
    own.partName = name
    own.append([own_clef, signature, time])
    for onset, duration, pitch in notes:
        sign = note.Rest() if pitch is None else note.Note(pitch)
        sign.quarterLength = duration
        own.insert(onset, sign)
    return own.makeNotation()


def rows(voice, notes):
    for onset, duration, pitch in notes:
        if pitch is not None:
            ticks = [int(onset * TICKS_PER_QUARTER), int(duration * TICKS_PER_QUARTER)]
            yield "\t".join(map(str, [voice, *ticks, pitch_name(note.Note(pitch).pitch)]))


def write(folder, number):
    chance = random.Random(number)
    tonic, mode = KEYS[number % len(KEYS)]
    time = METERS[number // len(KEYS) % len(METERS)]
    signature = key.Key(tonic, mode)
    length = meter.TimeSignature(time).barDuration.quarterLength
    lines = [line(chance, 6, length, low) for low in (4, 2)]
    score = stream.Score()
    score.metadata = metadata.Metadata(title=f"No. {number} <&>", composer="A. Nonymous")
    clefs = [(clef.AltoClef(), "Alto"), (clef.BassClef(), "Bass")]
    for notes, (own_clef, name) in zip(lines, clefs):
        score.insert(0, part(notes, key.Key(tonic, mode), meter.TimeSignature(time), own_clef, name))
    name = folder / f"score-{number:02}"
    kind = ("mxl", ".mxl") if number % 5 == 0 else ("musicxml", ".musicxml")
    score.write(kind[0], name.with_suffix(kind[1]))
    told = [row for voice, notes in enumerate(lines) for row in rows(voice, notes)]
    name.with_suffix(".tsv").write_text("".join(row + "\n" for row in told))
    tonic = signature.tonic
    name.with_suffix(".heading").write_text(f"{tonic.step}{SIGNS[int(tonic.alter)]} {mode} {time}")


def main():
    folder = pathlib.Path(sys.argv[1])
    for number in range(40):
        write(folder, number)


main()
