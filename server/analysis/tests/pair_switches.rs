//! The switches of the rules about two voices: passages whose verdict depends on the answer that a
//! school gives. The passages marked with a figure stand in Lehmann 1907, with his verdict.

#![allow(clippy::unwrap_used, clippy::similar_names)]

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf, Snapshot};

/// A passage between blank bars.
struct Passage {
    species: u8,
    upper: &'static str,
    lower: &'static str,
}

impl Passage {
    /// Whether a rule is raised when the school sets its switches so.
    fn raises(&self, rule: &str, switches: &str) -> bool {
        !self.told(rule, switches).is_empty()
    }

    /// What it says then.
    fn told(&self, rule: &str, switches: &str) -> Vec<String> {
        let snapshot = self.judged(rule, switches);
        let findings = snapshot.findings().map(|located| located.finding);
        findings.filter(|found| found.rule == rule).map(|found| found.message.clone()).collect()
    }

    /// What is said then of that which it lets pass for a reason.
    fn admitted(&self, rule: &str, switches: &str) -> Vec<String> {
        let snapshot = self.judged(rule, switches);
        let admissions = snapshot.exercises().flat_map(|known| &known.2.verdict.admissions);
        admissions.filter(|known| known.rule == rule).map(|known| known.message.clone()).collect()
    }

    fn judged(&self, rule: &str, switches: &str) -> Arc<Snapshot> {
        let rulebook = format!(
            "name = \"own\"\ntitle = \"A school\"\nextends = \"tonal\"\n\n\
             [species.{}.rules.{rule}]\nlevel = \"fault\"\n{switches}\n",
            self.species
        );
        let mut books = Shelf::default();
        books.add(&rulebook).expect("a rulebook");
        let roles =
            if self.upper.contains(' ') { ["counter", "cantus"] } else { ["cantus", "counter"] };
        let sheet = format!(
            "rulebook own\nkey C major\n\nexercise\n  species {}\n  \
             soprano {} | | {} | |\n  tenor {} | | {} | |\n",
            self.species, roles[0], self.upper, roles[1], self.lower
        );
        Sheet::new(&sheet, Arc::new(books)).snapshot()
    }
}

const fn passage(species: u8, upper: &'static str, lower: &'static str) -> Passage {
    Passage { species, upper, lower }
}

#[test]
fn a_direct_perfect_is_saved_by_what_the_school_says() {
    let by_semitone = passage(1, "B4 | C5", "G3 | C4");
    let by_tone = passage(1, "C5 | D5", "E3 | G3");
    let tonic_and_dominant = passage(1, "D5 | G5", "B4 | C5");
    let fourth_and_fifth = passage(1, "A4 | D5", "F3 | G3");
    for (switch, saved) in [
        ("nothing", [false, false, false, false]),
        ("upper-semitone", [true, false, false, false]),
        ("upper-step", [true, true, false, false]),
        ("leading-note-to-tonic", [false, false, true, false]),
        // Figure 10.
        ("tonic-and-dominant", [true, true, true, false]),
    ] {
        let passages = [&by_semitone, &by_tone, &tonic_and_dominant, &fourth_and_fifth];
        let switches = format!("saved-by = \"{switch}\"");
        let found = passages.map(|passage| !passage.raises("direct-perfects", &switches));
        assert_eq!(found, saved, "{switch}");
    }
}

#[test]
fn a_fifth_and_an_octave_by_contrary_motion_are_refused_where_the_school_says_so() {
    // Figure 12.
    let unlike = passage(1, "D5 | F5", "G4 | F4");
    assert!(unlike.raises("contrary-perfects", "fifth-and-octave = \"refused\""));
    assert!(!unlike.raises("contrary-perfects", "fifth-and-octave = \"admitted\""));
}

#[test]
fn downbeat_perfects_are_saved_by_a_leap_or_a_tie() {
    let by_a_leap = passage(2, "E5 A4 | D5 B4", "A3 | G3");
    // Figure 68.
    let by_a_tie = passage(4, "G5 E5 | - C5", "C5 | A4");
    // Figure 28.
    let by_neither = passage(2, "E5 C5 | D5 B4", "A4 | G4");
    for (switch, saved) in [
        ("nothing", [false, false, false]),
        ("leap", [true, false, false]),
        ("tie", [false, true, false]),
        ("leap-or-tie", [true, true, false]),
    ] {
        let switches = format!("saved-by = \"{switch}\"");
        let found = [&by_a_leap, &by_a_tie, &by_neither]
            .map(|passage| !passage.raises("downbeat-perfects", &switches));
        assert_eq!(found, saved, "{switch}");
    }
}

