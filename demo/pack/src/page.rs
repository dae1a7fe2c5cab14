//! Finds the parts of a page that Trunk wrote: its links and its scripts.
//!
//! Not a reader of all HTML: tags of our own page, in lower case, with quoted values. What is not like that is
//! refused by those who ask.

/// A tag and its place in the page.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Tag<'a> {
    /// From `<` to `>`.
    pub(crate) text: &'a str,
    /// Where it begins.
    pub(crate) start: usize,
}

impl<'a> Tag<'a> {
    /// The value of an attribute.
    pub(crate) fn attribute(&self, name: &str) -> Option<&'a str> {
        let (_, rest) = self.text.split_once(&format!(" {name}=\""))?;
        rest.split_once('"').map(|(value, _)| value)
    }

    /// The name of the file it leads to; an error when that is not a file of ours.
    pub(crate) fn file(&self) -> Result<Option<&'a str>, String> {
        let Some(address) = self.attribute("href").or_else(|| self.attribute("src")) else {
            return Ok(None);
        };
        let name = address.strip_prefix("./").unwrap_or(address);
        if name.contains(':') || name.starts_with('/') || name.contains("..") {
            return Err(format!("the page leads elsewhere: {}", self.text));
        }
        Ok(Some(name))
    }

    /// Where it ends.
    pub(crate) fn end(&self) -> usize {
        self.start + self.text.len()
    }
}

/// All tags of this name, in order.
pub(crate) fn tags<'a>(html: &'a str, name: &str) -> Vec<Tag<'a>> {
    let opening = format!("<{name}");
    html.match_indices(&opening)
        .filter_map(|(start, _)| {
            let rest = html.get(start..)?;
            let after = rest.get(opening.len()..)?;
            let whole = after.starts_with(|sign: char| sign == '>' || sign.is_whitespace());
            let end = rest.find('>').filter(|_| whole)?;
            Some(Tag { text: rest.get(..=end)?, start })
        })
        .collect()
}

/// A script written into the page, with its place there from its tag to its end.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Script<'a> {
    /// What is run.
    pub(crate) text: &'a str,
    /// Where its tag begins.
    pub(crate) start: usize,
    /// Where its closing tag ends.
    pub(crate) end: usize,
}

/// The scripts that are written into the page and run.
pub(crate) fn inline_scripts(html: &str) -> Result<Vec<Script<'_>>, String> {
    const CLOSING: &str = "</script>";
    let mut found = Vec::new();
    for tag in tags(html, "script") {
        let runs = tag.attribute("type").is_none_or(|kind| kind == "module");
        if !runs || tag.attribute("src").is_some() {
            continue;
        }
        let rest = html.get(tag.end()..).unwrap_or_default();
        let Some(length) = rest.find(CLOSING) else {
            return Err(format!("{} has no end", tag.text));
        };
        let text = rest.get(..length).unwrap_or_default();
        found.push(Script { text, start: tag.start, end: tag.end() + length + CLOSING.len() });
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_are_found_by_their_whole_name() {
        let html = "<link rel=\"icon\" href=\"./a.svg\"/><linked><link rel='x'>";
        let found = tags(html, "link");
        assert_eq!(found.len(), 2);
        assert_eq!(found[0].file(), Ok(Some("a.svg")));
        assert_eq!(found[1].file(), Ok(None));
    }

    #[test]
    fn an_address_elsewhere_is_refused() {
        for address in ["https://example.org/a.css", "//example.org/a.css", "../a.css", "/a.css"] {
            let html = format!("<link rel=\"stylesheet\" href=\"{address}\">");
            assert!(tags(&html, "link")[0].file().is_err(), "{address}");
        }
    }

    #[test]
    fn scripts_that_run_are_told_from_data_and_files() {
        let html = "<script type=\"module\">one</script><script type=\"text/plain\">two</script>\
                    <script src=\"./a.js\"></script><script>three</script>";
        let texts: Vec<&str> = inline_scripts(html).unwrap().iter().map(|it| it.text).collect();
        assert_eq!(texts, ["one", "three"]);
        assert!(inline_scripts("<script>never ends").is_err());
    }
}
