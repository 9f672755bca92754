//! Dimension lines over the picture, to scale in the booth and foreshortened with it.

use glam::DVec3;

use super::camera::{Camera, Frame};
use super::scene::Scene;
use super::way::Spot;
use crate::draw::svg::{line, n, text};

/// Half of a cross tick [px].
const TICK: f64 = 5.0;
/// Shorter than this a dimension says nothing [px].
const SHORT: f64 = 3.0;

/// Figures to write, with their units.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Figures {
    /// Fan height at the part [m], and said.
    pub fan: Option<(f64, String)>,
    /// A tube's diameter.
    pub diameter: Option<String>,
    /// A part's size along x.
    pub length: Option<String>,
    /// A flat part's size along y.
    pub height: Option<String>,
}

/// The overlay as SVG text.
#[must_use]
pub fn overlay(scene: &Scene, camera: &Camera, frame: &Frame, spot: &Spot, figures: &Figures) -> String {
    let at = |p: DVec3| camera.project(p, frame);
    let mut out = String::new();
    let face = scene.face(spot.face);
    let (length, height) = face.size();
    let place = &face.place;
    let back = camera.axes()[2];
    if place.radius > 0.0 && face.closed {
        if let Some(said) = &figures.diameter {
            // Across the tube as it is seen, above the gun.
            let x = if place.along.y < 0.0 { -0.30 } else { 0.30 } * length.min(0.7);
            let across = place.along.cross(back);
            // Seen along it a tube is as wide as its end.
            let end_on = across.length() < 0.2;
            let across = if end_on { place.rising(spot.y) } else { across.normalize() } * place.radius;
            let side = if place.along.dot(back) < 0.0 { -0.5 } else { 0.5 };
            let middle = place.middle + place.along * if end_on { side * length } else { x };
            out += &short(at(middle - across), at(middle + across), said, frame);
        }
    } else {
        let edge = |x: f64, y: f64| face.point(x, y);
        // Along the lower edge, and up the edge that stands farther to the right.
        let below = -0.5 * height;
        if let Some(said) = &figures.length {
            out +=
                &dimension(at(edge(-0.5 * length, below)), at(edge(0.5 * length, below)), said, frame, 16.0);
        }
        if let Some(said) = &figures.height {
            let far = |x: f64| at(edge(x, 0.0)).map_or(f64::NEG_INFINITY, |p| p.0);
            let x = if far(0.5 * length) > far(-0.5 * length) { 0.5 * length } else { -0.5 * length };
            out += &dimension(at(edge(x, below)), at(edge(x, -below)), said, frame, -16.0);
        }
    }
    out + &fan(scene, &at, frame, spot, figures)
}

fn fan(
    scene: &Scene,
    at: &impl Fn(DVec3) -> Option<(f64, f64)>,
    frame: &Frame,
    spot: &Spot,
    figures: &Figures,
) -> String {
    let Some((height, said)) = &figures.fan else { return String::new() };
    let [a, b] = scene.fan(spot, *height).map(at);
    let Some((a, b)) = a.zip(b) else { return String::new() };
    let long = (a.0 - b.0).hypot(a.1 - b.1);
    if long < SHORT {
        return String::new();
    }
    // The figure stands at the end that is farther right, else lower.
    let key = |p: (f64, f64)| p.0 + 0.4 * p.1;
    let (start, end) = if key(a) < key(b) { (a, b) } else { (b, a) };
    let way = ((end.0 - start.0) / long, (end.1 - start.1) / long);
    line("booth-dash", start, end)
        + &tick(start, way)
        + &tick(end, way)
        + &figure((end.0 + 10.0, end.1 + 10.0), said, frame)
}

/// A dimension beside an edge, `off` px to its side (below or right of it where positive).
fn dimension(a: Option<(f64, f64)>, b: Option<(f64, f64)>, said: &str, frame: &Frame, off: f64) -> String {
    let Some((a, b)) = a.zip(b) else { return String::new() };
    let (a, b) = if a.0 <= b.0 { (a, b) } else { (b, a) };
    let long = (a.0 - b.0).hypot(a.1 - b.1);
    if long < 40.0 {
        return String::new();
    }
    let way = ((b.0 - a.0) / long, (b.1 - a.1) / long);
    let aside = |p: (f64, f64)| (p.0 - way.1 * off, p.1 + way.0 * off);
    let (a, b) = (aside(a), aside(b));
    let middle = (0.5 * (a.0 + b.0), 0.5 * (a.1 + b.1));
    line("booth-line", a, b)
        + &tick(a, way)
        + &tick(b, way)
        + &figure((middle.0 - 3.5 * said.chars().count() as f64, middle.1 + 4.5), said, frame)
}

