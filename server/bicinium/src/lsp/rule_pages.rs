//! Where the page of a rule is found: an address for the links of diagnostics, and the text behind
//! the addresses that the server answers for itself.
//!
//! It must not know what a page says.

use bicinium_analysis::rules::{self, Entry};
use tower_lsp::lsp_types::Url;

use crate::features::{page, section};

/// The scheme of the addresses whose text the server gives.
pub(super) const SCHEME: &str = "bicinium";

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
    /// The pages below an address, or the server's own if it is empty; `None` if it names no place
    /// on the web or on disk.
    pub(super) fn at(address: &str) -> Option<Self> {
        if address.trim().is_empty() {
            return Some(Self::Served);
        }
        folder(address).map(Self::Below)
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
    use tower_lsp::lsp_types::Url;

    use super::{RulePages, text};

    fn address(base: &str) -> Option<String> {
        let pages = RulePages::at(base)?;
        pages.address("crossing").map(|page| page.to_string())
    }

    #[test]
    fn the_server_answers_for_pages_that_nobody_else_has() {
        assert_eq!(address("").as_deref(), Some("bicinium:/rules/crossing"));
        for base in ["pages", "javascript:alert(1)", "http://school.example"] {
            assert_eq!(address(base), None, "{base}");
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
            assert_eq!(address(base).as_deref(), Some(page));
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
