//! The rhythm that blank bars usually have in a species: equal notes, in second and fourth species
//! behind an opening rest, in fourth tied over the barlines; in fifth any of the lengths that florid
//! counterpoint mixes. The last bar is one note. Common practice, after Fux 1725. Knows no pitches.

use bicinium_analysis::judge::Stroke;
use bicinium_analysis::score::shares::{Florid, share};
use bicinium_analysis::score::{Setting, VoiceId};
use bicinium_theory::Duration;

use crate::layout::{Span, Stuff};

/// Blank bars of a voice, from one barline to another, in their usual rhythm.
pub(crate) fn usual(
    setting: &Setting,
    voice: VoiceId,
    onset: Duration,
    end: Duration,
) -> Vec<Span> {
    let is_given = setting.species.is_some() && setting.cantus == Some(voice);
    let is_cantus = is_given || setting.alone == Some(voice);
    let species = if is_cantus { Some(1) } else { setting.species };
    let close = setting.bar_start(setting.bars.saturating_sub(1));
    let (body, last) = (onset..end.min(close), onset.max(close)..end);
    let mut spans = match species {
        None => vec![Span { onset, end: body.end.max(onset), stuff: Stuff::Unknown }],
        Some(5) => vec![Span { onset, end: body.end.max(onset), stuff: Stuff::Florid }],
        Some(species) => shared_out(setting, species, onset, body.end),
    };
    let stuff = if species.is_some() { Stuff::Hole } else { Stuff::Unknown };
    spans.push(Span { onset: last.start, end: last.end, stuff });
    spans.retain(|span| span.onset < span.end);
    spans
}

/// Bars in equal shares.
fn shared_out(setting: &Setting, species: u8, onset: Duration, end: Duration) -> Vec<Span> {
    let Some(share) = share(setting, species).filter(|share| *share > Duration::ZERO) else {
        return vec![Span { onset, end, stuff: Stuff::Unknown }];
    };
    let mut spans = Vec::new();
    let mut now = onset;
    while now < end {
        let is_opening_rest = now == Duration::ZERO && matches!(species, 2 | 4);
        let until = if species == 4 { tied(setting, share, now, end) } else { now + share };
        let rest = Span { onset: now, end: now + share, stuff: Stuff::Written(Stroke::Rests) };
        let note = Span { onset: now, end: until, stuff: Stuff::Hole };
        let span = if is_opening_rest { rest } else { note };
        spans.push(span);
        now = span.end;
    }
    spans
}

/// Where a note of fourth species ends: the last share of a bar is tied to the first of the next.
fn tied(setting: &Setting, share: Duration, now: Duration, end: Duration) -> Duration {
    let barline = setting.bar_start(setting.bar_of(now) + 1);
    let crosses = now + share == barline && barline < end;
    if crosses { barline + share } else { now + share }
}

/// The lengths that a florid note may have that begins at a place and has to end by another.
pub(crate) fn florid_lengths(setting: &Setting, now: Duration, end: Duration) -> Vec<Duration> {
    let Some(florid) = Florid::of(setting) else { return Vec::new() };
    let within = setting.within_bar(now);
    let is_half = florid.is_quarter(within) && !florid.is_weak_quarter(within);
    let long = [florid.half, florid.half + florid.quarter, setting.bar_length()];
    let lengths = match (is_half, florid.is_quarter(within)) {
        (true, _) => vec![florid.quarter, long[0], long[1], long[2]],
        (false, true) => vec![florid.eighth, florid.quarter],
        (false, false) => vec![florid.eighth],
    };
    let fits = |length: &Duration| now + *length <= end && length.is_showable();
    let mut lengths: Vec<_> = lengths.into_iter().filter(fits).collect();
    lengths.dedup();
    lengths
}

/// How long a florid line may rest at the opening.
pub(crate) fn florid_rest(setting: &Setting) -> Option<Duration> {
    Florid::of(setting).map(|florid| florid.half)
}
