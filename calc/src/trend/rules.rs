//! What counts as growing: one place for the round and for the curves (method, section 16) [own].

/// Smallest step of a crack gauge that is read, mm (BRE Digest 343 as the method names it: gauges to 0.1 mm).
pub const GAUGE_STEP_MM: f64 = 0.1;

/// Growth of a crack gauge since it was read last from which everything stops, mm.
pub const GAUGE_LAST_MM: f64 = 0.5;
/// Growth of a crack gauge since the start from which everything stops, mm.
pub const GAUGE_START_MM: f64 = 1.0;

/// Whether a crack gauge has grown so much, mm, that everything stops.
#[must_use]
pub fn crack_stops(since_last_mm: f64, since_start_mm: f64) -> bool {
    since_last_mm > GAUGE_LAST_MM - 1e-9 || since_start_mm > GAUGE_START_MM - 1e-9
}

/// Whether the last three amounts taken up, mm, grow from round to round: each more than the one before, the first more
/// than nothing.
#[must_use]
pub fn take_up_grows(taken_up_mm: &[f64]) -> bool {
    let mut last = taken_up_mm.iter().rev();
    match (last.next(), last.next(), last.next()) {
        (Some(c), Some(b), Some(a)) => *a > 0.0 && b > a && c > b,
        _ => false,
    }
}

/// What a prop may be taken up in all after bedding-in, before somebody who can judge it has looked, mm: as much as bedding-in
/// itself may take. A steady half millimetre a day passes every line that looks at one round, and is a side that sinks.
pub const SUM_MM: f64 = 4.0;

/// Whether what was taken up since bedding-in ended, mm, has in this round passed [`SUM_MM`], or a multiple of it. Each multiple
/// stops once, so that work may go on after an engineer's word and the next stop comes by itself.
///
/// `before_mm` is the sum of the rounds before, `now_mm` what this round adds; letting down does not count as taking up.
#[must_use]
pub fn take_up_sums(before_mm: f64, now_mm: f64) -> bool {
    let passed = |sum: f64| (sum.max(0.0) / SUM_MM + 1e-9).floor();
    now_mm > 0.0 && passed(before_mm + now_mm) > passed(before_mm)
}

/// Whether a crack gauge, mm, read at least one step more in each of the last three rounds.
#[must_use]
pub fn crack_grows(gauge_mm: &[f64]) -> bool {
    let last: Vec<f64> = gauge_mm.iter().rev().take(4).copied().collect();
    last.len() == 4
        && last
            .windows(2)
            .all(|pair| matches!(pair, [later, before] if later - before > GAUGE_STEP_MM - 1e-9))
}
