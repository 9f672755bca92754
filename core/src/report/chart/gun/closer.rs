//! The circle that shows cap and tip closer.

use super::GunFace;
use super::geometry::Pose;
use super::{body, cap, fluid};
use crate::report::chart::svg::{circle, group, n};

/// Cap and tip, `scale` times larger, in a circle of radius `r` [px] about (0, 0).
pub fn closer(face: &GunFace, ids: &str, scale: f64, r: f64) -> String {
    let pose = Pose::of(face);
    let inner = [
        body::still(ids, face.feed),
        fluid::still(ids, face.feed),
        cap::section(ids),
        fluid::moving(&pose, face, ids),
    ]
    .concat();
    let at = (14.0, 0.0);
    format!(
        r#"<defs><clipPath id="{ids}-round"><circle r="{}"/></clipPath>{}</defs><g clip-path="url(#{ids}-round)" class="closer">{}{}</g>{}"#,
        n(r),
        super::super::svg::hatches(ids, 8.0),
        circle("paper", (0.0, 0.0), r),
        group(&format!("scale({}) translate({} 0)", n(scale), n(-at.0)), &inner),
        circle("outline-2 none", (0.0, 0.0), r)
    )
}

/// The dashed circle on the gun that says where the closer look is.
pub fn where_it_is(scale: f64, r: f64) -> String {
    circle("dashed none", (14.0, 0.0), r / scale)
}
