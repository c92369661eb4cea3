"""Spelled pitches and the intervals between them, as plain arithmetic. Knows no voices and no rules."""

from typing import NamedTuple

LETTERS = "CDEFGAB"
NATURAL = (0, 2, 4, 5, 7, 9, 11)
SIGNS = {"bb": -2, "b": -1, "": 0, "#": 1, "x": 2}


class Pitch(NamedTuple):
    """A pitch: places on the staff above C0, semitones above C0, and its name (`F#3`)."""

    step: int
    sound: int
    name: str


class Interval(NamedTuple):
    """From one pitch to another: places on the staff and semitones, negative downward."""

    steps: int
    semitones: int

    @property
    def number(self):
        """1 for a unison, 8 for an octave, 10 for a tenth."""
        return abs(self.steps) + 1

    @property
    def way(self):
        """1 upward, -1 downward, 0 for the same pitch; the staff decides, within one place the sound."""
        return sign(self.steps) or sign(self.semitones)

    @property
    def alteration(self):
        """Semitones beyond the perfect or major interval of the same number."""
        octaves, rest = divmod(abs(self.steps), 7)
        return self.way * self.semitones - 12 * octaves - NATURAL[rest]

    @property
    def comes_perfect(self):
        return abs(self.steps) % 7 in (0, 3, 4)

    @property
    def is_augmented(self):
        return self.alteration > 0

    @property
    def is_diminished(self):
        return self.alteration < (0 if self.comes_perfect else -1)

    @property
    def is_unaltered(self):
        """Perfect, major or minor."""
        return not (self.is_augmented or self.is_diminished)

    @property
    def perfect(self):
        """"fifth" or "octave" (unison and fifteenth too); None for all else, the fourth included."""
        kinds = {0: "octave", 4: "fifth"}
        return kinds.get(abs(self.steps) % 7) if self.alteration == 0 else None

    @property
    def is_dissonant(self):
        """Not a unison, third, perfect fifth, sixth, octave or a compound of these."""
        is_imperfect = abs(self.steps) % 7 in (2, 5) and self.is_unaltered
        return not (self.perfect or is_imperfect)

    @property
    def is_second(self):
        return self.number == 2

    @property
    def is_step(self):
        """A major or minor second."""
        return self.number == 2 and self.is_unaltered


def sign(number):
    return (number > 0) - (number < 0)


def pitch(name):
    """The pitch of a name such as `Bb4`."""
    letter, octave = LETTERS.index(name[0]), int(name[-1])
    alteration = SIGNS[name[1:-1]]
    return Pitch(letter + 7 * octave, NATURAL[letter] + 12 * octave + alteration, name)


def spelled(step, alteration):
    """The pitch on a place of the staff, altered by so many semitones; None beyond double accidentals."""
    octave, letter = divmod(step, 7)
    names = {semitones: name for name, semitones in SIGNS.items()}
    return pitch(f"{LETTERS[letter]}{names[alteration]}{octave}") if alteration in names else None


def between(low, high):
    return Interval(high.step - low.step, high.sound - low.sound)
