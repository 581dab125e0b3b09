//! The content security policy, written once and given out twice: as a header by the local server and as a meta tag
//! for static hosts that cannot set headers.

/// Whether to demand Trusted Types as well. Off: Leptos builds the static parts of a view through `innerHTML`, which
/// throws under that directive unless a policy lets everything pass, and such a policy guards nothing.
const TRUSTED_TYPES: bool = false;

const DIRECTIVES: [&str; 9] = [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    "style-src 'self'",
    "img-src 'self' blob: data:",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'self'",
];

/// Browsers ignore these in a meta tag.
const HEADER_ONLY: [&str; 1] = ["frame-ancestors 'none'"];

/// The policy for `<meta http-equiv="Content-Security-Policy">`.
pub fn meta() -> String {
    let mut directives = DIRECTIVES.to_vec();
    if TRUSTED_TYPES {
        directives.push("require-trusted-types-for 'script'");
    }
    directives.join("; ")
}

/// The policy for the `Content-Security-Policy` header.
pub fn header() -> String {
    format!("{}; {}", meta(), HEADER_ONLY.join("; "))
}

/// The policy of the family's page: its own few files and nothing else.
pub fn family_page() -> String {
    [
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
    ]
    .join("; ")
}

/// The policy of the family's single file: the style and the script with these digests, and no network.
pub fn family_file(style: &str, script: &str) -> String {
    format!(
        "default-src 'none'; script-src '{script}' 'wasm-unsafe-eval'; style-src '{style}'; base-uri 'none'; \
         form-action 'none'"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn header_is_meta_plus_what_only_a_header_can_say() {
        let header = header();
        let rest: Vec<&str> = header.split("; ").filter(|directive| !HEADER_ONLY.contains(directive)).collect();
        assert_eq!(rest.join("; "), meta());
        assert!(header.contains("frame-ancestors 'none'"));
        assert!(!meta().contains("frame-ancestors"));
    }

    #[test]
    fn no_directive_opens_inline_code_or_another_origin() {
        assert!(!header().contains("'unsafe-inline'"));
        assert!(!header().contains("'unsafe-eval'"));
        assert!(!header().contains("http"));
        assert!(!header().contains('*'));
    }
}
