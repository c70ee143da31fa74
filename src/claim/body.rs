use super::PanelKind::{
    self, BedSide, CabCorner, CargoDoor, Fender, FrontDoor, FrontVanSide, Hood, QuarterPanel, RearDoor,
    RearVanSide, Roof, RoofRail, SlidingDoor, Tailgate, TrunkLid,
};
use super::{PanelId, Side, words::named};

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

/// Panels that only pick-ups and vans have.
const NO_CAR: [PanelKind; 5] = [CabCorner, BedSide, FrontVanSide, RearVanSide, SlidingDoor];

impl BodyType {
    /// Kinds of panel that an inspection after hail usually lists for it (common practice, no source). What some
    /// cars of the type have and others do not is not among them.
    pub const fn usual_kinds(self) -> &'static [PanelKind] {
        match self {
            Self::ThreeDoorHatchback | Self::PeopleCarrier => {
                &[Hood, Fender, Roof, RoofRail, FrontDoor, QuarterPanel, Tailgate]
            }
            Self::Hatchback | Self::Estate | Self::SportUtility => {
                &[Hood, Fender, Roof, RoofRail, FrontDoor, RearDoor, QuarterPanel, Tailgate]
            }
            Self::Sedan => &[Hood, Fender, Roof, RoofRail, FrontDoor, RearDoor, QuarterPanel, TrunkLid],
            Self::Coupe => &[Hood, Fender, Roof, RoofRail, FrontDoor, QuarterPanel],
            Self::Convertible => &[Hood, Fender, FrontDoor, QuarterPanel],
            Self::PickUp => &[Hood, Fender, Roof, RoofRail, FrontDoor, BedSide, Tailgate],
            Self::CrewCab => &[Hood, Fender, Roof, RoofRail, FrontDoor, RearDoor, BedSide, Tailgate],
            Self::Van => &[Hood, Fender, Roof, FrontDoor],
        }
    }

    /// The panels of [`Self::usual_kinds`], left and right, in document order.
    pub fn usual_panels(self) -> Vec<PanelId> {
        let sides = |kind: &PanelKind| -> &'static [Option<Side>] {
            if kind.is_paired() { &[Some(Side::Left), Some(Side::Right)] } else { &[None] }
        };
        let mut panels: Vec<PanelId> = self
            .usual_kinds()
            .iter()
            .flat_map(|kind| sides(kind).iter().map(|side| PanelId::new(*kind, *side)))
            .collect();
        panels.sort_unstable();
        panels
    }

    /// Whether no car of the type has such a panel: a count on it is a slip.
    pub fn lacks(self, kind: PanelKind) -> bool {
        match self {
            Self::ThreeDoorHatchback => {
                NO_CAR.contains(&kind) || matches!(kind, RearDoor | TrunkLid | CargoDoor)
            }
            Self::Hatchback => NO_CAR.contains(&kind) || matches!(kind, TrunkLid | CargoDoor),
            Self::Sedan => NO_CAR.contains(&kind) || matches!(kind, Tailgate | CargoDoor),
            Self::Estate | Self::SportUtility => NO_CAR.contains(&kind) || kind == TrunkLid,
            Self::Coupe => NO_CAR.contains(&kind) || matches!(kind, RearDoor | CargoDoor),
            Self::Convertible => {
                NO_CAR.contains(&kind) || matches!(kind, RearDoor | RoofRail | Tailgate | CargoDoor)
            }
            Self::PeopleCarrier => matches!(kind, CabCorner | BedSide | TrunkLid),
            Self::PickUp | Self::CrewCab => {
                matches!(kind, QuarterPanel | TrunkLid | SlidingDoor | CargoDoor | FrontVanSide | RearVanSide)
                    || (self == Self::PickUp && kind == RearDoor)
            }
            Self::Van => matches!(kind, CabCorner | BedSide | QuarterPanel | TrunkLid | RearDoor),
        }
    }

    /// What stands on this type where other cars have the panel that it lacks; some of it may be lacking, too.
    pub fn instead_of(self, kind: PanelKind) -> &'static [PanelKind] {
        match (self, kind) {
            (Self::PickUp | Self::CrewCab, QuarterPanel | FrontVanSide | RearVanSide) => {
                &[BedSide, CabCorner]
            }
            (Self::Van, RearDoor) => &[SlidingDoor, CargoDoor],
            (Self::Van, QuarterPanel | BedSide | CabCorner) => &[RearVanSide],
            (Self::Van, TrunkLid) => &[CargoDoor, Tailgate],
            (Self::Sedan | Self::Convertible, Tailgate | CargoDoor) => &[TrunkLid],
            (_, TrunkLid | CargoDoor) => &[Tailgate],
            (_, RearDoor | SlidingDoor) => &[FrontDoor, QuarterPanel],
            (_, BedSide | CabCorner | RearVanSide) => &[QuarterPanel],
            (_, FrontVanSide) => &[RearDoor, QuarterPanel],
            (Self::Convertible, RoofRail) => &[PanelKind::APillar],
            _ => &[],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_two_door_car_has_no_rear_door_and_every_type_has_what_is_usual_for_it() {
        for body in [BodyType::ThreeDoorHatchback, BodyType::Coupe, BodyType::Convertible, BodyType::PickUp] {
            assert!(body.lacks(RearDoor), "{body}");
        }
        for body in BodyType::ALL {
            assert!(body.usual_kinds().iter().all(|kind| !body.lacks(*kind)), "{body}");
            let instead = PanelKind::ALL.iter().filter(|kind| body.lacks(**kind));
            for kind in instead {
                let offered = body.instead_of(*kind);
                assert!(
                    offered.iter().any(|other| !body.lacks(*other)),
                    "{body} without {kind}: {offered:?}"
                );
            }
        }
    }

    #[test]
    fn a_sedan_has_thirteen_usual_panels() {
        let names: Vec<String> = BodyType::Sedan.usual_panels().iter().map(ToString::to_string).collect();
        assert_eq!(names.len(), 13);
        assert_eq!(names[..3], ["hood", "left fender", "right fender"]);
        assert_eq!(names[12], "trunk lid");
    }
}
