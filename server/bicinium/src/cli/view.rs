//! `bicinium view`: the page of a sheet is served until the command is ended. It must not know what is
//! on the page.

use std::io;

use super::Outcome;
use super::arguments::View;
use super::desk::workspace;
use super::output::Output;
use super::words::shown;
use crate::view::{Server, file};

/// Serves the page, and says where it is.
pub(super) fn run(options: &View, output: &mut Output) -> io::Result<Outcome> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(serve(options, output))
}

async fn serve(options: &View, output: &mut Output) -> io::Result<Outcome> {
    let source = file::follow(&options.sheet, workspace(&options.reach, &[]));
    let trouble = source.editions.borrow().sheet.as_ref().err().cloned();
    if let Some(reason) = trouble {
        let name = shown(&options.sheet.display().to_string());
        output.complain(&format!("{name} cannot be read: {reason}."));
        return Ok(Outcome::Failed);
    }
    let server = match Server::bind(source, options.port).await {
        Ok(server) => server,
        Err(error) => {
            output
                .complain(&format!("The page cannot be shown on port {}: {error}.", options.port));
            return Ok(Outcome::Failed);
        }
    };
    output.line(&format!("The score is at {}", server.address()))?;
    output.line(
        "It follows the file. Only a browser on this machine can see it; end it with Ctrl-C.",
    )?;
    output.flush()?;
    server.serve().await;
    Ok(Outcome::Clean)
}
