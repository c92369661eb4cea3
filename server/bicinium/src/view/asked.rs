//! What may be asked of the page's server, read from a path and what follows its question mark. Knows no
//! answers.

use bicinium_export::Extra;
use hyper::StatusCode;

use super::content::Wish;
use super::guard::Admitted;
use super::places::Spot;

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    /// One of the page's own files, by its name.
    File(String),
    /// What is in the sheet.
    Sheet,
    /// An exercise as it stands.
    Exercise(Wish),
    /// An exercise with one of the choices for an open place tried.
    Tried(Wish, Spot, usize),
    /// What an open place may become.
    Openings(Spot),
    /// Word of whatever changes.
    News,
    /// That the editor selects a note.
    Select(Spot),
    /// That the editor writes one of the choices for an open place, as found in an edition.
    Write(Spot, usize, u64),
}

impl Asked {
    /// Reads a request that was let in; or why it is refused.
    pub(super) fn read(request: &Admitted<'_>) -> Result<Self, StatusCode> {
        let query = Query(request.query);
        let asked = match (request.path, request.changes) {
            ("select", true) => query.spot().map(Self::Select),
            ("write", true) => query.written(),
            ("select" | "write", false) | (_, true) => return Err(StatusCode::METHOD_NOT_ALLOWED),
            ("sheet.json", _) => Some(Self::Sheet),
            ("exercise.json", _) => query.exercise(),
            ("openings.json", _) => query.spot().map(Self::Openings),
            ("events", _) => Some(Self::News),
            (name, _) => Some(Self::File(name.to_owned())),
        };
        asked.ok_or(StatusCode::NOT_FOUND)
    }
}

/// `number=2&width=180&show=figures,findings`.
struct Query<'a>(&'a str);

impl Query<'_> {
    fn value(&self, name: &str) -> Option<&str> {
        let mut pairs = self.0.split('&').filter_map(|pair| pair.split_once('='));
        pairs.find(|(key, _)| *key == name).map(|(_, value)| value)
    }

    fn number<T: std::str::FromStr>(&self, name: &str) -> Option<T> {
        self.value(name)?.parse().ok()
    }

    fn spot(&self) -> Option<Spot> {
        let (number, at) = (self.number("number")?, self.number("at")?);
        Some(Spot { number, voice: self.number("voice")?, at })
    }

    fn wish(&self) -> Option<Wish> {
        let extra = |name: &str| match name {
            "figures" => Some(Extra::Figures),
            "harmonies" => Some(Extra::Harmonies),
            "findings" => Some(Extra::Findings),
            _ => None,
        };
        let extras = self.value("show").unwrap_or_default().split(',').filter_map(extra).collect();
        Some(Wish { number: self.number("number")?, width: self.number("width")?, extras })
    }

    fn exercise(&self) -> Option<Asked> {
        let wish = self.wish()?;
        match self.value("choice") {
            None => Some(Asked::Exercise(wish)),
            Some(choice) => Some(Asked::Tried(wish, self.spot()?, choice.parse().ok()?)),
        }
    }

    fn written(&self) -> Option<Asked> {
        Some(Asked::Write(self.spot()?, self.number("choice")?, self.number("edition")?))
    }
}
