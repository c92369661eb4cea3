//! Published examples under the school they belong to. The sheets and tables stand in
//! `tests/worked/`, whose README names the sources and discusses what differs.

#![allow(clippy::unwrap_used)]

mod figures;
mod fux;
mod grove;
mod lehmann;
mod readings;
mod sheets;
mod tables;
