//! The task: droplets in a free round jet, flown to a plane.
//!
//! Droplets of log-normal size start on rays from the tip at z = 30 mm, in a Gaussian jet of 0.5 m4/s2, and are caught
//! on the plane z = 200 mm. Drag, turbulence, no gravity, no drying. All SI.

/// Momentum flux over air density [m4/s2].
pub const MOMENTUM: f64 = 0.5;
/// Air speed at the tip [m/s].
pub const EXIT_SPEED: f64 = 280.0;
/// Start, distance from the tip [m].
pub const FROM: f64 = 0.03;
/// Plane, distance from the tip [m].
pub const TO: f64 = 0.2;
/// Median diameter by number [m]; by volume 68 um.
pub const NUMBER_MEDIAN: f64 = 35e-6;
/// Geometric standard deviation [-].
pub const SIGMA_G: f64 = 1.6;
/// Standard deviation of the rays' slope [-].
pub const RAY: f64 = 0.1;
/// Density of the droplets [kg/m3].
pub const DENSITY: f64 = 1000.0;
/// Density of the air [kg/m3].
pub const AIR_DENSITY: f64 = 1.2;
/// Viscosity of the air [Pa s].
pub const AIR_VISCOSITY: f64 = 1.81e-5;
/// Longest time aloft [s].
pub const ALOFT: f64 = 0.5;
/// Speed at the start over the air's on the axis, small droplets [-].
pub const PICK_UP: f64 = 0.35;
/// Size at which that has fallen by sqrt 2 [m].
pub const PICK_UP_SIZE: f64 = 40e-6;
