//! Bars stand in order, systems fill their width, and every note is there once.

use std::collections::BTreeSet;

use bicinium_analysis::score::{Sound, VoiceId};
use bicinium_export::engraving::display::{Inked, Kind, Page, Shape};
use bicinium_export::engraving::{Clefs, Paper};

use crate::sheets;

fn right_edges(page: &Page) -> Vec<f64> {
    let staves = page.groups.iter().filter(|group| group.kind == Kind::Staff);
    staves.filter_map(|group| Some(group.bounds()?.right)).collect()
}

#[test]
fn all_systems_but_the_last_fill_the_width_exactly() {
    let long = "cantus c\n  line | C4 |\nexercise \"Long\"\n  soprano | C5 D5 |".to_owned()
        + &" E5 D5 | C5 B4 |".repeat(40)
        + "\n  bass | C3 |"
        + &" C3 | E3 |".repeat(40)
        + "\n";
    for paper in [Paper::A4, Paper::Letter, Paper::Strip(100)] {
        let pages = sheets::engraved(&long, paper, Clefs::Modern);
        let edges: Vec<f64> = pages.iter().flat_map(right_edges).collect();
        let full = paper.width() - paper.margin();
        let (others, last) = edges.split_at(edges.len() - 2);
        assert!(others.len() > 10, "{paper:?}: {} staves", others.len());
        assert!(others.iter().all(|edge| (edge - full).abs() < 1e-9), "{paper:?}: {others:?}");
        assert!(last.iter().all(|edge| *edge < full + 1e-9), "{paper:?}: {last:?}");
    }
}

#[test]
fn a_snug_strip_is_no_wider_than_its_music() {
    let short = "exercise \"Short\"\n  soprano | C5 | D5 |\n  bass | C3 | B2 |\n";
    let wide = |width| sheets::engraved(short, Paper::Snug(width), Clefs::Modern)[0].width;
    assert!((wide(240) - wide(1000)).abs() < 1e-9);
    assert!(wide(240) < Paper::Strip(140).width(), "{}", wide(240));
    assert!(wide(60) <= Paper::Strip(60).width());
}

#[test]
fn every_note_rest_and_hole_is_there_once_in_order() {
    for (name, text) in sheets::all() {
        let sheet = sheets::judged(&text);
        let pages = sheets::engraved(&text, Paper::Strip(180), Clefs::Modern);
        let groups = || pages.iter().flat_map(|page| &page.groups);
        let ids: Vec<&str> = groups().filter_map(|group| group.id.as_deref()).collect();
        let once: BTreeSet<_> = ids.iter().copied().collect();
        assert_eq!(once.len(), ids.len(), "{name}: an id comes twice");
        for (number, _, exercise) in sheet.exercises() {
            for voice in VoiceId::BOTH {
                let prefix = format!("x{number}-{}-", voice.name());
                let onsets = ids.iter().filter_map(|id| id.strip_prefix(&prefix)?.parse().ok());
                let drawn: BTreeSet<u32> = onsets.collect();
                let written = exercise.score.lines[voice].events.iter();
                let written = written.filter(|event| event.sound != Sound::Blank);
                for event in written {
                    let onset = event.onset.ticks();
                    assert!(drawn.contains(&onset), "{name}, {prefix}{onset} is missing");
                }
            }
        }
    }
}

#[test]
fn later_notes_stand_farther_right_or_farther_down() {
    for (name, text) in sheets::all() {
        let sheet = sheets::judged(&text);
        let pages = sheets::engraved(&text, Paper::Strip(180), Clefs::Modern);
        for (number, ..) in sheet.exercises() {
            let prefix = format!("x{number}-upper-");
            let mut placed: Vec<(u32, f64, f64)> = pages
                .iter()
                .flat_map(|page| &page.groups)
                .filter_map(|group| {
                    let onset = group.id.as_deref()?.strip_prefix(&prefix)?.parse().ok()?;
                    let bounds = group.bounds()?;
                    Some((onset, bounds.right, bounds.top))
                })
                .collect();
            placed.sort_by_key(|it| it.0);
            for pair in placed.windows(2) {
                let is_right = pair[0].1 < pair[1].1;
                let is_below = pair[0].2 + 8.0 < pair[1].2;
                assert!(is_right || is_below, "{name}, exercise {number}: {pair:?}");
            }
        }
    }
}

#[test]
fn a_rest_that_fills_its_bar_is_the_same_in_every_meter() {
    for meter in ["2/2", "3/2", "3/4", "6/8"] {
        let text = format!("exercise\n  meter {meter}\n  alto | C4 | rest |\n  bass | C3 | C3 |\n");
        let pages = sheets::engraved(&text, Paper::A4, Clefs::Modern);
        let mut groups = pages.iter().flat_map(|page| &page.groups);
        let rest = groups.find(|group| group.kind == Kind::Rest).unwrap();
        let [sign] = rest.shapes.as_slice() else { panic!("{meter}: {:?}", rest.shapes) };
        assert!(matches!(&sign.shape, Shape::Signs { text, .. } if text == "\u{e4e3}"), "{meter}");
    }
}

#[test]
fn a_voice_alone_has_an_empty_staff_that_suits_it() {
    for (given, other) in [("soprano", "Alto"), ("alto", "Baritone"), ("tenor", "Bass")] {
        let text = format!("exercise\n  {given} cantus | D4 | C4 |\n");
        let pages = sheets::engraved(&text, Paper::A4, Clefs::Modern);
        let words = pages.iter().flat_map(|page| &page.groups).flat_map(|group| &group.shapes);
        let is_named = |it: &Inked| matches!(&it.shape, Shape::Signs { text, .. } if text == other);
        assert!(words.into_iter().any(is_named), "{given}");
    }
}
