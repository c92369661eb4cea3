//! A reading as it is told: stretches of harmony with what else they could be, and the function of
//! every note. Plain data made from the best way of hearing; decides nothing.

use bicinium_theory::{Duration, Member, Numeral};

use super::figure::{Ending, Entry, Failure, Figure, Link, Offence, Outcome, Shape};
use super::search::{Passage, Search};
use super::suspension::SuspensionKind;
use super::vocabulary::{HarmonyId, Vocabulary};
use crate::judge::Heard;
use crate::score::{Pair, VoiceId};

/// How an exercise is heard.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The harmonies that could be heard.
    pub vocabulary: Vocabulary,
    /// The harmonies in order, at most one for a bar or for a part of it; none for a bar of which
    /// nothing is written, and none at all where the school implies no harmony.
    pub stretches: Vec<Stretch>,
    /// What every note does, in order of onset.
    pub functions: Pair<Vec<NoteFunction>>,
}

/// A bar, or a part of it, and the harmony it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// When it begins.
    pub onset: Duration,
    /// When it ends.
    pub end: Duration,
    /// The harmony, with the figures of what first stands in the bass.
    pub numeral: Numeral,
    /// Its number in the vocabulary.
    pub harmony: HarmonyId,
    /// When the harmony was entered, if it is prolonged from an earlier bar.
    pub prolonged_from: Option<Duration>,
    /// What else it could be, the likeliest first.
    pub alternatives: Vec<Alternative>,
}

/// Another harmony that a bar could stand for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Alternative {
    /// The harmony, with the figures of what first stands in the bass.
    pub numeral: Numeral,
    /// Its number in the vocabulary.
    pub harmony: HarmonyId,
    /// How much more far-fetched the best reading with it is, in the units of the rulebook.
    pub margin: u64,
}

/// A note and what it does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NoteFunction {
    /// The note.
    pub note: Heard,
    /// What it does.
    pub function: Function,
}

/// What a note does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Function {
    /// It is a member of the harmony.
    Member(Member),
    /// It makes a consonance, where no harmony is implied.
    Consonance,
    /// It embellishes, and comes to its end.
    Embellishes {
        /// The shape.
        shape: Shape,
        /// How it entered.
        entry: Entry,
        /// Where it came from.
        link: Link,
        /// The note that ends it.
        resolution: Heard,
        /// The kind of suspension, if it is one.
        kind: Option<SuspensionKind>,
    },
    /// It can only embellish; what follows is not written yet.
    Pending(Offence),
    /// It can only embellish, and fails to.
    Fails(Offence, Failure),
    /// It can only embellish, within a figure that fails; that is told at this note, which begins
    /// the figure.
    FailsWith(Offence, Heard),
    /// Nothing can be said.
    Open,
}

/// A figure that skips a third, seen from one of the notes behind the one that begins it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FigureAround {
    /// Its shape.
    pub shape: Shape,
    /// Its first note; `None` if that one is not known.
    pub from: Option<Heard>,
    /// Which of its notes this is, 3 or 4; the second is the one that begins to embellish.
    pub place: usize,
}

impl Reading {
    /// Tells the best way of hearing a passage.
    pub fn new(passage: &Passage<'_>, search: &Search) -> Self {
        let stretches = stretches(passage, search);
        let outcomes = Outcomes::of(search);
        let functions = Pair::from_fn(|voice| functions(passage, search, &outcomes, voice));
        Self { vocabulary: passage.listener.vocabulary.clone(), stretches, functions }
    }

    /// The stretch that an instant lies in.
    pub fn stretch_at(&self, instant: Duration) -> Option<&Stretch> {
        self.stretches.iter().find(|stretch| stretch.onset <= instant && instant < stretch.end)
    }

    /// What the note of a voice that begins at an onset does.
    pub fn function_at(&self, voice: VoiceId, onset: Duration) -> Option<&NoteFunction> {
        let functions = &self.functions[voice];
        let index = functions.binary_search_by_key(&onset, |known| known.note.onset).ok()?;
        functions.get(index)
    }

    /// The fulfilled figure that the note of a voice is the third or fourth note of.
    pub fn figure_around(&self, voice: VoiceId, onset: Duration) -> Option<FigureAround> {
        let functions = &self.functions[voice];
        let index = functions.binary_search_by_key(&onset, |known| known.note.onset).ok()?;
        [2, 1].into_iter().find_map(|back| {
            let begun = functions.get(index.checked_sub(back)?)?;
            begun.skips_a_third_until_after(onset, back + 2)
        })
    }
}

impl NoteFunction {
    fn skips_a_third_until_after(&self, onset: Duration, place: usize) -> Option<FigureAround> {
        match self.function {
            Function::Embellishes {
                shape: shape @ (Shape::Cambiata | Shape::SkippedThird),
                link,
                resolution,
                ..
            } if resolution.onset > onset => Some(FigureAround { shape, from: link.from, place }),
            _ => None,
        }
    }
}

