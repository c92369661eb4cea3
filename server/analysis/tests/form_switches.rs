//! The rules about an exercise as a whole: passages whose verdict depends on the answer that a
//! school gives, on the meter, or on what is not written yet.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};

/// An exercise; the voice with more notes than bars, or the lower one, is the counter.
#[derive(Clone, Copy)]
struct Passage {
    key: &'static str,
    meter: &'static str,
    species: u8,
    upper: &'static str,
    lower: &'static str,
}

impl Passage {
    /// The messages of a rule when a school that extends another sets its switches so.
    fn told(&self, school: &str, rule: &str, switches: &str) -> Vec<String> {
        let rulebook = format!(
            "name = \"own\"\ntitle = \"A school\"\nextends = \"{school}\"\n\n[rules.{rule}]\n\
             level = \"fault\"\n{switches}\n"
        );
        let mut books = Shelf::default();
        books.add(&rulebook).expect("a rulebook");
        let snapshot = Sheet::new(&self.sheet(), Arc::new(books)).snapshot();
        let findings = snapshot.findings().map(|located| located.finding);
        findings.filter(|found| found.rule == rule).map(|found| found.message.clone()).collect()
    }

    fn sheet(&self) -> String {
        format!(
            "rulebook own\nkey {}\nmeter {}\n\nexercise\n  species {}\n  soprano {}\n  \
             tenor {}\n",
            self.key, self.meter, self.species, self.upper, self.lower
        )
    }

    fn raises(&self, school: &str, rule: &str, switches: &str) -> bool {
        !self.told(school, rule, switches).is_empty()
    }
}

const fn passage(species: u8, upper: &'static str, lower: &'static str) -> Passage {
    Passage { key: "C major", meter: "2/2", species, upper, lower }
}

const fn triple(species: u8, upper: &'static str, lower: &'static str) -> Passage {
    Passage { meter: "3/2", ..passage(species, upper, lower) }
}

const fn phrygian(upper: &'static str, lower: &'static str) -> Passage {
    Passage { key: "E phrygian", ..passage(1, upper, lower) }
}

#[test]
fn the_opening_is_one_of_the_intervals_that_the_school_lists() {
    let fifth_above = passage(1, "counter | G4 | A4 |", "cantus | C4 | F3 |");
    let third_above = passage(1, "counter | E4 | A4 |", "cantus | C4 | F3 |");
    let octave_below = passage(1, "cantus | C5 | A4 |", "counter | C4 | F3 |");
    let fifth_below = passage(1, "cantus | C5 | A4 |", "counter | F3 | D3 |");
    let passages = [&fifth_above, &third_above, &octave_below, &fifth_below];
    for (switches, expected) in [
        ("", [false, true, false, true]),
        ("above = [\"octave\"]", [true, true, false, true]),
        ("above = [\"octave\", \"fifth\", \"third\"]", [false, false, false, true]),
        ("below = [\"octave\", \"fifth\"]", [false, true, false, false]),
    ] {
        let found = passages.map(|passage| passage.raises("modal", "opening-interval", switches));
        assert_eq!(found, expected, "{switches}");
    }
}

#[test]
fn a_third_or_a_sixth_opens_where_the_school_lists_it_and_the_voices_do_not_cross() {
    let [octave, fifth, third, sixth, seventh, crossed_third, crossed_sixth] =
        ["C5", "G4", "E4", "A4", "B4", "A3", "E3"].map(|first| Passage {
            upper: format!("counter | {first} | A4 |").leak(),
            ..passage(1, "", "cantus | C4 | F3 |")
        });
    let passages = [&octave, &fifth, &third, &sixth, &seventh, &crossed_third, &crossed_sixth];
    for (switches, expected) in [
        ("above = [\"octave\"]", [false, true, true, true, true, true, true]),
        ("above = [\"fifth\"]", [true, false, true, true, true, true, true]),
        ("above = [\"third\"]", [true, true, false, true, true, true, true]),
        ("above = [\"sixth\"]", [true, true, true, false, true, true, true]),
    ] {
        let found = passages.map(|passage| passage.raises("modal", "opening-interval", switches));
        assert_eq!(found, expected, "{switches}");
    }
}

