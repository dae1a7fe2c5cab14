//! Marks on the analysis's own points pass in every beat of the invented class; marks one and a half
//! limits off never do; 'not here' passes just where nothing was found.

use beatwalk::analysis;
use beatwalk::lesson::{Answer, Tolerance, Verdict, judge};
use beatwalk::signal::Landmark;
use beatwalk::synth::Demo;

#[test]
fn the_reference_passes_in_every_beat_and_nothing_far_off_does() {
    let (mut placed, mut absent) = (0, 0);
    for demo in [Demo::Resting, Demo::AfterStairs, Demo::Noisy, Demo::SwappedArms] {
        let recording = demo.recording().unwrap();
        let reading = analysis::read(&recording, &mut ());
        assert!(reading.beats.len() > 25, "{demo:?}");
        for (beat, landmark) in
            reading.beats.iter().flat_map(|beat| Landmark::ALL.map(|landmark| (beat, landmark)))
        {
            let of = |answer| judge(landmark, answer, &beat.landmarks, recording.rate);
            let Some(at) = beat.landmarks.at(landmark) else {
                absent += 1;
                assert_eq!(of(Answer::NotHere), Verdict::RightlyNotHere, "{landmark:?}");
                continue;
            };
            placed += 1;
            assert!(matches!(of(Answer::At(at)), Verdict::Right { .. }), "{landmark:?} at {at:?}");
            assert_eq!(of(Answer::NotHere), Verdict::IsHere, "{landmark:?}");
            let limit = Tolerance::of(landmark, recording.rate).right.milliseconds();
            let off = (1.5 * limit * recording.rate.hz() / 1000.0).ceil() as isize;
            for by in [off, -off] {
                let verdict = of(Answer::At(at.offset(by)));
                assert!(!verdict.is_settled(), "{landmark:?} {by} samples off: {verdict:?}");
            }
        }
    }
    assert!(placed > 1000 && absent > 10, "{placed} placed, {absent} absent");
}
