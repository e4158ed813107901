//! Words that a job may use, as the contract has them.

use serde::{Deserialize, Serialize};

/// State of the wall as seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the three words are the contract's own")]
pub enum Condition {
    Sound,
    Doubtful,
    Poor,
}

/// Masonry material of a leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum Material {
    ClayBrick,
    CalciumSilicateBrick,
    DenseBlock,
    MediumBlock,
    AeratedBlock,
    CoursedStone,
    Rubble,
}

impl Material {
    /// Name in the contract and in the tables.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::ClayBrick => "clay_brick",
            Self::CalciumSilicateBrick => "calcium_silicate_brick",
            Self::DenseBlock => "dense_block",
            Self::MediumBlock => "medium_block",
            Self::AeratedBlock => "aerated_block",
            Self::CoursedStone => "coursed_stone",
            Self::Rubble => "rubble",
        }
    }
}

/// Mortar as found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum Mortar {
    Cement,
    Lime,
    Perished,
}

impl Mortar {
    /// Name in the contract and in the tables.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cement => "cement",
            Self::Lime => "lime",
            Self::Perished => "perished",
        }
    }
}

/// Which leaf a load comes down on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum WhichLeaf {
    Inner,
    Outer,
    Both,
}

/// Direction of the joists.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum Direction {
    Onto,
    Along,
}

/// Kind of roof.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum RoofKind {
    Trusses,
    Rafters,
    Flat,
    None,
}

/// Kind of surface under a foot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum FootKind {
    SlabOnGround,
    SuspendedSlab,
    SuspendedTimber,
    Ground,
    Paving,
    Decking,
    Unknown,
}

/// How a load gets past a suspended floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum CarriedDown {
    PropsBelow,
    Solid,
}

/// Ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum Ground {
    SoftClay,
    FirmClay,
    StiffClay,
    LooseSand,
    DenseSand,
    Gravel,
    Rock,
    Unknown,
}

impl Ground {
    /// Name in the tables; unknown ground is taken as soft clay.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SoftClay | Self::Unknown => "soft_clay",
            Self::FirmClay => "firm_clay",
            Self::StiffClay => "stiff_clay",
            Self::LooseSand => "loose_sand",
            Self::DenseSand => "dense_sand",
            Self::Gravel => "gravel",
            Self::Rock => "rock",
        }
    }
}

/// Terrain category of EN 1991-1-4 Table 4.1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "the names are the standard's own")]
pub enum Terrain {
    #[serde(rename = "0")]
    Zero,
    I,
    II,
    III,
    IV,
}

impl Terrain {
    /// Name in the standard.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Zero => "0",
            Self::I => "I",
            Self::II => "II",
            Self::III => "III",
            Self::IV => "IV",
        }
    }
}

/// Answer to a question that decides whether the method applies. Missing counts as unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum Answer {
    Yes,
    No,
    Unknown,
}

/// What ties the wall just above the opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "the words are the contract's own")]
pub enum Restraint {
    Floor,
    Roof,
    Strapped,
    Designed,
    None,
    Unknown,
}
