//! Where the page of a rule is found: an address for the links of diagnostics, and the text behind
//! the addresses that the server answers for itself.
//!
//! It must not know what a page says.

use bicinium_analysis::rules::{self, Entry};
use serde_json::Value;
use tower_lsp::lsp_types::Url;

use crate::features::{page, section};

/// The scheme of the addresses whose text the server gives.
pub(super) const SCHEME: &str = "bicinium";

/// The name of the option that says where the pages are.
const OPTION: &str = "rulePages";

/// Where the pages of the rules are.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) enum RulePages {
    /// With the server, which is asked for their text.
    #[default]
    Served,
    /// Below an address, one HTML file for each rule.
    Below(Url),
}

impl RulePages {
    /// Reads the options of a client; what does not name a place on the web or on disk is passed
    /// over.
    pub(super) fn new(options: Option<&Value>) -> Self {
        let base = options.and_then(|options| options.get(OPTION)).and_then(Value::as_str);
        base.and_then(folder).map_or(Self::Served, Self::Below)
    }

    /// The address of the page of a rule; `None` for findings that have no page.
    pub(super) fn address(&self, rule: &str) -> Option<Url> {
        let name = rules::named(rule)?.name;
        match self {
            Self::Served => Url::parse(&format!("{SCHEME}:/rules/{name}")).ok(),
            Self::Below(base) => base.join(&format!("{name}.html")).ok(),
        }
    }
}

/// The text behind an address that the server answers for; `None` if there is none.
pub(super) fn text(address: &Url) -> Option<String> {
    let body = page::whole(named_by(address)?);
    Some(format!("{}\n", section::markdown(&body)))
}

fn named_by(address: &Url) -> Option<&'static Entry> {
    let name = address.path().strip_prefix("/rules/")?;
    (address.scheme() == SCHEME).then(|| rules::named(name)).flatten()
}

/// The address as that of a folder.
fn folder(base: &str) -> Option<Url> {
    let base = Url::parse(&format!("{}/", base.trim_end_matches('/'))).ok()?;
    matches!(base.scheme(), "https" | "file").then_some(base)
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};
    use tower_lsp::lsp_types::Url;

    use super::{RulePages, text};

    fn address(options: &Value) -> String {
        let pages = RulePages::new(Some(options));
        pages.address("crossing").unwrap().to_string()
    }

    #[test]
    fn the_server_answers_for_pages_that_nobody_else_has() {
        for options in [
            Value::Null,
            json!({}),
            json!({"rulePages": 3}),
            json!({"rulePages": "pages"}),
            json!({"rulePages": "javascript:alert(1)"}),
        ] {
            assert_eq!(address(&options), "bicinium:/rules/crossing", "{options}");
        }
    }

    #[test]
    fn a_folder_has_a_file_for_each_rule() {
        for (base, page) in [
            ("https://school.example/rules", "https://school.example/rules/crossing.html"),
            ("https://school.example/rules/", "https://school.example/rules/crossing.html"),
            ("https://school.example", "https://school.example/crossing.html"),
            ("file:///home/teacher/pages", "file:///home/teacher/pages/crossing.html"),
        ] {
            assert_eq!(address(&json!({"rulePages": base})), page);
        }
    }

    #[test]
    fn what_is_no_rule_has_no_page() {
        assert_eq!(RulePages::Served.address("letter-case"), None);
        for address in ["bicinium:/rules/letter-case", "bicinium:/crossing", "file:/rules/crossing"]
        {
            assert_eq!(text(&Url::parse(address).unwrap()), None, "{address}");
        }
    }
}
