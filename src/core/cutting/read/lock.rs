//! Reads the lays that are kept in the lock.

use crate::lay::Lock;
use crate::lay::lock::{Entry, FILE, FORMAT, placed, steps};
use crate::model::Model;

use crate::words::{Phrase, say, words};

use crate::read::reader::Reader;
use crate::read::rules;

words! {
    NO_TEXT "read.lock.no-text" = "it is no text";
    OTHER_FORMAT "read.lock.other-format" = "its format is not {format}: it is of another version";
    LAY "read.lock.lay" = "the lay \"{what}\"";
}

impl Reader {
    /// The lays kept beside the specification. An entry that cannot be read is said and not taken.
    pub fn lock(&mut self, model: &mut Model) {
        if self.disk.fetch(FILE) != Ok(true) {
            return;
        }
        let bytes = self.disk.name(FILE).and_then(|name| self.disk.files.get(&name).cloned());
        match read(&bytes.unwrap_or_default()) {
            Ok((lock, broken)) => {
                model.lock = lock;
                broken.into_iter().for_each(|what| self.broken_lock(what));
            }
            Err(reason) => self.broken_lock(reason),
        }
    }

    fn broken_lock(&mut self, why: Phrase) {
        self.broken_lock.get_or_insert_with(|| why.english());
        self.findings.push(rules::broken_lock(why));
    }
}

/// The entries of a file, and what is wrong with those that are left out.
fn read(bytes: &[u8]) -> Result<(Lock, Vec<Phrase>), Phrase> {
    let text = std::str::from_utf8(bytes).map_err(|_| NO_TEXT)?;
    let table = toml::de::DeTable::parse(text).map_err(|error| Phrase::from(error.message()))?;
    let table = table.get_ref();
    let format = table.get("format").and_then(|value| value.get_ref().as_integer());
    if format.is_none_or(|format| format.to_string() != FORMAT.to_string()) {
        return Err(say!(OTHER_FORMAT, format = FORMAT.to_string()));
    }
    let mut lock = Lock::default();
    let mut broken = Vec::new();
    let lays = table.get("lay").and_then(|value| value.get_ref().as_array());
    for value in lays.into_iter().flatten() {
        let fields = value.get_ref().as_table();
        let what = fields.and_then(|fields| fields.get("what")?.get_ref().as_str()).unwrap_or("?");
        match fields.and_then(entry) {
            Some((key, entry)) => drop(lock.entries.insert(key, entry)),
            None => broken.push(say!(LAY, what)),
        }
    }
    Ok((lock, broken))
}

fn entry(fields: &toml::de::DeTable<'_>) -> Option<(String, Entry)> {
    let text = |key: &str| fields.get(key)?.get_ref().as_str().map(str::to_string);
    let key = text("key").filter(|key| key.len() == 64 && key.bytes().all(|byte| byte.is_ascii_hexdigit()))?;
    let mut names = Vec::new();
    let mut places = Vec::new();
    for place in fields.get("places")?.get_ref().as_array()?.iter() {
        let (placed, name) = placed(place.get_ref().as_str()?)?;
        if names.len() <= placed.piece {
            names.resize(placed.piece + 1, String::new());
        }
        names[placed.piece] = name.to_string();
        places.push(placed);
    }
    let entry = Entry {
        title: text("what")?,
        of: text("of")?,
        length: steps(text("length")?.strip_suffix(" mm")?)?,
        evaluations: fields.get("evaluations")?.get_ref().as_integer()?.to_string().parse().ok()?,
        names,
        placed: places,
    };
    Some((key, entry))
}
