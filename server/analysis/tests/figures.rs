//! Close calls about dissonance, as a teacher would judge them: short passages in several modes,
//! meters and voices, from second species to fifth, with the verdicts of the two schools. Each
//! stands between blank bars, so that its first bar is the second.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::rules::{self, Group};
use bicinium_analysis::{Finding, Level, Sheet, Shelf};

/// A passage with its setting; the row with more notes is the counter.
struct Passage {
    key: &'static str,
    meter: &'static str,
    species: u8,
    upper: &'static str,
    lower: &'static str,
}

/// A passage of a species in 2/2.
const fn of(species: u8, key: &'static str, upper: &'static str, lower: &'static str) -> Passage {
    Passage { key, meter: "2/2", species, upper, lower }
}

impl Passage {
    const fn in_meter(self, meter: &'static str) -> Self {
        Self { meter, ..self }
    }

    fn sheet(&self, school: &str) -> String {
        let Self { key, meter, species, upper, lower } = self;
        let is_above = upper.len() > lower.len();
        let roles = if is_above { ["counter", "cantus"] } else { ["cantus", "counter"] };
        format!(
            "rulebook {school}\nkey {key}\nmeter {meter}\nspecies {species}\n\nexercise\n  \
             soprano {} | | {upper} | |\n  tenor {} | | {lower} | |\n",
            roles[0], roles[1]
        )
    }

    /// What the rules about dissonance say in a school: how grave, and where.
    fn told(&self, school: &str) -> Vec<String> {
        let text = self.sheet(school);
        let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
        let findings: Vec<_> = snapshot.findings().map(|located| located.finding).collect();
        assert!(findings.iter().all(|found| found.level != Level::Notation), "{text}");
        let matters = findings.iter().filter(|found| is_about_dissonance(found));
        matters.map(|found| words(found)).collect()
    }

    /// The messages of the rules about dissonance.
    fn messages(&self, school: &str) -> Vec<String> {
        let snapshot = Sheet::new(&self.sheet(school), Arc::new(Shelf::default())).snapshot();
        let findings = snapshot.findings().map(|located| located.finding);
        findings.filter(|found| is_about_dissonance(found)).map(|it| it.message.clone()).collect()
    }

    #[track_caller]
    fn is_told(&self, school: &str, expected: &[&str]) {
        assert_eq!(self.told(school), expected, "{}", self.sheet(school));
    }

    /// One fault and nothing else, wherever a held note is pointed to.
    #[track_caller]
    fn is_a_fault(&self, school: &str) {
        let told = self.told(school);
        let is_one_fault = told.len() == 1 && told[0].starts_with("fault");
        assert!(is_one_fault, "{told:?}\n{}", self.sheet(school));
    }

    #[track_caller]
    fn is_a_fault_in_both_schools(&self) {
        self.is_a_fault("modal");
        self.is_a_fault("tonal");
    }

    #[track_caller]
    fn is_fine_in_both_schools(&self) {
        self.is_told("modal", &[]);
        self.is_told("tonal", &[]);
    }

    #[track_caller]
    fn is_told_in_both_schools(&self, expected: &[&str]) {
        self.is_told("modal", expected);
        self.is_told("tonal", expected);
    }
}

fn is_about_dissonance(finding: &Finding) -> bool {
    let group = rules::named(finding.rule).map(|entry| entry.group);
    group == Some(Group::Dissonance) && finding.level <= Level::Caution
}

fn words(finding: &Finding) -> String {
    let place = finding.place.unwrap();
    let beat = f64::from(place.beat) + place.behind;
    format!("{} {}:{beat}", finding.level.name(), place.bar)
}

mod words {
    use super::{Passage, of};

    /// What is said of the one dissonance in which a passage fails, without the remedy.
    fn said(passage: &Passage) -> String {
        let message = passage.messages("modal").into_iter().next().unwrap();
        message.split(". ").next().unwrap().to_owned()
    }

