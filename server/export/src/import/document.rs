//! A document as a tree of elements. Knows XML and its bounds, no music.

use quick_xml::Reader;
use quick_xml::events::{BytesRef, BytesStart, Event};

use super::Refusal;

/// How deep elements may lie within each other.
const DEEPEST: usize = 64;
/// How many elements there may be.
const MOST: usize = 1_000_000;

/// An element.
#[derive(Clone, Debug, Default)]
pub(super) struct Node {
    pub(super) name: String,
    attributes: Vec<(String, String)>,
    text: String,
    pub(super) children: Vec<Node>,
}

impl Node {
    /// The first element of a name in it.
    pub(super) fn get(&self, name: &str) -> Option<&Self> {
        self.all(name).next()
    }

    /// All elements of a name in it.
    pub(super) fn all(&self, name: &str) -> impl Iterator<Item = &Self> {
        self.children.iter().filter(move |child| child.name == name)
    }

    /// Whether there is an element of a name in it.
    pub(super) fn has(&self, name: &str) -> bool {
        self.get(name).is_some()
    }

    /// What stands in it, without the white space around.
    pub(super) fn text(&self) -> &str {
        self.text.trim()
    }

    /// What stands in the first element of a name.
    pub(super) fn text_of(&self, name: &str) -> Option<&str> {
        self.get(name).map(Self::text).filter(|text| !text.is_empty())
    }

    /// The number in the first element of a name.
    pub(super) fn number<N: std::str::FromStr>(&self, name: &str) -> Option<N> {
        self.text_of(name)?.parse().ok()
    }

    /// An attribute.
    pub(super) fn attribute(&self, name: &str) -> Option<&str> {
        let found = self.attributes.iter().find(|(own, _)| own == name);
        found.map(|(_, value)| value.as_str())
    }
}

/// Reads a document; its root.
pub(super) fn read(text: &str) -> Result<Node, Refusal> {
    let mut reader = Reader::from_str(text);
    reader.config_mut().expand_empty_elements = true;
    let mut open = vec![Node::default()];
    let mut count = 0_usize;
    loop {
        match reader.read_event().map_err(|error| Refusal::Malformed(error.to_string()))? {
            Event::Start(start) => {
                count += 1;
                if open.len() > DEEPEST || count > MOST {
                    return Err(Refusal::TooLong);
                }
                open.push(begun(&start)?);
            }
            Event::End(_) => close(&mut open),
            Event::Text(text) => say(&mut open, &text.decode().map_err(malformed)?),
            Event::CData(data) => say(&mut open, &data.decode().map_err(malformed)?),
            Event::GeneralRef(reference) => say(&mut open, &meant(&reference)?),
            Event::Eof => break,
            Event::Comment(_)
            | Event::Decl(_)
            | Event::PI(_)
            | Event::DocType(_)
            | Event::Empty(_) => {}
        }
    }
    let root = open.drain(..).next().and_then(|document| document.children.into_iter().next());
    root.ok_or(Refusal::NoScore)
}

fn begun(start: &BytesStart<'_>) -> Result<Node, Refusal> {
    let name = String::from_utf8_lossy(start.local_name().as_ref()).into_owned();
    let mut attributes = Vec::new();
    for attribute in start.attributes() {
        let attribute = attribute.map_err(malformed)?;
        let key = String::from_utf8_lossy(attribute.key.as_ref()).into_owned();
        let value = attribute.unescape_value().map_err(malformed)?.into_owned();
        attributes.push((key, value));
    }
    Ok(Node { name, attributes, ..Node::default() })
}

fn close(open: &mut Vec<Node>) {
    if open.len() > 1
        && let Some(done) = open.pop()
        && let Some(around) = open.last_mut()
    {
        around.children.push(done);
    }
}

fn say(open: &mut [Node], text: &str) {
    if let Some(inner) = open.last_mut() {
        inner.text.push_str(text);
    }
}

/// The character of a reference: one by its number, or one of the five that XML itself names.
fn meant(reference: &BytesRef<'_>) -> Result<String, Refusal> {
    if let Some(character) = reference.resolve_char_ref().map_err(malformed)? {
        return Ok(character.to_string());
    }
    let name = reference.decode().map_err(malformed)?;
    let known = quick_xml::escape::resolve_predefined_entity(&name);
    known.map(str::to_owned).ok_or(Refusal::Entities)
}

fn malformed(error: impl std::fmt::Display) -> Refusal {
    Refusal::Malformed(error.to_string())
}
