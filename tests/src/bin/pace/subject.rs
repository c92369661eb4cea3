//! The servers that are measured, each with texts of its own language: as many lines, a finding
//! every fifty lines, and one place that is edited back and forth so that a finding comes and goes.

use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::{Value, json};

use super::Named;
use super::phrases::Flow;
use super::sheets::{self, Typed};

/// The notification that shows diagnostics.
pub(crate) const PUBLISH: &str = "textDocument/publishDiagnostics";

/// How diagnostics get to the editor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Delivery {
    /// The server sends them.
    Push,
    /// The editor asks for them.
    Pull,
}

/// A server that is measured.
pub(crate) struct Subject {
    pub(crate) name: &'static str,
    pub(crate) delivery: Delivery,
    pub(crate) language: &'static str,
    pub(crate) uri: &'static str,
    program: PathBuf,
    arguments: Vec<&'static str>,
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Echo,
    Own,
    Yardstick,
}

impl Subject {
    pub(crate) fn echo() -> Self {
        let program = std::env::current_exe().expect("a running program has a path");
        Subject::own("echo", program, Delivery::Push, Kind::Echo, vec!["echo"])
    }

    pub(crate) fn pushing(binary: &Path) -> Self {
        let arguments = vec!["lsp", "--stdio"];
        Subject::own("push", binary.to_owned(), Delivery::Push, Kind::Own, arguments)
    }

    pub(crate) fn pulling(binary: &Path) -> Self {
        Subject { name: "pull", delivery: Delivery::Pull, ..Subject::pushing(binary) }
    }

    /// The yardstick, pushed and pulled.
    pub(crate) fn yardstick(program: &Path) -> [Self; 2] {
        [("yardstick push", Delivery::Push), ("yardstick pull", Delivery::Pull)].map(
            |(name, delivery)| Subject {
                name,
                delivery,
                language: "python",
                uri: "file:///nowhere/sheet.py",
                program: program.to_owned(),
                arguments: vec!["server"],
                kind: Kind::Yardstick,
            },
        )
    }

    fn own(
        name: &'static str,
        program: PathBuf,
        delivery: Delivery,
        kind: Kind,
        arguments: Vec<&'static str>,
    ) -> Self {
        let (language, uri) = ("bicinium", "file:///nowhere/sheet.bicinium");
        Subject { name, delivery, language, uri, program, arguments, kind }
    }

    /// A text of this many lines.
    pub(crate) fn sheet(&self, lines: usize) -> Named {
        let text =
            if self.kind == Kind::Yardstick { sheets::script(lines) } else { sheets::sheet(lines) };
        Named { name: format!("{lines} lines"), text }
    }

    /// One exercise of a thousand bars, edited at its beginning, its middle and its end.
    pub(crate) fn long_texts(&self) -> Vec<Named> {
        if self.kind != Kind::Own {
            return Vec::new();
        }
        let of = |rulebook: &str, flow: Flow, bar: usize| Named {
            name: format!("1000 {} bars, {rulebook}, in {bar}", flow.name()),
            text: sheets::exercise(rulebook, flow, 1_000, bar),
        };
        let kinds =
            [("modal", Flow::Clean), ("modal", Flow::Rough), ("tonal", Flow::Rough)].into_iter();
        kinds.flat_map(|(book, flow)| [3, 498, 993].map(|bar| of(book, flow, bar))).collect()
    }

    /// The command that starts the server for a text.
    pub(crate) fn command(&self, text: &Typed) -> Command {
        let mut command = Command::new(&self.program);
        command.args(&self.arguments);
        if self.kind == Kind::Echo {
            command.arg(text.findings.to_string());
        }
        command
    }

    /// What the editor announces.
    pub(crate) fn capabilities(&self) -> Value {
        let mut document = json!({
            "hover": {"contentFormat": ["markdown"]},
            "publishDiagnostics": {"versionSupport": true, "codeDescriptionSupport": true}
        });
        if self.delivery == Delivery::Pull {
            document["diagnostic"] = json!({});
        }
        json!({"general": {"positionEncodings": ["utf-8"]}, "textDocument": document})
    }
}