fn stretches(passage: &Passage<'_>, search: &Search) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    for index in 0..passage.moments.len() {
        let hearing = search.hearing(index);
        let Some(harmony) = hearing.harmony.filter(|_| is_written(passage, index)) else {
            continue;
        };
        let step = passage.step(index);
        let (onset, end) = (step.now.onset, passage.listener.setting.bar_start(step.bar() + 1));
        let last = stretches.last_mut().filter(|last| last.end >= onset);
        let prolonged = last.as_ref().filter(|last| last.harmony == harmony);
        if prolonged.is_some() && !step.is_downbeat() {
            continue;
        }
        let prolonged_from = prolonged.map(|last| last.prolonged_from.unwrap_or(last.onset));
        if let Some(last) = last {
            last.end = onset;
        }
        stretches.push(Stretch {
            onset,
            end,
            numeral: numeral(passage, index, harmony),
            harmony,
            prolonged_from,
            alternatives: alternatives(passage, search, index, harmony),
        });
    }
    stretches
}

/// Whether anything sounds at a moment; a harmony of which nothing is written is not told.
fn is_written(passage: &Passage<'_>, index: usize) -> bool {
    let lines = &passage.memories[index + 1].lines;
    VoiceId::BOTH.into_iter().any(|voice| lines[voice].sounding().is_some())
}

/// The harmony with the figures of the note in the bass, as far as one is there and belongs to it.
fn numeral(passage: &Passage<'_>, index: usize, harmony: HarmonyId) -> Numeral {
    let memory = &passage.memories[index + 1];
    let voice = memory.pair.now().map_or(VoiceId::Lower, |sounded| sounded.bass());
    let bass = memory.lines[voice].sounding();
    let harmony = &passage.listener.vocabulary[harmony];
    harmony.numeral_over(bass.and_then(|note| harmony.member(note.pitch.class())))
}

fn alternatives(
    passage: &Passage<'_>,
    search: &Search,
    index: usize,
    chosen: HarmonyId,
) -> Vec<Alternative> {
    let limit = u64::from(passage.listener.rules.plan.costs.alternatives);
    let near = search.margins(index).iter().filter(|known| known.0 != chosen && known.1 <= limit);
    let mut alternatives: Vec<_> = near
        .map(|&(harmony, margin)| Alternative {
            numeral: numeral(passage, index, harmony),
            harmony,
            margin,
        })
        .collect();
    alternatives.sort_by_key(|alternative| alternative.margin);
    alternatives
}

/// What became of foreign notes, in the order of the notes.
struct Outcomes<'a>(Vec<&'a Outcome>);

impl<'a> Outcomes<'a> {
    fn of(search: &'a Search) -> Self {
        let mut outcomes: Vec<_> = search.told().flat_map(|told| &told.outcomes).collect();
        outcomes.sort_by_key(|outcome| (outcome.voice, outcome.link.note.onset));
        Self(outcomes)
    }

    /// What was first told of a note.
    fn told(&self, voice: VoiceId, note: Heard) -> Option<&'a Outcome> {
        let key = |outcome: &Outcome| (outcome.voice, outcome.link.note.onset);
        let start = self.0.partition_point(|outcome| key(outcome) < (voice, note.onset));
        let of_onset = self.0[start..].iter().take_while(|it| key(it) == (voice, note.onset));
        of_onset.copied().find(|outcome| outcome.link.note == note)
    }
}

fn functions(
    passage: &Passage<'_>,
    search: &Search,
    outcomes: &Outcomes<'_>,
    voice: VoiceId,
) -> Vec<NoteFunction> {
    let moments = passage.moments.iter().enumerate();
    moments
        .filter_map(|(index, moment)| {
            let note = moment.struck(voice)?;
            let outcome = outcomes.told(voice, note);
            let figure = search.hearing(index).figures[voice];
            Some(NoteFunction { note, function: function(passage, outcome, figure) })
        })
        .collect()
}

fn function(passage: &Passage<'_>, outcome: Option<&Outcome>, figure: Figure) -> Function {
    match (outcome, figure) {
        (Some(outcome), _) => match outcome.ending {
            Ending::Failed(failure) => Function::Fails(outcome.link.offence, failure),
            Ending::FailsWith(first) => Function::FailsWith(outcome.link.offence, first),
            Ending::Fulfilled(shape, resolution) => {
                let (entry, link) = (outcome.entry, outcome.link);
                let kind = kind(passage, outcome, resolution);
                Function::Embellishes { shape, entry, link, resolution, kind }
            }
        },
        (None, Figure::Foreign(offence, _)) => Function::Pending(offence),
        (None, Figure::Stable(Some(member))) => Function::Member(member),
        (None, Figure::Stable(None)) => Function::Consonance,
        (None, Figure::Open) => Function::Open,
    }
}

/// The kind of a suspension, seen from its resolution.
fn kind(passage: &Passage<'_>, outcome: &Outcome, resolution: Heard) -> Option<SuspensionKind> {
    let moments = passage.moments;
    let index = moments.binary_search_by_key(&resolution.onset, |moment| moment.onset).ok()?;
    SuspensionKind::of(outcome, &passage.memories[index + 1])
}
