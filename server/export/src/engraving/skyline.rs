//! What is free above and below things that are drawn already. Knows boxes only.

use super::display::Group;
use super::geometry::Rect;

/// The boxes of all that is drawn.
#[derive(Clone, Debug, Default)]
pub(super) struct Skyline {
    boxes: Vec<Rect>,
}

impl Skyline {
    /// The boxes of some groups.
    pub fn of(groups: &[Group]) -> Self {
        let mut skyline = Self::default();
        for group in groups {
            skyline.add(group);
        }
        skyline
    }

    /// Takes in a group.
    pub fn add(&mut self, group: &Group) {
        self.boxes.extend(group.shapes.iter().filter_map(|inked| inked.shape.bounds()));
    }

    /// The highest edge of what stands between two xs; none if nothing does.
    pub fn top(&self, left: f64, right: f64) -> Option<f64> {
        self.between(left, right).map(|it| it.top).reduce(f64::min)
    }

    /// The lowest edge of what stands between two xs; none if nothing does.
    pub fn bottom(&self, left: f64, right: f64) -> Option<f64> {
        self.between(left, right).map(|it| it.bottom).reduce(f64::max)
    }

    /// How far another skyline, drawn from the same height, has to sink so as to stay clear of this one.
    pub fn clearance(&self, below: &Self) -> f64 {
        let sinks =
            below.boxes.iter().filter_map(|it| Some(self.bottom(it.left, it.right)? - it.top));
        sinks.fold(0.0, f64::max)
    }

    fn between(&self, left: f64, right: f64) -> impl Iterator<Item = &Rect> {
        self.boxes.iter().filter(move |it| it.left < right && left < it.right)
    }
}