#[test]
fn a_lower_counter_on_the_tonic_opens_well_under_the_fifth_degree() {
    let on_the_tonic = passage(1, "cantus | G4 | A4 |", "counter | C4 | F3 |");
    let off_the_tonic = passage(1, "cantus | G4 | A4 |", "counter | E4 | F3 |");
    assert!(!on_the_tonic.raises("tonal", "opening-interval", ""));
    assert!(off_the_tonic.raises("tonal", "opening-interval", ""));
}

#[test]
fn after_a_rest_the_counter_enters_as_the_school_asks() {
    let fifth_above = passage(2, "counter | rest G4 | A4 F4 |", "cantus | C4 | F3 |");
    let third_above = passage(2, "counter | rest E4 | A4 F4 |", "cantus | C4 | F3 |");
    let fourth_above = passage(2, "counter | rest F4 | A4 F4 |", "cantus | C4 | F3 |");
    let fifth_below = passage(2, "cantus | C5 | A4 |", "counter | rest F3 | D3 F3 |");
    let passages = [&fifth_above, &third_above, &fourth_above, &fifth_below];
    for (answer, expected) in [
        ("a-perfect-consonance", [false, true, true, true]),
        ("any-consonance", [false, false, true, false]),
    ] {
        let switches = format!("enters-with = \"{answer}\"");
        let found =
            passages.map(|passage| passage.raises("tonal", "opening-after-rest", &switches));
        assert_eq!(found, expected, "{answer}");
    }
}

#[test]
fn the_lower_voice_ends_as_the_school_lets_it() {
    let by_step = passage(1, "cantus | | D5 | C5 |", "counter | | B3 | C4 |");
    let from_the_fifth = passage(1, "cantus | | B4 | C5 |", "counter | | G3 | C3 |");
    let from_the_third = passage(1, "cantus | | B4 | C5 |", "counter | | E3 | C3 |");
    let off_the_final = passage(1, "cantus | | B4 | C5 |", "counter | | D4 | E4 |");
    let passages = [&by_step, &from_the_fifth, &from_the_third, &off_the_final];
    for (answer, expected) in [
        ("by-step", [false, true, true, true]),
        ("by-step-or-from-the-fifth", [false, false, true, true]),
    ] {
        let switches = format!("lower-voice = \"{answer}\"");
        let found = passages.map(|passage| passage.raises("tonal", "ending", &switches));
        assert_eq!(found, expected, "{answer}");
    }
}

#[test]
fn the_upper_voice_ends_from_the_fifth_degree_only_where_the_school_lets_it() {
    let from_the_fifth = passage(1, "counter | | G4 | C5 |", "cantus | | B3 | C4 |");
    let from_the_third = passage(1, "counter | | E4 | C5 |", "cantus | | B3 | C4 |");
    let passages = [&from_the_fifth, &from_the_third];
    for (answer, expected) in
        [("by-step", [true, true]), ("by-step-or-from-the-fifth", [false, true])]
    {
        let switches = format!("upper-voice = \"{answer}\"");
        let found = passages.map(|passage| passage.raises("tonal", "ending", &switches));
        assert_eq!(found, expected, "{answer}");
    }
}

