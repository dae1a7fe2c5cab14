//! Points of the cycle on the trace: a symbol, a hairline and a letter each.
//!
//! A student's point is a filled dot, one that the app found an open diamond, the one being placed a
//! ring on a line from top to bottom. Where a wave begins or ends, a bracket stands around the
//! symbol, open towards the wave. Letters keep clear of each other: each takes the nearest free place,
//! and the point being placed chooses first.

use super::palette::{Ink, Palette};
use super::pen::{Drawn, Pen, Rect, Writing, written_width};
use super::projection::Projection;
use super::scene::{Look, PointMark, Role, TraceScene};
use crate::signal::{Landmark, SampleSpan, put_in_order};
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::HPos;

/// How far a bracket reaches up and down, in symbol sizes.
const BRACKET: f64 = 2.2;

/// Which side of its wave a point is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Side {
    Begins,
    Peaks,
    Dips,
    Ends,
}

/// The wave a point belongs to, as it is written, and the point's side of it.
const fn wave(landmark: Landmark) -> (&'static str, Side) {
    match landmark {
        Landmark::POnset => ("P", Side::Begins),
        Landmark::PPeak => ("P", Side::Peaks),
        Landmark::PEnd => ("P", Side::Ends),
        Landmark::QrsOnset => ("QRS", Side::Begins),
        Landmark::Q => ("Q", Side::Dips),
        Landmark::R => ("R", Side::Peaks),
        Landmark::S => ("S", Side::Dips),
        Landmark::QrsEnd => ("QRS", Side::Ends),
        Landmark::TOnset => ("T", Side::Begins),
        Landmark::TPeak => ("T", Side::Peaks),
        Landmark::TEnd => ("T", Side::Ends),
    }
}

/// A point in view, with its letter's place.
struct Placed {
    mark: PointMark,
    at: (f64, f64),
    label: Option<Rect>,
}

/// Draws the points in view; the one being placed lies on top.
pub(super) fn draw_points<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    scene: &TraceScene<'_>,
    projection: &Projection,
    look: &Look<'_>,
) -> Drawn<DB> {
    let sketch = Sketch { pen, palette: look.palette, scale: look.scale };
    for placed in places(scene, projection, look).iter().rev() {
        sketch.point(placed, projection)?;
    }
    Ok(())
}

/// The points in view with room for their letters found, most important first.
fn places(scene: &TraceScene<'_>, projection: &Projection, look: &Look<'_>) -> Vec<Placed> {
    let in_view = scene.points.iter().filter_map(|&mark| {
        let value = *scene.envelope.samples().get(mark.at.get())?;
        let at = (projection.x_of(mark.at, scene.rate), projection.y(value.into()));
        let seen = projection.frame.contains(at.0, at.1);
        seen.then_some(Placed { mark, at, label: None })
    });
    let mut places: Vec<Placed> = in_view.collect();
    put_in_order(&mut places, |placed| match placed.mark.role {
        Role::Active => 0,
        Role::Student => 1,
        Role::Answer => 2,
    });
    let symbol = look.palette.symbol * look.scale;
    let mut taken: Vec<Rect> = places
        .iter()
        .map(|&Placed { mark, at: (x, y), .. }| {
            let (wide, high) = (1.6 * symbol, reach_up(mark.landmark) * symbol);
            Rect::new(x - wide, y - high, x + wide, y + high)
        })
        .collect();
    let plot = projection.frame.plot();
    for placed in &mut places {
        let free: Vec<Rect> = candidates(placed, look)
            .filter(|place| place.within(&plot))
            .filter(|place| !taken.iter().any(|other| place.overlaps(other)))
            .collect();
        let clear = free.iter().find(|place| !lies_on_trace(place, scene, projection));
        let free = clear.or(free.first()).copied();
        placed.label = free;
        taken.extend(free);
    }
    places
}

/// How far a symbol with its bracket reaches up and down, in symbol sizes.
fn reach_up(landmark: Landmark) -> f64 {
    match wave(landmark).1 {
        Side::Begins | Side::Ends => BRACKET + 0.3,
        Side::Peaks | Side::Dips => 1.5,
    }
}

