//! `build` and `seal` on a file system that is full: whole files, or what was there before. The file system is a real one,
//! in memory; where none can be mounted these tests say so and do nothing.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::folder::Scratch;

/// A file system of so many kilobytes, gone at the end.
struct Small(PathBuf);

impl Small {
    /// Mounts one, or says why not.
    fn mount(path: &Path, kilobytes: u64) -> Option<Small> {
        std::fs::create_dir_all(path).unwrap();
        let size = format!("size={kilobytes}k,mode=755");
        let mut command = Command::new("mount");
        let done = command.args(["-t", "tmpfs", "-o", &size, "tmpfs"]).arg(path).output();
        let why = match done {
            Ok(output) if output.status.success() => return Some(Small(path.to_path_buf())),
            Ok(output) => String::from_utf8_lossy(&output.stderr).into_owned(),
            Err(error) => error.to_string(),
        };
        #[expect(clippy::print_stderr, reason = "why a test was left out")]
        {
            eprintln!(
                "skipped: no small file system can be mounted here, which takes Linux and its root: {}",
                why.trim()
            );
        }
        None
    }

    fn resize(&self, kilobytes: u64) {
        let size = format!("remount,size={kilobytes}k");
        let output = Command::new("mount").args(["-o", &size]).arg(&self.0).output().unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }
}

impl Drop for Small {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(&self.0).status();
    }
}

/// Every file with its bytes.
fn all(scratch: &Scratch) -> Vec<(String, Vec<u8>)> {
    scratch.files().into_iter().map(|name| (name.clone(), scratch.read(&name))).collect()
}

/// Runs the program on a file system that grows from run to run until there is room. A run that fails changes nothing.
fn grown(scratch: &Scratch, disk: &Small, from: u64, arguments: &[&str]) {
    let before = all(scratch);
    for step in 0..100 {
        disk.resize(from + 64 * step);
        let ran = scratch.run(arguments);
        if ran.code == 0 {
            assert!(step > 2, "it must fail before it can do: {step}");
            assert!(!scratch.files().iter().any(|name| name.ends_with(".part")));
            return;
        }
        ran.refused("the disk is full");
        let same = all(scratch) == before;
        assert!(same, "with {} kilobytes {:?} are left of {:?}", from + 64 * step, scratch.files(), before.len());
    }
    panic!("it never had room");
}

#[test]
fn a_build_on_a_full_disk_leaves_what_was_there() {
    let scratch = Scratch::new();
    scratch.bag("");
    let Some(disk) = Small::mount(&scratch.path("bag/out"), 64) else { return };
    let old = ["bag/out/ST-01-A.pdf", "bag/out/figures.json", "bag/out/drawings/piece-PANEL.svg"];
    for name in old.into_iter().chain(["bag/out/mine.txt"]) {
        scratch.write(name, "old");
    }
    grown(&scratch, &disk, 64, &["build", "bag"]);
    assert!(scratch.read(old[0]).starts_with(b"%PDF-") && scratch.read(old[1]).starts_with(b"{"));
    assert_eq!(scratch.read("bag/out/mine.txt"), b"old");
}

#[test]
fn a_seal_on_a_full_disk_leaves_the_revisions_before_it() {
    let scratch = Scratch::new();
    scratch.bag("[severity]\nno-view = \"off\"\n");
    let Some(disk) = Small::mount(&scratch.path("bag/revisions"), 8 << 10) else { return };
    let seal = |name: &'static str| ["seal", "bag", name, "--by", "Maren Oake", "--reason", "x"];
    let ran = scratch.run(&seal("A"));
    assert_eq!(ran.code, 0, "{ran:?}");
    let text = String::from_utf8(scratch.read("bag/style.toml")).unwrap();
    let (head, tail) = text.split_once("[revision]").unwrap();
    scratch.write("bag/style.toml", format!("{head}[revision]{}", tail.replacen("id = \"A\"", "id = \"B\"", 1)));
    let files = ["bag/revisions/A.pdf", "bag/revisions/A.sealed"].map(|name| scratch.read(name));
    // Whole pages of 4 kilobytes are used.
    let used: usize = files.iter().map(|bytes| bytes.len().div_ceil(4096) * 4).sum();
    grown(&scratch, &disk, used as u64 + 8, &seal("B"));
    assert_eq!(files, ["bag/revisions/A.pdf", "bag/revisions/A.sealed"].map(|name| scratch.read(name)));
    let told = scratch.run(&["verify", "bag"]);
    assert!(told.code == 0 && told.out.contains("2 as they were sealed"), "{told:?}");
}
