//! A measure as a bar: its notes with their places. What a line cannot say is told; a bar whose rhythm
//! cannot be said is blank. Knows no bar before or after.

use bicinium_analysis::judge::Heard;
use bicinium_theory::{Accidental, Duration, Letter, Meter, Pitch};

use super::document::Node;
use super::remarks::Remarks;

/// A bar of a voice.
pub(super) enum Bar {
    /// Its notes; what is between them is silence.
    Written(Vec<Sung>),
    /// Nothing is known of it.
    Blank,
}

/// A note, and whether it goes on from the one before.
#[derive(Clone, Copy)]
pub(super) struct Sung {
    pub(super) note: Heard,
    pub(super) is_tied: bool,
}

/// Reads the measures of a part one after the other.
pub(super) struct Measures<'a> {
    part: &'a str,
    meter: Meter,
    /// Units of the file in a quarter note.
    divisions: u32,
    /// The voice within the part that is read: the first that sings.
    voice: Option<String>,
}

/// What a measure says that a sheet does not, and how that is told.
const LEFT_OUT: [(&str, &str); 5] = [
    ("direction", "words and dynamics are left out"),
    ("harmony", "chord symbols are left out; the reading finds its own"),
    ("figured-bass", "figures are left out; the reading finds its own"),
    ("grouping", "marks of analysis are left out"),
    ("listening", "directions for other programs are left out"),
];
/// What a note says that a sheet does not.
const NOTE_LEFT_OUT: [(&str, &str); 2] = [
    ("lyric", "the words that are sung are left out"),
    ("play", "directions for playing are left out"),
];
/// What stands at a note that a line of notes says anyway.
const SAID_ANYWAY: [&str; 2] = ["tied", "tuplet"];

/// Why a bar cannot be said.
type Unsaid = &'static str;

impl<'a> Measures<'a> {
    pub(super) fn new(part: &'a str, meter: Meter) -> Self {
        Self { part, meter, divisions: 1, voice: None }
    }

    /// A measure, by its number counted from 0.
    pub(super) fn read(&mut self, number: u32, measure: &Node, remarks: &mut Remarks) -> Bar {
        let mut bar = Reading { number, now: 0, end: 0, sung: Vec::new(), is_blank: false };
        match self.bar(&mut bar, measure, remarks) {
            Ok(()) if bar.is_blank && bar.sung.is_empty() => Bar::Blank,
            Ok(()) => Bar::Written(bar.sung),
            Err(unsaid) => {
                remarks.of_bar(self.part, number, &format!("left blank, for {unsaid}"));
                Bar::Blank
            }
        }
    }

    fn bar(
        &mut self,
        bar: &mut Reading,
        measure: &Node,
        remarks: &mut Remarks,
    ) -> Result<(), Unsaid> {
        for child in &measure.children {
            match child.name.as_str() {
                "attributes" => self.attributes(bar.number, child, remarks),
                "note" => self.note(bar, child, remarks)?,
                "backup" => bar.now = bar.now.saturating_sub(units(child)?),
                "forward" => bar.pass(units(child)?),
                "barline" => self.barline(bar.number, child, remarks),
                name => self.tell(&LEFT_OUT, name, bar.number, remarks),
            }
        }
        let length = u64::from(self.meter.bar_length().ticks());
        let end = self.ticks(bar.end)?;
        if u64::from(end) > length {
            return Err("it is longer than the meter says");
        }
        if u64::from(end) < length && !bar.is_blank {
            let what = "it is shorter than the meter says; rests are added at its end";
            remarks.of_bar(self.part, bar.number, what);
        }
        Ok(())
    }

    fn attributes(&mut self, number: u32, attributes: &Node, remarks: &mut Remarks) {
        if let Some(divisions) = attributes.number::<u32>("divisions").filter(|own| *own > 0) {
            self.divisions = divisions;
        }
        let changes = [
            ("key", "the key changes; the sheet keeps the first one"),
            ("time", "the meter changes; the sheet keeps the first one"),
        ];
        for (name, what) in changes.into_iter().filter(|(name, _)| attributes.has(name)) {
            let is_change = match name {
                "time" => self.is_other_meter(attributes),
                _ => number > 0,
            };
            if is_change {
                remarks.of_bar(self.part, number, what);
            }
        }
        if attributes.has("transpose") {
            let what = "the part is for a transposing instrument; its notes are taken as written";
            remarks.of_bar(self.part, number, what);
        }
    }

    fn is_other_meter(&self, attributes: &Node) -> bool {
        let time = attributes.get("time");
        let of = |time: &Node| Meter::new(time.number("beats")?, time.number("beat-type")?);
        time.and_then(of) != Some(self.meter)
    }

