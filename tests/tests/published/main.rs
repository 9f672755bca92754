//! Published values beside the model's. Tables in `data/published/`, each with its source.

mod air;
mod constants;
mod cups;
mod evaporation;
mod sizes;
mod table;
mod tip;
