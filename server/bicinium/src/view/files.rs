//! The page itself: a few static files that need no build.

use super::reply::{Answer, file, framed};

/// The file of a name, where `panel` is the page for an editor that has a frame for it; `None` if there is none.
pub(super) fn named(name: &str) -> Option<Answer> {
    let script = |text| Some(file("text/javascript; charset=utf-8", text));
    let page = |text| file("text/html; charset=utf-8", text);
    match name {
        "" => Some(page(include_str!("page/index.html"))),
        "panel" => Some(framed(page(include_str!("page/index.html")))),
        "style.css" => Some(file("text/css; charset=utf-8", include_str!("page/style.css"))),
        "main.js" => script(include_str!("page/main.js")),
        "score.js" => script(include_str!("page/score.js")),
        "lists.js" => script(include_str!("page/lists.js")),
        "ghosts.js" => script(include_str!("page/ghosts.js")),
        "server.js" => script(include_str!("page/server.js")),
        "listening.js" => script(include_str!("page/listening.js")),
        "player.js" => script(include_str!("page/player.js")),
        "sound.js" => script(include_str!("page/sound.js")),
        _ => None,
    }
}
