//! Valid jobs at the ends of what a job file may say, and what comes of them: the table of `docs/methods/extremes.md`.

use crate::random_jobs::defect;
use mistcoat::flight::levels;
use mistcoat::job::{Job, with_key};
use mistcoat::report::Report;
use mistcoat::run::Run;

/// Droplets to the part and to the card.
const DROPLETS: &str = "40000";
const CARD: u64 = 20_000;

/// What all of them start from.
const PLAIN: &str = r#"version = 1
[gun]
kit = "hvlp-gravity-1.3"
[paint]
kind = "two-pack-clear"
[part]
panel = { width = "200 mm", height = "150 mm" }
[stroke]
distance = "180 mm"
speed = "350 mm/s"
[run]
seed = 1
"#;

/// The plain tube.
const TUBE: &str = "{ diameter = \"12 mm\", length = \"300 mm\" }";

/// A job at an end.
pub struct Extreme {
    /// What is at its end.
    pub what: &'static str,
    /// Keys of the plain job that are set otherwise.
    keys: &'static [(&'static str, &'static str)],
    /// The part, where it is not the plain panel.
    part: &'static str,
    /// Whether it makes sense, in a sentence.
    pub said: &'static str,
}

const fn at(
    what: &'static str,
    keys: &'static [(&'static str, &'static str)],
    part: &'static str,
    said: &'static str,
) -> Extreme {
    Extreme { what, keys, part, said }
}

/// The part at its end, as TOML.
const PANEL: &str = "";

