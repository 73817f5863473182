use crate::dance::{Grip, Holding, Metre, SpeedChange, Strain};

/// Something asked for about what is said of the dance as a whole. Strains and figures are indices, from 0.
#[derive(Clone, Debug, PartialEq)]
pub enum AboutAsk {
    /// Show all of it.
    Show,
    /// Give it a tune from a file: asks which.
    AskTune,
    /// Have the tune heard by itself, once through; or no more.
    Listen,
    /// Call the dance something else.
    SetTitle(String),
    /// Say which side dances it.
    SetSide(String),
    /// Say in which tradition.
    SetTradition(String),
    /// Say who wrote it down.
    SetAuthor(String),
    /// Have the music played once before the dancing, while everybody stands; or no more.
    SetOnceToYourself(bool),
    /// Write the side's notes on it.
    SetNotes(String),
    /// Say what the dancers hold.
    SetHolding(Holding),
    /// Say how the sticks are held.
    SetGrip(Grip),
    /// Say how tall the dancers are, metres.
    SetHeight(f64),
    /// Give the music a metre.
    SetMetre(Metre),
    /// Give the music a speed, strong beats a minute.
    SetSpeed(f64),
    /// Say how many counts of upbeat there are.
    SetUpbeat(u32),
    /// Give it a tune, in ABC notation; the first one brings its metre, speed, upbeat and strains.
    SetTune(String),
    /// Have metre, speed, upbeat and strains as the tune has them.
    FollowTune,
    /// Change a strain.
    SetStrain(usize, Strain),
    /// Add a strain after the others.
    AddStrain,
    /// Take a strain away.
    TakeStrain(usize),
    /// Say in which order the strains are played.
    SetPlayed(Vec<String>),
    /// Give a figure speeds of its own.
    SetSpeeds(usize, Vec<SpeedChange>),
    /// Give a bar of a figure, from 1, a metre of its own, or none.
    SetBarMetre(usize, u32, Option<Metre>),
}
