"""What the treatises forbid, worked out from their definitions: an independent second opinion on a part of the rules.

Where the definitions leave a choice, this is what is taken:

- A moment is an instant at which a voice begins a note. Two moments are adjacent if no other lies between; a rest in
  either voice parts them.
- A voice that strikes the same pitch again has not moved, so the motion is oblique: no perfects are consecutive or
  direct across a repeated or a held note.
- Fifths and twelfths are one kind, unisons, octaves and fifteenths another. Two of a kind with both voices going the
  same way are consecutive, even where the interval grows by an octave; going opposite ways they are contrary. They are
  never told a second time as direct. Going the same way from an imperfect fifth to a perfect one is direct.
- Crossed voices: what sounds lower is the lower voice, for dissonance. Crossing is told where it begins.
- Third species has a rule of its own for perfects in neighbouring bars, on which this has no opinion. In the others,
  perfects on neighbouring downbeats are told if both voices have come to other pitches and something stands between. A
  leap of a fourth or more saves them if it is made before the second downbeat, also where the note that is left has
  been tied into the bar. A second downbeat to which a voice is tied is saved.
- One leap is told once: as wide beyond an octave, else as augmented or diminished, else as wide for a seventh. Another
  pitch on the same place of the staff is a chromatic step. An augmented second is forbidden in the line but leads from place to place like a
  step, so that a note that passes over it is not told again.
- A leap that must be turned back is turned back by the next note of another pitch; a line that ends has not done so. A
  minor sixth is turned back by any smaller interval, a diminished interval only by a step.
- A leap is inside a bar if the note that it comes to does not stand on the downbeat.
- A note that nothing comes before is not reached by step.
- The compass of a voice is a matter of sound: B# below a C is that C.
"""

from itertools import pairwise

import strict_dissonance
import strict_suspension
from strict_pitch import between, pitch
from strict_time import BOTH, LOWER, UPPER, moments, moves

COMPASS = {
    "soprano": ("C4", "A5"),
    "mezzo": ("A3", "F5"),
    "alto": ("F3", "D5"),
    "tenor": ("C3", "A4"),
    "baritone": ("A2", "F4"),
    "bass": ("E2", "D4"),
}


def ways(old, new):
    """Which way each voice goes."""
    return [between(old.note(voice).pitch, new.note(voice).pitch).way for voice in (UPPER, LOWER)]


def both_move(old, new):
    return all(ways(old, new))


def is_similar(old, new):
    upper, lower = ways(old, new)
    return upper == lower != 0


def same_perfect(old, new):
    return new.interval.perfect is not None and old.interval.perfect == new.interval.perfect


# Two voices


def consecutive_perfects(exercise):
    for old, new in moves(exercise):
        if same_perfect(old, new) and is_similar(old, new):
            yield BOTH, new.onset


def contrary_perfects(exercise):
    for old, new in moves(exercise):
        if same_perfect(old, new) and both_move(old, new) and not is_similar(old, new):
            yield BOTH, new.onset


def is_direct(old, new):
    return new.interval.perfect is not None and is_similar(old, new) and not same_perfect(old, new)


def direct_perfects(exercise):
    for old, new in moves(exercise):
        if is_direct(old, new):
            yield BOTH, new.onset


def direct_perfects_unless_the_upper_voice_steps(exercise):
    for old, new in moves(exercise):
        if is_direct(old, new) and not between(old.upper.pitch, new.upper.pitch).is_step:
            yield BOTH, new.onset


def neighbouring_downbeats(exercise):
    """Downbeats of neighbouring bars with something between, in which both voices sound."""
    everything = moments(exercise)
    downbeats = {moment.onset: moment for moment in everything if moment.is_downbeat and moment.is_full}
    for onset, new in downbeats.items():
        old = downbeats.get(onset - 1)
        if old and any(onset - 1 < moment.onset < onset for moment in everything):
            yield old, new


def leaps_between(exercise, old, new):
    for line in exercise.lines.values():
        for first, second in pairwise(line):
            if old.onset < second.onset < new.onset and between(first.pitch, second.pitch).number >= 4:
                return True
    return False


def is_tied_into(moment):
    return moment.upper.onset < moment.onset or moment.lower.onset < moment.onset


def untied_downbeat_perfects(exercise):
    for old, new in neighbouring_downbeats(exercise):
        if same_perfect(old, new) and both_move(old, new) and not is_tied_into(new):
            yield old, new


def downbeat_perfects_saved_by_leap_or_tie(exercise):
    for old, new in untied_downbeat_perfects(exercise):
        if not leaps_between(exercise, old, new):
            yield BOTH, new.onset


def downbeat_perfects_saved_by_tie(exercise):
    for _, new in untied_downbeat_perfects(exercise):
        yield BOTH, new.onset


def crossing(exercise):
    was_crossed = False
    for moment in moments(exercise):
        is_crossed = moment.is_full and moment.interval.way < 0
        if is_crossed and not was_crossed:
            yield BOTH, moment.onset
        was_crossed = is_crossed


def inner_unison(exercise):
    for moment in moments(exercise):
        is_inside = 0 < moment.onset < exercise.bars - 1
        if moment.is_full and moment.is_downbeat and is_inside and moment.interval == (0, 0):
            yield BOTH, moment.onset


# One line


