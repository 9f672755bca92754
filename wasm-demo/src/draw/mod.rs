//! The page's drawings: functions from plain values to SVG text (and to pixels for film pictures).
//!
//! Nothing here touches a browser, so all of it is tested natively. Colours come from classes in `static/page.css`;
//! no drawing carries a style of its own.

pub mod gun;
pub mod spiral;
pub mod svg;
