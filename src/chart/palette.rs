//! The colours, weights and sizes of a drawing.
//!
//! Colour is never the only sign: every role also has its own shape and letters. Text keeps 4.5:1
//! against the paper and lines that mean something 3:1 (WCAG 2.2, 1.4.3 and 1.4.11); grid lines
//! carry no meaning alone and stay quiet.

use plotters::style::RGBColor;

/// One colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ink(pub u8, pub u8, pub u8);

impl From<Ink> for RGBColor {
    fn from(ink: Ink) -> Self {
        Self(ink.0, ink.1, ink.2)
    }
}

/// How a drawing looks. Sizes are CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Palette {
    /// Behind everything.
    pub paper: Ink,
    /// Small boxes.
    pub grid_small: Ink,
    /// Large boxes.
    pub grid_large: Ink,
    /// The frame of the plot and the ticks of its axes.
    pub axis: Ink,
    /// Writing.
    pub text: Ink,
    /// The trace.
    pub trace: Ink,
    /// Another trace beneath it, such as the unfiltered one.
    pub beneath: Ink,
    /// Beats that count.
    pub beat: Ink,
    /// Beats set aside.
    pub set_aside: Ink,
    /// Points a student placed.
    pub student: Ink,
    /// Points the app found.
    pub answer: Ink,
    /// The point being placed, and the cursor.
    pub active: Ink,
    /// Notes.
    pub note: Ink,
    /// Hatching of stretches without data.
    pub hole: Ink,
    /// Fill of a chosen stretch.
    pub chosen: Ink,
    /// Fill of a stretch that can't be used.
    pub unusable: Ink,
    /// The height of writing.
    pub text_size: f64,
    /// The weight of the trace.
    pub trace_weight: f64,
    /// The weight of all other lines that mean something.
    pub line_weight: f64,
    /// The weight of grid lines.
    pub grid_weight: f64,
    /// Half the width of a point's symbol.
    pub symbol: f64,
}

impl Palette {
    /// For a screen near the eye.
    pub const LIGHT: Self = Self {
        paper: Ink(0xFB, 0xFB, 0xF8),
        grid_small: Ink(0xDF, 0xE5, 0xE8),
        grid_large: Ink(0xBA, 0xC6, 0xCE),
        axis: Ink(0x6B, 0x78, 0x82),
        text: Ink(0x2B, 0x36, 0x40),
        trace: Ink(0x16, 0x20, 0x2C),
        beneath: Ink(0x7C, 0x8C, 0x9A),
        beat: Ink(0x4A, 0x57, 0x63),
        set_aside: Ink(0x6E, 0x5F, 0x44),
        student: Ink(0x0A, 0x62, 0xB0),
        answer: Ink(0xA8, 0x43, 0x00),
        active: Ink(0x6A, 0x0F, 0x5E),
        note: Ink(0x1C, 0x6B, 0x34),
        hole: Ink(0x8A, 0x93, 0x9B),
        chosen: Ink(0xDC, 0xE9, 0xF2),
        unusable: Ink(0xF1, 0xE6, 0xD6),
        text_size: 13.0,
        trace_weight: 1.75,
        line_weight: 1.0,
        grid_weight: 1.0,
        symbol: 5.0,
    };

    /// For the back row: black on white, heavier and larger.
    pub const PROJECTOR: Self = Self {
        paper: Ink(0xFF, 0xFF, 0xFF),
        grid_small: Ink(0xE2, 0xE7, 0xEA),
        grid_large: Ink(0xAE, 0xBC, 0xC5),
        axis: Ink(0x3A, 0x44, 0x4C),
        text: Ink(0x00, 0x00, 0x00),
        trace: Ink(0x00, 0x00, 0x00),
        beneath: Ink(0x70, 0x7F, 0x8C),
        beat: Ink(0x20, 0x2A, 0x33),
        set_aside: Ink(0x66, 0x52, 0x2E),
        student: Ink(0x00, 0x57, 0xA8),
        answer: Ink(0x9E, 0x3D, 0x00),
        active: Ink(0x54, 0x00, 0x4A),
        note: Ink(0x0E, 0x56, 0x26),
        hole: Ink(0x6E, 0x78, 0x80),
        chosen: Ink(0xD3, 0xE5, 0xF2),
        unusable: Ink(0xF3, 0xE4, 0xCC),
        text_size: 28.0,
        trace_weight: 3.0,
        line_weight: 2.0,
        grid_weight: 1.0,
        symbol: 8.0,
    };

