//! JPEG without comments, data of cameras and editors.

/// A JPEG without comments, application data and what follows its end, but for its orientation and how its colours are
/// coded (ITU-T T.81, annex B); none if it is not laid out as usual.
pub fn bare(bytes: &[u8], turned: u8) -> Option<Vec<u8>> {
    let mut rest = bytes.strip_prefix(b"\xff\xd8")?;
    let mut out = b"\xff\xd8".to_vec();
    let mut head = Vec::new();
    if turned != 1 {
        head = [b"Exif\0\0".as_slice(), &super::exif::exif(turned)].concat();
    }
    loop {
        rest = rest.strip_prefix(b"\xff")?;
        // Fill bytes may stand before a marker.
        while let Some(more) = rest.strip_prefix(b"\xff") {
            rest = more;
        }
        let (marker, after) = rest.split_first()?;
        if *marker == 0xd9 {
            out.extend(b"\xff\xd9");
            return Some(out);
        }
        let length = usize::from(u16::from_be_bytes(*after.first_chunk::<2>()?));
        let (segment, after) = after.split_at_checked(length.max(2))?;
        let data = segment.get(2..)?;
        match marker {
            // JFIF: version, density, and no small picture.
            0xe0 if data.starts_with(b"JFIF\0") => put(&mut out, *marker, &[data.get(..12)?, &[0, 0]].concat()),
            // How the colours are coded.
            0xee if data.starts_with(b"Adobe") => put(&mut out, *marker, data.get(..12)?),
            0xe0..=0xef | 0xfe => {}
            0xc0..=0xcf | 0xda..=0xdf => {
                if !head.is_empty() {
                    put(&mut out, 0xe1, &std::mem::take(&mut head));
                }
                put(&mut out, *marker, data);
            }
            _ => return None,
        }
        rest = after;
        if *marker == 0xda {
            let (coded, after) = rest.split_at(scan(rest)?);
            out.extend_from_slice(coded);
            rest = after;
        }
    }
}

fn put(out: &mut Vec<u8>, marker: u8, data: &[u8]) {
    out.extend([0xff, marker]);
    out.extend(u16::try_from(data.len() + 2).unwrap_or(2).to_be_bytes());
    out.extend_from_slice(data);
}

/// The length of the coded pixels: up to a marker that is neither a stuffed byte nor a restart.
fn scan(bytes: &[u8]) -> Option<usize> {
    bytes.windows(2).position(|pair| matches!(pair, [0xff, next] if !matches!(next, 0 | 0xd0..=0xd7 | 0xff)))
}