/// All of them; the first is the plain job.
pub const EXTREMES: &[Extreme] = &[
    at("plain: nothing at its end", &[], PANEL, "What the others are read against."),
    at(
        "tip 0.2 mm, an airbrush with stain, 60 mm off",
        &[
            ("gun.kit", "airbrush-gravity-0.2"),
            ("paint.kind", "stain"),
            ("stroke.distance", "60 mm"),
            ("stroke.speed", "100 mm/s"),
        ],
        PANEL,
        "Fine droplets in little air, close to the face: a spot of two centimetres and a film of a stain. A little more stays than of the plain job's, three times as far off with droplets four times as large.",
    ),
    at(
        "tip 0.2 mm in a full-size gun",
        &[("gun.tip_bore", "0.2 mm")],
        PANEL,
        "A forty-second of the area passes a two-hundred-and-seventieth of the paint; with all of the gun's air on it the droplets are so fine that they follow it past the panel. Nobody would; the data sheet's tip is told.",
    ),
    at(
        "tip 3 mm in the same gun",
        &[("gun.tip_bore", "3 mm")],
        PANEL,
        "Four times the paint on the same air: coarse droplets, flooded, and both are told.",
    ),
    at(
        "tube 12 mm, fan wide open across it",
        &[],
        TUBE,
        "One part in twenty stays: the tube is a fifteenth of the fan's height, and round.",
    ),
    at(
        "tube 3 mm",
        &[],
        "{ diameter = \"3 mm\", length = \"300 mm\" }",
        "A quarter of the width takes a bit more than a quarter of the paint: what meets a thinner tube follows the air round it less.",
    ),
    at(
        "tube 6 m long",
        &[],
        "{ diameter = \"12 mm\", length = \"6 m\" }",
        "The film of the short tube; more stays, since less is sprayed beyond its ends.",
    ),
    at(
        "panel 10 mm x 10 mm",
        &[("part.panel.width", "10 mm"), ("part.panel.height", "10 mm")],
        PANEL,
        "The film of the large panel's middle on a three-hundredth of its area, and nearly all goes beside it.",
    ),
    at(
        "50 mm off",
        &[("stroke.distance", "50 mm")],
        PANEL,
        "A third of the fan's height, three times the film, and all of it runs: far too near, as every beginner finds.",
    ),
    at(
        "600 mm off",
        &[("stroke.distance", "600 mm")],
        PANEL,
        "A fan of half a metre on a panel of 150 mm, of droplets that have lost their speed: one part in thirty stays, and dries on the way.",
    ),
    at(
        "film of 10 um",
        &[("stroke.speed", "900 mm/s"), ("spec.dry_film", "[\"8 um\", \"12 um\"]")],
        PANEL,
        "Two and a half times as fast, two and a half times as thin.",
    ),
    at(
        "film of 500 um",
        &[("stroke.speed", "18 mm/s"), ("spec.dry_film", "[\"400 um\", \"600 um\"]")],
        PANEL,
        "Half a millimetre of clear in one coat on an upright panel runs nearly everywhere.",
    ),
    at(
        "the same with a primer that stands, lying flat",
        &[("paint.kind", "zinc-rich-primer"), ("stroke.speed", "18 mm/s"), ("part.stands", "flat")],
        PANEL,
        "A film like it of zinc-rich primer lying flat stays where it is; the data sheet wants a larger tip, which is told.",
    ),
    at(
        "pressure 0.2 bar",
        &[("gun.inlet_pressure", "0.2 bar")],
        PANEL,
        "Too little air to break the paint up, and it is told. The coarse droplets stay better, at a third of the flow.",
    ),
    at(
        "pressure 8 bar, a conventional gun",
        &[
            ("gun.kit", "conventional-gravity-1.4"),
            ("gun.highest_pressure", "10 bar"),
            ("gun.inlet_pressure", "8 bar"),
        ],
        PANEL,
        "Finer droplets in more air: less of the paint stays than of the plain job's.",
    ),
    at(
        "hand at 10 mm/s",
        &[("stroke.speed", "10 mm/s")],
        PANEL,
        "Thirty-five times as slow, thirty-five times as thick, and nearly all of it runs.",
    ),
    at(
        "hand at 3 m/s",
        &[("stroke.speed", "3000 mm/s")],
        PANEL,
        "The film goes with 1 over the speed; nobody's hand does it, and the paint that stays is the same share.",
    ),
    at(
        "viscosity 2000 mPa s",
        &[("paint.viscosity", "2000 mPa s")],
        PANEL,
        "Drops of a third of a millimetre: too thick to spray, and told in two ways.",
    ),
    at(
        "viscosity 1 mPa s",
        &[("paint.viscosity", "1 mPa s")],
        PANEL,
        "Thinner than water: droplets under 10 um, most of which the air takes past the panel. Whether a film of 1 mPa s breaks up so finely is beyond what the correlation was measured on.",
    ),
    at(
        "booth 50 C and dry",
        &[("booth.temperature", "50 C"), ("booth.humidity", "0")],
        PANEL,
        "Hardly another film: a droplet is aloft for hundredths of a second.",
    ),
    at(
        "booth 0 C and damp",
        &[("booth.temperature", "0 C"), ("booth.humidity", "1"), ("paint.temperature", "5 C")],
        PANEL,
        "Colder paint is thicker, flows less and breaks up coarser.",
    ),
    at(
        "fluid knob at 0.05",
        &[("gun.fluid", "0.05")],
        PANEL,
        "A needle that hardly opens; all the gun's air on a drop of paint, so a wide fan of dust.",
    ),
    at(
        "trigger at 0.3",
        &[("gun.trigger", "0.3")],
        PANEL,
        "The trigger opens the air first and the needle after it: air, and hardly any paint.",
    ),
    at("panel curved at 10 m", &[], "curved", "Flat to the eye, and the flat panel's figures."),
    at(
        "panel curved at 60 mm, half way round",
        &[],
        "curved at 60 mm",
        "The sides lie away from the gun and take less: a quarter less film in the mean.",
    ),
];

/// What came of a job.
pub struct Came {
    /// The report; none where it cannot be sprayed.
    pub report: Result<Report, String>,
}

