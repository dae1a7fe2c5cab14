//! The report as one HTML page that needs nothing else: text, tables and drawings in a single file.
//!
//! It opens in any browser, also years later and without this app, and its policy lets it load nothing and run
//! nothing. Whatever comes from a file or a student is written as text.

mod markup;

use super::{CheckLine, PlacementLine, Report, ResultLine};
use crate::words::{Language, say, say_all};
pub(crate) use markup::Markup;

/// A drawing and what stands below it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawn {
    /// The drawing, an SVG of ours.
    pub svg: String,
    /// What stands below it.
    pub caption: String,
}

impl Report {
    /// The report as a page of HTML, with these drawings.
    pub fn html(&self, drawn: &[Drawn], language: Language) -> String {
        let said = |key: &str| say(language, key);
        let mut page = Markup::page(language.tag(), &self.title);
        page.text("h1", &self.title);
        for (label, words) in
            [("page.results.student", &self.student), ("page.results.remark", &self.remark)]
        {
            if !words.is_empty() {
                page.labelled(&said(label), words);
            }
        }
        page.text("h2", &said("page.results.caption"));
        write_results(&mut page, ResultLine::HEADS, &self.results, language, |line| {
            line.typical.iter().chain(&line.question).cloned().collect()
        });
        page.text("p", &said("page.results.uncertainty"));
        for Drawn { svg, caption } in drawn {
            page.figure(svg, caption);
        }
        page.list("section", "caution", &self.cautions);
        self.write_placements(&mut page, language);
        self.write_understood(&mut page, language);
        page.text("h2", &said("page.results.corrected"));
        write_results(&mut page, ResultLine::CORRECTED_HEADS, &self.corrected, language, |line| {
            vec![line.explained.clone()]
        });
        page.text("p", &said("page.results.corrected_rule"));
        page.text("h2", &said("page.results.recording"));
        page.facts(&self.facts);
        for (title, texts) in [
            ("page.results.notes", &self.notes),
            ("page.results.method", &self.method),
            ("page.results.sources", &self.sources),
        ] {
            if !texts.is_empty() {
                page.text("h2", &said(title));
                page.items(texts);
            }
        }
        page.done(&said("page.teaching"))
    }

    fn write_placements(&self, page: &mut Markup, language: Language) {
        page.text("h2", &say(language, "page.results.placements"));
        let rows = self.placements.iter().map(PlacementLine::cells);
        page.table(&say_all(language, &PlacementLine::HEADS), rows);
    }

    fn write_understood(&self, page: &mut Markup, language: Language) {
        if self.understood.scores.is_empty() {
            return;
        }
        page.text("h2", &say(language, "check.report.title"));
        page.items(&self.understood.scores);
        if self.understood.points.is_empty() {
            return;
        }
        let rows = self.understood.points.iter().map(|line| {
            vec![line.landmark.clone(), line.miss.clone(), line.limit.clone(), line.verdict.clone()]
        });
        page.table(&say_all(language, &CheckLine::HEADS), rows);
    }
}

fn write_results(
    page: &mut Markup,
    heads: [&str; 5],
    lines: &[ResultLine],
    language: Language,
    beside: impl Fn(&ResultLine) -> Vec<String>,
) {
    let rows = lines.iter().map(|line| {
        let cells = [&line.quantity, &line.own, &line.computed, &line.all_beats];
        cells.into_iter().cloned().chain([beside(line).join("\n")]).collect()
    });
    page.table(&say_all(language, &heads), rows);
}
