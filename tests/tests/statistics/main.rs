//! Samplers beside `rand_distr`, and what steps, noise and f32 do to the figures that people read.
//!
//! Fixed seeds. The 16 Kolmogorov-Smirnov tests each raise a false alarm with 2e-6, all with 3e-5; the six correlations
//! together with 6e-6. Sampled means are asked within 4 standard errors: 6e-5 each, and one event, for they share their draws.

mod curved;
mod edges;
mod lanes;
mod matching;
mod noise;
mod samplers;
mod smirnov;
mod spray;
mod step;
mod streams;