#[test]
fn a_cadence_is_made_as_the_school_says() {
    let sixth_to_octave = passage(1, "counter | | B4 | C5 |", "cantus | | D4 | C4 |");
    let five_to_one = passage(1, "cantus | | B4 | C5 |", "counter | | G3 | C3 |");
    let in_inversion = passage(1, "cantus | | G4 | C5 |", "counter | | B3 | C4 |");
    let without_leading_note = passage(1, "cantus | | D5 | C5 |", "counter | | G3 | C3 |");
    let passages = [&sixth_to_octave, &five_to_one, &in_inversion, &without_leading_note];
    for (answer, expected) in [
        ("leading-note-and-second-degree", [false, true, true, true]),
        ("leading-note-and-second-or-fifth-degree", [false, false, true, true]),
        ("the-dominant", [false, false, false, true]),
    ] {
        let switches = format!("made-by = \"{answer}\"");
        let found = passages.map(|passage| passage.raises("tonal", "cadence", &switches));
        assert_eq!(found, expected, "{answer}");
    }
}

#[test]
fn the_leading_note_on_the_last_quarter_closes_in_either_school() {
    for (upper, lower) in [
        ("counter | | F4 G4 A4 B4 | C5 |", "cantus | | D4 | C4 |"),
        // Lehmann 1907, figure 78.
        ("counter | | F5 D5 A4 B4 | C5 |", "cantus | | D4 | C4 |"),
        ("cantus | | D5 | C5 |", "counter | | B3 G3 A3 B3 | C4 |"),
        ("cantus | | D5 | C5 |", "counter | | F3 B3 F3 B3 | C4 |"),
    ] {
        let close = passage(3, upper, lower);
        for school in ["modal", "tonal"] {
            assert!(!close.raises(school, "cadence", ""), "{school}: {upper}");
        }
    }
}

#[test]
fn a_phrygian_close_leads_from_above_in_either_school() {
    let natural = phrygian("counter | | D5 | E5 |", "cantus | | F4 | E4 |");
    let semitone_above = phrygian("counter | | F5 | E5 |", "cantus | | D4 | E4 |");
    let raised = phrygian("counter | | D#5 | E5 |", "cantus | | F4 | E4 |");
    for school in ["modal", "tonal"] {
        let found = [&natural, &semitone_above, &raised]
            .map(|passage| passage.raises(school, "cadence", ""));
        assert_eq!(found, [false, false, true], "{school}");
    }
}

#[test]
fn a_close_with_an_open_note_before_it_is_not_judged() {
    let open = passage(1, "counter | | ? | C5 |", "cantus | | F4 | C4 |");
    for rule in ["cadence", "ending"] {
        assert!(!open.raises("modal", rule, ""), "{rule}");
        assert!(!open.raises("tonal", rule, ""), "{rule}");
    }
}

#[test]
fn as_many_bars_may_be_untied_as_the_school_says() {
    let one_untied = passage(
        4,
        "counter | rest C5 | - B4 | - A4 | C5 D5 | - C5 | - B4 | C5 |",
        "cantus | C4 | E4 | F4 | F4 | E4 | D4 | C4 |",
    );
    assert!(one_untied.raises("modal", "breaking-of-ties", "at-most = 0"));
    assert!(!one_untied.raises("modal", "breaking-of-ties", "at-most = 1"));
}

#[test]
fn a_tie_of_fourth_species_begins_where_the_bar_is_divided() {
    let from_the_half = passage(4, "counter | | G4 C5 | - B4 | |", "cantus | | E4 | D4 | |");
    let from_the_quarter =
        passage(4, "counter | | G4 C5 - - | - B4 - - | |", "cantus | | E4 | D4 | |");
    let in_triple_time = triple(4, "counter | | G4 A4 C5 | - B4 G4 | |", "cantus | | E4 | D4 | |");
    let longer_in_triple_time =
        triple(4, "counter | | G4 C5 - | - B4 G4 | |", "cantus | | E4 | D4 | |");
    let found = [&from_the_half, &from_the_quarter, &in_triple_time, &longer_in_triple_time]
        .map(|passage| passage.raises("modal", "species-rhythm", ""));
    assert_eq!(found, [false, true, false, false]);
}

