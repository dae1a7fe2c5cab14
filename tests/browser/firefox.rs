//! The other browser: Beatwalk comes up in Firefox, its worker finds the beats, and it works without its server and
//! from a disk there too.

use crate::visit::{Firefox, let_it_be_written};

fn find_beats(firefox: &mut Firefox) {
    firefox.click("Q-03 at rest");
    firefox.wait_for_text("Found\n32");
}

#[test]
fn beats_are_found_in_firefox_with_the_server_without_it_and_from_a_disk() {
    let mut firefox = Firefox::start();
    firefox.open_beatwalk();
    firefox.wait_for_text("This page also opens without a network.");
    find_beats(&mut firefox);
    let_it_be_written();
    firefox.open_without_the_server();
    // The work comes back first, and brings its screen along.
    firefox.wait_for_text("Found\n32");
    firefox.click("Open a recording");
    find_beats(&mut firefox);
    firefox.open_one_file();
    find_beats(&mut firefox);
}
