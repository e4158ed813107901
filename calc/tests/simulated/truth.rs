//! What really happens on an invented site: a physical model of its own, which shares no line with the app.

/// Random numbers from a fixed seed (splitmix64).
pub struct Chance(u64);

impl Chance {
    pub fn of(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0xD1B5_4A32_D192_ED03)
    }

    /// From 0 to 1.
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, from: f64, to: f64) -> f64 {
        from + self.share() * (to - from)
    }

    /// Normally distributed about nothing.
    pub fn about(&mut self, sd: f64) -> f64 {
        let (a, b) = (self.share().max(1e-12), self.share());
        sd * (-2.0 * a.ln()).sqrt() * (2.0 * std::f64::consts::PI * b).cos()
    }
}

/// A steel tube in a wider one, N and mm: 60.3 × 3.2 at the foot, 48.3 × 4.0 above.
pub struct Tubes {
    pub length_mm: f64,
    pub joint_mm: f64,
}

/// How a prop really stands.
#[derive(Clone, Copy, Debug, Default)]
pub struct Stance {
    pub head_mm: f64,
    pub foot_mm: f64,
    pub lean_mm_m: [f64; 2],
}

impl Stance {
    pub fn lean(&self) -> f64 {
        self.lean_mm_m[0].hypot(self.lean_mm_m[1])
    }
}

const NODES: usize = 240;

impl Tubes {
    /// Whether a load in N makes a fibre yield: finite differences of E·I·y″ + P·(y + made) = 0, pinned at both ends.
    pub fn yields(&self, load_n: f64, stance: &Stance) -> bool {
        let ring = |d: f64, t: f64| {
            let i = d - 2.0 * t;
            (
                std::f64::consts::PI / 4.0 * (d * d - i * i),
                std::f64::consts::PI / 64.0 * (d.powi(4) - i.powi(4)),
                d / 2.0,
            )
        };
        let (outer, inner) = (ring(60.3, 3.2), ring(48.3, 4.0));
        let step = self.length_mm / NODES as f64;
        let from_lean = 0.2 * self.length_mm / 1000.0 * stance.lean();
        let (foot, head) = (stance.foot_mm.abs() + from_lean, stance.head_mm.abs() + from_lean);
        let made = |z: f64| {
            foot + (head - foot) * z / self.length_mm
                + self.length_mm / 500.0 * (std::f64::consts::PI * z / self.length_mm).sin()
        };
        // Flexibility of a node: that of the tube, shared where the cell holds the joint.
        let flex = |z: f64| {
            let below = ((self.joint_mm - (z - step / 2.0)) / step).clamp(0.0, 1.0);
            below / (210_000.0 * outer.1) + (1.0 - below) / (210_000.0 * inner.1)
        };
        // Elimination: y of a node from the next one. A pivot that turns round means that the strut has buckled.
        let (mut gain, mut rest) = (vec![0.0], vec![0.0]);
        for node in 1..NODES {
            let z = step * node as f64;
            let soft = step * step * load_n * flex(z);
            let pivot = 2.0 - soft - gain[node - 1];
            if pivot <= 0.0 {
                return true;
            }
            gain.push(1.0 / pivot);
            rest.push((soft * made(z) + rest[node - 1]) / pivot);
        }
        let mut y = 0.0;
        let stress = |part: (f64, f64, f64), offset: f64| load_n / part.0 + load_n * offset.abs() * part.2 / part.1;
        let mut most = stress(outer, foot).max(stress(inner, head));
        for node in (1..NODES).rev() {
            y = rest[node] + gain[node] * y;
            let z = step * node as f64;
            let part = if z <= self.joint_mm { outer } else { inner };
            most = most.max(stress(part, y + made(z)));
        }
        // The last pivot belongs to the end, where nothing moves; a deflection inwards there is past buckling.
        most > 235.0 || y < 0.0
    }

    /// Load at first yield, N.
    pub fn first_yield_n(&self, stance: &Stance) -> f64 {
        let (mut low, mut high) = (0.0, 150_000.0);
        for _ in 0..50 {
            let middle = (low + high) / 2.0;
            if self.yields(middle, stance) {
                high = middle;
            } else {
                low = middle;
            }
        }
        low
    }
}

/// What goes wrong on a site.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wrong {
    Nothing,
    SoftFoot,
    Drift,
    Creeping,
    SlackCollar,
    Crack,
}

pub const PROPS: usize = 6;
/// Stiffness of a prop with its board, N per mm: what a prop loses of its load for each mm that its foot sinks. A prop of
/// this size shortens 0.4 mm under 15 kN, board and ground about 1 mm.
const STIFFNESS_N_MM: f64 = 10_000.0;
/// Damage of up to 1 mm is very slight (BRE Digest 251, category 1): a crack that grew by more is past its limit.
const CRACK_LIMIT_MM: f64 = 1.0;
/// A foot that has sunk as far as presumed ground is said to settle under its full pressure is past its limit.
const SINK_LIMIT_MM: f64 = 10.0;

/// One invented site.
pub struct Site {
    pub tubes: Tubes,
    pub load_n: f64,
    pub wrong: Wrong,
    /// The prop that it befalls, and the day from which on.
    pub at: usize,
    pub onset: f64,
    begun: [Stance; PROPS],
    bedding_mm: [f64; PROPS],
    creep_mm: [f64; PROPS],
    pace: f64,
    way: [f64; 2],
    breath: Vec<f64>,
}