    #[test]
    fn a_note_that_comes_by_no_step_has_not_always_been_leapt_to() {
        for (counter, told) in [
            ("E4 B4 D5 B4 | E5", "the line leaps to it from E4"),
            ("A4 B4 B4 A4 | G4", "B4 is only struck again"),
            ("A4 Bb4 B4 A4 | G4", "it only raises Bb4"),
            ("A4 B4 Bb4 A4 | G4", "it only lowers B4"),
        ] {
            let messages = of(3, "C ionian", counter, "C4 | C4").messages("modal");
            assert!(messages.iter().any(|said| said.contains(told)), "{messages:?}");
        }
    }

    #[test]
    fn a_note_that_goes_on_by_no_step_is_not_always_left_by_a_leap() {
        for (counter, told) in [
            ("E4 F4 | A4 C5", "is left by a leap to A4"),
            ("E4 F4 | F4 A4", "is struck again"),
            ("E4 F4 | F#4 A4", "is only raised to F#4"),
            ("A4 B4 | Bb4 A4", "is only lowered to Bb4"),
        ] {
            let said = said(&of(2, "C ionian", counter, "C4 | D4"));
            assert!(said.ends_with(told), "{said}");
        }
    }

    #[test]
    fn a_suspension_is_told_by_what_comes_instead_of_its_resolution() {
        for (counter, cantus, told) in [
            ("A4 C5 | - D5", "F4 | D4", "and goes up to D5"),
            ("A4 C5 | - E5", "F4 | D4", "and is left by a leap to E5"),
            ("A4 C5 | - G4 B4 A4", "F4 | D4", "and is left by a leap to G4"),
            ("A4 F4 | - E4", "F3 | B3", "and goes on to E4, which has to be resolved itself"),
            (
                "A4 C5 | - - - B4",
                "F4 | D4",
                "not there when it is due: B4 stands in bar 3, after beat 2",
            ),
            (
                "A4 C5 | - A4 G4 F4",
                "F4 | D4",
                "not there when it is due: G4 stands in bar 3, beat 2",
            ),
        ] {
            let said = said(&of(5, "C ionian", counter, cantus));
            assert!(said.ends_with(told), "{said}");
        }
    }

    #[test]
    fn a_suspension_that_is_struck_again_is_to_be_resolved_downward() {
        let message = of(4, "C ionian", "A4 C5 | - C5", "F4 | D4").messages("modal").remove(0);
        assert!(message.ends_with("Resolve it down by step to a consonance."), "{message}");
    }
}

mod second_species {
    use super::of;

    #[test]
    fn a_dissonance_passes_upward_and_downward_above_and_below() {
        of(2, "F major", "A4 G4 | F4 A4", "F3 | D3").is_fine_in_both_schools();
        of(2, "G mixolydian", "B4 C5 | D5 B4", "G3 | B3").is_fine_in_both_schools();
        of(2, "C major", "B4 | C5", "G3 F3 | E3 C3").is_fine_in_both_schools();
    }

    #[test]
    fn a_neighbour_divides_the_schools() {
        let above = of(2, "F major", "A4 G4 | A4 C5", "F3 | F3");
        above.is_told("modal", &["fault 2:2"]);
        above.is_told("tonal", &[]);
        let below = of(2, "D minor", "F4 | F4", "D3 E3 | D3 A3");
        below.is_told("modal", &["fault 2:2"]);
    }

    #[test]
    fn a_dissonance_left_by_leap_is_no_passing_note() {
        of(2, "F major", "A4 Bb4 | G4 E4", "F3 | C3").is_told_in_both_schools(&["fault 2:2"]);
        of(2, "A aeolian", "C5 B4 | G4 E4", "A3 | C4").is_told_in_both_schools(&["fault 2:2"]);
    }

    #[test]
    fn a_dissonance_reached_by_leap_is_no_passing_note() {
        of(2, "F major", "C5 G4 | A4 C5", "F3 | F3").is_told_in_both_schools(&["fault 2:2"]);
        of(2, "C major", "C5 | C5", "A3 D3 | E3 C3").is_told_in_both_schools(&["fault 2:2"]);
    }

