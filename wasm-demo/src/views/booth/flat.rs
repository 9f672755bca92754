//! The booth drawn flat, where it cannot be drawn in three dimensions.

use leptos::prelude::*;
use mistcoat::job::PartShape;

use super::Band;
use crate::booth3d::gl::Trouble;
use crate::draw::booth::{self, Scene, Standing, booth};
use crate::views::desk::desk;
use crate::words::words;

/// Width of the drawn booth [px]; its middle is shown on narrower screens.
const WIDTH: f64 = 1920.0;

/// Why it is drawn flat, in words.
pub fn why(band: Band) -> &'static str {
    let w = words().booth;
    match band.trouble.get() {
        Some(Trouble::Missing) => w.missing,
        Some(Trouble::Refused) => w.refused,
        Some(Trouble::Lost) => w.lost,
        None => w.too_large,
    }
}

/// The drawing, and why it is flat.
#[component]
pub fn Flat(why: &'static str) -> impl IntoView {
    let desk = desk();
    let scene = move || {
        desk.parsed.with(|job| {
            let Some(job) = job else { return String::new() };
            let run = desk.fresh();
            let done = desk.done.get();
            let part = match &job.part {
                &PartShape::Tube { diameter, length } => Standing::Tube { diameter, length },
                &PartShape::Panel { width, height } | &PartShape::Curved { width, height, .. } => {
                    Standing::Panel { width, height }
                }
                PartShape::Frame(frame) => {
                    Standing::Tube { diameter: frame.thickest(), length: frame.size().x }
                }
            };
            let fan = run.as_ref().and_then(|r| r.number("pattern.length_mm")).map(|mm| mm * 1e-3);
            let scene = Scene {
                width: WIDTH,
                part,
                fan_height: fan,
                distance: job.stroke.distance,
                done: if run.is_some() { Some(1.0) } else { (done > 0.0).then_some(done) },
            };
            booth(&scene, 0.5 * WIDTH - 20.0)
        })
    };
    view! {
        <svg class="booth-flat" aria-hidden="true" viewBox=format!("0 0 {WIDTH} {}", booth::HEIGHT) preserveAspectRatio="xMidYMin slice" inner_html=scene></svg>
        <p class="small booth-why" role="status">{why}</p>
    }
}
