"""Counters of third, fourth and fifth species drawn at random against a cantus: lines that look like exercises, with the figures
of these species begun more often than completed. Knows where notes may lie, not what is right.

Each bar of the counter is a pattern: `n` is a note, the rest stands as in the notation.
"""

from fractions import Fraction

from strict_pitch import between, pitch
from strict_sheet import shares

THIRD = {2: "n n n n", 3: "n n n n n n"}
# Bars of fifth species in duple time; those that begin with `-` hold the note before.
FREE = ["n n", "n n n n", "n - n n", "n n n -", "n (n n) n n", "n (n n) n -", "n n n (n n)"]
HELD = ["- n", "- n n n", "- n n -", "- (n n) n n", "- (n n) n -", "- (n n) n (n n)", "- - n n"]
TIED = {3: 0, 4: 0.95, 5: 0.75}
# Turns of the line, in steps: passing, neighbours, cambiatas, double neighbours, both of the last also broken off.
TURNS = [
    (1, 1, 1),
    (-1, -1, -1),
    (1, -1),
    (-1, 1),
    (-1, -2, 1, 1),
    (-1, -2, 1, -1),
    (-1, -2, 1, 2),
    (1, 2, -1, -1),
    (1, -2, 1),
    (-1, 2, -1),
    (1, -2, 2),
    (-1, 2, 1),
]
STEPS = [-1, -1, -1, 1, 1, 1, -2, 2, -3, 3, 4, -4]
TURNING, SUSPENDING, RESOLVING, GIVING_AWAY, CONSONANT = 0.5, 0.6, 0.7, 0.5, 0.85


class Walk:
    """A line that is being drawn: where it is, and which steps it is about to take."""

    def __init__(self, chance, scale, low, high):
        self.chance, self.scale, self.low, self.high = chance, scale, low, high
        self.step = chance.randrange(low + 3, high - 3)
        self.turn = ()

    def places(self, moves):
        return [self.step + move for move in moves if self.low <= self.step + move <= self.high] or [self.step]

    def free(self, against):
        """Goes on in a turn, or begins one from a consonance."""
        if self.turn and self.places(self.turn[:1]) != [self.step]:
            self.step, self.turn = self.step + self.turn[0], self.turn[1:]
            return
        self.leap(against)
        self.turn = self.chance.choice(TURNS) if self.chance.random() < TURNING else ()

    def leap(self, against):
        places = self.places(STEPS)
        consonant = [place for place in places if not self.is_dissonant(place, against)]
        rather = consonant and self.chance.random() < CONSONANT
        self.step = self.chance.choice(consonant if rather else places)

    def prepare(self, against, following):
        """Takes a consonance that will be a dissonance in the next bar."""
        found = [
            place
            for place in self.places(range(-4, 5))
            if not self.is_dissonant(place, against) and self.is_dissonant(place, following) and place != self.step
        ]
        if found and self.chance.random() < SUSPENDING:
            self.step, self.turn = self.chance.choice(found), ()
        else:
            self.free(against)

    def go_to(self, place):
        self.step, self.turn = place, ()

    def is_dissonant(self, place, against):
        return between(pitch(against), self.scale[place]).is_dissonant


def bars(chance, scale, compass, species, beats, cantus):
    """The bars of a counter; the last one has one note."""
    walk, written, is_tied = Walk(chance, scale, *compass), [], False
    for bar, against in enumerate(cantus[:-1]):
        pattern = pattern_of(chance, species, beats, is_tied)
        is_tied = bar < len(cantus) - 2 and pattern[-1] in "-n" and chance.random() < TIED[species]
        written.append(filled(walk, pattern, against, cantus[bar + 1] if is_tied else None))
    walk.leap(cantus[-1])
    return [*written, scale[walk.step].name]


def pattern_of(chance, species, beats, is_tied):
    if species == 3:
        return THIRD[beats]
    patterns = HELD if is_tied else FREE
    return patterns[0] if species == 4 else chance.choice(patterns)


def filled(walk, pattern, against, following):
    """A pattern with notes; `following` is the cantus note that the last one is held into."""
    words = pattern.replace("(", "( ").replace(")", " )").split()
    onsets = {place: onset for place, onset in zip(notes(words), onsets_of(words))}
    held = walk.step if words[0] == "-" else None
    for place in onsets:
        draw(walk, held, onsets[place], place == max(onsets), against, following)
        words[place] = walk.scale[walk.step].name
    return " ".join(words).replace("( ", "(").replace(" )", ")")


def notes(words):
    return [place for place, word in enumerate(words) if word == "n"]


def onsets_of(words):
    return [onset for word, onset, _ in shares(words, Fraction(0), Fraction(1)) if word == "n"]


def draw(walk, held, onset, is_last, against, following):
    chance = walk.chance
    if held is not None and onset == Fraction(1, 2) and chance.random() < RESOLVING:
        walk.go_to(held - 1)
    elif held is not None and onset == Fraction(1, 4) and chance.random() < GIVING_AWAY:
        walk.go_to(held - 1)
    elif is_last and following:
        walk.prepare(against, following)
    else:
        walk.free(against)
