//! The source of a page that follows a file: there is a new edition whenever the file changes, or one of
//! the sheets and rulebooks that it takes something from. Knows nothing of who looks on.

mod followed;
mod sheet;

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use tokio::sync::watch;
use tokio::task::spawn_blocking;

use self::followed::Followed;
use super::source::Source;
use crate::workspace::Workspace;

/// How often files are looked at. Looking takes some microseconds for each.
const PAUSE: Duration = Duration::from_millis(15);

/// The source of a file, which follows it until nobody looks on any more. The sheet may use what the
/// workspace admits.
pub fn follow(path: &Path, workspace: Workspace) -> Source {
    let mut followed = Followed::new(path, workspace);
    let (sender, editions) = watch::channel(Arc::new(followed.edition(0)));
    tokio::spawn(async move {
        while !sender.is_closed() {
            tokio::time::sleep(PAUSE).await;
            if !followed.has_changed() {
                continue;
            }
            let renewing = spawn_blocking(move || (followed.renew(), followed));
            let Ok((is_news, renewed)) = renewing.await else { return };
            followed = renewed;
            if is_news {
                let number = sender.borrow().number + 1;
                sender.send_replace(Arc::new(followed.edition(number)));
            }
        }
    });
    Source { editions, editor: None }
}
