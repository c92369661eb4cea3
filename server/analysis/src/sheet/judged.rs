//! One block, judged: what its text says, the verdict on its music, and all findings, with offsets
//! from the start of the block. Remembers what it took from the rest of the sheet, so that it can
//! tell whether it still holds.

use std::collections::BTreeMap;
use std::sync::Arc;

use bicinium_grammar::{BlockTree, ast};
use bicinium_theory::Pitch;

use super::rulebook::InForce;
use super::workings::Workings;
use super::{Import, Kept, findings, limits, unfinished, uses};
use crate::finding::{Finding, Level, Mend};
use crate::judge::{Course, Verdict};
use crate::repertoire;
use crate::rulebook::{Rulebook, Rules, Shelf};
use crate::score::Score;
use crate::score::lower::{self, Defined, Definitions};
use crate::score::settings::Settings;

/// One block, judged.
#[derive(Debug)]
pub struct Judged {
    /// The tree it was made from.
    pub tree: Arc<BlockTree>,
    /// All findings, in order of place.
    pub findings: Vec<Finding>,
    /// The exercise, if the block is one.
    pub exercise: Option<Exercise>,
    /// The settings it makes for the sheet, if it is the preamble.
    pub preamble: Option<Settings>,
    /// The cantus it defines.
    pub defined: Option<Defined>,
    /// The paths of its `use` lines.
    pub uses: Vec<String>,
    /// How many lines it ends; a line ends with LF, CR or both.
    pub line_ends: usize,
    /// What readers have made of it.
    pub kept: Kept,
    needs: Needs,
}

/// An exercise as music, with its verdict.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// Its title, if it has one.
    pub title: Option<String>,
    /// Who wrote it.
    pub by: Option<String>,
    /// How many points it is worth, 1 to 1000, if that is said.
    pub points: Option<u32>,
    /// Until when it is to be handed in, in words.
    pub deadline: Option<String>,
    /// The music.
    pub score: Score,
    /// The rulebook in force.
    pub rulebook: Arc<Rulebook>,
    /// The verdict.
    pub verdict: Verdict,
}

impl Exercise {
    /// The rules in force: those of the rulebook for this kind of writing.
    pub fn rules(&self) -> &Rules {
        self.rulebook.rules(self.score.setting.writing())
    }

    /// What was found in the music, and which of it a licence accepts.
    pub fn findings(&self) -> Vec<Finding> {
        findings::of_music(&self.score, &self.verdict)
    }
}

/// What a block can take from the rest of its sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Context<'a> {
    pub shelf: &'a Arc<Shelf>,
    pub settings: &'a Settings,
    pub definitions: &'a Definitions,
    pub imports: &'a BTreeMap<String, Import>,
}

impl Context<'_> {
    /// What is known under the name of a cantus; what the sheet defines or takes in is the nearest.
    fn cantus(&self, name: &str) -> Option<&Arc<[Pitch]>> {
        let lent = || repertoire::named(name).map(|cantus| &cantus.defined.notes);
        self.definitions.get(name).or_else(lent)
    }
}

/// What a block took from the rest of its sheet.
#[derive(Debug, Default)]
struct Needs {
    settings: Option<Settings>,
    /// The name that it gives to a cantus, and whether another has it already.
    name: Option<(String, bool)>,
    /// Names of cantus, and what was known under each.
    cantus: Vec<(String, Option<Arc<[Pitch]>>)>,
    imports: Vec<Option<Import>>,
    rulebook: Option<InForce>,
}

/// A block, judged, with what was worked out for it.
pub(super) struct Fresh {
    pub judged: Judged,
    /// What was worked out, if the block is an exercise.
    pub workings: Option<Workings>,
    /// At how many moments the music was heard.
    pub heard: usize,
}

impl Judged {
    /// Judges a block, and goes on from what was worked out for one that it may differ little from.
    pub(super) fn fresh(
        tree: &Arc<BlockTree>,
        context: &Context<'_>,
        known: Option<Workings>,
    ) -> Fresh {
        let mut judged = Self {
            tree: tree.clone(),
            findings: tree.problems.iter().map(from_problem).collect(),
            exercise: None,
            preamble: None,
            defined: None,
            uses: Vec::new(),
            line_ends: tree.line_ends(),
            kept: Kept::default(),
            needs: Needs::default(),
        };
        let block = tree.ast();
        judged.take_uses(block.uses(), context);
        let (mut workings, mut heard) = (None, 0);
        match block {
            ast::Block::Preamble(block) => judged.take_preamble(&block, context),
            ast::Block::Cantus(block) => judged.take_cantus(&block, context),
            ast::Block::Exercise(block) => {
                let fresh = judged.take_exercise(&block, context, known.unwrap_or_default());
                (workings, heard) = (Some(fresh.0), fresh.1);
            }
        }
        judged.findings.sort_by_key(|finding| (finding.range.start(), finding.level));
        Fresh { judged, workings, heard }
    }

