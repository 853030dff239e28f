//! Pictures as they go into the file: each made ready once for the largest size it is printed at.

use std::collections::BTreeMap;

use backtack_core::model::{self, Model};
use backtack_core::scene::{Printed, printed};

use super::super::package::{Picture, ROOM_COVER, ROOM_VIEW_HALF, Room};

/// The largest room a picture is printed in on any sheet: the widest and the highest.
const LARGEST: Room = Room { width: ROOM_COVER.width, height: ROOM_VIEW_HALF.height };
/// Pictures made ready at once; more would cost memory, since each is spread out in pixels meanwhile.
const AT_ONCE: usize = 2;

/// The pictures of a model, ready to print.
#[derive(Debug, Default)]
pub struct Pictures {
    /// Path to virtual file name and bytes.
    ready: BTreeMap<String, (String, Vec<u8>)>,
}

impl Pictures {
    /// Makes every picture of a model ready; one that does not decode is left out (reading has said so).
    pub fn of(model: &Model) -> Self {
        let all: Vec<(&String, &model::Picture)> = model.pictures.iter().collect();
        let made: Vec<Option<Printed>> = all.chunks(AT_ONCE).flat_map(together).collect();
        let named = all.into_iter().zip(made).enumerate().filter_map(|(n, ((path, _), made))| {
            let made = made?;
            Some((path.clone(), (format!("pictures/{:03}.{}", n + 1, made.ending), made.bytes)))
        });
        Pictures { ready: named.collect() }
    }

    /// The picture at a path, as drawings refer to it.
    pub fn placed(&self, path: &str) -> Option<Picture> {
        self.ready.get(path).map(|(file, _)| Picture { file: file.clone() })
    }

    /// Virtual file name to bytes.
    pub fn files(&self) -> BTreeMap<String, Vec<u8>> {
        self.ready.values().cloned().collect()
    }
}

/// Makes a few pictures ready, each in a thread of its own.
fn together(some: &[(&String, &model::Picture)]) -> Vec<Option<Printed>> {
    std::thread::scope(|scope| {
        let one = |picture: &model::Picture| printed(&picture.bytes, LARGEST.width, LARGEST.height).ok();
        let workers: Vec<_> = some.iter().map(|(_, picture)| scope.spawn(move || one(picture))).collect();
        workers.into_iter().map(|worker| worker.join().ok().flatten()).collect()
    })
}
