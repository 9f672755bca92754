//! Class of gun and feed, with what is usual for a class.

/// Class of gun, as the trade names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// High volume, low pressure: at most 10 psi at the cap.
    Hvlp,
    /// Reduced pressure ("compliant").
    Compliant,
    /// Low volume, low pressure.
    Lvlp,
    /// Conventional.
    Conventional,
    /// Touch-up gun.
    Touchup,
    /// Airbrush.
    Airbrush,
}

/// How the paint reaches the gun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feed {
    /// Cup on top.
    Gravity,
    /// Cup below.
    Suction,
    /// Pot with pressure, through a hose.
    Pressure,
}

/// What is usual for a class at its rated setting, fan open. Common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// Free air, lowest and highest [m3/s].
    pub air: [f64; 2],
    /// Inlet pressure, trigger open, lowest and highest [Pa gauge].
    pub inlet_pressure: [f64; 2],
    /// Fluid tip, smallest and largest [m].
    pub tip: [f64; 2],
}

impl Class {
    /// Every class, in the order of the catalogue.
    pub const ALL: [Self; 6] =
        [Self::Hvlp, Self::Compliant, Self::Lvlp, Self::Conventional, Self::Touchup, Self::Airbrush];

    /// Word of the job file.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Hvlp => "hvlp",
            Self::Compliant => "compliant",
            Self::Lvlp => "lvlp",
            Self::Conventional => "conventional",
            Self::Touchup => "touchup",
            Self::Airbrush => "airbrush",
        }
    }

    /// The class of a word of the job file.
    #[must_use]
    pub fn of(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|c| c.id() == id)
    }

    /// Air use and inlet pressure that are usual for the class.
    #[must_use]
    pub fn usual(self) -> Usual {
        let (air, bar, tip) = match self {
            Self::Hvlp => ([230.0, 650.0], [1.5, 2.2], [0.8, 2.5]),
            Self::Compliant => ([240.0, 320.0], [2.0, 2.5], [1.0, 2.0]),
            Self::Lvlp => ([100.0, 200.0], [1.0, 2.0], [1.0, 2.0]),
            Self::Conventional => ([200.0, 420.0], [3.0, 4.5], [0.8, 3.0]),
            Self::Touchup => ([60.0, 150.0], [1.5, 2.0], [0.4, 1.2]),
            Self::Airbrush => ([10.0, 30.0], [1.0, 2.5], [0.2, 0.8]),
        };
        Usual {
            air: air.map(|x| x / 60_000.0),
            inlet_pressure: bar.map(|x| x * 1e5),
            tip: tip.map(|x| x * 1e-3),
        }
    }
}

impl Feed {
    /// Every feed.
    pub const ALL: [Self; 3] = [Self::Gravity, Self::Suction, Self::Pressure];

    /// Word of the job file.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Gravity => "gravity",
            Self::Suction => "suction",
            Self::Pressure => "pressure",
        }
    }

    /// The feed of a word of the job file.
    #[must_use]
    pub fn of(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|f| f.id() == id)
    }
}
