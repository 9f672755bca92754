//! mistcoat: what an air-spray gun, set up this way, puts on this part.

pub mod air;
pub mod airflow;
pub mod atomizer;
pub mod bump;
pub mod catalogue;
pub mod constants;
pub mod emission;
pub mod error;
pub mod evaporation;
pub mod flight;
pub mod flow_cup;
pub mod gun;
pub mod job;
pub mod lanes;
pub mod math;
pub mod normal;
pub mod numbers;
pub mod paint;
pub mod part;
pub mod set_up;
pub mod spray;
pub mod stream;
pub mod surface;
pub mod units;
