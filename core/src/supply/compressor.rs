//! Compressor and tank.
//!
//! Delivered air is what comes out, counted as free air. Displacement (what the pistons sweep) is a larger number that
//! many labels show instead; it is kept for showing and takes part in no computation. Delivered air is taken as constant
//! between cut-in and cut-out; real pistons lose a few hundredths over that span. The tank is isothermal:
//! V dp/dt = p_ref (Q_in - Q_out), p_ref and Q at free air.

use crate::air::ROOM_PRESSURE;
use crate::error::{ParameterError, within};

/// A compressor with its tank. Flows are free air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compressor {
    /// Delivered air [m3/s]: never displacement.
    pub delivered_air: f64,
    /// Tank [m3].
    pub tank: f64,
    /// Tank pressure at which it starts [Pa gauge].
    pub cut_in: f64,
    /// Tank pressure at which it stops [Pa gauge].
    pub cut_out: f64,
}

impl Compressor {
    /// Checks every figure.
    ///
    /// # Errors
    /// The first figure out of range, by its key.
    pub fn check(&self) -> Result<(), ParameterError> {
        within("supply.compressor.delivered_air", self.delivered_air * 60_000.0, 1.0, 20_000.0, "L/min")?;
        within("supply.compressor.tank", self.tank * 1e3, 0.1, 20_000.0, "L")?;
        within("supply.compressor.cut_in", self.cut_in * 1e-5, 0.5, 15.0, "bar")?;
        within("supply.compressor.cut_out", self.cut_out * 1e-5, 0.5, 16.0, "bar")?;
        if self.cut_in >= self.cut_out {
            return Err(ParameterError::new(
                "supply.compressor.cut_in",
                format!("{:.2} bar", self.cut_in * 1e-5),
                format!("below the cut-out of {:.2} bar", self.cut_out * 1e-5),
            ));
        }
        Ok(())
    }

    /// Time [s] for the tank to go from one gauge pressure [Pa] to another, `net` free air [m3/s] into it (negative: out
    /// of it); none where it never does.
    #[must_use]
    pub fn seconds(&self, from: f64, to: f64, net: f64) -> Option<f64> {
        let air = self.tank * (to - from) / ROOM_PRESSURE;
        if air == 0.0 {
            return Some(0.0);
        }
        let seconds = air / net;
        (seconds.is_finite() && seconds > 0.0).then_some(seconds)
    }
}
