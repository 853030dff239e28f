//! The one form of archive there is: a zip of stored files, every byte of it fixed by the names and bytes of the files. The
//! writer is ours so that no later version of a library can change that form, and the reader takes nothing else.
//!
//! Each file is a local header, its name and its bytes; the central directory and the end record follow (PKWARE
//! APPNOTE.TXT 6.3.10, section 4.3). Names are UTF-8 (flag bit 11), the date is 1 January 1980, there are no extra fields,
//! no comments, no encryption, no second disk.

use std::collections::BTreeSet;

/// Files of one archive, at most.
pub const MOST_FILES: usize = 20_000;
/// Bytes of one name, at most.
const LONGEST_NAME: usize = 400;
/// Bytes of one archive, at most; well below what the format holds.
pub const LARGEST: usize = 1 << 30;

const LOCAL: &[u8] = b"PK\x03\x04";
const CENTRAL: &[u8] = b"PK\x01\x02";
const END: &[u8] = b"PK\x05\x06";
/// Length of a local header without its name.
const LOCAL_LENGTH: usize = 30;

/// A file of an archive: its name, and its bytes in the archive.
pub type Member<'a> = (&'a str, &'a [u8]);

/// What is wrong with an archive, or with what should become one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ArchiveFault {
    /// There are more files than an archive takes.
    TooMany,
    /// It holds more files than an archive takes.
    Flooded,
    /// Two files have this name.
    Twice(String),
    /// It is larger than an archive may be.
    Large,
    /// A name is longer than it may be.
    LongName,
    /// A name is no path below a folder.
    Path(String),
    /// It is none of ours.
    Foreign,
    /// From this byte on it cannot be read.
    Unread(usize),
    /// It ends at this byte.
    CutOff(usize),
    /// At this byte it is not as it would be written.
    Changed(Part, usize),
}

/// A part of an archive.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part {
    /// The checksum of a file, which its bytes do not match.
    Checksum(String),
    /// The header of a file.
    Header(String),
    /// The list of files at its end.
    List,
}

impl std::fmt::Display for ArchiveFault {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            ArchiveFault::TooMany => write!(out, "there are more than {MOST_FILES} files"),
            ArchiveFault::Flooded => write!(out, "it holds more than {MOST_FILES} files"),
            ArchiveFault::Twice(name) => write!(out, "two files are called {name}"),
            ArchiveFault::Large => write!(out, "it is larger than {} MB", LARGEST >> 20),
            ArchiveFault::LongName => write!(out, "a name is longer than {LONGEST_NAME} bytes"),
            ArchiveFault::Path(name) => write!(out, "\"{}\" is no path below a folder", name.escape_debug()),
            ArchiveFault::Foreign => out.write_str("it is no archive of backtack"),
            ArchiveFault::Unread(byte) => write!(out, "from byte {byte} on it is cut off or was changed"),
            ArchiveFault::CutOff(byte) => write!(out, "it is cut off at byte {byte}"),
            ArchiveFault::Changed(part, byte) => write!(out, "{part} (byte {byte})"),
        }
    }
}

impl std::fmt::Display for Part {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Part::Checksum(name) => write!(out, "{name} does not match its checksum"),
            Part::Header(name) => write!(out, "the header of {name} was changed"),
            Part::List => out.write_str("the list of files at its end was changed"),
        }
    }
}

impl std::error::Error for ArchiveFault {}

/// An archive could not be written.
#[derive(Debug)]
pub struct ArchiveError(ArchiveFault);

impl std::fmt::Display for ArchiveError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "cannot write the archive: {}", self.0)
    }
}

impl std::error::Error for ArchiveError {}

/// One stored (uncompressed) zip of the files in the given order, each dated 1980-01-01, so that the same files make
/// the same bytes anywhere.
///
/// # Errors
/// If two files have one name, a name cannot be that of a file below a folder, or there is too much of it.
pub fn stored<'a>(files: impl IntoIterator<Item = Member<'a>>) -> Result<Vec<u8>, ArchiveError> {
    let files: Vec<Member<'_>> = files.into_iter().collect();
    fit(&files).map_err(ArchiveError)?;
    let mut out = Vec::with_capacity(length(&files));
    written(&files, &mut |part| out.extend_from_slice(part));
    Ok(out)
}

