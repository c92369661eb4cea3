//! Nothing stands on anything else, and nothing stands outside the page.

use bicinium_export::engraving::display::{Group, Kind, Page, Shape};
use bicinium_export::engraving::geometry::Rect;
use bicinium_export::engraving::{Clefs, Paper};

use crate::sheets;

/// A shape of a group, with its box.
struct Boxed {
    group: usize,
    kind: Kind,
    /// A stem or a ledger line.
    is_bar: bool,
    bounds: Rect,
}

/// Whether the two may lie on each other: everything lies on the staff, a tie crosses the barline, a
/// beam ends on stems.
fn may_touch(a: &Boxed, b: &Boxed) -> bool {
    if a.group == b.group {
        return true;
    }
    let is = |first: Kind, second: Kind| {
        (a.kind, b.kind) == (first, second) || (b.kind, a.kind) == (first, second)
    };
    a.kind == Kind::Staff
        || b.kind == Kind::Staff
        || is(Kind::Tie, Kind::Barline)
        || is(Kind::Beam, Kind::Note) && (a.is_bar || b.is_bar)
}

fn boxes(page: &Page) -> Vec<Boxed> {
    let all = page.groups.iter().enumerate().flat_map(|(index, group): (usize, &Group)| {
        group.shapes.iter().filter_map(move |inked| {
            let is_bar = matches!(inked.shape, Shape::Bar(_));
            let bounds = inked.shape.bounds()?;
            Some(Boxed { group: index, kind: group.kind, is_bar, bounds })
        })
    });
    let mut boxes: Vec<_> = all.collect();
    boxes.sort_by(|a, b| a.bounds.left.total_cmp(&b.bounds.left));
    boxes
}

/// What overlaps on a page, in words.
fn overlaps(page: &Page) -> Vec<String> {
    let boxes = boxes(page);
    let mut found = Vec::new();
    for (index, a) in boxes.iter().enumerate() {
        let near = boxes[index + 1..].iter().take_while(|b| b.bounds.left < a.bounds.right);
        for b in near {
            // Edges that only meet differ by less than a hundredth of a space.
            if !may_touch(a, b) && a.bounds.grown(-0.01).overlaps(b.bounds) {
                found.push(format!("{:?} {:?} on {:?} {:?}", a.kind, a.bounds, b.kind, b.bounds));
            }
        }
    }
    found
}

fn outside(page: &Page) -> Vec<String> {
    let paper = Rect::new(0.0, 0.0, page.width, page.height);
    let strays = boxes(page).into_iter().filter(|it| it.bounds.union(paper) != paper);
    strays.map(|it| format!("{:?} {:?} outside", it.kind, it.bounds)).collect()
}

#[test]
fn nothing_stands_on_anything_else_or_outside_the_page() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for (name, text) in sheets::all() {
        for (paper, clefs) in [(Paper::A4, Clefs::Modern), (Paper::Strip(150), Clefs::Vocal)] {
            for page in sheets::engraved(&text, paper, clefs) {
                count += 1;
                let on_page = overlaps(&page).into_iter().chain(outside(&page));
                wrong.extend(on_page.map(|it| format!("{name}, {paper:?}: {it}")));
            }
        }
    }
    assert!(count > 400, "only {count} pages");
    assert!(wrong.is_empty(), "{} of {count} pages:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn marks_keep_away_from_numerals() {
    let text = "exercise\n  key E phrygian\n  species 2\n  \
                alto cantus | E4 | C4 | D4 | C4 | A3 | A4 | G4 | E4 | F4 | E4 |\n  \
                bass counter | rest E3 | A3 G3 | F3 B2 | A2 C3 | F3 E3 | D3 F3 | E3 C3 | C3 A2 | D3 ? | E3 |\n";
    let pages = sheets::engraved(text, Paper::A4, Clefs::Modern);
    let boxes: Vec<_> = pages.iter().flat_map(boxes).collect();
    let of = |kind| boxes.iter().filter(move |it| it.kind == kind).map(|it| it.bounds);
    assert!(of(Kind::Mark).count() >= 5);
    for mark in of(Kind::Mark) {
        let near = of(Kind::Numeral).find(|numeral| mark.grown(0.5).overlaps(*numeral));
        assert_eq!(near, None, "{mark:?}");
    }
}

#[test]
fn a_bar_that_is_too_full_for_the_paper_is_drawn_smaller() {
    let many: String = (0..16).map(|_| "(C5 B4 A4 B4) ").collect();
    let text = format!(
        "exercise \"Full\"\n  soprano counter | C5 | {many}| D5 (F#5 G#5 A5 Bb5) | C5 |\n  \
         bass cantus | C3 | G3 | G3 | C3 |\n"
    );
    let heights = [Paper::Strip(60), Paper::Strip(120), Paper::A4].map(|paper| {
        let pages = sheets::engraved(&text, paper, Clefs::Modern);
        for page in &pages {
            let wrong: Vec<_> = overlaps(page).into_iter().chain(outside(page)).collect();
            assert!(wrong.is_empty(), "{paper:?}: {}", wrong.join("\n"));
        }
        let boxes = pages.iter().flat_map(boxes);
        let notes = boxes.filter(|it| it.kind == Kind::Note).map(|it| it.bounds);
        let heights: Vec<_> = notes.map(|note| note.bottom - note.top).collect();
        assert!(heights.len() >= 64 + 5 + 2 + 4, "{paper:?}: {} of the notes", heights.len());
        heights.into_iter().fold(f64::MAX, f64::min)
    });
    assert!(heights.is_sorted_by(|small, large| small < large), "{heights:?}");
}

#[test]
fn what_overlaps_is_seen() {
    let mut pages = sheets::engraved(sheets::MOTLEY, Paper::A4, Clefs::Modern);
    let groups = &mut pages[0].groups;
    let notes: Vec<usize> = (0..groups.len()).filter(|it| groups[*it].kind == Kind::Note).collect();
    let [first, second] = [notes[0], notes[1]];
    let left = |group: &Group| group.bounds().unwrap().left;
    let back = left(&groups[first]) - left(&groups[second]);
    groups[second].shift(back, 0.0);
    assert!(!overlaps(&pages[0]).is_empty());
    pages[0].groups[first].shift(-100.0, 0.0);
    assert!(!outside(&pages[0]).is_empty());
}
