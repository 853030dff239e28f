//! The orientation of a picture as an Exif block.

/// An Exif block that says the orientation and nothing else.
pub(crate) fn exif(turned: u8) -> Vec<u8> {
    let entry = [1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, turned, 0, 0, 0, 0, 0, 0, 0];
    [b"II\x2a\0\x08\0\0\0".as_slice(), &entry].concat()
}
