//! What a client is shown of a document, part by part, ready to be sent and cheap to compare.
//!
//! It must not know what the diagnostics say.

use std::hash::{Hash, Hasher};
use std::sync::Arc;

use rustc_hash::FxHasher;
use tower_lsp::lsp_types::{PublishDiagnosticsParams, Url};

use super::rendered::Rendered;

/// All diagnostics of a document in one state.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Shown {
    pub(super) uri: Url,
    pub(super) version: Option<i32>,
    /// Parts in the order of the text, each with the line at which it begins.
    pub(super) parts: Vec<(usize, Arc<Rendered>)>,
}

impl Shown {
    /// Nothing about a document.
    pub(super) fn nothing(uri: Url) -> Self {
        Shown { uri, version: None, parts: Vec::new() }
    }

    /// Whether there is nothing to show.
    pub(super) fn is_empty(&self) -> bool {
        self.parts.is_empty()
    }

    /// A number that stands for all that is shown.
    pub(super) fn fingerprint(&self) -> u64 {
        let mut hasher = FxHasher::default();
        let parts = self.parts.iter().map(|(line, part)| (line, part.fingerprint()));
        parts.for_each(|part| part.hash(&mut hasher));
        hasher.finish()
    }

    /// Writes all diagnostics, one behind the other.
    pub(super) fn write(&self, output: &mut Vec<u8>) {
        for (number, (line, part)) in self.parts.iter().enumerate() {
            if number > 0 {
                output.push(b',');
            }
            part.write(*line, output);
        }
    }

    /// The notification that shows it, byte for byte.
    pub(super) fn message(&self) -> Vec<u8> {
        let mut message = Vec::from(HEAD);
        self.write(&mut message);
        let uri = serde_json::Value::from(self.uri.as_str());
        message.extend_from_slice(format!("],\"uri\":{uri}").as_bytes());
        if let Some(version) = self.version {
            message.extend_from_slice(format!(",\"version\":{version}").as_bytes());
        }
        message.extend_from_slice(b"}}");
        message
    }
}

impl From<PublishDiagnosticsParams> for Shown {
    fn from(params: PublishDiagnosticsParams) -> Self {
        let whole = Some(params.diagnostics).filter(|diagnostics| !diagnostics.is_empty());
        let parts = whole.into_iter().map(|whole| (0, Arc::new(Rendered::new(&whole))));
        Shown { uri: params.uri, version: params.version, parts: parts.collect() }
    }
}

const HEAD: &[u8] = b"{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/publishDiagnostics\",\
                      \"params\":{\"diagnostics\":[";

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};
    use tower_lsp::lsp_types::{Diagnostic, PublishDiagnosticsParams, Range, Url};

    use super::Shown;

    #[test]
    fn the_message_is_what_the_protocol_makes_of_the_parameters() {
        let diagnostic = Diagnostic::new_simple(Range::default(), "a".to_owned());
        for diagnostics in [vec![], vec![diagnostic.clone()], vec![diagnostic.clone(), diagnostic]]
        {
            for version in [None, Some(7)] {
                let uri = Url::parse("file:///a%20b.bicinium").unwrap();
                let params = PublishDiagnosticsParams::new(uri, diagnostics.clone(), version);
                let message: Value =
                    serde_json::from_slice(&Shown::from(params.clone()).message()).unwrap();
                let method = "textDocument/publishDiagnostics";
                assert_eq!(message, json!({"jsonrpc": "2.0", "method": method, "params": params}));
            }
        }
    }
}
