//! Seen from the end of the tube, to scale: cap, droplets in the air, tube, and across the fan what met it.

use std::fmt::Write;

use super::dimension::dimension;
use super::svg::{circle, group, line, n, path};
use crate::course::Speck;

/// Where one droplet hangs in the air, or has landed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DropletEnd {
    /// Along the gun's axis from the tip [m]; infinite when it has gone by.
    pub along: f32,
    /// Across it, along the fan's long axis [m].
    pub across: f32,
    /// Across it, along the fan's short axis [m].
    pub sideways: f32,
    /// Where it ends, across [m].
    pub end_across: f32,
    /// It lands on the part.
    pub landed: bool,
}

impl From<&Speck> for DropletEnd {
    fn from(speck: &Speck) -> Self {
        let [sideways, across, along] =
            speck.position.map_or([f64::INFINITY; 3], Into::into).map(|v| v as f32);
        Self { along, across, sideways, end_across: speck.end[1] as f32, landed: speck.lands }
    }
}

/// What the end view needs, lengths in [m].
#[derive(Debug, Clone, PartialEq)]
pub struct EndView<'a> {
    /// Tip to the part's near face.
    pub distance: f64,
    /// Tube's outer diameter; none for a flat panel.
    pub diameter: Option<f64>,
    /// Fan height at that distance, when the run knows it.
    pub fan_height: Option<f64>,
    /// Droplets of the run.
    pub droplets: &'a [DropletEnd],
    /// Figures on the dimension lines, with units: fan height, distance.
    pub figures: (String, String),
}

/// Room left of the tip and right of the part, for the cap and for the fan's curve [px].
const MARGIN: (f64, f64) = (26.0, 96.0);

/// The scale at which a view just fits [px/m]; views that are compared take the smallest of theirs.
///
/// One scale for both axes: 22 mm against 215 mm is the whole lesson.
pub fn fit(view: &EndView, width: f64, height: f64) -> f64 {
    let depth = view.diameter.unwrap_or(0.0);
    let reach = (view.distance + depth).max(1e-3) * 1.22;
    let tall = view.fan_height.unwrap_or(0.25 * view.distance).max(2.0 * depth) * 1.25;
    ((width - MARGIN.0 - MARGIN.1) / reach).min((height - 44.0) / tall)
}