/// Whether these can be the files of an archive: what is in the way.
fn fit(files: &[Member<'_>]) -> Result<(), ArchiveFault> {
    if files.len() > MOST_FILES {
        return Err(ArchiveFault::TooMany);
    }
    let mut names = BTreeSet::new();
    for (name, _) in files {
        named(name)?;
        if !names.insert(*name) {
            return Err(ArchiveFault::Twice((*name).into()));
        }
    }
    if length(files) > LARGEST { Err(ArchiveFault::Large) } else { Ok(()) }
}

/// Whether a name is that of a file below a folder, on any system: relative, without a step up, a drive, a control
/// character or an empty part.
///
/// # Errors
/// Says what is wrong with it.
pub fn named(name: &str) -> Result<(), ArchiveFault> {
    let part = |part: &str| part.is_empty() || part == "." || part == ".." || part.ends_with(['.', ' ']);
    let wrong = name.contains(['\\', ':']) || name.chars().any(char::is_control) || name.split('/').any(part);
    match () {
        () if name.len() > LONGEST_NAME => Err(ArchiveFault::LongName),
        () if wrong => Err(ArchiveFault::Path(name.into())),
        () => Ok(()),
    }
}

fn length(files: &[Member<'_>]) -> usize {
    files.iter().map(|(name, bytes)| LOCAL_LENGTH + 46 + 2 * name.len() + bytes.len()).sum::<usize>() + 22
}

/// Writes an archive part by part.
fn written(files: &[Member<'_>], put: &mut dyn FnMut(&[u8])) {
    let mut directory = Vec::new();
    let mut at = 0;
    for (name, bytes) in files {
        let about = about(name, bytes);
        put(LOCAL);
        put(&about);
        put(name.as_bytes());
        put(bytes);
        directory.extend_from_slice(CENTRAL);
        // Made by: 2.0 on a system with permissions.
        directory.extend([20, 3]);
        directory.extend_from_slice(&about);
        // No comment, disk 0, no inner attributes; a plain file that all may read.
        directory.extend([0; 6]);
        directory.extend(four(0o100_644 << 16));
        directory.extend(four(at));
        directory.extend_from_slice(name.as_bytes());
        at += LOCAL_LENGTH + name.len() + bytes.len();
    }
    put(&directory);
    put(END);
    put(&[0; 4]);
    let count = two(files.len());
    put(&[count, count].concat());
    put(&four(directory.len()));
    put(&four(at));
    put(&[0; 2]);
}

/// What the local header and the central directory say alike: version, flags, method, time, date, checksum, sizes, lengths.
fn about(name: &str, bytes: &[u8]) -> [u8; 26] {
    let mut all = [0; 26];
    let sum = crc32fast::hash(bytes).to_le_bytes();
    let parts: [&[u8]; 6] =
        [&[20, 0, 0, 8, 0, 0, 0, 0, 0x21, 0], &sum, &four(bytes.len()), &four(bytes.len()), &two(name.len()), &[0; 2]];
    for (to, from) in all.iter_mut().zip(parts.concat()) {
        *to = from;
    }
    all
}

/// Sizes are far below what four bytes hold; see [`LARGEST`].
fn four(number: usize) -> [u8; 4] {
    u32::try_from(number).unwrap_or(u32::MAX).to_le_bytes()
}

fn two(number: usize) -> [u8; 2] {
    u16::try_from(number).unwrap_or(u16::MAX).to_le_bytes()
}

/// Reads an archive of exactly the form that [`stored()`] writes. The bytes of its files are not copied.
///
/// # Errors
/// Names the first thing that is not as it would be written again.
pub fn unpacked(bytes: &[u8]) -> Result<Vec<Member<'_>>, ArchiveFault> {
    let mut files = Vec::new();
    let mut rest = bytes;
    while rest.starts_with(LOCAL) {
        if files.len() == MOST_FILES {
            return Err(ArchiveFault::Flooded);
        }
        let (file, after) = local(rest).ok_or_else(|| cut(bytes, rest))?;
        files.push(file);
        rest = after;
    }
    let ends = rest.starts_with(CENTRAL) || files.is_empty() && rest.starts_with(END);
    if !ends {
        return Err(if files.is_empty() { ArchiveFault::Foreign } else { cut(bytes, rest) });
    }
    fit(&files)?;
    same(&files, bytes)?;
    Ok(files)
}

fn cut(bytes: &[u8], rest: &[u8]) -> ArchiveFault {
    ArchiveFault::Unread(bytes.len() - rest.len())
}

/// One file and what follows it.
fn local(rest: &[u8]) -> Option<(Member<'_>, &[u8])> {
    let number = |at: usize, length: usize| -> Option<usize> {
        Some(rest.get(at..at + length)?.iter().rev().fold(0, |sum, byte| sum << 8 | usize::from(*byte)))
    };
    let (size, name) = (number(22, 4)?, number(26, 2)?);
    let (head, rest) = rest.split_at_checked(LOCAL_LENGTH + name)?;
    let (bytes, rest) = rest.split_at_checked(size)?;
    Some(((std::str::from_utf8(head.get(LOCAL_LENGTH..)?).ok()?, bytes), rest))
}

/// Whether an archive of these files is these bytes.
fn same(files: &[Member<'_>], bytes: &[u8]) -> Result<(), ArchiveFault> {
    let (mut at, mut wrong) = (0, None);
    written(files, &mut |part| {
        let there = bytes.get(at..).unwrap_or_default();
        if wrong.is_none() && !there.starts_with(part) {
            wrong = Some(at + part.iter().zip(there).take_while(|(a, b)| a == b).count());
        }
        at += part.len();
    });
    match wrong.or((at != bytes.len()).then_some(at)) {
        None => Ok(()),
        Some(wrong) if wrong >= bytes.len() => Err(ArchiveFault::CutOff(wrong)),
        Some(wrong) => Err(ArchiveFault::Changed(place(files, wrong), wrong)),
    }
}

/// What is at a byte that is not as it should be.
fn place(files: &[Member<'_>], wrong: usize) -> Part {
    let mut at = 0;
    for (name, bytes) in files {
        let start = at;
        at += LOCAL_LENGTH + name.len() + bytes.len();
        if wrong < at {
            // Bytes and names are compared with themselves; the checksum tells that they were changed.
            let sum = (start + 14..start + 18).contains(&wrong);
            return if sum { Part::Checksum((*name).into()) } else { Part::Header((*name).into()) };
        }
    }
    Part::List
}
