/// The usual cautions.
pub const CAUTIONS: &str = "Warm up first. Walk a new figure before you dance it. Land jumps and capers with bent \
knees, toes then heels; learn high capers little by little. Keep clear floor beyond the reach of arms and sticks, and \
spectators outside it. On uneven, wet or hard ground shorten the steps and the jumps. Sticks: sound wood, no splits, \
agreed targets, stop if one breaks. Stop for pain, and ask a doctor or physiotherapist, not this program. The venue's \
own rules and local law come first.";

/// The cautions that stand at the foot of every page that is handed out.
pub const CAUTIONS_IN_SHORT: &str =
    "Warm up; walk it first; land with bent knees; keep clear floor beyond arms and sticks; stop for pain.";

/// What is said where sticks meet.
pub const STICK_CAUTION: &str = "Sticks: sound wood, no splits, agreed targets; stop if one breaks.";
