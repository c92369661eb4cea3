//! Findings as a SARIF 2.1.0 log, for programs that collect them. It must not know how findings
//! were made.

mod catalogue;
mod places;

use bicinium_analysis::rulebook::RulebookProblem;
use bicinium_analysis::sheet::RULEBOOK;
use bicinium_analysis::{Acceptance, Level, Located};
use serde_json::json;
use serde_sarif::sarif::{
    Invocation, Message, Notification, Result as Entry, ResultColumnKind, ResultLevel, Run, Sarif,
    Suppression, Tool, ToolComponent,
};

use self::places::Places;
use super::Marking;
use crate::cli::broken::Broken;
use crate::cli::marked::Marked;

const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// All findings down to the mildest level that is told, and what has to be said about sheets that
/// could not be read.
pub(super) fn report(marking: &Marking, mildest: Level) -> serde_json::Result<String> {
    let in_rulebooks = marking.rulebooks.iter().flat_map(of_rulebook);
    let in_sheets = marking.sheets.iter().flat_map(|sheet| of_sheet(sheet, mildest));
    let results: Vec<_> = in_rulebooks.chain(in_sheets).collect();
    let run = Run::builder()
        .tool(tool(&results))
        .invocations(vec![invocation(&marking.complaints)])
        .column_kind(serde_json::to_value(ResultColumnKind::Utf16CodeUnits)?)
        .results(results)
        .build();
    let log = Sarif::builder().schema(SCHEMA).version(json!("2.1.0")).runs(vec![run]).build();
    serde_json::to_string_pretty(&log)
}

fn tool(results: &[Entry]) -> Tool {
    ToolComponent::builder()
        .name("bicinium")
        .semantic_version(env!("CARGO_PKG_VERSION"))
        .rules(catalogue::rules(results))
        .build()
        .into()
}

fn invocation(complaints: &[String]) -> Invocation {
    let notification =
        |complaint: &String| Notification::builder().message(complaint).level("error").build();
    Invocation::builder()
        .execution_successful(complaints.is_empty())
        .tool_execution_notifications(complaints.iter().map(notification).collect::<Vec<_>>())
        .build()
}

fn of_rulebook(rulebook: &Broken) -> Vec<Entry> {
    let places = Places::new(&rulebook.path, &rulebook.text);
    let entry = |problem: &RulebookProblem| {
        Entry::builder()
            .rule_id(RULEBOOK)
            .level(level(Level::Notation))
            .message(&problem.message)
            .locations(vec![places.location(problem.range.clone())])
            .related_locations(Vec::new())
            .suppressions(Vec::new())
            .build()
    };
    rulebook.problems.iter().map(entry).collect()
}

fn of_sheet(marked: &Marked, mildest: Level) -> Vec<Entry> {
    let sheet = Places::new(marked.source.path(), &marked.text);
    marked.down_to(mildest).map(|located| entry(&sheet, located)).collect()
}

fn entry(sheet: &Places<'_>, located: Located<'_>) -> Entry {
    let finding = located.finding;
    let related = finding.related.iter().zip(0..).map(|(related, id)| {
        let message: Message = (&related.message).into();
        let mut location = sheet.location(located.block.in_sheet(related.range));
        location.id = Some(id);
        location.message = Some(message);
        location
    });
    Entry::builder()
        .rule_id(finding.rule)
        .level(level(finding.level))
        .message(&finding.message)
        .locations(vec![sheet.location_of(located)])
        .related_locations(related.collect::<Vec<_>>())
        .suppressions(suppressions(sheet, located))
        .build()
}

fn level(level: Level) -> ResultLevel {
    match level {
        Level::Notation | Level::Fault => ResultLevel::Error,
        Level::Caution => ResultLevel::Warning,
        Level::Advice | Level::Unfinished => ResultLevel::Note,
    }
}

/// The licence that accepts the finding; empty, not absent, if there is none, for the same must
/// hold of all results of a run.
fn suppressions(sheet: &Places<'_>, located: Located<'_>) -> Vec<Suppression> {
    let suppression = |acceptance: &Acceptance| {
        let mut suppression = Suppression::builder()
            .kind("inSource")
            .status("accepted")
            .location(sheet.location(located.block.in_sheet(acceptance.range)))
            .build();
        suppression.justification.clone_from(&acceptance.reason);
        suppression
    };
    located.finding.accepted.iter().map(suppression).collect()
}