#[test]
fn a_leap_between_downbeats_may_start_from_a_note_tied_into_the_bar() {
    let by_a_fourth = passage(4, "E4 G4 | - C5 | A4 F4", "C4 | C4 | D4");
    let by_a_third = passage(4, "E4 G4 | - B4 | A4 F4", "C4 | C4 | D4");
    let found = [&by_a_fourth, &by_a_third]
        .map(|passage| passage.raises("downbeat-perfects", "saved-by = \"leap\""));
    assert_eq!(found, [false, true]);
}

#[test]
fn afterbeat_perfects_are_saved_by_a_melodic_note_or_from_the_other_side() {
    let by_a_passing_note = passage(2, "A4 G4 | F4 A4", "C4 | D4");
    // Figure 28: octaves approached from both sides, and twice from below.
    let from_both_sides = passage(2, "E5 G5 | A5 F5", "G4 | F4");
    let from_below = passage(2, "A4 C5 | B4 D5", "C4 | D4");
    for (switch, saved) in [
        ("nothing", [false, false, false]),
        ("a-melodic-note", [true, false, false]),
        ("the-other-side", [true, true, false]),
    ] {
        let switches = format!("saved-by = \"{switch}\"");
        let found = [&by_a_passing_note, &from_both_sides, &from_below]
            .map(|passage| !passage.raises("afterbeat-perfects", &switches));
        assert_eq!(found, saved, "{switch}");
    }
}

#[test]
fn it_is_said_what_saves_afterbeat_perfects() {
    let by_a_passing_note = passage(2, "A4 G4 | F4 A4", "C4 | D4");
    let from_both_sides = passage(2, "E5 G5 | A5 F5", "G4 | F4");
    let said = |passage: &Passage, saved_by: &str| {
        passage.admitted("afterbeat-perfects", &format!("saved-by = \"{saved_by}\""))
    };
    assert_eq!(
        said(&by_a_passing_note, "a-melodic-note"),
        [
            "Fifths on the same weak beat of neighbouring bars, G4 over C4, then A4 over D4 in bar 3, \
          beat 2, are admitted: G4 in bar 2, beat 2 only embellishes."
        ]
    );
    assert_eq!(
        said(&from_both_sides, "the-other-side"),
        [
            "Octaves on the same weak beat of neighbouring bars, G5 over G4, then F5 over F4 in bar 3, \
          beat 2, are admitted: a voice comes to the second from the other side than to the first."
        ]
    );
    assert_eq!(said(&from_both_sides, "nothing"), [""; 0]);
}

#[test]
fn quarters_keep_the_distance_that_the_school_asks_for() {
    // Figure 47: downbeats; the third quarter; the second quarter.
    let downbeats = passage(3, "G4 C5 E5 D5 | C5 B4 A4 B4", "C4 | F4");
    let third = passage(3, "E4 F4 G4 F4 | E4 C5 C5 B4", "C4 | A3");
    let second = passage(3, "C5 E5 D5 C5 | D5 G4 A4 B4", "A4 | G4");
    for (switch, admitted) in [
        ("open-music-theory", [true, false, true]),
        ("lavignac", [true, false, false]),
        ("lehmann", [false, false, false]),
        ("grove", [false, true, true]),
    ] {
        let switches = format!("window = \"{switch}\"");
        let found = [&downbeats, &third, &second]
            .map(|passage| !passage.raises("main-quarter-perfects", &switches));
        assert_eq!(found, admitted, "{switch}");
    }
}

#[test]
fn voices_may_cross_for_as_many_moments_as_the_school_says() {
    // Figure 27.
    let briefly = passage(2, "G4 C4 | F4 G4", "E4 | D4");
    let longer = passage(2, "G4 C4 | B3 C4", "E4 | D4");
    let raises =
        |passage: &Passage, at_most| passage.raises("crossing", &format!("at-most = {at_most}"));
    assert_eq!([0, 1, 3].map(|at_most| raises(&briefly, at_most)), [true, false, false]);
    assert_eq!([0, 1, 3].map(|at_most| raises(&longer, at_most)), [true, true, false]);
}

#[test]
fn the_widest_distance_is_an_interval() {
    let thirteenth = passage(1, "E5 | C5", "G3 | A3");
    let raises = |at_most| thirteenth.raises("distance", &format!("at-most = \"{at_most}\""));
    assert_eq!(["M10", "P12", "m13", "M13"].map(raises), [true, true, true, false]);
}

