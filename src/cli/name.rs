//! What a file may be called whose name is made from a specification: one plain component below a folder, on every
//! system.

use super::Failure;

/// Longest name, bytes: what common file systems take.
const LONGEST: usize = 255;
/// Characters that one system or another does not allow in a name, or takes for more than a name.
const RESERVED: &[char] = &['/', '\\', ':', '*', '?', '"', '<', '>', '|'];
/// Names of devices, which no ending makes a file.
const DEVICES: &[&str] = &["con", "prn", "aux", "nul", "conin$", "conout$"];
/// Names of devices that have a number.
const PORTS: &[&str] = &["com", "lpt"];

/// The name, if it is one plain component.
///
/// # Errors
/// In one line, what is wrong with it.
pub fn checked(name: &str) -> Result<&str, Failure> {
    let stem = name.split('.').next().unwrap_or_default().trim_end().to_ascii_lowercase();
    let why = if name.is_empty() {
        "it is empty"
    } else if name.len() > LONGEST {
        "it is too long"
    } else if name.starts_with('.') || name.ends_with(['.', ' ']) {
        "it begins with a dot, or ends with a dot or a space"
    } else if name.contains(RESERVED) || name.chars().any(char::is_control) {
        "it has characters that not every system takes"
    } else if is_device(&stem) {
        "some systems take it for a device"
    } else {
        return Ok(name);
    };
    Err(Failure::new(format!("cannot name a file \"{}\": {why}", name.escape_debug())))
}

fn is_device(stem: &str) -> bool {
    let number = |rest: &str| matches!(rest.chars().collect::<Vec<_>>()[..], ['0'..='9' | '¹' | '²' | '³']);
    DEVICES.contains(&stem) || PORTS.iter().any(|port| stem.strip_prefix(port).is_some_and(number))
}
