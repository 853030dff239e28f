//! Files without what only their author should read: comments, and what programs and cameras write into pictures beside
//! the picture. What a file means stays.

mod exif;
mod jpeg;
mod png;
mod svg;
mod toml;

use std::io::Cursor;

use image::{ImageDecoder, ImageFormat, ImageReader};

/// A specification file without its comments. Lines stay where they are.
pub fn toml(text: &str) -> String {
    toml::without(text)
}

/// A picture or a drawing without anything that is not shown; other files stay as they are. One that cannot be read is
/// left empty: what it may hold cannot be told.
pub fn file(path: &str, bytes: &[u8]) -> Vec<u8> {
    match image::guess_format(bytes) {
        Ok(ImageFormat::Png) => png::bare(bytes, turned(bytes)).unwrap_or_else(|| pixels(bytes)),
        Ok(ImageFormat::Jpeg) => jpeg::bare(bytes, turned(bytes)).unwrap_or_else(|| pixels(bytes)),
        _ if path.to_ascii_lowercase().ends_with(".svg") => svg::bare(bytes).unwrap_or_default(),
        _ => bytes.to_vec(),
    }
}

/// The orientation a picture is to be shown in (Exif 2.32, tag 0x0112); 1 is upright.
fn turned(bytes: &[u8]) -> u8 {
    let reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format().ok();
    let decoder = reader.and_then(|reader| reader.into_decoder().ok());
    decoder.and_then(|mut decoder| decoder.orientation().ok()).map_or(1, |turned| turned.to_exif())
}

/// The pixels of a picture that is laid out in an unusual way, written again, upright.
fn pixels(bytes: &[u8]) -> Vec<u8> {
    let again = || -> Option<Vec<u8>> {
        let mut decoder = ImageReader::new(Cursor::new(bytes)).with_guessed_format().ok()?.into_decoder().ok()?;
        let turned = decoder.orientation().ok()?;
        let mut picture = image::DynamicImage::from_decoder(decoder).ok()?;
        picture.apply_orientation(turned);
        let mut out = Vec::new();
        picture.write_to(&mut Cursor::new(&mut out), ImageFormat::Png).ok()?;
        Some(out)
    };
    again().unwrap_or_default()
}
