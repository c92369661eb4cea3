"""Struck dissonances of the counter, as the modal school takes them: on the downbeat none; on weaker beats passing
notes, in third and fifth species the falling cambiata and the double neighbour, in fifth also quick neighbours.

What is taken where the definitions leave a choice:

- Steps and thirds are counted on the staff; that an augmented second cannot be sung is told elsewhere.
- A neighbour is quick if it is no longer than a quarter, and it comes back to the same pitch. Third species has none.
- A cambiata is begun by a dissonance that is come to from a consonance by a step down and left by a third down for a
  consonance. It is complete with two steps up, the second to a consonance; its fourth note may be a dissonance, but not
  one on a downbeat.
- A double neighbour is begun by a step from a consonance and a third back over it. Its neighbours may be dissonant, but
  not on a downbeat, and it is complete if the same pitch comes back as a consonance. If the first neighbour is
  consonant, it is begun by the second one.
- Neither of the two reaches over a barline with a note that is dissonant there, struck before it or held into it.
- A figure that is begun and not completed is told once, at its first dissonance; the others that belong to it are not
  told again. What the line goes on to instead is judged for itself.
- A dissonance struck on a weak beat and held over the barline is told whatever it does after.
- A dissonance that only decorates the resolution of a suspension is not told (strict_suspension.py).
"""

from strict_pitch import between
from strict_suspension import QUARTER, around, decorations, first_dissonance, is_dissonant, is_held_over, lines, passes
from strict_time import sounding


def dissonances(exercise):
    """Places in the line of the counter where it strikes a dissonance."""
    line, other = lines(exercise)
    return [index for index, note in enumerate(line) if is_dissonant(note, sounding(other, note.onset))]


def struck_dissonance(exercise):
    line, _ = lines(exercise)
    for index in dissonances(exercise):
        yield exercise.counter, line[index].onset


def strong_dissonance(exercise):
    line, _ = lines(exercise)
    for index in dissonances(exercise):
        if is_downbeat(line[index]):
            yield exercise.counter, line[index].onset


def is_downbeat(note):
    return note.onset.denominator == 1


def weak_dissonance(exercise):
    line, _ = lines(exercise)
    dissonant = dissonances(exercise)
    known = set(decorations(exercise))
    for index in dissonant:
        if is_downbeat(line[index]) or index in known:
            continue
        is_complete, others = figure(exercise, line, dissonant, index)
        known.update(others)
        if not is_complete:
            yield exercise.counter, line[index].onset


def figure(exercise, line, dissonant, index):
    """Whether a dissonance makes a complete figure, and the places between it and the last one."""
    if is_held_over(line[index]):
        return False, ()
    if passes(line, index) or (exercise.species == 5 and is_quick_neighbour(line, index)):
        return True, ()
    if exercise.species in (3, 5):
        for shape in (cambiata, double_neighbour, second_neighbour):
            found = shape(line, dissonant, index)
            if found:
                is_complete, others = found
                return is_complete and not any(clashes(exercise, place) for place in others), others
    return False, ()


def clashes(exercise, index):
    """Whether a note is held over a barline as a dissonance, or into one."""
    line, other = lines(exercise)
    note = line[index]
    is_struck = is_dissonant(note, sounding(other, note.onset))
    return is_held_over(note) and (is_struck or first_dissonance(note, other) is not None)


def is_quick_neighbour(line, index):
    ways = around(line, index)
    is_quick = line[index].end - line[index].onset <= QUARTER
    return is_quick and ways is not None and ways[0].is_second and line[index - 1].pitch == line[index + 1].pitch


def moves(line, start, count):
    """Steps on the staff from a note to the next, as many as there are."""
    notes = line[start : start + count + 1]
    return [between(one.pitch, two.pitch).steps for one, two in zip(notes, notes[1:])]


def cambiata(line, dissonant, index):
    ways = moves(line, index - 1, 4) if index else []
    if ways[:2] != [-1, -2] or index - 1 in dissonant or index + 1 in dissonant:
        return None
    fourth = index + 2
    if ways[2:3] != [1] or is_struck_on_downbeat(line, dissonant, fourth):
        return False, ()
    return ways[3:] == [1] and index + 3 not in dissonant, (index + 1, fourth)


def double_neighbour(line, dissonant, index):
    ways = moves(line, index - 1, 3) if index else []
    if ways[:2] not in ([1, -2], [-1, 2]) or index - 1 in dissonant:
        return None
    if is_struck_on_downbeat(line, dissonant, index + 1):
        return None
    return comes_back(line, dissonant, index - 1), (index + 1,)


def second_neighbour(line, dissonant, index):
    ways = moves(line, index - 2, 2) if index > 1 else []
    if ways not in ([1, -2], [-1, 2]) or index - 1 in dissonant or index - 2 in dissonant:
        return None
    return comes_back(line, dissonant, index - 2), ()


def comes_back(line, dissonant, start):
    home = start + 3
    return home < len(line) and line[home].pitch == line[start].pitch and home not in dissonant


def is_struck_on_downbeat(line, dissonant, index):
    return index in dissonant and is_downbeat(line[index])
