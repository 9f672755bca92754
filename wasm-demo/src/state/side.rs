//! Kits side by side as the view is given them, and the edits that it makes to the job's `[compare]`.

use mistcoat::compare::{Money, PayBack, Saving, Sure, sure};
use mistcoat::job::{Job, JobError, KitSource, KitToCompare, with_key, without_key};
use serde::Deserialize;

/// A chair leg and two guns to set beside the workshop's own: what "Is that gun worth buying?" opens.
pub const WHICH_GUN: &str = include_str!("../../../core/examples/jobs/chair-leg-which-gun.toml");

/// A comparison, so far or in full.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
pub struct Sides {
    /// Film that every row lays [um].
    pub film_um: Option<f64>,
    /// The limits of all rows but the first.
    pub limits: Option<Limits>,
    /// Your gun as set, at its best, then the kits.
    pub rows: Vec<Side>,
}

/// What every row but the first keeps to.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
pub struct Limits {
    /// Coarsest droplets, Sauter mean [um].
    pub sauter_um: f64,
    /// Least even film [%].
    pub even_percent: f64,
    /// Slowest and fastest stroke [mm/s].
    pub speed_mm_s: [f64; 2],
    /// Longest time for a part [s].
    pub seconds: f64,
}

/// One gun.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Side {
    /// "as-set", "best", "A", "B", ...
    pub label: String,
    /// Plain name.
    pub name: String,
    /// Class as in the job file.
    pub class: String,
    /// Feed as in the job file.
    pub feed: String,
    /// Fluid tip [mm].
    pub tip_mm: f64,
    /// From what is printed on its box.
    pub from_box: bool,
    /// Why it cannot do the part.
    pub cannot: Option<String>,
    /// Its setting keeps the limits.
    pub keeps: bool,
    /// At its setting.
    pub figures: Option<Figures>,
    /// Paints it can do.
    pub paints: Paints,
    /// Stays in cup and gun [mL].
    pub stays_ml: f64,
    /// Saved for a part against your gun as set.
    pub saved: Option<Range>,
    /// Against your gun at its best.
    pub saved_more: Option<Range>,
    /// What else there is to say.
    pub notes: Vec<String>,
}

/// Figures for one part.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Figures {
    /// Knobs and stroke.
    pub setting: Setting,
    /// Keys of the job file with their values.
    pub keys: Vec<(String, String)>,
    /// Air needed [L/min].
    pub air_l_min: f64,
    /// Your air against it.
    pub air: Option<Air>,
    /// Fan height [mm].
    pub fan_mm: f64,
    /// Paint for a part [mL], and its likely range.
    pub ml: f64,
    /// Lower end.
    pub ml_low: f64,
    /// Upper end.
    pub ml_high: f64,
    /// Trigger on for a part [s].
    pub seconds: f64,
    /// Standard deviation of the film over its mean [%].
    pub even_percent: f64,
}

/// Knobs and stroke of a row.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Setting {
    /// Fan knob, turns out of so many.
    pub fan_turns: (f64, f64),
    /// Fluid knob.
    pub fluid_turns: (f64, f64),
    /// Pressure at the gun, trigger pulled [bar].
    pub inlet_bar: f64,
    /// The fan lies along the stroke.
    pub fan_along: bool,
    /// Tubes: from this many sides.
    pub sides: Option<u32>,
    /// Speed [mm/s].
    pub speed_mm_s: f64,
}

/// Your air against a gun's.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Air {
    /// "for-ever", "this-job", "runs-down", "never".
    pub verdict: String,
    /// Delivered air left for the gun [L/min].
    pub yours_l_min: f64,
    /// Left over with the trigger held [L/min].
    pub margin_l_min: f64,
    /// Pressure that the line gives at the gun [bar].
    pub gun_inlet_bar: f64,
    /// Trigger on until the pressure is lost [s].
    pub on_s: Option<f64>,
}

/// Paints a gun can do.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
pub struct Paints {
    /// Bases and stains, clears and enamels, primers.
    pub uses: [bool; 3],
    /// The job's own.
    pub this_paint: bool,
}

/// A saving with its range [mL].
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
pub struct Range {
    /// Saved.
    pub value: f64,
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
}

impl Range {
    /// As the library holds it.
    pub fn saving(self) -> Saving {
        Saving { value: self.value, low: self.low, high: self.high, standard_error: 0.0 }
    }
}

impl Sides {
    /// Reads an answer; none when it is none.
    pub fn read(json: &str) -> Option<Self> {
        serde_json::from_str(json).ok()
    }

    /// Most paint that any row may need for a part [mL].
    pub fn most_ml(&self) -> f64 {
        self.rows.iter().filter_map(|r| r.figures.as_ref()).map(|f| f.ml_high).fold(0.0, f64::max)
    }

    /// Most air that any row needs, or that is there [L/min].
    pub fn most_air(&self) -> f64 {
        let most = |f: &Figures| f.air.as_ref().map_or(0.0, |a| a.yours_l_min).max(f.air_l_min);
        self.rows.iter().filter_map(|r| r.figures.as_ref()).map(most).fold(0.0, f64::max)
    }
}

impl Side {
    /// Place among the job's kits; none for your own gun.
    pub fn place(&self, rows: &[Self]) -> Option<usize> {
        rows.iter().position(|r| r.label == self.label)?.checked_sub(2)
    }

