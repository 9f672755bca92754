//! Trigger on its pivot, with its two stages, and the air valve it opens first.

use super::fluid::spring;
use super::geometry::{AIR_STAGE, NEEDLE_TRAVEL, PIVOT, Pose, VALVE_Y};
use crate::math::{atan, atan2, cos, sin};
use crate::report::chart::svg::{circle, group, line, n, path, text};

/// Blade at rest.
const BLADE: &str = "M172 -70C178 -80 193 -78 199 -66C212 -40 228 -8 234 40C240 92 214 130 200 176\
C195 196 196 212 195 226C193 238 178 237 177 225C174 188 186 150 198 122C212 88 216 66 212 34C208 4 196 -24 176 -50C170 -58 168 -62 172 -70Z";

/// Radius of the arc below the trigger's foot [u].
const ARC: f64 = 312.0;

/// Air valve, trigger, and at a pull the dashed place where it was.
pub fn moving(pose: &Pose) -> String {
    let turn = |angle: f64| format!("rotate({} {} {})", n(-angle.to_degrees()), n(PIVOT.0), n(PIVOT.1));
    let mut out = valve(pose);
    if pose.trigger > 0.0 {
        out += &path("dashed none", BLADE);
    }
    out += &format!(
        r#"<g class="trigger" transform="{}">{}{}{}</g>"#,
        turn(pose.trigger),
        path("sheet outline", BLADE),
        path("inside-line", "M196 -34C210 -8 220 20 222 46C225 88 206 124 194 158"),
        "",
    );
    out += &circle("sheet outline-2", PIVOT, 8.0);
    out += &circle("solid", PIVOT, 2.6);
    out
}

/// Stem, plug and spring of the air valve.
fn valve(pose: &Pose) -> String {
    let y = VALVE_Y;
    let inner = [
        path("sheet part", &format!("M228 {}H290V{}H228Z", n(y - 5.0), n(y + 5.0))),
        path(
            "solid",
            &format!("M290 {}L303 {}V{}L290 {}Z", n(y - 8.0), n(y - 13.0), n(y + 13.0), n(y + 8.0)),
        ),
    ]
    .concat();
    let push = pose.valve.min(22.0);
    group(&format!("translate({} 0)", n(push)), &inner)
        + &group(&format!("translate(0 {})", n(y)), &path("spring", &spring(304.0 + push, 350.0, 11.0, 4)))
}

/// The arc with three ticks under the foot, and where the trigger stands now; `words` are rest, air, paint.
pub fn arc(pose: &Pose, words: Option<[&str; 3]>) -> String {
    // The foot's own angle at rest, from straight down.
    let lean = atan2(186.0 - PIVOT.0, 230.0 - PIVOT.1);
    let at = |angle: f64, r: f64| {
        let a = lean + angle;
        (PIVOT.0 + r * sin(a), PIVOT.1 + r * cos(a))
    };
    let full = AIR_STAGE + atan(NEEDLE_TRAVEL / -PIVOT.1);
    let (from, to) = (at(0.0, ARC), at(full, ARC));
    let mut out = path(
        "part none",
        &format!("M{} {}A{r} {r} 0 0 0 {} {}", n(from.0), n(from.1), n(to.0), n(to.1), r = n(ARC)),
    );
    for angle in [0.0, AIR_STAGE, full] {
        out += &line("part", at(angle, ARC - 8.0), at(angle, ARC + 8.0));
    }
    if let Some([rest, air, paint]) = words {
        let place = |angle: f64, dx: f64| {
            let (x, y) = at(angle, ARC + 26.0);
            (x + dx, y)
        };
        out += &text(if pose.trigger == 0.0 { "word on" } else { "word" }, place(0.0, -2.0), "end", rest);
        let in_air = pose.trigger > 0.0 && pose.needle == 0.0;
        out += &text(if in_air { "word on" } else { "word" }, place(AIR_STAGE, -6.0), "middle", air);
        out += &text(if pose.needle > 0.0 { "word on" } else { "word" }, place(full, -14.0), "middle", paint);
    }
    out += &circle("accent-dot", at(pose.trigger, ARC), 5.2);
    out
}
