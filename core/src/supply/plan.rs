//! When the trigger is on, and the tank over that time.
//!
//! Isothermal tank with the compressor's hysteresis: full at the start, starts at cut-in, stops at cut-out. While the tank
//! holds the gun's pressure all flows are constant, so the time to each event is exact; below that the gun gets less and
//! draws less, and the time goes in short steps.

use super::compressor::Compressor;
use crate::air::ROOM_PRESSURE;

/// Step below the pressure that the gun needs [s].
const STEP: f64 = 0.1;
/// Tank pressures this near count as reached [Pa].
const NEAR: f64 = 1e-3;

/// One span of the plan: trigger on for a time, then off for a time [s].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Trigger on [s].
    pub on: f64,
    /// Trigger off after it [s].
    pub off: f64,
}

/// The tank at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Time since the first trigger [s].
    pub time: f64,
    /// Trigger-on time since then [s].
    pub on: f64,
    /// Tank [Pa gauge].
    pub tank: f64,
    /// At the gun's inlet, or what its gauge would show at rest [Pa gauge].
    pub gun: f64,
    /// Trigger on.
    pub trigger: bool,
    /// Compressor runs.
    pub running: bool,
}

/// What the gun does to the tank.
#[derive(Clone, Copy)]
pub struct Draw<'a> {
    /// Air of the gun while its pressure holds [m3/s free air].
    pub gun: f64,
    /// Air of all others, all the time [m3/s free air].
    pub also: f64,
    /// Tank pressure down to which the gun's pressure holds [Pa gauge].
    pub needed: f64,
    /// Gun's pressure while it holds [Pa gauge].
    pub held: f64,
    /// Gun's gauge at rest with a full tank [Pa gauge].
    pub rest: f64,
    /// Gun's pressure [Pa gauge] and air [m3/s free air] at a tank pressure [Pa gauge] below that.
    pub below: &'a dyn Fn(f64) -> (f64, f64),
}

/// The tank in time.
pub struct TankRun<'a> {
    compressor: &'a Compressor,
    draw: Draw<'a>,
    tank: f64,
    running: bool,
    time: f64,
    on: f64,
    moments: Vec<Moment>,
    stop_when_lost: bool,
    lost: Option<Moment>,
}

impl<'a> TankRun<'a> {
    /// A full tank.
    #[must_use]
    pub fn new(compressor: &'a Compressor, draw: Draw<'a>) -> Self {
        Self {
            compressor,
            draw,
            tank: compressor.cut_out,
            running: false,
            time: 0.0,
            on: 0.0,
            moments: Vec::new(),
            stop_when_lost: false,
            lost: None,
        }
    }

    /// Goes through the spans; with `stop_when_lost` no further than the moment at which the trigger is on and the gun's
    /// pressure no longer holds.
    #[must_use]
    pub fn through(mut self, spans: &[Span], stop_when_lost: bool) -> (Vec<Moment>, Option<Moment>) {
        self.stop_when_lost = stop_when_lost;
        for span in spans {
            for (trigger, seconds) in [(true, span.on), (false, span.off)] {
                self.go(trigger, seconds);
                if stop_when_lost && self.lost.is_some() {
                    return (self.moments, self.lost);
                }
            }
        }
        (self.moments, self.lost)
    }

    fn holds(&self) -> bool {
        self.tank >= self.draw.needed - NEAR
    }

    fn moment(&self, trigger: bool) -> Moment {
        let gun = match (trigger, self.holds()) {
            (true, true) => self.draw.held,
            (true, false) => (self.draw.below)(self.tank).0,
            (false, _) => self.draw.rest.min(self.tank),
        };
        Moment { time: self.time, on: self.on, tank: self.tank, gun, trigger, running: self.running }
    }

    fn go(&mut self, trigger: bool, seconds: f64) {
        let mut left = seconds;
        if left <= 0.0 {
            return;
        }
        self.switch();
        self.moments.push(self.moment(trigger));
        while left > 0.0 {
            let c = self.compressor;
            let air_in = if self.running { c.delivered_air } else { 0.0 };
            let holds = self.holds();
            let gun = match (trigger, holds) {
                (false, _) => 0.0,
                (true, true) => self.draw.gun,
                (true, false) => (self.draw.below)(self.tank).1,
            };
            let net = air_in - gun - self.draw.also;
            let mut step = left;
            let mut goal = None;
            let mut event = |target: f64| {
                if let Some(s) = c.seconds(self.tank, target, net).filter(|s| *s > 0.0 && *s <= step) {
                    (step, goal) = (s, Some(target));
                }
            };
            if self.running {
                event(c.cut_out);
            } else {
                event(c.cut_in);
            }
            if trigger && (self.tank - self.draw.needed).abs() > NEAR {
                event(self.draw.needed);
            }
            event(0.0);
            let falling_below = trigger && holds && net < 0.0 && self.tank <= self.draw.needed + NEAR;
            if falling_below {
                let lost = self.moment(true);
                self.lost.get_or_insert(lost);
                if self.stop_when_lost {
                    return;
                }
                // Past the edge, so that the next step draws by the pressure that is left.
                (step, goal) = (step.min(1e-6), None);
                self.tank -= 2.0 * NEAR;
            } else if trigger && !holds && step > STEP {
                (step, goal) = (STEP, None);
            }
            let change = net * step * ROOM_PRESSURE / c.tank;
            self.tank = goal.unwrap_or((self.tank + change).max(0.0));
            self.time += step;
            self.on += if trigger { step } else { 0.0 };
            left -= step;
            self.switch();
            self.moments.push(self.moment(trigger));
            // An empty tank that gets no more than it gives stays empty.
            if self.tank <= 0.0 && net <= 0.0 {
                let rest = left;
                self.time += rest;
                self.on += if trigger { rest } else { 0.0 };
                self.moments.push(self.moment(trigger));
                return;
            }
        }
    }

    fn switch(&mut self) {
        if self.tank <= self.compressor.cut_in + NEAR {
            self.running = true;
        } else if self.tank >= self.compressor.cut_out - NEAR {
            self.running = false;
        }
    }
}
