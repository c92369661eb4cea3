//! Scores of other programs: those that a general-purpose library writes are read note for note, what
//! does not fit is told with its part and bars, and whatever is no score is refused.

#![allow(clippy::unwrap_used)]

use std::fmt::Write;
use std::path::Path;
use std::process::Command;

use bicinium_analysis::score::VoiceId;
use bicinium_export::import::{self, Import, Refusal};
use bicinium_tests::tool;
use bicinium_theory::Register;

/// The notes of a score: voice, onset, length, pitch.
fn table(import: &Import) -> String {
    let mut table = String::new();
    for (number, voice) in VoiceId::BOTH.into_iter().enumerate() {
        for note in &import.voices[voice].notes {
            let (onset, length) = (note.onset.ticks(), note.duration.ticks());
            writeln!(table, "{number}\t{onset}\t{length}\t{}", note.pitch).unwrap();
        }
    }
    table
}

fn remarks(import: &Import) -> Vec<String> {
    import.remarks.iter().map(ToString::to_string).collect()
}

#[test]
fn scores_of_another_program_are_read_note_for_note() {
    let asking = ["-c", "import music21; print('yes')"];
    let python = tool::that_says("python3", &asking, |said| said.trim() == "yes");
    let Some(python) = tool::or_skip(python, "python3 with music21") else { return };
    let folder = tempfile::tempdir().unwrap();
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/importing.py");
    let ran = Command::new(python).arg(script).arg(folder.path()).output().unwrap();
    assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
    let mut read = 0;
    for entry in std::fs::read_dir(folder.path()).unwrap() {
        let path = entry.unwrap().path();
        if !path.extension().is_some_and(|end| end == "musicxml" || end == "mxl") {
            continue;
        }
        let import = import::read(&std::fs::read(&path).unwrap()).unwrap();
        let meant = std::fs::read_to_string(path.with_extension("tsv")).unwrap();
        assert_eq!(table(&import), meant, "{}", path.display());
        let heading = std::fs::read_to_string(path.with_extension("heading")).unwrap();
        assert_eq!(format!("{} {}", import.key, import.meter), heading, "{}", path.display());
        assert_eq!(remarks(&import), Vec::<String>::new(), "{}", path.display());
        read += 1;
    }
    assert!(read >= 40, "only {read} scores");
}

/// A score of these parts, each a name and its measures.
fn score(parts: &[(&str, &str)]) -> String {
    let mut listed = String::new();
    let mut written = String::new();
    for (number, (name, measures)) in parts.iter().enumerate() {
        write!(listed, "<score-part id=\"P{number}\"><part-name>{name}</part-name></score-part>")
            .unwrap();
        write!(written, "<part id=\"P{number}\">{measures}</part>").unwrap();
    }
    format!(
        "<score-partwise version=\"4.0\"><part-list>{listed}</part-list>{written}</score-partwise>"
    )
}

fn measure(content: &str) -> String {
    format!("<measure number=\"1\">{ATTRIBUTES}{content}</measure>")
}

const ATTRIBUTES: &str = "<attributes><divisions>6</divisions><key><fifths>0</fifths></key>\
    <time><beats>2</beats><beat-type>2</beat-type></time></attributes>";
/// A whole note.
const WHOLE: &str =
    "<note><pitch><step>C</step><octave>4</octave></pitch><duration>24</duration></note>";

/// What is told of an upper part beside a plain lower one.
fn told(upper: &str) -> (Import, Vec<String>) {
    let (upper, lower) = (measure(upper), measure(WHOLE));
    let text = score(&[("Alto", &upper), ("Tenor", &lower)]);
    let import = import::read(text.as_bytes()).unwrap();
    let remarks = remarks(&import);
    (import, remarks)
}

#[test]
fn voices_have_the_registers_that_their_parts_are_named_after() {
    let (import, remarks) = told(WHOLE);
    let registers = VoiceId::BOTH.map(|voice| import.voices[voice].register);
    assert_eq!(registers, [Register::Alto, Register::Tenor]);
    assert_eq!(remarks, Vec::<String>::new());
    assert_eq!(table(&import), "0\t0\t64\tC4\n1\t0\t64\tC4\n");
}

#[test]
fn a_part_without_such_a_name_has_the_register_of_its_clef() {
    let of = |sign: &str, line: u8, octaves: &str| {
        let clef =
            format!("<clef><sign>{sign}</sign><line>{line}</line>{octaves}</clef></attributes>");
        let upper = measure(WHOLE).replace("</attributes>", &clef);
        let text = score(&[("Flute", &upper), ("Bass", &measure(WHOLE))]);
        import::read(text.as_bytes()).unwrap().voices[VoiceId::Upper].register
    };
    let down = "<clef-octave-change>-1</clef-octave-change>";
    assert_eq!(of("G", 2, ""), Register::Soprano);
    assert_eq!(of("G", 2, down), Register::Tenor);
    assert_eq!(
        [1, 2, 3, 4, 5].map(|line| of("C", line, "")),
        [Register::Soprano, Register::Mezzo, Register::Alto, Register::Tenor, Register::Baritone,]
    );
    assert_eq!([3, 4].map(|line| of("F", line, "")), [Register::Baritone, Register::Bass]);
}

