//! Ctrl-C asks a search for its best lay.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether Ctrl-C was pressed; pressed again, it ends the program.
pub fn stopper() -> impl Fn() -> bool + Sync {
    let stop = Arc::new(AtomicBool::new(false));
    for signal in [signal_hook::consts::SIGINT, signal_hook::consts::SIGTERM] {
        // Where signals cannot be caught, Ctrl-C ends the program without a lay, as it would anyway.
        let _ = signal_hook::flag::register_conditional_shutdown(signal, 130, Arc::clone(&stop));
        let _ = signal_hook::flag::register(signal, Arc::clone(&stop));
    }
    move || stop.load(Ordering::Relaxed)
}
