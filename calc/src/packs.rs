//! The steel packs between needles and masonry, and all that the masonry over a layout says of one.

use crate::checks::arch::{self, Wall};
use crate::checks::bearing::{self, PACKS_MM, Seat};
use crate::checks::{Sink, Worst, plate};
use crate::demand::NeedleLoad;
use crate::scene::Scene;
use crate::tables::Member;

/// Width and depth of a needle, mm: all that the masonry over it asks of a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outline {
    width_mm: f64,
    depth_mm: f64,
}

impl Outline {
    /// That of a section.
    #[must_use]
    pub fn of(member: &Member) -> Self {
        Self {
            width_mm: member.width_mm(),
            depth_mm: member.depth_mm(),
        }
    }
}

/// The steel packs to choose from on a layout under needles of one outline, each looked at only when it is asked for:
/// mostly the first does.
pub struct Packs<'a> {
    scene: &'a Scene<'a>,
    axes: &'a [f64],
    loads: &'a [NeedleLoad],
    outline: Outline,
    all: Vec<f64>,
    /// What the masonry says with each pack; none where it does not pass.
    known: Vec<Option<Worst>>,
}

impl<'a> Packs<'a> {
    /// None looked at yet.
    #[must_use]
    pub fn of(scene: &'a Scene<'a>, axes: &'a [f64], loads: &'a [NeedleLoad], outline: Outline) -> Self {
        let fixed = scene.job.fix.as_ref().and_then(|fix| fix.pack_mm);
        let all = fixed.map_or_else(|| PACKS_MM.to_vec(), |pack| vec![pack]);
        Self {
            scene,
            axes,
            loads,
            outline,
            known: Vec::with_capacity(all.len()),
            all,
        }
    }

    /// The layout and its loads.
    pub(crate) const fn layout(&self) -> (&'a [f64], &'a [NeedleLoad]) {
        (self.axes, self.loads)
    }

    /// Those of a layout for an outline: sections of the same outline share them.
    pub fn among<'l>(
        list: &'l mut Vec<Self>,
        scene: &'a Scene<'a>,
        (axes, loads): (&'a [f64], &'a [NeedleLoad]),
        outline: Outline,
    ) -> Option<&'l mut Self> {
        let at = list.iter().position(|packs| packs.outline == outline);
        let at = at.unwrap_or_else(|| {
            list.push(Self::of(scene, axes, loads, outline));
            list.len() - 1
        });
        list.get_mut(at)
    }

    /// The thinnest that fits and is used at most the limit, which is at most 1.0.
    pub(crate) fn within(&mut self, limit: f64) -> Option<(f64, Worst)> {
        for (k, pack) in self.all.iter().enumerate() {
            if k == self.known.len() {
                let worst = self.passes(*pack).then(|| self.worst(*pack));
                self.known.push(worst.filter(Worst::passes));
            }
            if let Some(Some(worst)) = self.known.get(k)
                && worst.utilisation <= limit
            {
                return Some((*pack, *worst));
            }
        }
        None
    }

    /// Whether a pack passes those checks of [`masonry`] that cost least and fail most.
    fn passes(&self, pack_mm: f64) -> bool {
        let (scene, mut worst) = (self.scene, Worst::default());
        let wall = wall_over(scene, self.outline, pack_mm);
        if scene.on_plate(wall.needle_top_m) {
            plate::room(wall.needle_top_m, scene.geometry.top_m, &mut worst);
        } else {
            arch::check_places(&wall, self.axes, &mut worst);
        }
        seats(&wall, self.axes, self.loads, pack_mm, &mut worst);
        worst.passes()
    }

    /// What the masonry says with a pack.
    fn worst(&self, pack_mm: f64) -> Worst {
        let mut worst = Worst::default();
        masonry(self.scene, self.axes, self.loads, self.outline, pack_mm, &mut worst);
        worst
    }

    /// The one with the least use.
    pub(crate) fn least(&self) -> Option<(f64, Worst)> {
        let all = self.all.iter().map(|pack| (*pack, self.worst(*pack)));
        all.min_by(|a, b| {
            (a.1.misfit, a.1.utilisation)
                .partial_cmp(&(b.1.misfit, b.1.utilisation))
                .unwrap_or(std::cmp::Ordering::Equal)
        })
    }
}

/// The wall over needles of an outline with a pack.
fn wall_over<'a>(scene: &'a Scene<'_>, outline: Outline, pack_mm: f64) -> Wall<'a> {
    Wall {
        geometry: scene.geometry,
        loads: &scene.loads,
        leaves: &scene.leaves,
        needle_top_m: scene.geometry.soffit_m + (outline.depth_mm + pack_mm) / 1000.0,
        needle_width_mm: outline.width_mm,
        beside_m: scene.beside_m,
        bearings: &scene.bearings,
    }
}

fn seats(wall: &Wall<'_>, axes: &[f64], loads: &[NeedleLoad], pack_mm: f64, sink: &mut impl Sink) {
    let seat = Seat {
        geometry: wall.geometry,
        leaves: wall.leaves,
        axes,
        width_mm: wall.needle_width_mm,
        pack_mm,
        top_m: wall.needle_top_m,
    };
    for (i, load) in loads.iter().enumerate() {
        bearing::check(&seat, i, load, sink);
    }
}

/// All checks of the masonry over a layout with a pack.
pub(crate) fn masonry(
    scene: &Scene<'_>,
    axes: &[f64],
    loads: &[NeedleLoad],
    outline: Outline,
    pack_mm: f64,
    sink: &mut impl Sink,
) {
    let wall = wall_over(scene, outline, pack_mm);
    let top = wall.needle_top_m;
    if scene.on_plate(top) {
        plate::room(top, scene.geometry.top_m, sink);
        // A needle under every truss that bears leaves the plate nothing to carry.
        if !scene.anchors.under_every_truss(axes, outline.width_mm) {
            plate::check(&wall, axes, scene.job.roof.plate_mm, scene.timber(), sink);
        }
        arch::check_holes(&wall, axes, sink);
    } else {
        arch::check(&wall, axes, sink);
    }
    seats(&wall, axes, loads, pack_mm, sink);
}
