//! What the user has set for the server: read from whatever the client sends, one value after the
//! other. A bad value is told in words, and what held before goes on to hold.
//!
//! It must not know how settings reach the server.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::{Arc, PoisonError, RwLock};

use serde_json::{Map, Value};

use super::rule_pages::RulePages;
use crate::features::hints::HintKind;

/// The name under which editors keep the settings.
pub(super) const SECTION: &str = "bicinium";

/// All settings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Settings {
    /// The rulebook of sheets that name none: a name or a path; `None` for the built-in default.
    pub(super) rulebook: Option<String>,
    /// The hints that are shown.
    pub(super) hints: BTreeSet<HintKind>,
    /// Where the links of diagnostics lead.
    pub(super) rule_pages: RulePages,
    /// Folders outside the workspace from which sheets may use others.
    pub(super) may_use: Vec<PathBuf>,
}

/// What takes a setting over.
type Read = fn(&mut Reading, &Value);

/// The names of the settings, and what reads each.
const SETTINGS: [(&str, Read); 4] = [
    ("rulebook", Reading::read_rulebook),
    ("hints", Reading::read_hints),
    ("rulePages", Reading::read_rule_pages),
    ("mayUse", Reading::read_may_use),
];

/// The names of the kinds of hints.
const HINTS: [(&str, HintKind); 3] = [
    ("intervals", HintKind::Intervals),
    ("harmonies", HintKind::Harmonies),
    ("suspensions", HintKind::Suspensions),
];

impl Default for Settings {
    fn default() -> Self {
        let hints = HINTS.into_iter().map(|(_, hint)| hint).collect();
        Settings { rulebook: None, hints, rule_pages: RulePages::default(), may_use: Vec::new() }
    }
}

impl Settings {
    /// The settings with what a client says, and what is wrong with it. What is not said stays, what
    /// is null goes back to its default. Names that mean nothing here are left alone: clients send
    /// settings of their own along.
    pub(super) fn with(&self, said: &Value) -> (Self, Vec<String>) {
        let mut reader = Reading { settings: self.clone(), complaints: Vec::new() };
        match said.get(SECTION).unwrap_or(said) {
            Value::Object(said) => reader.read(said),
            Value::Null => {}
            Value::Array(said) if said.is_empty() => {}
            other => reader.complain(&format!("The settings cannot be read: {other}.")),
        }
        (reader.settings, reader.complaints)
    }
}

struct Reading {
    settings: Settings,
    complaints: Vec<String>,
}

impl Reading {
    fn read(&mut self, said: &Map<String, Value>) {
        for (name, value) in said {
            if let Some((_, read)) = SETTINGS.iter().find(|(known, _)| known == name) {
                read(self, value);
            }
        }
    }

    fn read_rulebook(&mut self, value: &Value) {
        match value {
            Value::Null => self.settings.rulebook = None,
            Value::String(name) if name.trim().is_empty() => self.settings.rulebook = None,
            Value::String(name) => self.settings.rulebook = Some(name.trim().to_owned()),
            other => self.complain(&format!(
                "The setting `rulebook` is to be the name of a rulebook, such as \"modal\", not {other}."
            )),
        }
    }

    fn read_hints(&mut self, value: &Value) {
        match value {
            Value::Null => self.settings.hints = Settings::default().hints,
            Value::Bool(is_on) => {
                for (_, hint) in HINTS {
                    self.switch(hint, *is_on);
                }
            }
            Value::Object(said) => {
                for (name, value) in said {
                    self.read_hint(name, value);
                }
            }
            other => self.complain(&format!(
                "The setting `hints` is to be true, false or an answer for each kind, not {other}."
            )),
        }
    }

    fn read_hint(&mut self, name: &str, value: &Value) {
        let known = HINTS.into_iter().find(|(known, _)| *known == name);
        match (known, value) {
            (Some((_, hint)), Value::Bool(is_on)) => self.switch(hint, *is_on),
            (Some((_, hint)), Value::Null) => self.switch(hint, true),
            (Some(_), other) => self.complain(&format!(
                "The setting `hints.{name}` is to be true or false, not {other}."
            )),
            (None, _) => {
                let names = HINTS.map(|(name, _)| name).join(", ");
                self.complain(&format!("There are no hints called `{name}`. There are {names}."));
            }
        }
    }

    fn read_rule_pages(&mut self, value: &Value) {
        let pages = match value {
            Value::Null => Some(RulePages::default()),
            Value::String(address) => RulePages::at(address),
            _ => None,
        };
        match pages {
            Some(pages) => self.settings.rule_pages = pages,
            None => self.complain(&format!(
                "The setting `rulePages` is to be an address that begins with https: or file:, not {value}."
            )),
        }
    }

