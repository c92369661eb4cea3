//! Licences at work: each finding that a licence covers is marked as accepted, and each licence
//! that accepts nothing becomes a finding itself. Knows findings and licences, not rules.

use crate::finding::{Acceptance, Finding, Level, Mend};
use crate::rules;
use crate::score::Licence;

/// The name under which a licence that accepts nothing is reported.
pub const UNUSED_LICENCE: &str = "unused-licence";
/// The name under which a licence for a rule that does not exist is reported.
pub const UNKNOWN_RULE: &str = "unknown-rule";

/// Marks what the licences accept, and adds findings about licences that accept nothing.
pub(super) fn apply(licences: &[Licence], findings: &mut Vec<Finding>) {
    let idle: Vec<_> = licences.iter().filter(|licence| !accept(licence, findings)).collect();
    findings.extend(idle.into_iter().map(about_idle));
}

/// Accepts what a licence covers; whether there was anything.
fn accept(licence: &Licence, findings: &mut [Finding]) -> bool {
    let mut is_used = false;
    for finding in findings.iter_mut().filter(|finding| is_covered(licence, finding)) {
        is_used = true;
        finding.accepted.get_or_insert_with(|| Acceptance {
            reason: licence.reason.clone(),
            range: licence.range,
        });
    }
    is_used
}

fn is_covered(licence: &Licence, finding: &Finding) -> bool {
    let place = finding.place.map(|place| (place.bar, place.beat));
    let can_be_accepted = matches!(finding.level, Level::Fault | Level::Caution | Level::Advice);
    can_be_accepted && licence.accepts(finding.rule, place)
}

fn about_idle(licence: &Licence) -> Finding {
    if rules::named(&licence.rule).is_none() {
        return about_unknown(licence);
    }
    let message = format!(
        "Nothing here needs this licence: no finding of `{}` lies in the stretch it names. \
         Remove it, or correct the bar.",
        licence.rule
    );
    let mut finding = Finding::about_text(UNUSED_LICENCE, Level::Notation, licence.range, message);
    finding.mends.push(Mend {
        title: "Remove the unused licence".to_owned(),
        range: licence.range,
        text: String::new(),
    });
    finding
}

fn about_unknown(licence: &Licence) -> Finding {
    let nearest = rules::nearest(&licence.rule).map(|entry| entry.name);
    let hint = nearest.map_or_else(String::new, |name| format!(" Perhaps `{name}` is meant."));
    let message = format!("There is no rule `{}`.{hint}", licence.rule);
    let mut finding =
        Finding::about_text(UNKNOWN_RULE, Level::Notation, licence.rule_range, message);
    finding.mends.extend(nearest.map(|name| Mend {
        title: format!("Write `{name}`"),
        range: licence.rule_range,
        text: name.to_owned(),
    }));
    finding
}
