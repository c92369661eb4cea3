"""Reads the part of the notation that the worked examples use: exercises of two rows, one system each."""

import re
from fractions import Fraction
from typing import NamedTuple

from strict_pitch import pitch
from strict_time import LOWER, UPPER, Exercise, Note

WORD = re.compile(r"[()]|[^\s()]+")


class Row(NamedTuple):
    register: str
    role: str
    bars: list

    def replaced(self, bar, index, name):
        """The row with another pitch for one of the notes of a bar; both are counted from 0."""
        words = WORD.findall(self.bars[bar])
        notes = [place for place, word in enumerate(words) if is_note(word)]
        words[notes[index]] = name
        return self._replace(bars=self.bars[:bar] + [" ".join(words)] + self.bars[bar + 1 :])

    def names(self, bar):
        return [word for word in WORD.findall(self.bars[bar]) if is_note(word)]


class Written(NamedTuple):
    """An exercise as it stands on the page."""

    title: str
    key: str
    species: int
    beats: int
    rows: dict

    def exercise(self):
        return Exercise(
            lines={voice: line(row.bars) for voice, row in self.rows.items()},
            cantus=next(voice for voice, row in self.rows.items() if row.role == "cantus"),
            registers={voice: row.register for voice, row in self.rows.items()},
            species=self.species,
            beats=self.beats,
            bars=len(self.rows[UPPER].bars),
        )

    def replaced(self, voice, bar, index, name):
        return self._replace(rows=self.rows | {voice: self.rows[voice].replaced(bar, index, name)})


def is_note(word):
    return word[0] in "ABCDEFG"


def line(bars):
    """The notes of a row; `-` lengthens the note before it, also over a barline."""
    notes = []
    for bar, text in enumerate(bars):
        for word, onset, length in shares(WORD.findall(text), Fraction(bar), Fraction(1)):
            if is_note(word):
                notes.append(Note(pitch(word), onset, onset + length))
            elif word == "-":
                notes[-1] = notes[-1]._replace(end=onset + length)
    return notes


def shares(words, onset, length):
    """The words of a bar with where each begins and how long it is; brackets share one share."""
    parts = grouped(words)
    share = length / len(parts)
    for place, part in enumerate(parts):
        if isinstance(part, list):
            yield from shares(part, onset + place * share, share)
        else:
            yield part, onset + place * share, share


def grouped(words):
    parts, inside = [], None
    for word in words:
        if word == "(":
            inside = []
        elif word == ")":
            parts.append(inside)
            inside = None
        else:
            (parts if inside is None else inside).append(word)
    return parts


def read(text):
    """All exercises of a sheet, in 2/2."""
    preamble, *blocks = text.split("\nexercise ")
    species = int(re.search(r"^species (\d)", preamble, re.M).group(1))
    return [written(block, species) for block in blocks]


def written(block, species):
    title, key, upper, lower = (text.strip() for text in block.strip().splitlines())
    rows = {UPPER: row(upper), LOWER: row(lower)}
    return Written(title.strip('"'), key.removeprefix("key").strip(), species, 2, rows)


def row(text):
    head, *bars = text.rstrip("|").split("|")
    register, role = head.split()
    return Row(register, role, [bar.strip() for bar in bars])
