//! EMG, breathing belts and two groups against numpy and scipy: `scipy_reflex.json`, made by the script beside it;
//! and the worked examples of breathing and of the reflex arc. Signals are invented there; nothing of them
//! was made with our code.

use super::accuracy::data;
use super::inquiry_recovery::{bare, reading_of};
use super::worked_examples::{assert_near, examples, numbers};
use beatwalk::analysis::Beat;
use beatwalk::inquiry::stats::{Estimate, Independent};
use beatwalk::inquiry::{
    BreathSource, Breathing, FixedDelays, Paced, PathLength, ReflexSettings, Reflexes, Stretch,
    WhyNoResponse, rms_envelope, two_site_speed,
};
use beatwalk::lesson::Evidence;
use beatwalk::signal::{Milliseconds, Recording, SampleIndex, SampleRate, Seconds};
use serde_json::Value;

fn reference() -> Value {
    let text = std::fs::read_to_string(data("reference/scipy_reflex.json")).unwrap();
    serde_json::from_str(&text).unwrap()
}

fn recording(case: &Value) -> Recording {
    let samples: Vec<f32> =
        numbers(&case["samples"]).into_iter().map(|sample| sample as f32).collect();
    let rate = SampleRate::new(case["rate"].as_f64().unwrap()).unwrap();
    Recording { rate, samples: samples.into(), ..bare(100.0, 0.0) }
}

#[test]
fn onset_and_size_are_those_of_numpy() {
    let reference = reference();
    for case in reference["emg"].as_array().unwrap() {
        let what = case["name"].as_str().unwrap();
        let settings = ReflexSettings {
            deviations: case["k"].as_f64().unwrap(),
            hold: Milliseconds::new(3.0),
            dip: Milliseconds::new(1.5),
            ..ReflexSettings::REFLEX
        };
        let tap = Seconds::new(case["tap"].as_f64().unwrap());
        let found = Reflexes::of(&recording(case), &[tap], settings).unwrap();
        let baseline = found.taps[0].baseline.unwrap();
        for (found, key) in [
            (baseline.offset, "offset"),
            (baseline.mean, "mean"),
            (baseline.deviation, "deviation"),
            (baseline.line, "line"),
        ] {
            assert_near(found, &case[key], 1e-9, what);
        }
        let right = &case["response"];
        if right.is_null() {
            assert_eq!(found.taps[0].response, Err(WhyNoResponse::Silent), "{what}");
            continue;
        }
        let answer = found.taps[0].response.unwrap();
        for (found, key) in [
            (answer.latency.milliseconds(), "latency"),
            (answer.duration.milliseconds(), "duration"),
            (answer.rectified_mean, "rectified_mean"),
            (answer.area, "area"),
            (answer.rms, "rms"),
            (answer.peak_to_peak, "peak_to_peak"),
        ] {
            assert_near(found, &right[key], 1e-6, what);
        }
    }
}

#[test]
fn envelopes_are_those_of_scipy() {
    for case in reference()["envelopes"].as_array().unwrap() {
        let window = Milliseconds::new(case["window_ms"].as_f64().unwrap());
        let found = rms_envelope(&recording(case), window);
        let reach = case["reach"].as_u64().unwrap() as usize;
        let right = case["rms"].as_array().unwrap();
        // Near the ends our window shrinks, and scipy's repeats the last value.
        for at in reach..right.len() - reach {
            assert_near(found[at].into(), &right[at], 1e-5, "envelope");
        }
    }
}

#[test]
fn the_lows_of_a_belt_are_those_of_scipy() {
    for case in reference()["belts"].as_array().unwrap() {
        let belt = recording(case);
        let heart = bare(250.0, belt.duration().seconds());
        let beats = (0..).map(|n| 50 + 175 * n).take_while(|&at| at < heart.samples.len());
        let reading = reading_of(beats.map(|at| Beat::at(SampleIndex::new(at))).collect());
        let stretch = Stretch::whole(Evidence { recording: &heart, reading: &reading });
        let found = Breathing::of(&stretch, BreathSource::Channel(&belt)).unwrap();
        let starts: Vec<f64> = found.breaths.iter().map(|one| one.0.start.seconds()).collect();
        let lows = numbers(&case["lows"]);
        assert!(starts.len() + 3 >= lows.len(), "{starts:?} of {lows:?}");
        for start in starts {
            let nearest = lows.iter().map(|low| (low - start).abs()).fold(9.0, f64::min);
            assert!(nearest <= 1.01 / belt.rate.hz(), "{start} s is off by {nearest} s");
        }
    }
}

