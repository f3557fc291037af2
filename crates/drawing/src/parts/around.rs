//! The parts as they are seen from the side and from above.

use crate::aspect::Aspect;
use crate::board::Board;
use crate::geometry::{Trace, Vec2};
use crate::palette::Ink;
use crate::parts::arms;
use crate::projection::Projection;
use linkage::Point3;
use truck::{Arm, SpringKind};

/// How far a torsion bar is followed behind its arm, mm.
const BAR_MM: f64 = 330.0;

impl Projection<'_> {
    /// Everything but the wheel, from behind to front.
    pub(crate) fn body(&self, board: &mut Board) {
        board.part();
        let fitted = self.fitted;
        let body = &fitted.measured.body;
        let (rail, fender) = (&body.rail, &body.fender);
        let (inner, top) = (rail.outer_y_mm - rail.width_mm, rail.bottom_z_mm + rail.height_mm);
        let corners = [
            (rail.front_x_mm, rail.outer_y_mm, rail.bottom_z_mm),
            (rail.rear_x_mm, rail.outer_y_mm, rail.bottom_z_mm),
            (rail.rear_x_mm, inner, top),
            (rail.front_x_mm, inner, top),
        ];
        board.rounded(Ink::Frame, &corners.map(|(x, y, z)| (self.at(&Point3::new(x, y, z)), 4.0)));
        let middle = fitted.measured.points.wheel_centre.x;
        let lip = [(-2.0, 170.0), (-1.0, 0.0), (1.0, 0.0), (2.0, 170.0)].map(|(along, down)| {
            let x = middle + along * fender.half_length_mm;
            (self.at(&Point3::new(x, fender.lip_y_mm, fender.lip_z_mm - down)), 90.0)
        });
        board.draw(Ink::Sheet, &Trace::bent(&lip));
        board.part();
        let [lower, upper] = &self.arms;
        let spring = &fitted.spring;
        if spring.kind == SpringKind::TorsionBar {
            let arm = if spring.arm == Arm::Lower { lower } else { upper };
            let thin = board.least(spring.bar.diameter_mm / 2.0, 2.0);
            // A strut rod's bushing is no bearing of the bar: it then runs straight back.
            let back = self.aspect.flat(&Point3::new(-1.0, 0.0, 0.0));
            let way = if self.rod.is_some() { back } else { arm[1] - arm[0] };
            let from = if spring.arm == Arm::Lower { self.own } else { arm[1] };
            board.taper(Ink::Rod, from, thin, from + way.unit() * BAR_MM, thin);
        }
        let rod = board.least(9.0, 2.0);
        if let Some([bushing, end]) = self.rod {
            board.taper(Ink::Rod, bushing, rod, end, rod);
        } else {
            board.taper(Ink::Steel, lower[0], 20.0, lower[2], 19.0);
        }
        board.taper(Ink::Steel, self.own, 25.0, lower[2], 21.0);
        let tie = [self.level(&self.pose.tie_inner), self.tie_end];
        board.taper(Ink::Rod, tie[0], rod, tie[1], rod);
        board.part();
        self.knuckle(board);
        board.part();
        board.taper(Ink::Rod, upper[0], rod, upper[1], rod);
        for pivot in &upper[..2] {
            board.taper(Ink::Steel, *pivot, 17.0, upper[2], 15.0);
        }
        if !board.ghost {
            self.joints(board, tie);
        }
    }

    fn knuckle(&self, board: &mut Board) {
        let [lower, upper, steering_arm] =
            [&self.pose.lower_ball, &self.pose.upper_ball, &self.pose.tie_outer]
                .map(|point| self.level(point));
        board.taper(Ink::Forging, lower.towards(upper, 0.3), 15.0, steering_arm, 11.0);
        board.taper(Ink::Forging, lower, 21.0, upper, 17.0);
        let wheel = self.level(&self.pose.wheel_centre);
        if !board.ghost {
            board.taper(Ink::Pin, lower.towards(upper, 0.45), 24.0, wheel, 18.0);
        }
    }

    /// Joints, pivots and the lines that things turn about.
    fn joints(&self, board: &mut Board, tie: [Vec2; 2]) {
        let [lower, upper] = &self.arms;
        for arm in [lower, upper] {
            let beyond = (arm[0] - arm[1]).unit() * 58.0;
            board.lines(Ink::Centre, &[arm[0] + beyond, arm[1] - beyond]);
        }
        let wheel = self.level(&self.pose.wheel_centre);
        if self.aspect == Aspect::Side {
            let foot = self.level(&self.pose.axis_at(self.attitude.contact.z));
            board.lines(Ink::Centre, &[foot, upper[2] + (upper[2] - foot).unit() * 90.0]);
            board.lines(Ink::Centre, &[Vec2(wheel.0, 0.0), wheel + Vec2(0.0, 60.0)]);
        } else {
            let radius = self.fitted.tire.free_radius_mm() + board.mm(9.0);
            let spin = self.aspect.in_body(1.0, 0.0).dot(&self.pose.spin);
            let ahead = Vec2(self.pose.spin.x, spin).unit() * radius;
            board.lines(Ink::Centre, &[wheel - ahead, wheel + ahead]);
            board.lines(Ink::Centre, &[Vec2(0.0, -2000.0), Vec2(0.0, 2000.0)]);
        }
        for arm in [lower, upper] {
            arms::pivot(board, arm[0], 19.0, None);
            arms::pivot(board, arm[1], 19.0, None);
        }
        let ends = [(lower[2], 18.5, 6.6), (upper[2], 18.5, 6.6), (tie[0], 11.5, 4.6), (tie[1], 11.5, 4.6)];
        for solid in [false, true] {
            for (at, mm, px) in ends {
                let housing = board.least(mm, px);
                arms::joint(board, at, housing, solid);
            }
        }
    }
}