def leaps(exercise):
    """The intervals of the counter, each with the note it comes to and the notes that follow."""
    line = exercise.lines[exercise.counter]
    for index, (first, second) in enumerate(pairwise(line)):
        yield between(first.pitch, second.pitch), second, line[index + 2 :]


def leap_rule(is_wrong):
    def rule(exercise):
        for leap, note, following in leaps(exercise):
            if is_wrong(leap, note, following):
                yield exercise.counter, note.onset

    return rule


def exit_from(note, following):
    """The interval to the next note of another pitch; None at the end of the line."""
    other = next((later for later in following if later.pitch != note.pitch), None)
    return other and between(note.pitch, other.pitch)


def is_back(leap, exit_):
    return exit_ is not None and exit_.way == -leap.way


def is_diminished_leap(leap):
    return leap.is_diminished and 3 <= leap.number <= 8


def is_minor_sixth(leap):
    return leap.number == 6 and leap.alteration == -1


def is_major_sixth(leap):
    return leap.number == 6 and leap.alteration == 0


def turns_back_by_step(leap, note, following):
    exit_ = exit_from(note, following)
    return is_back(leap, exit_) and exit_.is_step


def turns_back_by_less(leap, note, following):
    exit_ = exit_from(note, following)
    return is_back(leap, exit_) and exit_.number < leap.number


def is_unprepared_sixth(leap, note, following):
    return is_minor_sixth(leap) and (leap.way < 0 or not turns_back_by_less(leap, note, following))


def is_unresolved_diminished(leap, note, following):
    return is_diminished_leap(leap) and not turns_back_by_step(leap, note, following)


augmented_leap = leap_rule(lambda leap, *_: leap.is_augmented and 2 <= leap.number <= 8)
diminished_leap = leap_rule(lambda leap, *_: is_diminished_leap(leap))
diminished_leap_unless_resolved = leap_rule(is_unresolved_diminished)
wide_leap = leap_rule(lambda leap, *_: leap.number > 8 or (leap.number == 7 and leap.is_unaltered))
chromatic_step = leap_rule(lambda leap, *_: leap.steps == 0 and leap.way != 0)
major_sixth_leap = leap_rule(lambda leap, *_: is_major_sixth(leap))
major_sixth_leap_over_the_barline = leap_rule(
    lambda leap, note, _: is_major_sixth(leap) and note.onset.denominator == 1
)
falling_minor_sixth = leap_rule(lambda leap, *_: is_minor_sixth(leap) and leap.way < 0)
minor_sixth_unless_up_and_back = leap_rule(is_unprepared_sixth)


def never(_):
    return ()


def compass(exercise):
    low, high = map(pitch, COMPASS[exercise.registers[exercise.counter]])
    for note in exercise.lines[exercise.counter]:
        if not low.sound <= note.pitch.sound <= high.sound:
            yield exercise.counter, note.onset


LINE_AND_PAIR = {
    "consecutive-perfects": consecutive_perfects,
    "contrary-perfects": contrary_perfects,
    "crossing": crossing,
    "inner-unison": inner_unison,
    "augmented-leap": augmented_leap,
    "wide-leap": wide_leap,
    "chromatic-step": chromatic_step,
    "compass": compass,
}
MODAL = LINE_AND_PAIR | {
    "direct-perfects": direct_perfects,
    "downbeat-perfects": downbeat_perfects_saved_by_leap_or_tie,
    "diminished-leap": diminished_leap,
    "major-sixth-leap": major_sixth_leap,
    "minor-sixth-leap": falling_minor_sixth,
    "strong-dissonance": strict_dissonance.strong_dissonance,
}
SUSPENSIONS = {
    "weak-dissonance": strict_dissonance.weak_dissonance,
    "suspension": strict_suspension.suspension,
    "suspension-kind": strict_suspension.suspension_kind,
    "perfect-suspensions": strict_suspension.perfect_suspensions,
    "suspension-chain": strict_suspension.suspension_chain,
    "ninth-from-octave": strict_suspension.ninth_from_octave,
    "early-resolution": strict_suspension.early_resolution,
}
TONAL = LINE_AND_PAIR | {
    "direct-perfects": direct_perfects_unless_the_upper_voice_steps,
    "downbeat-perfects": downbeat_perfects_saved_by_tie,
    "diminished-leap": diminished_leap_unless_resolved,
    "major-sixth-leap": major_sixth_leap_over_the_barline,
    "minor-sixth-leap": never,
}


def rules(school, species):
    """The rules on which this has an opinion, by name."""
    own = {
        ("modal", 1): {
            "strong-dissonance": never,
            "struck-dissonance": strict_dissonance.struck_dissonance,
            "minor-sixth-leap": minor_sixth_unless_up_and_back,
        },
        ("modal", 2): {"weak-dissonance": strict_dissonance.weak_dissonance},
        ("modal", 3): {"downbeat-perfects": never, "weak-dissonance": strict_dissonance.weak_dissonance},
        ("modal", 4): SUSPENSIONS | {"early-resolution": never},
        ("modal", 5): SUSPENSIONS,
        ("tonal", 1): {"major-sixth-leap": major_sixth_leap},
        ("tonal", 3): {"downbeat-perfects": never},
    }
    return (MODAL if school == "modal" else TONAL) | own.get((school, species), {})


def findings(exercise, school):
    """What is wrong, as (rule, voice, onset in bars)."""
    for name, rule in rules(school, exercise.species).items():
        for voice, onset in rule(exercise):
            yield name, voice, onset
