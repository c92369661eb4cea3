//! Reads a rubric word by word, and tells everything that is wrong in it at its place. Must not know
//! what is done with a rubric.

use std::collections::BTreeMap;
use std::ops::Range;

use bicinium_analysis::words::{nearest, quoted};
use bicinium_analysis::{Level, rules};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::{Problem, Rate, Rubric};
use crate::mark::Aspect;
use crate::merits::MeritKind;
use crate::points::Points;

type Said<'t> = Spanned<DeValue<'t>>;

/// The headings of a rubric.
const PARTS: [&str; 8] =
    ["title", "exercise", "levels", "rules", "as-set", "unfinished", "licences", "bonus"];
/// The levels for which something can be taken off.
const LEVELS: [Level; 4] = [Level::Notation, Level::Fault, Level::Caution, Level::Advice];
/// What an exercise is worth where nobody says so.
const USUAL: Points = Points::whole(10);

/// The rubric of a text, or all that is wrong in it.
pub(super) fn rubric(text: &str) -> Result<Rubric, Vec<Problem>> {
    let (said, errors) = DeTable::parse_recoverable(text);
    let mut reader = Reader { problems: errors.iter().map(unreadable).collect() };
    let rubric = reader.rubric(said.get_ref());
    let mut problems = reader.problems;
    problems.sort_by_key(|problem| (problem.range.start, problem.range.end));
    problems.dedup_by_key(|problem| problem.range.start);
    if problems.is_empty() { Ok(rubric) } else { Err(problems) }
}

fn unreadable(error: &toml::de::Error) -> Problem {
    let message = "This cannot be read. A rubric has headings such as `[levels.fault]`, and below \
                   them answers such as `off = 1`.";
    Problem { message: message.to_owned(), range: error.span().unwrap_or_default() }
}

struct Reader {
    problems: Vec<Problem>,
}

impl Reader {
    fn rubric(&mut self, said: &DeTable<'_>) -> Rubric {
        let mut rubric = Rubric {
            title: String::new(),
            exercise: USUAL,
            levels: BTreeMap::new(),
            rules: BTreeMap::new(),
            as_set: BTreeMap::new(),
            unfinished: Rate::default(),
            licences: Rate::default(),
            bonus: BTreeMap::new(),
        };
        for (key, said) in said {
            match &**key.get_ref() {
                "title" => rubric.title = self.title(said),
                "exercise" => rubric.exercise = self.points_of("[exercise]", said).unwrap_or(USUAL),
                "levels" => rubric.levels = self.rates("[levels.fault]", said, &level),
                "rules" => rubric.rules = self.rates("[rules.span]", said, &rule),
                "as-set" => rubric.as_set = self.rates("[as-set.cantus]", said, &aspect),
                "unfinished" => rubric.unfinished = self.rate("[unfinished]", said),
                "licences" => rubric.licences = self.rate("[licences]", said),
                "bonus" => rubric.bonus = self.bonus(said),
                name => self.unknown(key.span(), name, &PARTS),
            }
        }
        rubric
    }

    fn title(&mut self, said: &Said<'_>) -> String {
        let title = said.get_ref().as_str().map(str::trim).filter(|title| !title.is_empty());
        if title.is_none() {
            self.tell(said.span(), "Write a name in quotation marks: `title = \"…\"`.");
        }
        title.unwrap_or_default().to_owned()
    }

    /// What is taken off for each thing below a heading.
    fn rates<K: Ord>(
        &mut self,
        example: &str,
        said: &Said<'_>,
        name: &Name<K>,
    ) -> BTreeMap<K, Rate> {
        let mut rates = BTreeMap::new();
        for (key, said) in self.below(example, said) {
            match name(key.get_ref()) {
                Ok(thing) => {
                    rates.insert(thing, self.rate(example, said));
                }
                Err(message) => self.tell(key.span(), message),
            }
        }
        rates
    }

