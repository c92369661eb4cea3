//! What happens on the tour: a sheet is opened, marked, asked about, and mended until nothing is
//! left to mend. Everything told here comes from the session. It must not know how it is shown.

use std::ops::Range;

use super::editor::{Editor, Found, Proposal};
use super::session::{Interrupted, Session};
use crate::lsp;
use crate::recording::Recorder;

/// How often the remedies are taken before the tour gives up.
const PATIENCE: usize = 12;

/// What happened.
#[derive(Debug)]
pub(super) struct Visit {
    /// The sheet at the beginning.
    pub(super) before: String,
    /// What was found in it.
    pub(super) found: Vec<Found>,
    /// What was said about the place of the first finding.
    pub(super) answer: String,
    /// What was done, step by step.
    pub(super) steps: Vec<Step>,
    /// The sheet at the end, laid out.
    pub(super) after: String,
    /// What was found in that.
    pub(super) left: Vec<Found>,
}

/// A finding that was mended.
#[derive(Debug)]
pub(super) struct Step {
    /// The finding.
    pub(super) found: Found,
    /// What was done about it, in words.
    pub(super) title: String,
    /// The sheet after it.
    pub(super) text: String,
    /// What is new in that, in bytes.
    pub(super) changed: Vec<Range<usize>>,
    /// How many findings were left after it.
    pub(super) left: usize,
}

/// Goes on the tour with a sheet.
pub(super) fn visit(text: &str) -> Result<Visit, Interrupted> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(async {
        let (session, input, output) = Session::new();
        let (_, visit) =
            tokio::join!(lsp::serve(input, output, Recorder::default()), guided(session, text));
        visit
    })
}

async fn guided(session: Session, text: &str) -> Result<Visit, Interrupted> {
    let mut editor = Editor::open(session, text).await?;
    let found = editor.findings().await?;
    let answer = match found.first() {
        Some(first) => editor.ask_about(first).await?,
        None => String::new(),
    };
    let steps = mend(&mut editor, found.clone()).await?;
    editor.lay_out().await?;
    let (left, after) = (editor.findings().await?, editor.text.clone());
    editor.close().await?;
    Ok(Visit { before: text.to_owned(), found, answer, steps, after, left })
}

/// Takes what is proposed for the first finding that there is a remedy for, again and again.
async fn mend(editor: &mut Editor, mut found: Vec<Found>) -> Result<Vec<Step>, Interrupted> {
    let mut steps = Vec::new();
    while let (Some((mended, remedy)), ..PATIENCE) =
        (first_remedy(editor, &found).await?, steps.len())
    {
        let changed = editor.accept(&remedy).await?;
        found = editor.findings().await?;
        let (title, text) = (remedy.title, editor.text.clone());
        steps.push(Step { found: mended, title, text, changed, left: found.len() });
    }
    Ok(steps)
}

async fn first_remedy(
    editor: &mut Editor,
    found: &[Found],
) -> Result<Option<(Found, Proposal)>, Interrupted> {
    for finding in found {
        if let Some(remedy) = editor.remedy(finding).await? {
            return Ok(Some((finding.clone(), remedy)));
        }
    }
    Ok(None)
}