#[test]
fn a_key_and_a_meter_that_no_sheet_has_are_told() {
    let odd = measure(WHOLE).replace("<fifths>0<", "<fifths>9<").replace("<beats>2<", "<beats>0<");
    let text = score(&[("Alto", &odd), ("Tenor", &odd)]);
    let import = import::read(text.as_bytes()).unwrap();
    let told = remarks(&import).join("\n");
    assert!(
        told.contains("its key cannot be said in a sheet; C major is written instead"),
        "{told}"
    );
    assert!(told.contains("its meter cannot be said in a sheet; 2/2 is written instead"), "{told}");
}

#[test]
fn what_does_not_fit_is_told_with_its_part_and_bar() {
    let half = "<pitch><step>D</step><octave>4</octave></pitch><duration>12</duration>";
    let note = |more: &str| format!("<note>{half}{more}</note>");
    let cases = [
        (format!("{WHOLE}<note><chord/>{half}</note>"), "chord"),
        (format!("<note><grace/>{half}</note>{WHOLE}"), "grace"),
        (format!("<note><cue/>{half}</note>{WHOLE}"), "cue"),
        (note("<lyric><text>A</text></lyric>").repeat(2), "words that are sung"),
        (note("<notations><slur type=\"start\"/></notations>").repeat(2), "slurs"),
        (format!("<direction/>{WHOLE}"), "dynamics"),
        (format!("{WHOLE}<barline><repeat direction=\"backward\"/></barline>"), "repetition"),
        (
            format!(
                "{WHOLE}<backup><duration>24</duration></backup><note>{half}<voice>2</voice></note>"
            ),
            "second voice",
        ),
        (note(""), "shorter than the meter"),
        (format!("{WHOLE}{WHOLE}"), "longer than the meter"),
        (WHOLE.replace(">24<", ">8<").repeat(3), "tuplets"),
        (WHOLE.replace("<octave>4", "<octave>12"), "pitch that a sheet cannot say"),
        (WHOLE.replace("</step>", "</step><alter>0.5</alter>"), "pitch that a sheet cannot say"),
        (WHOLE.replace("pitch>", "unpitched>"), "no pitch"),
        ("<note><rest/></note>".to_owned(), "is not said"),
        (
            format!(
                "<attributes><transpose><chromatic>-2</chromatic></transpose></attributes>{WHOLE}"
            ),
            "transposing",
        ),
    ];
    for (upper, what) in cases {
        let (_, remarks) = told(&upper);
        let [remark] = remarks.as_slice() else { panic!("{upper}: {remarks:?}") };
        assert!(remark.starts_with("Part 1 (Alto), bar 1: ") && remark.contains(what), "{remark}");
    }
}

#[test]
fn further_parts_are_told() {
    let measures = measure(WHOLE);
    let text = score(&[("Alto", &measures), ("Tenor", &measures), ("Bass", &measures)]);
    let import = import::read(text.as_bytes()).unwrap();
    assert_eq!(remarks(&import), ["Part 3 (Bass): left out; an exercise has two voices."]);
    assert_eq!(table(&import).lines().count(), 2);
}

#[test]
fn an_unsaid_bar_is_blank_and_the_others_stay() {
    let bad = format!("<measure number=\"2\">{}</measure>", WHOLE.replace(">24<", ">1<"));
    let good = format!("<measure number=\"3\">{WHOLE}</measure>");
    let upper = format!("{}{bad}{good}", measure(WHOLE));
    let lower = format!("{}{good}{good}", measure(WHOLE));
    let import = import::read(score(&[("", &upper), ("", &lower)]).as_bytes()).unwrap();
    assert_eq!(import.voices.upper.blank, [1]);
    assert_eq!((import.bars, import.voices.upper.notes.len()), (3, 2));
}

#[test]
fn what_is_no_score_is_refused() {
    let of = |text: &str| import::read(text.as_bytes()).map(|_| ()).unwrap_err();
    assert_eq!(of(""), Refusal::NoScore);
    assert_eq!(of("no score"), Refusal::NoScore);
    assert_eq!(of("<score-timewise/>"), Refusal::NoScore);
    assert_eq!(of("<score-partwise/>"), Refusal::OnePart);
    assert_eq!(of(&score(&[("Alto", &measure(WHOLE))])), Refusal::OnePart);
    assert!(matches!(of("<score-partwise><part></score-partwise>"), Refusal::Malformed(_)));
    assert_eq!(of(&"<a>".repeat(100_000)), Refusal::TooLong);
    assert_eq!(of(&" ".repeat(17 << 20)), Refusal::TooLong);
    assert_eq!(import::read(&[0xff, 0xfe, 0]).map(|_| ()).unwrap_err(), Refusal::NoText);
    assert_eq!(import::read(b"PK\x03\x04junk").map(|_| ()).unwrap_err(), Refusal::NothingPacked);
    let laughs = "<!DOCTYPE s [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;\">]><score-partwise>&b;</score-partwise>";
    assert_eq!(of(laughs), Refusal::Entities);
}

#[test]
fn a_score_that_is_cut_off_anywhere_does_no_harm() {
    let whole = score(&[("Alto", &measure(WHOLE)), ("Tenor", &measure(WHOLE))]);
    for end in 0..whole.len() {
        let _ = import::read(&whole.as_bytes()[..end]);
    }
}