#[test]
fn two_groups_are_compared_as_by_scipy() {
    for case in reference()["welch"].as_array().unwrap() {
        let what = case["name"].as_str().unwrap();
        let found = Independent::of(&numbers(&case["first"]), &numbers(&case["second"])).unwrap();
        let (t, interval) = (found.t_test.unwrap(), found.interval.unwrap());
        assert_near(t.t, &case["t"], 1e-9, what);
        assert_near(t.degrees_of_freedom, &case["df"], 1e-9, what);
        assert_near(t.p, &case["p"], 1e-9, what);
        assert_near(interval.low, &case["low"], 1e-6, what);
        assert_near(interval.high, &case["high"], 1e-6, what);
    }
}

/// Three breaths with the longest and shortest interval of `rsa-01`, at 1000 samples a second.
#[test]
fn the_worked_example_of_breathing() {
    for example in examples("rsa-") {
        let breaths = example["inputs"]["breaths"].as_array().unwrap();
        let mut at = 700;
        let mut beats = [0, 700].map(|at| Beat::at(SampleIndex::new(at))).to_vec();
        for breath in breaths {
            let [short, long] = ["RRmin_ms", "RRmax_ms"].map(|key| breath[key].as_u64().unwrap());
            // Six intervals of 700 ms in the mean: 4200 ms each breath.
            for rr in [short, 700, long, short, 700, long] {
                at += rr as usize;
                beats.push(Beat::at(SampleIndex::new(at)));
            }
        }
        beats.push(Beat::at(SampleIndex::new(at + 700)));
        let (reading, heart) = (reading_of(beats), bare(1000.0, 1.0 + at as f64 / 1000.0));
        let stretch = Stretch::whole(Evidence { recording: &heart, reading: &reading });
        let half = Seconds::new(2.1);
        let paced = Paced { from: Seconds::new(0.7), inward: half, outward: half };
        let found = Breathing::of(&stretch, BreathSource::Timer(paced)).unwrap();
        assert_eq!(found.rr_ms.n, 3);
        let expected = &example["expected"];
        assert_near(found.rate.mean, &expected["E_minus_I_bpm"], 1e-3, "E - I");
        assert_near(found.ratio(), &expected["E_to_I_ratio"], 1e-3, "E:I");
        for ((_, swing), right) in found.counted().zip(numbers(&expected["HRmax_bpm"])) {
            assert!((swing.highest.rate.per_minute() - right).abs() < 1e-3);
        }
    }
}

#[test]
fn the_worked_examples_of_the_reflex_arc() {
    let number = |of: &Value, key: &str| of[key].as_f64().unwrap();
    let path = |metres| PathLength { metres, uncertainty: 0.01 };
    let [knee, ankle, loop_speed, two_sites] = &examples("reflex-")[..] else { panic!() };
    for example in [knee, ankle] {
        let inputs = &example["inputs"];
        let ms = |key| Milliseconds::new(number(inputs, key));
        let delays = FixedDelays {
            spindle: ms("t_spindle_ms"),
            synapse: ms("t_syn_ms"),
            junction: ms("t_nmj_ms"),
        };
        let [inward, outward] = ["v_aff_m_s", "v_eff_m_s"].map(|key| number(inputs, key));
        let found = delays.latency(path(number(inputs, "d_aff_m")), inward, outward);
        assert_near(found.milliseconds(), &example["expected"]["latency_ms"], 1e-3, "latency");
    }
    let inputs = &loop_speed["inputs"];
    let zero = Milliseconds::new(0.0);
    let all = Milliseconds::new(number(inputs, "fixed_ms"));
    let delays = FixedDelays { spindle: all, synapse: zero, junction: zero };
    let latency = Estimate::around(number(inputs, "latency_ms"), 0.5);
    let found = delays.speed(path(number(inputs, "d_one_way_m")), latency).unwrap();
    assert_near(found.value, &loop_speed["expected"]["v_m_s"], 1e-3, "loop speed");
    let inputs = &two_sites["inputs"];
    let site =
        |metres, ms| (path(number(inputs, metres)), Estimate::around(number(inputs, ms), 0.5));
    let found =
        two_site_speed(site("d_knee_m", "t_knee_ms"), site("d_ankle_m", "t_ankle_ms")).unwrap();
    assert_near(found.value, &two_sites["expected"]["v_m_s"], 1e-3, "two sites");
}
