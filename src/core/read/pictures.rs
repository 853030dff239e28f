use std::io::Cursor;

use image::{ImageDecoder, ImageFormat, ImageReader};

/// Checks that a picture decodes and returns its width and height in pixels, orientation applied.
///
/// # Errors
/// In words for the user: not PNG or JPEG, too many pixels, or broken data.
pub fn check(bytes: &[u8], pixels: u64) -> Result<(u32, u32), String> {
    let reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|error| error.to_string())?;
    if !matches!(reader.format(), Some(ImageFormat::Png | ImageFormat::Jpeg)) {
        return Err("it is neither PNG nor JPEG".into());
    }
    let mut decoder = reader.into_decoder().map_err(|error| error.to_string())?;
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > pixels {
        return Err(format!("it has {width} × {height} pixels; at most {} million are read", pixels / 1_000_000));
    }
    let turned = decoder.orientation().map_err(|error| error.to_string())?;
    image::DynamicImage::from_decoder(decoder).map_err(|error| error.to_string())?;
    use image::metadata::Orientation::{Rotate90, Rotate90FlipH, Rotate270, Rotate270FlipH};
    let swapped = matches!(turned, Rotate90 | Rotate270 | Rotate90FlipH | Rotate270FlipH);
    Ok(if swapped { (height, width) } else { (width, height) })
}
