//! A straight line through points by least squares, and how sure its slope is.

use serde::Serialize;
use std::f64::consts::FRAC_2_PI;

/// A line `value = intercept + slope · day`, with the spread of the points about it.
///
/// Source: ordinary least squares, as certified for the data set Norris of NIST's Statistical Reference Datasets (tested).
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Fit {
    /// Slope, unit of the value per day.
    pub slope_per_day: f64,
    /// Standard error of the slope.
    pub slope_error: f64,
    /// The slope lies between these in 95 of 100 such series, by Student's t.
    pub slope_low: f64,
    /// The upper one.
    pub slope_high: f64,
    /// Value at day 0.
    pub intercept: f64,
    /// Standard error of the intercept.
    pub intercept_error: f64,
    /// Standard deviation of the points about the line.
    pub residual_sd: f64,
    /// Number of points.
    pub count: usize,
}

impl Fit {
    /// The line through (day, value) points; `None` under three points, where nothing says how sure it is, or where all lie
    /// on one day. Points that are not finite are left out.
    #[must_use]
    pub fn of(points: &[(f64, f64)]) -> Option<Self> {
        let finite = |(x, y): &&(f64, f64)| x.is_finite() && y.is_finite();
        let points: Vec<(f64, f64)> = points.iter().filter(finite).copied().collect();
        let count = points.len();
        if count < 3 {
            return None;
        }
        let n = count as f64;
        let mean_x = points.iter().map(|(x, _)| x).sum::<f64>() / n;
        let mean_y = points.iter().map(|(_, y)| y).sum::<f64>() / n;
        // About the means, since sums of squares of raw values lose the digits that matter.
        let (mut sxx, mut sxy) = (0.0, 0.0);
        for (x, y) in &points {
            sxx += (x - mean_x) * (x - mean_x);
            sxy += (x - mean_x) * (y - mean_y);
        }
        let least = 1e-9 * (1.0 + mean_x.abs());
        if sxx <= n * least * least {
            return None;
        }
        let slope = sxy / sxx;
        let intercept = mean_y - slope * mean_x;
        let squares: f64 = points
            .iter()
            .map(|(x, y)| {
                let off = (y - mean_y) - slope * (x - mean_x);
                off * off
            })
            .sum();
        let residual_sd = (squares / (n - 2.0)).sqrt();
        let slope_error = residual_sd / sxx.sqrt();
        let intercept_error = residual_sd * (1.0 / n + mean_x * mean_x / sxx).sqrt();
        let reach = t_95(count - 2) * slope_error;
        let fit = Self {
            slope_per_day: slope,
            slope_error,
            slope_low: slope - reach,
            slope_high: slope + reach,
            intercept,
            intercept_error,
            residual_sd,
            count,
        };
        (fit.slope_low.is_finite() && fit.slope_high.is_finite() && fit.intercept.is_finite()).then_some(fit)
    }
}

/// Most degrees of freedom looked at: beyond, t differs from this by less than 0.003, on the careful side.
const MOST: usize = 1000;

/// Student's t that 95 % lie within, two-sided, for `dof` degrees of freedom (at least 1).
#[must_use]
pub fn t_95(dof: usize) -> f64 {
    let dof = dof.clamp(1, MOST);
    let (mut low, mut high) = (1.9, 13.0);
    while high - low > 1e-12 * high {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            break;
        }
        if within(middle, dof) < 0.95 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// Share of Student's distribution within ±t: the finite sums for whole degrees of freedom.
///
/// Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4 (from memory; tested against a
/// library).
fn within(t: f64, dof: usize) -> f64 {
    let theta = (t / (dof as f64).sqrt()).atan();
    let (sin, cos) = theta.sin_cos();
    let odd = dof % 2 == 1;
    let mut term = if odd { cos } else { 1.0 };
    let mut sum = 0.0;
    let first = if odd { 1 } else { 0 };
    let mut power = first;
    while power + 2 <= dof {
        sum += term;
        let p = power as f64;
        term *= cos * cos * (p + 1.0) / (p + 2.0);
        power += 2;
    }
    if odd {
        FRAC_2_PI * (theta + sin * sum)
    } else {
        sin * sum
    }
}
