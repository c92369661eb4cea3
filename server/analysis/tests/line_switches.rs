//! The rules about one line: passages whose verdict depends on the answer that a school gives, and
//! passages in which something is not written yet.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};

/// A passage of free writing; a voice with more notes than bars is the counter.
struct Passage {
    key: &'static str,
    upper: &'static str,
    lower: &'static str,
}

impl Passage {
    /// The messages of a rule when the school sets its switches so.
    fn told(&self, rule: &str, switches: &str) -> Vec<String> {
        self.told_of(["cantus", "counter"], rule, switches)
    }

    /// The same, with nothing given.
    fn told_of_two_counters(&self, rule: &str, switches: &str) -> Vec<String> {
        self.told_of(["counter", "counter"], rule, switches)
    }

    fn told_of(&self, roles: [&str; 2], rule: &str, switches: &str) -> Vec<String> {
        let rulebook = format!(
            "name = \"own\"\ntitle = \"A school\"\nextends = \"modal\"\n\n\
             [species.free.rules.{rule}]\nlevel = \"fault\"\n{switches}\n"
        );
        let mut books = Shelf::default();
        books.add(&rulebook).expect("a rulebook");
        let sheet = format!(
            "rulebook own\nkey {}\n\nexercise\n  soprano {} | {} |\n  bass {} | {} |\n",
            self.key, roles[0], self.upper, roles[1], self.lower
        );
        let snapshot = Sheet::new(&sheet, Arc::new(books)).snapshot();
        let findings = snapshot.findings().map(|located| located.finding);
        findings.filter(|found| found.rule == rule).map(|found| found.message.clone()).collect()
    }

    fn raises(&self, rule: &str, switches: &str) -> bool {
        !self.told(rule, switches).is_empty()
    }
}

/// A line under a cantus that does not matter, between blank bars.
const fn inside(key: &'static str, lower: &'static str) -> Passage {
    Passage { key, upper: " | | | | | | | ", lower }
}

/// Which of several lines raise a rule under each answer to a question.
fn verdicts<const N: usize>(rule: &str, lines: [&Passage; N], answers: &[(&str, [bool; N])]) {
    for (switches, expected) in answers {
        let found = lines.map(|line| line.raises(rule, switches));
        assert_eq!(found, *expected, "{rule}: {switches}");
    }
}

#[test]
fn a_framed_tritone_is_resolved_inward_if_diminished_and_only_by_going_on_if_augmented() {
    let augmented = inside("C major", " | F2 | G2 | A2 | B2 | A2 | ");
    let diminished = inside("C major", " | B2 | C3 | D3 | F3 | E3 | ");
    let left_by_leap = inside("C major", " | B2 | C3 | D3 | F3 | D3 | ");
    let gone_on = inside("C major", " | F2 | G2 | A2 | B2 | C3 | ");
    verdicts(
        "framed-tritone",
        [&augmented, &diminished, &left_by_leap, &gone_on],
        &[
            ("counted = \"unresolved-frames\"", [true, false, true, false]),
            ("counted = \"all-frames\"", [true, true, true, false]),
            ("counted = \"any-outline\"", [true, true, true, true]),
        ],
    );
}

#[test]
fn a_tritone_inside_a_longer_run_is_not_mended_by_going_on() {
    let mends = |line, counted| {
        let told = inside("C major", line).told("framed-tritone", counted);
        told.iter().map(|it| it.split(". ").nth(1).unwrap().to_owned()).collect::<Vec<_>>()
    };
    let (gone_on, turned) = (" | F2 | G2 | A2 | B2 | C3 | ", " | F2 | G2 | A2 | B2 | A2 | ");
    assert_eq!(mends(gone_on, "counted = \"any-outline\""), ["Turn earlier."]);
    assert_eq!(
        mends(turned, "counted = \"all-frames\""),
        ["Go one step further, or turn earlier."]
    );
}

#[test]
fn a_leap_of_a_tritone_is_no_outline() {
    let leap = inside("C major", " | F2 | B2 | C3 | ");
    verdicts("framed-tritone", [&leap], &[("counted = \"any-outline\"", [false])]);
}

