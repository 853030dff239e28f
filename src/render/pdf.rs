//! A package as a PDF: view data, pictures and attachments in, bytes out.

use std::collections::BTreeMap;

use backtack_core::rows::package::{PAPER, Package};
use backtack_core::scene::LINES;
use backtack_core::words;
use serde::Serialize;
use serde_json::{Map, Value};

use super::engine::{Document, EngineError, Job};
use super::fonts::{self, Replaced};
use super::guard;

/// What goes into the file beside the view data.
#[derive(Debug, Clone)]
pub struct Extras {
    /// Pictures (PNG, JPEG) by the name that the drawings use.
    pub pictures: BTreeMap<String, Vec<u8>>,
    /// Files attached to the PDF.
    pub attachments: Vec<Attachment>,
    /// A stable identity of the document, the same for all its revisions.
    pub identity: String,
    /// Seconds that typesetting may take.
    pub seconds: u64,
}

/// A file attached to the PDF.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Attachment {
    /// File name: ASCII letters, digits, `-`, `_`, `.`.
    pub name: String,
    /// MIME type, such as `application/zip`.
    pub mime: String,
    /// What it is. Never empty: PDF/UA-1 asks for it.
    pub description: String,
    /// Its bytes.
    #[serde(skip)]
    pub data: Vec<u8>,
}

/// A finished package.
#[derive(Debug)]
pub struct Rendered {
    /// The PDF file.
    pub pdf: Vec<u8>,
    /// The laid-out document, for the lint and the text goldens.
    pub document: Document,
    /// Characters that no built-in font can show, printed as a placeholder; a finding says so.
    pub replaced: Vec<Replaced>,
}

/// The templates of sheets, by the names of the variants of `Sheet`.
macro_rules! sheets {
    ($($name:literal)*) => {
        /// Every template by its virtual name.
        pub const TEMPLATES: &[(&str, &str)] = &[
            ("templates/main.typ", include_str!("../../templates/main.typ")),
            ("templates/theme.typ", include_str!("../../templates/theme.typ")),
            ("templates/frame.typ", include_str!("../../templates/frame.typ")),
            ("templates/drawing.typ", include_str!("../../templates/drawing.typ")),
            ("templates/signs.typ", include_str!("../../templates/signs.typ")),
            $((
                concat!("templates/sheets/", $name, ".typ"),
                include_str!(concat!("../../templates/sheets/", $name, ".typ")),
            ),)*
        ];
        /// Finds the template of a sheet; `templates/main.typ` takes it from here.
        const SHEETS: &str = concat!(
            $("#import \"sheets/", $name, ".typ\": ", $name, "\n",)*
            "#let sheets = (", $($name, ": ", $name, ", ",)* ")\n",
        );
    };
}
sheets! {
    "cover"
    "guide"
    "questions"
    "changes"
    "samples"
    "comments"
    "views"
    "bill"
    "pieces"
    "matching"
    "marker"
    "construction"
    "filling"
    "measurements"
    "safety"
    "confirmation"
    "plan"
    "fabric"
    "bundles"
    "spreading"
    "strikes"
}

/// Typesets a package.
///
/// # Errors
/// When a template fails on the data, or the result cannot be PDF/A-3a and PDF/UA-1.
pub fn render(package: &Package, extras: &Extras) -> Result<Rendered, EngineError> {
    let (job, replaced) = job(package, extras)?;
    let output = guard::run(job, extras.seconds)?;
    Ok(Rendered { pdf: output.pdf, document: output.document, replaced })
}

/// The engine's job for a package, and the characters that were replaced in its strings.
///
/// # Errors
/// When the view data cannot be written as JSON.
pub fn job(package: &Package, extras: &Extras) -> Result<(Job, Vec<Replaced>), EngineError> {
    let mut data = words::printed(json(package)?, package.languages);
    let replaced = fonts::clean(&mut data);
    if let Value::Object(fields) = &mut data {
        fields.insert("paper".to_owned(), json(&PAPER)?);
        fields.insert("attachments".to_owned(), json(&extras.attachments)?);
        fields.insert("lines".to_owned(), Value::Object(lines()?));
    }
    let text = serde_json::to_vec(&data).map_err(|e| EngineError { messages: vec![e.to_string()] })?;
    let mut files: BTreeMap<String, Vec<u8>> =
        TEMPLATES.iter().map(|&(name, text)| (name.to_owned(), text.as_bytes().to_vec())).collect();
    files.insert("templates/sheets.typ".to_owned(), SHEETS.as_bytes().to_vec());
    files.insert("data.json".to_owned(), text);
    files.extend(extras.pictures.clone());
    files.extend(extras.attachments.iter().map(|a| (format!("attachments/{}", a.name), a.data.clone())));
    Ok((Job { files, identity: extras.identity.clone(), date: package.about.date }, replaced))
}

/// The table of line styles by name.
fn lines() -> Result<Map<String, Value>, EngineError> {
    let styles = LINES.iter().map(|style| {
        let name = json(&style.line)?.as_str().unwrap_or_default().to_owned();
        Ok((name, json(style)?))
    });
    styles.collect()
}

fn json(value: &impl Serialize) -> Result<Value, EngineError> {
    serde_json::to_value(value).map_err(|e| EngineError { messages: vec![e.to_string()] })
}
