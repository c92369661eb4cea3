//! What it costs to engrave a page, step by step. A page is three exercises in fifth species with
//! figures, numerals and marks.

#![allow(missing_docs)]

use std::sync::Arc;

use bicinium_analysis::{Sheet, Snapshot};
use bicinium_export::engraving::display::Page;
use bicinium_export::engraving::{self, Paper, Style, writers};
use bicinium_export::{Extra, Piece};
use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

const SHEET: &str = include_str!("../../../tests/worked/fux-1725-species-5.bicinium");

fn sheet() -> Arc<Snapshot> {
    Sheet::new(SHEET, Arc::default()).snapshot()
}

fn page(sheet: &Snapshot) -> Page {
    let pieces: Vec<_> = sheet
        .exercises()
        .take(3)
        .map(|(number, block, exercise)| Piece {
            number,
            exercise,
            findings: &block.judged.findings,
        })
        .collect();
    let extras = vec![Extra::Figures, Extra::Harmonies, Extra::Findings];
    let style = Style { paper: Paper::Strip(180), extras, ..Style::default() };
    engraving::pages(&pieces, &style).swap_remove(0)
}

#[divan::bench]
fn display_list(bencher: Bencher<'_, '_>) {
    let sheet = sheet();
    bencher.bench(|| page(black_box(&sheet)));
}

#[divan::bench]
fn svg_of_a_display_list(bencher: Bencher<'_, '_>) {
    let page = page(&sheet());
    bencher.bench(|| writers::svg(black_box(&page), "A page"));
}

#[divan::bench]
fn svg_of_a_page(bencher: Bencher<'_, '_>) {
    let sheet = sheet();
    bencher.bench(|| writers::svg(&page(black_box(&sheet)), "A page"));
}

#[divan::bench]
fn png_of_a_page(bencher: Bencher<'_, '_>) {
    let page = page(&sheet());
    bencher.bench(|| writers::png(black_box(&page), 150));
}

#[divan::bench]
fn pdf_of_a_page(bencher: Bencher<'_, '_>) {
    let pages = [page(&sheet())];
    bencher.bench(|| writers::pdf(black_box(&pages), "A page"));
}