#[test]
fn a_note_struck_again_neither_ends_a_run_nor_hides_a_tritone() {
    let resolved = inside("C major", " | F2 | G2 | B2 | B2 | C3 | ");
    let turned = inside("C major", " | F2 | A2 | A2 | B2 | G2 | ");
    verdicts(
        "framed-tritone",
        [&resolved, &turned],
        &[("counted = \"unresolved-frames\"", [false, true])],
    );
}

#[test]
fn a_diminished_leap_is_judged_by_what_the_school_asks_after_it() {
    let turned = inside("C major", " | F3 | B2 | C3 | ");
    let turned_late = inside("C major", " | F3 | B2 | B2 | C3 | ");
    let gone_on = inside("C major", " | F3 | B2 | A2 | ");
    let leapt = inside("C major", " | F3 | B2 | D3 | ");
    let open = inside("C major", " | F3 | B2 | ");
    verdicts(
        "diminished-leap",
        [&turned, &turned_late, &gone_on, &leapt, &open],
        &[
            ("allowed = \"never\"", [true, true, true, true, true]),
            ("allowed = \"if-it-turns-back\"", [false, false, true, true, false]),
            ("allowed = \"always\"", [false, false, false, false, false]),
        ],
    );
}

#[test]
fn a_diminished_fourth_may_be_the_only_diminished_leap_that_is_allowed() {
    let fourth = inside("A minor", " | C3 | G#2 | A2 | ");
    let fifth = inside("A minor", " | D3 | G#2 | A2 | ");
    let seventh = inside("A minor", " | F3 | G#2 | A2 | ");
    verdicts(
        "diminished-leap",
        [&fourth, &fifth, &seventh],
        &[
            ("allowed = \"never\"", [true, true, true]),
            ("allowed = \"only-the-fourth\"", [false, true, true]),
            ("allowed = \"always\"", [false, false, false]),
        ],
    );
}

#[test]
fn a_refused_leap_that_turns_back_is_not_told_to_turn_back() {
    let turned = inside("C major", " | F3 | B2 | C3 | ");
    let told = turned.told("diminished-leap", "allowed = \"never\"");
    assert!(told.iter().all(|message| !message.contains("turn back")), "{told:?}");
}

#[test]
fn a_diminished_leap_at_the_end_never_turns_back() {
    let end = Passage { key: "C major", upper: "A4 | D5", lower: "F3 | B2" };
    let short = Passage { key: "C major", upper: "A4 | D5 | E5", lower: "F3 | B2" };
    verdicts(
        "diminished-leap",
        [&end, &short],
        &[("allowed = \"if-it-turns-back\"", [true, false])],
    );
}

#[test]
fn a_minor_sixth_is_judged_by_its_direction_and_by_what_follows() {
    let turned = inside("C major", " | E3 | C4 | B3 | ");
    let gone_on = inside("C major", " | E3 | C4 | D4 | ");
    let downward = inside("C major", " | C4 | E3 | F3 | ");
    let open = inside("C major", " | E3 | C4 | ");
    verdicts(
        "minor-sixth-leap",
        [&turned, &gone_on, &downward, &open],
        &[
            ("allowed = \"never\"", [true, true, true, true]),
            ("allowed = \"upward-if-it-turns-back\"", [false, true, true, false]),
            ("allowed = \"upward\"", [false, false, true, false]),
            ("allowed = \"both-ways\"", [false, false, false, false]),
        ],
    );
}

#[test]
fn a_minor_sixth_downward_is_told_once() {
    let gone_on = inside("C major", " | C4 | E3 | D3 | ");
    let switches = "allowed = \"upward-if-it-turns-back\"";
    assert_eq!(gone_on.told("minor-sixth-leap", switches).len(), 1);
}

#[test]
fn a_major_sixth_is_judged_by_the_bars_of_its_notes() {
    let inside_a_bar = inside("C major", " | C3 A3 | G3 | ");
    let across = inside("C major", " | D3 C3 | A3 | ");
    verdicts(
        "major-sixth-leap",
        [&inside_a_bar, &across],
        &[
            ("allowed = \"never\"", [true, true]),
            ("allowed = \"inside-a-bar\"", [false, true]),
            ("allowed = \"always\"", [false, false]),
        ],
    );
}

