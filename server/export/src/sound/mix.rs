//! What is heard in the end: samples that tones are added to, and the file that they are written
//! into. Knows no music.

use std::io::Cursor;

use hound::{SampleFormat, WavSpec, WavWriter};

use super::RATE;

/// The samples of a performance, between -1 and 1.
#[derive(Clone, Debug)]
pub(super) struct Mix(Vec<f32>);

impl Mix {
    /// Silence of so many samples.
    pub(super) fn of_length(samples: usize) -> Self {
        Self(vec![0.0; samples])
    }

    /// The samples from one on, as many as there are of so many.
    pub(super) fn stretch(&mut self, start: usize, length: usize) -> &mut [f32] {
        let end = start.saturating_add(length).min(self.0.len());
        self.0.get_mut(start..end).unwrap_or_default()
    }

    /// The file; nothing if it would be too long for one.
    pub(super) fn file(&self) -> Option<Vec<u8>> {
        let spec = WavSpec {
            channels: 1,
            sample_rate: RATE,
            bits_per_sample: 16,
            sample_format: SampleFormat::Int,
        };
        let mut bytes = Cursor::new(Vec::new());
        let mut writer = WavWriter::new(&mut bytes, spec).ok()?;
        for sample in &self.0 {
            writer.write_sample(whole(*sample)).ok()?;
        }
        writer.finalize().ok()?;
        Some(bytes.into_inner())
    }
}

#[expect(clippy::cast_possible_truncation, reason = "the number is kept within the range first")]
fn whole(sample: f32) -> i16 {
    (sample.clamp(-1.0, 1.0) * f32::from(i16::MAX)).round() as i16
}
