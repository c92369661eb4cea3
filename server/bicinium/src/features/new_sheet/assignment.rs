//! An assignment as a student gets it: under the student's name, the cantus written out where it is
//! only named, and a blank bar wherever the other voice has none yet. Everything else, also the words
//! of the teacher, stays as it is. Must not know any file.

use std::ops::Range;
use std::sync::Arc;

use bicinium_analysis::Snapshot;
use bicinium_analysis::rulebook::is_path;
use bicinium_grammar::ast::SettingValue;

use super::{blanks, quotable};
use crate::features::lines::line_end;
use crate::features::refactorings::{Subject, refactorings};

type Edit = (Range<usize>, String);
/// Judges a text as if it were the assignment.
type Judge<'a> = dyn Fn(&str) -> Arc<Snapshot> + 'a;

/// The sheet to be filled, made from an assignment. `judge` gives a snapshot of any text as if it
/// were the assignment, `seen` says how a path of the assignment is written in the new sheet.
pub fn from_assignment(
    text: &str,
    by: Option<&str>,
    seen: &dyn Fn(&str) -> String,
    judge: &Judge<'_>,
) -> String {
    let written_out = changed(text, cantus_edits(&judge(text)));
    let filled_up = changed(&written_out, blank_edits(&judge(&written_out)));
    let snapshot = judge(&filled_up);
    let signed = by.map(|by| signature(&snapshot, &filled_up, &quotable(by)));
    let edits = path_edits(&snapshot, seen).into_iter().chain(signed).collect();
    bicinium_grammar::format(&changed(&filled_up, edits))
}

fn changed(text: &str, mut edits: Vec<Edit>) -> String {
    edits.sort_by_key(|(range, _)| std::cmp::Reverse(range.start));
    let mut text = text.to_owned();
    for (range, insert) in edits {
        text.replace_range(range, &insert);
    }
    text
}

/// What writes every cantus out that is only named.
fn cantus_edits(snapshot: &Snapshot) -> Vec<Edit> {
    let found = snapshot.exercises().flat_map(|(_, block, _)| {
        let all = refactorings(snapshot, &(block.start..block.start));
        all.into_iter().filter(|it| it.subject == Subject::Cantus).flat_map(|it| it.edits)
    });
    found.collect()
}

/// What gives every voice to be written as many bars as the exercise has.
fn blank_edits(snapshot: &Snapshot) -> Vec<Edit> {
    snapshot.exercises().flat_map(|(_, block, exercise)| blanks::edits(block, exercise)).collect()
}

/// What makes paths lead where they led.
fn path_edits(snapshot: &Snapshot, seen: &dyn Fn(&str) -> String) -> Vec<Edit> {
    let found = snapshot.blocks().iter().flat_map(|block| {
        let tree = block.judged.tree.ast();
        let uses = tree.uses().into_iter().map(|it| (it.path, it.path_range));
        let books = tree.settings().into_iter().filter_map(|it| match it.value {
            SettingValue::Rulebook(path) if is_path(&path) => Some((path, it.value_range)),
            _ => None,
        });
        let edit =
            |(path, range): (String, _)| (block.in_sheet(range), format!("\"{}\"", seen(&path)));
        uses.chain(books).map(edit).collect::<Vec<_>>()
    });
    found.collect()
}

/// What puts the name of the writer where one stands, or else before everything that is set.
fn signature(snapshot: &Snapshot, text: &str, by: &str) -> Edit {
    let preamble = snapshot.blocks().first();
    let settings = preamble.map(|block| (block, block.judged.tree.ast().settings()));
    let signed = settings.and_then(|(block, settings)| {
        let by = settings.into_iter().find(|it| matches!(it.value, SettingValue::By(_)))?;
        Some(block.in_sheet(by.value_range))
    });
    if let Some(range) = signed {
        return (range, format!("\"{by}\""));
    }
    let comments: usize = text
        .split_inclusive(['\n', '\r'])
        .take_while(|line| line.trim_start().starts_with("//"))
        .map(str::len)
        .sum();
    (comments..comments, format!("by \"{by}\"{}", line_end(text)))
}