#[test]
fn a_distance_that_is_no_interval_is_refused() {
    let text = "name = \"own\"\ntitle = \"A school\"\nextends = \"tonal\"\n\
                [rules.distance]\nat-most = \"P13\"\n";
    let problems = Shelf::default().add(text).unwrap_err();
    assert!(problems.iter().any(|problem| problem.message.contains("distance")), "{problems:?}");
}

#[test]
fn quarters_may_come_to_a_perfect_consonance_again_by_contrary_motion_where_the_school_says_so() {
    let apart = passage(3, "E5 G4 A4 B4 | E5 D5 C5 B4", "C4 | A3");
    let same_way = passage(3, "E5 G4 A4 B4 | A4 B4 C5 D5", "C4 | D4");
    let window = "window = \"lavignac\"\nby-contrary-motion";
    for (answer, admitted) in [("refused", [false, false]), ("admitted", [true, false])] {
        let switches = format!("{window} = \"{answer}\"");
        let found =
            [&apart, &same_way].map(|passage| !passage.raises("main-quarter-perfects", &switches));
        assert_eq!(found, admitted, "{answer}");
    }
}

#[test]
fn neighbouring_perfect_consonances_are_told_by_another_rule_only() {
    let neighbours = passage(3, "E5 D5 C5 G4 | A4 B4 C5 D5", "C4 | D4");
    assert!(neighbours.raises("consecutive-perfects", ""));
    assert!(!neighbours.raises("main-quarter-perfects", "window = \"lavignac\""));
}

#[test]
fn thirds_are_counted_from_moment_to_moment_or_on_strong_beats() {
    let in_a_row = passage(1, "C4 | D4 | E4 | F4", "E5 | F5 | G5 | A5");
    let on_strong_beats = passage(2, "E5 C5 | F5 D5 | G5 E5 | A5 F5", "C4 | D4 | E4 | F4");
    let broken = passage(2, "E5 C5 | F5 D5 | B4 E5 | A5 F5", "C4 | D4 | E4 | F4");
    let sixths_between = passage(2, "E5 C5 | F5 D5 | C5 E5 | A5 F5", "C4 | D4 | E4 | F4");
    let passages = [&in_a_row, &on_strong_beats, &broken, &sixths_between];
    for (switches, expected) in [
        ("counted = \"everywhere\"", [true, false, false, false]),
        ("counted = \"on-strong-beats\"", [true, true, false, false]),
        ("counted = \"on-strong-beats\"\nat-most = 4", [false, false, false, false]),
        ("counted = \"on-strong-beats\"\nat-most = 1", [true, true, true, true]),
    ] {
        let found = passages.map(|passage| passage.raises("imperfect-run", switches));
        assert_eq!(found, expected, "{switches}");
    }
}

#[test]
fn a_chain_on_strong_beats_is_called_one() {
    let chain = passage(2, "E5 C5 | F5 D5 | G5 E5 | A5 F5", "C4 | D4 | E4 | F4");
    let told = chain.told("imperfect-run", "counted = \"on-strong-beats\"");
    let sentences: Vec<_> = told.iter().map(|it| it.split(". ").next().unwrap()).collect();
    assert_eq!(sentences, ["4 thirds in a row on strong beats, up to A5 over F4 in bar 5"]);
}

#[test]
fn a_chain_on_strong_beats_ends_where_something_is_not_written() {
    let open = passage(2, "E5 C5 | F5 D5 | ? E5 | A5 F5 | G5 E5", "C4 | D4 | E4 | F4 | E4");
    assert!(!open.raises("imperfect-run", "counted = \"on-strong-beats\""));
}

#[test]
fn a_chain_on_strong_beats_of_quick_notes_is_seen_whole() {
    let eighths = "(E5 F5) (E5 F5) (E5 F5) (E5 F5)";
    let upper: &'static str = format!("{eighths} | {eighths} | {eighths} | {eighths}").leak();
    let quick = passage(5, upper, "C4 | C4 | C4 | C4");
    assert!(quick.raises("imperfect-run", "counted = \"on-strong-beats\""));
}

