//! What a score is called, and what it begins in: title, author, key and meter, and the names of its
//! parts. Knows no notes.

use bicinium_theory::{Accidental, Key, Letter, Meter, Mode, PitchClass};

use super::document::Node;
use super::remarks::Remarks;

/// What stands over a score.
pub(super) struct Heading {
    pub(super) title: Option<String>,
    pub(super) author: Option<String>,
    pub(super) key: Key,
    pub(super) meter: Meter,
}

/// The tonics of major by their signatures, from seven flats to seven sharps.
const MAJOR: [(Letter, i8); 15] = [
    (Letter::C, -1),
    (Letter::G, -1),
    (Letter::D, -1),
    (Letter::A, -1),
    (Letter::E, -1),
    (Letter::B, -1),
    (Letter::F, 0),
    (Letter::C, 0),
    (Letter::G, 0),
    (Letter::D, 0),
    (Letter::A, 0),
    (Letter::E, 0),
    (Letter::B, 0),
    (Letter::F, 1),
    (Letter::C, 1),
];

/// What stands over a score with these two parts.
pub(super) fn of(root: &Node, parts: [&Node; 2], remarks: &mut Remarks) -> Heading {
    let attributes: Vec<&Node> = parts.iter().filter_map(|part| first_attributes(part)).collect();
    let first = |name: &str| attributes.iter().find_map(|own| own.get(name));
    Heading {
        title: title(root),
        author: author(root),
        key: key(first("key"), remarks),
        meter: meter(first("time"), remarks),
    }
}

/// The number of a part, counted from 0, as it is told, with its name if it has one.
pub(super) fn part_name(root: &Node, number: usize, part: &Node) -> String {
    let id = part.attribute("id").unwrap_or_default();
    let number = number + 1;
    let mut listed = root.get("part-list").into_iter().flat_map(|list| list.all("score-part"));
    let own = listed.find(|listed| listed.attribute("id") == Some(id));
    let name = own.and_then(|own| own.text_of("part-name"));
    name.map_or_else(|| format!("Part {number}"), |name| format!("Part {number} ({name})"))
}

/// The first attributes of a part.
pub(super) fn first_attributes(part: &Node) -> Option<&Node> {
    part.all("measure").find_map(|measure| measure.get("attributes"))
}

fn title(root: &Node) -> Option<String> {
    let work = root.get("work").and_then(|work| work.text_of("work-title"));
    work.or_else(|| root.text_of("movement-title")).map(str::to_owned)
}

fn author(root: &Node) -> Option<String> {
    let mut creators = root.get("identification")?.all("creator");
    let composer = creators.find(|creator| creator.attribute("type") == Some("composer"))?;
    Some(composer.text().to_owned()).filter(|name| !name.is_empty())
}

fn key(said: Option<&Node>, remarks: &mut Remarks) -> Key {
    let fifths = said.and_then(|key| key.number::<i8>("fifths")).unwrap_or(0);
    let mode = said.and_then(|key| key.text_of("mode")).unwrap_or("major");
    let known = mode.parse::<Mode>().ok().and_then(|mode| of_signature(fifths, mode));
    known.unwrap_or_else(|| {
        remarks.of_score("its key cannot be said in a sheet; C major is written instead");
        Key::new(PitchClass::new(Letter::C, Accidental::NATURAL), Mode::Major)
            .unwrap_or_else(|| unreachable!("C major is a key"))
    })
}

/// The key of a signature in a mode: the one whose scale has these accidentals.
fn of_signature(fifths: i8, mode: Mode) -> Option<Key> {
    let index = usize::try_from(fifths.checked_add(7)?).ok()?;
    let (letter, accidental) = *MAJOR.get(index)?;
    let major = Key::new(PitchClass::new(letter, Accidental::new(accidental)?), Mode::Major)?;
    let keys = major.scale().into_iter().filter_map(|tonic| Key::new(tonic, mode));
    keys.into_iter().find(|key| key.signature() == fifths)
}

fn meter(said: Option<&Node>, remarks: &mut Remarks) -> Meter {
    let of = |time: &Node| Meter::new(time.number("beats")?, time.number("beat-type")?);
    said.and_then(of).unwrap_or_else(|| {
        remarks.of_score("its meter cannot be said in a sheet; 2/2 is written instead");
        Meter::new(2, 2).unwrap_or_else(|| unreachable!("2/2 is a meter"))
    })
}
