//! The keys of the job file, in the order of the file.

use super::judging::Method;
use super::keys::{Key, Kind};
use crate::gun::Fault;
use crate::units::Quantity;

use Kind::{
    AirUsers, Band, Choice, CompressorId, Count, CupId, Flag, Frame, KitId, Kits, Mix, Names, Number,
    PaintId, Share, Solvents, Text, Words,
};
use Quantity::{
    AirFlow, Angle, Area, Density, Film, KinematicViscosity, Length, Pressure, Speed, SurfaceTension,
};
use Quantity::{Mass, Temperature, Time, Viscosity, Volume};

const fn key(
    path: &'static str,
    kind: Kind,
    range: (&'static str, &'static str),
    default: &'static str,
    meaning: &'static str,
) -> Key {
    Key { path, kind, range, default, meaning }
}
const fn q(quantity: Quantity) -> Kind {
    Kind::Quantity(quantity)
}

const NONE: (&str, &str) = ("", "");
const UNIT_SHARE: (&str, &str) = ("0", "1");
const KIT: &str = "the kit's";
const PAINT: &str = "the paint's";

/// Every key that a job file may hold.
#[rustfmt::skip]
pub const KEYS: &[Key] = &[
    key("version", Count, ("1", "1"), "required", "version of this format"),
    key("name", Text, NONE, "\"job\"", "name of the job, shown with its results"),

    key("supply.compressor", CompressorId, NONE, "required with [supply]", "compressor out of the catalogue, or a table with the keys below"),
    key("supply.compressor.like", CompressorId, NONE, "none", "compressor of the catalogue whose figures hold where the table gives none"),
    key("supply.compressor.delivered_air", q(AirFlow), ("1 L/min", "20000 L/min"), "required without like", "air that comes out, never displacement (what the pistons sweep, a larger number)"),
    key("supply.compressor.tank", q(Volume), ("0.1 L", "20000 L"), "required without like", "volume of the tank"),
    key("supply.compressor.cut_in", q(Pressure), ("0.5 bar", "15 bar"), "6 bar", "tank pressure at which it starts"),
    key("supply.compressor.cut_out", q(Pressure), ("0.6 bar", "16 bar"), "8 bar", "tank pressure at which it stops"),
    key("supply.reference", Choice(&["free-air", "iso-1217", "iso-2787", "iso-2533", "din-1343", "anr", "us-scfm", "us-scfm-gas"]), NONE, "\"free-air\"", "state that the air flows of this table are counted at"),
    key("supply.regulator", q(Pressure), ("0.2 bar", "16 bar"), "as the job needs it", "what the wall regulator's gauge shows at rest"),
    key("supply.hose.bore", q(Length), ("2 mm", "50 mm"), "8 mm", "inner diameter of the hose"),
    key("supply.hose.length", q(Length), ("0.1 m", "200 m"), "10 m", "length of the hose"),
    key("supply.couplings", Count, ("0", "20"), "2", "quick couplings between regulator and gun, plug and socket counted as one"),
    key("supply.coupling", Choice(&["standard", "full-bore"]), NONE, "\"standard\"", "kind of coupling"),
    key("supply.also", AirUsers, NONE, "none", "others on the same tank, all the time: an air-fed mask above all"),
    key("supply.intake_temperature", q(Temperature), ("-10 C", "60 C"), "the booth's", "room the compressor draws from"),
    key("supply.intake_humidity", Share, UNIT_SHARE, "the booth's", "its relative humidity"),
    key("supply.tank_temperature", q(Temperature), ("-10 C", "120 C"), "15 C above the intake", "air in the tank"),
    key("supply.price.hose", Number, ("0", "1000000"), "none", "what the next wider hose would cost, any money"),
    key("supply.price.short_hose", Number, ("0", "1000000"), "none", "what half the hose would cost"),
    key("supply.price.couplings", Number, ("0", "1000000"), "none", "what full-bore couplings would cost"),
    key("supply.price.tank", Number, ("0", "1000000"), "none", "what a further tank of the same size would cost"),
    key("supply.price.compressor", Number, ("0", "1000000"), "none", "what the next larger compressor would cost"),

    key("gun.kit", KitId, NONE, "required without gun.box", "gun and nozzle set out of the catalogue"),
    key("gun.box.air", q(AirFlow), ("3 L/min", "1000 L/min"), "required in gun.box", "a gun from its box, instead of gun.kit: air use, free air"),
    key("gun.box.at", q(Pressure), ("0.3 bar", "8 bar"), "required in gun.box", "inlet pressure of that air use; becomes the rated pressure"),
    key("gun.box.tip", q(Length), ("0.2 mm", "3 mm"), "required in gun.box", "bore of the fluid tip"),
    key("gun.box.fan", q(Length), ("20 mm", "800 mm"), "usual for the class", "fan height, as the eye sees it"),
    key("gun.box.fan_at", q(Length), ("50 mm", "600 mm"), "required with gun.box.fan", "distance of that fan height"),
    key("gun.inlet_pressure", q(Pressure), ("0.2 bar", "8 bar"), "the kit's rated pressure", "gauge pressure at the gun's inlet, trigger open; never above the kit's highest"),
    key("gun.fan", Share, UNIT_SHARE, "1", "fan knob, 0 shut to 1 fully open"),
    key("gun.fluid", Share, UNIT_SHARE, "the kit's rated fluid", "fluid knob, the trigger's stop, 0 shut to 1 fully open"),
    key("gun.trigger", Share, UNIT_SHARE, "1", "trigger pull"),
    key("gun.air_knob", Share, UNIT_SHARE, "1", "air knob at the foot of the handle, behind the gauge, 0 shut to 1 open"),
    key("gun.cup_level", Share, UNIT_SHARE, "0.5", "how full the cup is, 0 empty to 1 full"),
    key("gun.pot_pressure", q(Pressure), ("0 bar", "4 bar"), "the kit's rated pot pressure", "gauge pressure in the pot; only with pressure feed"),
    key("gun.cap_turn", q(Angle), ("0 deg", "360 deg"), "0 deg", "cap turned from horns left and right (upright fan), clockwise as seen from behind the gun; quarters only before a tube"),
    key("gun.faults", Words(&Fault::WORDS), NONE, "[]", "what is wrong with the gun; sides as seen from behind it, cap at 0 deg"),
    key("gun.name", Text, NONE, KIT, "plain name of the kit"),
    key("gun.class", Choice(&["hvlp", "compliant", "lvlp", "conventional", "touchup", "airbrush"]), NONE, KIT, "class of gun"),
    key("gun.feed", Choice(&["gravity", "suction", "pressure"]), NONE, KIT, "how the paint reaches the gun"),
    key("gun.tip_bore", q(Length), ("0.2 mm", "3 mm"), KIT, "bore of the fluid tip"),
    key("gun.tip_land", q(Length), ("0.1 mm", "10 mm"), KIT, "length of the bore's straight land"),
    key("gun.needle_half_angle", q(Angle), ("2 deg", "45 deg"), KIT, "half angle of the needle's cone"),
    key("gun.needle_travel", q(Length), ("0.1 mm", "8 mm"), KIT, "needle travel at full opening"),
    key("gun.inlet_area", q(Area), ("0.1 mm2", "200 mm2"), KIT, "effective area of the gun's body between gauge and cap"),
    key("gun.annulus_area", q(Area), ("0.05 mm2", "50 mm2"), KIT, "effective area of the ring round the tip"),
    key("gun.fan_valve_area", q(Area), ("0 mm2", "50 mm2"), KIT, "effective area of the fan valve, fully open"),
    key("gun.horn_area", q(Area), ("0.01 mm2", "50 mm2"), KIT, "effective area of all horn holes together"),
    key("gun.horn_angle", q(Angle), ("20 deg", "89 deg"), KIT, "angle of the horn jets to the gun's axis"),
    key("gun.cup_head", q(Length), ("-300 mm", "500 mm"), KIT, "height of the paint over the tip, cup half full; negative for suction"),
    key("gun.cup_depth", q(Length), ("0 mm", "500 mm"), KIT, "how much that height falls from full to empty"),
    key("gun.cup_volume", q(Volume), ("0.5 mL", "20 L"), KIT, "volume of the cup, or of the pot"),
    key("gun.residue", q(Volume), ("0 mL", "500 mL"), KIT, "paint that stays in cup and gun"),
    key("gun.rated_pressure", q(Pressure), ("0.2 bar", "8 bar"), KIT, "inlet pressure it is rated at, trigger open"),
    key("gun.rated_fluid", Share, ("0.05", "1"), KIT, "fluid knob it is rated at"),
    key("gun.rated_pot_pressure", q(Pressure), ("0 bar", "4 bar"), KIT, "pot pressure it is rated at; only with pressure feed"),
    key("gun.paint_tube_bore", q(Length), ("2 mm", "25 mm"), KIT, "bore of the suction tube, or of the paint hose from the pot"),
    key("gun.paint_tube_length", q(Length), ("0 m", "50 m"), KIT, "its length; 0 for gravity feed"),
    key("gun.rated_paint", PaintId, NONE, KIT, "paint it is made for: its rated setting is balanced with that"),
    key("gun.highest_pressure", q(Pressure), ("0.3 bar", "10 bar"), KIT, "highest inlet pressure, as stamped on the gun"),
    key("gun.fan_turns", Number, ("0.25", "12"), KIT, "turns of the fan knob from shut to open"),
    key("gun.fluid_turns", Number, ("0.25", "12"), KIT, "turns of the fluid knob from shut to open"),
    key("gun.air_turns", Number, ("0", "12"), KIT, "turns of the air knob from shut to open; 0 for a gun without one"),

    key("gun.matched.fan", Number, ("0.3", "3"), "1", "your gun matched on a card: how far the fan opens, over the catalogue's"),
    key("gun.matched.edge", Number, ("0.3", "3"), "1", "matched: how far the spray spreads past the fan's edge, over the catalogue's"),
    key("gun.matched.suction", Number, ("0.3", "3"), "1", "matched: suction at the tip, over the catalogue's"),
    key("gun.matched.needle", Number, ("0.3", "3"), "1", "matched, pressure guns: lift of the needle, over the catalogue's"),
    key("gun.matched.droplets", Number, ("0.3", "3"), "1", "matched: Sauter mean diameter of the droplets, over the catalogue's"),
    key("gun.matched.droplets_range", Number, ("1.01", "2"), "the model's, 1.35", "matched: likely range of that diameter, times or over"),

    key("paint.kind", PaintId, NONE, "required", "class of paint out of the catalogue"),
    key("paint.name", Text, NONE, PAINT, "plain name of the paint"),
    key("paint.mix", Mix, NONE, PAINT, "parts by volume of base and hardener, and of thinner if there are three"),
    key("paint.thinning", Share, UNIT_SHARE, PAINT, "thinner added, share of the volume named by paint.thinning_of"),
    key("paint.thinning_of", Choice(&["mix", "base"]), NONE, "\"mix\"", "what the thinning is a share of"),
    key("paint.thinner", Choice(&["fast", "medium", "slow"]), NONE, "\"medium\"", "speed of the thinner: how fast it leaves in flight and after"),
    key("paint.temperature", q(Temperature), ("5 C", "45 C"), "20 C", "temperature of the paint in the cup"),
    key("paint.cup.standard", CupId, NONE, "none", "flow cup the seconds were taken with"),
    key("paint.cup.seconds", Number, ("1", "1000"), "none", "seconds out of that cup, as sprayed, at the paint's temperature; sets the viscosity"),
    key("paint.cup.temperature", q(Temperature), ("5 C", "45 C"), "paint.temperature", "temperature at which the seconds were taken, where it is not the paint's"),
    key("paint.kinematic_viscosity", q(KinematicViscosity), ("1 mm2/s", "2000 mm2/s"), "none", "viscosity measured as sprayed, at the paint's temperature, instead of the cup"),
    key("paint.density", q(Density), ("0.7 kg/L", "4 kg/L"), PAINT, "density as sprayed"),
    key("paint.volume_solids", Share, ("0.02", "1"), PAINT, "solids by volume as sprayed"),
    key("paint.mass_solids", Share, ("0.02", "1"), "none", "solids by mass as sprayed, instead of paint.volume_solids"),
    key("paint.base_density", q(Density), ("0.6 kg/L", "5 kg/L"), PAINT, "density of the base in its tin"),
    key("paint.hardener_density", q(Density), ("0.6 kg/L", "5 kg/L"), PAINT, "density of the hardener; two-pack paints only"),
    key("paint.thinner_density", q(Density), ("0.6 kg/L", "5 kg/L"), PAINT, "density of the thinner"),
    key("paint.viscosity", q(Viscosity), ("1 mPa s", "2000 mPa s"), PAINT, "viscosity as sprayed, at 20 C and a cup's shear rate (about 100 1/s)"),
    key("paint.flow_index", Number, ("0.2", "1"), PAINT, "power-law index, 1 for a paint that does not thin by shear"),
    key("paint.viscosity_high_shear", q(Viscosity), ("0.5 mPa s", "2000 mPa s"), PAINT, "viscosity that shear does not go below, at 20 C; follows paint.viscosity when left out"),
    key("paint.surface_tension", q(SurfaceTension), ("15 mN/m", "75 mN/m"), PAINT, "surface tension"),
    key("paint.solvents", Solvents, NONE, PAINT, "volatiles and their shares of the volatile part"),
    key("paint.isocyanate", Flag, NONE, PAINT, "two-pack with isocyanate hardener: its cautions are shown"),
    key("paint.dry_film_per_coat", Band(Film), ("1 um", "1000 um"), PAINT, "usual dry film of one coat"),
    key("paint.sheet.tip", Band(Length), ("0.2 mm", "3 mm"), PAINT, "data sheet: fluid tip, smallest and largest"),
    key("paint.sheet.pressure", Band(Pressure), ("0.2 bar", "8 bar"), "the kit's rated pressure", "data sheet: inlet pressure at the gun, lowest and highest"),
    key("paint.sheet.cup", CupId, NONE, "\"din-4\"", "data sheet: cup of its seconds"),
    key("paint.sheet.cup_seconds", Band(Time), ("1 s", "1000 s"), PAINT, "data sheet: seconds ready to spray, shortest and longest"),
    key("paint.sheet.coats", Count, ("1", "10"), PAINT, "data sheet: coats"),
    key("paint.sheet.flash", q(Time), ("0 s", "72 h"), PAINT, "data sheet: time between coats"),
    key("paint.sheet.dry_film_total", Band(Film), ("1 um", "2000 um"), "the coats' together", "data sheet: dry film of all coats together, instead of paint.dry_film_per_coat"),
    key("paint.sheet.pot_life", q(Time), ("1 min", "72 h"), PAINT, "data sheet: time in which mixed paint must be sprayed; two-pack paints only"),
    key("paint.sheet.temperature", q(Temperature), ("5 C", "45 C"), "20 C", "data sheet: temperature that its flash is of"),
    key("paint.sheet.recoat_within", q(Time), ("1 min", "2160 h"), "none", "data sheet: latest time for the next coat without sanding"),

    key("mix.parts", Count, ("1", "10000"), "1", "parts like this one to be painted"),
    key("mix.reserve", Share, UNIT_SHARE, "10 %", "paint kept in reserve, share of all the rest"),
    key("mix.test_card", q(Time), ("0 s", "600 s"), "5 s", "time of spraying on test cards before the job"),
    key("mix.duty", Share, ("0.02", "1"), "40 %", "trigger time over working time: handling, turning and filling take the rest"),

    key("booth.temperature", q(Temperature), ("0 C", "50 C"), "20 C", "temperature of the booth's air"),
    key("booth.humidity", Share, UNIT_SHARE, "0.5", "relative humidity of the booth's air"),

    key("part.panel.width", q(Length), ("10 mm", "5 m"), "exactly one of panel, tube, curved, frame", "panel: size along the strokes"),
    key("part.panel.height", q(Length), ("10 mm", "5 m"), "exactly one of panel, tube, curved, frame", "panel: size across the strokes"),
    key("part.tube.diameter", q(Length), ("3 mm", "300 mm"), "exactly one of panel, tube, curved, frame", "tube: outer diameter"),
    key("part.tube.length", q(Length), ("20 mm", "6 m"), "exactly one of panel, tube, curved, frame", "tube: length; strokes run along it"),
    key("part.curved.radius", q(Length), ("60 mm", "10 m"), "exactly one of panel, tube, curved, frame", "panel curved outwards: radius of its face; the axis of the curve lies along the strokes"),
    key("part.curved.width", q(Length), ("10 mm", "5 m"), "exactly one of panel, tube, curved, frame", "curved panel: size along the strokes and the axis of its curve"),
    key("part.curved.height", q(Length), ("10 mm", "5 m"), "exactly one of panel, tube, curved, frame", "curved panel: size across the strokes, measured over the face, at most half way round"),
    key("part.frame", Frame, NONE, "exactly one of panel, tube, curved, frame", "frame of straight tubes, strokes along each: one of ours, or a list of one's own"),
    key("part.stands", Choice(&["upright", "flat", "overhead"]), NONE, "\"upright\"", "how the part's face stands; a frame: upright as drawn, flat with its front up, overhead with its front down"),
    key("part.lean", q(Angle), ("0 deg", "180 deg"), "from part.stands", "face against level, instead of stands: 0 flat, 90 upright, 180 overhead"),
    key("part.temperature", q(Temperature), ("-10 C", "60 C"), "the booth's", "surface of the part: is it clear of the dew point, and how fast the film flashes"),

    key("stroke.distance", q(Length), ("50 mm", "600 mm"), "required", "fluid tip to the part's nearest face"),
    key("stroke.speed", q(Speed), ("10 mm/s", "3000 mm/s"), "required without burst", "speed of the gun along the stroke"),
    key("stroke.overlap", Share, ("0", "0.95"), "0.5", "overlap of neighbouring passes, share of the fan height at this distance"),
    key("stroke.lead", q(Length), ("0 mm", "500 mm"), "60 mm", "trigger on past each edge: lead-in and run-out"),
    key("stroke.coats", Count, ("1", "10"), "1", "coats, one after the other"),
    key("stroke.turn", q(Time), ("0 s", "60 s"), "1 s", "trigger off between two passes; matters to the air alone"),
    key("stroke.flash", q(Time), ("0 s", "72 h"), "the data sheet's", "wait between two coats; matters to the air alone"),
    key("stroke.fan_axis", Choice(&["across", "along"]), NONE, "\"across\"", "tubes: the fan's long axis against the stroke"),
    key("stroke.sides", Count, ("1", "12"), "1", "tubes: passes from this many directions, evenly round it; of a frame's tubes the side hardest to see first"),
    key("stroke.members", Names, NONE, "all that are meant to be painted", "frames: tubes that strokes go along, by name"),
    key("stroke.burst", q(Time), ("0.05 s", "60 s"), "none", "trigger on for this long, gun held still at the middle; there are no passes then"),

    key("spec.dry_film", Band(Film), ("1 um", "2000 um"), "none", "dry film wanted, lowest and highest"),
    key("spec.per", Choice(&["coat", "total"]), NONE, "\"coat\"", "whether the band is for each coat or for all together"),
    key("spec.judge", Choice(&Method::WORDS), NONE, "\"band\"", "how the dry film is judged: share of the area in the band, SSPC-PA 2, its appendix for test panels, ISO 19840"),
    key("spec.right_on", Share, ("0.5", "1"), "0.9", "band: share of the area that must be right; ours, no standard"),
    key("spec.level", Count, ("1", "5"), "3", "SSPC-PA 2: restriction level, 1 the strictest"),
    key("spec.rule", Choice(&["80-20", "90-10"]), NONE, "\"80-20\"", "ISO 19840: its own rule, or 90/10 as for ships' ballast tanks"),
    key("spec.profile_correction", q(Film), ("0 um", "100 um"), "0 um", "ISO 19840: taken off every reading for the profile under the film; 0 on smooth parts, 25 um on blasted steel of unknown profile"),

    key("card.distance", q(Length), ("50 mm", "600 mm"), "stroke.distance", "measured card: fluid tip to the card"),
    key("card.fan_height", q(Length), ("10 mm", "1 m"), "none", "measured fan height: between the lines where the film is a tenth of its thickest, where the speckle starts"),
    key("card.fan_thickness", q(Length), ("3 mm", "600 mm"), "none", "measured fan thickness, between the same lines"),
    key("card.weighed", q(Mass), ("0.1 g", "10 kg"), "none", "by how much the gun got lighter in card.seconds of spraying"),
    key("card.caught", q(Volume), ("0.1 mL", "20 L"), "none", "pressure guns: paint caught in card.seconds with the air shut"),
    key("card.seconds", q(Time), ("1 s", "10 min"), "15 s", "how long the trigger was pulled for card.weighed or card.caught"),
    key("card.wet_film", q(Film), ("1 um", "1 mm"), "none", "wet film in the middle of one pass"),
    key("card.dry_film", q(Film), ("1 um", "1 mm"), "none", "dry film in the middle of one pass, instead of the wet film"),
    key("card.speed", q(Speed), ("10 mm/s", "3000 mm/s"), "stroke.speed", "gun speed of that pass"),
    key("card.second_distance", q(Length), ("50 mm", "600 mm"), "none", "a second card: fluid tip to it"),
    key("card.second_height", q(Length), ("10 mm", "1 m"), "none", "fan height on the second card"),
    key("card.uncertainty.fan_height", Share, ("0.5 %", "50 %"), "5 %", "how sure card.fan_height is: two readings in three lie nearer than this"),
    key("card.uncertainty.fan_thickness", Share, ("0.5 %", "50 %"), "5 %", "the same of card.fan_thickness"),
    key("card.uncertainty.flow", Share, ("0.5 %", "50 %"), "5 %", "the same of card.weighed or card.caught"),
    key("card.uncertainty.film", Share, ("0.5 %", "50 %"), "5 %", "the same of card.wet_film or card.dry_film"),
    key("card.uncertainty.second_height", Share, ("0.5 %", "50 %"), "5 %", "the same of card.second_height"),
    key("card.kept_back", Choice(&["none", "fan-height", "fan-thickness", "flow", "film", "second-height"]), NONE, "\"none\"", "the measurement that is kept out of the fit to test it"),

    key("compare.kits", Kits, NONE, "none", "kits set beside your own, each with its price if you know one"),
    key("compare.paint_price", Number, ("0.01", "1000000"), "none", "price of a litre of paint as sprayed, in the currency of the prices"),
    key("compare.parts", Count, ("1", "1000000000"), "none", "parts you are going to paint"),

    key("run.droplets", Count, ("1", "1000000000"), "200000, of a frame 1000000", "droplets flown; with standard_error the most that are"),
    key("run.standard_error", Share, ("0.05 %", "20 %"), "none", "fly until the relative standard error of the transfer efficiency is below this"),
    key("run.seed", Count, ("0", "9007199254740991"), "1", "seed of the random streams"),
];