#[test]
fn a_leap_is_judged_when_the_line_leaves_the_note_it_came_to() {
    let turned = inside("C major", " | F2 | C3 | C3 | B2 | ");
    let gone_on = inside("C major", " | F2 | C3 | C3 | D3 | ");
    verdicts("leap-recovery", [&turned, &gone_on], &[("", [false, true])]);
}

#[test]
fn each_wrong_leap_is_told_by_one_rule() {
    let rules = ["wide-leap", "augmented-leap", "diminished-leap", "major-sixth-leap"];
    for (line, expected) in [
        ("C3 | E4", "wide-leap"),
        ("C3 | B3", "wide-leap"),
        ("F2 | G#3", "wide-leap"),
        ("F3 | G#3", "augmented-leap"),
        ("F2 | B2", "augmented-leap"),
        ("C3 | C#4", "augmented-leap"),
        ("B2 | F3", "diminished-leap"),
        ("C#3 | Bb3", "diminished-leap"),
        ("C#3 | C4", "diminished-leap"),
        ("A3 | C3", "major-sixth-leap"),
    ] {
        let sheet = format!(
            "rulebook modal\n\nexercise\n  soprano cantus | | | | |\n  bass counter | | {line} | |\n"
        );
        let snapshot = Sheet::new(&sheet, Arc::new(Shelf::default())).snapshot();
        let found: Vec<_> = snapshot.findings().map(|located| located.finding.rule).collect();
        let told: Vec<_> = rules.into_iter().filter(|rule| found.contains(rule)).collect();
        assert_eq!(told, [expected], "{line}");
    }
}

const MINOR: &str = "leading-note = \"anywhere\"\nflat = \"none\"\nraised-sixth";
const MODES: &str = "raised-sixth = \"only-to-the-seventh\"\nflat = \"of-the-mode\"\nleading-note";

#[test]
fn the_raised_sixth_is_free_on_the_way_that_the_school_says() {
    let to_the_seventh = inside("A minor", " | E3 | F#3 | G#3 | ");
    let upward = inside("A minor", " | E3 | F#3 | A3 | ");
    let downward = inside("A minor", " | E3 | F#3 | E3 | ");
    let before_a_rest = inside("A minor", " | E3 | F#3 | rest | ");
    let open = inside("A minor", " | E3 | F#3 | ");
    let lines = [&to_the_seventh, &upward, &downward, &before_a_rest, &open];
    for (answer, expected) in [
        ("only-to-the-seventh", [false, true, true, true, false]),
        ("upward", [false, false, true, true, false]),
        ("anywhere", [false, false, false, false, false]),
    ] {
        verdicts("foreign-note", lines, &[(&format!("{MINOR} = \"{answer}\""), expected)]);
    }
}

#[test]
fn the_raised_sixth_at_the_end_leads_nowhere() {
    let end = Passage { key: "A minor", upper: "C5 | A4", lower: "E3 | F#3" };
    assert!(end.raises("foreign-note", &format!("{MINOR} = \"upward\"")));
}

#[test]
fn the_leading_note_is_raised_at_the_close_but_not_in_the_phrygian_mode() {
    let dorian = Passage { key: "D dorian", upper: "E5 | D5", lower: "C#3 | D3" };
    let phrygian = Passage { key: "E phrygian", upper: "F5 | E5", lower: "D#3 | E3" };
    let early = inside("D dorian", " | D3 | C#3 | D3 | ");
    for (answer, expected) in
        [("at-the-close", [false, true, true]), ("anywhere", [false, true, false])]
    {
        let switches = format!("{MODES} = \"{answer}\"");
        verdicts("foreign-note", [&dorian, &phrygian, &early], &[(&switches, expected)]);
    }
}

#[test]
fn the_flat_of_the_mode_is_free_in_any_transposition() {
    let free =
        |key, line| !inside(key, line).raises("foreign-note", &format!("{MODES} = \"anywhere\""));
    assert!(free("D dorian", " | A2 | Bb2 | A2 | "));
    assert!(free("G dorian", " | D3 | Eb3 | D3 | "));
    assert!(free("F lydian", " | A2 | Bb2 | A2 | "));
    assert!(free("C lydian", " | E3 | F3 | E3 | "));
    assert!(!free("G mixolydian", " | A2 | Bb2 | A2 | "));
    assert!(!free("D dorian", " | D3 | Eb3 | D3 | "));
}

