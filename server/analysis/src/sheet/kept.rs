//! What readers have made of a block, kept with it: an edit elsewhere moves the block, and what was
//! made of it with offsets from its start need not be made again. Knows nothing of what is kept.

use std::any::Any;
use std::fmt;
use std::sync::{Arc, Mutex, PoisonError};

/// Things made of a block, one of each type.
#[derive(Default)]
pub struct Kept {
    things: Mutex<Vec<Arc<dyn Any + Send + Sync>>>,
}

impl Kept {
    /// The thing of a type; made if it is asked for the first time, and made anew if the one that is
    /// known is not current any more.
    pub fn get_or_make<T: Any + Send + Sync>(
        &self,
        is_current: impl Fn(&T) -> bool,
        make: impl FnOnce() -> T,
    ) -> Arc<T> {
        let known = self.find().filter(|known| is_current(known));
        known.unwrap_or_else(|| {
            // Made outside the lock: who makes it may ask for something else of the block.
            let thing = Arc::new(make());
            let mut things = self.things.lock().unwrap_or_else(PoisonError::into_inner);
            things.retain(|old| !(**old).is::<T>());
            things.push(thing.clone());
            thing
        })
    }

    /// The thing of a type, if it has been made.
    pub fn find<T: Any + Send + Sync>(&self) -> Option<Arc<T>> {
        let things = self.things.lock().unwrap_or_else(PoisonError::into_inner);
        let thing = things.iter().find(|thing| (***thing).is::<T>())?;
        thing.clone().downcast().ok()
    }
}

impl fmt::Debug for Kept {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Kept")
    }
}
