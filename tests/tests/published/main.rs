//! Published values beside the model's. Tables in `data/published/`, each with its source.

mod air;
mod anchors;
mod arc;
mod cloud;
mod constants;
mod cups;
mod cylinder;
mod dew;
mod drag;
mod eddies;
mod evaporation;
mod exposure;
mod film;
mod frames;
mod impaction;
mod jet;
mod judgement;
mod levelling;
mod overlap;
mod sag;
mod sizes;
mod supply;
mod table;
mod tip;
mod tube_flow;
mod wall_flow;
