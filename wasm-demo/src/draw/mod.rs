//! The page's drawings: functions from plain values to SVG text (and to pixels for film pictures).
//!
//! Nothing here touches a browser, so all of it is tested natively. Colours come from classes in `static/page.css`;
//! no drawing carries a style of its own.

pub mod booth;
pub mod chalk;
pub mod end_view;
pub mod film;
pub mod flow;
pub mod gun;
pub mod plume;
pub mod profile;
pub mod range;
pub mod sign;
pub mod spiral;
pub mod svg;
