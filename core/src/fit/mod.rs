//! Match my gun: from what was measured on a card to the constants of that very gun, with their uncertainty.
//!
//! Unknown are the logarithms t of factors on cT (fan), ex (edge), cs or the needle's gain (flow) and the Sauter mean diameter. Prior
//! t ~ N(0, s^2); reading ln y = ln f(t) + e, e ~ N(0, u^2 + d^2 + c^2) with the user's uncertainty u, the model's own error d and the
//! counting error c. The most likely gun by Gauss-Newton, the posterior as a weighted ensemble of guns. Flow and fan slope are closed
//! forms; sizes and film of a card are flown: a design of cards over the prior gives a quadratic surface in the logarithms, and cards
//! flown anew at the most likely gun put it right there. Equations, priors with their reasons and limits: `docs/methods/match.md`.

mod answer;
mod closed;
mod ensemble;
mod flown;
mod linear;
mod matching;
mod posterior;
mod surface;
mod unknown;
mod words;

pub use answer::{Agreement, Fitted, Likely, MatchedGun, Predicted};
pub use flown::{CardFigures, model_card};
pub use matching::{Matching, Surfaces};
pub use unknown::Unknown;
pub use words::{Line, plain, words};
