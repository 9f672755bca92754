//! Kits to set beside one's own.

use crate::set_up::BoxFigures;

/// What a comparison of kits needs. Prices are the user's, in any one currency.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Compare {
    /// Kits beside your own, in their order.
    pub kits: Vec<KitToCompare>,
    /// Price of a litre of paint as sprayed.
    pub paint_price: Option<f64>,
    /// Parts that are going to be painted.
    pub parts: Option<f64>,
}

/// A kit beside your own.
#[derive(Debug, Clone, PartialEq)]
pub struct KitToCompare {
    /// Where its geometry comes from.
    pub what: KitSource,
    /// What the user calls it.
    pub name: Option<String>,
    /// Its price.
    pub price: Option<f64>,
}

/// Where a kit's geometry comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum KitSource {
    /// A kit of the catalogue, by its id.
    Catalogue(String),
    /// What is printed on the box.
    Box(BoxFigures),
}
