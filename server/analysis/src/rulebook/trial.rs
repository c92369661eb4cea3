//! Answers of a rulebook tried one at a time: each is put into a complete rulebook that is known to
//! be good, so that whatever is refused is refused for this answer. Knows no words.

use std::sync::LazyLock;

use serde::Deserialize;
use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue, Error, ValueDeserializer};

use super::built_in::{MODAL, TONAL};

/// The name of something in a rulebook, with its place.
pub(super) type Key<'t> = Spanned<DeString<'t>>;
/// What stands under a name, with its place.
pub(super) type Said<'t> = Spanned<DeValue<'t>>;
/// Says why a table of answers is refused, if it is.
pub(crate) type Refuse = fn(ValueDeserializer<'_>) -> Option<Error>;

/// Says why a table cannot be read as such a thing, if it cannot.
pub(crate) fn refuse<T: for<'t> Deserialize<'t>>(table: ValueDeserializer<'_>) -> Option<Error> {
    T::deserialize(table).err()
}

/// Answers all questions about rules and figures.
static BASE: LazyLock<DeTable<'static>> = LazyLock::new(|| read(MODAL));
/// Answers all questions about harmony.
static HARMONY: LazyLock<DeTable<'static>> = LazyLock::new(|| read(TONAL));

fn read(text: &'static str) -> DeTable<'static> {
    DeTable::parse_recoverable(text).0.into_inner()
}

/// One answer: its name, those of the tables around it first, and what it is.
pub(super) struct Answer<'v, 't> {
    pub(super) path: Vec<&'v Key<'t>>,
    pub(super) said: &'v Said<'t>,
}

/// All answers in a table.
pub(super) fn answers<'v, 't>(table: &'v DeTable<'t>) -> Vec<Answer<'v, 't>> {
    let mut answers = Vec::new();
    for (key, said) in table {
        match said.get_ref().as_table() {
            Some(table) => answers.extend(
                self::answers(table)
                    .into_iter()
                    .map(|below| Answer { path: [vec![key], below.path].concat(), ..below }),
            ),
            None => answers.push(Answer { path: vec![key], said }),
        }
    }
    answers
}

/// All answers about a rule, beside which another can be tried.
pub(super) fn complete_rule(name: &str) -> DeTable<'static> {
    let mut rule = inner(&BASE, &["rules", name]);
    rule.remove("level");
    rule
}

/// All answers about figures or harmony, beside which another can be tried.
pub(super) fn complete_section(name: &str) -> DeTable<'static> {
    let table = if name == "harmony" { &HARMONY } else { &BASE };
    inner(table, &[name])
}

fn inner(table: &DeTable<'static>, path: &[&str]) -> DeTable<'static> {
    let inner = path.iter().try_fold(table, |table, key| table.get(*key)?.get_ref().as_table());
    inner.cloned().unwrap_or_default()
}

impl<'t> Answer<'_, 't> {
    /// Its name, those of the tables around it before it.
    pub(super) fn name(&self) -> String {
        let keys: Vec<&str> = self.path.iter().map(|key| key.get_ref().as_ref()).collect();
        keys.join(".")
    }

    /// Why it is refused among these others, if it is.
    pub(super) fn refused(&self, mut others: DeTable<'t>, refuse: Refuse) -> Option<Error> {
        put(&mut others, &self.path, self.said);
        refuse(ValueDeserializer::from(Spanned::new(self.said.span(), DeValue::Table(others))))
    }
}

fn put<'t>(table: &mut DeTable<'t>, path: &[&Key<'t>], said: &Said<'t>) {
    let Some((key, rest)) = path.split_first() else { return };
    let name: &str = key.get_ref();
    let said = match table.get_mut(name).map(Spanned::get_mut) {
        Some(DeValue::Table(below)) if !rest.is_empty() => return put(below, rest, said),
        _ if rest.is_empty() => said.clone(),
        _ => {
            let mut below = DeTable::new();
            put(&mut below, rest, said);
            Spanned::new(key.span(), DeValue::Table(below))
        }
    };
    // A name that stays keeps its place, and this one has another.
    table.remove(name);
    table.insert((*key).clone(), said);
}
