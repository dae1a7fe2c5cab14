//! The content security policy of each page: what it may run and whom it may ask.
//!
//! Everything is denied first, and only what the app does is allowed again: its own files, WASM (and no other
//! way to make code from data), its worker from a Blob. A script written into the page runs by its SHA-256 only.
//! The policy stands in the page itself, because a school's web space seldom lets anybody set headers;
//! `frame-ancestors` and permissions can be set by a header only, see demo/FOR-ADMINISTRATORS.md.
//! Source: W3C Content Security Policy Level 3.

use crate::page::inline_scripts;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// The policy of the page on a web server, from the sources of its scripts.
pub(crate) fn hosted(scripts: &str) -> String {
    format!(
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval' {scripts}; style-src 'self'; img-src 'self'; \
         connect-src 'self'; worker-src 'self' blob:; manifest-src 'self'; base-uri 'none'; form-action 'none'"
    )
}

/// The policy of the page in one file, from the sources of its scripts and its style: it can ask nobody.
pub(crate) fn one_file(scripts: &str, styles: &str) -> String {
    format!(
        "default-src 'none'; script-src 'wasm-unsafe-eval' {scripts}; style-src {styles}; img-src data:; \
         connect-src 'none'; worker-src blob:; base-uri 'none'; form-action 'none'"
    )
}

/// What stands in a policy for a text written into the page.
pub(crate) fn source_of(text: &str) -> String {
    format!("'{}'", hash(text.as_bytes()))
}

/// The hash by which a browser checks a file or a text.
pub(crate) fn hash(bytes: &[u8]) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(bytes)))
}

/// Writes a policy into the page, before anything that it is about.
pub(crate) fn seal(html: &str, policy: impl Fn(&str) -> String) -> Result<String, String> {
    const BEFORE: &str = "<meta charset=\"utf-8\" />";
    if html.contains("http-equiv") {
        return Err("the page has a policy already".to_owned());
    }
    let scripts: Vec<String> =
        inline_scripts(html)?.iter().map(|script| source_of(script.text)).collect();
    let policy = policy(&scripts.join(" "));
    let meta = format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\" />");
    let (head, rest) =
        html.split_once(BEFORE).ok_or_else(|| format!("the page has no {BEFORE}"))?;
    Ok(format!("{head}{BEFORE}\n    {meta}{rest}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SHA-256 of "abc": FIPS 180-4, first example.
    #[test]
    fn a_text_is_known_by_its_hash() {
        assert_eq!(source_of("abc"), "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='");
    }

    #[test]
    fn each_script_of_the_page_is_in_its_policy_and_no_other_may_run() {
        let html = "<head><meta charset=\"utf-8\" /><script>abc</script></head>";
        let sealed = seal(html, hosted).unwrap();
        let (before, _) = sealed.split_once("<script>").unwrap();
        assert!(before.contains("'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='"));
        assert!(!sealed.contains("unsafe-inline") && !sealed.contains("'unsafe-eval'"));
        assert!(seal(&sealed, hosted).is_err(), "sealed twice");
        assert!(seal("<head></head>", hosted).is_err(), "nowhere to put it");
    }
}
