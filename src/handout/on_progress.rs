/// Hears how much of a handout is done, of how much, and says whether to go on; what is made when it says no is not
/// whole.
pub type OnProgress<'a> = &'a mut dyn FnMut(usize, usize) -> bool;
