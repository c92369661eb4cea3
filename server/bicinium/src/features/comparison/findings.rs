//! Which findings are gone and which are new. Two are the same if they are of one rule, in one bar and
//! voice. Must not know why.

use std::collections::BTreeMap;

use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Finding, Level};

/// What tells findings apart: bar, voice, rule, and whether a licence accepts it.
type Key = (Option<u32>, Option<&'static str>, &'static str, bool);

/// What is gone and what is new, each with its bar if it has one.
pub(super) fn changes(old: &Placed, new: &Placed) -> Vec<(Option<u32>, String)> {
    let (before, after) = (by_key(old), by_key(new));
    let fewer = |(key, found): (&Key, &Vec<&Finding>)| {
        let left = after.get(key).map_or(0, Vec::len);
        (found.len() > left).then(|| (key.0, gone(found[0])))
    };
    let more = |(key, found): (&Key, &Vec<&Finding>)| {
        let known = before.get(key).map_or(0, Vec::len);
        (found.len() > known).then(|| (key.0, came(found[0])))
    };
    let gone = before.iter().filter_map(fewer);
    gone.chain(after.iter().filter_map(more)).collect()
}

fn by_key(block: &Placed) -> BTreeMap<Key, Vec<&Finding>> {
    let mut findings: BTreeMap<Key, Vec<&Finding>> = BTreeMap::new();
    for finding in block.judged.findings.iter().filter(|it| it.level != Level::Unfinished) {
        let bar = finding.place.map(|place| place.bar);
        let voice = finding.voice.map(bicinium_analysis::score::VoiceId::name);
        findings.entry((bar, voice, finding.rule, finding.stands())).or_default().push(finding);
    }
    findings
}

fn gone(finding: &Finding) -> String {
    format!("gone: {}", name(finding))
}

fn came(finding: &Finding) -> String {
    if finding.stands() {
        format!("new {}: {}. {}", finding.level.name(), name(finding), finding.message)
    } else {
        format!("newly accepted: {}", name(finding))
    }
}

/// The rule in words.
fn name(finding: &Finding) -> String {
    finding.rule.replace('-', " ")
}
