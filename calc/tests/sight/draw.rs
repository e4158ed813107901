//! Drawn numbers, the same at every run, and a camera of the tests' own.

/// A small generator (splitmix64): good enough to draw errors, and the same everywhere.
pub struct Draw(pub u64);

impl Draw {
    /// Evenly in a range.
    pub fn even(&mut self, from: f64, to: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        from + (to - from) * (z >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Normally with a standard deviation.
    pub fn normal(&mut self, sigma: f64) -> f64 {
        let (u, v) = (self.even(1e-12, 1.0), self.even(0.0, std::f64::consts::TAU));
        sigma * (-2.0 * u.ln()).sqrt() * v.cos()
    }
}

/// A pinhole camera with a lens that bends by the usual series, looking at a wall (mm, x right, y up).
pub struct Camera {
    pub width: f64,
    pub height: f64,
    pub focal: f64,
    /// Middle of what it looks at on the wall, mm.
    pub target: [f64; 2],
    /// Distance to that, mm.
    pub distance: f64,
    /// Turned up, aside, and about its own axis, radians.
    pub pitch: f64,
    pub pan: f64,
    pub roll: f64,
    /// Share by which a corner is moved outwards: below 0 a barrel.
    pub bend: f64,
}

impl Camera {
    /// Where a wall point is seen; none behind the camera or off the photo.
    pub fn see(&self, [x, y]: [f64; 2]) -> Option<[f64; 2]> {
        let [tx, ty] = self.target;
        let (dx, dy) = (x - tx, -(y - ty));
        // About the vertical, then about the level axis, then about the line of sight.
        let (sp, cp) = self.pan.sin_cos();
        let (x1, z1) = (dx * cp, dx * sp);
        let (st, ct) = self.pitch.sin_cos();
        let (y2, z2) = (dy * ct - z1 * st, dy * st + z1 * ct);
        let (sr, cr) = self.roll.sin_cos();
        let (x3, y3) = (x1 * cr - y2 * sr, x1 * sr + y2 * cr);
        let z = z2 + self.distance;
        if z < 100.0 {
            return None;
        }
        let (u, v) = (self.focal * x3 / z, self.focal * y3 / z);
        let half = self.width.hypot(self.height) / 2.0;
        let by = 1.0 + self.bend * (u * u + v * v) / (half * half);
        let out = [self.width / 2.0 + u * by, self.height / 2.0 + v * by];
        let on = out[0] > 0.0 && out[0] < self.width && out[1] > 0.0 && out[1] < self.height;
        on.then_some(out)
    }
}
