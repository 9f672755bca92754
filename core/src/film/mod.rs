//! Film on a part: solids and wet volume by cell, with the spread over the replicate groups.

mod deposit;
mod face;
mod map;
mod unevenness;

pub use deposit::Deposit;
pub use face::{Face, Place};
pub use map::FilmMap;
pub use unevenness::{Evenness, evenness, squares};
