"""What dissonant notes do, told from the bare notes of a counter against a cantus in whole notes."""

from fractions import Fraction

from strict_pitch import between

HALF = Fraction(1, 2)


def figures(counter, cantus):
    """The kind of every dissonance, in order."""
    for index, note in enumerate(counter):
        sounding = at(cantus, note.onset)
        if sounding and is_dissonant(note, sounding):
            yield struck(counter, index, cantus)
        for given in cantus:
            if note.onset < given.onset < note.end and is_dissonant(note, given):
                yield "suspension " + suspension(counter, index, given)


def eighths(counter):
    """The quarter on which each pair of eighths begins, counted from 1."""
    for note in counter:
        quarter = note.onset % 1 * 4 + 1
        if note.end - note.onset == Fraction(1, 8) and quarter.denominator == 1:
            yield f"pair of eighths on quarter {quarter}"


def at(line, instant):
    return next((note for note in line if note.onset <= instant < note.end), None)


def is_dissonant(one, other):
    return between(one.pitch, other.pitch).is_dissonant


def struck(counter, index, cantus):
    if counter[index].onset.denominator == 1:
        return "struck on the downbeat"
    if is_within_suspension(counter, index, cantus):
        return "within a decorated resolution"
    return weak(counter, index)


def is_within_suspension(counter, index, cantus):
    """Whether the bar began with a dissonance that was held over and is not resolved yet."""
    onset = counter[index].onset
    barline = Fraction(onset // 1)
    held, given = at(counter, barline), at(cantus, barline)
    is_held = held is not None and held.onset < barline and is_dissonant(held, given)
    return is_held and onset < barline + HALF


def weak(counter, index):
    ways = moves(counter)
    before, after = ways[:index][-1:], ways[index:][:3]
    if not before or not after:
        return "without a note on either side"
    if abs(before[0]) == 1 and after[0] == before[0]:
        return "passing"
    if abs(before[0]) == 1 and after[0] == -before[0]:
        return "neighbour"
    return {(-1, -2, 1, 1): "cambiata falling", (1, 2, -1, -1): "cambiata rising"}.get((*before, *after), "other")


def moves(line):
    """Places on the staff from each note to the next."""
    return [between(one.pitch, other.pitch).steps for one, other in zip(line, line[1:])]


def suspension(counter, index, given):
    """`7-6` and the like: what is held, and what stands a step lower in the middle of the bar."""
    held, goal = counter[index], at(counter, given.onset + HALF)
    is_resolved = goal.pitch.step == held.pitch.step - 1 and not is_dissonant(goal, given)
    return f"{figure(held, given)}-{figure(goal, given)}" if is_resolved else "not resolved down by step"


def figure(note, given):
    """An interval as it is figured, up to the ninth."""
    number = between(given.pitch, note.pitch).number
    return number if number <= 9 else (number - 1) % 7 + 1
