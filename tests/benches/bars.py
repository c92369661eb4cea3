"""Interval and parallels of every bar by a music library. Reads `UPPER LOWER` line by line, prints microseconds a bar."""

import statistics
import sys
import time

from music21 import interval, note, voiceLeading

ROUNDS = 5


def made(name):
    """A note of ours in the library's spelling."""
    return note.Note(name[0] + {"b": "-", "#": "#", "": ""}[name[1:-1]] + name[-1])


def judged(bars):
    """How many bars are dissonant or follow in perfect consonances."""
    found = 0
    for number, (upper, lower) in enumerate(bars):
        found += not interval.Interval(lower, upper).isConsonant()
        if number:
            before = bars[number - 1]
            moved = voiceLeading.VoiceLeadingQuartet(before[0], upper, before[1], lower)
            found += moved.parallelFifth() or moved.parallelOctave() or moved.parallelUnison()
            found += moved.hiddenFifth() or moved.hiddenOctave()
    return found


def main():
    """Times the judging alone."""
    bars = [tuple(made(name) for name in line.split()) for line in sys.stdin]
    times = []
    for _ in range(ROUNDS):
        since = time.perf_counter()
        judged(bars)
        times.append((time.perf_counter() - since) / len(bars))
    print(statistics.median(times) * 1e6)


main()
