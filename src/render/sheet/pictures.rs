//! Pictures as they go into the file: each made ready once for the largest size it is printed at.

use std::collections::BTreeMap;

use backtack_core::scene::printed;

use super::super::package::{Picture, ROOM_COVER, ROOM_VIEW_HALF, Room};

/// The largest room a picture is printed in on any sheet: the widest and the highest.
const LARGEST: Room = Room { width: ROOM_COVER.width, height: ROOM_VIEW_HALF.height };

/// Pictures placed so far.
#[derive(Debug, Default)]
pub struct Pictures {
    /// Virtual file name to bytes.
    pub files: BTreeMap<String, Vec<u8>>,
    names: BTreeMap<String, String>,
}

impl Pictures {
    /// Places a picture; `None` if it does not decode (reading has said so).
    pub fn place(&mut self, path: &str, bytes: &[u8]) -> Option<Picture> {
        if let Some(file) = self.names.get(path) {
            return Some(Picture { file: file.clone() });
        }
        let made = printed(bytes, LARGEST.width, LARGEST.height).ok()?;
        let file = format!("pictures/{:03}.{}", self.names.len() + 1, made.ending);
        self.files.insert(file.clone(), made.bytes);
        self.names.insert(path.to_string(), file.clone());
        Some(Picture { file })
    }
}
