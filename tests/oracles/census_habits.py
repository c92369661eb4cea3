"""Habits of lines and pairs of lines on which treatises have an opinion, counted from the bare notes."""

from fractions import Fraction

from census_figures import at, moves
from strict_pitch import between, sign

TRITONES = ((3, 6), (4, 6))


def habits(counter, cantus, above):
    """Every habit as often as it shows."""
    yield from leaps(counter)
    yield from runs(counter)
    yield from repetitions(counter, cantus)
    yield from together(counter, cantus, 1 if above else -1)
    yield from neighbouring_bars(counter, cantus)


def leaps(counter):
    ways = moves(counter)
    for one, other in zip(ways, ways[1:]):
        if abs(one) > 1 and abs(other) > 1 and sign(one) == sign(other):
            yield "two leaps in one direction"
        if abs(one) > 2 and (sign(other) != -sign(one) or abs(other) > 1):
            yield "fourth or more not answered by a step the other way"
    if any(between(one.pitch, other.pitch) == (-5, -8) for one, other in zip(counter, counter[1:])):
        yield "minor sixth falling"


def runs(counter):
    """Runs in one direction that frame a tritone."""
    ways = [sign(way) for way in moves(counter)]
    ends = [0] + [place for place in range(1, len(ways)) if ways[place] != ways[place - 1]] + [len(ways)]
    for first, last in zip(ends, ends[1:]):
        frame = between(counter[first].pitch, counter[last].pitch)
        if last - first > 1 and (abs(frame.steps), abs(frame.semitones)) in TRITONES:
            yield "framed tritone"


def repetitions(counter, cantus):
    yield from ("note struck again" for way in moves(counter) if way == 0)
    tops = [max(note.pitch.sound for note in line) for line in (counter, cantus)]
    times = [note for note in counter if note.pitch.sound == tops[0]]
    if len(times) > 1:
        yield "repeated high point"
    if any(at(cantus, note.onset) and at(cantus, note.onset).pitch.sound == tops[1] for note in times):
        yield "high points at one time"


def together(counter, cantus, side):
    """Voices that cross or overlap, from moment to moment; `side` is 1 if the counter stands above."""
    onsets = sorted({note.onset for note in (*counter, *cantus)})
    moments = [(at(counter, onset), at(cantus, onset)) for onset in onsets]
    moments = [(note, given) for note, given in moments if note and given]
    if any(is_beyond(given, note, side) for note, given in moments):
        yield "crossing"
    for (note, given), (later, next_given) in zip(moments, moments[1:]):
        crossed = is_beyond(given, note, side) or is_beyond(next_given, later, side)
        if not crossed and (is_beyond(given, later, side) or is_beyond(next_given, note, side)):
            yield "overlap"


def is_beyond(given, note, side):
    """Whether a note lies on the wrong side of the given one."""
    return (note.pitch.sound - given.pitch.sound) * side < 0


def neighbouring_bars(counter, cantus):
    """The same intervals at the same place of neighbouring bars."""
    bars = range(int(cantus[-1].onset) + 1)
    for place, name in ((Fraction(0), "strong beats"), (Fraction(1, 2), "weak beats")):
        chords = [(at(counter, bar + place), at(cantus, bar + place)) for bar in bars]
        chords = [between(given.pitch, note.pitch) if note else None for note, given in chords]
        yield from perfects(chords, name)
        if place == 0:
            yield from chains(chords)


def perfects(chords, name):
    for one, other in zip(chords, chords[1:]):
        if one and other and one.perfect and one.perfect == other.perfect:
            yield f"the same perfect consonance on {name}"


def chains(chords):
    numbers = [chord and abs(chord.steps) % 7 + 1 for chord in chords]
    for place in range(len(numbers) - 3):
        chain = numbers[place : place + 4]
        is_longer = place > 0 and numbers[place - 1] == chain[0]
        if chain[0] in (3, 6) and len(set(chain)) == 1 and not is_longer:
            yield "more than three thirds or sixths on strong beats"
