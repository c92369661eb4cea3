//! What the client can do, read once from what it announces and reduced to the questions that
//! the server asks.
//!
//! It must not know any editor by name.

use std::collections::BTreeSet;

use tower_lsp::lsp_types as lsp;

use super::settings::InForce;
use super::text::Encoding;

/// A client, as far as the server treats clients differently.
#[derive(Debug, Clone)]
pub(super) struct ClientProfile {
    /// The unit of columns: UTF-8 if the client offers it, since that costs nothing; otherwise
    /// UTF-16, or UTF-32 if that is all it offers.
    pub(super) encoding: Encoding,
    /// Whether the encoding was offered by the client and so has to be named in the reply.
    pub(super) negotiation: Negotiation,
    /// How diagnostics reach the client; always exactly one of the two ways.
    pub(super) delivery: Delivery,
    /// In what form texts are shown.
    pub(super) markup: Markup,
    /// In what form completions are explained.
    pub(super) documentation: Markup,
    /// What the user has set; unlike all else here it may change.
    pub(super) settings: InForce,
    abilities: BTreeSet<Ability>,
}

/// Whether the client took part in choosing the encoding.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Negotiation {
    /// It offered encodings.
    Offered,
    /// It did not, so the protocol's default holds.
    Silent,
}

/// How diagnostics reach the client.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Delivery {
    /// The server sends them when they change.
    Push,
    /// The client asks for them.
    Pull,
}

/// The form of longer texts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Markup {
    /// Markdown.
    Markdown,
    /// Text that is shown as it is.
    Plain,
}

/// Something that not every client can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Ability {
    /// Shows further places of a diagnostic.
    RelatedInformation,
    /// Tells diagnostics of an older version from those of the current one.
    DiagnosticVersion,
    /// Shows where the rule behind a diagnostic is explained.
    CodeDescription,
    /// Takes code actions with edits inside, not only commands.
    CodeActionLiterals,
    /// Takes edits that name the version of the document which they are for.
    DocumentChanges,
    /// Tells about changes on disk if it is asked to.
    WatchedFiles,
    /// Asks for diagnostics again if it is told that they may have changed.
    DiagnosticRefresh,
    /// Asks for code lenses again if it is told so.
    LensRefresh,
    /// Asks for inlay hints again if it is told so.
    HintRefresh,
    /// Asks for semantic tokens again if it is told so.
    TokenRefresh,
    /// Asks what would get another name before it asks for the new one.
    RenamePreparation,
    /// Shows what a document is made of as a tree.
    SymbolTrees,
    /// Sets words apart by what they are.
    Tokens,
    /// Tells what the user has set if it is asked.
    Configuration,
    /// Tells about changed settings if it is asked to.
    ConfigurationNotice,
    /// Shows how far something has come that takes a while.
    Progress,
    /// Opens a browser, or goes to a place of a document, if it is asked to.
    ShowDocument,
    /// Takes changes that it has not asked for.
    ApplyEdit,
}

impl ClientProfile {
    /// Reads what a client announces. Whatever it does not mention it cannot do.
    pub(super) fn new(announced: &lsp::ClientCapabilities) -> Self {
        let offered = announced.general.as_ref().and_then(|it| it.position_encodings.as_deref());
        ClientProfile {
            encoding: preferred_encoding(offered.unwrap_or_default()),
            negotiation: offered.map_or(Negotiation::Silent, |_| Negotiation::Offered),
            delivery: delivery(announced),
            markup: hover_markup(announced).unwrap_or(Markup::Plain),
            documentation: documentation_markup(announced).unwrap_or(Markup::Plain),
            settings: InForce::default(),
            abilities: abilities(announced),
        }
    }

    /// The same with what its options say.
    #[must_use]
    pub(super) fn with_options(self, options: Option<&serde_json::Value>) -> Self {
        let encoding = self.counted(options);
        ClientProfile { encoding, ..self }
    }

