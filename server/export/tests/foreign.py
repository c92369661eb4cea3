"""Reads exported files by programs of another make.

Called with a folder that holds, for each exercise, NAME.musicxml, NAME.mid and NAME.tsv: the notes
as the exercise has them, one a line: voice, onset, length (64 to a whole note), pitch, MIDI number.
"""

import pathlib
import sys

import mido
import music21
import musicxml
import xmlschema

TICKS_PER_QUARTER = 16


def schema():
    """The schema of the W3C; what it imports from elsewhere is declared as far as it is used."""
    path = next(pathlib.Path(musicxml.__file__).parent.rglob("musicxml_4_0.xsd"))
    xlink = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
        targetNamespace="http://www.w3.org/1999/xlink">
        <xs:attribute name="href" type="xs:anyURI"/><xs:attribute name="type" type="xs:string"/>
        <xs:attribute name="role" type="xs:string"/><xs:attribute name="title" type="xs:string"/>
        <xs:attribute name="show" type="xs:string"/><xs:attribute name="actuate" type="xs:string"/>
        </xs:schema>"""
    return xmlschema.XMLSchema(str(path), locations={"http://www.w3.org/1999/xlink": xlink}, allow="local")


def scientific(pitch):
    """The pitch with # and b, octave 0 to 9."""
    sign = {0: "", 1: "#", 2: "x", -1: "b", -2: "bb"}[int(pitch.alter)]
    return f"{pitch.step}{sign}{pitch.octave}"


def notes_of_score(path):
    score = music21.converter.parse(path, forceSource=True)
    found = []
    for voice, part in enumerate(score.parts):
        for note in part.stripTies().flatten().getElementsByClass(music21.note.Note):
            ticks = [note.offset * TICKS_PER_QUARTER, note.quarterLength * TICKS_PER_QUARTER]
            found.append((voice, *map(float, ticks), scientific(note.pitch)))
    return found


def notes_of_midi(path):
    file = mido.MidiFile(path)
    assert file.type == 1 and len(file.tracks) == 3, path
    found = []
    for voice, track in enumerate(file.tracks[1:]):
        now, begun = 0, {}
        for message in track:
            now += message.time
            if message.type == "note_on":
                begun[message.note] = now
            elif message.type == "note_off":
                since = begun.pop(message.note)
                scale = TICKS_PER_QUARTER / file.ticks_per_beat
                found.append((voice, since * scale, (now - since) * scale, message.note))
        assert not begun, path
    return found


def main(folder):
    rules = schema()
    count = 0
    for table in sorted(pathlib.Path(folder).glob("*.tsv")):
        rows = [line.split("\t") for line in table.read_text().splitlines()]
        plain = [(int(v), float(on), float(long)) for v, on, long, *_ in rows]
        score, midi = table.with_suffix(".musicxml"), table.with_suffix(".mid")
        rules.validate(str(score))
        expected = [place + (row[3],) for place, row in zip(plain, rows)]
        read = notes_of_score(score)
        assert read == expected, f"{score}: {read}\n{expected}"
        expected = [place + (int(row[4]),) for place, row in zip(plain, rows)]
        read = notes_of_midi(midi)
        assert read == expected, f"{midi}: {read}\n{expected}"
        count += 1
    print(f"{count} exercises read")


if __name__ == "__main__":
    main(sys.argv[1])