    #[test]
    fn a_step_that_comes_back_to_another_note_is_neither_passing_nor_a_neighbour() {
        // Reached from above by step and left upward by step, but raised on the way back.
        let back = of(2, "D dorian", "C5 B4 | C#5 A4", "C4 | A3");
        back.is_told("modal", &["fault 2:2"]);
    }

    #[test]
    fn what_sounds_lower_is_the_lower_voice() {
        of(2, "C ionian", "A4 C5 | E4 C5", "F4 | A4").is_told("modal", &["fault 3:1"]);
        of(2, "C ionian", "A4 C5 | D4 C5", "F4 | A4").is_told("modal", &[]);
    }

    #[test]
    fn a_dissonance_may_follow_another_on_the_way_in_triple_time() {
        of(2, "C ionian", "D4 E4 F4 | G4 E4 C4", "B3 | C4").in_meter("3/2").is_told("modal", &[]);
        of(2, "C ionian", "D4 E4 F4 | D4 E4 F4", "B3 | B3")
            .in_meter("3/2")
            .is_told("modal", &["fault 2:3"]);
    }

    #[test]
    fn a_dissonance_struck_on_the_downbeat_is_a_fault_of_the_modal_school() {
        of(2, "D dorian", "F4 G4 | A4 G4", "D4 | B3").is_told("modal", &["fault 3:1"]);
        of(2, "F lydian", "C5 | B4", "A3 G3 | F3 D3").is_told("modal", &["fault 3:1"]);
    }

    #[test]
    fn a_prolonged_harmony_carries_an_accented_neighbour_or_passing_note() {
        let neighbour = of(2, "A minor", "C5 | C5", "C4 A3 | B3 A3");
        neighbour.is_told("tonal", &[]);
        neighbour.is_told("modal", &["fault 3:1"]);
        let passing = of(2, "F major", "A4 | A4 | F4", "F3 A3 | G3 F3 | D3 F3");
        passing.is_told("tonal", &[]);
        let left_by_leap = of(2, "F major", "A4 | A4 | F4", "F3 A3 | G3 C3 | D3 F3");
        left_by_leap.is_told("tonal", &["fault 3:1"]);
    }

    #[test]
    fn the_fifth_may_pass_in_the_bass_but_not_be_leapt_to() {
        of(2, "C major", "C5 | C5", "F3 G3 | A3 F3").is_told("tonal", &[]);
        of(2, "C major", "C5 | D5", "C4 G3 | F3 D3").is_told("tonal", &["fault 2:2"]);
    }
}

mod third_species {
    use super::of;

    #[test]
    fn a_dissonance_passes_on_every_weaker_quarter() {
        of(3, "C major", "C5 D5 E5 F5 | G5 F5 E5 D5", "C4 | E4").is_fine_in_both_schools();
        of(3, "C major", "A4 G4 F4 E4 | D4 E4 F4 G4", "C4 | B3").is_told("modal", &[]);
        of(3, "C major", "B4 | C5", "G3 F3 E3 D3 | C3 D3 E3 C3").is_fine_in_both_schools();
    }

    #[test]
    fn a_neighbour_divides_the_schools() {
        let inside = of(3, "C major", "E4 F4 E4 G4 | C5 B4 A4 G4", "C4 | E4");
        inside.is_told("modal", &["fault 2:1.5"]);
        inside.is_told("tonal", &[]);
        let over_the_barline = of(3, "C major", "G4 A4 G4 F4 | G4 E4 C4 D4", "C4 | C4");
        over_the_barline.is_told("modal", &["fault 2:2.5"]);
        over_the_barline.is_told("tonal", &[]);
    }

    #[test]
    fn a_double_neighbour_comes_back_to_its_own_note() {
        let elsewhere = of(3, "C major", "E4 F4 D4 C4 | E4 F4 G4 E4", "C4 | C4");
        elsewhere.is_told("modal", &["fault 2:1.5"]);
    }