    /// The same with settings that others may change.
    #[must_use]
    pub(super) fn with_settings(self, settings: InForce) -> Self {
        ClientProfile { settings, ..self }
    }

    /// The unit of columns, given that a client that has offered none may say in its options that
    /// it counts bytes: some do so against the protocol.
    fn counted(&self, options: Option<&serde_json::Value>) -> Encoding {
        let columns = options.and_then(|options| options.get("columns"));
        match (self.negotiation, columns.and_then(serde_json::Value::as_str)) {
            (Negotiation::Silent, Some("bytes")) => Encoding::Utf8,
            _ => self.encoding,
        }
    }

    /// Whether the client can do this.
    pub(super) fn can(&self, ability: Ability) -> bool {
        self.abilities.contains(&ability)
    }
}

fn preferred_encoding(offered: &[lsp::PositionEncodingKind]) -> Encoding {
    use lsp::PositionEncodingKind as Kind;
    let order = [
        (Kind::UTF8, Encoding::Utf8),
        (Kind::UTF16, Encoding::Utf16),
        (Kind::UTF32, Encoding::Utf32),
    ];
    let found = order.iter().find(|(kind, _)| offered.contains(kind));
    found.map_or(Encoding::Utf16, |&(_, encoding)| encoding)
}

fn delivery(announced: &lsp::ClientCapabilities) -> Delivery {
    let pulls = announced.text_document.as_ref().and_then(|it| it.diagnostic.as_ref());
    pulls.map_or(Delivery::Push, |_| Delivery::Pull)
}

fn hover_markup(announced: &lsp::ClientCapabilities) -> Option<Markup> {
    let formats = announced.text_document.as_ref()?.hover.as_ref()?.content_format.as_ref()?;
    formats.contains(&lsp::MarkupKind::Markdown).then_some(Markup::Markdown)
}

fn documentation_markup(announced: &lsp::ClientCapabilities) -> Option<Markup> {
    let item = announced.text_document.as_ref()?.completion.as_ref()?.completion_item.as_ref()?;
    let formats = item.documentation_format.as_ref()?;
    formats.contains(&lsp::MarkupKind::Markdown).then_some(Markup::Markdown)
}