#[test]
fn a_tie_of_fourth_species_lasts_to_the_half_of_the_next_bar() {
    let too_short = passage(4, "counter | | G4 C5 | - B4 A4 - | |", "cantus | | E4 | D4 | |");
    let told = too_short.told("modal", "species-rhythm", "");
    let notes: Vec<_> = told.iter().map(|message| &message[..2]).collect();
    assert_eq!(notes, ["C5", "B4"], "{told:?}");
}

#[test]
fn third_species_fills_six_beats_with_six_notes() {
    let six = |meter| Passage {
        meter,
        ..passage(3, "counter | | G4 A4 B4 C5 B4 A4 | |", "cantus | | E4 | |")
    };
    for meter in ["6/4", "3/2"] {
        assert!(!six(meter).raises("modal", "species-rhythm", ""), "{meter}");
    }
}

#[test]
fn fifth_species_closes_with_a_suspension_plain_or_decorated() {
    let plain = passage(5, "counter | | F4 C5 | - B4 | C5 |", "cantus | | F4 | D4 | C4 |");
    let decorated =
        passage(5, "counter | | F4 C5 | - (B4 A4) B4 - | C5 |", "cantus | | F4 | D4 | C4 |");
    let below = passage(5, "cantus | | E5 | D5 | C5 |", "counter | | G4 C5 | - B4 | C5 |");
    let bare = passage(5, "counter | | F4 G4 | A4 B4 | C5 |", "cantus | | F4 | D4 | C4 |");
    let found = [&plain, &decorated, &below, &bare]
        .map(|passage| passage.raises("modal", "cadence-shape", ""));
    assert_eq!(found, [false, false, false, true]);
}

#[test]
fn in_triple_time_no_figure_of_the_close_is_usual() {
    let close = triple(2, "counter | | G4 A4 B4 | C5 |", "cantus | | D4 | C4 |");
    assert!(!close.raises("modal", "cadence-shape", ""));
}

#[test]
fn a_note_held_into_the_last_bar_is_told() {
    let held = passage(5, "counter | | B4 C5 | - |", "cantus | | D4 | C4 |");
    let struck = passage(5, "counter | | C5 B4 | C5 |", "cantus | | D4 | C4 |");
    assert!(held.raises("modal", "last-bar", ""));
    assert!(!struck.raises("modal", "last-bar", ""));
}

#[test]
fn a_rest_in_the_cantus_is_told_once_in_each_bar() {
    let rests =
        passage(2, "counter | | C5 B4 | A4 G4 | C5 B4 | |", "cantus | | E4 | rest | rest | |");
    assert_eq!(rests.told("modal", "cantus-rhythm", "").len(), 2);
}

#[test]
fn the_usual_figures_of_the_close_suit_a_cantus_that_falls_to_the_final() {
    let rising = passage(2, "counter | | G4 D5 | C5 |", "cantus | | B3 | C4 |");
    let falling = passage(2, "counter | | D5 B4 | C5 |", "cantus | | D4 | C4 |");
    let in_six = Passage {
        meter: "6/4",
        ..passage(3, "counter | | F4 G4 A4 G4 A4 B4 | C5 |", "cantus | | D4 | C4 |")
    };
    let suspended = Passage {
        species: 4,
        ..phrygian("counter | | C5 E5 | - D5 | E5 |", "cantus | | A4 | F4 | E4 |")
    };
    let not_suspended = Passage {
        species: 4,
        ..phrygian("counter | | C5 E5 | A4 D5 | E5 |", "cantus | | A4 | F4 | E4 |")
    };
    let found = [&rising, &falling, &in_six, &suspended, &not_suspended]
        .map(|passage| passage.raises("modal", "cadence-shape", ""));
    assert_eq!(found, [false, true, false, false, true]);
}

#[test]
fn the_figure_of_the_close_is_not_asked_for_before_the_end_is_written() {
    let open = passage(2, "counter | | D5 B4 | |", "cantus | | D4 | |");
    assert!(!open.raises("modal", "cadence-shape", ""));
}
