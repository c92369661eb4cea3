"""Reads exported files by programs of another make.

Called with a folder that holds, for each exercise, NAME.musicxml, NAME.mid and NAME.tsv: the notes
as the exercise has them, one a line: voice, onset, length (64 to a whole note), pitch, MIDI number.
"""

import math
import os
import pathlib
import sys
import tempfile
import warnings
from xml.etree import ElementTree

import mido
import music21
import musicxml
import partitura
import verovio
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


def name(step, alter, octave):
    """The pitch with # and b, octave 0 to 9."""
    sign = {0: "", 1: "#", 2: "x", -1: "b", -2: "bb"}[int(alter or 0)]
    return f"{step}{sign}{octave}"


def voices_of_music21(score, pitch):
    """The voices of what music21 has read, each a list of its notes."""
    for part in score.parts:
        notes = part.stripTies().flatten().getElementsByClass(music21.note.Note)
        yield [(float(note.offset), float(note.quarterLength), pitch(note.pitch)) for note in notes]


def score_by_music21(path):
    score = music21.converter.parse(path, forceSource=True)
    return voices_of_music21(score, lambda pitch: name(pitch.step, pitch.alter, pitch.octave))


def score_by_partitura(path):
    with warnings.catch_warnings():
        # It tells of every figure and every sentence that it has no use for.
        warnings.simplefilter("ignore")
        score = partitura.load_musicxml(path)
    for part in score.parts:
        found = []
        for note in part.notes_tied:
            begin, end = (float(part.quarter_map(at.t)) for at in (note.start, note.end_tied))
            found.append((begin, end - begin, name(note.step, note.alter, note.octave)))
        yield found


def midi_by_music21(path):
    score = music21.converter.parse(path, forceSource=True, quantizePost=False)
    return voices_of_music21(score, lambda pitch: pitch.midi)


def midi_by_mido(path):
    file = mido.MidiFile(path)
    assert file.type == 1 and len(file.tracks) == 3, path
    for track in file.tracks[1:]:
        now, begun, found = 0, {}, []
        for message in track:
            now += message.time
            if message.type == "note_on":
                begun[message.note] = now
            elif message.type == "note_off":
                since = begun.pop(message.note)
                quarter = file.ticks_per_beat
                found.append((since / quarter, (now - since) / quarter, message.note))
        assert not begun, path
        yield found


def meant(table):
    """The voices that sound: their notes by name, and by MIDI number."""
    voices = {}
    for line in table.read_text().splitlines():
        voice, onset, length, pitch, number = line.split("\t")
        place = (int(onset) / TICKS_PER_QUARTER, int(length) / TICKS_PER_QUARTER)
        voices.setdefault(voice, []).append((place, pitch, int(number)))
    written = [[(*place, pitch) for place, pitch, _ in voice] for voice in voices.values()]
    sounding = [[(*place, number) for place, _, number in voice] for voice in voices.values()]
    return written, sounding


def engraved(engraver, path):
    """The score on a page that is wide enough for one system; nothing may be said about it meanwhile."""
    with tempfile.TemporaryFile() as said:
        kept = os.dup(2)
        os.dup2(said.fileno(), 2)
        try:
            is_read = engraver.loadFile(str(path))
            page = engraver.renderToSVG(1)
        finally:
            os.dup2(kept, 2)
            os.close(kept)
        said.seek(0)
        complaints = said.read().decode() + engraver.getLog()
    assert is_read and not complaints, f"{path}: {complaints}"
    return ElementTree.fromstring(page)


def heights(page, kind):
    """How far down on a page the words of a kind stand."""
    svg = "{http://www.w3.org/2000/svg}"
    groups = [group for group in page.iter(f"{svg}g") if group.get("class") == kind]
    return [float(text.get("y")) for group in groups for text in group.findall(f"{svg}text")]


def main(folder):
    rules = schema()
    verovio.enableLog(verovio.LOG_WARNING)
    engraver = verovio.toolkit()
    engraver.setOptions({"breaks": "none"})
    count = 0
    for table in sorted(pathlib.Path(folder).glob("*.tsv")):
        score, midi = table.with_suffix(".musicxml"), table.with_suffix(".mid")
        rules.validate(str(score))
        written, sounding = meant(table)
        for path, read, expected in [
            (score, score_by_music21, written),
            (score, score_by_partitura, written),
            (midi, midi_by_music21, sounding),
            (midi, midi_by_mido, sounding),
        ]:
            # Of a voice that is silent some of them make none.
            found = [voice for voice in read(path) if voice]
            assert found == expected, f"{path}, {read.__name__}: {found}\n{expected}"
        page = engraved(engraver, score)
        figures, numerals = heights(page, "fb"), heights(page, "harm")
        assert max(figures, default=0) < min(numerals, default=math.inf), f"{score}: figures under numerals"
        count += 1
    print(f"{count} exercises read")


if __name__ == "__main__":
    main(sys.argv[1])