#[test]
fn a_figure_is_monotonous_only_if_all_of_it_is_written() {
    let two = inside("C major", " | C3 | E3 | C3 | E3 | ");
    let three = inside("C major", " | C3 | E3 | D3 | C3 | E3 | D3 | ");
    let half = inside("C major", " | F3 E3 | | F3 E3 | | ");
    let changed = inside("C major", " | C3 | E3 | C3 | F3 | ");
    let held = inside("C major", " | C3 | C3 | C3 | C3 | ");
    verdicts(
        "monotony",
        [&two, &three, &half, &changed, &held],
        &[("", [true, true, false, false, false])],
    );
}

#[test]
fn every_repetition_of_a_figure_is_told_once() {
    let thrice = inside("C major", " | C3 | E3 | C3 | E3 | C3 | E3 | ");
    let told = thrice.told("monotony", "");
    let bars: Vec<_> = told.iter().map(|message| &message[..14]).collect();
    assert_eq!(bars, ["Bars 4 and 5 r", "Bars 6 and 7 r"]);
}

const CANTUS: &str = "C5 | C5 | C5 | C5 | C5 | C5 | C5 | C5 | C5";

#[test]
fn steps_are_weighed_against_leaps_and_not_against_repeated_notes() {
    let line = |lower| Passage { key: "C major", upper: CANTUS, lower };
    let leaps = line("C3 | E3 | G3 | E3 | C3 | E3 | F3 | D3 | C3");
    let even = line("C3 | E3 | G3 | E3 | C3 | D3 | E3 | D3 | C3");
    let repeated = line("C3 C3 | C3 | D3 | E3 | E3 | G3 E3 | F3 | E3 E3 | D3");
    let short = line("C3 | E3 | G3 | E3 | C3 | E3 | F3 | D3");
    let open = line("C3 | E3 | G3 | E3 | C3 | E3 | F3 | D3 | ?");
    verdicts(
        "few-steps",
        [&leaps, &even, &repeated, &short, &open],
        &[("", [true, false, false, false, false])],
    );
}

#[test]
fn high_points_are_judged_when_the_line_is_there_to_its_end() {
    let whole = Passage { key: "C major", upper: "C5 | C5 | C5", lower: "E3 | D3 | E3" };
    let short = Passage { key: "C major", upper: "C5 | C5 | C5", lower: "E3 | E3" };
    verdicts("high-point", [&whole, &short], &[("", [true, false])]);
    let whole = Passage { key: "C major", upper: "B4 | C5 | B4", lower: "D3 | E3 | D3" };
    let short = Passage { key: "C major", upper: "B4 | C5 | B4", lower: "D3 | E3" };
    verdicts("shared-high-point", [&whole, &short], &[("", [true, false])]);
}

#[test]
fn a_run_is_judged_at_the_end_only_if_the_line_is_there_to_its_end() {
    let whole = Passage { key: "C major", upper: "A4 | E5 | D5", lower: "F2 | G2 | B2" };
    let short = Passage { key: "C major", upper: "A4 | E5 | D5 | C5", lower: "F2 | G2 | B2" };
    verdicts("framed-tritone", [&whole, &short], &[("counted = \"all-frames\"", [true, false])]);
}

#[test]
fn a_line_spans_as_much_as_the_school_says() {
    let eleventh = inside("C major", " | C3 | G3 | C4 | F4 | ");
    verdicts(
        "span",
        [&eleventh],
        &[("at-most = 10", [true]), ("at-most = 11", [false]), ("at-most = 12", [false])],
    );
}

#[test]
fn a_note_is_repeated_as_often_as_the_school_says() {
    let two = inside("C major", " | C3 | E3 | E3 | ");
    let three = inside("C major", " | E3 | E3 | E3 | ");
    verdicts(
        "repeated-note",
        [&two, &three],
        &[
            ("at-most = 1", [true, true]),
            ("at-most = 2", [false, true]),
            ("at-most = 3", [false, false]),
        ],
    );
}