    #[test]
    fn a_double_neighbour_turns_around_one_consonance() {
        of(3, "C major", "E4 F4 D4 E4 | G4 F4 E4 G4", "C4 | C4").is_fine_in_both_schools();
        of(3, "G mixolydian", "B3 | B3", "G3 F3 A3 G3 | G3 A3 B3 G3").is_fine_in_both_schools();
    }

    #[test]
    fn a_double_neighbour_turns_around_no_dissonance() {
        // A4 only passes the first time that it is heard.
        let passing = of(3, "D dorian", "C5 A4 G4 Bb4 | A4 G4 F4 A4", "E4 | F4");
        passing.is_told("modal", &["fault 2:1.5", "fault 2:2.5"]);
        let consonant = of(3, "D dorian", "C5 A4 G4 B4 | A4 G4 F4 A4", "C4 | F4");
        consonant.is_told("modal", &[]);
    }

    #[test]
    fn a_cambiata_leaps_down_from_its_dissonance() {
        of(3, "C major", "C5 B4 G4 A4 | B4 A4 G4 B4", "C4 | G3").is_fine_in_both_schools();
    }

    #[test]
    fn a_cambiata_goes_on_by_two_steps_upward() {
        let turned = of(3, "C major", "C5 B4 G4 A4 | G4 A4 B4 C5", "C4 | E4");
        turned.is_told_in_both_schools(&["fault 2:1.5"]);
        let broken_off = of(3, "C major", "C5 B4 G4 C5 | B4 A4 G4 B4", "C4 | G3");
        broken_off.is_told_in_both_schools(&["fault 2:1.5"]);
    }

    #[test]
    fn the_middle_and_the_last_note_of_a_cambiata_are_consonant() {
        let middle = of(3, "C major", "G4 F4 D4 E4 | F4 E4 D4 F4", "C4 | D4");
        middle.is_told("modal", &["fault 2:1.5", "fault 2:2"]);
        let last = of(3, "C ionian", "C5 B4 G4 A4 | B4 A4 C5 A4", "C4 | F4");
        assert!(last.told("modal").contains(&"fault 3:1".to_owned()));
    }

    #[test]
    fn a_dissonance_reached_or_left_by_leap_is_a_fault_on_any_quarter() {
        of(3, "C major", "C5 F4 G4 E4 | A4 B4 C5 A4", "C4 | F4")
            .is_told_in_both_schools(&["fault 2:1.5"]);
        of(3, "C major", "C5 A4 F4 E4 | A4 B4 C5 A4", "C4 | F4")
            .is_told_in_both_schools(&["fault 2:2"]);
        of(3, "C major", "C5 A4 G4 F4 | A4 B4 C5 A4", "C4 | F4")
            .is_told_in_both_schools(&["fault 2:2.5"]);
    }

    #[test]
    fn a_note_that_is_struck_again_over_the_barline_does_not_pass() {
        of(3, "G major", "B4 C5 B4 A4 | A4 G4 F#4 A4", "G3 | D4")
            .is_told("modal", &["fault 2:1.5", "fault 2:2.5"]);
    }

    #[test]
    fn a_dissonant_downbeat_passes_only_under_one_harmony() {
        let passing = of(3, "C major", "C5 B4 A4 G4 | F4 E4 D4 E4", "C4 | C4");
        passing.is_told("modal", &["fault 3:1", "fault 3:2"]);
        passing.is_told("tonal", &[]);
    }
}

mod fourth_species {
    use super::of;

    #[test]
    fn suspensions_above_resolve_by_step_downward() {
        of(4, "C major", "A4 C5 | - B4", "F4 | D4").is_fine_in_both_schools();
        of(4, "C major", "E5 C5 | - B4", "A4 | G4").is_fine_in_both_schools();
        of(4, "G mixolydian", "B4 D5 | - C5", "B3 | C4").is_told("modal", &[]);
    }

