//! What a painter should be told about the air.

use std::fmt;

use super::answer::{Answer, Verdict};
use super::{Compressor, Supply};
use crate::air::{ROOM_PRESSURE, free_density};

/// Something about the air supply. `Display` gives the sentence. Pressures [Pa gauge], flows [m3/s free air].
#[derive(Debug, Clone, PartialEq)]
pub enum Warning {
    /// The line gives less than wanted: (wanted, given).
    Short(f64, f64),
    /// The hose chokes at the flow the gun wants: (lets through, wanted).
    HoseChokes(f64, f64),
    /// The couplings choke at the flow the gun wants.
    CouplingsChoke(f64),
    /// The pressure is lost in the job: (seconds of trigger, then wait).
    RunsDown(f64, Option<f64>),
    /// Others empty the tank even with the gun at rest.
    EmptyTank,
    /// Others take all that the compressor delivers: (name of the largest, all others' air, delivered).
    OthersTakeAll(String, f64, f64),
    /// A mask is on the line: it comes first. (name, left for the gun).
    MaskFirst(String, f64),
    /// Wall regulator set above the cut-in: (set, cut-in).
    RegulatorAboveCutIn(f64, f64),
    /// The gun's pressure needs the tank above the cut-in: (needed, cut-in).
    NeedsAboveCutIn(f64, f64),
    /// The compressor would run longer than a piston machine should: share of the time.
    LongDuty(f64),
}

/// Share of the time a piston compressor of a workshop may run. Common practice, no source: 0.5 to 0.75.
const DUTY: f64 = 0.75;

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let bar = |p: &f64| format!("{:.1} bar", p * 1e-5);
        let l_min = |q: &f64| format!("{:.0} L/min", q * 60_000.0);
        let s = |t: &f64| format!("{t:.0} s");
        match self {
            Self::Short(wanted, given) => write!(
                f,
                "the air line gives {} at the gun where {} is asked for: the run is sprayed at the lower pressure",
                bar(given),
                bar(wanted)
            ),
            Self::HoseChokes(lets, wants) => write!(
                f,
                "the hose chokes: it lets {} through at most, the gun wants {}: take a wider or shorter hose",
                l_min(lets),
                l_min(wants)
            ),
            Self::CouplingsChoke(wants) => {
                write!(f, "the couplings choke: the gun wants {}: take full-bore couplings", l_min(wants))
            }
            Self::RunsDown(on, Some(wait)) => write!(
                f,
                "the air runs down: {} of trigger, then {} until the tank is full again",
                s(on),
                s(wait)
            ),
            Self::RunsDown(on, None) => {
                write!(f, "the air runs down after {} of trigger, and the tank does not fill again", s(on))
            }
            Self::EmptyTank => {
                write!(f, "the tank runs empty even with the gun at rest")
            }
            Self::OthersTakeAll(name, also, delivered) => write!(
                f,
                "air not met: {name} and all others but the gun draw {}, the compressor delivers {}; they come first, so there \
                 is none to spray with",
                l_min(also),
                l_min(delivered)
            ),
            Self::MaskFirst(name, left) => write!(
                f,
                "{name} comes first: {} are left for the gun; if the pressure falls, stop spraying, never breathe from a line \
                 that runs down",
                l_min(left)
            ),
            Self::RegulatorAboveCutIn(set, cut_in) => write!(
                f,
                "the wall regulator is set to {}, above the cut-in of {}: before the compressor starts the line follows the tank",
                bar(set),
                bar(cut_in)
            ),
            Self::NeedsAboveCutIn(needed, cut_in) => write!(
                f,
                "the gun's pressure needs {} in the tank and the compressor starts at {}: the pressure is lost before it starts",
                bar(needed),
                bar(cut_in)
            ),
            Self::LongDuty(share) => write!(
                f,
                "the compressor runs {:.0} of 100 minutes with the trigger held: a piston machine should rest a quarter of the \
                 time or more",
                100.0 * share
            ),
        }
    }
}

/// All that holds of an answer; `wanted_flow` [kg/s] is what the gun would draw at the wanted pressure.
pub(super) fn warnings(supply: &Supply, answer: &Answer, wanted_flow: f64) -> Vec<Warning> {
    let Compressor { delivered_air, cut_in, cut_out, .. } = supply.compressor;
    let line = &supply.line;
    let wanted_air = wanted_flow / free_density();
    let mut out = Vec::new();
    let largest = supply.also.iter().max_by(|a, b| a.air.total_cmp(&b.air));
    if let Some(user) = largest {
        if answer.also_air >= delivered_air {
            out.push(Warning::OthersTakeAll(user.name.clone(), answer.also_air, delivered_air));
            if answer.also_air > delivered_air {
                out.push(Warning::EmptyTank);
            }
        } else {
            out.push(Warning::MaskFirst(user.name.clone(), delivered_air - answer.also_air));
        }
    }
    if answer.gun_inlet < answer.wanted - super::answer::HELD {
        out.push(Warning::Short(answer.wanted, answer.gun_inlet));
        let top = ROOM_PRESSURE + line.regulator.unwrap_or(cut_out).min(cut_out);
        let chokes = line.hose.choke(top, line.temperature);
        if wanted_flow >= chokes {
            out.push(Warning::HoseChokes(chokes / free_density(), wanted_air));
        } else if line.couplings > 0 && wanted_flow >= line.coupling.passage().choked(top, line.temperature) {
            out.push(Warning::CouplingsChoke(wanted_air));
        }
    } else if answer.tank_needed > cut_in {
        out.push(Warning::NeedsAboveCutIn(answer.tank_needed, cut_in));
    }
    if let Some(set) = line.regulator.filter(|set| *set > cut_in) {
        out.push(Warning::RegulatorAboveCutIn(set, cut_in));
    }
    if answer.verdict == Verdict::RunsDown
        && let Some(on) = answer.on_seconds
    {
        out.push(Warning::RunsDown(on, answer.wait_seconds));
    }
    let duty = (answer.gun_air + answer.also_air) / delivered_air;
    if answer.verdict == Verdict::ForEver && duty > DUTY {
        out.push(Warning::LongDuty(duty));
    }
    out
}
