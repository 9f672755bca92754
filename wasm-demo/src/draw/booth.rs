//! The booth band: filter wall, floor, the part, the gun's outline and its spray, drawn in one plain perspective.

use super::plume::Sprinkle;
use super::svg::{line, n, path, polygon, rect};

/// What stands in the booth, lengths in [m].
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Standing {
    /// Flat panel.
    Panel {
        /// Width.
        width: f64,
        /// Height.
        height: f64,
    },
    /// Straight tube, upright.
    Tube {
        /// Outer diameter.
        diameter: f64,
        /// Length.
        length: f64,
    },
}

/// The scene, `width` by 372 px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scene {
    /// Width of the band [px].
    pub width: f64,
    /// What stands in it.
    pub part: Standing,
    /// Fan height at the part [m], when the run knows it.
    pub fan_height: Option<f64>,
    /// Tip to the part [m].
    pub distance: f64,
    /// Share of the part's length done, from the top, 0..=1; none shows a bare part.
    pub done: Option<f64>,
}

/// Height of the band [px].
pub const HEIGHT: f64 = 372.0;

/// Draws the band. `about` is the x of the part's middle [px].
pub fn booth(scene: &Scene, about: f64) -> String {
    let w = scene.width;
    let mut out = room(w);
    // To scale inside the band: tube or panel, gun distance, fan. The room round it is not.
    let size = match scene.part {
        Standing::Panel { height, .. } => height,
        Standing::Tube { length, .. } => length,
    };
    let scale = (300.0 / size.max(0.05)).min(1.25 / 1e-3);
    let top = 20.0;
    let foot = top + size * scale;
    match scene.part {
        Standing::Tube { diameter, .. } => {
            let r = (0.5 * diameter * scale).max(3.0);
            out += &tube(about, r, top, HEIGHT);
            if let Some(done) = scene.done {
                let end = top + (foot - top) * done.clamp(0.0, 1.0);
                out += &rect("film edge", about - r, top, 2.0 * r, end - top, 0.0);
                out += &rect("gloss", about - 0.45 * r, top, 0.35 * r, end - top, 0.0);
            }
        }
        Standing::Panel { width, height } => {
            let half = 0.5 * width * scale;
            let slant = 0.10;
            let quad = |a: f64, b: f64| {
                polygon(&[
                    (about - 0.5 * half, top + slant * half + a * height * scale * 0.86),
                    (about + 0.5 * half, top - slant * half + a * height * scale + 14.0),
                    (about + 0.5 * half, top - slant * half + b * height * scale + 14.0),
                    (about - 0.5 * half, top + slant * half + b * height * scale * 0.86),
                ])
            };
            out += &path("sheet outline-2", &quad(0.0, 1.0));
            if let Some(done) = scene.done {
                out += &path("film edge", &quad(0.0, done.clamp(0.0, 1.0)));
            }
        }
    }
    let level = top + 0.52 * (foot - top);
    out + &gun_and_spray(scene, scale, (about, level))
}

