//! What of a load a height at a station is the height of.

/// A part of the load, or of what it hangs by, whose height a station gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeightOf {
    /// The underside of the load: its lowest part while it hangs level.
    Underside,
    /// Its lowest part as it hangs.
    Lowest,
    /// Its centre of gravity.
    CentreOfGravity,
    /// The bearing of the hook that it hangs by.
    Hook,
}

impl HeightOf {
    /// Each, in the order of the reference.
    pub const ALL: [Self; 4] = [
        Self::Underside,
        Self::Lowest,
        Self::CentreOfGravity,
        Self::Hook,
    ];

    /// Its column of the table of stations.
    pub const fn column(self) -> &'static str {
        match self {
            Self::Underside => "underside",
            Self::Lowest => "lowest",
            Self::CentreOfGravity => "cg",
            Self::Hook => "hook",
        }
    }

    /// Whether it is what comes down on a stand.
    pub const fn can_stand(self) -> bool {
        matches!(self, Self::Underside | Self::Lowest)
    }
}
