//! Every kind of request that an editor may make, as far as the server offers it.

use crate::editor::about;
use crate::text::ScreenText;
use serde_json::{Value, json};

use super::dice::Dice;
use super::typing::place;

/// Under what name a request says which answer it goes on from.
pub const PREVIOUS: &str = "previousResultId";

/// A kind of request.
struct Kind {
    method: &'static str,
    /// Where the server's offer says that it answers this.
    offer: &'static str,
    params: fn(&str, &ScreenText, &mut Dice) -> Value,
}

const KINDS: &[Kind] = &[
    Kind { method: "textDocument/hover", offer: "/hoverProvider", params: at },
    Kind { method: "textDocument/completion", offer: "/completionProvider", params: at },
    Kind { method: "textDocument/codeAction", offer: "/codeActionProvider", params: actions },
    Kind {
        method: "textDocument/formatting",
        offer: "/documentFormattingProvider",
        params: layout,
    },
    Kind {
        method: "textDocument/rangeFormatting",
        offer: "/documentRangeFormattingProvider",
        params: part_layout,
    },
    Kind {
        method: "textDocument/onTypeFormatting",
        offer: "/documentOnTypeFormattingProvider",
        params: typed_layout,
    },
    Kind { method: "textDocument/diagnostic", offer: "/diagnosticProvider", params: whole },
    Kind { method: "textDocument/documentSymbol", offer: "/documentSymbolProvider", params: whole },
    Kind { method: "textDocument/foldingRange", offer: "/foldingRangeProvider", params: whole },
    Kind { method: "textDocument/codeLens", offer: "/codeLensProvider", params: whole },
    Kind { method: "codeLens/resolve", offer: "/codeLensProvider/resolveProvider", params: lens },
    Kind { method: "textDocument/documentLink", offer: "/documentLinkProvider", params: whole },
    Kind { method: "textDocument/definition", offer: "/definitionProvider", params: at },
    Kind { method: "textDocument/references", offer: "/referencesProvider", params: references },
    Kind {
        method: "textDocument/prepareRename",
        offer: "/renameProvider/prepareProvider",
        params: at,
    },
    Kind { method: "textDocument/rename", offer: "/renameProvider", params: renaming },
    Kind {
        method: "textDocument/documentHighlight",
        offer: "/documentHighlightProvider",
        params: at,
    },
    Kind {
        method: "textDocument/selectionRange",
        offer: "/selectionRangeProvider",
        params: positions,
    },
    Kind { method: "textDocument/inlayHint", offer: "/inlayHintProvider", params: part },
    Kind {
        method: "textDocument/semanticTokens/full",
        offer: "/semanticTokensProvider/full",
        params: whole,
    },
    Kind {
        method: "textDocument/semanticTokens/full/delta",
        offer: "/semanticTokensProvider/full/delta",
        params: since,
    },
    Kind {
        method: "textDocument/semanticTokens/range",
        offer: "/semanticTokensProvider/range",
        params: part,
    },
    Kind {
        method: "workspace/diagnostic",
        offer: "/diagnosticProvider/workspaceDiagnostics",
        params: survey,
    },
    Kind { method: "workspace/symbol", offer: "/workspaceSymbolProvider", params: symbols },
    Kind {
        method: "workspace/textDocumentContent",
        offer: "/workspace/textDocumentContent",
        params: page,
    },
];

/// What an editor announces that can do everything, and is never asked anything by the server.
pub fn capabilities() -> Value {
    let kinds = json!(["", "quickfix", "refactor", "refactor.rewrite", "source", "source.fixAll"]);
    json!({
        "general": {"positionEncodings": ["utf-16"]},
        "workspace": {"symbol": {}, "diagnostics": {}},
        "textDocument": {
            "synchronization": {},
            "hover": {"contentFormat": ["markdown", "plaintext"]},
            "completion": {
                "completionItem": {
                    "snippetSupport": true,
                    "documentationFormat": ["markdown"],
                    "insertReplaceSupport": true
                }
            },
            "codeAction": {"codeActionLiteralSupport": {"codeActionKind": {"valueSet": kinds}}},
            "publishDiagnostics": {"versionSupport": true, "relatedInformation": true},
            "diagnostic": {"relatedDocumentSupport": true},
            "formatting": {},
            "rangeFormatting": {},
            "onTypeFormatting": {},
            "documentSymbol": {"hierarchicalDocumentSymbolSupport": true},
            "foldingRange": {},
            "selectionRange": {},
            "codeLens": {},
            "documentLink": {"tooltipSupport": true},
            "definition": {"linkSupport": true},
            "references": {},
            "rename": {"prepareSupport": true},
            "documentHighlight": {},
            "inlayHint": {},
            "semanticTokens": {
                "requests": {"full": {"delta": true}, "range": true},
                "formats": ["relative"],
                "tokenTypes": ["keyword", "type", "variable", "string", "number", "operator",
                    "comment", "function", "parameter", "property", "enumMember", "macro"],
                "tokenModifiers": ["declaration", "definition", "readonly", "deprecated"]
            }
        }
    })
}

