"""Two lines in time: notes, exercises, and the moments at which a voice begins a note. Knows no rules."""

from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from strict_pitch import Pitch, between

UPPER, LOWER, BOTH = "upper", "lower", "both"


class Note(NamedTuple):
    """A pitch and the time it takes, in bars from the beginning; the first bar begins at 0."""

    pitch: Pitch
    onset: Fraction
    end: Fraction


class Exercise(NamedTuple):
    """Two lines: notes by voice, the voice that is given, the registers, the species, beats in a bar, bars."""

    lines: dict
    cantus: str
    registers: dict
    species: int
    beats: int
    bars: int

    @property
    def counter(self):
        return LOWER if self.cantus == UPPER else UPPER


class Moment(NamedTuple):
    """Two notes that sound together from an instant on; either may be missing."""

    onset: Fraction
    upper: Note | None
    lower: Note | None

    @property
    def is_full(self):
        return self.upper is not None and self.lower is not None

    @property
    def interval(self):
        return between(self.lower.pitch, self.upper.pitch)

    @property
    def is_downbeat(self):
        return self.onset.denominator == 1

    def note(self, voice):
        return self.upper if voice == UPPER else self.lower


def moments(exercise):
    onsets = sorted({note.onset for line in exercise.lines.values() for note in line})
    return [Moment(onset, *(sounding(exercise.lines[voice], onset) for voice in (UPPER, LOWER))) for onset in onsets]


def sounding(line, onset):
    return next((note for note in line if note.onset <= onset < note.end), None)


def moves(exercise):
    """Adjacent moments in which both voices sound."""
    return [(old, new) for old, new in pairwise(moments(exercise)) if old.is_full and new.is_full]