/// Drawing `width` by `height` px at `scale` [px/m].
pub fn end_view(view: &EndView, width: f64, height: f64, scale: f64) -> String {
    let (left, right) = MARGIN;
    let middle = 0.5 * (height - 30.0);
    let at = |along: f64, across: f64| (left + along * scale, middle + across * scale);
    let mut out = String::new();
    let mut dots = [String::new(), String::new()];
    for d in view.droplets.iter().filter(|d| d.along.is_finite() && d.across.is_finite()) {
        let (x, y) = at(f64::from(d.along), f64::from(d.across));
        if x > left && x < width - right + 20.0 && y > 0.0 && y < height - 30.0 {
            let _ = write!(dots[usize::from(d.landed)], "M{} {}h.01", n(x), n(y));
        }
    }
    out += &format!(
        r#"<path class="drops drops-by" d="{}"/><path class="drops drops-on" d="{}"/>"#,
        dots[0], dots[1]
    );
    // Front of the air cap, two horns.
    out += &path(
        "sheet outline-2",
        &format!(
            "M-22 {a}H18L26 {b}L20 {c}L28 {m}L20 {d}L26 {e}L18 {f}H-22",
            a = n(middle - 20.0),
            b = n(middle - 15.0),
            c = n(middle - 5.0),
            m = n(middle),
            d = n(middle + 5.0),
            e = n(middle + 15.0),
            f = n(middle + 20.0)
        ),
    );
    let face = at(view.distance, 0.0);
    match view.diameter {
        Some(diameter) => {
            let r = 0.5 * diameter * scale;
            let centre = (face.0 + r, middle);
            out += &circle("sheet outline", centre, r);
            out += &circle("none inside-line", centre, 0.82 * r);
            if !view.droplets.is_empty() {
                let (dx, dy) = (0.5 * r, 0.866 * r);
                let (x, a, b) = (n(centre.0 - dx), n(middle - dy), n(middle + dy));
                out += &format!(r#"<path class="painted" d="M{x} {a}A{r} {r} 0 0 0 {x} {b}"/>"#, r = n(r));
            }
            let end_x = width - right + 26.0;
            for side in [-1.0, 1.0] {
                out += &line("dashed", (centre.0, middle + side * r), (end_x, middle + side * r));
            }
        }
        None => {
            let half = 0.5 * (height - 44.0);
            out += &path(
                "sheet outline-2",
                &format!(
                    "M{x} {a}H{x2}V{b}H{x}Z",
                    x = n(face.0),
                    x2 = n(face.0 + 6.0),
                    a = n(middle - half),
                    b = n(middle + half)
                ),
            );
        }
    }
    if let Some(fan) = view.fan_height {
        let x = width - right + 6.0;
        let half = 0.5 * fan * scale;
        out += &dimension((x, middle - half), (x, middle + half), &view.figures.0);
    }
    let foot = height - 12.0;
    out += &dimension((at(0.0, 0.0).0, foot), (face.0, foot), &view.figures.1);
    out + &histogram(view, scale, (width - right + 34.0, middle), 56.0)
}

/// Times that the count is averaged with its neighbours.
const EVENED: usize = 6;

/// Droplets counted across the fan: those that landed solid, those that passed dotted.
fn histogram(view: &EndView, scale: f64, at: (f64, f64), reach: f64) -> String {
    let bin = 4.0 / scale;
    let half = 0.5 * view.fan_height.unwrap_or(0.0) * 1.15;
    let bins = (2.0 * half / bin).ceil() as usize;
    if view.droplets.is_empty() || !(2..=2000).contains(&bins) {
        return String::new();
    }
    let mut counts = vec![[0_u32; 2]; bins];
    for d in view.droplets {
        let place = (f64::from(d.end_across) + half) / bin;
        if place >= 0.0 && place < bins as f64 {
            counts[place as usize][usize::from(d.landed)] += 1;
        }
    }
    // Counting makes it ragged; neighbours are averaged, apart on both sides of a tube's edge, where the step is real.
    let edge = view.diameter.map(|d| 0.5 * d);
    let inside = |i: usize| edge.is_none_or(|r| ((i as f64 + 0.5) * bin - half).abs() < r);
    let even = |which: &dyn Fn(&[u32; 2]) -> u32| -> Vec<f64> {
        let mut values: Vec<f64> = counts.iter().map(|c| f64::from(which(c))).collect();
        for _ in 0..EVENED {
            let before = values.clone();
            for (i, value) in values.iter_mut().enumerate() {
                let beside =
                    |k: usize| if k < bins && inside(k) == inside(i) { before[k] } else { before[i] };
                *value = 0.25 * (beside(i.wrapping_sub(1)) + 2.0 * before[i] + beside(i + 1));
            }
        }
        values
    };
    let (every, landed) = (even(&|c| c[0] + c[1]), even(&|c| c[1]));
    let peak = every.iter().copied().fold(1e-9, f64::max);
    let width = |count: f64| reach * count / peak;
    let (mut all, mut on) = (String::from("M0 "), String::from("M0 "));
    let top = -half * scale;
    let _ = write!(all, "{}", n(top));
    let _ = write!(on, "{}", n(top));
    for (i, (all_here, on_here)) in every.iter().zip(&landed).enumerate() {
        let (a, b) = (top + 4.0 * i as f64, top + 4.0 * (i + 1) as f64);
        let _ = write!(all, "L{w} {}L{w} {}", n(a), n(b), w = n(width(*all_here)));
        let _ = write!(on, "L{w} {}L{w} {}", n(a), n(b), w = n(width(*on_here)));
    }
    let end = n(top + 4.0 * bins as f64);
    let inner = format!(
        r#"<path class="passed" d="{all}L0 {end}Z"/><path class="paint edge" d="{on}L0 {end}Z"/>{}"#,
        line("part", (0.0, top), (0.0, top + 4.0 * bins as f64))
    );
    group(&format!("translate({} {})", n(at.0), n(at.1)), &inner)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_scale_for_tube_and_fan() {
        let drops = [
            DropletEnd { along: 0.2, across: 0.0, sideways: 0.0, end_across: 0.0, landed: true },
            DropletEnd { along: 0.2, across: 0.09, sideways: 0.0, end_across: 0.09, landed: false },
        ];
        let view = EndView {
            distance: 0.2,
            diameter: Some(0.022),
            fan_height: Some(0.22),
            droplets: &drops,
            figures: ("220".into(), "200 mm".into()),
        };
        let svg = end_view(&view, 460.0, 300.0, fit(&view, 460.0, 300.0));
        let r: f64 = svg
            .split("sheet outline\"")
            .nth(1)
            .and_then(|s| s.split("r=\"").nth(1))
            .and_then(|s| s.split('"').next())
            .and_then(|s| s.parse().ok())
            .unwrap();
        let fan_px: f64 = {
            // The dimension line's ends are the fan's edges.
            let scale = r / 0.011;
            0.22 * scale
        };
        assert!(fan_px < 260.0 && (fan_px / (2.0 * r) - 10.0).abs() < 0.05, "{fan_px} {r}");
        assert!(!svg.contains("NaN"));
    }

    #[test]
    fn without_a_run_there_is_no_curve() {
        let view = EndView {
            distance: 0.2,
            diameter: Some(0.022),
            fan_height: None,
            droplets: &[],
            figures: (String::new(), "200 mm".into()),
        };
        assert!(!end_view(&view, 460.0, 300.0, fit(&view, 460.0, 300.0)).contains("passed"));
    }
}
