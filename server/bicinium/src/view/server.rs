//! The server of the page: connections from this machine, not too many and none that dawdles. Knows
//! nothing of what is answered.

use std::convert::Infallible;
use std::io;
use std::net::Ipv4Addr;
use std::sync::Arc;
use std::time::Duration;

use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;
use tokio::task::JoinSet;

use super::answer::{self, Page};
use super::ghosts::Ghosts;
use super::guard::Address;
use super::source::Source;

/// How many connections there may be at a time; others are closed at once.
const MOST: usize = 48;
/// How long a client may take to ask.
const PATIENCE: Duration = Duration::from_secs(10);
/// The longest head of a request, in bytes.
const LONGEST: usize = 16 << 10;

/// A server that waits for a browser.
#[derive(Debug)]
pub struct Server {
    listener: TcpListener,
    page: Page,
}

impl Server {
    /// A server of the page that shows a source, on a port of this machine that no other can reach; 0
    /// stands for any that is free.
    pub async fn bind(source: Source, port: u16) -> io::Result<Self> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).await?;
        let port = listener.local_addr()?.port();
        let address = Address::new(port).ok_or_else(|| io::Error::other("no random numbers"))?;
        Ok(Self { listener, page: Page { address, source, ghosts: Ghosts::default() } })
    }

    /// The address of the page.
    pub fn address(&self) -> &Address {
        &self.page.address
    }

    /// Serves until it is dropped.
    pub async fn serve(self) {
        let seats = Arc::new(Semaphore::new(MOST));
        let page = Arc::new(self.page);
        let mut guests = JoinSet::new();
        loop {
            let Ok((stream, _)) = self.listener.accept().await else {
                // There are too many open files: wait until some are closed.
                tokio::time::sleep(Duration::from_millis(50)).await;
                continue;
            };
            let Ok(seat) = seats.clone().try_acquire_owned() else { continue };
            let page = page.clone();
            guests.spawn(async move {
                attend(stream, &page).await;
                drop(seat);
            });
            while guests.try_join_next().is_some() {}
        }
    }
}

/// Serves one connection to its end.
async fn attend(stream: TcpStream, page: &Page) {
    let service =
        service_fn(
            |request| async move { Ok::<_, Infallible>(answer::answer(&request, page).await) },
        );
    let mut builder = http1::Builder::new();
    builder.timer(TokioTimer::new()).header_read_timeout(PATIENCE).max_buf_size(LONGEST);
    // A client that breaks off is no matter.
    let _ = builder.serve_connection(TokioIo::new(stream), service).await;
}
