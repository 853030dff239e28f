//! Pictures as they go into the file: each made ready once for the largest size it is printed at.

use std::collections::BTreeMap;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};

use backtack_core::model::{Medium, Picture};
use backtack_core::rows::package::{ROOM_COVER, ROOM_VIEW_HALF, Room};
use backtack_core::scene::printed;

/// The largest room a picture is printed in on any sheet: the widest and the highest.
const LARGEST: Room = Room { width: ROOM_COVER.width, height: ROOM_VIEW_HALF.height };
/// Pictures made ready at once; more would cost memory, since each is spread out in pixels meanwhile.
const AT_ONCE: usize = 2;

/// Pictures made ready, by the names of their virtual files; a few at a time, each goes to whoever is free. One that cannot be
/// made ready is left out, and the engine says that it is missing: reading has decoded it before.
pub fn ready(all: &[(String, &Picture)]) -> BTreeMap<String, Vec<u8>> {
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
fn bytes(picture: &Picture) -> Option<Vec<u8>> {
    match picture.medium {
        Medium::Png | Medium::Jpeg => printed(&picture.bytes, LARGEST.width, LARGEST.height).ok(),
        Medium::Svg => Some(picture.bytes.to_vec()),
    }
}
