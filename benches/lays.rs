//! Lays an instance once and prints one line of JSON: length, density, evaluations, seconds, peak memory. The comparison
//! in `benches/lays.py` runs it.
//!
//! `cargo bench -p backtack-core --bench lays -- FILE [--seconds S | --evaluations N] [--seed N] [--threads N] [--places FILE]`
//!
//! `--places` writes where every piece lies, so that two lays can be compared byte by byte.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a measurement keeps time, reads its own input and tells"
)]
#![allow(clippy::expect_used, reason = "a measurement that cannot be made stops")]

use std::time::Instant;

use backtack_core::lay::{self, Budget, Options};

/// The value behind an option.
fn option(name: &str) -> Option<String> {
    std::env::args().skip_while(|argument| argument != name).nth(1)
}

fn number(name: &str, otherwise: u64) -> u64 {
    option(name).map_or(otherwise, |text| text.parse().expect("a whole number stands behind the option"))
}

/// Largest memory of this process so far, in MB, where the system tells it.
fn memory() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM:")).unwrap_or_default();
    let kilobytes = line.split_whitespace().nth(1).and_then(|text| text.parse::<f64>().ok());
    kilobytes.unwrap_or(f64::NAN) / 1024.0
}

fn main() {
    let path = std::env::args().nth(1).expect("a file is named");
    if path == "--bench" {
        return;
    }
    let text = std::fs::read_to_string(&path).expect("the instance can be read");
    let begun = Instant::now();
    let instance = lay::read::read(&text).expect("the instance can be laid");
    let seconds = option("--seconds").map(|text| text.parse::<f64>().expect("seconds"));
    let clock = || begun.elapsed().as_secs_f64() / seconds.unwrap_or(f64::INFINITY);
    let evaluations = number("--evaluations", lay::usual(&instance));
    let budget = if seconds.is_some() { Budget::Clock(&clock) } else { Budget::Evaluations(evaluations) };
    let verbose = option("--verbose").is_some();
    let observe = |progress: lay::Progress| {
        if verbose {
            eprintln!("{:.2} {:.3} {:.3}", begun.elapsed().as_secs_f64(), progress.share, progress.length as f64 / 1e3);
        }
    };
    let threads = number("--threads", 2) as usize;
    let options = Options { budget, seed: number("--seed", 1), threads, stop: &|| false, observe: &observe };
    let packed = lay::pack(&instance, options).expect("a lay is found");
    if let Some(file) = option("--places") {
        std::fs::write(file, format!("{:?}\n", packed.lay)).expect("the places can be written");
    }
    let density = instance.area2() as f64 / 2.0 / (instance.fabric.width as f64 * packed.lay.length as f64);
    let spent = begun.elapsed().as_secs_f64();
    let ran = std::fs::read_to_string("/proc/self/schedstat").unwrap_or_default();
    let ran = ran.split_whitespace().next().and_then(|text| text.parse::<f64>().ok()).unwrap_or(f64::NAN) / 1e9;
    println!(
        "{{\"name\": {:?}, \"length\": {}, \"density\": {:.3}, \"evaluations\": {}, \"seconds\": {spent:.2}, \"processor\": {ran:.2}, \"memory\": {:.1}}}",
        instance.name,
        packed.lay.length as f64 / 1000.0,
        density * 100.0,
        packed.evaluations,
        memory()
    );
}