/// Walls: a plain side, a filter wall of slats, the floor.
fn room(w: f64) -> String {
    let corner = 0.345 * w;
    let far = 150.0;
    let mut out = rect("booth", 0.0, 0.0, w, HEIGHT, 0.0);
    out +=
        &path("booth-side", &format!("M0 0H{c}V{f}L0 {h}Z", c = n(corner), f = n(far + 40.0), h = n(HEIGHT)));
    out += &path(
        "booth-floor",
        &format!(
            "M0 {h}L{c} {f}L{w} {e}V{h}Z",
            c = n(corner),
            f = n(far + 40.0),
            w = n(w),
            e = n(far + 118.0),
            h = n(HEIGHT)
        ),
    );
    let mut x = corner;
    let mut step = 9.0;
    let mut slats = String::new();
    while x < w {
        let t = (x - corner) / (w - corner).max(1.0);
        slats += &format!("M{} 0L{} {}", n(x), n(x + 5.0 * t), n(far + 40.0 + 78.0 * t));
        x += step;
        step *= 1.012;
    }
    out += &format!(r#"<path class="slats" d="{slats}"/>"#);
    for t in [0.0_f64, 0.33, 0.66] {
        let x = corner + t * (w - corner);
        out += &line("post", (x, 0.0), (x + 5.0 * t, far + 40.0 + 78.0 * t));
    }
    out + &path("post none", &format!("M{} {}L{} {}", n(corner), n(far + 40.0), n(w), n(far + 118.0)))
}

/// A bare tube with its light side.
fn tube(x: f64, r: f64, top: f64, foot: f64) -> String {
    [
        rect("bare outline-2", x - r, top - 3.0, 2.0 * r, foot - top + 6.0, r.min(7.0)),
        rect("bare-light", x - 0.6 * r, top, 0.5 * r, foot - top, 0.0),
    ]
    .concat()
}

/// A gun's outline at its true distance left of the part, spray to the part, and what flies on.
fn gun_and_spray(scene: &Scene, scale: f64, at: (f64, f64)) -> String {
    let gap = scene.distance * scale;
    let tip = (at.0 - gap * 0.82, at.1 + gap * 0.12);
    let mut out = String::new();
    if let Some(fan) = scene.fan_height {
        let half = 0.5 * fan * scale;
        let mut dice = Sprinkle::new(5);
        let mut shades = [String::new(), String::new(), String::new()];
        for _ in 0..3600 {
            let t = 2.6 * dice.draw() * dice.draw().max(0.15);
            let spread = half * t * dice.bell();
            let (x, y) =
                (tip.0 + (at.0 - tip.0) * t, tip.1 + (at.1 - tip.1) * t + spread + 8.0 * t * dice.bell());
            if x < scene.width && y > 0.0 && y < HEIGHT {
                let shade = if t < 0.6 {
                    0
                } else if t < 1.1 {
                    1
                } else {
                    2
                };
                shades[shade] += &format!("M{} {}h.01", n(x), n(y));
            }
        }
        for (i, d) in shades.iter().enumerate() {
            out += &format!(r#"<path class="drops drops-{i}" d="{d}"/>"#);
        }
    }
    let (x, y) = tip;
    let place =
        |points: &[(f64, f64)]| polygon(&points.iter().map(|p| (x + p.0, y + p.1)).collect::<Vec<_>>());
    out += &path(
        "sheet outline-2",
        &place(&[
            (-46.0, -66.0),
            (-2.0, -70.0),
            (-6.0, -34.0),
            (-22.0, -14.0),
            (-34.0, -12.0),
            (-44.0, -30.0),
        ]),
    );
    out += &path(
        "paint edge",
        &place(&[
            (-45.0, -46.0),
            (-4.5, -48.0),
            (-6.0, -34.0),
            (-22.0, -14.0),
            (-34.0, -12.0),
            (-44.0, -30.0),
        ]),
    );
    out += &path(
        "sheet outline-2",
        &place(&[
            (0.0, -6.0),
            (-14.0, -12.0),
            (-52.0, -12.0),
            (-62.0, -2.0),
            (-56.0, 8.0),
            (-62.0, 74.0),
            (-44.0, 78.0),
            (-38.0, 14.0),
            (-14.0, 8.0),
            (0.0, 6.0),
        ]),
    );
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_run_no_spray() {
        let part = Standing::Tube { diameter: 0.022, length: 0.6 };
        let still = Scene { width: 1280.0, part, fan_height: None, distance: 0.2, done: None };
        assert!(!booth(&still, 600.0).contains("drops"));
        let spraying = Scene { fan_height: Some(0.2), done: Some(0.5), ..still };
        let svg = booth(&spraying, 600.0);
        assert!(svg.contains("drops") && svg.contains("film edge") && !svg.contains("NaN"));
    }
}
