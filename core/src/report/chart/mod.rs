//! The one place of the library that draws: film maps, profiles, where the paint went, the tube seen from its end.
//!
//! Functions from plain values to SVG text, pixels or PNG. Drawings that the page shows too are pieces of SVG whose
//! colours come from classes; [`alone`] gives such a piece a head and the classes' light colours, so that it stands as a
//! file of its own.

mod curve;
mod dimension;
pub mod end_view;
pub mod film_map;
pub mod flow;
pub mod gun;
mod knob_map;
mod map_file;
mod pair;
mod profile;
mod run_flow;
mod scale;
pub mod spiral;
pub mod svg;

pub use curve::{Curve, CurveFrame, CurvePoint};
pub use dimension::dimension;
pub use knob_map::{DARK, KnobMap, MAP_EDGES};
pub use map_file::{map_png, map_svg};
pub use pair::{TubeSide, tube_pair};
pub use profile::{Axis, profile_svg};
pub use run_flow::run_flow;
pub use scale::{short, ticks};

use crate::film::FilmMap;
use crate::job::Job;
use film_map::{Field, Wanted};

/// Classes of the drawings, in the page's light colours.
const STYLE: &str = include_str!("alone.css");

/// A drawing `width` by `height` [px] as a file of its own.
#[must_use]
pub fn alone(title: &str, width: f64, height: f64, body: &str) -> String {
    let (w, h) = (svg::n(width), svg::n(height));
    let title = svg::escape(title);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" \
         role=\"img\" aria-label=\"{title}\">\n<title>{title}</title>\n<style>\n{STYLE}</style>\n\
         <rect class=\"ground\" width=\"{w}\" height=\"{h}\"/>\n{body}\n</svg>\n"
    )
}

/// A film as it is drawn: row by row from the top left.
#[must_use]
pub fn field(film: &FilmMap) -> Option<Field> {
    let rows =
        (0..film.face().ny).rev().flat_map(|j| &film.dry[j * film.face().nx..(j + 1) * film.face().nx]);
    Field::new(film.face().nx, film.face().ny, &rows.map(|&h| h as f32).collect::<Vec<_>>())
}

/// The film wanted of a whole job.
#[must_use]
pub fn wanted(job: &Job) -> Option<Wanted> {
    crate::judge::wanted(job).map(|(low, high)| Wanted { low, high })
}