/// A dimension too short to be broken: arrows' place outside, the figure beside its right end.
fn short(a: Option<(f64, f64)>, b: Option<(f64, f64)>, said: &str, frame: &Frame) -> String {
    let Some((a, b)) = a.zip(b) else { return String::new() };
    let (a, b) = if a.0 <= b.0 { (a, b) } else { (b, a) };
    let long = (a.0 - b.0).hypot(a.1 - b.1);
    if long < SHORT {
        return String::new();
    }
    let way = ((b.0 - a.0) / long, (b.1 - a.1) / long);
    let reach = |p: (f64, f64), by: f64| (p.0 + way.0 * by, p.1 + way.1 * by);
    line("booth-line", reach(a, -14.0), a)
        + &line("booth-line", b, reach(b, 14.0))
        + &tick(a, way)
        + &tick(b, way)
        + &figure(reach((b.0, b.1 + 4.5), 20.0), said, frame)
}

fn tick(p: (f64, f64), way: (f64, f64)) -> String {
    line("booth-line", (p.0 - way.1 * TICK, p.1 + way.0 * TICK), (p.0 + way.1 * TICK, p.1 - way.0 * TICK))
}

/// A figure that starts at a place, moved inside the picture.
fn figure(at: (f64, f64), said: &str, frame: &Frame) -> String {
    let wide = 7.4 * said.chars().count() as f64;
    let x = at.0.clamp(4.0, (frame.width - wide - 12.0).max(4.0));
    let y = at.1.clamp(16.0, (frame.height - 8.0).max(16.0));
    let (left, top) = (n(x - 4.0), n(y - 13.5));
    format!(r#"<rect class="booth-back" x="{left}" y="{top}" width="{}" height="18"/>"#, n(wide + 8.0))
        + &text("booth-figure", (x, y), "start", said)
}

#[cfg(test)]
mod tests {
    use super::super::scene::Named;
    use super::*;
    use mistcoat::job::Job;

    const FRAME: Frame = Frame { width: 1280.0, height: 372.0, centre: (0.4, 0.5), free: (330.0, 160.0) };

    #[test]
    fn fan_and_tube_are_to_the_same_scale() {
        let scene = Scene::of(&Job::from_toml(crate::state::CHAIR_LEG).unwrap()).unwrap();
        let camera = scene.seen(Named::End, &FRAME, &scene.rest(0), Some(0.22));
        let figures = Figures {
            fan: Some((0.22, "220 mm".into())),
            diameter: Some("22 mm".into()),
            ..Figures::default()
        };
        let spot = scene.rest(0);
        let svg = overlay(&scene, &camera, &FRAME, &spot, &figures);
        assert!(svg.contains("220 mm") && !svg.contains("NaN"));
        let [a, b] = scene.fan(&spot, 0.22).map(|p| camera.project(p, &FRAME).unwrap());
        let [c, d] = [-0.011, 0.011].map(|x| camera.project(DVec3::new(x, 0.0, 0.011), &FRAME).unwrap());
        assert!((((a.1 - b.1) / (c.1 - d.1)).abs() - 10.0).abs() < 0.2);
    }

    #[test]
    fn figures_stay_inside_the_picture() {
        let svg = figure((1275.0, 900.0), "600 mm", &FRAME);
        assert!(svg.contains(r#"y="364"#) && svg.contains("600 mm"), "{svg}");
        let scene = Scene::of(&Job::from_toml(crate::state::TABLE_TOP).unwrap()).unwrap();
        let figures =
            Figures { length: Some("600 mm".into()), height: Some("400 mm".into()), ..Figures::default() };
        for named in [Named::Beside, Named::Painter, Named::End, Named::Above] {
            let svg = overlay(
                &scene,
                &scene.seen(named, &FRAME, &scene.rest(0), None),
                &FRAME,
                &scene.rest(0),
                &figures,
            );
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{named:?}");
        }
    }
}