#[test]
fn unisons_stand_on_weak_beats_as_often_as_the_school_says() {
    let once = passage(2, "E4 C4 | F4 G4 | E4 F4", "C4 | D4 | C4");
    let twice = passage(2, "E4 C4 | F4 D4 | E4 F4", "C4 | D4 | C4");
    let strong = passage(2, "E4 F4 | D4 E4 | F4 E4", "C4 | D4 | C4");
    for (answer, expected) in [
        ("admitted", [false, false, true]),
        ("once", [false, true, true]),
        ("refused", [true, true, true]),
    ] {
        let switches = format!("on-weak-beats = \"{answer}\"");
        let found =
            [&once, &twice, &strong].map(|passage| passage.raises("inner-unison", &switches));
        assert_eq!(found, expected, "{answer}");
    }
}

#[test]
fn a_unison_on_a_strong_beat_is_told_as_such_and_is_none_of_those_on_weak_beats() {
    let both = passage(2, "E4 F4 | D4 E4 | F4 C4 | E4 G4", "C4 | D4 | C4 | C4");
    for (answer, places) in [
        ("once", vec!["the strong beat of bar 3"]),
        ("refused", vec!["the strong beat of bar 3", "bar 4, beat 2"]),
    ] {
        let told = both.told("inner-unison", &format!("on-weak-beats = \"{answer}\""));
        let on =
            |it: &String| it.split(". ").next().unwrap().split(" on ").nth(1).unwrap().to_owned();
        assert_eq!(told.iter().map(on).collect::<Vec<_>>(), places, "{answer}");
    }
}

#[test]
fn voices_leap_together_as_the_school_counts_it() {
    let the_same_way = passage(1, "E4 | G4", "C3 | E3");
    let apart_into_an_octave = passage(1, "D5 | F5", "A3 | F3");
    let apart_into_a_sixth = passage(1, "C5 | E5", "A3 | G3");
    let together_into_a_third = passage(1, "D5 | A4", "B3 | F4");
    for (switch, raised) in [
        ("the-same-way-or-wide", [true, false, false, true]),
        ("apart-into-perfects", [false, true, false, false]),
    ] {
        let passages =
            [&the_same_way, &apart_into_an_octave, &apart_into_a_sixth, &together_into_a_third];
        let switches = format!("counted = \"{switch}\"");
        let found = passages.map(|passage| passage.raises("leaps-together", &switches));
        assert_eq!(found, raised, "{switch}");
    }
}

#[test]
fn the_leading_note_saves_a_direct_fifth_over_the_tonic_and_nothing_like_it() {
    let saved = passage(1, "D5 | G5", "B4 | C5");
    let to_an_octave = passage(1, "D5 | C6", "B4 | C5");
    let from_the_sixth_degree = passage(1, "C5 | G5", "A4 | C5");
    let to_the_second_degree = passage(1, "D5 | A5", "B4 | D5");
    let from_a_sixth = passage(1, "G4 | G5", "B3 | C5");
    let passages =
        [&saved, &to_an_octave, &from_the_sixth_degree, &to_the_second_degree, &from_a_sixth];
    let switches = "saved-by = \"leading-note-to-tonic\"";
    let found = passages.map(|passage| passage.raises("direct-perfects", switches));
    assert_eq!(found, [false, true, true, true, true]);
}

#[test]
fn a_tritone_between_the_voices_counts_between_root_positions_at_most() {
    let five_four = passage(1, "D5 | C5", "G3 | F3");
    let dominant_to_subdominant = passage(1, "B4 | A4", "G3 | F3");
    let from_an_inversion = passage(1, "F4 | B4", "A3 | G3");
    let filled_to_a_sixth = passage(2, "D4 A3 | B3 D4", "F3 | G3");
    let altered = passage(1, "F4 | E4", "D4 | F#3");
    for (switch, raised) in [
        ("admitted", [false, false, false, false, true]),
        ("refused-between-root-positions", [false, true, false, false, true]),
    ] {
        let passages = [
            &five_four,
            &dominant_to_subdominant,
            &from_an_inversion,
            &filled_to_a_sixth,
            &altered,
        ];
        let switches = format!("tritone = \"{switch}\"");
        let found = passages.map(|passage| passage.raises("cross-relation", &switches));
        assert_eq!(found, raised, "{switch}");
    }
}

#[test]
fn a_sixth_over_one_note_does_not_take_the_root_from_the_next() {
    let over_the_note_before = passage(1, "C4 | A3 | B3", "E3 | F3 | G3");
    let diminished_fifth = passage(1, "F4 | F4", "D4 | B3");
    let switches = "tritone = \"refused-between-root-positions\"";
    let found = [&over_the_note_before, &diminished_fifth]
        .map(|passage| passage.raises("cross-relation", switches));
    assert_eq!(found, [true, false]);
}
