use super::words::named;
use std::fmt;

named! {
    /// One kind of outer body part.
    pub enum PanelKind {
        FrontBumper = "front bumper cover",
        Hood = "hood",
        Fender = "fender",
        APillar = "A-pillar",
        Roof = "roof",
        RoofRail = "roof rail",
        MirrorCap = "mirror cap",
        FrontDoor = "front door",
        BPillar = "B-pillar",
        RearDoor = "rear door",
        SlidingDoor = "sliding door",
        Rocker = "rocker",
        CPillar = "C-pillar",
        QuarterPanel = "quarter panel",
        CabCorner = "cab corner",
        BedSide = "bed side",
        FrontVanSide = "front van side",
        RearVanSide = "rear van side",
        FuelFlap = "fuel flap",
        TrunkLid = "trunk lid",
        Tailgate = "tailgate",
        CargoDoor = "rear cargo door",
        RearBumper = "rear bumper cover",
    }
}

impl PanelKind {
    /// Whether a car has a left and a right one.
    pub const fn is_paired(self) -> bool {
        !matches!(
            self,
            Self::FrontBumper
                | Self::Hood
                | Self::Roof
                | Self::FuelFlap
                | Self::TrunkLid
                | Self::Tailgate
                | Self::RearBumper
        )
    }
}

named! {
    /// Which side, as seated and facing forward.
    pub enum Side {
        Left = "left",
        Right = "right",
    }
}

/// One panel of a vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PanelId {
    /// Which part.
    pub kind: PanelKind,
    /// Its side; `None` on the middle line, and on a part that is not paired.
    pub side: Option<Side>,
}

impl PanelId {
    /// A part with its side.
    pub const fn new(kind: PanelKind, side: Option<Side>) -> Self {
        Self { kind, side }
    }
}

/// `left front door`, `hood`.
impl fmt::Display for PanelId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.side {
            Some(side) => write!(f, "{side} {}", self.kind),
            None => f.write_str(self.kind.name()),
        }
    }
}
