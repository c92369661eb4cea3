//! The rhythm that blank bars usually have in a species: equal notes, in second and fourth species
//! behind an opening rest, in fourth tied over the barlines; in fifth any of the lengths that florid
//! counterpoint mixes. The last bar is one note. Common practice, after Fux 1725. Knows no pitches.

use std::ops::Range;

use bicinium_analysis::judge::Stroke;
use bicinium_analysis::score::shares::{Florid, share};
use bicinium_analysis::score::{Setting, VoiceId};
use bicinium_theory::Duration;

use crate::layout::{Span, Stuff};

/// Blank bars of a voice, from one barline to another, in their usual rhythm; their last note is held
/// until a later instant, if there is one.
pub(crate) fn usual(
    setting: &Setting,
    voice: VoiceId,
    Range { start: onset, end }: Range<Duration>,
    held: Option<Duration>,
) -> Vec<Span> {
    let species = species_of(setting, voice);
    let close = close_of(setting);
    let (body, last) = (onset..end.min(close), onset.max(close)..end);
    let mut spans = match species {
        None => vec![Span::new(onset, body.end.max(onset), Stuff::Unknown)],
        Some(5) => vec![Span::new(onset, body.end.max(onset), Stuff::Florid(held.map(|_| end)))],
        Some(species) => shared_out(setting, species, onset, body.end),
    };
    let stuff = if species.is_some() { Stuff::Hole } else { Stuff::Unknown };
    spans.push(Span::new(last.start, last.end, stuff));
    spans.retain(|span| span.onset < span.end);
    if let (Some(last), Some(held)) = (spans.last_mut(), held) {
        last.end = held;
    }
    spans
}

/// How long a note may last that begins before blank bars and may be held into them: in fourth species for
/// the first share, in fifth as long as a florid note may.
pub(crate) fn held_into(
    setting: &Setting,
    voice: VoiceId,
    now: Duration,
    Range { start: barline, end }: Range<Duration>,
) -> Vec<Duration> {
    let end = end.min(close_of(setting));
    let mut lengths = match species_of(setting, voice) {
        Some(4) => share(setting, 4).map(|share| barline + share - now).into_iter().collect(),
        Some(5) => florid_lengths(setting, now, end),
        _ => Vec::new(),
    };
    lengths.retain(|length| {
        let until = now + *length;
        until > barline && until <= end && length.is_showable()
    });
    lengths
}

/// Where the last bar begins.
fn close_of(setting: &Setting) -> Duration {
    setting.bar_start(setting.bars.saturating_sub(1))
}

/// The species by which a voice is written; a cantus moves as in the first.
fn species_of(setting: &Setting, voice: VoiceId) -> Option<u8> {
    let is_given = setting.species.is_some() && setting.cantus == Some(voice);
    let is_cantus = is_given || setting.alone == Some(voice);
    if is_cantus { Some(1) } else { setting.species }
}

/// Bars in equal shares.
fn shared_out(setting: &Setting, species: u8, onset: Duration, end: Duration) -> Vec<Span> {
    let Some(share) = share(setting, species).filter(|share| *share > Duration::ZERO) else {
        return vec![Span::new(onset, end, Stuff::Unknown)];
    };
    let mut spans = Vec::new();
    let mut now = onset;
    while now < end {
        let is_opening_rest = now == Duration::ZERO && matches!(species, 2 | 4);
        let until = if species == 4 { tied(setting, share, now, end) } else { now + share };
        let (until, stuff) = if is_opening_rest {
            (now + share, Stuff::Written(Stroke::Rests))
        } else {
            (until, Stuff::Hole)
        };
        spans.push(Span::new(now, until, stuff));
        now = until;
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

/// The lengths that a florid note may have that begins before a barline over which one has to be held, up to
/// an instant.
pub(crate) fn florid_lengths_into(
    setting: &Setting,
    now: Duration,
    Range { start: barline, end }: Range<Duration>,
) -> Vec<Duration> {
    let mut lengths = florid_lengths(setting, now, barline);
    lengths.retain(|length| now + *length < barline);
    let held = end - now;
    lengths.extend(held.is_showable().then_some(held));
    lengths
}

/// How long a florid line may rest at the opening.
pub(crate) fn florid_rest(setting: &Setting) -> Option<Duration> {
    Florid::of(setting).map(|florid| florid.half)
}
