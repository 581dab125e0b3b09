//! Answers a request with a file of the site and the headers a careful host would send.

use std::fs;
use std::io::{self, Write};
use std::path::{Component, Path, PathBuf};

use super::request::Request;
use crate::build::fingerprint::is_named_by_content;
use crate::{csp, mime};

/// Sent with every answer.
const HEADERS: [(&str, &str); 4] = [
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
];

/// Writes the whole answer to the request.
pub fn respond(stream: &mut impl Write, dist: &Path, request: &Request) -> io::Result<()> {
    if request.method != "GET" && request.method != "HEAD" {
        return send(stream, "405 Method Not Allowed", "text/plain", "no-store", Some(b"Only GET and HEAD."));
    }
    let Some((file, body)) = found(dist, &request.target) else {
        return send(stream, "404 Not Found", "text/plain", "no-store", Some(b"No such file."));
    };
    let body = (request.method == "GET").then_some(&body[..]);
    send(stream, "200 OK", mime::of(&file), caching(&file), body)
}

fn send(stream: &mut impl Write, status: &str, media_type: &str, caching: &str, body: Option<&[u8]>) -> io::Result<()> {
    write!(stream, "HTTP/1.1 {status}\r\nContent-Type: {media_type}\r\nCache-Control: {caching}\r\n")?;
    if let Some(body) = body {
        write!(stream, "Content-Length: {}\r\n", body.len())?;
    }
    write!(stream, "Content-Security-Policy: {}\r\n", csp::header())?;
    for (name, value) in HEADERS {
        write!(stream, "{name}: {value}\r\n")?;
    }
    stream.write_all(b"Connection: close\r\n\r\n")?;
    stream.write_all(body.unwrap_or_default())?;
    stream.flush()
}

fn found(dist: &Path, target: &str) -> Option<(PathBuf, Vec<u8>)> {
    let file = dist.join(local_path(target)?);
    let body = fs::read(&file).ok()?;
    Some((file, body))
}

/// The page and the worker must never be stale. A name made from content may be kept for good; the few plain names,
/// such as icons, are asked about again each time.
fn caching(file: &Path) -> &'static str {
    let named_by_content = file.components().filter_map(|part| part.as_os_str().to_str()).any(is_named_by_content);
    match file.file_name().and_then(|name| name.to_str()) {
        Some("index.html" | "sw.js") => "no-store",
        _ if named_by_content => "public, max-age=31536000, immutable",
        _ => "no-cache",
    }
}

/// The file a target names inside the site; nothing for a target that leads out of it.
fn local_path(target: &str) -> Option<PathBuf> {
    let path = target.split(['?', '#']).next()?;
    let path = PathBuf::from(decode(path.trim_start_matches('/'))?);
    let stays_inside = path.components().all(|part| matches!(part, Component::Normal(_)));
    if !stays_inside {
        return None;
    }
    let is_folder = target.split('?').next()?.ends_with('/');
    Some(if is_folder { path.join("index.html") } else { path })
}

fn decode(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let [first, tail @ ..] = rest {
        if *first == b'%' {
            let digits = std::str::from_utf8(tail.get(..2)?).ok()?;
            bytes.push(u8::from_str_radix(digits, 16).ok()?);
            rest = &tail[2..];
        } else {
            bytes.push(*first);
            rest = tail;
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn targets_become_paths_inside_the_site() {
        let path = |target| local_path(target).map(|it| it.to_string_lossy().replace('\\', "/"));
        assert_eq!(path("/").as_deref(), Some("index.html"));
        assert_eq!(path("/?from=home").as_deref(), Some("index.html"));
        assert_eq!(path("/a/b%20c.txt?d").as_deref(), Some("a/b c.txt"));
        assert_eq!(path("/a/").as_deref(), Some("a/index.html"));
        for bad in ["/../a", "/a/../../b", "/%2e%2e/a", "/%zz", "/%e9", "/%"] {
            assert_eq!(path(bad), None, "{bad}");
        }
    }

    #[test]
    fn only_names_made_from_content_are_kept_for_good() {
        let kept = |name: &str| caching(Path::new(name)).contains("immutable");
        assert!(kept("app-0123456789abcdef.js"));
        assert!(kept("snippets-0123456789abcdef/crate/inline0.js"));
        assert!(!kept("icon-512.png"));
        assert_eq!(caching(Path::new("dist/index.html")), "no-store");
        assert_eq!(caching(Path::new("dist/sw.js")), "no-store");
    }
}
