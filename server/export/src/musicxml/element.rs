//! Elements of a document, put together as a tree and written by the library. Knows no music.

use std::io::{self, Write};

use quick_xml::Writer;
use quick_xml::events::{BytesEnd, BytesStart, BytesText, Event};

use crate::xml::lawful;

/// An element with what is in it.
#[derive(Clone, Debug)]
pub(super) struct Element {
    name: &'static str,
    attributes: Vec<(&'static str, String)>,
    children: Vec<Element>,
    text: Option<String>,
}

impl Element {
    /// An empty element.
    pub(super) fn new(name: &'static str) -> Self {
        Self { name, attributes: Vec::new(), children: Vec::new(), text: None }
    }

    /// An element that holds a text.
    #[expect(clippy::needless_pass_by_value, reason = "numbers are handed over as they are")]
    pub(super) fn text(name: &'static str, text: impl ToString) -> Self {
        Self { text: Some(text.to_string()), ..Self::new(name) }
    }

    /// The same with an attribute.
    #[expect(clippy::needless_pass_by_value, reason = "numbers are handed over as they are")]
    pub(super) fn with(mut self, name: &'static str, value: impl ToString) -> Self {
        self.attributes.push((name, value.to_string()));
        self
    }

    /// The same with another element in it.
    pub(super) fn child(mut self, child: Self) -> Self {
        self.children.push(child);
        self
    }

    /// The same with further elements in it.
    pub(super) fn children(mut self, children: impl IntoIterator<Item = Self>) -> Self {
        self.children.extend(children);
        self
    }

    /// Writes it with everything in it.
    pub(super) fn write<W: Write>(&self, writer: &mut Writer<W>) -> io::Result<()> {
        let mut start = BytesStart::new(self.name);
        for (name, value) in &self.attributes {
            start.push_attribute((*name, lawful(value).as_ref()));
        }
        if self.children.is_empty() && self.text.is_none() {
            return writer.write_event(Event::Empty(start));
        }
        writer.write_event(Event::Start(start))?;
        if let Some(text) = &self.text {
            writer.write_event(Event::Text(BytesText::new(&lawful(text))))?;
        }
        self.children.iter().try_for_each(|child| child.write(writer))?;
        writer.write_event(Event::End(BytesEnd::new(self.name)))
    }
}
