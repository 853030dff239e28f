//! Pictures as they go into the file: each made ready once for the largest size it is printed at.

use std::collections::BTreeMap;

use backtack_core::scene::printed;

use super::super::package::Picture;

/// Pictures placed so far.
#[derive(Debug, Default)]
pub struct Pictures {
    /// Virtual file name to bytes.
    pub files: BTreeMap<String, Vec<u8>>,
    names: BTreeMap<(String, u32), String>,
}

impl Pictures {
    /// Places a picture at a printed size in mm; `None` if it does not decode (reading has said so).
    pub fn place(&mut self, path: &str, bytes: &[u8], width: f64, height: f64) -> Option<Picture> {
        let key = (path.to_string(), width.round() as u32);
        if let Some(file) = self.names.get(&key) {
            return Some(Picture { file: file.clone() });
        }
        let made = printed(bytes, width, height).ok()?;
        let file = format!("pictures/{:03}.{}", self.names.len() + 1, made.ending);
        self.files.insert(file.clone(), made.bytes);
        self.names.insert(key, file.clone());
        Some(Picture { file })
    }
}
