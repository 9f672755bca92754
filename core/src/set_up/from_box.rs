//! A kit from what is printed on its box: air use at a pressure, tip, fan at a distance.
//!
//! Free air at the inlet pressure, the class's cap pressure, its horn pressure and the horns' share of the air give each effective
//! area as what lets that through (isentropic orifices, `air::orifice`); the share is the one that opens the fan to the height on the
//! box. What a box leaves open is changed one thing at a time, low and high: the kit's neighbours. Range of the keys of `gun.box`.
//! Classes, splits and ranges are common practice or ours: `docs/methods/gun.md`.

mod fan;

use crate::in_order::InOrder;
use fan::share_for;

use super::{Model, REFERENCE_KIT};
use crate::air::{ROOM_PRESSURE, TWENTY_C, expanded, free_density, orifice};
use crate::catalogue;
use crate::error::ParameterError;
use crate::gun::{Class, Feed, GunAir, Kit, State};

/// Least ratio of inlet to cap pressure, gauge: the body takes its part.
const BODY: f64 = 1.1;
/// Cap pressure that an HVLP or LVLP gun from its box keeps [Pa gauge]: below 10 psi.
const LOW_PRESSURE_CAP: f64 = 0.66e5;
/// A class holds figures this much outside its usual range [-].
const SLACK: f64 = 0.1;
/// What a box leaves open, down and up [-]: air use (pressure and fan it was measured at are not said), cap pressure, fan height
/// (where the eye sees it end), suction at the tip and so the paint flow to the root of it. Ours.
const AIR_OPEN: f64 = 0.15;
const CAP_OPEN: f64 = 0.15;
const FAN_OPEN: f64 = 0.10;
const SUCTION_OPEN: f64 = 0.4;

/// What is printed on the box of a gun. All SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxFigures {
    /// Class; none: from air use, pressure and tip.
    pub class: Option<Class>,
    /// Feed; none: gravity.
    pub feed: Option<Feed>,
    /// Air use, free air [m3/s].
    pub air: f64,
    /// Inlet pressure it is used at [Pa gauge].
    pub at: f64,
    /// Fluid tip [m].
    pub tip: f64,
    /// Fan height and the distance it is seen at [m]; none: the class's usual fan.
    pub fan: Option<[f64; 2]>,
}

/// A kit that the box might as well stand for.
#[derive(Debug, Clone, PartialEq)]
pub struct Neighbour {
    /// What was changed: "air down", "air up", "cap down", "cap up", "fan down", "fan up", "flow down", "flow up", or "class".
    pub change: &'static str,
    /// The kit.
    pub kit: Kit,
}

/// A kit from its box and its uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct BoxKit {
    /// The likeliest kit.
    pub kit: Kit,
    /// Kits that are as likely, one thing changed at a time.
    pub spread: Vec<Neighbour>,
}

/// What the box leaves open, as factors on what is taken for it.
#[derive(Clone, Copy)]
struct Guess {
    air: f64,
    cap: f64,
    fan: f64,
    suction: f64,
}

const LIKELY: Guess = Guess { air: 1.0, cap: 1.0, fan: 1.0, suction: 1.0 };

/// The kit of a box, with its neighbours.
///
/// # Errors
/// By the keys of `gun.box` and `gun.class`: a figure out of range; figures of no class; an air pressure too low for the class's
/// cap; a fan that no split of this air opens to that height; an airbrush with a fan; paint that would not reach the tip.
pub fn from_box(figures: &BoxFigures) -> Result<BoxKit, ParameterError> {
    check(figures)?;
    let (class, other) = match figures.class {
        Some(class) => (class, None),
        None => deduced(figures)?,
    };
    let kit = solve(figures, class, LIKELY)?;
    let mut spread = Vec::new();
    let mut add = |change, guess, class| {
        // A neighbour that cannot be built is none.
        if let Ok(kit) = solve(figures, class, guess) {
            spread.push(Neighbour { change, kit });
        }
    };
    add("air down", Guess { air: 1.0 - AIR_OPEN, ..LIKELY }, class);
    add("air up", Guess { air: 1.0 + AIR_OPEN, ..LIKELY }, class);
    add("cap down", Guess { cap: 1.0 - CAP_OPEN, ..LIKELY }, class);
    add("cap up", Guess { cap: 1.0 + CAP_OPEN, ..LIKELY }, class);
    if kit.has_fan() {
        add("fan down", Guess { fan: 1.0 - FAN_OPEN, ..LIKELY }, class);
        add("fan up", Guess { fan: 1.0 + FAN_OPEN, ..LIKELY }, class);
    }
    add("flow down", Guess { suction: 1.0 - SUCTION_OPEN, ..LIKELY }, class);
    add("flow up", Guess { suction: 1.0 + SUCTION_OPEN, ..LIKELY }, class);
    if let Some(other) = other {
        add("class", LIKELY, other);
    }
    Ok(BoxKit { kit, spread })
}

fn check(f: &BoxFigures) -> Result<(), ParameterError> {
    let within = crate::error::within;
    within("gun.box.air", f.air * 60_000.0, 3.0, 1000.0, "L/min")?;
    within("gun.box.at", f.at * 1e-5, 0.3, 8.0, "bar")?;
    within("gun.box.tip", f.tip * 1e3, 0.2, 3.0, "mm")?;
    if let Some([height, distance]) = f.fan {
        within("gun.box.fan", height * 1e3, 20.0, 800.0, "mm")?;
        within("gun.box.fan_at", distance * 1e3, 50.0, 600.0, "mm")?;
    }
    Ok(())
}

