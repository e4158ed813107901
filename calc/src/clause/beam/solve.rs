//! Hermite elements, statics of the solved beam.

use super::band::Band;
use super::{BeamLoad, Support};

/// A linear solution.
pub(super) struct Solved {
    nodes: Vec<f64>,
    deflection: Vec<f64>,
    /// Reactions, kN.
    pub(super) reactions: Vec<f64>,
}

/// Load breaks nearer to a node than this make no node of their own, m: a sliver of an element would cost digits.
const SLIVER_M: f64 = 0.005;

/// A load's stretch; a point has no length.
fn stretch(load: &BeamLoad) -> (f64, f64) {
    match *load {
        BeamLoad::Uniform { from_m, to_m, .. } => (from_m, to_m),
        BeamLoad::Point { x_m, .. } => (x_m, x_m),
    }
}

fn elements(nodes: &[f64]) -> impl Iterator<Item = (usize, f64, f64)> + '_ {
    nodes
        .iter()
        .zip(nodes.iter().skip(1))
        .enumerate()
        .map(|(i, (a, b))| (i, *a, *b))
}

fn node_at(nodes: &[f64], x: f64) -> usize {
    nodes.iter().position(|n| (n - x).abs() < 1e-9).unwrap_or(0)
}

fn nodes_of(length: f64, supports: &[Support], loads: &[BeamLoad]) -> Vec<f64> {
    let mut nodes = vec![0.0, length];
    nodes.extend(supports.iter().map(|s| s.x_m));
    for x in loads.iter().map(stretch).flat_map(|(from, to)| [from, to]) {
        if nodes.iter().all(|node| (node - x).abs() > SLIVER_M) {
            nodes.push(x);
        }
    }
    nodes.sort_by(f64::total_cmp);
    nodes.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    nodes
}

/// Shape functions of an element at s = x/l.
fn shapes(s: f64, l: f64) -> [f64; 4] {
    [
        1.0 - 3.0 * s * s + 2.0 * s.powi(3),
        l * s * (1.0 - s) * (1.0 - s),
        s * s * (3.0 - 2.0 * s),
        l * s * s * (s - 1.0),
    ]
}

/// Integrals of the shape functions from 0 to s, times l.
fn shape_integrals(s: f64, l: f64) -> [f64; 4] {
    let (s2, s3, s4) = (s * s, s.powi(3), s.powi(4));
    [
        l * (s - s3 + s4 / 2.0),
        l * l * (s2 / 2.0 - 2.0 * s3 / 3.0 + s4 / 4.0),
        l * (s3 - s4 / 2.0),
        l * l * (s4 / 4.0 - s3 / 3.0),
    ]
}

/// What a load brings to an element's four degrees of freedom. A point on a node belongs to the element right of it, or to the
/// last element.
fn share(load: &BeamLoad, a: f64, b: f64, last: bool) -> [f64; 4] {
    let l = b - a;
    match *load {
        BeamLoad::Uniform { from_m, to_m, w_kn_m } => {
            let (from, to) = (from_m.max(a), to_m.min(b));
            if to <= from {
                return [0.0; 4];
            }
            let (upper, lower) = (shape_integrals((to - a) / l, l), shape_integrals((from - a) / l, l));
            let mut forces = upper;
            for (force, lower) in forces.iter_mut().zip(lower) {
                *force = w_kn_m * (*force - lower);
            }
            forces
        }
        BeamLoad::Point { x_m, p_kn } if x_m >= a && (x_m < b || last) => {
            shapes(((x_m - a) / l).min(1.0), l).map(|n| n * p_kn)
        }
        BeamLoad::Point { .. } => [0.0; 4],
    }
}

/// One linear solution with the supports that are on. Lengths m, forces kN, E·I kN·m².
pub(super) fn solve(length: f64, ei: f64, supports: &[Support], on: &[bool], loads: &[BeamLoad]) -> Option<Solved> {
    let nodes = nodes_of(length, supports, loads);
    let mut band = Band::new(2 * nodes.len());
    let mut right = vec![0.0; 2 * nodes.len()];
    for (i, a, b) in elements(&nodes) {
        let (l, at) = (b - a, 2 * i);
        let (k12, k6, k4, k2) = (12.0 * ei / l.powi(3), 6.0 * ei / (l * l), 4.0 * ei / l, 2.0 * ei / l);
        for (r, c, value) in [
            (0, 0, k12),
            (1, 0, k6),
            (1, 1, k4),
            (2, 0, -k12),
            (2, 1, -k6),
            (2, 2, k12),
            (3, 0, k6),
            (3, 1, k2),
            (3, 2, -k6),
            (3, 3, k4),
        ] {
            band.add(at + r, at + c, value);
        }
        let last = i + 2 == nodes.len();
        for load in loads {
            for (cell, force) in right.iter_mut().skip(at).zip(share(load, a, b, last)) {
                *cell += force;
            }
        }
    }
    // A rigid support is a spring a million times stiffer than the beam between supports 0.1 m apart: its give is lost in the
    // beam's own movement, and the band keeps its shape.
    let rigid = 1e13 * ei / length.powi(3);
    for (support, on) in supports.iter().zip(on) {
        if *on {
            let at = 2 * node_at(&nodes, support.x_m);
            band.add(at, at, support.k_kn_m.min(rigid));
        }
    }
    // Two places that push against both ways of moving; springs are above zero, so nothing else can be a mechanism.
    let places = || supports.iter().zip(on).filter(|(_, on)| **on).map(|(s, _)| s.x_m);
    let spread = places().fold(f64::NEG_INFINITY, f64::max) - places().fold(f64::INFINITY, f64::min);
    if spread.is_nan() || spread < 1e-6 || !band.factor() {
        return None;
    }
    band.solve(&mut right);
    let give = |x: f64| right.get(2 * node_at(&nodes, x)).copied().unwrap_or(0.0);
    let reaction = |s: &Support, on: bool| if on { s.k_kn_m.min(rigid) * give(s.x_m) } else { 0.0 };
    let reactions = supports.iter().zip(on).map(|(s, on)| reaction(s, *on)).collect();
    Some(Solved {
        deflection: right,
        nodes,
        reactions,
    })
}

