//! Tells Zed how to start the server: it is the program on the path.

use zed_extension_api::{self as zed, Command, LanguageServerId, Result, Worktree};

struct Bicinium;

impl zed::Extension for Bicinium {
    fn new() -> Self {
        Bicinium
    }

    fn language_server_command(&mut self, _: &LanguageServerId, worktree: &Worktree) -> Result<Command> {
        let missing = "Put the program `bicinium` on the search path.";
        let command = worktree.which("bicinium").ok_or(missing)?;
        Ok(Command { command, args: vec!["lsp".to_owned()], env: worktree.shell_env() })
    }
}

zed::register_extension!(Bicinium);
