//! What the views are given: plain values, filled from the job and from the model's report, never invented.

pub use self::face::{Feed, GunFace, Knob, Stage};
pub use self::result::{Bar, DropletEnd, FilmGrid, Profile, RunView};

mod face;
mod result;