impl Site {
    pub fn of(chance: &mut Chance, days: usize) -> Self {
        let length_mm = chance.between(2150.0, 3100.0);
        let tubes = Tubes {
            length_mm,
            joint_mm: 1.88e3,
        };
        let kinds = [
            Wrong::Nothing,
            Wrong::Nothing,
            Wrong::SoftFoot,
            Wrong::Drift,
            Wrong::Creeping,
            Wrong::SlackCollar,
            Wrong::Crack,
        ];
        let wrong = kinds[(chance.share() * kinds.len() as f64) as usize];
        // As proposed: good for 25 mm off centre at the head and 1.5 degrees.
        let design = Stance {
            head_mm: 25.0,
            foot_mm: 0.0,
            lean_mm_m: [1.5_f64.to_radians().tan() * 1e3, 0.0],
        };
        let load_n = chance.between(0.6, 0.98) * tubes.first_yield_n(&design) / 1.65;
        let begun = std::array::from_fn(|_| Stance {
            head_mm: chance.about(5.0).clamp(-14.0, 14.0),
            foot_mm: chance.about(3.0).clamp(-8.0, 8.0),
            lean_mm_m: [chance.about(4.0).clamp(-9.0, 9.0), chance.about(4.0).clamp(-9.0, 9.0)],
        });
        let turn = chance.between(0.0, 2.0 * std::f64::consts::PI);
        let mut breath = vec![0.0];
        for day in 0..days + 2 {
            breath.push(0.8 * breath[day] + chance.about(0.03));
        }
        Self {
            tubes,
            load_n,
            wrong,
            at: (chance.share() * PROPS as f64) as usize,
            onset: chance.between(3.0, 18.0),
            begun,
            bedding_mm: std::array::from_fn(|_| chance.between(0.5, 3.0)),
            creep_mm: std::array::from_fn(|_| chance.between(0.05, 0.3)),
            pace: chance.share(),
            way: [turn.cos(), turn.sin()],
            breath,
        }
    }

    fn since(&self, day: f64) -> f64 {
        (day - self.onset).max(0.0)
    }

    fn befalls(&self, wrong: Wrong, prop: usize) -> bool {
        self.wrong == wrong && self.at == prop
    }

    /// How far a prop's head has gone down since the load came on, mm: bedding-in with a time constant of six hours, creep of
    /// boards and ground with the logarithm of time, and what goes wrong.
    pub fn sunk_mm(&self, prop: usize, day: f64) -> f64 {
        let usual = self.bedding_mm[prop] * (1.0 - (-day / 0.25).exp()) + self.creep_mm[prop] * (1.0 + day).ln();
        let since = self.since(day);
        usual
            + if self.befalls(Wrong::SoftFoot, prop) {
                // Ground that softens: each day sinks more than the last.
                (0.3 + 0.5 * self.pace) * ((since / (1.8 + 2.0 * self.pace)).exp() - 1.0)
            } else if self.befalls(Wrong::SlackCollar, prop) {
                // A collar that shakes loose, from a fraction of a turn a day to more than half a turn.
                (0.8 + 3.0 * self.pace) * since
            } else {
                0.0
            }
    }

    /// How a prop stands.
    pub fn stance(&self, prop: usize, day: f64) -> Stance {
        let mut stance = self.begun[prop];
        let since = self.since(day);
        if self.befalls(Wrong::Drift, prop) {
            for (lean, way) in stance.lean_mm_m.iter_mut().zip(self.way) {
                *lean += (0.7 + 3.0 * self.pace) * since * way;
            }
        }
        if self.befalls(Wrong::Creeping, prop) {
            // The foot is pushed aside: it comes off centre and the prop leans by as much.
            let aside = (0.8 + 3.0 * self.pace) * since;
            stance.foot_mm += aside * stance.foot_mm.signum();
            stance.lean_mm_m[1] += aside / (self.tubes.length_mm / 1e3) * stance.lean_mm_m[1].signum();
        }
        stance
    }

    /// Width of the crack over what it was at the start, mm: it breathes with the weather, and may grow.
    pub fn crack_mm(&self, day: f64) -> f64 {
        let at = day.floor() as usize;
        let breath = self.breath[at] + (self.breath[at + 1] - self.breath[at]) * day.fract();
        let grown = if self.wrong == Wrong::Crack {
            (0.05 + 0.4 * self.pace) * self.since(day)
        } else {
            0.0
        };
        breath + grown
    }

    /// Whether the site is past a true limit: 1.65 × the load makes a strut yield, or it stands beyond what prop loads allow
    /// for; a neighbour's strut yields under what a sinking prop sheds; the foot has sunk, the crack has grown too far.
    /// `slack_mm`: what each prop has sunk since it was last tightened.
    pub fn past_limit(&self, day: f64, slack_mm: &[f64; PROPS]) -> bool {
        let shed = |prop: usize| (STIFFNESS_N_MM * slack_mm[prop].max(0.0)).min(self.load_n);
        let sunk = self.sunk_mm(self.at, day) - self.sunk_mm(self.at, self.onset);
        let moves =
            matches!(self.wrong, Wrong::SoftFoot | Wrong::SlackCollar) && day > self.onset && sunk > SINK_LIMIT_MM;
        let cracked = self.wrong == Wrong::Crack && self.crack_mm(day) >= CRACK_LIMIT_MM;
        moves
            || cracked
            || (0..PROPS).any(|prop| {
                let stance = self.stance(prop, day);
                // Inside and outside stand one after another: neighbours of the same side are two apart.
                let beside: f64 = [prop.checked_sub(2), Some(prop + 2).filter(|p| *p < PROPS)]
                    .into_iter()
                    .flatten()
                    .map(shed)
                    .sum();
                let sound = stance.lean() <= 25.0 && stance.head_mm.abs().max(stance.foot_mm.abs()) <= 25.0;
                !sound
                    || self.tubes.yields(1.65 * self.load_n, &stance)
                    || self.tubes.yields(self.load_n + 0.5 * beside, &stance)
            })
    }
}
