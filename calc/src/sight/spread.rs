//! How errors of what goes in show in what comes out.
//!
//! First order: each quantity is moved by one standard deviation up and down, half the difference is its share, shares add
//! in quadrature. What a straight line misses (the mean of both ways against the middle) is added in quadrature too. The
//! stated ± is 2.2 times the standard deviation: for a normal distribution 97 % of readings, so that 95 % still hold where it is
//! not quite one [own judgement]. [GUM, JCGM 100:2008, 5.1.2 and 6.2: from memory.]

use serde::{Deserialize, Serialize};

/// Twice the standard deviation covers about 95 % of a normal distribution: so a ± that goes in is read.
pub(super) const COVERAGE: f64 = 2.0;
/// Standard deviations in a ± that comes out.
const STATED: f64 = 2.2;

/// A length with its uncertainty.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Value, mm.
    pub mm: f64,
    /// Half width of the range that holds at least 95 % of readings, mm.
    pub plus_minus_mm: f64,
}

/// One quantity that goes in: its value and its standard deviation.
#[derive(Clone, Copy, Debug)]
pub(super) struct Input {
    pub value: f64,
    pub sigma: f64,
}

impl Input {
    /// A quantity with its ± (95 %).
    pub(super) fn within(value: f64, plus_minus: f64) -> Self {
        Self {
            value,
            sigma: plus_minus / COVERAGE,
        }
    }
}

/// Values of `model` at the inputs, each with ± (95 %); none where the model has no answer there or one deviation away.
pub(super) fn spread<const N: usize>(
    inputs: &[Input],
    model: impl Fn(&[f64]) -> Option<[f64; N]>,
) -> Option<[(f64, f64); N]> {
    let mut at: Vec<f64> = inputs.iter().map(|input| input.value).collect();
    let middle = model(&at)?;
    let mut variance = [0.0; N];
    for (i, input) in inputs.iter().enumerate().filter(|(_, input)| input.sigma > 0.0) {
        *at.get_mut(i)? = input.value + input.sigma;
        let up = model(&at)?;
        *at.get_mut(i)? = input.value - input.sigma;
        let down = model(&at)?;
        *at.get_mut(i)? = input.value;
        for ((sum, middle), (up, down)) in variance.iter_mut().zip(&middle).zip(up.iter().zip(&down)) {
            let (slope, bend) = ((up - down) / 2.0, f64::midpoint(*up, *down) - middle);
            *sum += slope * slope + bend * bend;
        }
    }
    let mut out = [(0.0, 0.0); N];
    for (out, (value, variance)) in out.iter_mut().zip(middle.iter().zip(variance)) {
        *out = (*value, STATED * variance.sqrt());
    }
    out.iter().all(|(v, s)| v.is_finite() && s.is_finite()).then_some(out)
}
