//! What the benches share: the task, who does it, and how what landed is counted.

#[path = "../peers/scalar.rs"]
pub mod scalar;

#[path = "../peers/plain.rs"]
pub mod plain;

pub mod cases;
pub mod clock;
pub mod kernel;
pub mod scene;
pub mod tally;
pub mod task;
