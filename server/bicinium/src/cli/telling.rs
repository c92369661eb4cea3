//! Findings for people: each with its reason and the lines it is written in. It must not know how
//! they were found.

use anstyle::Style;
use bicinium_analysis::{Acceptance, Finding, Located, Related};

use super::lines::Lines;
use super::picture::{Mark, picture};
use super::style::{self, FAINT, OTHER, painted};
use super::words::{shown, wrapped};

/// One finding: what it is, where, why, and the lines it is written in.
pub(super) fn told(name: &str, lines: &Lines<'_>, located: Located<'_>) -> String {
    let place = lines.position(located.range().start);
    let (line, column) = (place.line + 1, place.characters + 1);
    let music = in_music(located).into_iter().map(|part| format!(", {part}"));
    let place = shown(&format!("{name}:{line}:{column}{}", music.collect::<String>()));
    let finding = located.finding;
    format!(
        "{}\n  {}\n\n{}\n\n{}",
        heading(finding),
        painted(FAINT, &place),
        reason(finding),
        picture(lines, &marks(located))
    )
}

/// Its level and its rule.
pub(super) fn heading(finding: &Finding) -> String {
    let level = finding.level.name();
    if finding.accepted.is_some() {
        return painted(FAINT, &format!("accepted {level}: {}", finding.rule));
    }
    let painted = painted(style::level(finding.level), level);
    if finding.rule == level { painted } else { format!("{painted}: {}", finding.rule) }
}

/// The place in words: exercise, bar, beat and voice, as far as they are known.
fn in_music(located: Located<'_>) -> Vec<String> {
    let mut parts = Vec::new();
    parts.extend(located.block.number.map(|number| format!("exercise {number}")));
    if let Some(place) = located.finding.place {
        parts.push(format!("bar {}", place.bar));
        let after = if place.behind > 0.0 { "after " } else { "" };
        parts.push(format!("{after}beat {}", place.beat));
    }
    parts.extend(located.finding.voice.map(|voice| format!("{} voice", voice.name())));
    parts
}

/// What is wrong, and why it is accepted if it is.
pub(super) fn reason(finding: &Finding) -> String {
    let message = wrapped(&shown(&finding.message), "  ");
    let Some(acceptance) = &finding.accepted else { return message };
    let accepted = match &acceptance.reason {
        Some(reason) => format!("Accepted because {}.", shown(reason.trim_end_matches('.'))),
        None => "Accepted without a reason.".to_owned(),
    };
    let all = format!("{message}\n{}", wrapped(&accepted, "  "));
    all.lines().map(|line| painted(FAINT, line)).collect::<Vec<_>>().join("\n")
}

/// What is marked in the text.
pub(super) fn marks(located: Located<'_>) -> Vec<Mark> {
    let finding = located.finding;
    let style = if finding.stands() { style::level(finding.level) } else { FAINT };
    let licence = finding.accepted.as_ref().map(licence);
    let others = finding.related.iter().chain(&licence).map(|related| other(located, related));
    std::iter::once(Mark::here(located.range(), style)).chain(others).collect()
}

fn licence(acceptance: &Acceptance) -> Related {
    Related { range: acceptance.range, message: "accepted here".to_owned() }
}

fn other(located: Located<'_>, related: &Related) -> Mark {
    let style: Style = if located.finding.stands() { OTHER } else { FAINT };
    let range = located.block.in_sheet(related.range);
    Mark::there(range, style, &related.message)
}