#[test]
fn a_compass_is_what_the_school_says_and_refuses_what_is_no_pitch() {
    let low = inside("C major", " | C2 | E2 | ");
    verdicts("compass", [&low], &[("", [true]), ("bass = [\"C2\", \"D4\"]", [false])]);
    let book = "name = \"own\"\ntitle = \"A school\"\nextends = \"modal\"\n\n\
                [rules.compass]\nbass = [\"low\", \"D4\"]\n";
    assert!(Shelf::default().add(book).is_err());
}

/// The rules raised by a bar that leaps a minor seventh from one note of V7 to another.
fn raised_by_a_seventh(minor_seventh: &str, lower: &str) -> Vec<&'static str> {
    let rulebook = format!(
        "name = \"own\"\ntitle = \"A school\"\nextends = \"tonal\"\n\n\
         [harmony.vocabulary]\nmajor = [\"I\", \"I6\", \"V\", \"V7\", \"V6/5\", \"V4/2\"]\n\n\
         [rules.wide-leap]\nminor-seventh = \"{minor_seventh}\"\n"
    );
    let mut books = Shelf::default();
    books.add(&rulebook).expect("a rulebook");
    let sheet = format!(
        "rulebook own\n\nexercise\n  species 2\n  soprano cantus | | B4 | C5 | |\n  \
         tenor counter | | {lower} | |\n  harmony | | V7 | I | |\n"
    );
    let snapshot = Sheet::new(&sheet, Arc::new(books)).snapshot();
    snapshot.findings().map(|located| located.finding.rule).collect()
}

#[test]
fn a_minor_seventh_is_leapt_only_inside_one_harmony_if_at_all() {
    let inside = "G3 F4 | E4 C4";
    let across = "B3 D3 | C4 E4";
    assert!(raised_by_a_seventh("never", inside).contains(&"wide-leap"));
    assert!(!raised_by_a_seventh("inside-one-harmony", inside).contains(&"wide-leap"));
    assert!(raised_by_a_seventh("inside-one-harmony", across).contains(&"wide-leap"));
}

#[test]
fn the_upper_voice_may_repeat_a_note_more_often_where_the_school_says_so() {
    let upper = Passage { key: "C major", upper: "E5 | E5 | E5", lower: "C3 | A2 | C3" };
    let lower = Passage { key: "C major", upper: "E5 | F5 | E5", lower: "C3 | C3 | C3" };
    let raises = |passage: &Passage, switches: &str| {
        !passage.told_of_two_counters("repeated-note", switches).is_empty()
    };
    for (switches, expected) in [
        ("at-most = 1\nmore-above = 0", [true, true]),
        ("at-most = 1\nmore-above = 1", [true, true]),
        ("at-most = 1\nmore-above = 2", [false, true]),
        ("at-most = 3\nmore-above = 0", [false, false]),
    ] {
        assert_eq!([&upper, &lower].map(|line| raises(line, switches)), expected, "{switches}");
    }
}

#[test]
fn no_school_may_admit_less_than_one_note() {
    for rule in ["repeated-note", "high-point"] {
        let book = format!(
            "name = \"own\"\ntitle = \"A school\"\nextends = \"modal\"\n\n\
             [rules.{rule}]\nat-most = 0\n"
        );
        assert!(Shelf::default().add(&book).is_err(), "{rule}");
    }
}

#[test]
fn a_leap_is_made_good_as_the_school_says() {
    let fourth_back_by_step = inside("C major", " | C3 | F3 | E3 | ");
    let fifth_back_by_third = inside("C major", " | C3 | G3 | E3 | ");
    let fourth_on = inside("C major", " | C3 | F3 | G3 | ");
    let octave_on = inside("C major", " | C3 | C4 | D4 | ");
    verdicts(
        "leap-recovery",
        [&fourth_back_by_step, &fifth_back_by_third, &fourth_on, &octave_on],
        &[
            ("made-good-by = \"a-step-or-a-smaller-leap\"", [false, false, true, true]),
            ("made-good-by = \"a-step\"", [false, true, true, true]),
            ("smallest = 5\nmade-good-by = \"a-step\"", [false, true, false, true]),
            ("smallest = 8", [false, false, false, true]),
        ],
    );
}

