//! The command line, met as a person meets it: the real binary in a folder of its own.

#![cfg(test)]

mod ansi;
mod check;
mod compose;
mod differences;
mod explain;
mod export;
mod format;
mod help;
mod import;
mod json;
mod new;
mod pages;
mod pictures;
mod realize;
mod rulebook;
mod run;
mod sarif;
mod schools;
mod screen;
mod switches;
mod text;
mod tour;
mod uses;
mod versions;