/// Commands are given now and then by whoever wants one.
const COMMANDS: &str = "executeCommandProvider";

/// What may be asked of one server.
pub struct Questions(Vec<&'static Kind>);

impl Questions {
    /// All that the server offers, given its answer to `initialize`.
    pub fn new(offer: &Value) -> Self {
        let capabilities = &offer["capabilities"];
        let is_offered = |kind: &&Kind| {
            let told = capabilities.pointer(kind.offer);
            told.is_some_and(|told| !told.is_null() && *told != json!(false))
        };
        let kinds: Vec<_> = KINDS.iter().filter(is_offered).collect();
        let told = capabilities.as_object().expect("an offer is an object").keys();
        for provider in told.filter(|name| name.ends_with("Provider") && *name != COMMANDS) {
            let is_asked = kinds.iter().any(|kind| kind.offer[1..].starts_with(provider.as_str()));
            assert!(is_asked, "nobody asks for {provider}");
        }
        Questions(kinds)
    }

    /// Any request about a sheet.
    pub fn any(&self, uri: &str, screen: &ScreenText, dice: &mut Dice) -> (&'static str, Value) {
        let kind = dice.of(&self.0);
        (kind.method, (kind.params)(uri, screen, dice))
    }
}

fn whole(uri: &str, _: &ScreenText, _: &mut Dice) -> Value {
    about(uri)
}

fn at(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    let mut params = about(uri);
    params["position"] = screen.position(place(&screen.text, dice));
    params
}

fn part(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    let (one, other) = (place(&screen.text, dice), place(&screen.text, dice));
    let mut params = about(uri);
    params["range"] = screen.range(&(one.min(other)..one.max(other)));
    params
}

fn positions(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    let mut params = about(uri);
    let places = [place(&screen.text, dice), place(&screen.text, dice)];
    params["positions"] = places.map(|byte| screen.position(byte)).to_vec().into();
    params
}

fn references(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    let mut params = at(uri, screen, dice);
    params["context"] = json!({"includeDeclaration": dice.below(2) == 0});
    params
}

fn renaming(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    let mut params = match dice.below(2) {
        0 => at(uri, screen, dice),
        _ => at_a_name(uri, screen, dice),
    };
    params["newName"] = (*dice.of(&["bridge-song", "two words", "No. 7", "fux-dorian"])).into();
    params
}

/// Where the name of a cantus or a title may stand.
fn at_a_name(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    let names = ["mill-song", "No."].into_iter().flat_map(|name| screen.text.match_indices(name));
    let names: Vec<_> = names.map(|(byte, _)| byte).collect();
    let mut params = about(uri);
    params["position"] = screen.position(if names.is_empty() { 0 } else { *dice.of(&names) });
    params
}

/// A lens as one that was not resolved; the server goes by its data alone.
fn lens(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    json!({"range": screen.range(&(0..0)), "data": {"uri": uri, "exercise": 1 + dice.below(3)}})
}

/// What was answered last is known to whoever asks.
fn since(uri: &str, _: &ScreenText, _: &mut Dice) -> Value {
    let mut params = about(uri);
    params[PREVIOUS] = "none".into();
    params
}

fn survey(_: &str, _: &ScreenText, _: &mut Dice) -> Value {
    json!({"previousResultIds": []})
}

fn actions(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    let mut params = part(uri, screen, dice);
    params["context"] = json!({"diagnostics": []});
    params
}

fn layout(uri: &str, _: &ScreenText, _: &mut Dice) -> Value {
    with_options(about(uri))
}

fn part_layout(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    with_options(part(uri, screen, dice))
}

fn typed_layout(uri: &str, screen: &ScreenText, dice: &mut Dice) -> Value {
    let mut params = with_options(at(uri, screen, dice));
    params["ch"] = "|".into();
    params
}

fn with_options(mut params: Value) -> Value {
    params["options"] = json!({"tabSize": 2, "insertSpaces": true});
    params
}

fn symbols(_: &str, _: &ScreenText, dice: &mut Dice) -> Value {
    json!({"query": dice.of(&["", "mill", "No"])})
}

fn page(_: &str, _: &ScreenText, dice: &mut Dice) -> Value {
    let rules = ["crossing", "leap-recovery", "consecutive-perfects"];
    json!({"uri": format!("bicinium:/rules/{}", dice.of(&rules))})
}