    /// The saving that counts: your own gun against as set, others against your gun at its best.
    pub fn counts(&self) -> Option<Range> {
        self.saved_more.or(self.saved)
    }

    /// When its price is back, and how sure that is, with the prices now typed.
    pub fn verdict(&self, price: Option<f64>, money: &Money) -> (Option<PayBack>, Option<Sure>) {
        if self.cannot.is_some() {
            return (None, (self.label != "as-set").then_some(Sure::No));
        }
        let Some(saving) = self.counts().map(Range::saving) else { return (None, None) };
        let price = if self.label == "best" { Some(0.0) } else { price };
        (PayBack::of(&saving, price, money), Some(sure(&saving, price, money, self.keeps)))
    }
}

/// The job without its prices: what has to be flown. A new price changes no droplet.
pub fn flight_text(text: &str) -> String {
    let mut text = text.to_string();
    for key in ["card", "compare.paint_price", "compare.parts"] {
        text = without_key(&text, key).unwrap_or(text);
    }
    let Ok(job) = Job::from_toml(&text) else { return text };
    let kits: Vec<_> = job.compare.kits.into_iter().map(|k| KitToCompare { price: None, ..k }).collect();
    with_kits(&text, &kits).unwrap_or(text)
}

/// The text with another list of kits.
///
/// # Errors
/// `JobError` when the list is refused.
pub fn with_kits(text: &str, kits: &[KitToCompare]) -> Result<String, JobError> {
    let list: Vec<String> = kits.iter().map(entry).collect();
    with_key(&without_kit_tables(text), "compare.kits", &format!("[{}]", list.join(", ")))
}

/// A kit as an entry of `compare.kits`.
fn entry(kit: &KitToCompare) -> String {
    let word = |s: &str| serde_json::Value::from(s).to_string();
    let mut fields = Vec::new();
    match &kit.what {
        KitSource::Catalogue(id) => fields.push(format!("kit = {}", word(id))),
        KitSource::Box(b) => {
            let number = |x: f64| (x * 1e6).round() / 1e6;
            let mut of = vec![
                format!("air = \"{} L/min\"", number(b.air * 60_000.0)),
                format!("at = \"{} bar\"", number(b.at * 1e-5)),
                format!("tip = \"{} mm\"", number(b.tip * 1e3)),
            ];
            if let Some([height, distance]) = b.fan {
                of.push(format!("fan = \"{} mm\"", number(height * 1e3)));
                of.push(format!("fan_at = \"{} mm\"", number(distance * 1e3)));
            }
            of.extend(b.class.map(|c| format!("class = \"{}\"", c.id())));
            of.extend(b.feed.map(|f| format!("feed = \"{}\"", f.id())));
            fields.push(format!("box = {{ {} }}", of.join(", ")));
        }
    }
    fields.extend(kit.name.as_deref().map(|name| format!("name = {}", word(name))));
    fields.extend(kit.price.map(|price| format!("price = {price}")));
    format!("{{ {} }}", fields.join(", "))
}

/// Takes out kits written as tables of their own: their list is written anew in one line.
fn without_kit_tables(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut inside = false;
    for line in text.split_inclusive('\n') {
        let head = line.trim_start();
        if head.starts_with('[') {
            inside = head.starts_with("[[compare.kits]]") || head.starts_with("[compare.kits.");
        }
        if !inside {
            out.push_str(line);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kits_go_into_the_text_and_come_back() {
        let tables = WHICH_GUN
            .replace("kits = [{ kit = \"lvlp-gravity-1.2\" }, { kit = \"hvlp-suction-1.8\" }]", "parts = 40")
            + "\n[[compare.kits]]\nkit = \"lvlp-gravity-1.2\"\nprice = 240\n[[compare.kits]]\nname = \"the \\\"blue\\\" one\"\n\
               [compare.kits.box]\nair = \"8 cfm\"\nat = \"29 psi\"\ntip = \"1.3 mm\"\nfan = \"11 in\"\nfan_at = \"200 mm\"\n";
        let job = Job::from_toml(&tables).unwrap();
        assert_eq!(job.compare.kits.len(), 2);
        let written = with_kits(&tables, &job.compare.kits).unwrap();
        let again = Job::from_toml(&written).unwrap();
        assert_eq!(again.compare.parts, Some(40.0));
        assert_eq!(again.compare.kits[0], job.compare.kits[0]);
        assert_eq!(again.compare.kits[1].name, job.compare.kits[1].name);
        // Written once, a list stays as it is.
        assert_eq!(with_kits(&written, &again.compare.kits).unwrap(), written);
        assert_eq!(Job::from_toml(&with_kits(&written, &[]).unwrap()).unwrap().compare.kits, []);
    }

    #[test]
    fn prices_fly_nothing_new() {
        let priced = with_key(WHICH_GUN, "compare.paint_price", "18").unwrap();
        let mut kits = Job::from_toml(&priced).unwrap().compare.kits;
        kits[0].price = Some(240.0);
        let priced = with_kits(&priced, &kits).unwrap();
        assert_eq!(flight_text(&priced), flight_text(WHICH_GUN));
        assert_ne!(flight_text(&priced), flight_text(&priced.replace("150 mm", "160 mm")));
        kits.pop();
        assert_ne!(flight_text(&with_kits(&priced, &kits).unwrap()), flight_text(WHICH_GUN));
    }
}
