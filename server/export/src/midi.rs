//! An exercise as a Standard MIDI File of format 1: a track for title, tempo, key and meter, and one
//! for each voice. Knows nothing of how notes are written down.

use std::fmt;
use std::io;

use bicinium_analysis::score::{Score, VoiceId};
use bicinium_analysis::sheet::Exercise;
use bicinium_theory::{Duration, Mode, Pitch};
use midly::num::{u4, u7, u15, u24, u28};
use midly::{
    Format, Header, MetaMessage, MidiMessage, Smf, Timing, Track, TrackEvent, TrackEventKind,
};

/// MIDI ticks in a quarter note.
const QUARTER: u16 = 480;
/// MIDI ticks in a tick of the score.
const TICK: u32 = QUARTER as u32 / Duration::QUARTER.ticks();

/// Why an exercise cannot be put into a MIDI file.
#[derive(Debug)]
pub enum Refusal {
    /// A note that MIDI has no number for.
    TooHigh {
        /// The note.
        pitch: Pitch,
        /// Its bar, counted from 1.
        bar: u32,
    },
    /// It is longer than a MIDI file can be.
    TooLong,
    /// Writing failed.
    Io(io::Error),
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooHigh { pitch, bar } => {
                write!(
                    f,
                    "{pitch} in bar {bar} is higher than MIDI can say; its highest note is G9"
                )
            }
            Self::TooLong => f.write_str("the exercise is longer than a MIDI file can be"),
            Self::Io(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for Refusal {}

/// The bytes of the file. The tempo is in beats of the meter per minute, at least 1.
pub fn file(exercise: &Exercise, tempo: u16) -> Result<Vec<u8>, Refusal> {
    let score = &exercise.score;
    let title = exercise.title.as_deref().unwrap_or_default();
    let header = Header::new(Format::Parallel, Timing::Metrical(u15::new(QUARTER)));
    let mut tracks = vec![conductor(score, title, tempo)?];
    for voice in VoiceId::BOTH {
        tracks.push(track(score, voice)?);
    }
    let mut bytes = Vec::new();
    Smf { header, tracks }.write_std(&mut bytes).map_err(Refusal::Io)?;
    Ok(bytes)
}

fn conductor<'a>(score: &Score, title: &'a str, tempo: u16) -> Result<Track<'a>, Refusal> {
    let setting = &score.setting;
    let micros = 15_000_000 * u32::from(setting.meter.unit) / u32::from(tempo.max(1));
    let unit = setting.meter.unit.trailing_zeros();
    let unit = u8::try_from(unit).unwrap_or(2);
    let is_minor = matches!(setting.key.mode, Mode::Minor | Mode::Aeolian);
    let said = [
        MetaMessage::TrackName(title.as_bytes()),
        MetaMessage::TimeSignature(setting.meter.beats, unit, 24, 8),
        MetaMessage::KeySignature(setting.key.signature().clamp(-7, 7), is_minor),
        MetaMessage::Tempo(u24::new(micros.min(u24::max_value().as_int()))),
    ];
    let mut track: Track<'a> =
        said.map(|meta| event(u28::new(0), TrackEventKind::Meta(meta))).into();
    track.push(end(ticks(setting.length())?));
    Ok(track)
}

fn track(score: &Score, voice: VoiceId) -> Result<Track<'_>, Refusal> {
    let (channel, pan) = match voice {
        VoiceId::Upper => (0, 40),
        VoiceId::Lower => (1, 88),
    };
    let say =
        |delta, message| event(delta, TrackEventKind::Midi { channel: u4::new(channel), message });
    let name = MetaMessage::TrackName(score.setting.registers[voice].name().as_bytes());
    let pan = MidiMessage::Controller { controller: u7::new(10), value: u7::new(pan) };
    let start = u28::new(0);
    let mut track = vec![event(start, TrackEventKind::Meta(name)), say(start, pan)];
    let mut now = Duration::ZERO;
    for sounding in &score.lines[voice].events {
        let Some(pitch) = sounding.pitch() else { continue };
        let key = number(score, pitch, sounding.onset)?;
        let on = MidiMessage::NoteOn { key, vel: u7::new(80) };
        let off = MidiMessage::NoteOff { key, vel: u7::new(64) };
        track.push(say(ticks(sounding.onset - now)?, on));
        track.push(say(ticks(sounding.duration)?, off));
        now = sounding.end();
    }
    track.push(end(ticks(score.setting.length() - now)?));
    Ok(track)
}

fn number(score: &Score, pitch: Pitch, onset: Duration) -> Result<u7, Refusal> {
    let number = u8::try_from(pitch.midi()).ok().and_then(u7::try_from);
    number.ok_or_else(|| Refusal::TooHigh { pitch, bar: score.setting.bar_of(onset) + 1 })
}

fn ticks(length: Duration) -> Result<u28, Refusal> {
    length.ticks().checked_mul(TICK).and_then(u28::try_from).ok_or(Refusal::TooLong)
}

fn end<'a>(delta: u28) -> TrackEvent<'a> {
    event(delta, TrackEventKind::Meta(MetaMessage::EndOfTrack))
}

fn event(delta: u28, kind: TrackEventKind<'_>) -> TrackEvent<'_> {
    TrackEvent { delta, kind }
}