fn abilities(announced: &lsp::ClientCapabilities) -> BTreeSet<Ability> {
    let document = announced.text_document.as_ref();
    let publish = document.and_then(|it| it.publish_diagnostics.as_ref());
    let action = document.and_then(|it| it.code_action.as_ref());
    let window = announced.window.as_ref();
    let workspace = announced.workspace.as_ref();
    let edit = workspace.and_then(|it| it.workspace_edit.as_ref());
    let watch = workspace.and_then(|it| it.did_change_watched_files.as_ref());
    let notice = workspace.and_then(|it| it.did_change_configuration.as_ref());
    let pull = workspace.and_then(|it| it.diagnostic.as_ref());
    let renaming = document.and_then(|it| it.rename.as_ref());
    let symbols = document.and_then(|it| it.document_symbol.as_ref());
    let lenses = workspace.and_then(|it| it.code_lens.as_ref());
    let hints = workspace.and_then(|it| it.inlay_hint.as_ref());
    let tokens = workspace.and_then(|it| it.semantic_tokens.as_ref());
    let told = [
        (Ability::RelatedInformation, publish.and_then(|it| it.related_information)),
        (Ability::CodeDescription, publish.and_then(|it| it.code_description_support)),
        (Ability::DiagnosticVersion, publish.and_then(|it| it.version_support)),
        (Ability::CodeActionLiterals, action.map(|it| it.code_action_literal_support.is_some())),
        (Ability::DocumentChanges, edit.and_then(|it| it.document_changes)),
        (Ability::WatchedFiles, watch.and_then(|it| it.dynamic_registration)),
        (Ability::Configuration, workspace.and_then(|it| it.configuration)),
        (Ability::ConfigurationNotice, notice.and_then(|it| it.dynamic_registration)),
        (Ability::Progress, window.and_then(|it| it.work_done_progress)),
        (
            Ability::ShowDocument,
            window.and_then(|it| it.show_document.as_ref()).map(|it| it.support),
        ),
        (Ability::ApplyEdit, workspace.and_then(|it| it.apply_edit)),
        (Ability::DiagnosticRefresh, pull.and_then(|it| it.refresh_support)),
        (Ability::LensRefresh, lenses.and_then(|it| it.refresh_support)),
        (Ability::HintRefresh, hints.and_then(|it| it.refresh_support)),
        (Ability::TokenRefresh, tokens.and_then(|it| it.refresh_support)),
        (Ability::RenamePreparation, renaming.and_then(|it| it.prepare_support)),
        (Ability::SymbolTrees, symbols.and_then(|it| it.hierarchical_document_symbol_support)),
        (Ability::Tokens, document.map(|it| it.semantic_tokens.is_some())),
    ];
    told.into_iter().filter(|&(_, told)| told == Some(true)).map(|(ability, _)| ability).collect()
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::{Ability, ClientProfile, Delivery, Encoding, Markup, Negotiation};

    fn profile(announced: Value) -> ClientProfile {
        ClientProfile::new(&serde_json::from_value(announced).unwrap())
    }

    #[test]
    fn a_client_that_announces_nothing_gets_the_defaults_of_the_protocol() {
        let profile = profile(json!({}));
        assert_eq!(profile.encoding, Encoding::Utf16);
        assert_eq!(profile.negotiation, Negotiation::Silent);
        assert_eq!(profile.delivery, Delivery::Push);
        assert_eq!(profile.markup, Markup::Plain);
        assert!(profile.abilities.is_empty());
    }

    #[test]
    fn bytes_are_preferred_and_code_units_are_the_fallback() {
        for (offered, encoding) in [
            (json!([]), Encoding::Utf16),
            (json!(["utf-16", "utf-8"]), Encoding::Utf8),
            (json!(["utf-32", "utf-16"]), Encoding::Utf16),
            (json!(["utf-32"]), Encoding::Utf32),
            (json!(["utf-7"]), Encoding::Utf16),
        ] {
            let announced = json!({"general": {"positionEncodings": offered}});
            assert_eq!(profile(announced.clone()).encoding, encoding, "{announced}");
        }
    }

    #[test]
    fn a_client_that_offers_no_unit_may_say_that_it_counts_bytes() {
        let encodings = json!({"general": {"positionEncodings": ["utf-16"]}});
        for (announced, columns, encoding) in [
            (json!({}), "bytes", Encoding::Utf8),
            (json!({}), "words", Encoding::Utf16),
            (encodings, "bytes", Encoding::Utf16),
        ] {
            let options = json!({"columns": columns});
            assert_eq!(profile(announced).with_options(Some(&options)).encoding, encoding);
        }
    }

    #[test]
    fn what_is_announced_is_used() {
        let profile = profile(json!({
            "workspace": {
                "workspaceEdit": {"documentChanges": true},
                "didChangeWatchedFiles": {"dynamicRegistration": true}
            },
            "textDocument": {
                "hover": {"contentFormat": ["plaintext", "markdown"]},
                "diagnostic": {},
                "codeAction": {
                    "codeActionLiteralSupport": {"codeActionKind": {"valueSet": ["quickfix"]}}
                },
                "publishDiagnostics": {
                    "relatedInformation": true,
                    "versionSupport": false,
                    "codeDescriptionSupport": true
                }
            }
        }));
        assert_eq!(profile.markup, Markup::Markdown);
        assert_eq!(profile.delivery, Delivery::Pull);
        assert!(profile.can(Ability::DocumentChanges));
        assert!(profile.can(Ability::WatchedFiles));
        assert!(profile.can(Ability::CodeActionLiterals));
        assert!(profile.can(Ability::RelatedInformation));
        assert!(profile.can(Ability::CodeDescription));
        assert!(!profile.can(Ability::DiagnosticVersion));
    }
}
