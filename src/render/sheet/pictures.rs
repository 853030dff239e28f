//! Pictures as they go into the file: each made ready once for the largest size it is printed at.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};

use backtack_core::model::{self, Medium, Model};
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
        let mut made = in_turn(&all);
        let named = all.iter().enumerate().filter_map(|(at, (path, _))| {
            let made = made.remove(&at)?;
            Some(((*path).clone(), (format!("pictures/{:03}.{}", at + 1, made.ending), made.bytes)))
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

/// Makes pictures ready, a few at a time; each goes to whoever is free.
fn in_turn(all: &[(&String, &model::Picture)]) -> BTreeMap<usize, Printed> {
    let next = AtomicUsize::new(0);
    let work = || {
        let mut done = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some((_, picture)) = all.get(at) else { return done };
            done.extend(ready(picture).map(|made| (at, made)));
        }
    };
    std::thread::scope(|scope| {
        let workers: Vec<_> = (0..AT_ONCE).map(|_| scope.spawn(work)).collect();
        workers.into_iter().flat_map(|worker| worker.join().unwrap_or_default()).collect()
    })
}

/// A picture at the largest size it is printed at; lines have none.
fn ready(picture: &model::Picture) -> Option<Printed> {
    match picture.medium {
        Medium::Pixels => printed(&picture.bytes, LARGEST.width, LARGEST.height).ok(),
        Medium::Lines => Some(Printed { bytes: picture.bytes.to_vec(), ending: "svg" }),
    }
}
