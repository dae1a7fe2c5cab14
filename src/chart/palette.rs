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
        grid_small: Ink(0xE6, 0xEA, 0xEC),
        grid_large: Ink(0xC4, 0xCE, 0xD4),
        axis: Ink(0x6B, 0x78, 0x82),
        text: Ink(0x2B, 0x36, 0x40),
        trace: Ink(0x16, 0x20, 0x2C),
        beneath: Ink(0x7C, 0x8C, 0x9A),
        beat: Ink(0x4A, 0x57, 0x63),
        set_aside: Ink(0x7A, 0x6A, 0x4F),
        student: Ink(0x0B, 0x5F, 0xA5),
        answer: Ink(0xB3, 0x4A, 0x00),
        active: Ink(0x7B, 0x1F, 0x7A),
        hole: Ink(0x8A, 0x93, 0x9B),
        chosen: Ink(0xD8, 0xE6, 0xF0),
        unusable: Ink(0xEF, 0xE2, 0xD0),
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
        student: Ink(0x00, 0x4C, 0x97),
        answer: Ink(0x9E, 0x3D, 0x00),
        active: Ink(0x6E, 0x0F, 0x6E),
        hole: Ink(0x6E, 0x78, 0x80),
        chosen: Ink(0xC9, 0xDF, 0xEF),
        unusable: Ink(0xF0, 0xDD, 0xC0),
        text_size: 20.0,
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
        student: Ink(0x0B, 0x52, 0x8F),
        answer: Ink(0x9C, 0x41, 0x00),
        active: Ink(0x6E, 0x1A, 0x6E),
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
