use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::{CompressionType, FilterType as Filter, PngEncoder};
use image::imageops::FilterType;
use image::{DynamicImage, ImageDecoder, ImageEncoder, ImageFormat, ImageReader};

/// Dots per inch of a printed picture.
const DPI: f64 = 300.0;
/// Quality of JPEG output; photographs show no blocks at 300 dpi (common practice).
const QUALITY: u8 = 88;

/// A picture made ready to print at a size: turned upright, no larger than 300 dpi needs, 8 bits a channel, on white,
/// without any metadata. PNG stays PNG and JPEG stays JPEG.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    /// The file.
    pub bytes: Vec<u8>,
    /// `png` or `jpg`.
    pub ending: &'static str,
}

/// Makes a picture ready to print `width` × `height` mm.
///
/// # Errors
/// In words for the user, if the bytes are no picture.
pub fn printed(bytes: &[u8], width: f64, height: f64) -> Result<Printed, String> {
    let reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|error| error.to_string())?;
    let format = reader.format();
    let mut decoder = reader.into_decoder().map_err(|error| error.to_string())?;
    let turned = decoder.orientation().map_err(|error| error.to_string())?;
    let mut picture = DynamicImage::from_decoder(decoder).map_err(|error| error.to_string())?;
    picture.apply_orientation(turned);
    let picture = fitted(&on_white(&picture), width, height);
    let mut out = Vec::new();
    let (w, h) = picture.dimensions();
    let written = if format == Some(ImageFormat::Jpeg) {
        JpegEncoder::new_with_quality(&mut out, QUALITY).write_image(&picture, w, h, image::ExtendedColorType::Rgb8)
    } else {
        PngEncoder::new_with_quality(&mut out, CompressionType::Default, Filter::Adaptive).write_image(
            &picture,
            w,
            h,
            image::ExtendedColorType::Rgb8,
        )
    };
    written.map_err(|error| error.to_string())?;
    Ok(Printed { bytes: out, ending: if format == Some(ImageFormat::Jpeg) { "jpg" } else { "png" } })
}

/// The picture on white paper: what is transparent shows the paper.
fn on_white(picture: &DynamicImage) -> image::RgbImage {
    let rgba = picture.to_rgba8();
    image::RgbImage::from_fn(rgba.width(), rgba.height(), |x, y| {
        let [r, g, b, a] = rgba.get_pixel(x, y).0;
        let over = |c: u8| ((u32::from(c) * u32::from(a) + 255 * (255 - u32::from(a)) + 127) / 255) as u8;
        image::Rgb([over(r), over(g), over(b)])
    })
}

/// Scaled down to what the printed size needs; never scaled up. The filter uses no platform mathematics.
fn fitted(picture: &image::RgbImage, width: f64, height: f64) -> image::RgbImage {
    let (w, h) = picture.dimensions();
    let most = |mm: f64| (mm / 25.4 * DPI).ceil().max(1.0);
    let factor = (most(width) / f64::from(w)).min(most(height) / f64::from(h)).min(1.0);
    if factor >= 1.0 {
        return picture.clone();
    }
    let scaled = |side: u32| ((f64::from(side) * factor).round() as u32).max(1);
    image::imageops::resize(picture, scaled(w), scaled(h), FilterType::CatmullRom)
}
