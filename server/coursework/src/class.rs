//! A class: all that was handed in for an assignment, and which rules are misunderstood by many. Must
//! not know where a sheet came from.

use std::collections::BTreeMap;
use std::sync::Arc;

use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Level, Rulebook, Snapshot};
use serde::Serialize;

use crate::assignment::{Assignment, Task};
use crate::mark::{Answer, Found, mark, worth};
use crate::points::Points;
use crate::rubric::Rubric;

/// A sheet that was handed in.
#[derive(Clone, Copy)]
pub struct HandIn<'a> {
    /// Where it was found.
    pub sheet: &'a str,
    /// What its writer is called where it names nobody.
    pub name: &'a str,
    /// What it says.
    pub text: &'a str,
    /// The sheet, judged by the rulebook of the first task.
    pub judged: &'a Snapshot,
    /// What another rulebook says of an exercise, by its number counted from 1.
    pub by_another: &'a dyn Fn(usize, &Arc<Rulebook>) -> Option<Placed>,
}

/// What somebody handed in, marked.
#[derive(Clone, Debug, Serialize)]
pub struct Student {
    /// Who wrote it.
    pub name: String,
    /// Where it was found.
    pub sheet: String,
    /// The exercises of the assignment in their order; `None` for one that was not handed in.
    pub answers: Vec<Option<Answer>>,
    /// What was found outside the exercises that answer something.
    pub elsewhere: Vec<Found>,
    /// How many exercises answer nothing that was set.
    pub not_set: usize,
    /// All points.
    pub points: Points,
    /// What the sheet says.
    #[serde(skip)]
    pub text: String,
}

/// All that was handed in.
#[derive(Clone, Debug)]
pub struct Class {
    /// What was set.
    pub assignment: Assignment,
    /// What each exercise is worth.
    pub worth: Vec<Points>,
    /// Who handed in what, by name.
    pub students: Vec<Student>,
    /// What could not be marked.
    pub unread: Vec<Unread>,
}

/// A sheet that could not be marked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Unread {
    /// What it is called.
    pub sheet: String,
    /// Why, in a sentence.
    pub reason: String,
}

impl HandIn<'_> {
    /// An exercise as a rulebook judges it.
    fn exercise(&self, number: usize, rulebook: &Arc<Rulebook>) -> Option<Placed> {
        let (_, block, exercise) = self.judged.exercises().find(|(own, ..)| *own == number)?;
        if Arc::ptr_eq(&exercise.rulebook, rulebook) {
            return Some(block.clone());
        }
        (self.by_another)(number, rulebook)
    }
}

impl Class {
    /// The class with what was handed in, by name.
    pub fn new(
        assignment: Assignment,
        rubric: &Rubric,
        mut students: Vec<Student>,
        unread: Vec<Unread>,
    ) -> Self {
        let worth = assignment.tasks.iter().map(|task| worth(task, rubric)).collect();
        students.sort_by(|a, b| (&a.name, &a.sheet).cmp(&(&b.name, &b.sheet)));
        Self { assignment, worth, students, unread }
    }

    /// What everything is worth together.
    pub fn full(&self) -> Points {
        self.worth.iter().copied().sum()
    }

    /// Puts numbers in the place of names and sheets. In the text of a sheet its writer's name is
    /// crossed out, so that everything else keeps its place.
    pub fn hide_names(&mut self) {
        for (student, number) in self.students.iter_mut().zip(1_usize..) {
            let crossed_out = "*".repeat(student.name.len());
            student.text = student.text.replace(&student.name, &crossed_out);
            student.name = format!("Student {number}");
            student.sheet = format!("sheet {number}");
        }
        for (sheet, number) in self.unread.iter_mut().zip(1_usize..) {
            sheet.sheet = format!("unread sheet {number}");
        }
    }

    /// The rules that were broken, each with how often by each student, those first that most students
    /// broke.
    pub fn rules(&self) -> Vec<(&'static str, Vec<usize>)> {
        let mut counts: BTreeMap<&'static str, Vec<usize>> = BTreeMap::new();
        for (index, student) in self.students.iter().enumerate() {
            for found in student.broken() {
                let row = counts.entry(found.rule).or_insert_with(|| vec![0; self.students.len()]);
                row[index] += 1;
            }
        }
        let mut rules: Vec<_> = counts.into_iter().collect();
        let students = |row: &Vec<usize>| row.iter().filter(|count| **count > 0).count();
        rules.sort_by_key(|(rule, row)| {
            (std::cmp::Reverse((students(row), row.iter().sum::<usize>())), *rule)
        });
        rules
    }
}

