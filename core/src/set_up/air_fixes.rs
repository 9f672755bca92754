//! What would help the air most: the next wider hose, half the hose, full-bore couplings, another tank, the next
//! larger compressor. Each is simulated; the money is the user's.

use super::air_supply::air_answer_of;
use crate::catalogue::{self, CompressorData};
use crate::error::ParameterError;
use crate::in_order::InOrder;
use crate::job::Job;
use crate::supply::{Answer, Coupling, Span, Supply, Verdict};

/// Bores that hoses come in [m]. Common practice.
const BORES: [f64; 9] = [0.004, 0.005, 0.006, 0.008, 0.010, 0.013, 0.016, 0.019, 0.025];

/// One change of the supply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// The next wider hose: its bore [m].
    WiderHose(f64),
    /// Half the hose: its length [m].
    ShorterHose(f64),
    /// Full-bore couplings instead of standard ones: how many.
    FullBoreCouplings(u32),
    /// A further tank of the same size: both together [m3].
    LargerTank(f64),
    /// The next larger compressor of the catalogue, with its own tank.
    MoreAir(&'static CompressorData),
}

impl Change {
    /// Key of the job file that holds its price.
    #[must_use]
    pub fn price_key(&self) -> &'static str {
        match self {
            Self::WiderHose(_) => "supply.price.hose",
            Self::ShorterHose(_) => "supply.price.short_hose",
            Self::FullBoreCouplings(_) => "supply.price.couplings",
            Self::LargerTank(_) => "supply.price.tank",
            Self::MoreAir(_) => "supply.price.compressor",
        }
    }
}

/// What is short, and so what a change is judged by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Short {
    /// The line does not give the pressure: a change is worth its bar at the gun.
    Pressure,
    /// Others take all the air: a change is worth its L/min.
    Air,
    /// The tank runs down with the trigger held: a change is worth its seconds.
    Seconds,
    /// Nothing.
    Nothing,
}

/// A change and what comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fix {
    /// What is changed.
    pub change: Change,
    /// The answer with it.
    pub answer: Answer,
    /// More pressure at the gun, regulator open as far as it needs [Pa].
    pub pressure: f64,
    /// More air over [m3/s].
    pub air: f64,
    /// More seconds with the trigger held; none where the air then never runs down.
    pub seconds: Option<f64>,
    /// The gain in what is short: Pa, m3/s or s; none where it is without end.
    pub gain: Option<f64>,
    /// Price, any money; none where the job gives none.
    pub price: Option<f64>,
}

impl Fix {
    /// Gain for one unit of money; none without a price, or where the gain is without end.
    #[must_use]
    pub fn gain_per_money(&self) -> Option<f64> {
        let price = self.price.filter(|p| *p > 0.0)?;
        self.gain.map(|gain| gain / price)
    }

    /// The answer is a better one than before.
    fn helps(&self) -> bool {
        self.gain.is_none_or(|gain| gain > 0.0)
    }
}

/// What is short in a supply, and the changes, best first: per unit of money where the job has prices, those before the
/// rest; what gains nothing comes last. The regulator is taken as set right: turning it costs nothing.
///
/// # Errors
/// A figure of the supply out of range, by its key.
pub fn air_fixes(job: &Job, plan: &[Span]) -> Result<Option<(Short, Vec<Fix>)>, ParameterError> {
    let Some(given) = &job.supply else {
        return Ok(None);
    };
    let mut supply = given.clone();
    supply.line.regulator = None;
    let before = air_answer_of(&supply, job, plan)?;
    let short = match before.verdict {
        Verdict::Never if before.also_air > 0.0 && before.also_air >= supply.compressor.delivered_air => {
            Short::Air
        }
        Verdict::Never => Short::Pressure,
        Verdict::ForEver => Short::Nothing,
        Verdict::RunsDown | Verdict::ThisJob => Short::Seconds,
    };
    let mut fixes = Vec::new();
    for (change, changed) in changes(&supply) {
        let answer = air_answer_of(&changed, job, plan)?;
        let pressure = answer.most_at_gun - before.most_at_gun;
        let air = answer.margin - before.margin;
        let seconds = answer.held_seconds.map(|after| after - before.held_seconds.unwrap_or(after));
        let gain = match short {
            Short::Pressure | Short::Nothing => Some(pressure),
            Short::Air => Some(air),
            Short::Seconds => seconds,
        };
        let price = job.air_prices.of(change.price_key());
        // Rounding is no gain.
        let gain = gain.map(|g| if g.abs() < 1e-9 { 0.0 } else { g });
        fixes.push(Fix { change, answer, pressure, air, seconds, gain, price });
    }
    fixes.in_order(|a, b| order(b).cmp(&order(a)).then(worth(b).total_cmp(&worth(a))));
    Ok(Some((short, fixes)))
}

/// Helps at all; has a price; ends the shortage.
fn order(fix: &Fix) -> (bool, bool, bool) {
    (fix.helps(), fix.price.is_some(), fix.gain.is_none())
}

/// Among its like: gain per money; without end, the cheapest.
fn worth(fix: &Fix) -> f64 {
    match (fix.gain, fix.price) {
        (None, Some(price)) => -price,
        (None, None) => 0.0,
        (Some(gain), Some(price)) => gain / price.max(1e-9),
        (Some(gain), None) => gain,
    }
}

fn changes(supply: &Supply) -> Vec<(Change, Supply)> {
    let mut out = Vec::new();
    let mut change = |change, edit: &dyn Fn(&mut Supply)| {
        let mut changed = supply.clone();
        edit(&mut changed);
        out.push((change, changed));
    };
    let (line, c) = (&supply.line, &supply.compressor);
    if let Some(&bore) = BORES.iter().find(|bore| **bore > line.hose.bore * 1.02) {
        change(Change::WiderHose(bore), &|s| s.line.hose.bore = bore);
    }
    if line.hose.length > 3.0 {
        let length = 0.5 * line.hose.length;
        change(Change::ShorterHose(length), &|s| s.line.hose.length = length);
    }
    if line.couplings > 0 && line.coupling == Coupling::Standard {
        change(Change::FullBoreCouplings(line.couplings), &|s| s.line.coupling = Coupling::FullBore);
    }
    if c.tank <= 10.0 {
        change(Change::LargerTank(2.0 * c.tank), &|s| s.compressor.tank = 2.0 * c.tank);
    }
    let larger = catalogue::compressors().iter().find(|d| d.delivered_air.value > 1.05 * c.delivered_air);
    if let Some(data) = larger {
        change(Change::MoreAir(data), &|s| s.compressor = data.compressor());
    }
    out
}
