//! What a painter should be told about a set-up.

use std::fmt;

use super::class::Feed;
use super::spec::Kit;

/// Lean of the part's face against level above which the gun points up so far that a cup fails it [rad]: 100 degrees.
const OVERHEAD: f64 = 100.0 * std::f64::consts::PI / 180.0;

/// Something the painter should be told about a set-up. `Display` gives the sentence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Warning {
    /// The cap is above 10 psi on a gun sold as HVLP or LVLP. Cap pressure [Pa gauge].
    OverHvlpLimit(f64),
    /// Too little air for this much paint. Annulus air over paint by mass [-].
    Flooded(f64),
    /// Droplets coarser than an air spray's. Sauter mean diameter [m].
    Coarse(f64),
    /// Coarse because there is too little pressure. Cap pressure [Pa gauge] and Sauter mean diameter [m].
    WeakAir(f64, f64),
    /// Trigger not pulled: neither air nor paint.
    TriggerReleased,
    /// Trigger in its first stage, or fluid knob shut: air only.
    NeedleShut,
    /// Air knob shut: no air.
    AirShut,
    /// Needle open, but nothing drives the paint out.
    NoPaint,
    /// Nothing left in the cup to spray.
    CupDry,
    /// Too thick for this tip even with the needle open. Paint flow [m3/s].
    TooThick(f64),
    /// The cup runs dry before the job is done: trigger-on time until then [s], and fills the job takes.
    RunsDry(f64, u64),
    /// Spraying overhead out of a cup.
    CupOverhead(Feed),
    /// The cup's vent is blocked. Flow at the end over the first flow [-], trigger time [s].
    VentBlocked(f64, f64),
    /// Air in the paint passage. Share of the time that it fills the bore [-].
    Spitting(f64),
    /// Paint drips past the needle's packing. Flow of the drip [m3/s].
    Dripping(f64),
}

impl Warning {
    /// The warning for a gun whose part leans by `lean` [rad] (0 flat, pi overhead): a cup is the wrong choice overhead.
    #[must_use]
    pub fn overhead(kit: &Kit, lean: f64) -> Option<Self> {
        (lean > OVERHEAD && kit.feed != Feed::Pressure).then_some(Self::CupOverhead(kit.feed))
    }

    /// The warning for a cup that runs dry: `seconds` of pulled trigger at `flow` [m3/s] from a level 0..=1.
    #[must_use]
    pub fn runs_dry(kit: &Kit, level: f64, flow: f64, seconds: f64) -> Option<Self> {
        let lasts = kit.seconds_to_dry(level, flow).filter(|&lasts| lasts > 0.0 && lasts < seconds)?;
        Some(Self::RunsDry(lasts, kit.fills(level, flow * seconds)?))
    }
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OverHvlpLimit(p) => {
                write!(
                    f,
                    "cap pressure {:.2} bar is above the 0.69 bar (10 psi) of HVLP: lower the inlet pressure",
                    p * 1e-5
                )
            }
            Self::Flooded(r) => write!(
                f,
                "flooded: {r:.2} kg of atomising air for 1 kg of paint is too little: raise the pressure or cut the fluid"
            ),
            Self::Coarse(d) => write!(
                f,
                "coarse: droplets of {:.0} um (Sauter mean) are larger than a gun should give: raise the pressure, thin the paint or \
                 cut the fluid",
                d * 1e6
            ),
            Self::WeakAir(p, d) => write!(
                f,
                "pressure too low to atomise: {:.2} bar at the cap leaves droplets of {:.0} um (Sauter mean): raise the inlet \
                 pressure or open the air knob",
                p * 1e-5,
                d * 1e6
            ),
            Self::TriggerReleased => write!(f, "trigger released: no air, no paint"),
            Self::NeedleShut => write!(f, "needle shut: air only, no paint"),
            Self::AirShut => write!(f, "air knob shut: no air, paint only dribbles"),
            Self::NoPaint => write!(f, "no paint flows: the air draws too little to lift it to the tip"),
            Self::CupDry => write!(f, "cup dry: what is left only wets its walls; fill it"),
            Self::TooThick(q) => write!(
                f,
                "paint too thick for this tip: only {:.0} mL/min leave it with the needle as set; thin the paint or take a larger tip",
                q * 6e7
            ),
            Self::RunsDry(seconds, fills) => write!(
                f,
                "the cup runs dry after {seconds:.0} s of pulled trigger: {fills} {} for this job",
                if *fills == 1 { "fill" } else { "fills" }
            ),
            Self::VentBlocked(share, time) => write!(
                f,
                "cup vent blocked: after {time:.1} s of trigger {:.0} of 100 of the paint still flows, and less every second: clear the \
                 hole in the lid",
                100.0 * share
            ),
            Self::Spitting(share) => write!(
                f,
                "spitting: air fills the paint passage for {:.0} of 100 of the time: tighten or clean the fluid tip, look at the packing",
                100.0 * share
            ),
            Self::Dripping(flow) => write!(
                f,
                "packing loose: about {:.1} mL/min drip at the needle: tighten the packing nut until the drip stops",
                flow * 6e7
            ),
            Self::CupOverhead(Feed::Suction) => write!(
                f,
                "overhead with a suction cup: the gun points up, the tube draws air and paint runs out of the vent; take pressure feed"
            ),
            Self::CupOverhead(_) => write!(
                f,
                "overhead with a gravity cup: the gun points up, the paint leaves the outlet and runs into the lid's vent; take \
                 pressure feed"
            ),
        }
    }
}