/// Shear right of x and moment at x by statics from the left, sagging positive.
fn forces_at(x: f64, supports: &[Support], reactions: &[f64], loads: &[BeamLoad]) -> (f64, f64) {
    let (mut shear, mut moment) = (0.0, 0.0);
    for (support, r) in supports.iter().zip(reactions).filter(|(s, _)| s.x_m <= x) {
        shear += r;
        moment += r * (x - support.x_m);
    }
    for load in loads {
        match *load {
            BeamLoad::Uniform { from_m, to_m, w_kn_m } if from_m < x => {
                let to = to_m.min(x);
                shear -= w_kn_m * (to - from_m);
                moment -= w_kn_m * (to - from_m) * (x - f64::midpoint(from_m, to));
            }
            BeamLoad::Point { x_m, p_kn } if x_m <= x => {
                shear -= p_kn;
                moment -= p_kn * (x - x_m);
            }
            _ => {}
        }
    }
    (shear, moment)
}

/// Largest sagging and hogging moment: at every place where something begins or ends, and where the shear passes through zero
/// between two such places.
pub(super) fn moments(length: f64, supports: &[Support], reactions: &[f64], loads: &[BeamLoad]) -> (f64, f64) {
    let mut places = vec![0.0, length];
    places.extend(supports.iter().map(|s| s.x_m));
    places.extend(loads.iter().map(stretch).flat_map(|(from, to)| [from, to]));
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
    let (mut sag, mut hog) = (0.0_f64, 0.0_f64);
    let mut consider = |m: f64| {
        sag = sag.max(m);
        hog = hog.max(-m);
    };
    for (_, a, b) in elements(&places) {
        let (shear, moment) = forces_at(a, supports, reactions, loads);
        let middle = f64::midpoint(a, b);
        let rate: f64 = loads
            .iter()
            .map(|load| match *load {
                BeamLoad::Uniform { from_m, to_m, w_kn_m } if (from_m..=to_m).contains(&middle) => w_kn_m,
                _ => 0.0,
            })
            .sum();
        consider(moment);
        let peak = shear / rate;
        if peak > 0.0 && peak < b - a {
            consider(moment + shear * peak / 2.0);
        }
    }
    (sag, hog)
}

/// Top of the parabola through three values at equal steps, or the middle one where the top is not between them.
fn peak(first: f64, middle: f64, last: f64) -> f64 {
    let bend = first - 2.0 * middle + last;
    let offset = (first - last) / (2.0 * bend);
    if offset.abs() < 1.0 {
        middle + (last - first) * offset / 4.0
    } else {
        middle
    }
}

/// Largest deflection either way, mm: the cubic between nodes and, under an even load over the whole element, its own quartic.
pub(super) fn largest_deflection(solved: &Solved, ei: f64, loads: &[BeamLoad]) -> f64 {
    let at = |i: usize| solved.deflection.get(i).copied().unwrap_or(0.0);
    let mut largest = 0.0_f64;
    for (i, a, b) in elements(&solved.nodes) {
        let l = b - a;
        let even: f64 = loads
            .iter()
            .map(|load| match *load {
                BeamLoad::Uniform { from_m, to_m, w_kn_m } => w_kn_m * (to_m.min(b) - from_m.max(a)).max(0.0) / l,
                BeamLoad::Point { .. } => 0.0,
            })
            .sum();
        let mut before: [Option<f64>; 2] = [None, None];
        for station in 0..=20 {
            let s = f64::from(station) / 20.0;
            let shape = shapes(s, l);
            let cubic: f64 = shape.iter().enumerate().map(|(k, n)| n * at(2 * i + k)).sum();
            let own = even * (s * l * (l - s * l)).powi(2) / (24.0 * ei);
            let here = cubic + own;
            largest = largest.max(here.abs());
            // The peak seldom falls on a station, and the stations alone would report too little.
            if let [Some(first), Some(middle)] = before {
                largest = largest.max(peak(first, middle, here).abs());
            }
            let [_, last] = before;
            before = [last, Some(here)];
        }
    }
    largest * 1e3
}
