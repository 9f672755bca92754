//! Random set-ups of random guns, sound and faulty, and what their pattern is by the state of gun and spray.

use mistcoat::emission::EDGE;
use mistcoat::error::ParameterError;
use mistcoat::gun::{Class, Fault, Faults, Kit};
use mistcoat::job::Job;
use mistcoat::report::PatternKind;
use mistcoat::run::{CardTally, Prepared, Tally};
use mistcoat::spray::{Along, Spray};

/// A small generator of its own: SplitMix64.
pub struct Draws(u64);

impl Draws {
    /// Draws of a seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// Uniform on 0..1.
    pub fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / 9_007_199_254_740_992.0
    }

    /// Uniform between two ends.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }

    /// One of a list.
    pub fn one_of<T: Copy>(&mut self, list: &[T]) -> T {
        list[((self.uniform() * list.len() as f64) as usize).min(list.len() - 1)]
    }
}

/// Usual distance of a class [m].
fn usual_distance(class: Class) -> f64 {
    match class {
        Class::Hvlp | Class::Lvlp => 0.18,
        Class::Compliant => 0.19,
        Class::Conventional => 0.22,
        Class::Touchup => 0.15,
        Class::Airbrush => 0.10,
    }
}

/// A gun of the catalogue set at random before a card, at about its usual distance, with its own paint thinned or not.
#[must_use]
pub fn random_setting(draws: &mut Draws) -> Job {
    let kits: Vec<Kit> = mistcoat::catalogue::kits().iter().map(|k| k.kit()).collect();
    let kit = &kits[((draws.uniform() * kits.len() as f64) as usize).min(kits.len() - 1)];
    let text = format!(
        "version = 1\ngun.kit = \"{}\"\npaint.kind = \"{}\"\n\
         part.panel = {{ width = \"600 mm\", height = \"600 mm\" }}\npart.stands = \"upright\"\n\
         stroke = {{ distance = \"150 mm\", burst = \"1 s\" }}\n",
        kit.id, kit.rated_paint
    );
    let mut job = Job::from_toml(&text).unwrap_or_else(|e| panic!("{}: {e}", kit.id));
    job.stroke.distance = usual_distance(kit.class) * draws.between(0.8, 1.25);
    let how = draws.uniform();
    if how > 0.4 {
        job.gun.fan = if how > 0.9 { draws.between(0.0, 0.12) } else { draws.between(0.2, 1.0) };
    }
    if draws.uniform() < 0.5 {
        job.gun.fluid = (kit.rated_fluid * draws.between(0.08, 1.25)).min(1.0);
    }
    if draws.uniform() < 0.5 {
        job.gun.inlet_pressure =
            (kit.rated_pressure * draws.between(0.25, 1.6)).clamp(0.2e5, kit.highest_pressure);
    }
    if draws.uniform() < 0.5 {
        let by = draws.between(0.6, 3.0);
        job.paint.viscosity *= by;
        job.paint.viscosity_high_shear *= by;
    }
    if draws.uniform() < 0.45 {
        let fault = draws.one_of(&Fault::ALL);
        let set = Faults::NONE.with(fault);
        if set.check(&job.kit).is_ok() {
            job.gun.faults = set;
        }
    }
    job
}

/// What the job's gun leaves on a large card in a burst of `droplets`.
///
/// # Errors
/// As `Prepared::new`: a set-up that does not spray.
pub fn sprayed(job: &Job, droplets: u64) -> Result<(Prepared, CardTally), ParameterError> {
    let prepared = Prepared::new(job.clone())?;
    let mut card = CardTally::default();
    crate::scenes::fly(&prepared.card, droplets, |o| card.count(o));
    Ok((prepared, card))
}

/// What a pattern is by the state of gun and spray, and whether it stands near the border to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Truth {
    /// Its name.
    pub kind: PatternKind,
    /// Within the stated margin of a border that decided.
    pub border: bool,
}

/// Borders by the state, each with the margin inside which a setting counts as a neighbour: lowest, border, highest.
pub const BORDERS: [(&str, [f64; 3]); 7] = [
    ("sideways push of the fan's middle over the rays' spread: crescent from", [0.55, 0.8, 1.1]),
    ("fan's standard deviation along over across, with a heavy end from", [1.2, 1.6, 1.8]),
    ("paint over the area its rays cover [um/s]: starved below", [55.0, 100.0, 200.0]),
    ("Sauter mean diameter [um], with a heavy centre or a round spot: flooded from", [45.0, 55.0, 65.0]),
    ("fan's standard deviation along over across: round below", [1.15, 1.25, 1.4]),
    ("centre over width of the lobes: split from", [1.1, 1.3, 1.5]),
    ("exponent n along the fan: heavy centre from", [1.8, 2.2, 2.6]),
];

/// The truth by the state alone; no film is looked at.
#[must_use]
pub fn truth(spray: &Spray, distance: f64) -> Truth {
    let edge = EDGE * spray.fan_slope;
    let variance = match spray.along {
        Along::Exponent(n) => 1.0 / (2.0 * n + 3.0),
        Along::Lobes { c, g } => c * c + g * g,
    };
    let (lobes, n) = match spray.along {
        Along::Exponent(n) => (0.0, n),
        Along::Lobes { c, g } => (c / g, 0.0),
    };
    let long = (edge * edge * variance + spray.ray_spread * spray.ray_spread).sqrt();
    let aspect = long / spray.ray_spread;
    let area = core::f64::consts::TAU * distance * distance * long * spray.ray_spread;
    let mut border = false;
    let mut over = |which: usize, value: f64| {
        let [low, at, high] = BORDERS[which].1;
        border |= (low..high).contains(&value);
        value >= at
    };
    let kind = if spray.slugs.is_some() {
        PatternKind::Spitting
    } else if over(0, spray.askew.bow.abs() / spray.ray_spread) {
        PatternKind::Crescent
    } else if spray.askew.along != 0.0 && over(1, aspect) {
        PatternKind::HeavyEnd
    } else if !over(2, spray.volume_flow / area * 1e6) {
        PatternKind::Starved
    } else {
        let round = aspect < BORDERS[4].1[1];
        let heavy = round || n >= BORDERS[6].1[1];
        if heavy && over(3, spray.sizes.sauter_uncut() * 1e6) {
            PatternKind::Flooded
        } else if !over(4, aspect) {
            PatternKind::Round
        } else if lobes > 0.0 && over(5, lobes) {
            PatternKind::Split
        } else if over(6, n) {
            PatternKind::HeavyCentre
        } else {
            PatternKind::Balanced
        }
    };
    Truth { kind, border }
}
