use super::words::named;

named! {
    /// Body type; decides which panels a vehicle has and what some words mean.
    pub enum BodyType {
        ThreeDoorHatchback = "three-door hatchback",
        Hatchback = "hatchback",
        Sedan = "sedan",
        Estate = "estate",
        Coupe = "coupe",
        Convertible = "convertible",
        SportUtility = "sport utility",
        PeopleCarrier = "people carrier",
        PickUp = "pick-up",
        CrewCab = "crew cab pick-up",
        Van = "van",
    }
}