/// Whether the trace runs through a place.
fn lies_on_trace(place: &Rect, scene: &TraceScene<'_>, projection: &Projection) -> bool {
    let sample = |x| scene.rate.nearest(projection.time(x)).get();
    let span = SampleSpan::new(sample(place.left), sample(place.right) + 1);
    scene.envelope.extent(span).is_some_and(|extent| {
        projection.y(extent.high.into()) < place.bottom
            && place.top < projection.y(extent.low.into())
    })
}

/// Where a letter may stand, nearest first: above a peak, below all others, then the other way.
fn candidates(placed: &Placed, look: &Look<'_>) -> impl Iterator<Item = Rect> {
    let (word, side) = wave(placed.mark.landmark);
    let text = look.palette.text_size * look.scale;
    let half = (written_width(word, text) / 2.0 + 0.15 * text, 0.6 * text);
    let first = if side == Side::Peaks { -1.0 } else { 1.0 };
    let (x, y) = placed.at;
    let symbol = look.palette.symbol * look.scale;
    let clear = (reach_up(placed.mark.landmark) + 0.5) * symbol + half.1;
    let ways = [first, -first]
        .into_iter()
        .flat_map(move |way| (0..6).map(move |step| way * (clear + f64::from(step) * 0.65 * text)));
    ways.map(move |away| Rect::new(x - half.0, y + away - half.1, x + half.0, y + away + half.1))
}

struct Sketch<'a, DB: DrawingBackend> {
    pen: &'a Pen<'a, DB>,
    palette: &'a Palette,
    scale: f64,
}

