//! What every word of a block is in the music: whose notes they are, and where they are dissonant. For
//! whoever sets words apart on a screen; it must not know how.

mod dissonances;

use bicinium_analysis::Exercise;
use bicinium_analysis::score::VoiceId;
use bicinium_analysis::sheet::Judged;
use bicinium_grammar::{Mark, TextRange};

/// A word or a sign of a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Token {
    /// Where it stands, counted from the start of the block.
    pub range: TextRange,
    /// What it is.
    pub mark: Mark,
    /// Whose it is, if it stands in a bar.
    pub part: Part,
    /// What it makes with the other voice.
    pub sound: Sounding,
}

/// To whom something in a bar belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// To a voice that is given.
    Given,
    /// To a voice that is written, or to none.
    Written,
}

/// What a note makes with the other voice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sounding {
    /// A dissonance that it has to answer for.
    Dissonant,
    /// Anything else.
    Otherwise,
}

/// The tokens of a block in the order of its text.
pub fn tokens(block: &Judged) -> Vec<Token> {
    let exercise = block.exercise.as_ref();
    let marks = block.tree.marks();
    let given = given(block, exercise);
    let dissonant =
        exercise.map(|it| dissonances::places(&it.score, it, &marks)).unwrap_or_default();
    let token = |(mark, range): (Mark, TextRange)| Token {
        range,
        mark,
        part: part(mark, &given, range),
        sound: match dissonant.binary_search(&range.start()) {
            Ok(_) => Sounding::Dissonant,
            Err(_) => Sounding::Otherwise,
        },
    };
    marks.into_iter().map(token).collect()
}

/// The stretches of text that are given, in order.
fn given(block: &Judged, exercise: Option<&Exercise>) -> Vec<TextRange> {
    if block.defined.is_some() {
        return vec![TextRange::up_to(block.tree.text_len())];
    }
    let cantus = exercise.and_then(|it| Some((it, it.score.setting.cantus?)));
    let bars = cantus.map(|(it, voice): (_, VoiceId)| it.score.lines[voice].bars.clone());
    let mut bars = bars.unwrap_or_default();
    bars.sort_by_key(|bar| bar.start());
    bars
}

fn part(mark: Mark, given: &[TextRange], range: TextRange) -> Part {
    let is_music = matches!(mark, Mark::Note | Mark::Hold | Mark::Group | Mark::Rest);
    let before = given.partition_point(|bar| bar.start() <= range.start());
    let bar = before.checked_sub(1).and_then(|index| given.get(index));
    match bar {
        Some(bar) if is_music && bar.contains_range(range) => Part::Given,
        _ => Part::Written,
    }
}
