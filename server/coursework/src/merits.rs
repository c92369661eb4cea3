//! What was done well in an exercise, counted from the music and its reading. Must not know what it is
//! worth.

use bicinium_analysis::Exercise;
use bicinium_analysis::judge::{Heard, Stroke, moments};
use bicinium_analysis::reading::{Function, Shape};
use bicinium_analysis::score::{Event, Pair, Score, VoiceId};
use bicinium_theory::{Interval, Motion};
use serde::Serialize;

/// Something that can be done well.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum MeritKind {
    /// All is written, and no fault and no caution stands.
    NoFault,
    /// Suspensions that are prepared and resolve.
    Suspensions,
    /// The voices often go opposite ways.
    ContraryMotion,
    /// Thirds and sixths at the beginning of most bars.
    ImperfectConsonances,
    /// The highest note comes once.
    SingleHighPoint,
    /// The line goes mostly by step.
    Steps,
}

/// Something that was done well, with what was counted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Merit {
    /// What it is.
    pub kind: MeritKind,
    /// How often it was done so.
    pub part: usize,
    /// How often it could have been.
    pub whole: usize,
    /// The same in words.
    pub words: String,
}

impl MeritKind {
    /// All of them, the most telling first.
    pub const ALL: [Self; 6] = [
        Self::NoFault,
        Self::Suspensions,
        Self::ContraryMotion,
        Self::ImperfectConsonances,
        Self::SingleHighPoint,
        Self::Steps,
    ];

    /// The name, as a rubric writes it.
    pub fn name(self) -> &'static str {
        match self {
            Self::NoFault => "no-fault",
            Self::Suspensions => "suspensions",
            Self::ContraryMotion => "contrary-motion",
            Self::ImperfectConsonances => "imperfect-consonances",
            Self::SingleHighPoint => "single-high-point",
            Self::Steps => "steps",
        }
    }
}

/// How often something has to be possible before its share means anything.
const ENOUGH: usize = 4;

/// What was done well, the most telling first. `is_flawless` says that all is written and that nothing
/// graver than advice stands.
pub(crate) fn merits(exercise: &Exercise, is_flawless: bool) -> Vec<Merit> {
    let score = &exercise.score;
    let sounding = sounding(score);
    let no_fault = || {
        let words = "Complete, and nothing in it has to be mended.".to_owned();
        Merit { kind: MeritKind::NoFault, part: 1, whole: 1, words }
    };
    let found = [
        is_flawless.then(no_fault),
        suspensions(exercise),
        contrary_motion(&sounding),
        imperfect_consonances(score, &sounding),
        single_high_point(score),
        steps(score),
    ];
    found.into_iter().flatten().collect()
}

/// What both voices sound at each moment; `None` for one that is silent or not written.
fn sounding(score: &Score) -> Vec<Pair<Option<Heard>>> {
    let mut now = Pair::<Option<Heard>>::default();
    let step = |moment: bicinium_analysis::judge::Moment| {
        now = Pair::from_fn(|voice| match moment.strokes[voice] {
            Stroke::Strikes(note) => Some(note),
            Stroke::Holds => now[voice],
            Stroke::Rests | Stroke::Unknown | Stroke::Ended => None,
        });
        now
    };
    moments(score).into_iter().map(step).collect()
}

fn suspensions(exercise: &Exercise) -> Option<Merit> {
    let functions = exercise.score.setting.written();
    let functions = functions.flat_map(|voice| &exercise.verdict.reading.functions[voice]);
    let resolved = functions.filter(|known| {
        matches!(known.function, Function::Embellishes { shape: Shape::Suspension, .. })
    });
    let part = resolved.count();
    let words = match part {
        0 => return None,
        1 => "One suspension is prepared and resolves downward by step.".to_owned(),
        _ => format!("{part} suspensions are prepared and resolve downward by step."),
    };
    Some(Merit { kind: MeritKind::Suspensions, part, whole: part, words })
}

fn contrary_motion(sounding: &[Pair<Option<Heard>>]) -> Option<Merit> {
    let motions = sounding.windows(2).filter_map(|moments| {
        let line = |voice: VoiceId| Some((moments[0][voice]?.pitch, moments[1][voice]?.pitch));
        Some(Motion::between(line(VoiceId::Upper)?, line(VoiceId::Lower)?))
    });
    let both_move: Vec<_> =
        motions.filter(|motion| !matches!(motion, Motion::Oblique | Motion::Static)).collect();
    let part = both_move.iter().filter(|motion| **motion == Motion::Contrary).count();
    let whole = both_move.len();
    let words = format!("Where both voices move, they go opposite ways {part} of {whole} times.");
    share(MeritKind::ContraryMotion, part, whole, (1, 2), words)
}

fn imperfect_consonances(score: &Score, sounding: &[Pair<Option<Heard>>]) -> Option<Merit> {
    let setting = &score.setting;
    let all = moments(score);
    let first_of_bars = all.iter().zip(sounding).filter_map(|(moment, now)| {
        let starts = setting.within_bar(moment.onset).ticks() == 0;
        Some((now.upper?, now.lower?)).filter(|_| starts)
    });
    let intervals: Vec<_> =
        first_of_bars.map(|(upper, lower)| Interval::between(lower.pitch, upper.pitch)).collect();
    let part = intervals.iter().filter(|it| it.abs().simple().is_imperfect()).count();
    let whole = intervals.len();
    let words = format!("{part} of {whole} bars begin with a third or a sixth.");
    share(MeritKind::ImperfectConsonances, part, whole, (1, 2), words)
}

fn single_high_point(score: &Score) -> Option<Merit> {
    let voice = score.setting.written().next()?;
    let pitches: Vec<_> = score.lines[voice].events.iter().filter_map(Event::pitch).collect();
    let highest = pitches.iter().max_by_key(|pitch| (pitch.step(), pitch.midi()))?;
    let times = pitches.iter().filter(|pitch| *pitch == highest).count();
    let words = format!("The line has one high point, {highest}.");
    let is_line = pitches.len() > ENOUGH && times == 1;
    is_line.then_some(Merit { kind: MeritKind::SingleHighPoint, part: 1, whole: 1, words })
}

fn steps(score: &Score) -> Option<Merit> {
    let voice = score.setting.written().next()?;
    let notes = score.lines[voice].events.windows(2);
    let moves = notes.filter_map(|pair| Some((pair[0].pitch()?, pair[1].pitch()?)));
    let moves: Vec<_> = moves.map(|(from, to)| Interval::between(from, to)).collect();
    let part = moves.iter().filter(|interval| interval.is_step()).count();
    let whole = moves.len();
    let words = format!("The line goes by step {part} of {whole} times.");
    share(MeritKind::Steps, part, whole, (2, 3), words)
}

/// A merit if its share of enough is large enough.
fn share(
    kind: MeritKind,
    part: usize,
    whole: usize,
    (of, in_all): (usize, usize),
    words: String,
) -> Option<Merit> {
    let is_large = whole >= ENOUGH && part * in_all >= whole * of;
    is_large.then_some(Merit { kind, part, whole, words })
}
