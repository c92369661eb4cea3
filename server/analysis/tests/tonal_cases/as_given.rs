//! The passages as they stand.

use std::sync::Arc;

use bicinium_analysis::{Level, Sheet, Shelf};

use super::passage::{NONE, UNISON, above, below, places};

#[test]
fn an_accented_neighbour_under_one_harmony_is_fine_and_a_fault_in_the_modal_school() {
    let passage = above("G major", 2, "| | C5 | C5 | |", "| | E3 C3 | B2 C3 | |");
    assert_eq!(passage.faults("tonal"), NONE);
    assert_eq!(passage.faults("modal"), [("strong-dissonance", 3)]);
}

#[test]
fn a_seventh_on_the_beat_without_a_harmony_that_reaches_it_is_a_fault() {
    let passage = above("G major", 2, "| | B4 | D5 | B4 | |", "| | G3 F#3 | E3 D3 | G3 | |");
    assert_eq!(passage.faults("tonal"), [("strong-dissonance", 3)]);
}

#[test]
fn one_harmony_through_three_bars_carries_an_accented_passing_note() {
    let passage = above("G major", 2, "| | B4 | B4 | D5 | |", "| | G3 F#3 | E3 D3 | C3 B2 | |");
    assert_eq!(passage.faults("tonal"), NONE);
    assert!(passage.faults("modal").contains(&("strong-dissonance", 4)));
}

#[test]
fn fifths_on_afterbeats_are_fine_if_one_note_passes() {
    let passage = below("C major", 2, "| | A4 G4 | F4 A4 | |", "| | C3 | D3 | |");
    assert_eq!(passage.faults("tonal"), NONE);
}

#[test]
fn fifths_on_afterbeats_are_a_fault_if_all_four_notes_belong() {
    let passage = below("C major", 2, "| | E4 G4 | F4 A4 | |", "| | C3 | D3 | |");
    assert_eq!(passage.faults("tonal"), [("afterbeat-perfects", 3)]);
}

#[test]
fn a_leap_to_the_fifth_below_is_a_six_four() {
    let passage = above("C major", 2, "| | E5 | F5 | |", "| | C3 G3 | A3 F3 | |");
    assert_eq!(passage.faults("tonal"), [("six-four", 2)]);
}

#[test]
fn the_close_from_the_dominant_with_its_third_is_fine() {
    let passage = above("D major", 2, "| | E4 | D4 |", "| | A2 C#3 | D3 |");
    assert_eq!(passage.faults("tonal"), NONE);
}

#[test]
fn a_lower_counter_begins_on_the_tonic() {
    let passage = above("C major", 1, "| C5 | B4 | |", "| E4 | G4 | |");
    assert!(passage.faults("tonal").contains(&("opening-interval", 1)));
}

#[test]
fn five_to_one_in_root_position_sounds_final_and_a_deceptive_turn_does_not() {
    let final_ = above("C major", 1, "| | B4 | C5 | |", "| | G3 | C3 | |");
    assert_eq!(final_.told("tonal", Level::Advice), [("early-close", 3)]);
    let open = above("C major", 1, "| | B4 | C5 | |", "| | G3 | A3 | |");
    assert_eq!(open.told("tonal", Level::Advice), NONE);
    assert_eq!(open.harmonies(), ["V", "vi"]);
}

#[test]
fn a_note_below_the_compass_is_a_fault_in_any_key() {
    for (key, upper) in
        [("D major", "F#4"), ("G major", "D4"), ("A minor", "F4"), ("F major", "A4")]
    {
        let of = |low: &str| {
            let sheet = format!(
                "key {key}\n\nexercise\n  species 1\n  soprano cantus | | {upper} | |\n  \
                 bass counter | | {low} | |\n"
            );
            let sheet = Sheet::new(&sheet, Arc::new(Shelf::default())).snapshot();
            let findings: Vec<_> =
                sheet.findings().map(|located| located.finding.clone()).collect();
            places(&findings, Level::Fault)
        };
        assert!(of("D2").contains(&("compass", 2)), "{key}");
        assert!(!of("E2").contains(&("compass", 2)), "{key}");
    }
}

#[test]
fn an_octave_leap_is_balanced_by_a_step_back() {
    let caution =
        |lower| above("C major", 2, "| | G4 | B4 | |", lower).told("tonal", Level::Caution);
    assert!(!caution("| | E2 E3 | D3 ? | |").contains(&("leap-recovery", 2)));
    assert!(caution("| | E2 E3 | G3 ? | |").contains(&("leap-recovery", 2)));
}

#[test]
fn the_raised_sixth_passes_up_to_the_raised_seventh() {
    let lower = "| | E3 F#3 | G#3 E3 | A3 C4 | |";
    let passage = above("A minor", 2, "| | C5 | B4 | C5 | |", lower);
    assert_eq!(passage.faults("tonal"), NONE);
    let lower = "| | E3 F3 | G#3 E3 | A3 C4 | |";
    let passage = above("A minor", 2, "| | C5 | B4 | C5 | |", lower);
    assert_eq!(passage.faults("tonal"), [("augmented-leap", 3)]);
}

#[test]
fn a_later_note_and_a_later_bar_decide_the_harmony() {
    let passage = below("C major", 2, "| | C4 F4 | A4 C5 | |", "| | A2 | F2 | |");
    assert_eq!(passage.faults("tonal"), NONE);
    assert_eq!(passage.harmonies(), ["IV6", "IV prolonged"]);
    let passage = below("C major", 2, "| | C4 E4 | F4 D4 | |", "| | A2 | D3 | |");
    assert_eq!(passage.faults("tonal"), NONE);
    assert_eq!(passage.harmonies(), ["vi", "ii"]);
    let passage = below("C major", 2, "| | C4 E4 | F4 A4 | |", "| | A2 | D3 | |");
    assert_eq!(passage.faults("tonal"), [("afterbeat-perfects", 3)]);
}

#[test]
fn an_open_note_keeps_both_harmonies_open() {
    let passage = below("C major", 2, "| | C4 ? | A4 C5 | |", "| | A2 | F2 | |");
    let sheet = Sheet::new(&passage.sheet(UNISON, "tonal"), Arc::new(Shelf::default()));
    let snapshot = sheet.snapshot();
    let (_, _, exercise) = snapshot.exercises().next().unwrap();
    let stretch = &exercise.verdict.reading.stretches[0];
    let all = stretch.alternatives.iter().map(|other| other.numeral.to_string());
    let all: Vec<_> = all.chain([stretch.numeral.to_string()]).collect();
    assert!(all.contains(&"vi".to_owned()) && all.contains(&"IV6".to_owned()), "{all:?}");
}

#[test]
fn a_neighbour_on_the_beat_needs_its_harmony_on_both_sides() {
    let passage = above("C major", 2, "| | E5 | F5 | |", "| | C4 D4 | E4 D4 | |");
    assert_eq!(passage.faults("tonal"), [("strong-dissonance", 3)]);
}
