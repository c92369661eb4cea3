//! An editor with one sheet open: it shows what the server finds, asks about places, and takes what
//! the server proposes. It must not know any music.

use std::ops::Range;

use serde_json::{Value, json};

use super::session::{Interrupted, Session};
use crate::cli::lines::Lines;

const SHEET: &str = "untitled:exercise.bicinium";

/// An editor with a sheet.
pub(super) struct Editor {
    session: Session,
    /// What the sheet says now.
    pub(super) text: String,
    version: u32,
}

/// Something that the server finds.
#[derive(Clone, Debug)]
pub(super) struct Found {
    /// The message of the server, as it came.
    diagnostic: Value,
    /// Where, in bytes of the sheet.
    pub(super) range: Range<usize>,
    /// Other places that belong to it, with what is there.
    pub(super) related: Vec<(Range<usize>, String)>,
}

/// Something that the server proposes.
#[derive(Clone, Debug)]
pub(super) struct Proposal {
    /// What it does.
    pub(super) title: String,
    edits: Vec<Edit>,
}

/// A change of the text.
#[derive(Clone, Debug)]
struct Edit {
    /// The place, as the server named it.
    range: Value,
    /// The same in bytes of the sheet.
    replaced: Range<usize>,
    insert: String,
}

impl Found {
    /// The rule that is broken.
    pub(super) fn rule(&self) -> &str {
        self.diagnostic["code"].as_str().unwrap_or_default()
    }

    /// What is wrong.
    pub(super) fn message(&self) -> &str {
        self.diagnostic["message"].as_str().unwrap_or_default()
    }

    /// How grave it is: 1 for an error, 2 for a warning, 3 and 4 for less.
    pub(super) fn severity(&self) -> u64 {
        self.diagnostic["severity"].as_u64().unwrap_or(1)
    }
}

impl Editor {
    /// Greets the server and opens a sheet.
    pub(super) async fn open(mut session: Session, text: &str) -> Result<Self, Interrupted> {
        let greeting = json!({"processId": null, "rootUri": null, "capabilities": capabilities()});
        session.request("initialize", greeting).await?;
        session.notify("initialized", json!({})).await?;
        let document = json!({"uri": SHEET, "languageId": "bicinium", "version": 0, "text": text});
        session.notify("textDocument/didOpen", json!({"textDocument": document})).await?;
        Ok(Self { session, text: text.to_owned(), version: 0 })
    }

    /// What the server finds in the sheet as it is now.
    pub(super) async fn findings(&mut self) -> Result<Vec<Found>, Interrupted> {
        let params = json!({"textDocument": {"uri": SHEET}});
        let report = self.session.request("textDocument/diagnostic", params).await?;
        let items = report["items"].as_array().into_iter().flatten();
        Ok(items.map(|item| self.found(item)).collect())
    }

    /// What the server says about the place of a finding.
    pub(super) async fn ask_about(&mut self, found: &Found) -> Result<String, Interrupted> {
        let position = &found.diagnostic["range"]["start"];
        let params = json!({"textDocument": {"uri": SHEET}, "position": position});
        let hover = self.session.request("textDocument/hover", params).await?;
        Ok(hover["contents"]["value"].as_str().unwrap_or_default().to_owned())
    }

    /// What the server proposes first for a finding, if it knows a remedy.
    pub(super) async fn remedy(&mut self, found: &Found) -> Result<Option<Proposal>, Interrupted> {
        let context = json!({"diagnostics": [found.diagnostic], "only": ["quickfix"]});
        let params = json!({
            "textDocument": {"uri": SHEET},
            "range": found.diagnostic["range"],
            "context": context,
        });
        let actions = self.session.request("textDocument/codeAction", params).await?;
        let mut actions = actions.as_array().into_iter().flatten();
        let is_meant = |action: &&Value| {
            action["isPreferred"] == true && action["diagnostics"][0] == found.diagnostic
        };
        Ok(actions.find(is_meant).map(|action| self.proposal(action)))
    }

