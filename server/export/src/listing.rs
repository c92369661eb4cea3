//! An exercise as plain text, bar by bar in words, to be read aloud or sent in a letter. Knows nothing
//! of pages.

use std::fmt::Write;

use bicinium_analysis::score::{Sound, VoiceId};
use bicinium_theory::Duration;

use crate::extra::Extra;
use crate::intervals;
use crate::piece::{Piece, capitalized};
use crate::written::{self, Sign};

/// The exercise in words, with a line feed at its end.
pub fn listing(piece: &Piece<'_>, extras: &[Extra]) -> String {
    let lister = Lister { piece, extras };
    let voices = VoiceId::BOTH.map(|voice| written::bars(&piece.exercise.score, voice));
    let [upper, lower] = &voices;
    let bars = (0..).zip(upper.iter().zip(lower));
    let bars = bars.map(|(index, (upper, lower))| lister.bar(index, [upper, lower]));
    std::iter::once(lister.head()).chain(bars).chain([lister.findings()]).collect()
}

struct Lister<'a> {
    piece: &'a Piece<'a>,
    extras: &'a [Extra],
}

impl Lister<'_> {
    fn head(&self) -> String {
        let (piece, setting) = (self.piece, &self.piece.exercise.score.setting);
        let mut text = format!("{}\n{}, meter {}\n", piece.title(), piece.kind(), setting.meter);
        if let Some(by) = &piece.exercise.by {
            let _ = writeln!(text, "By {by}");
        }
        for voice in VoiceId::BOTH {
            let role = if setting.cantus == Some(voice) { ", cantus" } else { "" };
            let register = setting.registers[voice];
            let _ = writeln!(text, "{} voice: {register}{role}", capitalized(voice.name()));
        }
        text
    }

    /// A bar, counted from 0.
    fn bar(&self, index: u32, voices: [&Vec<Sign>; 2]) -> String {
        let mut text = format!("\nBar {}\n", index + 1);
        for (voice, signs) in VoiceId::BOTH.into_iter().zip(voices) {
            let signs: Vec<_> = signs.iter().map(in_words).collect();
            let _ = writeln!(text, "  {}: {}", voice.name(), signs.join("; "));
        }
        let lines = [
            (Extra::Figures, "intervals", self.intervals(index)),
            (Extra::Harmonies, "harmony", self.harmonies(index)),
        ];
        for (_, name, values) in lines.into_iter().filter(|(extra, ..)| self.extras.contains(extra))
        {
            if !values.is_empty() {
                let _ = writeln!(text, "  {name}: {}", values.join(", "));
            }
        }
        text
    }

    fn is_in(&self, bar: u32, at: Duration) -> bool {
        self.piece.exercise.score.setting.bar_of(at) == bar
    }

    fn intervals(&self, bar: u32) -> Vec<String> {
        let all = intervals::of(&self.piece.exercise.score).into_iter();
        all.filter(|it| self.is_in(bar, it.at)).map(|it| it.interval.number().to_string()).collect()
    }

    fn harmonies(&self, bar: u32) -> Vec<String> {
        let stretches = &self.piece.exercise.verdict.reading.stretches;
        let here = stretches.iter().filter(|it| self.is_in(bar, it.onset));
        here.map(|it| it.numeral.to_string()).collect()
    }

    fn findings(&self) -> String {
        if !self.extras.contains(&Extra::Findings) {
            return String::new();
        }
        let mut text = String::new();
        for (number, finding) in self.piece.told() {
            let (level, rule) = (finding.level.name(), finding.rule);
            let _ = write!(text, "\n{number}. {level}, {rule}\n   {}\n", finding.message);
        }
        text
    }
}

/// "F#4, half note".
fn in_words(sign: &Sign) -> String {
    let length = sign.length;
    match sign.sound {
        Sound::Note(pitch) if sign.tie.stops => format!("{pitch} held, {length}"),
        Sound::Note(pitch) => format!("{pitch}, {length}"),
        Sound::Rest => format!("rest, {length}"),
        Sound::Hole => format!("to be chosen, {length}"),
        Sound::Held => format!("held from what is to be chosen, {length}"),
        Sound::Blank => "not yet written".to_owned(),
    }
}
