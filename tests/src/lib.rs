//! Placeholder replaced by the first slice.
