//! A kit as it stands in the catalogue: each figure with its origin.

use super::Figure;
use crate::gun::{Class, Feed, Kit, Matched};

/// A kit of the catalogue. Figures in SI; meanings as in `gun::Kit`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KitData {
    /// Catalogue id.
    pub id: &'static str,
    /// Plain name.
    pub name: &'static str,
    /// Class.
    pub class: Class,
    /// Feed.
    pub feed: Feed,
    /// Fluid tip bore [m].
    pub tip_bore: Figure,
    /// Length of the bore's straight land [m].
    pub tip_land: Figure,
    /// Needle cone's half angle [rad].
    pub needle_half_angle: Figure,
    /// Needle travel at full opening [m].
    pub needle_travel: Figure,
    /// Gun body [m2].
    pub inlet_area: Figure,
    /// Annulus [m2].
    pub annulus_area: Figure,
    /// Fan valve open [m2].
    pub fan_valve_area: Figure,
    /// Horn holes [m2].
    pub horn_area: Figure,
    /// Horn jets' angle [rad].
    pub horn_angle: Figure,
    /// Paint surface over the tip [m].
    pub cup_head: Figure,
    /// Its fall from full to empty [m].
    pub cup_depth: Figure,
    /// Cup [m3].
    pub cup_volume: Figure,
    /// Left in gun and cup [m3].
    pub residue: Figure,
    /// Rated inlet pressure [Pa gauge].
    pub rated_pressure: Figure,
    /// Rated fluid knob [-].
    pub rated_fluid: Figure,
    /// Rated pot pressure [Pa gauge].
    pub rated_pot_pressure: Figure,
    /// Suction tube or paint hose, bore [m].
    pub paint_tube_bore: Figure,
    /// Its length [m].
    pub paint_tube_length: Figure,
    /// Catalogue id of the paint it is made for, and why.
    pub rated_paint: (&'static str, &'static str),
    /// Highest inlet pressure [Pa gauge].
    pub highest_pressure: Figure,
    /// Fan knob [turns].
    pub fan_turns: Figure,
    /// Fluid knob [turns].
    pub fluid_turns: Figure,
    /// Air knob [turns].
    pub air_turns: Figure,
}

impl KitData {
    /// The kit, without origins.
    #[must_use]
    pub fn kit(&self) -> Kit {
        Kit {
            id: self.id.to_owned(),
            name: self.name.to_owned(),
            class: self.class,
            feed: self.feed,
            tip_bore: self.tip_bore.value,
            tip_land: self.tip_land.value,
            needle_half_angle: self.needle_half_angle.value,
            needle_travel: self.needle_travel.value,
            inlet_area: self.inlet_area.value,
            annulus_area: self.annulus_area.value,
            fan_valve_area: self.fan_valve_area.value,
            horn_area: self.horn_area.value,
            horn_angle: self.horn_angle.value,
            cup_head: self.cup_head.value,
            cup_depth: self.cup_depth.value,
            cup_volume: self.cup_volume.value,
            residue: self.residue.value,
            rated_pressure: self.rated_pressure.value,
            rated_fluid: self.rated_fluid.value,
            rated_pot_pressure: self.rated_pot_pressure.value,
            paint_tube_bore: self.paint_tube_bore.value,
            paint_tube_length: self.paint_tube_length.value,
            rated_paint: self.rated_paint.0.to_owned(),
            highest_pressure: self.highest_pressure.value,
            fan_turns: self.fan_turns.value,
            fluid_turns: self.fluid_turns.value,
            air_turns: self.air_turns.value,
            matched: Matched::default(),
        }
    }

    /// Every figure with the name of its field.
    #[must_use]
    pub fn figures(&self) -> [(&'static str, Figure); 22] {
        [
            ("tip_bore", self.tip_bore),
            ("tip_land", self.tip_land),
            ("needle_half_angle", self.needle_half_angle),
            ("needle_travel", self.needle_travel),
            ("inlet_area", self.inlet_area),
            ("annulus_area", self.annulus_area),
            ("fan_valve_area", self.fan_valve_area),
            ("horn_area", self.horn_area),
            ("horn_angle", self.horn_angle),
            ("cup_head", self.cup_head),
            ("cup_depth", self.cup_depth),
            ("cup_volume", self.cup_volume),
            ("residue", self.residue),
            ("rated_pressure", self.rated_pressure),
            ("rated_fluid", self.rated_fluid),
            ("rated_pot_pressure", self.rated_pot_pressure),
            ("paint_tube_bore", self.paint_tube_bore),
            ("paint_tube_length", self.paint_tube_length),
            ("highest_pressure", self.highest_pressure),
            ("fan_turns", self.fan_turns),
            ("fluid_turns", self.fluid_turns),
            ("air_turns", self.air_turns),
        ]
    }
}