    fn rate(&mut self, example: &str, said: &Said<'_>) -> Rate {
        let mut rate = Rate::default();
        for (key, said) in self.below(example, said) {
            match &**key.get_ref() {
                "off" => rate.off = self.points(said).unwrap_or_default(),
                "at-most" => rate.at_most = self.points(said),
                name => self.unknown(key.span(), name, &["off", "at-most"]),
            }
        }
        rate
    }

    fn bonus(&mut self, said: &Said<'_>) -> BTreeMap<MeritKind, Points> {
        let mut bonus = BTreeMap::new();
        for (key, said) in self.below("[bonus.no-fault]", said) {
            let name = &**key.get_ref();
            let names = MeritKind::ALL.map(MeritKind::name);
            match MeritKind::ALL.into_iter().find(|kind| kind.name() == name) {
                Some(kind) => {
                    bonus.extend(self.points_of("[bonus.no-fault]", said).map(|it| (kind, it)));
                }
                None => self.unknown(key.span(), name, &names),
            }
        }
        bonus
    }

    fn points_of(&mut self, example: &str, said: &Said<'_>) -> Option<Points> {
        let mut points = None;
        for (key, said) in self.below(example, said) {
            match &**key.get_ref() {
                "points" => points = self.points(said),
                name => self.unknown(key.span(), name, &["points"]),
            }
        }
        points
    }

    fn points(&mut self, said: &Said<'_>) -> Option<Points> {
        let read = match said.get_ref() {
            DeValue::Integer(number) => Points::read(number.as_str()),
            DeValue::Float(number) => Points::read(number.as_str()),
            _ => None,
        };
        let sensible = read.filter(|points| *points <= Points::whole(1000));
        if sensible.is_none() {
            let message =
                "Write a number of points from 0 to 1000 with at most two places, as in `0.5`.";
            self.tell(said.span(), message);
        }
        sensible
    }

    /// What stands below a heading; nothing if there is something else in its place.
    fn below<'s, 't>(
        &mut self,
        example: &str,
        said: &'s Said<'t>,
    ) -> Vec<(&'s Spanned<std::borrow::Cow<'t, str>>, &'s Said<'t>)> {
        if let Some(table) = said.get_ref().as_table() {
            return table.iter().collect();
        }
        let message = format!("Write `{example}` in a line of its own, and the answers below it.");
        self.tell(said.span(), message);
        Vec::new()
    }

    fn unknown(&mut self, range: Range<usize>, name: &str, known: &[&str]) {
        self.tell(range, unknown(name, known));
    }

    fn tell(&mut self, range: Range<usize>, message: impl Into<String>) {
        self.problems.push(Problem { message: message.into(), range });
    }
}

/// Finds what a name means, or says why it means nothing.
type Name<'a, K> = dyn Fn(&str) -> Result<K, String> + 'a;

fn level(name: &str) -> Result<Level, String> {
    let found = LEVELS.into_iter().find(|level| level.name() == name);
    found.ok_or_else(|| unknown(name, &LEVELS.map(Level::name)))
}

fn rule(name: &str) -> Result<String, String> {
    if rules::named(name).is_some() {
        return Ok(name.to_owned());
    }
    let hint = rules::nearest(name).map_or_else(
        || "`bicinium rules` lists them all.".to_owned(),
        |entry| format!("Perhaps `{}` is meant.", entry.name),
    );
    Err(format!("There is no rule `{name}`. {hint}"))
}

fn aspect(name: &str) -> Result<Aspect, String> {
    let found = Aspect::ALL.into_iter().find(|aspect| aspect.name() == name);
    found.ok_or_else(|| unknown(name, &Aspect::ALL.map(Aspect::name)))
}

fn unknown(name: &str, known: &[&str]) -> String {
    let hint = match nearest(name, known.iter().copied()) {
        Some(near) => format!("Perhaps `{near}` is meant."),
        None => format!("What can stand here is {}.", quoted(known, "and")),
    };
    format!("`{name}` is not known here. {hint}")
}
