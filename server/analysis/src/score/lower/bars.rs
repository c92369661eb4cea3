//! From bars to events: what stands in a bar shares its length equally, parentheses share a share,
//! and a hold lengthens what came before it.

use bicinium_grammar::ast::{self, ItemKind};
use bicinium_grammar::{TextRange, TextSize};
use bicinium_theory::{Accidental, Duration, Letter, Meter, Pitch};

use super::row::Bar;
use super::rows::Rows;
use crate::finding::{Finding, Level};
use crate::score::{Event, Line, Sound, VoiceId};

/// The line of a voice.
pub(super) fn line(
    rows: &Rows<'_>,
    voice: VoiceId,
    meter: Meter,
    findings: &mut Vec<Finding>,
) -> Line {
    let row = &rows.voices[voice];
    let mut writer = Writer::new(meter, row.bars.len(), findings);
    let mut ranges = Vec::with_capacity(row.bars.len());
    for bar in &row.bars {
        let range = bar.map_or(row.head, Bar::range);
        ranges.push(range);
        writer.bar(*bar, range);
    }
    writer.check_lengths();
    Line { events: writer.events, bars: ranges, head: row.head }
}

struct Writer<'a> {
    meter: Meter,
    events: Vec<Event>,
    now: Duration,
    /// The number of the present bar, counted from 1.
    bar: u32,
    /// Where the line begins that it stands in.
    start: TextSize,
    findings: &'a mut Vec<Finding>,
}

impl<'a> Writer<'a> {
    fn new(meter: Meter, bars: usize, findings: &'a mut Vec<Finding>) -> Self {
        let (events, now, start) = (Vec::with_capacity(bars), Duration::ZERO, TextSize::default());
        Self { meter, events, now, bar: 0, start, findings }
    }

    fn bar(&mut self, bar: Option<Bar<'_>>, range: TextRange) {
        self.bar += 1;
        self.start = bar.map_or(self.start, |bar| bar.start);
        let length = self.meter.bar_length();
        let items = bar.map(Bar::items).unwrap_or_default();
        let written = (self.events.len(), self.now);
        if items.is_empty() || self.share(items, length, range).is_none() {
            self.take_back(written);
            self.push(Sound::Blank, length, range);
        }
    }

    /// Takes back what was written since there were so many events, up to an instant; a note that was held on
    /// ends there.
    fn take_back(&mut self, (count, now): (usize, Duration)) {
        self.events.truncate(count);
        if let Some(last) = self.events.last_mut() {
            last.duration = now - last.onset;
        }
        self.now = now;
    }

    /// Writes items that share a length; `None`, with a finding, if it cannot be shared.
    fn share(&mut self, items: &[ast::Item], length: Duration, range: TextRange) -> Option<()> {
        let count = u32::try_from(items.len()).unwrap_or(u32::MAX);
        let Some(share) = length.divide(count).filter(|share| *share > Duration::ZERO) else {
            self.cannot_share(count, length, range);
            return None;
        };
        for item in items {
            self.item(item, share)?;
        }
        Some(())
    }

    fn item(&mut self, item: &ast::Item, share: Duration) -> Option<()> {
        let range = item.range + self.start;
        match &item.kind {
            ItemKind::Note(note) => {
                let sound = pitch(note).map_or(Sound::Hole, Sound::Note);
                self.push(sound, share, range);
            }
            ItemKind::Rest => self.push(Sound::Rest, share, range),
            ItemKind::Hole | ItemKind::Broken | ItemKind::Numeral(_) => {
                self.push(Sound::Hole, share, range);
            }
            ItemKind::Hold => self.hold(share, range),
            ItemKind::Group(items) => self.share(items, share, range)?,
        }
        Some(())
    }

    fn push(&mut self, sound: Sound, duration: Duration, range: TextRange) {
        self.events.push(Event { onset: self.now, duration, sound, range });
        self.now = self.now + duration;
    }

    fn hold(&mut self, share: Duration, range: TextRange) {
        match self.events.last_mut() {
            Some(event) if event.sound != Sound::Blank => {
                event.duration = event.duration + share;
                self.now = self.now + share;
            }
            Some(_) => self.push(Sound::Held, share, range),
            None => {
                let message = "There is no note before this `-` that it could hold. Write a note, \
                               or `rest`."
                    .to_owned();
                self.notation("nothing-to-hold", range, message);
                self.push(Sound::Hole, share, range);
            }
        }
    }

    fn cannot_share(&mut self, count: u32, length: Duration, range: TextRange) {
        let whole = if length == self.meter.bar_length() {
            format!("a bar of {}", self.meter)
        } else {
            format!("a {length}")
        };
        let message = format!(
            "Bar {}: {count} notes cannot share {whole} equally. Use `-` to hold a note, or \
             parentheses to put several notes into one share.",
            self.bar
        );
        self.notation("bar-not-divisible", range, message);
    }

    fn check_lengths(&mut self) {
        let long = self.events.iter().filter(|event| {
            matches!(event.sound, Sound::Note(_) | Sound::Hole) && !event.duration.is_showable()
        });
        let bar_ticks = self.meter.bar_length().ticks().max(1);
        let found: Vec<_> =
            long.map(|event| (event.range, event.onset.ticks() / bar_ticks + 1)).collect();
        for (range, bar) in found {
            let message = format!(
                "The note that begins in bar {bar} would need more than two tied notes to be \
                 written down. Shorten it, or strike it again."
            );
            self.notation("note-too-long", range, message);
        }
    }

    fn notation(&mut self, rule: &'static str, range: TextRange, message: String) {
        self.findings.push(Finding::about_text(rule, Level::Notation, range, message));
    }
}

/// The pitch of a note, if it has an octave and can be sung or played at all.
pub(super) fn pitch(note: &ast::NoteItem) -> Option<Pitch> {
    let letter = Letter::from_char(note.letter)?;
    let accidental = Accidental::new(note.accidental)?;
    Pitch::new(letter, accidental, note.octave?)
}
