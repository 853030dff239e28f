//! A folder of a test's own, removed at its end, and the program run in it.

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};

pub struct Scratch(PathBuf);

impl Scratch {
    pub fn new() -> Self {
        static NEXT: AtomicUsize = AtomicUsize::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("scratch-{}-{number}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Scratch(path)
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, bytes).unwrap();
    }

    pub fn read(&self, name: &str) -> Vec<u8> {
        std::fs::read(self.path(name)).unwrap()
    }

    /// Every file below the folder, by its path.
    pub fn files(&self) -> Vec<String> {
        let mut found = Vec::new();
        walk(&self.0, &self.0, &mut found);
        found.sort();
        found
    }

    /// The program, to be run in the folder, without what the tester's own terminal wants.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_backtack"));
        command.args(arguments).current_dir(&self.0);
        for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "TERM"] {
            command.env_remove(name);
        }
        command
    }

    pub fn run(&self, arguments: &[&str]) -> Ran {
        Ran::of(&self.command(arguments).output().unwrap())
    }

    /// A line typed into a shell in the folder, which is also the reader's home, where the program is found by its name.
    pub fn typed(&self, line: &str) -> Ran {
        let program = Path::new(env!("CARGO_BIN_EXE_backtack")).parent().unwrap();
        let path = format!("{}:{}", program.display(), std::env::var("PATH").unwrap_or_default());
        let mut shell = Command::new("sh");
        shell.args(["-c", line]).current_dir(&self.0).env("PATH", path).env("HOME", &self.0).stdin(Stdio::null());
        for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "TERM"] {
            shell.env_remove(name);
        }
        Ran::of(&shell.output().unwrap())
    }

    /// The starting folder of a bag, and in it the file `more.toml` with this text.
    pub fn bag(&self, more: &str) {
        self.start("bag", "bag");
        self.write("bag/more.toml", more);
    }

    /// A starting folder of a kind, with words of its owner where only the owner knows what belongs there.
    pub fn start(&self, folder: &str, kind: &str) {
        assert_eq!(self.run(&["new", folder, "--kind", kind]).code, 0);
        self.own(folder);
    }

    /// Takes away what `new` writes behind each text that only the owner knows.
    pub fn own(&self, folder: &str) {
        for name in self.files().into_iter().filter(|name| name.starts_with(folder) && name.ends_with(".toml")) {
            let text = String::from_utf8(self.read(&name)).unwrap();
            self.write(&name, text.replace(" (change me)", ""));
        }
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn walk(root: &Path, folder: &Path, out: &mut Vec<String>) {
    for entry in std::fs::read_dir(folder).unwrap().flatten() {
        let path = entry.path();
        if path.is_dir() {
            walk(root, &path, out);
        } else {
            out.push(path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/"));
        }
    }
}

/// What a run of the program gave.
#[derive(Debug)]
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Ran {
    pub fn of(output: &Output) -> Self {
        let ran = Ran {
            code: output.status.code().unwrap_or(-1),
            out: String::from_utf8(output.stdout.clone()).unwrap(),
            err: String::from_utf8(output.stderr.clone()).unwrap(),
        };
        assert!((0..=2).contains(&ran.code), "{ran:?}");
        assert!(!ran.err.contains("panicked"), "{ran:?}");
        ran
    }

    /// That the program could not be run, and said why in one line.
    pub fn refused(&self, why: &str) {
        assert_eq!(self.code, 2, "{self:?}");
        assert_eq!(self.out, "", "{self:?}");
        assert!(self.err.starts_with("backtack: ") && self.err.ends_with('\n'), "{self:?}");
        assert_eq!(self.err.matches('\n').count(), 1, "{self:?}");
        assert!(self.err.contains(why), "{self:?} does not say {why}");
    }
}
