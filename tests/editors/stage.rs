//! A home of its own for one editor: a folder with the sheet, and a `bicinium` on the path that
//! leaves word of every server that was started.
//!
//! It must not know any editor.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use bicinium_tests::bicinium;
use tempfile::TempDir;

/// The sheet that all editors open.
pub const SHEET: &str = include_str!("mill.bicinium");

/// Longer than any editor takes; nothing is measured by it.
const PATIENCE: Duration = Duration::from_secs(150);

/// How many bytes of an editor's log are told when it fails.
const LAST_WORDS: usize = 2000;

/// Where an editor runs.
pub struct Stage {
    folder: TempDir,
}

impl Stage {
    /// A new home with the sheet in it.
    pub fn new() -> Self {
        let stage = Stage { folder: TempDir::new().expect("there is room for a folder") };
        for folder in ["bin", "home", "run", "sheets"] {
            fs::create_dir(stage.path(folder)).expect("a new folder is empty");
        }
        fs::set_permissions(stage.path("run"), fs::Permissions::from_mode(0o700)).expect("ours");
        fs::write(stage.sheet(), SHEET).expect("the sheet can be written");
        stage.put_server_on_the_path();
        stage
    }

    /// A path inside the home.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The sheet.
    pub fn sheet(&self) -> PathBuf {
        self.path("sheets/mill.bicinium")
    }

    /// Where the editor's script tells what it saw.
    pub fn story(&self) -> PathBuf {
        self.path("story.json")
    }

    /// A command that runs at home: with the server on its path and settings of its own.
    pub fn command(&self, program: &Path) -> Command {
        let mut command = Command::new(program);
        let path = std::env::var_os("PATH").unwrap_or_default();
        let path = [self.path("bin")].into_iter().chain(std::env::split_paths(&path));
        command
            .env("PATH", std::env::join_paths(path).expect("no folder has a colon in its name"))
            .env("HOME", self.path("home"))
            .env("XDG_CONFIG_HOME", self.path("home/.config"))
            .env("XDG_DATA_HOME", self.path("home/.local/share"))
            .env("XDG_STATE_HOME", self.path("home/.local/state"))
            .env("XDG_CACHE_HOME", self.path("home/.cache"))
            .env("XDG_RUNTIME_DIR", self.path("run"))
            .env("LANG", "C.UTF-8")
            .env("LC_ALL", "C.UTF-8")
            .env("BICINIUM_EDITORS", editors())
            .env("BICINIUM_SHEET", self.sheet())
            .env("BICINIUM_STORY", self.story())
            .current_dir(self.path("sheets"))
            .stdin(Stdio::null());
        command
    }

    /// Runs a command to its end.
    ///
    /// # Panics
    /// When it does not end, or not well; what it wrote is told.
    pub fn run(&self, command: &mut Command) {
        let log = self.path("log");
        let file = || fs::File::options().create(true).append(true).open(&log).expect("a log");
        let mut child = command.stdout(file()).stderr(file()).spawn().expect("the editor starts");
        let status = wait(&mut child);
        let log = fs::read(&log).unwrap_or_default();
        let log = String::from_utf8_lossy(&log[log.len().saturating_sub(LAST_WORDS)..]);
        assert!(status == Some(0), "the editor ended with {status:?}: {log}\n{}", self.told());
    }

    /// What the script has told so far.
    pub fn told(&self) -> String {
        fs::read_to_string(self.story()).unwrap_or_default()
    }

    /// Holds that at least one server was started and that none is left.
    pub fn has_no_server_left(&self) {
        let started = fs::read_to_string(self.path("servers")).unwrap_or_default();
        assert!(!started.is_empty(), "no server was started");
        for id in started.lines() {
            assert!(is_gone(id), "the server {id} outlived its editor");
        }
    }

    fn put_server_on_the_path(&self) {
        let servers = self.path("servers");
        let script = format!(
            "#!/bin/sh\n[ \"$1\" = lsp ] && echo $$ >> '{}'\nexec '{}' \"$@\"\n",
            servers.display(),
            bicinium().display()
        );
        let program = self.path("bin/bicinium");
        fs::write(&program, script).expect("the script can be written");
        fs::set_permissions(&program, fs::Permissions::from_mode(0o755)).expect("ours");
    }
}

/// The packages as they are in the checkout.
pub fn editors() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../editors").canonicalize().expect("it is there")
}

/// The scripts that drive the editors.
pub fn script(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("editors/scripts").join(name)
}

fn wait(child: &mut Child) -> Option<i32> {
    let deadline = Instant::now() + PATIENCE;
    while Instant::now() < deadline {
        if let Some(status) = child.try_wait().expect("the editor can be asked after") {
            return status.code();
        }
        sleep(Duration::from_millis(20));
    }
    // Fails only for an editor that has just ended.
    let _ = child.kill();
    let _ = child.wait();
    None
}

/// Whether a process has ended, or does so within a while: servers leave after their editors.
fn is_gone(id: &str) -> bool {
    let process = Path::new("/proc").join(id).join("cmdline");
    let lives = || fs::read_to_string(&process).is_ok_and(|line| line.contains("bicinium"));
    (0..500).any(|_| {
        let gone = !lives();
        if !gone {
            sleep(Duration::from_millis(20));
        }
        gone
    })
}
