//! Left and right: of two the left is the first, side 0.

/// What is on a side.
#[must_use]
pub fn on_side<T: Copy>([left, right]: [T; 2], side: usize) -> T {
    if side == 0 { left } else { right }
}

/// The same of what is not copied.
pub(super) fn of_side<T>([left, right]: &[T; 2], side: usize) -> &T {
    if side == 0 { left } else { right }
}

/// The same, to be changed.
pub(super) fn on_side_mut<T>([left, right]: &mut [T; 2], side: usize) -> &mut T {
    if side == 0 { left } else { right }
}