    /// Does what a proposal says. Returns where what is new stands, in bytes.
    pub(super) async fn accept(
        &mut self,
        proposal: &Proposal,
    ) -> Result<Vec<Range<usize>>, Interrupted> {
        self.change(&proposal.edits).await
    }

    /// Has the server lay out the sheet.
    pub(super) async fn lay_out(&mut self) -> Result<(), Interrupted> {
        let options = json!({"tabSize": 2, "insertSpaces": true});
        let params = json!({"textDocument": {"uri": SHEET}, "options": options});
        let edits = self.session.request("textDocument/formatting", params).await?;
        self.change(&self.edits(&edits)).await?;
        Ok(())
    }

    /// Changes the sheet, and tells the server.
    async fn change(&mut self, edits: &[Edit]) -> Result<Vec<Range<usize>>, Interrupted> {
        let mut edits = edits.to_vec();
        edits.sort_by_key(|edit| edit.replaced.start);
        let new = stand(&edits);
        // From the end to the beginning, so that every place is still where it was.
        edits.reverse();
        for edit in &edits {
            self.text.replace_range(edit.replaced.clone(), &edit.insert);
        }
        let changes: Vec<_> =
            edits.iter().map(|edit| json!({"range": edit.range, "text": edit.insert})).collect();
        self.version += 1;
        let document = json!({"uri": SHEET, "version": self.version});
        let params = json!({"textDocument": document, "contentChanges": changes});
        self.session.notify("textDocument/didChange", params).await?;
        Ok(new)
    }

    /// Takes leave of the server.
    pub(super) async fn close(mut self) -> Result<(), Interrupted> {
        self.session.request("shutdown", Value::Null).await?;
        self.session.notify("exit", Value::Null).await
    }

    fn found(&self, diagnostic: &Value) -> Found {
        let related = diagnostic["relatedInformation"].as_array().into_iter().flatten();
        let related = related.map(|other| {
            let message = other["message"].as_str().unwrap_or_default().to_owned();
            (self.bytes(&other["location"]["range"]), message)
        });
        Found {
            range: self.bytes(&diagnostic["range"]),
            related: related.collect(),
            diagnostic: diagnostic.clone(),
        }
    }

    fn proposal(&self, action: &Value) -> Proposal {
        let title = action["title"].as_str().unwrap_or_default().to_owned();
        Proposal { title, edits: self.edits(&action["edit"]["changes"][SHEET]) }
    }

    fn edits(&self, list: &Value) -> Vec<Edit> {
        let edit = |edit: &Value| Edit {
            range: edit["range"].clone(),
            replaced: self.bytes(&edit["range"]),
            insert: edit["newText"].as_str().unwrap_or_default().to_owned(),
        };
        list.as_array().into_iter().flatten().map(edit).collect()
    }

    /// A range of the protocol in bytes of the sheet; columns are bytes by agreement.
    fn bytes(&self, range: &Value) -> Range<usize> {
        let lines = Lines::new(&self.text);
        let number = |value: &Value| value.as_u64().and_then(|it| usize::try_from(it).ok());
        let offset = |position: &Value| {
            let line = lines.range(number(&position["line"]).unwrap_or_default());
            (line.start + number(&position["character"]).unwrap_or_default()).min(line.end)
        };
        offset(&range["start"])..offset(&range["end"])
    }
}

/// Where the new texts stand after all edits, which are in order of place.
fn stand(edits: &[Edit]) -> Vec<Range<usize>> {
    let (mut gained, mut lost) = (0, 0);
    let place = |edit: &Edit| {
        let start = edit.replaced.start + gained - lost;
        gained += edit.insert.len();
        lost += edit.replaced.len();
        start..start + edit.insert.len()
    };
    edits.iter().map(place).collect()
}

fn capabilities() -> Value {
    json!({
        "general": {"positionEncodings": ["utf-8"]},
        "textDocument": {
            "diagnostic": {},
            "publishDiagnostics": {"relatedInformation": true, "codeDescriptionSupport": true},
            "hover": {"contentFormat": ["plaintext"]},
            "codeAction": {
                "codeActionLiteralSupport": {"codeActionKind": {"valueSet": ["quickfix"]}}
            }
        }
    })
}
