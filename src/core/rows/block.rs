//! What several sheets hold: a head, a fact, a drawing with its picture.

use serde::Serialize;

use super::cell::Cell;
use crate::scene::{Scene, svg};
use crate::words::{Languages, Phrase, Word};

/// What stands at the top of a sheet.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Head {
    /// What the sheet is for, in the reader's words: "What to cut".
    pub title: Phrase,
    /// The trade's name of the sheet, large, in the contents and in bookmarks: "Pieces". Unique in the package.
    pub name: Phrase,
    /// One or two sentences on how to read it; may be empty.
    pub lead: Phrase,
}

/// A label with its value.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Fact {
    /// What it is.
    pub label: Phrase,
    /// Its value; empty for "to be filled in by hand", which prints as a ruled blank.
    pub value: Cell,
}

impl Fact {
    /// A fact of a fixed label.
    pub fn of(label: Word, value: impl Into<Cell>) -> Self {
        Fact { label: label.into(), value: value.into() }
    }
}

/// A scene on a sheet, over a picture or alone.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Drawing {
    /// A picture that fills the scene's width and height, drawn below it.
    pub picture: Option<Picture>,
    /// Lines that fill the scene and are drawn below it; the engine gets them as one SVG image, which it sets many times faster
    /// than hundreds of curves.
    #[serde(skip_serializing_if = "Option::is_none", serialize_with = "as_svg")]
    pub lines: Option<Scene>,
    /// The scene, at print size; its `alt` describes picture and scene together.
    pub scene: Scene,
    /// One line under the drawing, with the scale where there is one: "Front, 1:5". May be empty.
    pub caption: Phrase,
}

fn as_svg<S: serde::Serializer>(lines: &Option<Scene>, out: S) -> Result<S::Ok, S::Error> {
    // Lines alone hold no text.
    lines.as_ref().map(|lines| svg(lines, Languages::default())).serialize(out)
}

impl Drawing {
    /// All of it as one drawing.
    pub fn whole(&self) -> Scene {
        let lines = self.lines.iter().flat_map(|lines| &lines.items);
        Scene { items: lines.chain(&self.scene.items).cloned().collect(), ..self.scene.clone() }
    }

    /// A scene alone with a line under it.
    pub fn of(scene: Scene, caption: impl Into<Phrase>) -> Self {
        Drawing { picture: None, lines: None, scene, caption: caption.into() }
    }
}

/// A picture among the job's files.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Picture {
    /// Name of the virtual file, `"pictures/front.jpg"`: ASCII letters, digits, `-`, `.`, `/`.
    pub file: String,
}