impl<DB: DrawingBackend> Sketch<'_, DB> {
    fn point(&self, placed: &Placed, projection: &Projection) -> Drawn<DB> {
        let Placed { mark, at: (x, y), label } = *placed;
        let (word, side) = wave(mark.landmark);
        let ink = match mark.role {
            Role::Student => self.palette.student,
            Role::Answer => self.palette.answer,
            Role::Active => self.palette.active,
        };
        let hairline = (self.palette.line_weight * self.scale).max(1.0);
        if mark.role == Role::Active {
            let plot = projection.frame.plot();
            self.pen.upright(x, plot.top, plot.bottom, ink, hairline)?;
        }
        if let Some(place) = label {
            let middle = f64::midpoint(place.top, place.bottom);
            let near = if middle < y { place.bottom } else { place.top };
            self.pen.upright(x, y, near, ink, hairline)?;
            self.pen.fill(place, self.palette.paper, 0.85)?;
            let size = self.palette.text_size * self.scale;
            let writing = Writing::new(ink, size, HPos::Center);
            let is_bracket = matches!(side, Side::Begins | Side::Ends);
            let writing = if is_bracket { writing } else { writing.bold() };
            self.pen.write(word, (x, middle), writing)?;
        }
        self.bracket((x, y), side, ink)?;
        self.symbol((x, y), mark.role, ink)
    }

    /// A bracket open towards the wave; nothing at a peak.
    fn bracket(&self, (x, y): (f64, f64), side: Side, ink: Ink) -> Drawn<DB> {
        let towards = match side {
            Side::Begins => 1.0,
            Side::Ends => -1.0,
            Side::Peaks | Side::Dips => return Ok(()),
        };
        let (high, foot) =
            (BRACKET * self.palette.symbol * self.scale, 1.6 * self.palette.symbol * self.scale);
        let toe = x + towards * foot;
        let corners = [(toe, y - high), (x, y - high), (x, y + high), (toe, y + high)];
        self.pen.line(&corners, ink, 2.0 * self.palette.line_weight * self.scale)
    }

    fn symbol(&self, at: (f64, f64), role: Role, ink: Ink) -> Drawn<DB> {
        let half = self.palette.symbol * self.scale;
        let inside = half - 1.8 * self.palette.line_weight * self.scale;
        let diamond = |half: f64| {
            [(at.0 - half, at.1), (at.0, at.1 - half), (at.0 + half, at.1), (at.0, at.1 + half)]
        };
        match role {
            Role::Student => {
                self.pen.dot(at, half, self.palette.paper)?;
                self.pen.dot(at, 0.85 * half, ink)
            }
            Role::Answer => {
                self.pen.shape(&diamond(1.35 * half), ink)?;
                self.pen.shape(&diamond(1.35 * inside), self.palette.paper)
            }
            Role::Active => {
                self.pen.dot(at, 1.4 * half, ink)?;
                self.pen.dot(at, 1.4 * inside, self.palette.paper)?;
                self.pen.dot(at, 0.3 * half, ink)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::Viewport;
    use crate::signal::{Envelope, SampleIndex, SampleRate};
    use crate::words::Language;
    use proptest::prelude::*;

    fn placed(envelope: &Envelope, points: &[PointMark]) -> Vec<Placed> {
        let rate = SampleRate::new(250.0).unwrap();
        let scene = TraceScene {
            points,
            ..TraceScene::bare(envelope, rate, Viewport::fit(envelope, rate))
        };
        let palette = &Palette::LIGHT;
        let look = Look { palette, scale: 1.0, px_per_mm: None, language: Language::English };
        places(&scene, &scene.projection(800.0, 400.0, palette), &look)
    }

    fn mark(landmark: Landmark, at: usize, role: Role) -> PointMark {
        PointMark { landmark, at: SampleIndex::new(at), role }
    }

    #[test]
    fn a_peak_has_its_letter_above_and_a_dip_below() {
        let samples = [0.0, 0.0, 0.1, 1.0, -0.3, 0.0, 0.0];
        let envelope = Envelope::new(samples.iter().flat_map(|&value| [value; 30]).collect());
        let points = [mark(Landmark::R, 105, Role::Student), mark(Landmark::S, 135, Role::Student)];
        let placed = placed(&envelope, &points);
        let [r, s] = placed.as_slice() else { panic!("two points") };
        assert!(r.label.unwrap().bottom < r.at.1);
        assert!(s.label.unwrap().top > s.at.1);
    }

    #[test]
    fn the_point_being_placed_chooses_first() {
        let envelope = Envelope::new(vec![0.0; 200].into());
        let points: Vec<PointMark> = (95..105)
            .map(|at| mark(Landmark::R, at, Role::Answer))
            .chain([mark(Landmark::R, 100, Role::Active)])
            .collect();
        let placed = placed(&envelope, &points);
        assert_eq!(placed.first().unwrap().mark.role, Role::Active);
        assert!(placed.first().unwrap().label.is_some());
    }

    #[test]
    fn points_beyond_the_trace_are_left_out() {
        let envelope = Envelope::new(vec![0.0; 200].into());
        assert!(placed(&envelope, &[mark(Landmark::R, 200, Role::Student)]).is_empty());
    }

    proptest! {
        #[test]
        fn letters_keep_clear_of_letters_and_symbols(
            at in proptest::collection::vec((0..11usize, 0..250usize, 0..3usize), 0..30),
        ) {
            let envelope = Envelope::new((0..250).map(|i| (i as f32 / 20.0).sin()).collect());
            let role = |index| [Role::Student, Role::Answer, Role::Active][index];
            let points: Vec<PointMark> = at
                .into_iter()
                .map(|(landmark, at, of)| mark(Landmark::ALL[landmark], at, role(of)))
                .collect();
            let placed = placed(&envelope, &points);
            for (index, one) in placed.iter().enumerate() {
                let Some(label) = one.label else { continue };
                for (other_index, other) in placed.iter().enumerate() {
                    let (x, y) = other.at;
                    prop_assert!(!label.overlaps(&Rect::new(x - 1.0, y - 1.0, x + 1.0, y + 1.0)));
                    let overlaps = other.label.is_some_and(|other| label.overlaps(&other));
                    prop_assert!(index == other_index || !overlaps);
                }
            }
        }
    }
}
