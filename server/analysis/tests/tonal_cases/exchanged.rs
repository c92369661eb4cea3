//! The passages with the voices exchanged at the octave, where that is still the same music. The close
//! and the passages with three bars under one harmony and with the raised sixth would have the fifth of
//! a harmony in the bass; one note is changed for that. A six-four is none when exchanged; the bar that
//! a later note decides would become one, and is left out. Fifths on afterbeats would be fourths; octaves stand for
//! them.

use bicinium_analysis::Level;

use super::passage::{NONE, above, below};

#[test]
fn exchanged_an_accented_neighbour_under_one_harmony_is_as_fine() {
    let passage = below("G major", 2, "| | E5 C5 | B4 C5 | |", "| | C4 | C4 | |");
    assert_eq!(passage.faults("tonal"), NONE);
    assert_eq!(passage.faults("modal"), [("strong-dissonance", 3)]);
}

#[test]
fn exchanged_a_second_on_the_beat_without_a_harmony_that_reaches_it_is_a_fault() {
    let passage = below("G major", 2, "| | G4 F#4 | E4 D4 | G4 | |", "| | B3 | D4 | B3 | |");
    assert_eq!(passage.faults("tonal"), [("strong-dissonance", 3)]);
}

#[test]
fn exchanged_one_harmony_through_three_bars_carries_an_accented_passing_note() {
    let upper = "| | G5 F#5 | E5 D5 | C5 B4 | |";
    let passage = below("G major", 2, upper, "| | B3 | B3 | G3 | |");
    assert_eq!(passage.faults("tonal"), NONE);
    assert!(passage.faults("modal").contains(&("strong-dissonance", 4)));
}

#[test]
fn octaves_on_afterbeats_are_real_or_not_in_either_voice() {
    let real_above = below("C major", 2, "| | E5 C5 | F5 D5 | |", "| | C3 | D3 | |");
    let real_below = above("C major", 2, "| | C5 | D5 | |", "| | E3 C3 | F3 D3 | |");
    for passage in [real_above, real_below] {
        assert_eq!(passage.faults("tonal"), [("afterbeat-perfects", 3)]);
    }
}

#[test]
fn exchanged_a_leap_to_the_fifth_above_is_no_six_four() {
    let passage = below("C major", 2, "| | C5 G4 | A4 F4 | |", "| | E3 | F3 | |");
    assert_eq!(passage.faults("tonal"), NONE);
}

#[test]
fn exchanged_the_close_from_the_leading_note_over_the_second_degree_is_fine() {
    let passage = below("D major", 2, "| | B4 C#5 | D5 |", "| | E3 | D3 |");
    assert_eq!(passage.faults("tonal"), NONE);
}

#[test]
fn exchanged_an_upper_counter_does_not_begin_on_the_third() {
    let passage = below("C major", 1, "| E5 | G5 | |", "| C4 | B3 | |");
    assert_eq!(passage.faults("tonal"), [("opening-interval", 1)]);
}

#[test]
fn five_to_one_sounds_final_whichever_voice_is_given_but_not_with_the_third_below() {
    let given_below = below("C major", 1, "| | B4 | C5 | |", "| | G3 | C3 | |");
    assert_eq!(given_below.told("tonal", Level::Advice), [("early-close", 3)]);
    let exchanged = above("C major", 1, "| | G4 | C5 | |", "| | B3 | C4 | |");
    assert_eq!(exchanged.told("tonal", Level::Advice), NONE);
    assert_eq!(exchanged.harmonies(), ["V6", "I"]);
}

#[test]
fn exchanged_an_octave_leap_is_balanced_by_a_step_back() {
    let caution =
        |upper| below("C major", 2, upper, "| | G3 | B3 | |").told("tonal", Level::Caution);
    assert!(!caution("| | E4 E5 | D5 ? | |").contains(&("leap-recovery", 2)));
    assert!(caution("| | E4 E5 | G5 ? | |").contains(&("leap-recovery", 2)));
}

#[test]
fn exchanged_the_raised_sixth_passes_up_to_the_raised_seventh() {
    let lower = "| | C4 | B3 | C4 | |";
    let raised = below("A minor", 2, "| | E4 F#4 | G#4 B4 | A4 E4 | |", lower);
    assert_eq!(raised.faults("tonal"), NONE);
    let natural = below("A minor", 2, "| | E4 F4 | G#4 B4 | A4 E4 | |", lower);
    assert_eq!(natural.faults("tonal"), [("augmented-leap", 3)]);
}

#[test]
fn exchanged_a_note_on_the_beat_needs_its_harmony_on_both_sides() {
    let passage = below("C major", 2, "| | C5 D5 | E5 D5 | |", "| | E3 | F3 | |");
    assert_eq!(passage.faults("tonal"), [("strong-dissonance", 3)]);
}
