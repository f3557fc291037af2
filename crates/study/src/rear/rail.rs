//! What a notch leaves of a frame rail.

use truck::{RearAxle, RearField};

/// A rail that is an open channel, its web upright. Millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Channel {
    /// Height.
    pub depth_mm: f64,
    /// Width of its flanges, the web's thickness with it.
    pub flange_mm: f64,
    /// Thickness.
    pub wall_mm: f64,
}

impl Channel {
    /// As measured; `None` where a number is not stated, or they are no channel.
    #[must_use]
    pub fn measured(rear: &RearAxle) -> Option<Self> {
        let depth_mm = rear.get(RearField::RailDepth)?;
        let flange_mm = rear.get(RearField::RailFlange)?;
        let wall_mm = rear.get(RearField::RailWall)?;
        let is_channel = depth_mm > 2.0 * wall_mm && flange_mm > wall_mm;
        is_channel.then_some(Self { depth_mm, flange_mm, wall_mm })
    }

    /// Section modulus of the whole channel bent in its web's plane, mm³: the second moment of the
    /// area over the farthest edge.
    #[must_use]
    pub fn modulus_mm3(&self) -> f64 {
        let Self { depth_mm, flange_mm, wall_mm } = *self;
        let cube = |mm: f64| mm * mm * mm;
        let moment = flange_mm * cube(depth_mm) - (flange_mm - wall_mm) * cube(depth_mm - 2.0 * wall_mm);
        moment / 12.0 / (depth_mm / 2.0)
    }

    /// What is left where the lower flange and so much of the web are cut away, of the whole.
    #[must_use]
    pub fn bare(&self, cut_mm: f64) -> f64 {
        let Self { depth_mm, flange_mm, wall_mm } = *self;
        let web_mm = depth_mm - cut_mm;
        if web_mm <= wall_mm {
            return 0.0;
        }
        if cut_mm <= 0.0 {
            return 1.0;
        }
        // The web, and the upper flange beside it, each about their common neutral axis; from the top.
        let (web_mm2, flange_mm2) = (web_mm * wall_mm, (flange_mm - wall_mm) * wall_mm);
        let neutral_mm = (web_mm2 * web_mm / 2.0 + flange_mm2 * wall_mm / 2.0) / (web_mm2 + flange_mm2);
        let square = |mm: f64| mm * mm;
        let of_web = web_mm2 * web_mm * web_mm / 12.0 + web_mm2 * square(neutral_mm - web_mm / 2.0);
        let of_flange =
            flange_mm2 * wall_mm * wall_mm / 12.0 + flange_mm2 * square(neutral_mm - wall_mm / 2.0);
        (of_web + of_flange) / neutral_mm.max(web_mm - neutral_mm) / self.modulus_mm3()
    }

    /// What is left with a plate as thick and as wide as the flange welded along the cut.
    #[must_use]
    pub fn plated(&self, cut_mm: f64) -> f64 {
        let cut = Self { depth_mm: self.depth_mm - cut_mm, ..*self };
        if cut.depth_mm <= 2.0 * cut.wall_mm { 0.0 } else { cut.modulus_mm3() / self.modulus_mm3() }
    }

    /// What is left with that plate and the open side closed by another web.
    #[must_use]
    pub fn boxed(&self, cut_mm: f64) -> f64 {
        let Self { flange_mm, wall_mm, .. } = *self;
        let depth_mm = self.depth_mm - cut_mm;
        if depth_mm <= 2.0 * wall_mm || flange_mm <= 2.0 * wall_mm {
            return 0.0;
        }
        let cube = |mm: f64| mm * mm * mm;
        let moment =
            flange_mm * cube(depth_mm) - (flange_mm - 2.0 * wall_mm) * cube(depth_mm - 2.0 * wall_mm);
        moment / 12.0 / (depth_mm / 2.0) / self.modulus_mm3()
    }
}
