use super::{BodyType, Located, words::named};

named! {
    /// Where the steering wheel is; decides what driver's and passenger's side mean.
    pub enum Steering {
        Left = "left-hand drive",
        Right = "right-hand drive",
    }
}

named! {
    /// What drives it; high voltage brings cautions.
    pub enum Drive {
        Combustion = "combustion",
        Hybrid = "hybrid",
        Electric = "electric",
        FuelCell = "fuel cell",
    }
}

/// What is known of the vehicle.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Vehicle {
    /// Vehicle identification number as written.
    pub vin: Option<Located<String>>,
    /// Registration plate as written.
    pub registration: Option<Located<String>>,
    /// Maker.
    pub make: Option<Located<String>>,
    /// Model.
    pub model: Option<Located<String>>,
    /// Model year.
    pub year: Option<Located<u16>>,
    /// Body type.
    pub body: Option<Located<BodyType>>,
    /// Class for typical prices and factors, in the schedule's own words.
    pub class: Option<Located<String>>,
    /// Steering side.
    pub steering: Option<Located<Steering>>,
    /// The place whose law notes on the title, in words: a state or a country.
    pub registered_in: Option<Located<String>>,
    /// Market, as a country or region in words; decides whether a VIN check digit binds.
    pub market: Option<Located<String>>,
    /// Colour.
    pub colour: Option<Located<String>>,
    /// Kind of paint (solid, metallic, three-stage, ...).
    pub paint_kind: Option<Located<String>>,
    /// Odometer reading as written.
    pub odometer: Option<Located<String>>,
    /// What is on the roof (sunroof, panoramic glass, bars).
    pub roof_equipment: Option<Located<String>>,
    /// Cameras, radar and the like.
    pub driver_assistance: Option<Located<String>>,
    /// What drives it.
    pub drive: Option<Located<Drive>>,
}
