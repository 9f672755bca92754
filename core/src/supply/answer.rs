//! Will the air do: the four answers, and the figures behind them.

use super::line::{Demand, Pressures};
use super::plan::{Draw, Moment, Span, TankRun};
use super::warning::Warning;
use super::water::{Water, WaterPath};
use super::{Supply, compressor::Compressor};
use crate::air::ROOM_PRESSURE;
use crate::error::ParameterError;

/// A pressure this far below the wanted one counts as held [Pa]: a hundredth of what a gauge shows.
pub(super) const HELD: f64 = 500.0;
/// Points of the table of gun pressures over tank pressures.
const TABLE: usize = 24;
/// The air test [s].
const MINUTE: f64 = 60.0;

/// Will the air do?
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// The compressor keeps up with the trigger held.
    ForEver,
    /// It does not, but the tank lasts this job's trigger times.
    ThisJob,
    /// The pressure is lost during the job: some seconds on, then a wait.
    RunsDown,
    /// The pressure at the gun is never reached, or others take all that the compressor gives.
    Never,
}

impl Verdict {
    /// The word in the report.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::ForEver => "for-ever",
            Self::ThisJob => "this-job",
            Self::RunsDown => "runs-down",
            Self::Never => "never",
        }
    }
}

/// What the wall gauge must show for the wanted pressure at the gun [Pa gauge].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// With the trigger pulled.
    pub pulled: f64,
    /// At rest: higher by the regulator's droop.
    pub rest: f64,
}

/// The answer for one supply, gun and plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Will it do?
    pub verdict: Verdict,
    /// Wanted at the gun's inlet, trigger open [Pa gauge].
    pub wanted: f64,
    /// What the run is sprayed at [Pa gauge]: the wanted pressure, or the lower one that the line gives from a full tank.
    pub gun_inlet: f64,
    /// The most that the line gives at the gun, tank full, regulator as set (wide open where none is given) [Pa gauge].
    pub most_at_gun: f64,
    /// Gun's gauge at rest, tank full [Pa gauge].
    pub rest: f64,
    /// Air of the gun at `gun_inlet` [m3/s].
    pub gun_air: f64,
    /// Air of all others [m3/s].
    pub also_air: f64,
    /// What the compressor has over with the trigger held; negative: what it lacks [m3/s].
    pub margin: f64,
    /// Pressures along the line at `gun_inlet`.
    pub pressures: Pressures,
    /// Wall gauge for the wanted pressure; none when no wall gauge of this supply gives it.
    pub wall: Option<Wall>,
    /// Tank pressure down to which `gun_inlet` holds [Pa gauge].
    pub tank_needed: f64,
    /// Trigger held, tank full at first: seconds until the pressure is lost; none when it never is.
    pub held_seconds: Option<f64>,
    /// In the plan's rhythm: trigger-on seconds until the pressure is lost; none when the plan ends before.
    pub on_seconds: Option<f64>,
    /// Seconds after that until the tank is full again; none when it never is.
    pub wait_seconds: Option<f64>,
    /// Trigger-on time of the plan [s].
    pub plan_seconds: f64,
    /// Tank and gun over the plan, up to its end or to where the pressure is lost.
    pub trace: Vec<Moment>,
    /// Water out of the air while the trigger is on [m3/s].
    pub water: Water,
    /// What the painter should be told.
    pub warnings: Vec<Warning>,
}

/// Set-up of a tank run: what the gun draws, and down to where.
struct Hold {
    set: f64,
    gun_inlet: f64,
    gun_air: f64,
    needed: f64,
    most: f64,
}

