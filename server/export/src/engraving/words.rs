//! Rows of words, broken into lines of a width. Knows no music.

use super::display::{Group, Ink, Inked, Kind, Shape, text_width};
use super::font::Font;
use super::geometry::Point;

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
        text_width(self.font, self.size, text)
    }

    /// A text at a point of its baseline.
    pub fn shape(self, text: &str, at: Point, align: Align) -> Inked {
        let back = match align {
            Align::Left => 0.0,
            Align::Middle => self.width(text) / 2.0,
            Align::Right => self.width(text),
        };
        let at = at.moved(-back, 0.0);
        let shape = Shape::Signs { font: self.font, at, size: self.size, text: text.to_owned() };
        Inked { shape, ink: self.ink }
    }

    /// A text alone.
    pub fn group(self, text: &str, at: Point, align: Align) -> Group {
        Group { shapes: vec![self.shape(text, at, align)], ..Group::new(Kind::Words) }
    }

    /// The lines into which a text breaks; a word that is too long for a line is cut.
    pub fn lines(self, text: &str, width: f64) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        for word in text.split_whitespace() {
            match lines.last_mut() {
                Some(line) if self.width(&format!("{line} {word}")) <= width => {
                    line.push(' ');
                    line.push_str(word);
                }
                _ => lines.extend(self.cut(word, width)),
            }
        }
        lines
    }

    fn cut(self, word: &str, width: f64) -> Vec<String> {
        let mut pieces = vec![String::new()];
        let mut used = 0.0;
        for sign in word.chars() {
            let advance = self.font.advance(sign) * self.size;
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
