//! Stitch types by number: ISO 4915:1991 (as also read in ASTM D6193).
//!
//! Not the whole standard: the types that sewn toys, cushions and bags are made with. A number that is missing here may
//! still be a type of the standard; [`class_of`] says which class it would belong to.

use super::Basis;

/// The six classes of ISO 4915, by the first digit of the number. *Seen* in college and thread makers' texts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Class {
    /// 100: one thread, looped with itself.
    SingleChain,
    /// 200: made by hand, or imitating it.
    Hand,
    /// 300: two groups of threads interlaced in the fabric.
    Lock,
    /// 400: needle threads interlooped with a looper thread.
    MultiChain,
    /// 500: thread passed round the edge.
    Overedge,
    /// 600: both faces covered.
    Cover,
}

impl Class {
    /// The name of its words in the files of other languages.
    pub fn key(self) -> &'static str {
        match self {
            Class::SingleChain => "stitch.class-1",
            Class::Hand => "stitch.class-2",
            Class::Lock => "stitch.class-3",
            Class::MultiChain => "stitch.class-4",
            Class::Overedge => "stitch.class-5",
            Class::Cover => "stitch.class-6",
        }
    }

    /// The name of the class in the standard.
    pub fn name(self) -> &'static str {
        match self {
            Class::SingleChain => "single-thread chainstitches",
            Class::Hand => "stitches originating as hand stitches",
            Class::Lock => "lockstitches",
            Class::MultiChain => "multi-thread chainstitches",
            Class::Overedge => "overedge chainstitches",
            Class::Cover => "covering chainstitches",
        }
    }
}

/// One stitch type.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stitch {
    /// Three digits.
    pub number: &'static str,
    /// The name of its words in the files of other languages.
    pub key: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// Whether number and name were read in a source.
    pub basis: Basis,
}

/// One type a line: how well it is known, its number, what it is called.
macro_rules! stitches {
    ($($basis:ident $number:literal = $name:literal;)*) => {
        /// The stitch types known here, in order of their numbers.
        pub const STITCHES: &[Stitch] = &[$(Stitch {
            number: $number,
            key: concat!("stitch.type-", $number),
            name: $name,
            basis: Basis::$basis,
        }),*];
    };
}
stitches! {
    Seen "101" = "single-thread chainstitch";
    Memory "103" = "single-thread blind stitch";
    Memory "107" = "single-thread zigzag chainstitch";
    Seen "301" = "lockstitch, two threads";
    Seen "304" = "zigzag lockstitch, two threads";
    Seen "401" = "two-thread chainstitch";
    Memory "404" = "two-thread zigzag chainstitch";
    Seen "406" = "two-needle three-thread coverstitch";
    Memory "407" = "three-needle four-thread coverstitch";
    Memory "501" = "single-thread overedge";
    Memory "503" = "two-thread overedge";
    Seen "504" = "three-thread overedge";
    Memory "512" = "two-needle four-thread overedge (mock safety)";
    Memory "514" = "two-needle four-thread overedge";
    Memory "515" = "four-thread safety stitch (401 with 503)";
    Seen "516" = "five-thread safety stitch";
    Seen "602" = "two-needle four-thread coverstitch";
    Seen "605" = "three-needle five-thread coverstitch";
    Memory "607" = "four-needle six-thread flat seam";
}

impl Stitch {
    /// The class its first digit puts it in.
    pub fn class(&self) -> Option<Class> {
        class_of(self.number)
    }
}

/// The stitch type with exactly this number.
pub fn find(number: &str) -> Option<&'static Stitch> {
    STITCHES.iter().find(|stitch| stitch.number == number)
}

/// The class a three-digit number belongs to, whether the type is known here or not.
pub fn class_of(number: &str) -> Option<Class> {
    match number.as_bytes() {
        [class, b, c] if b.is_ascii_digit() && c.is_ascii_digit() => match class {
            b'1' => Some(Class::SingleChain),
            b'2' => Some(Class::Hand),
            b'3' => Some(Class::Lock),
            b'4' => Some(Class::MultiChain),
            b'5' => Some(Class::Overedge),
            b'6' => Some(Class::Cover),
            _ => None,
        },
        _ => None,
    }
}

/// The stitch type most likely meant by `written`: one whose number stands in it, one whose name holds it, or one whose
/// number differs by one slip of the hand (of several, one of the same class, then the nearest number).
pub fn nearest(written: &str) -> Option<&'static Stitch> {
    let wanted = written.trim().to_lowercase();
    if wanted.is_empty() {
        return None;
    }
    let inside = STITCHES.iter().find(|stitch| wanted.contains(stitch.number));
    let named = || STITCHES.iter().find(|stitch| wanted.len() > 3 && stitch.name.contains(&wanted));
    inside.or_else(named).or_else(|| slip(&wanted))
}

fn slip(wanted: &str) -> Option<&'static Stitch> {
    let value = wanted.parse::<u32>().ok();
    let distance = |stitch: &Stitch| strsim::osa_distance(stitch.number, wanted);
    let far = |stitch: &Stitch| match (value, stitch.number.parse::<u32>()) {
        (Some(value), Ok(number)) => value.abs_diff(number),
        _ => u32::MAX,
    };
    let class = |stitch: &Stitch| stitch.number.chars().next() != wanted.chars().next();
    STITCHES.iter().filter(|stitch| distance(stitch) <= 1).min_by_key(|stitch| (class(stitch), far(stitch)))
}
