//! From breaches to findings: every place in the music gets its place in the text. Knows the
//! score, not the rules.

use bicinium_grammar::TextRange;
use bicinium_theory::Duration;

use super::licensing;
use crate::finding::{Finding, Place, Related};
use crate::judge::{Breach, Spot, Verdict};
use crate::score::{Score, Setting, VoiceId};

/// What a verdict finds in the music, and which of it a licence accepts.
pub(super) fn of_music(score: &Score, verdict: &Verdict) -> Vec<Finding> {
    let mut found: Vec<_> =
        verdict.breaches.iter().map(|breach| from_breach(score, breach)).collect();
    licensing::apply(&score.licences, &mut found);
    found
}

/// The finding that a breach becomes.
fn from_breach(score: &Score, breach: &Breach) -> Finding {
    let related = breach.words.related.iter();
    Finding {
        rule: breach.rule,
        level: breach.level,
        message: breach.words.message.clone(),
        voice: breach.spot.voice,
        place: Some(place(&score.setting, breach.spot.onset)),
        range: range(score, breach.spot),
        related: related
            .map(|(spot, message)| Related { range: range(score, *spot), message: message.clone() })
            .collect(),
        mends: Vec::new(),
        accepted: None,
    }
}

/// A moment as a bar and a beat.
pub fn place(setting: &Setting, onset: Duration) -> Place {
    let (beat, rest) = setting.meter.beat(setting.within_bar(onset));
    let unit = Duration::WHOLE.ticks() / u32::from(setting.meter.unit.max(1));
    let behind = f64::from(rest.ticks()) / f64::from(unit.max(1));
    Place { onset, bar: setting.bar_of(onset) + 1, beat, behind }
}

/// Where a place in the music is written: the note that begins there, or the one that sounds; for
/// both voices together, in the voice that is there to be changed.
fn range(score: &Score, spot: Spot) -> TextRange {
    let voice = spot.voice.unwrap_or_else(|| changeable(score, spot.onset));
    let line = &score.lines[voice];
    let event = line.sounding_at(spot.onset).or_else(|| line.events.last());
    event.map_or(line.head, |event| event.range)
}

fn changeable(score: &Score, onset: Duration) -> VoiceId {
    let begins = |voice: &VoiceId| score.lines[*voice].event_at(onset).is_some();
    let mut written = score.setting.written();
    let first = written.next().unwrap_or(VoiceId::Lower);
    let second = written.next().unwrap_or(first);
    if begins(&second) { second } else { first }
}
