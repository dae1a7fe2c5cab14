//! Writing HTML: the only place where text becomes markup, so that none of it is ever taken for markup.
//!
//! What a person or a file wrote stands in elements of their own direction (`dir="auto"`), so that text written
//! from right to left turns nothing around it.

/// How a page looks, on screen and on paper.
const STYLE: &str = include_str!("sheet.css");

/// A page being written.
pub(crate) struct Markup(String);

impl Markup {
    /// A page with its head. The policy: nothing is loaded, no script runs.
    pub(crate) fn page(language: &str, title: &str) -> Self {
        let mut page = Self("<!doctype html>\n<html lang=\"".to_owned());
        page.escaped(language);
        page.raw("\">\n<head>\n<meta charset=\"utf-8\">\n");
        page.raw("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; ");
        page.raw("style-src 'unsafe-inline'\">\n");
        page.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        page.text("title", title);
        page.raw("<style>\n");
        page.raw(STYLE);
        page.raw("</style>\n</head>\n<body>\n<main>\n");
        page
    }

    /// The page, with a last line below everything.
    pub(crate) fn done(mut self, last: &str) -> String {
        self.raw("</main>\n");
        self.text("footer", last);
        self.raw("</body>\n</html>\n");
        self.0
    }

    /// An element with text in it.
    pub(crate) fn text(&mut self, name: &str, words: &str) {
        self.begin(name);
        self.escaped(words);
        self.end(name);
    }

    /// A label, and below it what a person wrote.
    pub(crate) fn labelled(&mut self, label: &str, words: &str) {
        self.raw("<section class=\"said\">\n");
        self.text("h2", label);
        self.raw("<p dir=\"auto\">");
        self.escaped(words);
        self.raw("</p>\n</section>\n");
    }

    /// A drawing of ours and what stands below it.
    pub(crate) fn figure(&mut self, svg: &str, caption: &str) {
        self.raw("<figure>\n");
        self.raw(svg);
        self.text("figcaption", caption);
        self.raw("</figure>\n");
    }

    /// Paragraphs in an element of a class.
    pub(crate) fn list(&mut self, name: &str, class: &str, texts: &[String]) {
        self.raw(&format!("<{name} class=\"{class}\">\n"));
        for words in texts {
            self.text("p", words);
        }
        self.end(name);
    }

    /// A list of sentences.
    pub(crate) fn items(&mut self, texts: &[String]) {
        self.raw("<ul>\n");
        for words in texts {
            self.raw("<li dir=\"auto\">");
            self.escaped(words);
            self.end("li");
        }
        self.end("ul");
    }

    /// Names and values.
    pub(crate) fn facts(&mut self, facts: &[(String, String)]) {
        self.raw("<dl>\n");
        for (name, value) in facts {
            self.text("dt", name);
            self.raw("<dd dir=\"auto\">");
            self.escaped(value);
            self.end("dd");
        }
        self.end("dl");
    }

    /// A table whose first column names the rows.
    pub(crate) fn table(&mut self, heads: &[String], rows: impl Iterator<Item = Vec<String>>) {
        self.raw("<table>\n<thead><tr>");
        for head in heads {
            self.raw("<th scope=\"col\">");
            self.escaped(head);
            self.raw("</th>");
        }
        self.raw("</tr></thead>\n<tbody>\n");
        for row in rows {
            self.raw("<tr>");
            for (place, cell) in row.iter().enumerate() {
                let (open, close) = match place {
                    0 => ("<th scope=\"row\" dir=\"auto\">", "</th>"),
                    _ => ("<td dir=\"auto\">", "</td>"),
                };
                self.raw(open);
                self.escaped(cell);
                self.raw(close);
            }
            self.raw("</tr>\n");
        }
        self.raw("</tbody>\n</table>\n");
    }

    /// Begins an element.
    pub(crate) fn begin(&mut self, name: &str) {
        self.raw("<");
        self.raw(name);
        self.raw(">");
    }

    /// Ends an element.
    pub(crate) fn end(&mut self, name: &str) {
        self.raw("</");
        self.raw(name);
        self.raw(">\n");
    }

    fn raw(&mut self, markup: &str) {
        self.0.push_str(markup);
    }

    /// Text as text; a NUL, which HTML forbids, becomes the sign for something unreadable.
    fn escaped(&mut self, words: &str) {
        for sign in words.chars() {
            match sign {
                '&' => self.raw("&amp;"),
                '<' => self.raw("&lt;"),
                '>' => self.raw("&gt;"),
                '"' => self.raw("&quot;"),
                '\0' => self.0.push(char::REPLACEMENT_CHARACTER),
                sign => self.0.push(sign),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_never_taken_for_markup() {
        let hostile = "</title><script>alert(1)</script>\0\u{202e}\" onload=\"x";
        let mut page = Markup::page("en", hostile);
        page.text("h1", hostile);
        page.labelled(hostile, hostile);
        page.items(&[hostile.to_owned()]);
        page.facts(&[(hostile.to_owned(), hostile.to_owned())]);
        page.table(&[hostile.to_owned()], std::iter::once(vec![hostile.to_owned(); 2]));
        page.list("section", "caution", &[hostile.to_owned()]);
        let text = page.done(hostile);
        assert!(!text.contains("<script") && !text.contains('\0'), "{text}");
        assert_eq!(text.matches("</title>").count(), 1);
        assert!(!text.contains("\" onload"));
    }
}
