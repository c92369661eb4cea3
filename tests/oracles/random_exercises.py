"""Exercises drawn at random: lines that a beginner might write, in all modes. Always the same.

The cantus goes mostly by step. The counter does too, and takes a consonance more often than not, so that every kind of
perfect consonance is come to in every way. Now and then a note is altered.
"""

import random

import random_florid
from strict_pitch import LETTERS, between, pitch, spelled
from strict_sheet import Row, Written
from strict_style import COMPASS
from strict_time import LOWER, UPPER

# How many exercises of each kind: school, species, beats in a bar.
KINDS = {
    ("modal", 1, 2): 500,
    ("modal", 2, 2): 600,
    ("modal", 2, 3): 200,
    ("tonal", 1, 2): 150,
    ("tonal", 2, 2): 150,
    ("modal", 3, 2): 220,
    ("modal", 3, 3): 40,
    ("modal", 4, 2): 100,
    ("modal", 5, 2): 320,
}
# Semitones above the tonic of the seven degrees.
MODES = {
    "major": (0, 2, 4, 5, 7, 9, 11),
    "minor": (0, 2, 3, 5, 7, 8, 10),
    "ionian": (0, 2, 4, 5, 7, 9, 11),
    "dorian": (0, 2, 3, 5, 7, 9, 10),
    "phrygian": (0, 1, 3, 5, 7, 8, 10),
    "lydian": (0, 2, 4, 6, 7, 9, 11),
    "mixolydian": (0, 2, 4, 5, 7, 9, 10),
    "aeolian": (0, 2, 3, 5, 7, 8, 10),
}
TONICS = ["C", "D", "Eb", "E", "F", "G", "A", "Bb"]
REGISTERS = [
    ("soprano", "alto"),
    ("soprano", "tenor"),
    ("mezzo", "alto"),
    ("mezzo", "baritone"),
    ("alto", "tenor"),
    ("alto", "bass"),
    ("tenor", "bass"),
    ("alto", "alto"),
]
STEPS = [-1, -1, -1, 1, 1, 1, -2, 2, -3, 3, 4, -4, 5, -5, 7, -7, 0]
CONSONANT = 0.75
# Against suspensions, which a falling cantus lets follow each other.
FALLING = [-1, -1, -1, -1, -1, 1, -2]
ALTERED = 0.06


def drawn():
    """The school and the exercise, one after the other."""
    chance = random.Random(1597)
    for (school, species, beats), count in KINDS.items():
        for _ in range(count):
            yield school, exercise(chance, species, beats)


def exercise(chance, species, beats):
    tonic, mode = chance.choice(TONICS), chance.choice(list(MODES))
    scale = scale_of(tonic, mode)
    registers = chance.choice(REGISTERS)
    bars = chance.randrange(4, 9)
    per_bar = 1 if species == 1 else beats
    cantus_voice = chance.choice((0, 1))
    steps = FALLING if species == 4 else STEPS
    cantus = walk(chance, scale, registers[cantus_voice], bars, 1, steps=steps)
    counter_register = registers[1 - cantus_voice]
    if species > 2:
        counter = random_florid.bars(chance, scale, compass(counter_register), species, beats, cantus)
    else:
        counter = walk(chance, scale, counter_register, bars, per_bar, cantus)
    lines = {cantus_voice: ("cantus", cantus), 1 - cantus_voice: ("counter", counter)}
    rows = {voice: Row(registers[place], *lines[place]) for place, voice in enumerate((UPPER, LOWER))}
    return Written("", f"{tonic} {mode}", species, beats, rows)


def scale_of(tonic, mode):
    """The notes of a key in all octaves, by place on the staff."""
    first = pitch(f"{tonic}0")
    letter = LETTERS.index(tonic[0])
    notes = {}
    for degree, semitones in enumerate(MODES[mode]):
        natural = spelled(letter + degree, 0)
        alteration = first.sound + semitones - natural.sound
        for octave in range(1, 7):
            step = letter + degree + 7 * octave
            notes[step] = spelled(step, alteration)
    return notes


def compass(register):
    """The lowest and the highest place of a register."""
    return [pitch(name).step for name in COMPASS[register]]


def walk(chance, scale, register, bars, per_bar, against=(), steps=STEPS):
    """The bars of a line; the last one has one note."""
    low, high = compass(register)
    step = chance.randrange(low + 3, high - 3)
    written, before = [], None
    for bar in range(bars):
        names = []
        other = pitch(against[bar]) if against else None
        for _ in range(1 if bar == bars - 1 else per_bar):
            step = next_step(chance, scale, step, (low, high), other, steps)
            before = altered(chance, scale[step], before)
            names.append(before.name)
        written.append(" ".join(names))
    return written


def next_step(chance, scale, step, compass, other, steps):
    """A place that the line goes to, not far outside the compass, and rather to a consonance."""
    low, high = compass
    places = [step + move for move in steps if low - 1 <= step + move <= high + 1] or [step + 4]
    fitting = [place for place in places if other and not between(other, scale[place]).is_dissonant]
    return chance.choice(fitting if fitting and chance.random() < CONSONANT else places)


def altered(chance, note, before):
    """The note, now and then raised or lowered, but never so that a voice changes its name without moving."""
    if chance.random() < ALTERED:
        bent = spelled(note.step, alteration(note) + chance.choice((-1, 1)))
        note = bent or note
    if before and is_enharmonic(before, note):
        return before
    return note


def alteration(note):
    return note.sound - spelled(note.step, 0).sound


def is_enharmonic(before, note):
    """Whether the staff and the ear disagree about the way a line goes."""
    steps, semitones = between(before, note)
    return steps != 0 and (semitones == 0 or (steps > 0) != (semitones > 0))
