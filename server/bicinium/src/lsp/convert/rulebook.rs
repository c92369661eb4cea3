//! What is wrong in a rulebook as diagnostics of its file.
//!
//! It must not know when they are shown.

use bicinium_analysis::rulebook::{Held, RulebookProblem};
use bicinium_analysis::sheet::RULEBOOK;
use tower_lsp::lsp_types as lsp;

use super::offer::NAME;
use crate::lsp::text::{Encoding, Text};

/// All problems of a rulebook, in the order of its text.
pub(in crate::lsp) fn diagnostics(held: &Held, encoding: Encoding) -> Vec<lsp::Diagnostic> {
    let text = Text::from(held.text.as_deref().unwrap_or_default());
    held.problems.iter().map(|problem| diagnostic(&text, problem, encoding)).collect()
}

fn diagnostic(text: &Text, problem: &RulebookProblem, encoding: Encoding) -> lsp::Diagnostic {
    lsp::Diagnostic {
        range: text.range(problem.range.clone(), encoding),
        severity: Some(lsp::DiagnosticSeverity::ERROR),
        code: Some(lsp::NumberOrString::String(RULEBOOK.to_owned())),
        source: Some(NAME.to_owned()),
        message: problem.message.clone(),
        ..lsp::Diagnostic::default()
    }
}
