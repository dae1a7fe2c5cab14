//! The page comes up, and is alone with the student.

use crate::visit::Visit;

#[test]
fn the_page_opens_without_a_fault_and_asks_nobody_else() {
    let visit = Visit::to_beatwalk();
    assert!(visit.title().ends_with("Beatwalk"), "{}", visit.title());
    visit.leave_in_peace();
}
