//! The text of the first QR code in a grey picture.

use rqrr::PreparedImage;
use sidelight_worker::Answer;

use super::{Done, parts};

/// Pictures beyond this are taken for a mistake; a camera's frame is scaled down before it comes here.
const MOST_PIXELS: usize = 4_096 * 4_096;

pub fn run(width: u32, height: u32, bytes: Vec<Vec<u8>>) -> Done {
    let [grey] = parts(bytes)?;
    let (width, height) = (width as usize, height as usize);
    let pixels = width.checked_mul(height).filter(|count| (1..=MOST_PIXELS).contains(count));
    if pixels != Some(grey.len()) {
        return Err("This picture cannot be read: its size does not fit its contents.".to_owned());
    }
    let mut picture = PreparedImage::prepare_from_greyscale(width, height, |x, y| grey[y * width + x]);
    let grids = picture.detect_grids();
    let text = grids.iter().find_map(|grid| grid.decode().ok()).map(|(_, text)| text);
    Ok((Answer::QrText(text), Vec::new()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use fast_qr::{Module, QRBuilder};

    /// A code as a camera would bring it at `scale` pixels a module, with a white margin.
    fn picture(text: &str, scale: usize) -> (u32, Vec<u8>) {
        let code = QRBuilder::new(text).build().expect("fits");
        let side = (code.size + 8) * scale;
        let mut grey = vec![230; side * side];
        for y in 0..code.size * scale {
            for x in 0..code.size * scale {
                if code[y / scale][x / scale].value() == Module::DARK {
                    grey[(y + 4 * scale) * side + x + 4 * scale] = 20;
                }
            }
        }
        (u32::try_from(side).expect("small"), grey)
    }

    fn read(width: u32, height: u32, grey: Vec<u8>) -> Option<String> {
        match run(width, height, vec![grey]) {
            Ok((Answer::QrText(text), _)) => text,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn what_was_made_is_read_back() {
        let long = "AGE1".repeat(120);
        for text in ["SIDELIGHT RECEIPT 1 3 00FF", "Zoë, 12 y", long.as_str()] {
            let (side, grey) = picture(text, 4);
            assert_eq!(read(side, side, grey).as_deref(), Some(text));
        }
    }

    #[test]
    fn a_picture_without_a_code_gives_nothing_and_a_wrong_size_a_sentence() {
        assert_eq!(read(64, 64, vec![200; 64 * 64]), None);
        assert!(run(64, 63, vec![vec![200; 64 * 64]]).is_err());
        assert!(run(0, 0, vec![Vec::new()]).is_err());
        assert!(run(u32::MAX, u32::MAX, vec![vec![1]]).is_err());
    }
}