impl Student {
    /// Marks what was handed in. An exercise answers the task of its title, or else the one of its
    /// number.
    pub fn of(hand_in: &HandIn<'_>, assignment: &Assignment, rubric: &Rubric) -> Self {
        let first = hand_in.judged;
        let chosen = chosen(first, &assignment.tasks);
        let answers: Vec<_> = assignment
            .tasks
            .iter()
            .zip(&chosen)
            .map(|(task, number)| {
                let block = hand_in.exercise((*number)?, &task.rulebook)?;
                let exercise = block.judged.exercise.as_ref()?;
                let handed_in = ((*number)?, &block, exercise);
                Some(mark(task, handed_in, block.judged.rulebook(), rubric))
            })
            .collect();
        let is_chosen = |number: Option<usize>| number.is_some() && chosen.contains(&number);
        let elsewhere = first.findings().filter(|it| !is_chosen(it.block.number)).map(Found::of);
        let not_set = first.exercises().filter(|(own, ..)| !is_chosen(Some(*own))).count();
        Self {
            name: name(first).unwrap_or_else(|| hand_in.name.to_owned()),
            sheet: hand_in.sheet.to_owned(),
            points: answers.iter().flatten().map(|answer| answer.reckoning.points).sum(),
            answers,
            elsewhere: elsewhere.collect(),
            not_set,
            text: hand_in.text.to_owned(),
        }
    }

    /// How many findings of a level stand in the exercises that were set.
    pub fn standing(&self, level: Level) -> usize {
        self.answers.iter().flatten().map(|answer| answer.standing(level)).sum()
    }

    /// The faults and cautions that stand, and what cannot be read.
    pub fn broken(&self) -> impl Iterator<Item = &Found> {
        let answers = self.answers.iter().flatten();
        let all = answers.flat_map(|answer| &answer.findings).chain(&self.elsewhere);
        all.filter(|found| found.stands() && found.level.0 <= Level::Caution)
    }

    /// The exercise with the largest share of its points, and its number in the assignment counted from
    /// 1; `None` if nothing earned any.
    pub fn best(&self) -> Option<(usize, &Answer)> {
        let answers = self.answers.iter().zip(1..);
        let answered = answers.filter_map(|(answer, number)| Some((number, answer.as_ref()?)));
        let share = |answer: &Answer| answer.reckoning.points.percent_of(answer.reckoning.worth);
        let best =
            answered.max_by_key(|(number, answer)| (share(answer), std::cmp::Reverse(*number)));
        best.filter(|(_, answer)| answer.reckoning.points > Points::NONE)
    }
}

/// Who wrote a sheet, as its first exercise that names somebody says.
fn name(snapshot: &Snapshot) -> Option<String> {
    let by = snapshot.exercises().find_map(|(.., exercise)| exercise.by.clone());
    by.map(|name| name.trim().to_owned()).filter(|name| !name.is_empty())
}

/// The number of the exercise that answers each task: the one of its title, or else the one of its
/// number, if that has no title of another task.
fn chosen(snapshot: &Snapshot, tasks: &[Task]) -> Vec<Option<usize>> {
    let same = |a: &str, b: &str| a.trim().to_lowercase() == b.trim().to_lowercase();
    let titles: Vec<_> =
        snapshot.exercises().map(|(number, _, it)| (number, it.title.as_deref())).collect();
    let by_title = |task: &Task| {
        let title = task.title.as_deref()?;
        let mut own = titles.iter().filter_map(|(number, own)| Some((number, (*own)?)));
        own.find(|(_, own)| same(own, title)).map(|(number, _)| *number)
    };
    let mut chosen: Vec<_> = tasks.iter().map(by_title).collect();
    for index in 0..tasks.len() {
        let own = titles.iter().map(|(number, _)| *number).find(|it| *it == tasks[index].number);
        if chosen[index].is_none() && !chosen.contains(&own) {
            chosen[index] = own;
        }
    }
    chosen
}
