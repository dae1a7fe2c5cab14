//! The page in one file: styles, glue and WASM are written into it, so that it opens from a disk or a memory
//! stick and asks nobody for anything.
//!
//! The WASM is packed with gzip and written in base64: gzip saves more than base64 adds, and browsers unpack it
//! (`DecompressionStream`, WHATWG Compression). The glue stands there once: the page runs it, and its worker is
//! made from the text of the same script (`src/worker/page.rs`), in which there is no page to start. It is no
//! module any more, because Chromium starts no module worker from a Blob of a page on a disk.

use crate::page::{Tag, inline_scripts, tags};
use crate::policy::{one_file, seal, source_of};
use crate::words;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use flate2::Compression;
use flate2::write::GzEncoder;
use std::io::Write;

/// What the page does once the glue is there.
const START: &str = r#"
if (globalThis.document) {
  const packed = document.getElementById("packed");
  const bytes = Uint8Array.from(atob(packed.textContent), (letter) => letter.charCodeAt(0));
  packed.remove();
  const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  const headers = { "Content-Type": "application/wasm" };
  __wbg_init({ module_or_path: new Response(unpacked, { headers }) });
}
"#;

/// Makes the page from the one that Trunk wrote and from the files it names.
pub(crate) fn made_from(
    html: &str,
    text_of: impl Fn(&str) -> Result<String, String>,
    bytes_of: impl Fn(&str) -> Result<Vec<u8>, String>,
) -> Result<String, String> {
    let mut styles: Vec<String> = Vec::new();
    let mut head = String::new();
    let mut body = String::new();
    let (mut glue, mut wasm) = (None, None);
    let links = tags(html, "link");
    for link in &links {
        let Some(file) = link.file()? else {
            return Err(format!("a link without an address: {}", link.text));
        };
        match link.attribute("rel") {
            Some("stylesheet") => {
                let style = text_of(file)?;
                if style.contains("</style") {
                    return Err(format!("{file} ends its element"));
                }
                // What it is for, and how the page finds it.
                let kept = ["id", "media"]
                    .into_iter()
                    .filter_map(|name| Some(format!(" {name}=\"{}\"", link.attribute(name)?)));
                let kept: String = kept.collect();
                head.push_str(&format!("<style{kept}>{style}</style>\n"));
                styles.push(style);
            }
            Some("icon") => head.push_str(&icon(&bytes_of(file)?)),
            Some("modulepreload") => glue = Some(text_of(file)?),
            Some("preload") => wasm = Some(bytes_of(file)?),
            Some("words") => {
                let id = link.attribute("id").ok_or("messages without a name")?;
                body.push_str(&words::inside(id, &text_of(file)?));
            }
            // What installs a page needs a server.
            Some("manifest" | "apple-touch-icon") => {}
            _ => return Err(format!("no way to put this into one file: {}", link.text)),
        }
    }
    let glue = glue.ok_or("the page has no link to its program")?;
    let wasm = wasm.ok_or("the page has no link to its WASM")?;
    let program = as_script(&glue)? + START;
    body.push_str(&format!(
        "<script type=\"application/gzip\" id=\"packed\">{}</script>\n\
         <script id=\"program\">{program}</script>\n",
        STANDARD.encode(packed(&wasm)?)
    ));
    let bare = without(html, &links)?;
    let whole = bare.replacen("</head>", &format!("{head}</head>"), 1).replacen(
        "</body>",
        &format!("{body}</body>"),
        1,
    );
    let sources: Vec<String> = styles.iter().map(|style| source_of(style)).collect();
    seal(&whole, |scripts| one_file(scripts, &sources.join(" ")))
}

/// The page without its links and the scripts that Trunk wrote.
fn without(html: &str, links: &[Tag<'_>]) -> Result<String, String> {
    let scripts = inline_scripts(html)?;
    let mut gone: Vec<(usize, usize)> = links.iter().map(|link| (link.start, link.end())).collect();
    gone.extend(scripts.iter().map(|script| (script.start, script.end)));
    gone.sort_unstable();
    let mut left = String::new();
    let mut at = 0;
    for (start, end) in gone {
        left.push_str(html.get(at..start).ok_or("links and scripts overlap")?);
        at = end;
    }
    left.push_str(html.get(at..).unwrap_or_default());
    Ok(left.lines().filter(|line| !line.trim().is_empty()).collect::<Vec<_>>().join("\n"))
}

/// A module as a script that can stand in a page: it gives nothing to others and takes nothing from them.
fn as_script(module: &str) -> Result<String, String> {
    let lines = module.lines().filter(|line| !line.starts_with("export {"));
    let lines = lines.map(|line| line.strip_prefix("export ").unwrap_or(line));
    // Where the WASM lies by default; it is handed over instead.
    let script = lines.collect::<Vec<_>>().join("\n").replace("import.meta.url", "location.href");
    let unfit = ["</script", "<!--", "import.meta", "import(", "\nimport ", "\nexport "];
    match unfit.into_iter().find(|word| script.contains(word)) {
        Some(word) => Err(format!("a script can't say {word:?}")),
        None => Ok(script),
    }
}

fn icon(svg: &[u8]) -> String {
    format!("<link rel=\"icon\" href=\"data:image/svg+xml;base64,{}\" />\n", STANDARD.encode(svg))
}

fn packed(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let mut packer = GzEncoder::new(Vec::new(), Compression::best());
    packer.write_all(bytes).and_then(|()| packer.finish()).map_err(|fault| fault.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "<!doctype html>\n<html><head><meta charset=\"utf-8\" />\n\
        <link rel=\"icon\" href=\"./i.svg\"/><link rel=\"stylesheet\" href=\"./s.css\"/>\
        <link rel=\"stylesheet\" href=\"./s.css\" id=\"on-paper\" media=\"print\"/>\n\
        <link rel=\"manifest\" href=\"./m.webmanifest\"/><script type=\"module\">start</script>\
        <link rel=\"modulepreload\" href=\"./g.js\"><link rel=\"preload\" href=\"./w.wasm\"></head>\n\
        <body></body></html>";

    fn made(page: &str, glue: &str) -> Result<String, String> {
        let text = |name: &str| Ok(if name == "g.js" { glue } else { "p{}" }.to_owned());
        made_from(page, text, |_| Ok(b"abc".to_vec()))
    }

    #[test]
    fn everything_is_in_the_file_and_nothing_is_asked_for() {
        let glue = "export class Stream {}\nfetch(import.meta.url);\nexport { run as default };";
        let page = made(PAGE, glue).unwrap();
        assert!(page.contains(">class Stream {}\nfetch(location.href);\nif (globalThis.document)"));
        assert!(page.contains("<style>p{}</style>"));
        assert!(page.contains("<style id=\"on-paper\" media=\"print\">p{}</style>"));
        assert!(page.contains("connect-src 'none'"));
        for word in ["./", "start</script>", "manifest\"", "modulepreload", "unsafe-inline"] {
            assert!(!page.contains(word), "{word} in {page}");
        }
    }

    #[test]
    fn what_cannot_be_packed_is_refused() {
        assert!(made(PAGE, "'</script>'").is_err());
        assert!(made(PAGE, "\nimport { more } from './more.js';").is_err());
        assert!(made(&PAGE.replace("preload\" href=\"./w", "prefetch\" href=\"./w"), "").is_err());
        assert!(made(&PAGE.replace("./s.css", "https://example.org/s.css"), "").is_err());
    }
}
