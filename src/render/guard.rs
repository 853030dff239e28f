//! The engine behind a guard: it runs beside the program, so that its failure is one line, and what takes too long is given up.

use core::time::Duration;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread::Builder;

use serde_json::Value;

use super::engine::{self, EngineError, Job, Output};

/// Seconds that a document may take, unless the user says otherwise.
pub const SECONDS: u64 = 300;
/// What the engine's thread is called; what it says when it fails is not printed.
pub const ENGINE: &str = "engine";
/// Room for deeply nested layouts, bytes.
const STACK: usize = 64 << 20;
/// Characters of a text that are shown.
const SHOWN: usize = 40;
/// Texts below this are not blamed, characters.
const LONG: usize = 200;

/// Keeps the program from printing where the engine failed: what the user reads is the error.
pub fn quiet() {
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        if std::thread::current().name() != Some(ENGINE) {
            usual(info);
        }
    }));
}

/// Typesets a job within some seconds. Where the time is over, the engine goes on beside the program until that ends.
///
/// # Errors
/// As [`engine::run`]; and if the engine fails, or is not done in time.
pub fn run(job: Job, seconds: u64) -> Result<Output, EngineError> {
    let likely = longest(&job);
    guarded(move || engine::run(&job), seconds, likely)?
}

/// Does some work beside the program; an error where it fails or takes too long.
fn guarded<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
    seconds: u64,
    likely: Option<(usize, String)>,
) -> Result<T, EngineError> {
    let (sender, receiver) = channel();
    let work = move || drop(sender.send(work()));
    let started = Builder::new().name(ENGINE.to_owned()).stack_size(STACK).spawn(work);
    started.map_err(|error| refused(format!("the engine could not be started: {error}"), None))?;
    receiver.recv_timeout(Duration::from_secs(seconds)).map_err(|error| match error {
        RecvTimeoutError::Timeout => {
            refused(format!("it took longer than {seconds} s, and was given up (--within allows more)"), likely)
        }
        RecvTimeoutError::Disconnected => refused("the engine failed on this layout".to_owned(), likely),
    })
}

fn refused(message: String, likely: Option<(usize, String)>) -> EngineError {
    let why = likely.map(|(length, start)| format!("a text of {length} characters may be why: \"{start}...\""));
    EngineError { messages: std::iter::once(message).chain(why).collect() }
}

/// The longest text that is printed, if it is long: how many characters it has, and how it begins.
fn longest(job: &Job) -> Option<(usize, String)> {
    let data: Value = serde_json::from_slice(job.files.get("data.json")?).ok()?;
    let mut found = (0, String::new());
    let mut left = vec![&data];
    while let Some(value) = left.pop() {
        match value {
            Value::String(text) if text.chars().count() > found.0 => {
                found = (text.chars().count(), text.chars().take(SHOWN).collect());
            }
            Value::Array(list) => left.extend(list),
            Value::Object(fields) => left.extend(fields.values()),
            _ => {}
        }
    }
    Some(found).filter(|(length, _)| *length >= LONG)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job(main: &str, data: &str) -> Job {
        let files = [("templates/main.typ", main), ("data.json", data)];
        let files = files.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec())).into();
        Job { files, identity: "X".to_owned(), date: [2026, 1, 15] }
    }

    #[test]
    fn what_takes_too_long_is_given_up_and_the_longest_text_named() {
        let (hold, held) = channel::<()>();
        let likely = Some((900, "xxxx".to_owned()));
        let told = guarded(move || held.recv().is_ok(), 0, likely.clone()).unwrap_err().to_string();
        assert!(told.contains("longer than 0 s") && told.contains("900 characters") && told.contains("xxxx"), "{told}");
        drop(hold);
        assert_eq!(guarded(|| 7, 60, likely).unwrap(), 7);
    }

    #[test]
    fn a_failure_of_the_engine_is_an_error() {
        let failing = || -> u8 { panic!("index out of bounds") };
        let told = guarded(failing, 60, None).unwrap_err().to_string();
        assert_eq!(told, "the package could not be typeset: the engine failed on this layout");
    }

    #[test]
    fn the_longest_text_is_found_wherever_it_is() {
        let data = format!("{{\"rows\": [{{\"name\": \"{}\"}}, \"y\"]}}", "ab".repeat(150));
        assert_eq!(longest(&job("", &data)).map(|(length, _)| length), Some(300));
        assert_eq!(longest(&job("", "{\"name\": \"short\"}")), None);
    }
}
