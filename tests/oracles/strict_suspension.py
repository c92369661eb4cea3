"""Notes held over a barline into a dissonance: what is due, what may stand between, kinds and chains. Modal school.

What is taken where the definitions leave a choice:

- A suspension is prepared wherever its note begins, if it is consonant until the barline. A dissonance that is held
  over a barline is no suspension; it is told as the weak dissonance that it began as.
- The resolution is a step down to a consonance that is struck in the middle of the bar, in bars of three on the second
  or third beat. Fourth species has nothing between; fifth species may strike quarters and eighths there: consonances,
  the held note once more, dissonances that pass, and neighbours of the resolution after it has been given away.
- A suspension is early if its resolution is struck before that and does not stand there any more. It is resolved all
  the same, and has its kind. A resolution that is struck early and held is not early.
- If something else stands between, the suspension is not resolved, unless its resolution has been heard before. What
  stands there is judged for itself besides, but for the held note struck again.
- A kind is two intervals, each without its octaves, but 9-8 is another kind than 2-1. On which side the held note lies
  is decided by what sounds lower when the dissonance comes.
- A chain is one kind in neighbouring bars, all resolved. It is told as too long once, at the fourth suspension; of
  9-8 and 4-5 each after the first is told.
- What a 9-8 is prepared by is heard where its note begins.
- Everything is told at the beginning of the held note.
"""

from fractions import Fraction
from typing import NamedTuple

from strict_pitch import between
from strict_time import sounding

# Steps on the staff between the voices at the dissonance, without octaves, and the kinds that they lead to.
USUAL_ABOVE = {6: "7-6", 3: "4-3"}
USUAL_BELOW = {1: "2-3", 3: "4-5"}
PERFECT = ("9-8", "4-5")
QUARTER = Fraction(1, 4)


class Held(NamedTuple):
    """A note held into a dissonance: its place in the line, the barline, what resolves it and where, what stands between."""

    index: int
    barline: Fraction
    resolution: int | None
    is_early: bool
    between: range


def held_notes(exercise):
    """Every note held from a consonance into a dissonance, with what becomes of it."""
    line, other = lines(exercise)
    for index, note in enumerate(line):
        if is_dissonant(note, sounding(other, note.onset)):
            continue
        barline = first_dissonance(note, other)
        if barline is not None:
            yield resolved(exercise, line, other, index, barline)


def lines(exercise):
    return exercise.lines[exercise.counter], exercise.lines[exercise.cantus]


def is_dissonant(note, against):
    return against is not None and between(against.pitch, note.pitch).is_dissonant


def first_dissonance(note, other):
    struck = (given for given in other if note.onset < given.onset < note.end)
    return next((given.onset for given in struck if is_dissonant(note, given)), None)


def due(exercise, barline):
    """The first and the last instant at which a resolution may come."""
    if exercise.beats == 3:
        return barline + Fraction(1, 3), barline + Fraction(2, 3)
    return barline + Fraction(1, 2), barline + Fraction(1, 2)


def resolved(exercise, line, other, index, barline):
    earliest, latest = due(exercise, barline)
    heard = None
    for place in range(index + 1, len(line)):
        note, inner = line[place], range(index + 1, place)
        is_answer = is_step_down(line[index], note) and not is_dissonant(note, sounding(other, note.onset))
        if earliest <= note.onset <= latest and is_answer:
            return Held(index, barline, place, False, inner)
        if is_answer and heard is None and note.onset < earliest:
            heard = place
            if note.end > earliest:
                return Held(index, barline, place, False, inner)
        may_stay = heard is not None or may_stand_between(line, other, index, place)
        if exercise.species != 5 or note.onset >= latest or not may_stay:
            return Held(index, barline, heard, heard is not None, inner)
    return Held(index, barline, heard, heard is not None, range(index + 1, len(line)))


def is_step_down(one, two):
    way = between(one.pitch, two.pitch)
    return way.is_second and way.way < 0


def may_stand_between(line, other, index, place):
    note = line[place]
    if note.end - note.onset > QUARTER:
        return False
    is_consonant = not is_dissonant(note, sounding(other, note.onset))
    return is_consonant or note.pitch == line[index].pitch or passes(line, place)


def passes(line, index):
    """Whether a note is reached and left by step in one direction, and left before the next bar."""
    if is_held_over(line[index]):
        return False
    ways = around(line, index)
    return ways is not None and all(way.is_second for way in ways) and ways[0].way == ways[1].way


def around(line, index):
    """The ways to a note and from it."""
    if index == 0 or index == len(line) - 1:
        return None
    return between(line[index - 1].pitch, line[index].pitch), between(line[index].pitch, line[index + 1].pitch)


def is_held_over(note):
    return note.end > note.onset // 1 + 1


def decorations(exercise):
    """Places of notes that belong to a suspension: the held note struck again, and neighbours of its resolution."""
    line, _ = lines(exercise)
    for held in held_notes(exercise):
        for place in held.between:
            if line[place].pitch == line[held.index].pitch or is_neighbour_of_resolution(line, held, place):
                yield place


def is_neighbour_of_resolution(line, held, place):
    is_due = held.resolution is not None and not held.is_early
    follows = is_step_down(line[held.index], line[place - 1])
    return is_due and follows and between(line[place - 1].pitch, line[place].pitch).is_second


def suspension(exercise):
    for held in held_notes(exercise):
        if held.resolution is None:
            yield told(exercise, held)


def told(exercise, held):
    return exercise.counter, exercise.lines[exercise.counter][held.index].onset


def fulfilled(exercise):
    return [held for held in held_notes(exercise) if held.resolution is not None]


def early_resolution(exercise):
    for held in fulfilled(exercise):
        if held.is_early:
            yield told(exercise, held)


def kind(exercise, held):
    """As 7-6; None for one that has no place among the usual ones or is rare."""
    line, other = lines(exercise)
    interval = between(sounding(other, held.barline).pitch, line[held.index].pitch)
    steps = abs(interval.steps) % 7
    if interval.way < 0:
        return USUAL_BELOW.get(steps, f"below {steps}")
    is_ninth = steps == 1 and abs(interval.steps) > 7
    return "9-8" if is_ninth else USUAL_ABOVE.get(steps, f"above {steps}")


def suspension_kind(exercise):
    for held in fulfilled(exercise):
        if "-" not in kind(exercise, held):
            yield told(exercise, held)


def chains(exercise):
    """Every resolved suspension with its kind and which of a chain it is."""
    before, length = (None, None), 0
    for held in fulfilled(exercise):
        name = kind(exercise, held)
        length = length + 1 if before == (name, held.barline - 1) else 1
        before = (name, held.barline)
        yield held, name, length


def perfect_suspensions(exercise):
    for held, name, length in chains(exercise):
        if name in PERFECT and length > 1:
            yield told(exercise, held)


def suspension_chain(exercise):
    for held, _, length in chains(exercise):
        if length == 4:
            yield told(exercise, held)


def ninth_from_octave(exercise):
    line, other = lines(exercise)
    for held in fulfilled(exercise):
        note = line[held.index]
        prepared = between(sounding(other, note.onset).pitch, note.pitch)
        if kind(exercise, held) in ("9-8", "above 1") and prepared.perfect == "octave":
            yield told(exercise, held)
