//! Pictures made ready to print: turned, on white, no larger than paper needs.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::{CompressionType, FilterType as Filter, PngEncoder};
use image::{DynamicImage, ImageDecoder, ImageEncoder, ImageFormat, ImageReader, RgbImage};

/// Dots per inch of a printed picture.
const DPI: f64 = 300.0;
/// Quality of JPEG output; photographs show no blocks at 300 dpi (common practice).
const QUALITY: u8 = 88;

/// Makes a picture ready to print `width` × `height` mm: turned upright, no larger than 300 dpi needs, 8 bits a channel, on
/// white, without any metadata. PNG stays PNG and JPEG stays JPEG.
///
/// # Errors
/// In words for the user, if the bytes are no picture.
pub fn printed(bytes: &[u8], width: f64, height: f64) -> Result<Vec<u8>, String> {
    let reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|error| error.to_string())?;
    let format = reader.format();
    let mut decoder = reader.into_decoder().map_err(|error| error.to_string())?;
    let turned = decoder.orientation().map_err(|error| error.to_string())?;
    let mut picture = DynamicImage::from_decoder(decoder).map_err(|error| error.to_string())?;
    picture.apply_orientation(turned);
    let picture = fitted(on_white(picture), width, height);
    let mut out = Vec::new();
    let (w, h) = picture.dimensions();
    let written = if format == Some(ImageFormat::Jpeg) {
        JpegEncoder::new_with_quality(&mut out, QUALITY).write_image(&picture, w, h, image::ExtendedColorType::Rgb8)
    } else {
        PngEncoder::new_with_quality(&mut out, CompressionType::Fast, Filter::NoFilter).write_image(
            &picture,
            w,
            h,
            image::ExtendedColorType::Rgb8,
        )
    };
    written.map_err(|error| error.to_string())?;
    Ok(out)
}

/// The picture on white paper: what is transparent shows the paper.
fn on_white(picture: DynamicImage) -> RgbImage {
    if !picture.color().has_alpha() {
        return picture.into_rgb8();
    }
    let rgba = picture.into_rgba8();
    let (width, height) = rgba.dimensions();
    let over = |c: u8, a: u8| ((u32::from(c) * u32::from(a) + 255 * (255 - u32::from(a)) + 127) / 255) as u8;
    let mut paper = Vec::with_capacity(rgba.len() / 4 * 3);
    for pixel in rgba.as_raw().as_chunks::<4>().0 {
        let [r, g, b, a] = *pixel;
        paper.extend([over(r, a), over(g, a), over(b, a)]);
    }
    RgbImage::from_raw(width, height, paper).unwrap_or_default()
}

/// Scaled down to what the printed size needs; never scaled up.
fn fitted(picture: RgbImage, width: f64, height: f64) -> RgbImage {
    let (w, h) = picture.dimensions();
    let most = |mm: f64| (mm / 25.4 * DPI).ceil().max(1.0);
    let factor = (most(width) / f64::from(w)).min(most(height) / f64::from(h)).min(1.0);
    if factor >= 1.0 {
        return picture;
    }
    let scaled = |side: u32| ((f64::from(side) * factor).round() as u32).max(1);
    averaged(&picture, scaled(w), scaled(h))
}

/// Shares are counted in this many parts.
const WHOLE: u64 = 1 << 16;

/// Each new pixel is the mean of the old ones it covers, parts of them by their share, in whole numbers: the same on
/// every platform.
fn averaged(picture: &RgbImage, width: u32, height: u32) -> RgbImage {
    let columns = covered(picture.width(), width);
    let line = picture.width() as usize * 3;
    let mut kept = (usize::MAX, Vec::new());
    let mut out = Vec::with_capacity(width as usize * height as usize * 3);
    for row in covered(picture.height(), height) {
        let mut sums = vec![0u32; width as usize * 3];
        for (from, share) in row {
            if kept.0 != from {
                kept = (from, narrowed(picture.as_raw().get(from * line..).unwrap_or_default(), &columns));
            }
            sums.iter_mut().zip(&kept.1).for_each(|(sum, part)| *sum += share * u32::from(*part));
        }
        // A part is a byte with eight more bits behind it, a share has sixteen.
        out.extend(sums.into_iter().map(|sum| ((sum + (1 << 23)) >> 24) as u8));
    }
    RgbImage::from_raw(width, height, out).unwrap_or_default()
}

/// One line made narrower: means with eight bits more than a byte has.
fn narrowed(line: &[u8], columns: &[Vec<(usize, u32)>]) -> Vec<u16> {
    let mut means = Vec::with_capacity(columns.len() * 3);
    for column in columns {
        let mut sum = [0u32; 3];
        for (from, share) in column {
            let Some([r, g, b]) = line.get(from * 3..).and_then(|rest| rest.first_chunk::<3>()) else { continue };
            sum[0] += share * u32::from(*r);
            sum[1] += share * u32::from(*g);
            sum[2] += share * u32::from(*b);
        }
        means.extend(sum.map(|sum| ((sum + (1 << 7)) >> 8) as u16));
    }
    means
}

/// For each of `new` equal parts of a side of `old` pixels, the pixels it covers with their shares of it; the shares
/// of one part add up to the whole.
fn covered(old: u32, new: u32) -> Vec<Vec<(usize, u32)>> {
    let (old, new) = (u64::from(old), u64::from(new));
    let part = |n: u64| {
        let (start, end) = (n * old, (n + 1) * old);
        let passed = |at: u64| (at.clamp(start, end) - start) * WHOLE / old;
        let share = |pixel: u64| passed((pixel + 1) * new) - passed(pixel * new);
        (start / new..end.div_ceil(new)).map(|pixel| (pixel as usize, share(pixel) as u32)).collect()
    };
    (0..new).map(part).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: three pixels on two are two thirds and one third of each pair.
    #[test]
    fn a_mean_weighs_pixels_by_the_share_that_is_covered() {
        assert_eq!(covered(3, 2), [vec![(0, 43690), (1, 21846)], vec![(1, 21845), (2, 43691)]]);
        let line = RgbImage::from_raw(3, 1, vec![0, 30, 90, 90, 60, 30, 255, 0, 90]).unwrap();
        assert_eq!(averaged(&line, 2, 1).as_raw(), &[30, 40, 70, 200, 20, 70]);
    }

    #[test]
    fn one_colour_stays_that_colour() {
        let picture = RgbImage::from_pixel(97, 61, image::Rgb([1, 128, 254]));
        let small = averaged(&picture, 40, 23);
        assert!(small.pixels().all(|pixel| pixel.0 == [1, 128, 254]));
        let white = averaged(&RgbImage::from_pixel(97, 61, image::Rgb([255; 3])), 1, 1);
        assert_eq!(white.as_raw(), &[255; 3]);
    }
}
