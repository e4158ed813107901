//! What the law of a country puts before the work: words and stops only, never physics.
//!
//! Every rule carries its source and how it was seen. A country that is not known here gets "check your authority";
//! nothing here ever says that a permission can be done without.

use super::law::*;
use crate::source::Source;

/// A country with words of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "names of countries")]
pub enum Country {
    England,
    Wales,
    Scotland,
    NorthernIreland,
    Ireland,
    Germany,
    Usa,
    /// Not said, or not known here.
    Other,
}

/// A rule of a country in plain words, with where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// Plain words.
    pub words: &'static str,
    /// Where it comes from and how it was seen.
    pub source: Source,
}

/// The rules of a country that stand before the work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Law {
    /// Warrant, permit or notice of the building authority.
    pub authority: Rule,
    /// The neighbour's share in the wall.
    pub party_wall: Rule,
    /// Who designs and who runs the temporary works.
    pub duties: Rule,
    /// Asbestos.
    pub asbestos: Rule,
    /// Props or fences on a public pavement or road.
    pub pavement: Rule,
    /// Services in the wall.
    pub services: Rule,
}

impl Country {
    /// Reads a country as written in a job; what is not known becomes [`Country::Other`].
    #[must_use]
    pub fn parse(text: &str) -> Self {
        let plain = text.trim().to_lowercase().replace([' ', '-'], "_");
        match plain.as_str() {
            "england" => Self::England,
            "wales" => Self::Wales,
            "scotland" => Self::Scotland,
            "northern_ireland" => Self::NorthernIreland,
            "ireland" => Self::Ireland,
            "germany" | "deutschland" => Self::Germany,
            "usa" | "us" | "united_states" => Self::Usa,
            _ => Self::Other,
        }
    }

    /// All countries with words of their own.
    #[must_use]
    pub const fn all() -> [Self; 8] {
        [
            Self::England,
            Self::Wales,
            Self::Scotland,
            Self::NorthernIreland,
            Self::Ireland,
            Self::Germany,
            Self::Usa,
            Self::Other,
        ]
    }

    /// Name in a job.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::England => "england",
            Self::Wales => "wales",
            Self::Scotland => "scotland",
            Self::NorthernIreland => "northern_ireland",
            Self::Ireland => "ireland",
            Self::Germany => "germany",
            Self::Usa => "usa",
            Self::Other => "other",
        }
    }

    /// Rules that stand before the work.
    #[must_use]
    pub const fn law(self) -> Law {
        match self {
            Self::England => Law {
                authority: ENGLAND,
                party_wall: PARTY_WALL_ACT,
                duties: CDM,
                asbestos: ASBESTOS_GB,
                pavement: HIGHWAYS_ACT,
                services: SERVICES,
            },
            Self::Wales => Law {
                authority: WALES,
                party_wall: PARTY_WALL_ACT,
                duties: CDM,
                asbestos: ASBESTOS_GB,
                pavement: HIGHWAYS_ACT,
                services: SERVICES,
            },
            Self::Scotland => Law {
                authority: SCOTLAND,
                party_wall: MUTUAL_WALL,
                duties: CDM,
                asbestos: ASBESTOS_GB,
                pavement: ROADS_SCOTLAND,
                services: SERVICES,
            },
            Self::NorthernIreland => Law {
                authority: NORTHERN_IRELAND,
                party_wall: PARTY_NI,
                duties: CDM_NI,
                asbestos: ASBESTOS_NI,
                pavement: ROADS_NI,
                services: SERVICES,
            },
            Self::Ireland => Law {
                authority: IRELAND,
                party_wall: PARTY_IRELAND,
                duties: DUTIES_IRELAND,
                asbestos: ASBESTOS_IRELAND,
                pavement: PAVEMENT_IRELAND,
                services: SERVICES,
            },
            Self::Germany => Law {
                authority: GERMANY,
                party_wall: PARTY_GERMANY,
                duties: DUTIES_GERMANY,
                asbestos: ASBESTOS_GERMANY,
                pavement: PAVEMENT_GERMANY,
                services: SERVICES,
            },
            Self::Usa => Law {
                authority: USA,
                party_wall: PARTY_USA,
                duties: DUTIES_USA,
                asbestos: ASBESTOS_USA,
                pavement: PAVEMENT_USA,
                services: SERVICES_USA,
            },
            Self::Other => Law {
                authority: OTHER,
                party_wall: PARTY_OTHER,
                duties: DUTIES_OTHER,
                asbestos: ASBESTOS_OTHER,
                pavement: PAVEMENT_OTHER,
                services: SERVICES,
            },
        }
    }
}