impl Extreme {
    /// The job file.
    #[must_use]
    pub fn text(&self) -> String {
        let plain_part = "panel = { width = \"200 mm\", height = \"150 mm\" }";
        let part = match self.part {
            "" => plain_part.to_owned(),
            "curved" => "curved = { radius = \"10 m\", width = \"200 mm\", height = \"150 mm\" }".to_owned(),
            "curved at 60 mm" => {
                "curved = { radius = \"60 mm\", width = \"200 mm\", height = \"188 mm\" }".to_owned()
            }
            tube => format!("tube = {tube}"),
        };
        let mut text = PLAIN.replace(plain_part, &part);
        let droplets = [("run.droplets", DROPLETS)];
        for (key, value) in droplets.iter().chain(self.keys) {
            text = with_key(&text, key, value).unwrap_or_else(|e| panic!("{}: {e}", self.what));
        }
        text
    }

    /// Flies it.
    ///
    /// # Panics
    /// Where the job is refused by its keys, or a figure cannot be.
    #[must_use]
    pub fn came(&self) -> Came {
        let job = Job::from_toml(&self.text()).unwrap_or_else(|e| panic!("{}: {e}", self.what));
        let report = match Run::with_card(job, CARD, levels()[0]) {
            Err(refused) => Err(refused.to_string()),
            Ok(mut run) => {
                run.finish();
                if let Some(wrong) = defect(&run) {
                    panic!("{}: {wrong}", self.what);
                }
                run.report().map_err(|e| e.to_string())
            }
        };
        Came { report }
    }
}

impl Came {
    /// The figures of the table, in its order, without those that the report leaves out; none where it cannot be sprayed.
    #[must_use]
    pub fn figures(&self) -> Option<[Option<f64>; 7]> {
        let r = self.report.as_ref().ok()?;
        Some([
            Some(r.gun.fluid_ml_min),
            Some(r.spray.sauter_um),
            r.pattern.map(|p| p.length_mm),
            Some(100.0 * r.transfer_efficiency.value),
            Some(r.film.wet_um.mean),
            Some(r.film.dry_um.mean),
            r.finish.as_ref().map(|f| f.run_area_percent),
        ])
    }
}

/// The page of the docs.
#[must_use]
pub fn page(all: &[(&Extreme, Came)]) -> String {
    let mut text = String::from(
        "# Jobs at the ends\n\nWritten by `cargo run --release -p mistcoat-tests --bin extremes`; a test holds it. Code: `tests/src/extremes.rs`.\n\n\
         Each differs from the plain job (two-pack clear, HVLP gun with a 1.3 mm tip as rated, upright panel of 200 mm x 150 mm, 180 mm off at \
         350 mm/s, one coat) by what its name says. Paint in mL/min, Sauter mean diameter at the tip, fan height on a card at that distance, share of \
         the solids that stays on the part, wet and dry film as landed (mean), area that ran.\n\n\
         | job | mL/min | Sauter um | fan mm | stays % | wet um | dry um | ran % |\n|---|---|---|---|---|---|---|---|\n",
    );
    for (extreme, came) in all {
        match came.figures() {
            Some(f) => {
                let cells = f.map(|x| x.map_or_else(|| "left out".to_owned(), short)).join(" | ");
                text += &format!("| {} | {cells} |\n", extreme.what);
            }
            None => text += &format!("| {} | | | | | | | |\n", extreme.what),
        }
    }
    text += "\n## Do they make sense\n\n";
    for (extreme, came) in all {
        let told = match &came.report {
            Ok(report) => report.warnings.iter().map(|w| format!(" Told: \"{w}\"")).collect(),
            Err(refused) => format!(" Refused: \"{refused}\""),
        };
        text += &format!("- **{}.** {}{told}\n", extreme.what, extreme.said);
    }
    text
}

/// Three digits.
fn short(x: f64) -> String {
    let digits = if x.abs() >= 100.0 {
        0
    } else if x.abs() >= 10.0 {
        1
    } else {
        2
    };
    format!("{x:.digits$}")
}
