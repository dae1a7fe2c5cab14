//! What the page weighs on its way to a school: each file packed with gzip, as web servers send it.
//!
//! The limits stand here and nowhere else. A build that is heavier fails the checks; whoever makes it lighter
//! lowers them.

use crate::page::tags;
use crate::{ONE_FILE, PAGE};
use flate2::Compression;
use flate2::write::GzEncoder;
use std::io::Write;

/// All WASM, packed, in bytes.
const ALL_WASM: usize = 1_055_000;
/// Everything that the first screen waits for, packed, in bytes.
const FIRST_SCREEN: usize = 1_180_000;
/// The one-file page as it lies on a disk, in bytes.
const ONE_FILE_PAGE: usize = 1_860_000;

/// The files with their weights.
pub(crate) struct Scale {
    /// Name, bytes as built, bytes packed.
    files: Vec<(String, usize, usize)>,
    /// What the first screen waits for.
    first: Vec<String>,
}

impl Scale {
    /// Weighs these files.
    pub(crate) fn of(files: Vec<(String, Vec<u8>)>) -> Result<Self, String> {
        let page = files.iter().find(|(name, _)| name == PAGE);
        let html = page.map(|(_, bytes)| String::from_utf8_lossy(bytes));
        let html = html.ok_or_else(|| format!("there is no {PAGE}: run `trunk build` first"))?;
        let mut first = vec![PAGE.to_owned()];
        for link in tags(&html, "link") {
            let waits = matches!(
                link.attribute("rel"),
                Some("stylesheet" | "icon" | "modulepreload" | "preload" | "words")
            );
            first.extend(link.file()?.filter(|_| waits).map(str::to_owned));
        }
        let files = files
            .into_iter()
            .map(|(name, bytes)| Ok((name, bytes.len(), packed_length(&bytes)?)))
            .collect::<Result<_, String>>()?;
        Ok(Self { files, first })
    }

    /// One line a file, the sums below.
    pub(crate) fn table(&self) -> String {
        let mut table = format!("{:>10} {:>10}  file\n", "bytes", "gzip");
        for (name, bytes, packed) in &self.files {
            table.push_str(&format!("{bytes:>10} {packed:>10}  {name}\n"));
        }
        for (what, bytes, limit) in self.sums() {
            table.push_str(&format!("{bytes:>10} of {limit} allowed: {what}\n"));
        }
        table
    }

    /// What is heavier than it may be.
    pub(crate) fn over(&self) -> Vec<String> {
        let over = self.sums().into_iter().filter(|(_, bytes, limit)| bytes > limit);
        over.map(|(what, bytes, limit)| format!("{what}: {bytes} bytes, more than {limit}"))
            .collect()
    }

    fn sums(&self) -> [(&'static str, usize, usize); 3] {
        let packed = |wanted: &dyn Fn(&str) -> bool| {
            self.files.iter().filter(|(name, ..)| wanted(name)).map(|(_, _, packed)| packed).sum()
        };
        let one_file = self.files.iter().filter(|(name, ..)| name == ONE_FILE);
        [
            ("all WASM, gzip", packed(&|name| name.ends_with(".wasm")), ALL_WASM),
            (
                "the first screen, gzip",
                packed(&|name| self.first.iter().any(|it| it == name)),
                FIRST_SCREEN,
            ),
            ("the one-file page", one_file.map(|(_, bytes, _)| bytes).sum(), ONE_FILE_PAGE),
        ]
    }
}

fn packed_length(bytes: &[u8]) -> Result<usize, String> {
    let mut packer = GzEncoder::new(Vec::new(), Compression::best());
    let packed = packer.write_all(bytes).and_then(|()| packer.finish());
    packed.map(|packed| packed.len()).map_err(|fault| fault.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weighed(wasm: usize) -> Scale {
        // Bytes that can't be packed: a linear congruential generator (Knuth's MMIX).
        let mut state = 1_u64;
        let noise = (0..wasm).map(|_| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (state >> 56) as u8
        });
        let page = b"<link rel=\"preload\" href=\"./a.wasm\"><link rel=\"manifest\" href=\"./m\">";
        Scale::of(vec![
            (PAGE.to_owned(), page.to_vec()),
            ("a.wasm".to_owned(), noise.collect()),
            ("m".to_owned(), vec![0; 10]),
        ])
        .unwrap()
    }

    #[test]
    fn what_is_too_heavy_is_named() {
        assert_eq!(weighed(1000).over(), Vec::<String>::new());
        let over = weighed(ALL_WASM + 1).over();
        assert!(over.len() == 1 && over[0].starts_with("all WASM"), "{over:?}");
        assert_eq!(weighed(FIRST_SCREEN).over().len(), 2);
    }

    #[test]
    fn a_folder_without_a_page_is_refused() {
        assert!(Scale::of(Vec::new()).is_err());
    }
}
