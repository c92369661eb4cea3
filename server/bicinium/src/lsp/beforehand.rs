//! What is made once for all sheets, before the first one is opened, so that nobody waits for it then.
//!
//! It must not know how any of it is made.

use bicinium_analysis::Shelf;

use super::client::{Ability, ClientProfile};
use crate::features::page;

/// Makes what any sheet of this client asks for. Not before the client has its first answer, which would
/// have to wait for it.
pub(super) fn make(client: &ClientProfile) {
    tokio::task::spawn_blocking(Shelf::default);
    if !client.can(Ability::CodeDescription) {
        tokio::task::spawn_blocking(page::learn_purposes);
    }
}
