use super::words::named;

named! {
    /// What the outer skin is made of.
    pub enum Material {
        MildSteel = "mild steel",
        HighStrengthSteel = "high-strength steel",
        Aluminium = "aluminium",
        Plastic = "plastic",
        Composite = "composite",
        Glass = "glass",
    }
}

named! {
    /// How the back of the metal is reached.
    pub enum Access {
        Open = "open",
        WindowGap = "window gap",
        BehindBrace = "behind brace",
        DoubleSkin = "double skin",
        GlueOnly = "glue only",
        NoAccess = "none",
    }
}

named! {
    /// State of the paint on the damage.
    pub enum Paint {
        Intact = "intact",
        Broken = "broken",
        Filler = "filler",
    }
}
