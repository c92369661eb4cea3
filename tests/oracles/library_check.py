"""Holds the arithmetic of strict_style.py against music21: intervals, and what happens between two moments.

Differences of definition are told in README.md; each is written out here, everything else has to agree.
"""

from functools import cache

from music21 import interval, note, pitch, voiceLeading

from strict_pitch import between
from strict_style import both_move, is_direct, is_similar, same_perfect
from strict_time import LOWER, UPPER, moments, moves

SIGNS = {"bb": "--", "b": "-", "": "", "#": "#", "x": "##"}


@cache
def theirs(name):
    """A pitch of ours in the library's spelling."""
    return pitch.Pitch(name[0] + SIGNS[name[1:-1]] + name[-1])


@cache
def check_interval(low, high):
    """Number, alteration and dissonance of the interval between two pitches."""
    ours = between(low, high)
    if ours.way < 0:
        return check_interval(high, low)
    found = interval.Interval(theirs(low.name), theirs(high.name))
    kind = found.specifier
    agree = (
        found.generic.undirected == ours.number
        and found.semitones == ours.semitones
        and (kind.name in ("PERFECT", "MAJOR", "MINOR")) == ours.is_unaltered
        and ("AUG" in kind.name) == ours.is_augmented
        and found.isConsonant() != ours.is_dissonant
    )
    if not agree:
        raise AssertionError(f"{low.name} to {high.name}: {ours}, but {found}")


@cache
def quartet(*names):
    """Whether perfects follow each other, whether one is hidden, and the motion, as the library says."""
    found = voiceLeading.VoiceLeadingQuartet(*(note.Note(theirs(name)) for name in names))
    follow = found.parallelFifth() or found.parallelOctave() or found.parallelUnison()
    return follow, found.hiddenFifth() or found.hiddenOctave(), found.motionType().value.lower()


def check_move(old, new):
    """Consecutive, contrary and direct perfects between two adjacent moments."""
    names = [moment.note(voice).pitch.name for voice in (UPPER, LOWER) for moment in (old, new)]
    follow, is_hidden, motion = quartet(*names)
    if is_unison_with_octave(old, new):
        return
    agree = (
        follow == (same_perfect(old, new) and both_move(old, new))
        and (motion in ("parallel", "similar")) == is_similar(old, new)
        and is_hidden == (is_direct(old, new) and not keeps_number(old, new))
    )
    if not agree:
        raise AssertionError(f"{names}: {follow=} {is_hidden=} {motion=}")


def is_unison_with_octave(old, new):
    """Two kinds to the library, one to us."""
    return same_perfect(old, new) and (old.interval.steps == 0) != (new.interval.steps == 0)


def keeps_number(old, new):
    """As from a diminished fifth to a perfect one or to a twelfth: nothing is hidden there to the library."""
    return simple_number(old.interval) == simple_number(new.interval)


def simple_number(interval_):
    """Within an octave, 8 for octaves and fifteenths, 1 for the unison only."""
    return (abs(interval_.steps) - 1) % 7 + 2 if interval_.steps else 1


def check(exercise):
    """Everything that the library can say about an exercise."""
    for moment in filter(lambda moment: moment.is_full, moments(exercise)):
        check_interval(moment.lower.pitch, moment.upper.pitch)
    for line in exercise.lines.values():
        for first, second in zip(line, line[1:]):
            check_interval(first.pitch, second.pitch)
    for old, new in moves(exercise):
        check_move(old, new)