    fn read_may_use(&mut self, value: &Value) {
        let folder = |folder: &Value| {
            folder.as_str().map(PathBuf::from).filter(|folder| folder.is_absolute())
        };
        let folders = match value {
            Value::Null => Some(Vec::new()),
            Value::Array(folders) => folders.iter().map(folder).collect(),
            _ => None,
        };
        match folders {
            Some(folders) => self.settings.may_use = folders,
            None => self.complain(&format!(
                "The setting `mayUse` is to be a list of folders, each with its whole path, not {value}."
            )),
        }
    }

    fn switch(&mut self, hint: HintKind, is_on: bool) {
        if is_on {
            self.settings.hints.insert(hint);
        } else {
            self.settings.hints.remove(&hint);
        }
    }

    fn complain(&mut self, what: &str) {
        self.complaints.push(format!("{what} What was set before still holds."));
    }
}

/// The settings in force. Copies are the same.
#[derive(Debug, Clone, Default)]
pub(super) struct InForce {
    settings: Arc<RwLock<Arc<Settings>>>,
}

impl InForce {
    /// The settings as they are now.
    pub(super) fn now(&self) -> Arc<Settings> {
        self.settings.read().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Puts others in force; whether they differ from those before.
    pub(super) fn put(&self, settings: Settings) -> bool {
        let mut held = self.settings.write().unwrap_or_else(PoisonError::into_inner);
        let is_new = **held != settings;
        *held = Arc::new(settings);
        is_new
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::{HINTS, HintKind, SETTINGS, Settings};

    fn read(said: &Value) -> (Settings, Vec<String>) {
        Settings::default().with(said)
    }

    #[test]
    fn the_package_for_vs_code_has_every_setting_and_no_other() {
        let package = include_str!("../../../../editors/vscode/package.json");
        let package: Value = serde_json::from_str(package).unwrap();
        let offered = package["contributes"]["configuration"]["properties"].as_object().unwrap();
        let mut offered: Vec<_> = offered.keys().map(String::as_str).collect();
        // These two are for the editor alone.
        offered.retain(|name| !["bicinium.server.path", "bicinium.trace.server"].contains(name));
        let plain = SETTINGS.iter().filter(|(name, _)| *name != "hints").map(|(name, _)| name);
        let mut known: Vec<_> = plain.map(|name| format!("bicinium.{name}")).collect();
        known.extend(HINTS.map(|(name, _)| format!("bicinium.hints.{name}")));
        offered.sort_unstable();
        known.sort_unstable();
        assert_eq!(offered, known);
        let client = include_str!("../../../../editors/vscode/src/client.ts");
        let sent = client.split("const { ").find(|it| it.contains("getConfiguration")).unwrap();
        for (name, _) in SETTINGS {
            assert!(
                sent.split('}').next().unwrap().split(", ").any(|it| it.trim() == name),
                "{name}"
            );
        }
    }

    #[test]
    fn good_values_are_taken_by_themselves_or_below_the_name_of_the_program() {
        for said in [json!({"rulebook": "modal"}), json!({"bicinium": {"rulebook": " modal "}})] {
            let (settings, complaints) = read(&said);
            assert_eq!(settings.rulebook.as_deref(), Some("modal"));
            assert_eq!(complaints, Vec::<String>::new());
        }
    }

    #[test]
    fn nothing_is_said_by_nothing() {
        for said in [json!(null), json!([]), json!({}), json!({"trace": 7, "columns": "bytes"})] {
            assert_eq!(read(&said), (Settings::default(), Vec::new()));
        }
    }

    #[test]
    fn hints_are_switched_all_together_or_kind_by_kind() {
        assert!(read(&json!({"hints": false})).0.hints.is_empty());
        let (settings, _) = read(&json!({"hints": {"harmonies": false}}));
        assert!(!settings.hints.contains(&HintKind::Harmonies));
        assert!(settings.hints.contains(&HintKind::Intervals));
        let (again, _) = settings.with(&json!({"hints": null}));
        assert_eq!(again, Settings::default());
    }

    #[test]
    fn a_bad_value_is_told_and_the_old_one_kept() {
        let (old, _) = read(&json!({"rulebook": "modal", "hints": {"intervals": false}}));
        for (said, name) in [
            (json!({"rulebook": 3}), "`rulebook`"),
            (json!({"hints": "some"}), "`hints`"),
            (json!({"hints": {"intervals": "no"}}), "`hints.intervals`"),
            (json!({"hints": {"chords": true}}), "`chords`"),
            (json!({"rulePages": "javascript:alert(1)"}), "`rulePages`"),
            (json!({"mayUse": "/songs"}), "`mayUse`"),
            (json!({"mayUse": ["songs"]}), "`mayUse`"),
            (json!("modal"), "modal"),
        ] {
            let (new, complaints) = old.with(&said);
            assert_eq!(new, old, "{said}");
            assert!(complaints.len() == 1 && complaints[0].contains(name), "{complaints:?}");
        }
    }
}
