//! The gun with its knobs as they are set, each knob named in the order of setting.

use super::super::SetUpSheet;
use super::{LEFT, Page, wrap};
use crate::job::Job;
use crate::report::chart::gun::{self, Knob, face_of, geometry::Pose, hit};
use crate::report::chart::svg::{circle, line, n};

/// Paper for a unit of the drawing [mm], at the full size of type.
const SCALE: f64 = 0.082;
/// The drawing's edges [u]: left, top, right, foot; the hose is cut there.
const EDGES: [f64; 4] = [-48.0, -336.0, 500.0, 580.0];
/// Left edge of the knobs' names [mm] from the drawing's.
const NAMES: f64 = 44.0;
/// Pitch of the hatching [u].
const PITCH: f64 = 15.0;

/// Where a knob's name stands [u], down the drawing.
fn place(knob: Knob) -> f64 {
    match knob {
        Knob::Fan => -312.0,
        Knob::Fluid => -2.0,
        Knob::Air => 262.0,
    }
}

/// The gun and its knobs' names from `y` down, at a share of the full type size; where the next goes.
pub(super) fn drawn(page: &mut Page, sheet: &SetUpSheet, (x, y): (f64, f64), size: f64) -> f64 {
    let Ok(job) = Job::from_toml(&sheet.job) else { return y };
    let face = face_of(&job);
    let pose = Pose::of(&face);
    let scale = SCALE * (0.4 + 0.6 * size);
    let [left, top, right, foot] = EDGES;
    let (wide, high) = ((right - left) * scale, (foot - top) * scale);
    let on_paper = |(u, v): (f64, f64)| (x + (u - left) * scale, y + (v - top) * scale);
    page.out += &format!(
        r#"<svg class="gun" x="{}" y="{}" width="{}" height="{}" viewBox="{} {} {} {}" overflow="hidden">{}</svg>"#,
        n(x),
        n(y),
        n(wide),
        n(high),
        n(left),
        n(top),
        n(right - left),
        n(foot - top),
        gun::mute(&face, "sheet", PITCH)
    );
    for (i, set) in sheet.knobs.iter().enumerate() {
        let Some(knob) = Knob::ALL.into_iter().find(|k| k.name() == set.name) else { continue };
        let at = on_paper((0.0, place(knob)));
        let names = x + NAMES;
        page.out += &line("leader", on_paper(hit::leader_start(knob, &pose)), (names - 1.0, at.1));
        page.out += &circle("disc", (names + 2.3, at.1), 2.3);
        page.say("strong", (names + 1.4, at.1 + 1.2), 3.3, &(i + 1).to_string());
        page.say("quiet", (names + 5.8, at.1 + 1.2), 3.3, set.name.trim_end_matches(" knob"));
        let mut down = at.1 + 6.6;
        for piece in wrap(&set.said, "strong", 4.0, LEFT - NAMES + 6.0) {
            page.say("strong", (names, down), 4.0, &piece);
            down += 4.5;
        }
    }
    y + high
}
