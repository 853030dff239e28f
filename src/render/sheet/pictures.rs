//! Pictures as they go into the file: each made ready once for the largest size it is printed at.

use std::collections::BTreeMap;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};

use backtack_core::compute::samples::SampleFigures;
use backtack_core::model::{self, Medium, Model};
use backtack_core::scene::printed;

use super::super::package::{Picture, ROOM_COVER, ROOM_VIEW_HALF, Room};

/// The largest room a picture is printed in on any sheet: the widest and the highest.
const LARGEST: Room = Room { width: ROOM_COVER.width, height: ROOM_VIEW_HALF.height };
/// Pictures made ready at once; more would cost memory, since each is spread out in pixels meanwhile.
const AT_ONCE: usize = 2;

/// The picture at a path, as drawings refer to it.
pub fn placed(model: &Model, path: &str) -> Option<Picture> {
    let number = model.pictures.keys().position(|one| one == path)?;
    Some(Picture { file: name(number, model.pictures.get(path)?) })
}

/// The virtual file of a picture by its place among all.
fn name(number: usize, picture: &model::Picture) -> String {
    format!("pictures/{:03}.{}", number + 1, picture.medium.ending())
}

/// The picture of a comment among all of the own edition, with its width and height.
pub fn commented(own: &BTreeMap<String, model::Picture>, path: &str) -> Option<(Picture, [f64; 2])> {
    let number = own.keys().position(|one| one == path)?;
    let picture = own.get(path)?;
    Some((Picture { file: format!("comments/{}", name(number, picture)) }, [picture.width, picture.height]))
}

/// Every picture of a model and of the comments on it made ready, by the name of its virtual file; a few at a time, each goes
/// to whoever is free. One that cannot be made ready is left out, and the engine says that it is missing: reading has decoded
/// it before.
pub fn ready(
    model: &Model,
    own: &BTreeMap<String, model::Picture>,
    samples: &SampleFigures,
) -> BTreeMap<String, Vec<u8>> {
    let drawn = model.pictures.values().enumerate().map(|(at, picture)| (name(at, picture), picture));
    let of_comments = samples.comments.iter().filter_map(|comment| {
        let path = comment.picture.as_ref()?;
        Some((commented(own, path)?.0.file, own.get(path)?))
    });
    let all: Vec<(String, &model::Picture)> = drawn.chain(of_comments).collect();
    let next = AtomicUsize::new(0);
    let work = || {
        let mut done = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some((name, picture)) = all.get(at) else { return done };
            done.extend(bytes(picture).map(|bytes| (name.clone(), bytes)));
        }
    };
    std::thread::scope(|scope| {
        let workers: Vec<_> = (0..AT_ONCE).map(|_| scope.spawn(work)).collect();
        workers.into_iter().flat_map(|worker| worker.join().unwrap_or_else(|panic| resume_unwind(panic))).collect()
    })
}

/// A picture at the largest size it is printed at; lines have none.
fn bytes(picture: &model::Picture) -> Option<Vec<u8>> {
    match picture.medium {
        Medium::Png | Medium::Jpeg => printed(&picture.bytes, LARGEST.width, LARGEST.height).ok(),
        Medium::Svg => Some(picture.bytes.to_vec()),
    }
}
