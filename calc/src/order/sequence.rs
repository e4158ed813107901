//! Which hole comes first.

/// Places of `count` holes, counted from 0 along the wall, in the order in which they are cut.
///
/// Each time the hole nearest to an end comes next that is not beside the one before and leaves an order for the rest.
/// From four holes on no two neighbours follow each other; with two or three that cannot be had, and the order goes
/// simply from the ends to the middle. [own, after the method's section 15]
#[must_use]
pub fn sequence(count: usize) -> Vec<usize> {
    let mut order = Vec::with_capacity(count);
    let mut left: Vec<usize> = (0..count).collect();
    // Both ends first, then the next inwards: ranked by the distance to the nearer end, the left one first.
    left.sort_by_key(|place| (from_end(*place, count), *place));
    if count >= 4 && extend(&mut order, &mut left) {
        return order;
    }
    order.extend(left);
    order
}

/// Distance of a place to the nearer end, in holes.
#[must_use]
pub fn from_end(place: usize, count: usize) -> usize {
    place.min(count.saturating_sub(place + 1))
}

/// Whether two places are neighbours.
#[must_use]
pub fn beside(a: usize, b: usize) -> bool {
    a.abs_diff(b) == 1
}

fn extend(order: &mut Vec<usize>, left: &mut Vec<usize>) -> bool {
    if left.is_empty() {
        return true;
    }
    for i in 0..left.len() {
        let Some(place) = left.get(i).copied() else {
            return false;
        };
        if order.last().is_some_and(|last| beside(*last, place)) {
            continue;
        }
        left.remove(i);
        order.push(place);
        if extend(order, left) {
            return true;
        }
        order.pop();
        left.insert(i, place);
    }
    false
}
