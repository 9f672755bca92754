//! How the gun is moved over the part, and what a footprint leaves when it is swept along.

mod aim;
mod along_frame;
mod blend;
mod cumulative;
mod deposits;
mod hand;
mod imprint;
mod layer;
mod members;
mod moved;
mod pass;
mod pass_tables;
mod route;
mod shelf;
mod strip;
mod sweep;
mod tile;
mod track;

pub use aim::{BeforeTube, Frame};
pub use along_frame::{FramePlan, frame_passes, member_place};
pub use blend::{Blend, NodePose};
pub use deposits::Deposits;
pub use hand::{HANDS, Hand, HandError};
pub use imprint::{Bins, Imprint, Levels};
pub use layer::Layer;
pub use moved::{FARTHEST_SWING, moved};
pub use pass::{Pass, Strokes};
pub use pass_tables::PassTables;
pub use route::{Leg, legs};
pub use shelf::{Shelf, ShelfSpec};
pub use strip::{Off, Passing, Rows, Strip};
pub use sweep::{Lay, SWEEP_STEPS, Swept};
pub use track::{MOST_MOMENTS, Moment, Piece, Track};
