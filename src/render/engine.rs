//! The typesetting engine: virtual files in, a PDF and laid-out pages out.
//!
//! This file and its child `frames` are the only ones that import it. The engine sees a handful of virtual
//! files and nothing else: no disk, no network, no clock, no installed fonts.

mod frames;

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::ecow::EcoVec;
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook, FontWeight};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use super::page::Page;

/// The file that the engine starts with.
const MAIN: &str = "templates/main.typ";

/// Everything one run of the engine reads.
#[derive(Debug, Clone, Default)]
pub struct Job {
    /// Virtual files by name: templates, `data.json`, pictures, attachments.
    pub files: BTreeMap<String, Vec<u8>>,
    /// A stable identity of the document, the same for all its revisions.
    pub identity: String,
    /// Date of issue as year, month, day: the only date in the file.
    pub date: [u16; 3],
}

/// What a run gives.
#[derive(Debug)]
pub struct Output {
    /// The PDF file: PDF/A-3a and PDF/UA-1.
    pub pdf: Vec<u8>,
    /// The laid-out document.
    pub document: Document,
}

/// A laid-out document, kept for the lint.
#[derive(Debug)]
pub struct Document(PagedDocument);

impl Document {
    /// The pages as plain data.
    #[must_use]
    pub fn pages(&self) -> Vec<Page> {
        frames::pages(&self.0)
    }

    /// The page on which each sheet begins, from 1.
    #[must_use]
    pub fn starts(&self) -> Vec<usize> {
        frames::starts(&self.0)
    }

    /// How many pages there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.0.pages().len()
    }
}

/// Why there is no PDF. Each message names a template and a line where the engine knows one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EngineError {
    /// The messages, warnings included: a warning is an error here.
    pub messages: Vec<String>,
}

impl std::fmt::Display for EngineError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "the package could not be typeset: {}", self.messages.join("; "))
    }
}

impl std::error::Error for EngineError {}

/// Typesets a job and exports it.
///
/// # Errors
/// When the engine reports an error or a warning, or the document cannot be PDF/A-3a and PDF/UA-1.
pub fn run(job: &Job) -> Result<Output, EngineError> {
    let _cache = Cache;
    let world = Shelf::new(job)?;
    let compiled = typst::compile::<PagedDocument>(&world);
    let document = compiled.output.map_err(|errors| world.explain(&errors))?;
    if !compiled.warnings.is_empty() {
        return Err(world.explain(&compiled.warnings));
    }
    let options = options(job)?;
    let pdf = typst_pdf::pdf(&document, &options).map_err(|errors| world.explain(&errors))?;
    Ok(Output { pdf, document: Document(document) })
}

/// Whether the built-in fonts have a glyph for a character, in both weights: what [`backtack_core::glyphs`] must say too.
#[must_use]
pub fn covers(c: char) -> bool {
    let has = |font: &Font| font.info().coverage.contains(c.into());
    let in_weight = |weight| FONTS.1.iter().any(|font| font.info().variant.weight == weight && has(font));
    in_weight(FontWeight::REGULAR) && in_weight(FontWeight::BOLD)
}

/// Empties the engine's cache on every way out, so that a run leaves nothing behind.
struct Cache;

impl Drop for Cache {
    fn drop(&mut self) {
        typst::comemo::evict(0);
    }
}

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

static FONTS: LazyLock<(LazyHash<FontBook>, Vec<Font>)> = LazyLock::new(|| {
    let files: [&'static [u8]; 4] = [
        include_bytes!("../../templates/fonts/NotoSansSC-Regular.subset.ttf"),
        include_bytes!("../../templates/fonts/NotoSansSC-Bold.subset.ttf"),
        include_bytes!("../../templates/fonts/NotoSans-Regular.subset.ttf"),
        include_bytes!("../../templates/fonts/NotoSans-Bold.subset.ttf"),
    ];
    let fonts: Vec<Font> = files.into_iter().filter_map(|data| Font::new(Bytes::new(data), 0)).collect();
    (LazyHash::new(FontBook::from_fonts(&fonts)), fonts)
});

/// The world of one job: its virtual files and the built-in fonts.
struct Shelf {
    files: BTreeMap<String, Bytes>,
    sources: BTreeMap<String, Source>,
    main: FileId,
}

impl Shelf {
    fn new(job: &Job) -> Result<Self, EngineError> {
        let mut shelf = Self { files: BTreeMap::new(), sources: BTreeMap::new(), main: id(MAIN)? };
        for (name, data) in &job.files {
            if name.ends_with(".typ") {
                let source = Source::new(id(name)?, String::from_utf8_lossy(data).into_owned());
                shelf.sources.insert(name.clone(), source);
            }
            shelf.files.insert(name.clone(), Bytes::new(data.clone()));
        }
        Ok(shelf)
    }

    /// Messages with the template and line they point at.
    fn explain(&self, diagnostics: &EcoVec<SourceDiagnostic>) -> EngineError {
        EngineError { messages: diagnostics.iter().map(|d| self.message(d)).collect() }
    }

    fn message(&self, diagnostic: &SourceDiagnostic) -> String {
        let trace = diagnostic.trace.iter().map(|point| point.span.into());
        let places = std::iter::once(diagnostic.span).chain(trace);
        let places: Vec<String> = places.filter_map(|span| self.place(span)).collect();
        let hints: String = diagnostic.hints.iter().map(|hint| format!(" ({})", hint.v)).collect();
        format!("{}{hints} [{}]", diagnostic.message, places.join(" < "))
    }

    fn place(&self, span: typst::syntax::DiagSpan) -> Option<String> {
        let file = span.id()?;
        let start = self.range(span)?.start;
        let line = self.source(file).ok()?.lines().byte_to_line(start)?;
        Some(format!("{}:{}", file.get().vpath().get_without_slash(), line + 1))
    }
}

/// The file of an id, which must be one of the job's and of no package.
fn find<T: Clone>(files: &BTreeMap<String, T>, id: FileId) -> FileResult<T> {
    let path = id.get();
    let name = path.vpath().get_without_slash();
    let known = files.get(name).filter(|_| matches!(path.root(), VirtualRoot::Project));
    known.cloned().ok_or_else(|| FileError::NotFound(PathBuf::from(name)))
}

fn id(name: &str) -> Result<FileId, EngineError> {
    let path = VirtualPath::new(name)
        .map_err(|_| EngineError { messages: vec![format!("`{name}` is no name for a virtual file")] })?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for Shelf {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &FONTS.0
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        find(&self.sources, id)
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        find(&self.files, id)
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.1.get(index).cloned()
    }

    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn options(job: &Job) -> Result<PdfOptions, EngineError> {
    let refuse = |message: String| EngineError { messages: vec![message] };
    let standards =
        PdfStandards::new(&[PdfStandard::A_3a, PdfStandard::Ua_1]).map_err(|e| refuse(e.message().to_string()))?;
    let [year, month, day] = job.date;
    let small = |n: u16| u8::try_from(n).unwrap_or(0);
    let date = Datetime::from_ymd_hms(i32::from(year), small(month), small(day), 0, 0, 0)
        .ok_or_else(|| refuse(format!("{year}-{month}-{day} is no date")))?;
    Ok(PdfOptions {
        ident: Smart::Custom(job.identity.clone()),
        creator: Smart::Custom(Some(format!("backtack {}", env!("CARGO_PKG_VERSION")))),
        timestamp: Some(Timestamp::new_utc(date)),
        standards,
        ..PdfOptions::default()
    })
}