    fn barline(&self, number: u32, barline: &Node, remarks: &mut Remarks) {
        if barline.has("repeat") || barline.has("ending") {
            remarks.of_bar(self.part, number, "signs of repetition are left out");
        }
    }

    fn note(
        &mut self,
        bar: &mut Reading,
        note: &Node,
        remarks: &mut Remarks,
    ) -> Result<(), Unsaid> {
        let left_out = [
            ("grace", "grace notes are left out"),
            ("cue", "cue notes are left out"),
            ("chord", "of a chord only the first note is taken"),
        ];
        if let Some((_, what)) = left_out.iter().find(|(name, _)| note.has(name)) {
            remarks.of_bar(self.part, bar.number, what);
            return Ok(());
        }
        let length = units(note)?;
        let onset = bar.now;
        bar.pass(length);
        if !self.is_own(note) {
            if !note.has("rest") {
                let what = "the part has a second voice, which is left out";
                remarks.of_bar(self.part, bar.number, what);
            }
            return Ok(());
        }
        self.remark(bar.number, note, remarks);
        if note.has("rest") {
            bar.is_blank |= note.attribute("print-object") == Some("no");
            return Ok(());
        }
        let start = self.meter.bar_length() * bar.number;
        let from = self.ticks(onset)?;
        let is_free = bar
            .sung
            .last()
            .is_none_or(|last| last.note.end() <= start + Duration::from_ticks(from));
        if !is_free || length == 0 {
            return Err("its notes do not follow each other");
        }
        let duration = Duration::from_ticks(self.ticks(onset + length)? - from);
        let note_heard =
            Heard { pitch: pitch(note)?, onset: start + Duration::from_ticks(from), duration };
        let is_tied = note.all("tie").any(|tie| tie.attribute("type") == Some("stop"));
        bar.sung.push(Sung { note: note_heard, is_tied });
        Ok(())
    }

    /// Whether a note belongs to the voice that is read.
    fn is_own(&mut self, note: &Node) -> bool {
        let voice = note.text_of("voice").unwrap_or("1");
        self.voice.get_or_insert_with(|| voice.to_owned()) == voice
    }

    /// Tells what a sheet does not say of a note.
    fn remark(&self, number: u32, note: &Node, remarks: &mut Remarks) {
        for child in &note.children {
            self.tell(&NOTE_LEFT_OUT, &child.name, number, remarks);
        }
        let marks = note.all("notations").flat_map(|notations| &notations.children);
        if marks.into_iter().any(|mark| !SAID_ANYWAY.contains(&mark.name.as_str())) {
            let what = "slurs, ornaments and the like are left out";
            remarks.of_bar(self.part, number, what);
        }
    }

    fn tell(&self, list: &[(&str, &str)], name: &str, number: u32, remarks: &mut Remarks) {
        if let Some((_, what)) = list.iter().find(|(own, _)| *own == name) {
            remarks.of_bar(self.part, number, what);
        }
    }

    /// A length in units of the file as ticks of ours.
    fn ticks(&self, units: u64) -> Result<u32, Unsaid> {
        let ticks = units * u64::from(Duration::QUARTER.ticks());
        let divisions = u64::from(self.divisions);
        let whole = ticks.is_multiple_of(divisions).then_some(ticks / divisions);
        let whole = whole.and_then(|ticks| u32::try_from(ticks).ok());
        whole.ok_or("a sheet has no such lengths: tuplets, or notes that are too short")
    }
}

/// A measure on its way.
struct Reading {
    number: u32,
    /// Where it is, and how far it has come, in units of the file.
    now: u64,
    end: u64,
    sung: Vec<Sung>,
    /// Whether a rest in it is not to be seen, as in a bar that is not written yet.
    is_blank: bool,
}

impl Reading {
    fn pass(&mut self, units: u64) {
        self.now = self.now.saturating_add(units);
        self.end = self.end.max(self.now);
    }
}

/// How long something is, in units of the file.
fn units(node: &Node) -> Result<u64, Unsaid> {
    let units = node.number::<u32>("duration").map(u64::from);
    units.ok_or("the length of something in it is not said")
}

fn pitch(note: &Node) -> Result<Pitch, Unsaid> {
    let pitch = note.get("pitch").ok_or("something in it has no pitch")?;
    let of = || {
        let mut letters = pitch.text_of("step")?.chars();
        let (letter, None) = (Letter::from_char(letters.next()?)?, letters.next()) else {
            return None;
        };
        let alter = pitch.text_of("alter").map_or(Some(0.0), |alter| alter.parse::<f64>().ok())?;
        let alter =
            [-2_i8, -1, 0, 1, 2].into_iter().find(|own| (f64::from(*own) - alter).abs() < 0.01)?;
        Pitch::new(letter, Accidental::new(alter)?, pitch.number("octave")?)
    };
    of().ok_or("it has a pitch that a sheet cannot say")
}
