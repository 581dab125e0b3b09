//! Reads as much of an HTTP request as a static server needs: its method and its target.

use std::io::{self, Read};

/// Longer heads come from no browser that asks for a static file.
const MOST_BYTES: usize = 64 * 1024;

/// The first line of a request.
#[derive(Debug, PartialEq, Eq)]
pub struct Request {
    pub method: String,
    /// Path and query as they were sent.
    pub target: String,
}

/// Reads a request up to the empty line. Nothing, when the connection closes before or sends something else.
pub fn read(stream: &mut impl Read) -> io::Result<Option<Request>> {
    let mut head = Vec::new();
    let mut buffer = [0; 4096];
    while !head.windows(4).any(|window| window == b"\r\n\r\n") {
        let count = stream.read(&mut buffer)?;
        if count == 0 || head.len() > MOST_BYTES {
            return Ok(None);
        }
        head.extend_from_slice(&buffer[..count]);
    }
    Ok(parse(&String::from_utf8_lossy(&head)))
}

fn parse(head: &str) -> Option<Request> {
    let mut words = head.lines().next()?.split(' ');
    let (method, target, protocol) = (words.next()?, words.next()?, words.next()?);
    if !protocol.starts_with("HTTP/1.") || !target.starts_with('/') {
        return None;
    }
    Some(Request { method: method.to_owned(), target: target.to_owned() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn method_and_target_are_read_and_nonsense_is_not() {
        let mut good = &b"GET /a?b HTTP/1.1\r\nHost: x\r\n\r\n"[..];
        let request = read(&mut good).expect("read").expect("a request");
        assert_eq!((request.method.as_str(), request.target.as_str()), ("GET", "/a?b"));
        for bad in ["", "GET /", "GET / SPDY\r\n\r\n", "GET http://elsewhere/ HTTP/1.1\r\n\r\n", "\r\n\r\n"] {
            assert_eq!(read(&mut bad.as_bytes()).expect("read"), None, "{bad:?}");
        }
    }

    #[test]
    fn an_endless_head_is_given_up() {
        let mut endless = io::repeat(b'a');
        assert_eq!(read(&mut endless).expect("read"), None);
    }
}
