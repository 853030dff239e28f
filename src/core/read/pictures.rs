//! Checks that a picture file decodes, and how large it is.

use std::io::Cursor;

use image::{ImageDecoder, ImageFormat, ImageReader};

use crate::model::Medium;
use crate::words::{Phrase, say, words};

words! {
    NO_PICTURE "read.pictures.no-picture" = "it is neither PNG nor JPEG";
    TOO_LARGE "read.pictures.too-large" = "it has {width} × {height} pixels; at most {most} million are read";
}

/// Checks that a picture decodes and returns what it is, its width and its height in pixels, orientation applied.
///
/// # Errors
/// In words for the user: not PNG or JPEG, too many pixels, or broken data.
pub fn check(bytes: &[u8], pixels: u64) -> Result<(Medium, u32, u32), Phrase> {
    let reader =
        ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|error| Phrase::from(error.to_string()))?;
    let medium = match reader.format() {
        Some(ImageFormat::Png) => Medium::Png,
        Some(ImageFormat::Jpeg) => Medium::Jpeg,
        _ => return Err(NO_PICTURE.into()),
    };
    let mut decoder = reader.into_decoder().map_err(|error| Phrase::from(error.to_string()))?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > pixels {
        return Err(say!(TOO_LARGE, width, height, most = pixels / 1_000_000));
    }
    let turned = decoder.orientation().map_err(|error| Phrase::from(error.to_string()))?;
    image::DynamicImage::from_decoder(decoder).map_err(|error| Phrase::from(error.to_string()))?;
    use image::metadata::Orientation::{Rotate90, Rotate90FlipH, Rotate270, Rotate270FlipH};
    let swapped = matches!(turned, Rotate90 | Rotate270 | Rotate90FlipH | Rotate270FlipH);
    Ok(if swapped { (medium, height, width) } else { (medium, width, height) })
}