    /// For paper: no fills to speak of, thin grid, and still clear when copied in grey.
    pub const PRINT: Self = Self {
        paper: Ink(0xFF, 0xFF, 0xFF),
        grid_small: Ink(0xE3, 0xE6, 0xE8),
        grid_large: Ink(0xBC, 0xC4, 0xCA),
        axis: Ink(0x55, 0x5F, 0x67),
        text: Ink(0x10, 0x14, 0x18),
        trace: Ink(0x00, 0x00, 0x00),
        beneath: Ink(0x80, 0x88, 0x90),
        beat: Ink(0x30, 0x38, 0x40),
        set_aside: Ink(0x6A, 0x58, 0x38),
        student: Ink(0x0B, 0x5A, 0xA0),
        answer: Ink(0x9C, 0x41, 0x00),
        active: Ink(0x54, 0x00, 0x4A),
        note: Ink(0x24, 0x4A, 0x2E),
        hole: Ink(0x88, 0x90, 0x98),
        chosen: Ink(0xEE, 0xF3, 0xF7),
        unusable: Ink(0xF6, 0xF0, 0xE6),
        text_size: 11.0,
        trace_weight: 1.25,
        line_weight: 0.75,
        grid_weight: 0.4,
        symbol: 4.0,
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    type Linear = [f64; 3];
    type Matrix = [Linear; 3];

    /// Full protan, deutan and tritan vision on linear RGB: Machado, Oliveira and Fernandes 2009,
    /// IEEE Trans. Vis. Comput. Graph. 15:1291, severity 1.0.
    const EYES: [(&str, Matrix); 4] = [
        ("usual", [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]),
        (
            "protan",
            [
                [0.152_286, 1.052_583, -0.204_868],
                [0.114_503, 0.786_281, 0.099_216],
                [-0.003_882, -0.048_116, 1.051_998],
            ],
        ),
        (
            "deutan",
            [
                [0.367_322, 0.860_646, -0.227_968],
                [0.280_085, 0.672_501, 0.047_413],
                [-0.011_820, 0.042_940, 0.968_881],
            ],
        ),
        (
            "tritan",
            [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        ),
    ];

    const ALL: [(&str, Palette); 3] =
        [("light", Palette::LIGHT), ("projector", Palette::PROJECTOR), ("print", Palette::PRINT)];

    fn linear(ink: Ink) -> Linear {
        [ink.0, ink.1, ink.2].map(|part| {
            let part = f64::from(part) / 255.0;
            if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
        })
    }

    fn times(row: &Linear, colour: &Linear) -> f64 {
        row.iter().zip(colour).map(|(a, b)| a * b).sum()
    }

    /// Contrast as WCAG 2.2 defines it.
    fn contrast(a: Ink, b: Ink) -> f64 {
        let luminance = |ink| times(&[0.2126, 0.7152, 0.0722], &linear(ink)) + 0.05;
        let (a, b) = (luminance(a), luminance(b));
        a.max(b) / a.min(b)
    }

    /// CIE 1976 L*a*b* of a colour under D65, as an eye sees it.
    fn lab(ink: Ink, eye: &Matrix) -> Linear {
        let seen = linear(ink);
        let seen = [0, 1, 2].map(|row: usize| times(&eye[row], &seen).clamp(0.0, 1.0));
        let root = |part: f64| {
            if part > 0.008_856 { part.cbrt() } else { 7.787 * part + 16.0 / 116.0 }
        };
        let x = root(times(&[0.4124, 0.3576, 0.1805], &seen) / 0.950_47);
        let y = root(times(&[0.2126, 0.7152, 0.0722], &seen));
        let z = root(times(&[0.0193, 0.1192, 0.9505], &seen) / 1.088_83);
        [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
    }

    fn difference(a: Ink, b: Ink, eye: &Matrix) -> f64 {
        let squares = lab(a, eye).into_iter().zip(lab(b, eye)).map(|(a, b)| (a - b).powi(2));
        squares.sum::<f64>().sqrt()
    }

    #[test]
    fn measures_agree_with_known_values() {
        let (black, white) = (Ink(0, 0, 0), Ink(255, 255, 255));
        assert!((contrast(black, white) - 21.0).abs() < 1e-9);
        // #777 on white: 4.48, the well-known near miss.
        assert!((contrast(Ink(0x77, 0x77, 0x77), white) - 4.48).abs() < 0.005);
        assert!((difference(black, white, &EYES[0].1) - 100.0).abs() < 0.1);
    }

    #[test]
    fn writing_stands_out() {
        for (name, palette) in ALL {
            let Palette { text, beat, set_aside, student, answer, active, .. } = palette;
            for ink in [text, beat, set_aside, student, answer, active] {
                let found = contrast(ink, palette.paper);
                assert!(found >= 4.5, "{name}: {ink:?} on paper has {found:.2}");
            }
        }
    }

    #[test]
    fn lines_that_mean_something_stand_out_on_paper_and_on_fills() {
        for (name, palette) in ALL {
            let Palette { axis, trace, student, answer, active, .. } = palette;
            for ink in [axis, trace, student, answer, active] {
                for ground in [palette.paper, palette.chosen, palette.unusable] {
                    let found = contrast(ink, ground);
                    assert!(found >= 3.0, "{name}: {ink:?} on {ground:?} has {found:.2}");
                }
            }
            for ink in [palette.beneath, palette.hole] {
                let found = contrast(ink, palette.paper);
                assert!(found >= 3.0, "{name}: {ink:?} on paper has {found:.2}");
            }
        }
    }

    #[test]
    fn the_grid_stays_quieter_than_any_line() {
        for (name, palette) in ALL {
            let (small, large) = (
                contrast(palette.grid_small, palette.paper),
                contrast(palette.grid_large, palette.paper),
            );
            assert!(1.1 < small && small < large && large < 2.2, "{name}: {small:.2} {large:.2}");
        }
    }

    #[test]
    fn roles_differ_for_every_eye() {
        for (name, palette) in ALL {
            let Palette { student, answer, active, beat, set_aside, trace, .. } = palette;
            let pairs = [
                (student, answer),
                (student, active),
                (answer, active),
                (student, trace),
                (answer, trace),
                (beat, set_aside),
            ];
            for (eye, matrix) in EYES {
                for (a, b) in pairs {
                    let found = difference(a, b, &matrix);
                    assert!(found >= 20.0, "{name}, {eye}: {a:?} and {b:?} differ by {found:.1}");
                }
            }
        }
    }
}