/// The likeliest class, and the next where the figures are usual for two.
fn deduced(f: &BoxFigures) -> Result<(Class, Option<Class>), ParameterError> {
    let mut fitting: Vec<(f64, Class)> = Vec::new();
    for class in Class::ALL {
        let usual = class.usual();
        let holds = |x: f64, [low, high]: [f64; 2]| (low * (1.0 - SLACK)..=high * (1.0 + SLACK)).contains(&x);
        if holds(f.air, usual.air) && holds(f.at, usual.inlet_pressure) && holds(f.tip, usual.tip) {
            // How far from the middle of the class's pressures, in half widths.
            let [low, high] = usual.inlet_pressure;
            fitting.push(((2.0 * f.at - low - high).abs() / (high - low), class));
        }
    }
    fitting.in_order(|a, b| a.0.total_cmp(&b.0));
    match fitting[..] {
        [(_, class), ref rest @ ..] => Ok((class, rest.first().map(|r| r.1))),
        [] => {
            let words = |class: Class| {
                let u = class.usual();
                let [a, b] = u.air.map(|x| x * 60_000.0);
                let [p, q] = u.inlet_pressure.map(|x| x * 1e-5);
                format!("{} ({a:.0}-{b:.0} L/min at {p:.1}-{q:.1} bar)", class.id())
            };
            let value =
                format!("{:.0} L/min at {:.2} bar, tip {:.2} mm", f.air * 60_000.0, f.at * 1e-5, f.tip * 1e3);
            let list = Class::ALL.map(words).join(", ");
            Err(ParameterError::new(
                "gun.class",
                value,
                format!("figures usual for a class, or the class named: {list}"),
            ))
        }
    }
}

/// Kit of the catalogue that is nearest: class, then feed, then tip.
fn nearest(class: Class, feed: Feed, tip: f64) -> Result<Kit, ParameterError> {
    let far = |kit: &Kit| {
        let tips = if kit.tip_bore > tip { kit.tip_bore / tip } else { tip / kit.tip_bore };
        tips + if kit.feed == feed { 0.0 } else { 100.0 }
    };
    let kits = catalogue::kits().iter().map(catalogue::KitData::kit).filter(|k| k.class == class);
    match kits.min_by(|a, b| far(a).total_cmp(&far(b))) {
        Some(kit) => Ok(kit),
        None => catalogue::kit(REFERENCE_KIT),
    }
}

fn solve(f: &BoxFigures, class: Class, guess: Guess) -> Result<Kit, ParameterError> {
    let (feed, model) = (f.feed.unwrap_or(Feed::Gravity), Model::default());
    let mut kit = nearest(class, feed, f.tip)?;
    let like = GunAir::through(&kit, kit.rated_pressure, 1.0, 1.0, TWENTY_C);
    catalogue::refeed(&mut kit, feed);
    let low_pressure = matches!(class, Class::Hvlp | Class::Lvlp);
    let cap = like.cap_pressure * f.at / kit.rated_pressure * guess.cap;
    let cap = if low_pressure { cap.min(LOW_PRESSURE_CAP) } else { cap }.min(f.at / BODY);
    let horn = cap * if like.cap_pressure > 0.0 { like.horn_pressure / like.cap_pressure } else { 1.0 };
    let air = f.air * free_density() * guess.air;
    let through = |from: f64, to: f64| orifice(1.0, ROOM_PRESSURE + from, ROOM_PRESSURE + to, TWENTY_C);
    let set = |kit: &mut Kit, share: f64| {
        kit.inlet_area = air / through(f.at, cap);
        kit.annulus_area = (1.0 - share) * air / through(cap, 0.0);
        if kit.has_fan() {
            kit.fan_valve_area = share * air / through(cap, horn);
            kit.horn_area = share * air / through(horn, 0.0);
        }
    };
    kit.id = "from-box".into();
    kit.name = format!("gun from its box, {:.1} mm", f.tip * 1e3);
    kit.needle_travel *= f.tip / kit.tip_bore;
    kit.tip_bore = f.tip;
    kit.rated_pressure = f.at;
    kit.highest_pressure = kit.highest_pressure.max(1.5 * f.at).min(10e5);
    kit.matched.suction = guess.suction;
    if feed == Feed::Pressure {
        kit.rated_pot_pressure *= guess.suction;
    }
    let usual_share = like.horns.mass_flow / (like.horns.mass_flow + like.annulus.mass_flow);
    let share = match f.fan {
        None if kit.has_fan() => usual_share,
        None => 0.0,
        Some(_) if !kit.has_fan() => {
            return Err(ParameterError::new(
                "gun.box.fan",
                "a fan",
                "no fan: an airbrush sprays a round spot",
            ));
        }
        Some([height, distance]) => {
            let speed = |gauge: f64| expanded(ROOM_PRESSURE + gauge, TWENTY_C, ROOM_PRESSURE).0;
            let speeds = [speed(cap), speed(horn)];
            share_for(height * guess.fan, distance, speeds, kit.horn_angle, &model.constants)?
        }
    };
    set(&mut kit, share);
    kit.check().map_err(|e| {
        ParameterError::new(
            "gun.box.air",
            format!("{:.0} L/min ({e})", f.air * 60_000.0),
            "air of a spray gun",
        )
    })?;
    let paint = catalogue::paint(&kit.rated_paint)?;
    let state = State::new(&kit, &kit.rated(), &paint, TWENTY_C, &model.own(&kit))?;
    if state.paint_flow <= 0.0 {
        let value = format!("{:.2} bar", f.at * 1e-5);
        return Err(ParameterError::new(
            "gun.box.at",
            value,
            "air that lifts the paint to the tip, or another feed",
        ));
    }
    Ok(kit)
}

#[cfg(test)]
mod tests;
