//! A sheet as a figure: its text, with what the judge finds in it by one rule marked and told
//! below. It must not know what the rule is about.

use std::ops::Range;
use std::sync::Arc;

use bicinium_analysis::{Located, Sheet, Shelf};
use maud::{Markup, html};

/// A figure with its title.
pub(super) fn figure(title: &str, text: &str, rule: &str) -> Markup {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let found: Vec<_> = snapshot.findings().filter(|found| found.finding.rule == rule).collect();
    let places = found.iter().map(Located::range).collect();
    html! {
        figure {
            figcaption { (title) }
            pre { @for (part, is_marked) in parts(text.trim_end(), places) {
                @if is_marked { mark { (part) } } @else { (part) }
            } }
            @for found in &found { p.finding { (found.finding.message) } }
        }
    }
}

/// A text cut where marks begin and end.
fn parts(text: &str, mut places: Vec<Range<usize>>) -> Vec<(&str, bool)> {
    places.sort_by_key(|place| place.start);
    let mut parts = Vec::new();
    let mut done = 0;
    for place in places {
        let (before, marked) = (text.get(done..place.start), text.get(place.clone()));
        if let (Some(before), Some(marked)) = (before, marked) {
            parts.extend([(before, false), (marked, true)]);
            done = place.end;
        }
    }
    parts.extend(text.get(done..).map(|rest| (rest, false)));
    parts
}

#[cfg(test)]
mod tests {
    use super::parts;

    #[test]
    fn nothing_of_a_text_is_lost_or_told_twice() {
        let cut = |places: &[(usize, usize)]| {
            let places = places.iter().map(|(start, end)| *start..*end).collect();
            parts("C4 D4 E4", places)
        };
        assert_eq!(cut(&[]), [("C4 D4 E4", false)]);
        let two = [("", false), ("C4", true), (" D4 ", false), ("E4", true), ("", false)];
        assert_eq!(cut(&[(6, 8), (0, 2)]), two);
        for places in [&[(0, 2), (0, 2)][..], &[(3, 5), (4, 8)], &[(7, 30)], &[(1, 4), (2, 3)]] {
            let whole: String = cut(places).into_iter().map(|(part, _)| part).collect();
            assert_eq!(whole, "C4 D4 E4", "{places:?}");
        }
    }
}
