//! One rulebook laid over another. What it says holds, what it leaves out stays; and what it says
//! for all writing holds also in the species for which the other one says something else, for it is
//! nearer. Knows the form of rulebooks, not what they decide.

use toml::{Table, Value};

/// The words by which something is switched off.
const OFF: [&str; 4] = ["off", "none", "no", "never"];

/// Lays what a rulebook decides over what another one does.
pub(super) fn over(under: &Table, own: &Table) -> Table {
    let mut whole = under.clone();
    if let Some(Value::Table(species)) = whole.get_mut("species") {
        let said = species.iter_mut().filter_map(|(_, said)| said.as_table_mut());
        said.for_each(|said| give_way(said, own));
    }
    lay(&mut whole, own.clone());
    whole
}

/// What a rulebook decides for one species, by its key.
pub(super) fn for_species(whole: &Table, key: &str) -> Table {
    let mut table = whole.clone();
    let species = table.remove("species");
    if let Some(Value::Table(own)) = species.and_then(|mut all| all.as_table_mut()?.remove(key)) {
        lay(&mut table, own);
    }
    table
}

fn lay(under: &mut Table, over: Table) {
    for (key, value) in over {
        match (under.get_mut(&key), value) {
            (Some(Value::Table(under)), Value::Table(over)) => lay(under, over),
            (_, value) => {
                under.insert(key, value);
            }
        }
    }
}

/// Takes out of what is said for a species whatever is now said for all. What is switched off for a
/// species stays so: a rule has nothing to judge there, or a figure has no place.
fn give_way(said: &mut Table, to: &Table) {
    said.retain(|key, said| match (said, to.get(key)) {
        (_, None) => true,
        (Value::Table(said), Some(Value::Table(to))) => {
            give_way(said, to);
            !said.is_empty()
        }
        (said, Some(_)) => said.as_str().is_some_and(|said| OFF.contains(&said)),
    });
}
