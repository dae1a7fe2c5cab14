//! The report as one HTML page that needs nothing else: text, tables and drawings in a single file.
//!
//! It opens in any browser, also years later and without this app, and its policy lets it load nothing and run
//! nothing. Whatever comes from a file or a student is written as text.

mod markup;

use super::{Report, ResultLine};
use crate::words::{Language, say};
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
        write_results(&mut page, "page.results.typical", &self.results, language, |line| {
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
        write_results(&mut page, "page.results.misleads", &self.corrected, language, |line| {
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
        let heads = [
            "page.results.point",
            "page.results.mark",
            "page.results.tries",
            "page.results.verdict",
            "page.results.revealed",
        ];
        page.text("h2", &say(language, "page.results.placements"));
        let rows = self.placements.iter().map(|line| {
            vec![
                line.landmark.clone(),
                line.own.clone(),
                line.tries.to_string(),
                line.verdict.clone(),
                line.revealed.clone().unwrap_or_default(),
            ]
        });
        page.table(&heads.map(|head| say(language, head).into_owned()), rows);
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
        let heads = ["point", "miss", "limit", "verdict"].map(|head| format!("check.table.{head}"));
        let rows = self.understood.points.iter().map(|line| {
            vec![line.landmark.clone(), line.miss.clone(), line.limit.clone(), line.verdict.clone()]
        });
        page.table(&heads.map(|head| say(language, &head).into_owned()), rows);
    }
}

fn write_results(
    page: &mut Markup,
    last: &str,
    lines: &[ResultLine],
    language: Language,
    beside: impl Fn(&ResultLine) -> Vec<String>,
) {
    let heads = [
        "page.results.quantity",
        "page.results.own",
        "page.results.computed",
        "page.results.all_beats",
        last,
    ];
    let heads = heads.map(|head| say(language, head).into_owned());
    let rows = lines.iter().map(|line| {
        let cells = [&line.quantity, &line.own, &line.computed, &line.all_beats];
        cells.into_iter().cloned().chain([beside(line).join("\n")]).collect()
    });
    page.table(&heads, rows);
}