    /// Judges a block from its beginning.
    pub(super) fn new(tree: &Arc<BlockTree>, context: &Context<'_>) -> Self {
        Self::fresh(tree, context, None).judged
    }

    /// Whether judging the block anew would give the same.
    pub(super) fn holds(&self, tree: &Arc<BlockTree>, context: &Context<'_>) -> bool {
        Arc::ptr_eq(&self.tree, tree)
            && self.needs.settings.as_ref().is_none_or(|known| known == context.settings)
            && self
                .needs
                .name
                .as_ref()
                .is_none_or(|(name, is_taken)| context.definitions.contains_key(name) == *is_taken)
            && self.needs.cantus.iter().all(|(name, notes)| context.cantus(name) == notes.as_ref())
            && self.needs.imports == self.imports_now(context)
            && self.needs.rulebook.as_ref().is_none_or(|known| known.is_still_on(context.shelf))
    }

    fn imports_now(&self, context: &Context<'_>) -> Vec<Option<Import>> {
        self.uses.iter().map(|path| context.imports.get(path).cloned()).collect()
    }

    /// The rulebook that is asked for, by its name or its path; `None` where none is.
    pub fn rulebook(&self) -> Option<&str> {
        self.needs.rulebook.as_ref()?.name.as_deref()
    }

    fn take_preamble(&mut self, block: &ast::Preamble, context: &Context<'_>) {
        let settings = Settings::default().with(block.settings(), &mut self.findings);
        self.take_rulebook(&settings, context);
        self.preamble = Some(Settings { rulebook_range: None, ..settings });
    }

    fn take_rulebook(&mut self, settings: &Settings, context: &Context<'_>) -> Arc<Rulebook> {
        let in_force = InForce::of(settings.rulebook.clone(), context.shelf);
        self.findings.extend(settings.rulebook_range.and_then(|range| in_force.finding(range)));
        self.needs.rulebook.insert(in_force).rulebook.clone()
    }

    fn take_uses(&mut self, uses: Vec<ast::Use>, context: &Context<'_>) {
        for line in uses {
            let import = context.imports.get(&line.path);
            self.findings.extend(import.and_then(|import| uses::finding(&line, import)));
            self.uses.push(line.path);
        }
        self.needs.imports = self.imports_now(context);
    }

    fn take_cantus(&mut self, block: &ast::CantusBlock, context: &Context<'_>) {
        // A cantus has its own key for those who read it; its notes mean what they say.
        let _key = context.settings.with(block.settings(), &mut self.findings);
        self.defined = lower::cantus(block, &mut self.findings);
        self.needs.settings = Some(context.settings.clone());
        let Some(defined) = &self.defined else { return };
        let is_taken = context.definitions.contains_key(&defined.name);
        if is_taken {
            let message = format!(
                "A cantus named {} is defined already; that one is used. Give this one another name.",
                defined.name
            );
            let range = defined.name_range;
            self.findings.push(Finding::about_text(
                "cantus-twice",
                Level::Notation,
                range,
                message,
            ));
        }
        self.needs.name = Some((defined.name.clone(), is_taken));
    }

    fn take_exercise(
        &mut self,
        block: &ast::ExerciseBlock,
        context: &Context<'_>,
        mut workings: Workings,
    ) -> (Workings, usize) {
        let settings = context.settings.with(block.settings(), &mut self.findings);
        let rulebook = self.take_rulebook(&settings, context);
        let known = |name: &str| context.cantus(name).cloned();
        let rows = &mut workings.rows;
        let lowered = lower::exercise(block, &settings, &known, rows, &mut self.findings);
        let lower::Lowered { mut score, names } = lowered;
        let too_long = limits::cut(&mut score, block.head_range());
        let rules = rulebook.rules(score.setting.writing());
        let (course, verdict, moments) = Course::after(workings.course, &score, rules);
        workings.course = Some(course);
        self.findings.extend(findings::of_music(&score, &verdict));
        let unfinished = || unfinished::finding(&score, block.head_range());
        self.findings.extend(too_long.or_else(unfinished));
        self.needs.settings = Some(context.settings.clone());
        let lent = |name: String| {
            let notes = context.cantus(&name).cloned();
            (name, notes)
        };
        self.needs.cantus = names.into_iter().map(lent).collect();
        let Settings { by, points, deadline, .. } = settings;
        let title = block.title();
        self.exercise = Some(Exercise { title, by, points, deadline, score, rulebook, verdict });
        (workings, moments)
    }
}

fn from_problem(problem: &bicinium_grammar::Problem) -> Finding {
    let message = match problem.hint {
        Some(hint) => format!("{} {hint}", problem.message),
        None => problem.message.clone(),
    };
    let mut finding =
        Finding::about_text(problem.kind.name(), Level::Notation, problem.range, message);
    finding.mends = problem
        .mends
        .iter()
        .map(|mend| Mend { title: mend.title.clone(), range: mend.range, text: mend.text.clone() })
        .collect();
    finding
}
