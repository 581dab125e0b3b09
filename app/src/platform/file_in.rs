//! Reads a chosen file, after looking at its size: a huge one is refused before a byte of it is read.

use std::fmt;

use wasm_bindgen_futures::JsFuture;

/// Why a file was not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Larger than any file of ours.
    TooLarge {
        /// The limit in bytes.
        limit: usize,
    },
    /// The browser could not read it.
    Unreadable,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refused::TooLarge { limit } => f.write_str(&say!(
                "This file is larger than {size} MB, which no visit file is. Choose the file that Sidelight saved.",
                size = limit / 1_048_576
            )),
            Refused::Unreadable => {
                f.write_str(say!("The browser could not read this file. It may have been moved; choose it again."))
            }
        }
    }
}

/// The files of a list that was chosen or dropped.
#[must_use]
pub fn all(files: Option<web_sys::FileList>) -> Vec<web_sys::File> {
    let Some(files) = files else { return Vec::new() };
    (0..files.length()).filter_map(|at| files.get(at)).collect()
}

/// The bytes of the file, if it is at most `limit` bytes long.
pub async fn read(file: &web_sys::File, limit: usize) -> Result<Vec<u8>, Refused> {
    if file.size() > limit as f64 {
        return Err(Refused::TooLarge { limit });
    }
    let buffer = JsFuture::from(file.array_buffer()).await.map_err(|_| Refused::Unreadable)?;
    Ok(js_sys::Uint8Array::new(&buffer).to_vec())
}

#[cfg(test)]
mod tests {
    use super::*;
    use js_sys::{Array, Function, Reflect, Uint8Array};
    use wasm_bindgen_test::wasm_bindgen_test;

    fn file(bytes: &[u8]) -> web_sys::File {
        let parts = Array::of1(&Uint8Array::from(bytes));
        web_sys::File::new_with_u8_array_sequence(&parts, "visit.json").expect("constructs")
    }

    #[wasm_bindgen_test]
    async fn a_file_up_to_the_limit_is_read_whole() {
        assert_eq!(read(&file(&[0, 255, 7]), 3).await, Ok(vec![0, 255, 7]));
        assert_eq!(read(&file(&[]), 0).await, Ok(vec![]));
    }

    #[wasm_bindgen_test]
    async fn a_larger_one_is_refused_before_a_byte_of_it_is_read() {
        let large = file(&[1, 2, 3, 4]);
        let trap = Function::new_no_args("throw new Error('was read')");
        Reflect::set(&large, &"arrayBuffer".into(), &trap).expect("covers the method");
        assert_eq!(read(&large, 3).await, Err(Refused::TooLarge { limit: 3 }));
    }

    #[wasm_bindgen_test]
    async fn a_file_that_went_away_is_a_sentence() {
        let gone = file(&[1]);
        let refuse = Function::new_no_args("return Promise.reject(new DOMException('gone', 'NotFoundError'))");
        Reflect::set(&gone, &"arrayBuffer".into(), &refuse).expect("covers the method");
        let refused = read(&gone, 3).await;
        assert_eq!(refused, Err(Refused::Unreadable));
    }
}