    #[test]
    fn suspensions_below_resolve_by_step_downward() {
        of(4, "C major", "C5 | B4", "C4 A3 | - G3").is_fine_in_both_schools();
        of(4, "C major", "C5 | D5", "C4 A3 | - G3").is_told("modal", &[]);
    }

    #[test]
    fn rare_suspensions_below_are_a_caution() {
        let fourth = of(4, "C major", "C5 | D5", "C4 A3 | - G3");
        fourth.is_told("tonal", &["caution 2:2"]);
        of(4, "C ionian", "C5 | G4", "C4 A3 | - G3").is_told("modal", &["caution 2:2"]);
    }

    #[test]
    fn a_suspension_does_not_go_up_or_leap() {
        of(4, "C major", "A4 C5 | - D5", "F4 | D4").is_a_fault_in_both_schools();
        of(4, "C major", "A4 C5 | - A4", "F4 | D4").is_a_fault_in_both_schools();
        of(4, "C major", "C5 | B4", "C4 A3 | - B3").is_a_fault_in_both_schools();
    }

    #[test]
    fn a_ninth_prepared_by_an_octave_stays_wrong() {
        let told = of(4, "C ionian", "F4 D5 | - C5", "D4 | C4").told("modal");
        assert_eq!(told, ["fault 2:2"]);
    }

    #[test]
    fn more_than_three_suspensions_of_a_kind_are_a_caution() {
        let three = of(4, "C ionian", "G4 C5 | - B4 | - A4 | - G4", "E4 | D4 | C4 | B3");
        three.is_told("modal", &[]);
        let four = of(4, "C ionian", "G4 C5 | - B4 | - A4 | - G4 | - F4", "E4 | D4 | C4 | B3 | A3");
        four.is_told("modal", &["caution 5:2"]);
    }

    #[test]
    fn a_suspension_is_prepared_by_a_consonance() {
        of(4, "C major", "C5 B4 | - A4", "C4 | C4").is_a_fault_in_both_schools();
    }

    #[test]
    fn a_suspension_resolves_to_a_consonance() {
        of(4, "C ionian", "E5 G5 | - F5", "C4 | F4").is_told("modal", &[]);
        of(4, "C ionian", "A4 F4 | - E4", "F3 | B3").is_a_fault("modal");
    }

    #[test]
    fn a_consonance_held_over_the_barline_is_free() {
        of(4, "C major", "A4 C5 | - E5", "F4 | A4").is_fine_in_both_schools();
        of(4, "D dorian", "F5 | C5", "D4 A3 | - E4").is_told("modal", &[]);
    }

    #[test]
    fn the_voice_that_sounds_lower_suspends_below() {
        let crossed = of(4, "C ionian", "E4 A3 | - G3", "C4 | B3");
        crossed.is_told("modal", &[]);
    }
}

mod fifth_species {
    use super::of;

    #[test]
    fn an_anticipation_needs_a_suspension() {
        let alone = of(5, "C ionian", "A4 G4 | G4 B4 D5 B4", "F4 | G4");
        alone.is_told("modal", &["fault 2:2"]);
    }

    #[test]
    fn eighths_pass_like_quarters() {
        of(5, "C ionian", "C5 (B4 A4) G4 E4 | F4 A4", "C4 | D4").is_told("modal", &[]);
        of(5, "C ionian", "C5 (D5 F5) E5 C5 | A4 F4", "C4 | D4")
            .is_told("modal", &["fault 2:1.5", "fault 2:1.75"]);
    }

    #[test]
    fn a_resolution_may_be_decorated_if_it_comes_on_the_third_beat() {
        of(5, "C ionian", "A4 C5 | - A4 B4 D5", "F4 | D4").is_told("modal", &[]);
        of(5, "C ionian", "A4 C5 | - (B4 A4) B4 D5", "F4 | D4").is_told("modal", &[]);
        of(5, "C ionian", "A4 C5 | - B4 B4 D5", "F4 | D4").is_told("modal", &[]);
        of(5, "C ionian", "C5 | B4", "C4 A3 | - E3 G3 E3").is_told("modal", &[]);
    }

