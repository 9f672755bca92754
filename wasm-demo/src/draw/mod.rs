//! The page's drawings: functions from plain values to SVG text (and to pixels for film pictures).
//!
//! Nothing here touches a browser, so all of it is tested natively. Colours come from classes in `static/page.css`;
//! no drawing carries a style of its own. Those that stand in the library too come from `mistcoat::report::chart`.

pub use mistcoat::report::chart::{end_view, flow, gun, svg};

pub mod air_line;
pub mod air_test;
pub mod belief;
pub mod booth;
pub mod card_how;
pub mod chalk;
pub mod comb;
pub mod curtain;
pub mod dew;
pub mod film;
pub mod grain;
pub mod hand;
pub mod jug;
pub mod marks;
pub mod next_coat;
pub mod plume;
pub mod profile;
pub mod range;
pub mod side;
pub mod sign;
pub mod small_gun;
pub use mistcoat::report::chart::spiral;
pub mod spots;
pub mod tears;
pub mod wall_strip;
