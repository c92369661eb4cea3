//! A way as rows of a sheet, bar below bar. It must not know how it was found.

use bicinium_analysis::Exercise;
use bicinium_analysis::score::VoiceId;
use bicinium_realizer::Realization;

use crate::features::realizing::bar_of;

/// The rows of the voices that there are, the upper one first.
pub(super) fn rows(exercise: &Exercise, way: &Realization) -> Vec<String> {
    let setting = &exercise.score.setting;
    let is_there = |voice: &VoiceId| !exercise.score.lines[*voice].head.is_empty();
    let voices: Vec<_> = VoiceId::BOTH.into_iter().filter(is_there).collect();
    let bars: Vec<_> = voices.iter().map(|voice| bars(exercise, way, *voice)).collect();
    let width = |bar: usize| bars.iter().filter_map(|own| own.get(bar)).map(String::len).max();
    let names: Vec<_> = voices.iter().map(|voice| setting.registers[*voice].name()).collect();
    let name_width = names.iter().map(|name| name.len()).max().unwrap_or(0);
    let row = |(name, own): (&str, &Vec<String>)| {
        let cells = own.iter().enumerate();
        let cells = cells.map(|(bar, text)| format!(" {text:<0$} |", width(bar).unwrap_or(0)));
        format!("  {name:<name_width$} |{}", cells.collect::<String>())
    };
    names.into_iter().zip(&bars).map(row).collect()
}

fn bars(exercise: &Exercise, way: &Realization, voice: VoiceId) -> Vec<String> {
    let setting = &exercise.score.setting;
    let text = |bar: u32| {
        let text = bar_of(way, voice, setting.bar_start(bar), setting.bar_length());
        text.unwrap_or_default()
    };
    (0..setting.bars).map(text).collect()
}