#[test]
fn a_note_that_is_struck_again_puts_off_what_makes_its_leap_good() {
    let at_once = inside("C major", " | C3 | F3 | E3 | ");
    let struck_again = inside("C major", " | C3 | F3 | F3 | E3 | ");
    let fifth_back_by_third = inside("C major", " | C3 | G3 | E3 | ");
    verdicts(
        "leap-recovery",
        [&at_once, &struck_again, &fifth_back_by_third],
        &[
            ("made-good-by = \"a-step-at-once\"", [false, true, true]),
            ("made-good-by = \"a-step\"", [false, false, true]),
        ],
    );
}

#[test]
fn the_highest_note_comes_as_often_as_the_school_says() {
    let twice = Passage { key: "C major", upper: "C5 | C5 | C5", lower: "E3 | D3 | E3" };
    let thrice = Passage {
        key: "C major",
        upper: CANTUS,
        lower: "E3 | D3 | E3 | C3 | E3 | C3 | D3 | C3 | C3",
    };
    verdicts(
        "high-point",
        [&twice, &thrice],
        &[
            ("at-most = 1", [true, true]),
            ("at-most = 2", [false, true]),
            ("at-most = 3", [false, false]),
        ],
    );
}

#[test]
fn two_leaps_frame_what_the_school_counts() {
    let seventh = inside("D dorian", " | D3 | F3 | C4 | B3 | ");
    let octave = inside("D dorian", " | D3 | A3 | D4 | C4 | ");
    let tenth = inside("D dorian", " | F2 | C3 | A3 | G3 | ");
    verdicts(
        "framed-seventh",
        [&seventh, &octave, &tenth],
        &[
            ("counted = \"sevenths-and-ninths\"", [true, false, false]),
            ("counted = \"sevenths-and-all-beyond-the-octave\"", [true, false, true]),
        ],
    );
}

#[test]
fn an_augmented_triad_is_no_triad_that_a_line_may_leap_through() {
    let augmented = inside("A minor", " | G#3 | E3 | C3 | D3 | ");
    let inverted = inside("A minor", " | E3 | G#3 | C4 | B3 | ");
    let major = inside("A minor", " | G3 | E3 | C3 | D3 | ");
    let diminished = inside("A minor", " | D3 | B2 | G#2 | A2 | ");
    let lines = [&augmented, &inverted, &major, &diminished];
    verdicts("leaps-in-one-direction", lines, &[("", [true, true, false, false])]);
}

#[test]
fn no_triad_has_a_fourth_and_a_seventh_over_each_other() {
    let fourth_and_seventh = inside("C major", " | C3 | F3 | E4 | D4 | ");
    let fourth_and_sixth = inside("C major", " | C3 | F3 | D4 | C4 | ");
    let fourth_and_third = inside("C major", " | C3 | F3 | A3 | G3 | ");
    let seventh_and_fifth = inside("C major", " | E2 | D3 | A3 | G3 | ");
    let lines = [&fourth_and_seventh, &fourth_and_sixth, &fourth_and_third, &seventh_and_fifth];
    verdicts("leaps-in-one-direction", lines, &[("", [true, false, false, true])]);
}

#[test]
fn a_rising_minor_sixth_at_the_end_of_the_line_is_not_turned_back() {
    let last = Passage { key: "A aeolian", upper: " | | ", lower: "G2 | E2 | C3" };
    let open = inside("A aeolian", "G2 | E2 | C3 | ");
    verdicts(
        "minor-sixth-leap",
        [&last, &open],
        &[
            ("allowed = \"upward-if-it-turns-back\"", [true, false]),
            ("allowed = \"upward\"", [false, false]),
        ],
    );
}

#[test]
fn a_leap_from_a_note_tied_into_the_bar_is_made_inside_the_bar() {
    let tied = inside("C major", " | E3 C3 | - A3 | G3 | ");
    let across = inside("C major", " | E3 C3 | A3 G3 | G3 | ");
    verdicts(
        "major-sixth-leap",
        [&tied, &across],
        &[("allowed = \"inside-a-bar\"", [false, true]), ("allowed = \"never\"", [true, true])],
    );
}

#[test]
fn the_compass_is_measured_by_sound_however_a_note_is_spelled() {
    let inside_it = inside("E major", " | Dx2 | Ebb4 | ");
    let below = inside("E minor", " | Fbb2 | G2 | ");
    let above = inside("E major", " | Cx4 | D#4 | ");
    verdicts("compass", [&inside_it, &below, &above], &[("", [false, true, true])]);
}
