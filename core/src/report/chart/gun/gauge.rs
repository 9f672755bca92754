//! Gauge between hose and handle, and the hose.

use super::GunFace;
use super::geometry::{GAUGE, GAUGE_R, gauge_angle};
use crate::math::{cos, sin};
use crate::report::chart::svg::{circle, group, line, n, path, rect, text};

/// Hose and the gauge's case; the dial is drawn with its needle because its scale depends on the units.
pub fn still(_ids: &str) -> String {
    let (x, y) = GAUGE;
    // Middle line of the hose, from under the gauge to the right.
    let hose = format!(
        "M{} {}C{} {} {} 640 {} 640H3000",
        n(x + 7.0),
        n(y + 40.0),
        n(x + 20.0),
        n(y + 96.0),
        n(x + 70.0),
        n(x + 150.0)
    );
    [path("hose-edge", &hose), path("hose-wall", &hose), path("hose-bore", &hose)].concat()
}

/// Dial, needle with the trigger pulled, and the dashed one at rest.
pub fn moving(face: &GunFace) -> String {
    dial(face, 1.0, "bar", 1.0)
}

/// The dial in any unit: `per_bar` of the unit in a bar, numbered every `step` bar-units of that unit; without words where no unit is given.
pub fn dial(face: &GunFace, per_bar: f64, unit: &str, step: f64) -> String {
    let r = GAUGE_R;
    let mut out = circle("sheet outline", (0.0, 0.0), r);
    out += &circle("none inside-line", (0.0, 0.0), r - 4.5);
    let full = face.gauge_full_bar * per_bar;
    let step = if step > 0.0 && full / step < 40.0 { step } else { full / 6.0 };
    let ticks = (full / step).floor().max(0.0) as i32;
    for k in 0..=2 * ticks {
        let value = 0.5 * step * f64::from(k);
        let a = gauge_angle(value, full).to_radians();
        let (s, c) = (sin(a), cos(a));
        let whole = k % 2 == 0;
        let near = if whole { r - 15.0 } else { r - 11.0 };
        let class = if whole { "part" } else { "inside-line" };
        out += &line(class, (near * s, -near * c), ((r - 7.5) * s, -(r - 7.5) * c));
        if whole && !unit.is_empty() {
            let at = r - 22.5;
            out += &text("dial", (at * s, -at * c + 3.6), "middle", &n(value));
        }
    }
    if !unit.is_empty() {
        out += &text("dial", (0.0, r - 12.0), "middle", unit);
    }
    if let Some(rest) = face.rest_bar {
        out += &group(
            &format!("rotate({})", n(gauge_angle(rest, face.gauge_full_bar))),
            &line("rest-needle", (0.0, 6.0), (0.0, -(r - 13.0))),
        );
    }
    out += &format!(
        r#"<g class="gauge-needle" transform="rotate({})">{}</g>"#,
        n(gauge_angle(shown(face), face.gauge_full_bar)),
        line("needle", (0.0, 8.0), (0.0, -(r - 14.0)))
    );
    out += &circle("solid", (0.0, 0.0), 4.6);
    let neck = rect("sheet part", -15.0, -r - 5.0, 30.0, 8.0, 1.5);
    group(&format!("translate({} {})", n(GAUGE.0), n(GAUGE.1)), &(neck + &out))
}

/// What the gauge reads now [bar]: the rest pressure when the trigger is let go and the supply is known.
pub fn shown(face: &GunFace) -> f64 {
    match (face.stage, face.rest_bar) {
        (super::Stage::Rest, Some(rest)) => rest,
        _ => face.pulled_bar,
    }
}

#[cfg(test)]
mod tests {
    use super::super::Stage;
    use super::*;

    #[test]
    fn it_drops_when_the_trigger_is_pulled() {
        let face =
            GunFace { pulled_bar: 2.0, rest_bar: Some(2.6), stage: Stage::Paint, ..GunFace::default() };
        assert_eq!(shown(&face), 2.0);
        assert_eq!(shown(&GunFace { stage: Stage::Rest, ..face }), 2.6);
        assert!(moving(&face).contains("rest-needle"));
        assert!(!moving(&GunFace { rest_bar: None, ..face }).contains("rest-needle"));
    }
}
