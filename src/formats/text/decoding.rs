//! Decoding the older encodings: by the browser's own decoder on the page, by a crate elsewhere.
//!
//! Both follow the WHATWG encoding standard, so that the letters are the same. The tables of all of its
//! encodings would be a fifth of what a class downloads, and every browser has them already.

use std::sync::OnceLock;

/// Decodes bytes by the name of an encoding; `None` for a name that is not known. What is no letter
/// becomes U+FFFD.
pub type Decode = fn(encoding: &str, bytes: &[u8]) -> Option<String>;

static HOST: OnceLock<Decode> = OnceLock::new();

/// Has older encodings decoded by the host from now on; the first one that is named stays.
pub fn decode_with(decode: Decode) {
    let _ = HOST.set(decode);
}

/// Bytes in one of the older encodings as text; `None` where it is not known.
pub(super) fn decoded(encoding: &str, bytes: &[u8]) -> Option<String> {
    HOST.get().copied().unwrap_or(by_crate)(encoding, bytes)
}

#[cfg(not(target_arch = "wasm32"))]
fn by_crate(encoding: &str, bytes: &[u8]) -> Option<String> {
    let encoding = encoding_rs::Encoding::for_label(encoding.as_bytes())?;
    Some(encoding.decode_without_bom_handling(bytes).0.into_owned())
}

/// Without a host there is no decoder in a browser.
#[cfg(target_arch = "wasm32")]
fn by_crate(_: &str, _: &[u8]) -> Option<String> {
    None
}
