//! The words with which a line begins, and what a voice is for.

use bicinium_analysis::sheet::Placed;
use bicinium_grammar::BlockKind;
use bicinium_grammar::ast::{self, Role};
use bicinium_grammar::words::{OPENERS, REGISTERS, ROLES, SETTINGS, find};

use super::{Word, WordKind};

/// The words with which a line of a block may begin: its own first, then those of every block.
pub(super) fn beginnings(block: BlockKind) -> Vec<Word> {
    let own: Vec<_> = match block {
        BlockKind::Preamble => Vec::new(),
        BlockKind::Cantus => vec![notation("line")],
        BlockKind::Exercise => {
            let voices = REGISTERS.iter().map(|it| Word::of_notation(it, WordKind::Voice));
            voices.chain([notation("harmony"), notation("allow")]).collect()
        }
    };
    let others = SETTINGS.iter().chain(OPENERS).map(|word| notation(word));
    own.into_iter().chain(others).collect()
}

/// Whether a word names a voice.
pub(super) fn is_voice(word: &str) -> bool {
    find(word, REGISTERS).is_some()
}

/// What a voice may be for; that which no voice of the exercise is yet comes first.
pub(super) fn roles(block: &Placed) -> Vec<Word> {
    let rows = block.judged.tree.ast().systems().into_iter().flatten();
    let taken: Vec<_> = rows.filter_map(|row| role(&row)).collect();
    let mut roles = ROLES.to_vec();
    roles.sort_by_key(|role| taken.contains(role));
    roles.into_iter().map(notation).collect()
}

fn role(row: &ast::Row) -> Option<&'static str> {
    let ast::Row::Voice(row) = row else { return None };
    Some(match row.role()? {
        Role::Cantus => "cantus",
        Role::Counter => "counter",
    })
}

fn notation(word: &str) -> Word {
    Word::of_notation(word, WordKind::Notation)
}
