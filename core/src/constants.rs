//! The constants of the gun side: one set for all kits. A kit differs by its geometry alone.
//!
//! "fitted": chosen so that a whole-chain figure comes out; "ours": our choice, no source. Details and ranges:
//! `docs/methods/gun.md`, `drop-size.md`, `pattern.md`.

/// Constants of gun and atomizer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    /// Suction at the tip over dynamic pressure of the annular air, cs [-]. Fitted, 0.07-0.11: gives the 4-6 kPa
    /// that 140-200 mL/min through a 1.3 mm gravity tip need.
    pub tip_suction: f64,
    /// Kinetic loss of a passage, dp = m rho V^2 [-]. 1.1-1.2, Hagenbach's term (from memory).
    pub kinetic_loss: f64,
    /// Length of the gap between needle cone and seat [m]. Ours.
    pub needle_gap_length: f64,
    /// Lift of the needle over what travel and trigger give [-]. 1; only a matched pressure gun has its own.
    pub needle_gain: f64,
    /// Part of the trigger's pull that opens the air only [-]. Common practice, no source: the first quarter.
    pub air_stage: f64,
    /// Fan slope over the ratio of lateral to axial momentum, cT [-]. Fitted to a full fan's 190-240 mm at 200-230 mm
    /// on the HVLP 1.3 kit; 1 would mean that the merged jet leaves at the angle of the summed momenta.
    pub fan_slope: f64,
    /// Largest fan slope [-]. Ours: half angle 31 degrees; wider cards were not found.
    pub fan_slope_limit: f64,
    /// Spread of the rays' slope, fan closed, ex [-]. Fitted to a closed fan's 45-50 mm at 150-200 mm.
    pub ray_spread_closed: f64,
    /// Spread of the rays' slope at a full fan [-]. Fitted to a full fan's 28-36 mm thickness.
    pub ray_spread_open: f64,
    /// Fan slope at which the spread has come down to that of a full fan [-]. Ours: slope of a usual full fan.
    pub ray_spread_slope: f64,
    /// Sauter mean diameter of the reference set-up [m], before the cut. The ONE fitted size, x/: 1.35: the landed
    /// share on a large card at 190 mm then lies in the published 0.66-0.87 (Gatano, HVLP; so used up).
    pub sauter_reference: f64,
    /// Likely range of that size, times or over [-]. What the published landed share leaves open (18-32 um median).
    pub sauter_uncertainty: f64,
    /// Geometric standard deviation of droplet volume [-]. Published practice 1.8-2.0 (reference B3: inferred).
    pub sigma_g: f64,
    /// Smallest droplet [m]: at the reference size 0.003 % of the volume lies below.
    pub smallest_droplet: f64,
    /// Largest droplet over the volume median [-].
    pub largest_droplet: f64,
    /// Largest Sauter mean diameter the model gives [m]: beyond, paint dribbles rather than sprays. Ours.
    pub sauter_limit: f64,
    /// Sauter mean diameter above which a spray is called coarse [m]. Upper end of what air-spray guns give (25-45 um
    /// HVLP, from memory).
    pub coarse: f64,
    /// Annulus air over paint, by mass, below which the gun is called flooded [-]. Lowest ratio of published plain-jet
    /// data seen (0.48).
    pub flooded_ratio: f64,
    /// Exponent of the balanced pattern at the design point [-]; flow_fields: 1.5 balanced.
    pub balanced_exponent: f64,
    /// Largest exponent [-]. Ours: a heavier centre cannot be told from this one after the rays' spread.
    pub exponent_limit: f64,
    /// Spreading power over its value at the design point where the fan is flat; beyond it splits [-]. Ours, no published
    /// ratio found.
    pub split_threshold: f64,
    /// Growth of the lobes' centre per unit of spreading power beyond the threshold [-]. Ours.
    pub lobe_growth: f64,
    /// Largest lobe centre [share of half fan]. Ours.
    pub lobe_limit: f64,
}

impl Constants {
    /// The set in use.
    pub const STANDARD: Self = Self {
        tip_suction: 0.10,
        kinetic_loss: 1.2,
        needle_gap_length: 0.5e-3,
        needle_gain: 1.0,
        air_stage: 0.25,
        fan_slope: 1.1,
        fan_slope_limit: 0.6,
        ray_spread_closed: 0.10,
        ray_spread_open: 0.05,
        ray_spread_slope: 0.4,
        sauter_reference: 24e-6,
        sauter_uncertainty: 1.35,
        sigma_g: 1.9,
        smallest_droplet: 2e-6,
        largest_droplet: 4.0,
        sauter_limit: 300e-6,
        coarse: 45e-6,
        flooded_ratio: 0.48,
        balanced_exponent: 1.5,
        exponent_limit: 4.0,
        split_threshold: 1.3,
        lobe_growth: 1.0,
        lobe_limit: 0.6,
    };

    /// Every constant by name, in SI: for the list in the docs and for sensitivities.
    #[must_use]
    pub fn named(&self) -> [(&'static str, f64); 23] {
        [
            ("tip_suction", self.tip_suction),
            ("kinetic_loss", self.kinetic_loss),
            ("needle_gap_length", self.needle_gap_length),
            ("needle_gain", self.needle_gain),
            ("air_stage", self.air_stage),
            ("fan_slope", self.fan_slope),
            ("fan_slope_limit", self.fan_slope_limit),
            ("ray_spread_closed", self.ray_spread_closed),
            ("ray_spread_open", self.ray_spread_open),
            ("ray_spread_slope", self.ray_spread_slope),
            ("sauter_reference", self.sauter_reference),
            ("sauter_uncertainty", self.sauter_uncertainty),
            ("sigma_g", self.sigma_g),
            ("smallest_droplet", self.smallest_droplet),
            ("largest_droplet", self.largest_droplet),
            ("sauter_limit", self.sauter_limit),
            ("coarse", self.coarse),
            ("flooded_ratio", self.flooded_ratio),
            ("balanced_exponent", self.balanced_exponent),
            ("exponent_limit", self.exponent_limit),
            ("split_threshold", self.split_threshold),
            ("lobe_growth", self.lobe_growth),
            ("lobe_limit", self.lobe_limit),
        ]
    }
}

impl Default for Constants {
    fn default() -> Self {
        Self::STANDARD
    }
}