impl Supply {
    /// The answer for a wanted pressure [Pa gauge] at a gun that draws `demand`, over the plan's trigger times.
    ///
    /// # Errors
    /// A figure of the supply out of range, by its key.
    pub fn answer(&self, wanted: f64, demand: Demand<'_>, plan: &[Span]) -> Result<Answer, ParameterError> {
        self.check()?;
        let hold = self.hold(wanted, demand);
        let (c, also) = (&self.compressor, self.also_air());
        let pressures = self.line.needed(hold.gun_inlet, hold.gun_air);
        let margin = c.delivered_air - also - hold.gun_air;
        let reached = hold.gun_inlet >= wanted - HELD;
        let wanted_at = self.line.needed(wanted, demand(wanted));
        let possible = self.line.tank_for(&wanted_at) <= c.cut_out;
        let starved = also >= c.delivered_air && also > 0.0;

        let idle = |_: f64| (hold.gun_inlet, hold.gun_air);
        let run = TankRun::new(c, self.draw(&hold, &idle));
        let (trace, lost) = run.through(plan, true);
        let held_seconds = held(c, &hold, also);
        let verdict = if !reached || starved {
            Verdict::Never
        } else if held_seconds.is_none() {
            Verdict::ForEver
        } else if lost.is_none() {
            Verdict::ThisJob
        } else {
            Verdict::RunsDown
        };
        let filling = c.delivered_air - also;
        let wait = |_: Moment| c.seconds(hold.needed.min(c.cut_in), c.cut_out, filling);
        let path = WaterPath {
            intake_temperature: self.intake_temperature,
            intake_humidity: self.intake_humidity,
            tank_temperature: self.tank_temperature,
            tank_pressure: ROOM_PRESSURE + c.cut_in,
            line_temperature: self.line.temperature,
            line_pressure: pressures.wall,
        };
        let mut answer = Answer {
            verdict,
            wanted,
            gun_inlet: hold.gun_inlet,
            most_at_gun: hold.most,
            rest: hold.set.min(c.cut_out),
            gun_air: hold.gun_air,
            also_air: also,
            margin,
            pressures,
            wall: possible.then(|| Wall {
                pulled: wanted_at.wall - ROOM_PRESSURE,
                rest: wanted_at.wall_at_rest() - ROOM_PRESSURE,
            }),
            tank_needed: hold.needed,
            held_seconds,
            on_seconds: lost.map(|moment| moment.on),
            wait_seconds: lost.and_then(wait),
            plan_seconds: plan.iter().map(|span| span.on).sum(),
            trace,
            water: path.water(hold.gun_air + also),
            warnings: Vec::new(),
        };
        answer.warnings = super::warning::warnings(self, &answer, wanted_at.mass_flow);
        Ok(answer)
    }

    /// The air test of one minute: fluid knob shut, trigger to the stop, tank full at first. Gun and tank over time.
    ///
    /// # Errors
    /// A figure of the supply out of range, by its key.
    pub fn one_minute(&self, wanted: f64, demand: Demand<'_>) -> Result<Vec<Moment>, ParameterError> {
        self.check()?;
        let hold = self.hold(wanted, demand);
        let table: Vec<(f64, f64)> = (0..=TABLE)
            .map(|i| {
                let tank = hold.needed * i as f64 / TABLE as f64;
                let gun = self.line.at_gun(tank, hold.set, demand).min(hold.gun_inlet);
                (gun, demand(gun))
            })
            .collect();
        let below = |tank: f64| {
            let at = (tank / hold.needed * TABLE as f64).clamp(0.0, TABLE as f64);
            let i = (at as usize).min(TABLE - 1);
            let share = at - i as f64;
            let mix = |a: f64, b: f64| a + (b - a) * share;
            (mix(table[i].0, table[i + 1].0), mix(table[i].1, table[i + 1].1))
        };
        let run = TankRun::new(&self.compressor, self.draw(&hold, &below));
        Ok(run.through(&[Span { on: MINUTE, off: 0.0 }], false).0)
    }

    fn hold(&self, wanted: f64, demand: Demand<'_>) -> Hold {
        let c = &self.compressor;
        let wanted_at = self.line.needed(wanted, demand(wanted));
        let needed_set = wanted_at.wall_at_rest() - ROOM_PRESSURE;
        // A regulator that nobody set is opened as far as the wanted pressure asks, or the tank lets it.
        let set = self.line.regulator.unwrap_or(needed_set);
        let enough = set >= needed_set - HELD && self.line.tank_for(&wanted_at) <= c.cut_out;
        let open = self.line.regulator.unwrap_or(2.0 * c.cut_out + ROOM_PRESSURE);
        let most = self.line.at_gun(c.cut_out, open, demand);
        let gun_inlet = if enough { wanted } else { most.min(wanted) };
        let gun_air = demand(gun_inlet);
        let needed = self.line.tank_for(&self.line.needed(gun_inlet, gun_air)).min(c.cut_out);
        let set = if enough { set } else { open.min(c.cut_out) };
        Hold { set, gun_inlet, gun_air, needed, most: most.max(gun_inlet) }
    }

    fn draw<'a>(&self, hold: &Hold, below: &'a dyn Fn(f64) -> (f64, f64)) -> Draw<'a> {
        Draw {
            gun: hold.gun_air,
            also: self.also_air(),
            needed: hold.needed,
            held: hold.gun_inlet,
            rest: hold.set,
            below,
        }
    }
}

/// Trigger held from a full tank: seconds until the pressure is lost.
fn held(c: &Compressor, hold: &Hold, also: f64) -> Option<f64> {
    let out = hold.gun_air + also;
    if out <= 0.0 || (hold.needed <= c.cut_in && out <= c.delivered_air) {
        return None;
    }
    let off = c.seconds(c.cut_out, c.cut_in.max(hold.needed), -out)?;
    let low = c.seconds(c.cut_in, hold.needed.min(c.cut_in), c.delivered_air - out)?;
    Some(off + low)
}
