//! A class that is marked: the sheets of this folder, met as a teacher meets them.

#![cfg(test)]

mod hostile;
mod marks;
mod music;
mod page;
mod refusals;
mod reports;
mod run;
