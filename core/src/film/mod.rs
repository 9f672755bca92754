//! Film on a part: solids and wet volume by cell, with the spread over the replicate groups.

mod deposit;
mod drying;
mod face;
mod levelling;
mod map;
mod replicates;
mod set;
mod share_error;
mod slide;
mod texture;
mod unevenness;
mod wet;

pub use deposit::Deposit;
pub use drying::{DryingLaws, DryingPoint, flux as drying_flux, inner_flux};
pub use face::{Face, Place};
pub use levelling::{Levelling, thickness_factor};
pub use map::FilmMap;
pub use set::{Mark, Reading as SetReading, SetCell, SetFilm};
pub use slide::{CRITICAL_SPEED, GRAVITY, RUN, Slide, flux};
pub use texture::{DROPLET_MARK, LandedDroplets, Levelled, bands, dry_spray, waviness};
pub use unevenness::{Evenness, evenness, squares};
pub use wet::{QUANTA, TEAR_SHARE, WetCell, WetFilm, WetLaws};
