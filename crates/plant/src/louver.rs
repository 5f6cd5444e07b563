//! Air side of a coil of flat tubes with louvred fins between them, from its geometry.

use lowside_fluids::air;

use crate::rows::Rows;

/// Conductivity of fin stock, W/(m K) (aluminium 3003; handbooks give 160-190).
const FIN_CONDUCTIVITY: f64 = 180.0;
/// Prandtl number of air (about 0.71 from 0 to 60 degC).
const PRANDTL: f64 = 0.71;
/// Reynolds numbers the correlation was made for; outside it is used all the same, and says nothing.
pub const RANGE: (f64, f64) = (100.0, 3000.0);

/// Louvred fins between flat tubes. Lengths in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fins {
    /// Distance from fin to fin.
    pub pitch: f64,
    /// Fin length from tube to tube.
    pub height: f64,
    /// Depth of the core along the air: fin and tube alike.
    pub depth: f64,
    /// Thickness of the fin.
    pub thickness: f64,
    /// Distance from louvre to louvre along the air.
    pub louver_pitch: f64,
    /// Length of a louvre, across the fin.
    pub louver_length: f64,
    /// Angle of the louvres, degrees.
    pub louver_angle: f64,
    /// Distance from tube to tube.
    pub tube_pitch: f64,
}

impl Fins {
    /// Colburn factor j = St Pr^(2/3) at the Reynolds number of the louvre pitch and the free velocity (Chang & Wang, Int. J.
    /// Heat Mass Transfer 40 (1997) 533; 89 % of its 91 coils within 15 %).
    pub fn colburn(&self, re: f64) -> f64 {
        let by = |length: f64, power: f64| libm::pow(length / self.louver_pitch, power);
        libm::pow(re, -0.49)
            * libm::pow(self.louver_angle / 90.0, 0.27)
            * by(self.pitch, -0.14)
            * by(self.height, -0.29)
            * by(self.depth, -0.23)
            * by(self.louver_length, 0.68)
            * by(self.tube_pitch, -0.28)
            * by(self.thickness, -0.05)
    }

    /// Share of the face through which air passes between tubes and fins.
    pub fn free_share(&self) -> f64 {
        self.height / self.tube_pitch * (1.0 - self.thickness / self.pitch)
    }

    /// Area of fins and of bare tube for each metre of tube, m2/m.
    pub fn area_per_tube(&self) -> (f64, f64) {
        let fins = 2.0 * self.height * self.depth / self.pitch;
        (fins, 2.0 * self.depth * (1.0 - self.thickness / self.pitch))
    }

    /// Efficiency of a fin warmed from both ends at a film coefficient `h` (W/(m2 K)): tanh(m l)/(m l), l half its length,
    /// m = (2 h / (k thickness))^(1/2) (Harper & Brown 1922).
    pub fn efficiency(&self, h: f64) -> f64 {
        let ml = (2.0 * h / (FIN_CONDUCTIVITY * self.thickness)).sqrt() * 0.5 * self.height;
        if ml < 1e-6 { 1.0 } else { libm::tanh(ml) / ml }
    }

    /// Conductance of `metres` of tube with its fins to `flow` (kg/s) of air at about `t` (K), W/K.
    pub fn conductance(&self, metres: f64, flow: f64, t: f64) -> f64 {
        if flow <= 0.0 {
            return 0.0;
        }
        let flux = flow / (metres * self.tube_pitch * self.free_share());
        let re = flux * self.louver_pitch / air::viscosity(t);
        let h = self.colburn(re) * flux * air::CP / libm::cbrt(PRANDTL * PRANDTL);
        let (fins, bare) = self.area_per_tube();
        h * metres * (fins * self.efficiency(h) + bare)
    }
}

/// Conductance to the air over the air's flow, tabled over the square root of the flow.
#[derive(Debug, Clone)]
pub struct AirSide(Rows<1>);

/// Steps of an [`AirSide`].
const STEPS: usize = 96;
/// Greatest flow it knows, kg/s; beyond it the last value serves.
const TOP: f64 = 6.0;

impl AirSide {
    /// Tables [`Fins::conductance`] for `metres` of tube at about `t` (K).
    pub fn new(fins: &Fins, metres: f64, t: f64) -> Self {
        Self(Rows::new(0.0, TOP.sqrt(), STEPS, |root| {
            [fins.conductance(metres, root * root, t)]
        }))
    }

    /// Conductance at a flow (kg/s), W/K; within 1 % of the function above 0.01 kg/s.
    pub fn at(&self, flow: f64) -> f64 {
        self.0.at(flow.max(0.0).sqrt())[0]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_the_function() {
        let fins = Fins {
            pitch: 1.4e-3,
            height: 8e-3,
            depth: 20e-3,
            thickness: 0.1e-3,
            louver_pitch: 1e-3,
            louver_length: 6.8e-3,
            louver_angle: 27.0,
            tube_pitch: 10e-3,
        };
        let table = AirSide::new(&fins, 24.0, 310.0);
        for i in 1..600 {
            let flow = 0.01 * f64::from(i);
            let (got, asked) = (table.at(flow), fins.conductance(24.0, flow, 310.0));
            assert!(
                (got / asked - 1.0).abs() < 0.01,
                "{flow} kg/s: {got} for {asked}"
            );
        }
    }
}
