//! The pictures in README.md: every screen at three sizes.
//!
//! Taken on every run, so that each screen is drawn at each size; kept in `demo/images/` only with
//! `BEATWALK_PICTURES=1`.

use crate::visit::{Screen, Visit};

#[test]
fn the_screens_at_three_sizes() {
    let visit = Visit::to_beatwalk();
    for screen in Screen::ALL {
        visit.use_screen(screen);
        visit.picture(&format!("start-{}", screen.name()));
    }
    visit.leave_in_peace();
}
