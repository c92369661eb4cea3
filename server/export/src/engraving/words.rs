//! Rows of words, broken into lines of a width. Knows no music.

use super::display::{Group, Ink, Inked, Kind, Shape, text_width};
use super::font::Font;
use super::geometry::Point;
use super::symbol;

/// Letters of a font in a size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Lettering {
    /// The font.
    pub font: Font,
    /// The em, in staff spaces.
    pub size: f64,
    /// The colour.
    pub ink: Ink,
}

/// On which side of its point a text stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Align {
    /// It begins there.
    Left,
    /// It has its middle there.
    Middle,
    /// It ends there.
    Right,
}

impl Lettering {
    /// How wide a text is.
    pub fn width(self, text: &str) -> f64 {
        text.chars().map(|sign| self.advance(sign)).sum()
    }

    /// A text at a point of its baseline.
    pub fn shapes(self, text: &str, at: Point, align: Align) -> Vec<Inked> {
        let back = match align {
            Align::Left => 0.0,
            Align::Middle => self.width(text) / 2.0,
            Align::Right => self.width(text),
        };
        let mut x = at.x - back;
        let shape = |(font, text): (Font, String)| {
            let (size, rise) = self.set_in(font);
            let at = Point::new(x, at.y - rise);
            x += text_width(font, size, &text);
            Inked { shape: Shape::Signs { font, at, size, text }, ink: self.ink }
        };
        self.runs(text).into_iter().map(shape).collect()
    }

    /// A text alone.
    pub fn group(self, text: &str, at: Point, align: Align) -> Group {
        Group { shapes: self.shapes(text, at, align), ..Group::new(Kind::Words) }
    }

    /// The text in pieces of one font each: accidentals come from the music font, and a sign that no font
    /// has is named by its number.
    fn runs(self, text: &str) -> Vec<(Font, String)> {
        let mut runs: Vec<(Font, String)> = Vec::new();
        for sign in text.chars() {
            let (font, drawn) = self.drawn(sign);
            match runs.last_mut().filter(|run| run.0 == font) {
                Some(run) => run.1.push_str(&drawn),
                None => runs.push((font, drawn)),
            }
        }
        runs
    }

    /// What is drawn for a sign, and from which font.
    fn drawn(self, sign: char) -> (Font, String) {
        match symbol::accidental_in_words(sign) {
            _ if self.font.has(sign) => (self.font, sign.into()),
            Some(accidental) => (Font::Music, accidental.into()),
            None => (self.font, format!("[U+{:04X}]", u32::from(sign))),
        }
    }

    /// How large signs of a font are among these letters, and how far above the baseline.
    fn set_in(self, font: Font) -> (f64, f64) {
        if font == self.font { (self.size, 0.0) } else { (self.size * 1.1, self.size * 0.3) }
    }

    fn advance(self, sign: char) -> f64 {
        if self.font.has(sign) {
            return self.font.advance(sign) * self.size;
        }
        let (font, drawn) = self.drawn(sign);
        text_width(font, self.set_in(font).0, &drawn)
    }

    /// The lines into which a text breaks; a word that is too long for a line is cut.
    pub fn lines(self, text: &str, width: f64) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        let (blank, mut used) = (self.advance(' '), 0.0);
        for word in text.split_whitespace() {
            let wide = self.width(word);
            match lines.last_mut() {
                Some(line) if used + blank + wide <= width => {
                    line.push(' ');
                    line.push_str(word);
                    used += blank + wide;
                }
                _ => {
                    lines.extend(self.cut(word, width));
                    used = lines.last().map_or(0.0, |line| self.width(line));
                }
            }
        }
        lines
    }

    fn cut(self, word: &str, width: f64) -> Vec<String> {
        let mut pieces = vec![String::new()];
        let mut used = 0.0;
        for sign in word.chars() {
            let advance = self.advance(sign);
            if used + advance > width && used > 0.0 {
                pieces.push(String::new());
                used = 0.0;
            }
            used += advance;
            if let Some(piece) = pieces.last_mut() {
                piece.push(sign);
            }
        }
        pieces
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAIN: Lettering = Lettering { font: Font::Roman, size: 2.0, ink: Ink::Black };

    #[test]
    fn accidentals_come_from_the_music_font_and_what_no_font_has_is_named() {
        let slanted = Lettering { font: Font::Italic, ..PLAIN };
        let runs = slanted.runs("Mill in B♭, 練");
        let text = |text: &str| text.to_owned();
        let flat = (Font::Music, text("\u{e260}"));
        assert_eq!(
            runs,
            [(Font::Italic, text("Mill in B")), flat, (Font::Italic, text(", [U+7DF4]"))]
        );
        let shapes = slanted.shapes("Mill in B♭, 練", Point::new(0.0, 0.0), Align::Left);
        let boxes: Vec<_> = shapes.iter().filter_map(|it| it.shape.bounds()).collect();
        assert!(boxes.windows(2).all(|it| it[0].right <= it[1].left + 0.1), "{boxes:?}");
        let right = boxes.last().expect("three pieces").right;
        assert!((slanted.width("Mill in B♭, 練") - right).abs() < 0.3, "{right}");
    }

    #[test]
    fn no_line_is_wider_than_allowed_and_no_word_is_lost() {
        let text = "the last note of the cantus firmus is approached by step, antidisestablishmentarianism";
        for width in [5.0, 12.0, 30.0, 200.0] {
            let lines = PLAIN.lines(text, width);
            assert!(lines.iter().all(|line| PLAIN.width(line) <= width), "{lines:?}");
            let letters =
                |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            assert_eq!(letters(&lines.concat()), letters(text));
        }
    }
}
