//! What is made once for all sheets, before the first one is opened, so that nobody waits for it then.
//!
//! It must not know how any of it is made.

use bicinium_analysis::Shelf;

use super::client::{Ability, ClientProfile};
use crate::features::page;

/// Makes what any sheet asks for, while the client is still to say what it can do.
pub(super) fn make() {
    tokio::task::spawn_blocking(Shelf::default);
}

/// Makes what a client like this will be told with every finding.
pub(super) fn make_for(client: &ClientProfile) {
    if !client.can(Ability::CodeDescription) {
        tokio::task::spawn_blocking(page::learn_purposes);
    }
}
