//! Media types of the files the site is made of.

use std::path::Path;

/// The `Content-Type` of a file, by its extension. Unknown kinds are sent as plain bytes, which `nosniff` keeps inert.
pub fn of(path: &Path) -> &'static str {
    let extension = path.extension().and_then(|it| it.to_str());
    match extension.map(str::to_ascii_lowercase).as_deref() {
        Some("html") => "text/html; charset=utf-8",
        Some("js" | "mjs") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("webmanifest") => "application/manifest+json",
        Some("json") => "application/json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("jpg" | "jpeg") => "image/jpeg",
        Some("ico") => "image/x-icon",
        Some("woff2") => "font/woff2",
        Some("ttf") => "font/ttf",
        Some("pdf") => "application/pdf",
        Some("txt") => "text/plain; charset=utf-8",
        Some("csv") => "text/csv; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn types_browsers_insist_on() {
        // Streaming compilation, module scripts, style sheets and manifests are refused under any other type.
        assert_eq!(of(Path::new("app-0a.wasm")), "application/wasm");
        assert_eq!(of(Path::new("sw.js")), "text/javascript; charset=utf-8");
        assert_eq!(of(Path::new("app.CSS")), "text/css; charset=utf-8");
        assert_eq!(of(Path::new("manifest.webmanifest")), "application/manifest+json");
        assert_eq!(of(Path::new("LICENSE")), "application/octet-stream");
    }
}
