//! Which harmonies a bar of the harmony row may name: first what is heard there, then what it could be
//! instead, then what else the school knows. It must not know how harmonies are found.

use std::ops::Range;

use bicinium_analysis::Exercise;
use bicinium_analysis::reading::{Harmony, Reading};
use bicinium_analysis::sheet::Placed;
use bicinium_grammar::ast::{self, Row};
use bicinium_theory::{Inversion, Member, Numeral};

use super::{Word, WordKind};

/// What may stand at a byte of a block, if it lies in a bar of a harmony row, and what it replaces.
pub(super) fn words(
    block: &Placed,
    text: &str,
    offset: usize,
) -> Option<(Range<usize>, Vec<Word>)> {
    let exercise = block.judged.exercise.as_ref()?;
    let bar = bar_at(block, text, offset)?;
    let (head, tail) = text.split_at_checked(offset)?;
    let is_end = |letter: char| letter.is_whitespace() || matches!(letter, '|' | '(' | ')');
    let begun = head.rsplit(is_end).next().unwrap_or_default();
    let rest = tail.find(is_end).unwrap_or(tail.len());
    Some((offset - begun.len()..offset + rest, numerals(exercise, bar)))
}

/// The bar of a harmony row at a byte of a block, counted from 0.
fn bar_at(block: &Placed, text: &str, offset: usize) -> Option<usize> {
    let ast::Block::Exercise(tree) = block.judged.tree.ast() else { return None };
    let head = text.get(..offset)?;
    let line = head.rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let is_here = |row: &Row| matches!(row, Row::Harmony(_)) && is_in(row, line..offset);
    let mut before = 0;
    for system in tree.systems() {
        if let Some(row) = system.iter().find(|row| is_here(row)) {
            let written = head.get(usize::from(row.range().start())..)?;
            let barlines = written.matches('|').count();
            return (!written.contains("//")).then_some(before + barlines.checked_sub(1)?);
        }
        before += system.iter().map(|row| row.bars().len()).max().unwrap_or(0);
    }
    None
}

fn is_in(row: &Row, range: Range<usize>) -> bool {
    range.contains(&usize::from(row.range().start()))
}

fn numerals(exercise: &Exercise, bar: usize) -> Vec<Word> {
    let (reading, setting) = (&exercise.verdict.reading, &exercise.score.setting);
    let is_here = |onset| usize::try_from(setting.bar_of(onset)).is_ok_and(|it| it == bar);
    let here = || reading.stretches.iter().filter(|stretch| is_here(stretch.onset));
    let heard = here().map(|stretch| (stretch.numeral, "heard here: "));
    let instead = here().flat_map(|stretch| stretch.alternatives.iter());
    let instead = instead.map(|other| (other.numeral, "could be: "));
    let others = known(reading).map(|numeral| (numeral, ""));
    let mut words: Vec<Word> = Vec::new();
    for (numeral, remark) in heard.chain(instead).chain(others) {
        let text = numeral.to_string();
        if words.iter().all(|word| word.text != text) {
            let notes = numeral.chord(setting.key).members().map(|(_, note)| note.to_string());
            let detail = format!("{remark}{}", notes.collect::<Vec<_>>().join(" "));
            words.push(Word::with_detail(text, WordKind::Value, detail));
        }
    }
    words
}

/// The harmonies of the school, each with the inversions in which it may stand.
fn known(reading: &Reading) -> impl Iterator<Item = Numeral> + '_ {
    let usual = reading.vocabulary.usual().filter_map(|id| reading.vocabulary.get(id));
    usual.flat_map(|harmony: &Harmony| {
        harmony.basses.iter().map(|bass| harmony.numeral.with_inversion(inversion(*bass)))
    })
}

fn inversion(bass: Member) -> Inversion {
    match bass {
        Member::Root => Inversion::Root,
        Member::Third => Inversion::First,
        Member::Fifth => Inversion::Second,
        Member::Seventh => Inversion::Third,
    }
}
