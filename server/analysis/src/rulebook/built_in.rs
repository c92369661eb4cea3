//! The rulebooks that are built in: files of the same form that a school writes for itself. Knows
//! no others.

use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use super::{Draft, Rulebook};

/// Strict modal counterpoint; answers all questions about rules.
pub(super) const MODAL: &str = include_str!("modal.rulebook.toml");
/// Conservatoire counterpoint; answers all questions about figures and harmony.
pub(super) const TONAL: &str = include_str!("tonal.rulebook.toml");

/// The rulebooks by name, each after the one that it extends.
const TEXTS: [(&str, &str); 2] = [("modal", MODAL), ("tonal", TONAL)];
/// The name of the rulebook that holds where a sheet names none.
const DEFAULT: &str = "tonal";

static BUILT: LazyLock<BTreeMap<String, Arc<Rulebook>>> = LazyLock::new(build);

/// The built-in rulebooks by name.
pub(super) fn all() -> &'static BTreeMap<String, Arc<Rulebook>> {
    &BUILT
}

/// The rulebook that holds where a sheet names none.
pub(super) fn default() -> &'static Arc<Rulebook> {
    &BUILT[DEFAULT]
}

/// Whether a name means a built-in rulebook.
pub(super) fn is(name: &str) -> bool {
    TEXTS.iter().any(|text| text.0 == name)
}

fn build() -> BTreeMap<String, Arc<Rulebook>> {
    let mut built = BTreeMap::new();
    for (name, text) in TEXTS {
        let draft = Draft::read(text);
        let base = draft.extends().and_then(|base| built.get(base)).cloned();
        match Rulebook::built_in(&draft, base) {
            Ok(rulebook) => built.insert(name.to_owned(), Arc::new(rulebook)),
            Err(problems) => unreachable!("built-in rulebook {name}: {problems:#?}"),
        };
    }
    built
}