    #[test]
    fn a_resolution_on_the_second_quarter_is_early() {
        let early = of(5, "C ionian", "A4 C5 | - B4 A4 F4", "F4 | D4");
        early.is_told("modal", &["caution 2:2"]);
    }

    #[test]
    fn a_resolution_that_sounds_on_the_third_beat_may_begin_before_it() {
        let syncopated = of(5, "C ionian", "A4 C5 | - B4 - A4", "F4 | D4");
        syncopated.is_told("modal", &[]);
        let late = of(5, "C ionian", "A4 C5 | - - - B4", "F4 | D4");
        late.is_told("modal", &["fault 2:2"]);
    }

    #[test]
    fn a_leap_from_a_suspension_goes_to_a_consonance_and_the_resolution_follows() {
        of(5, "C ionian", "A4 C5 | - G4 B4 A4", "F4 | D4")
            .is_told("modal", &["fault 2:2", "fault 3:1.5"]);
        of(5, "C ionian", "A4 C5 | - A4 G4 F4", "F4 | D4").is_told("modal", &["fault 2:2"]);
    }

    #[test]
    fn a_dissonance_may_pass_between_a_suspension_and_its_resolution() {
        let above = of(5, "C ionian", "A4 F5 | - (C5 D5) E5 C5", "D4 | C4");
        above.is_told("modal", &[]);
        let below = of(5, "D dorian", "E4 | D4", "A3 C4 | - (G3 A3) B3 G3");
        below.is_told("modal", &[]);
    }

    #[test]
    fn a_note_leapt_to_after_an_anticipation_is_told_for_itself() {
        let leapt = of(5, "D dorian", "D5 F5 | - (E5 A4) E5 D5", "D4 | G4");
        leapt.is_told("modal", &["fault 3:1.75"]);
    }

    #[test]
    fn what_goes_wrong_after_an_early_resolution_is_told_once() {
        // B3 has resolved C4; A3 and C#4 lie around it, but the line does not come back.
        let around = of(5, "D dorian", "E4 | D4", "A3 C4 | - (B3 A3) C#4 D4");
        around.is_told("modal", &["caution 2:2", "fault 3:1.75"]);
    }
}

mod last_bar {
    use super::words;
    use bicinium_analysis::{Sheet, Shelf};
    use std::sync::Arc;

    /// What is told of whole exercises in the modal school about suspensions and weak dissonances.
    fn told(species: u8, rows: &str) -> Vec<String> {
        let text = format!("rulebook modal\nkey C ionian\nspecies {species}\n\nexercise\n{rows}\n");
        let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
        let findings = snapshot.findings().map(|located| located.finding);
        let matters = ["suspension", "weak-dissonance"];
        let told = findings.filter(|found| matters.contains(&found.rule));
        told.map(|found| format!("{} {}", found.rule, words(found))).collect()
    }

    #[test]
    fn a_suspension_is_not_left_open_at_the_end() {
        let rows = "  soprano counter | C5 | A4 C5 | - |\n  tenor cantus | C4 | F4 | D4 |";
        assert_eq!(told(4, rows), ["suspension fault 2:2"]);
    }

    #[test]
    fn a_figure_is_not_left_open_at_the_end() {
        let rows = "  soprano counter | E4 C5 B4 G4 | A4 |\n  tenor cantus | C4 | C4 |";
        assert_eq!(told(3, rows), ["weak-dissonance fault 1:2"]);
    }

    #[test]
    fn nothing_is_said_of_what_a_bar_to_come_may_mend() {
        let rows = "  soprano counter | C5 | A4 C5 | - | |\n  tenor cantus | C4 | F4 | D4 | C4 |";
        assert!(told(4, rows).is_empty());
        let fewer = "  soprano counter | C5 | A4 C5 | - |\n  tenor cantus | C4 | F4 | D4 | C4 |";
        assert!(told(4, fewer).is_empty());
    }
}
