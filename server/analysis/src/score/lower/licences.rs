//! Licences as the text gives them.

use bicinium_grammar::ast;

use crate::score::{Licence, Span};

/// The licence of a line; `None` if it names no rule, or a place that cannot be read.
pub(super) fn licence(line: &ast::Licence) -> Option<Licence> {
    if line.has_unreadable_place() {
        return None;
    }
    let span = match (line.from(), line.to()) {
        (None, _) => Span::Everywhere,
        (Some(from), Some(to)) => Span::Bars { from: from.bar, to: to.max(from.bar) },
        (Some(ast::Place { bar, beat: Some(beat), .. }), None) => Span::Beat { bar, beat },
        (Some(ast::Place { bar, beat: None, .. }), None) => Span::Bars { from: bar, to: bar },
    };
    Some(Licence {
        rule: line.rule()?,
        rule_range: line.rule_range()?,
        span,
        reason: line.reason(),
        range: line.range(),
    })
}
