//! Switches, relay and clutch, engine speed and the driver's hands.

use crate::{
    condition::Condition,
    lag,
    loose::{Lead, Loose, Plug},
    vehicle::SwitchSpec,
};
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

/// What the driver and technician have set on the vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of its own")]
pub struct Settings {
    /// Engine runs.
    pub engine_on: bool,
    /// Engine speed when it runs, 1/min.
    pub engine_rpm: f64,
    /// A/C button.
    pub ac_on: bool,
    /// Blower step, 0 = off.
    pub blower: usize,
    /// Recirculation door closed to the outside.
    pub recirculate: bool,
    /// Road speed, m/s.
    pub road_speed: f64,
    /// Windows and doors stand open.
    pub windows_open: bool,
    /// A heater hose is pinched off.
    pub heater_pinched: bool,
    /// Cardboard stands over half the condenser's face.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub face_covered: bool,
    /// What is off the compressor's drive and its wiring.
    #[serde(default)]
    pub loose: Loose,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            engine_on: false,
            engine_rpm: 800.0,
            ac_on: false,
            blower: 0,
            recirculate: true,
            road_speed: 0.0,
            windows_open: false,
            heater_pinched: false,
            face_covered: false,
            loose: Loose::default(),
        }
    }
}

/// How much cooler the coolant has to be before the engine's control lets the clutch in again, K (own figure).
const COOLER: f64 = 8.0;

/// A pressure switch with two set points, Pa gauge.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Switch {
    low: f64,
    high: f64,
    /// Conducts.
    pub closed: bool,
}

impl Switch {
    /// Low-side cycling switch: opens at or below its lower point, closes at or above its upper.
    fn on_low(&mut self, p: f64, [low, high]: [f64; 2]) {
        if p <= low {
            self.closed = false;
        } else if p >= high {
            self.closed = true;
        }
    }

    /// High-pressure cut-out: opens at or above its upper point, closes at or below its lower.
    fn on_high(&mut self, p: f64, [low, high]: [f64; 2]) {
        if p >= high {
            self.closed = false;
        } else if p <= low {
            self.closed = true;
        }
    }
}

/// What the electric side feels.
#[derive(Debug, Clone, Copy)]
pub struct DriveInputs {
    /// True gauge pressure at the accumulator, Pa.
    pub low: f64,
    /// True gauge pressure in the discharge line, Pa.
    pub high: f64,
    /// Coolant, K.
    pub coolant: f64,
}

/// How many times further than it goes a felt pressure may go before a switch is looked at in short steps (own figure).
const NEAR: f64 = 3.0;

/// What no pressure and no temperature reaches; a number all the same, so that the state can be kept.
const NEVER: f64 = f64::MAX;

/// Electric side of the compressor drive.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Drive {
    /// Low-side cycling switch.
    pub cycling: Switch,
    /// High-pressure cut-out; one that opens at no pressure where there is none, so that nothing but the relief valve stands
    /// between a blocked condenser and the room.
    pub cut_out: Switch,
    /// Clutch engaged.
    pub engaged: bool,
    /// Current stands at the clutch's plug, which is pulled.
    #[serde(default)]
    pub at_plug: bool,
    /// Times the clutch has pulled in.
    pub cycles: u32,
    /// The engine is too hot for its control to allow the compressor.
    pub held_back: bool,
    /// Pressures as the lagging switches feel them, Pa gauge: low, high.
    felt: [f64; 2],
    /// True ones at the last step, Pa gauge.
    pressures: [f64; 2],
    lag: f64,
    /// Coolant at which the engine's control lets go, K; at none where there is no such control.
    too_hot: f64,
}

impl Drive {
    /// A drive at rest in a loop at gauge pressure `p` (Pa).
    pub fn new(spec: &SwitchSpec, p: f64) -> Self {
        let mut drive = Self {
            cycling: Switch {
                low: spec.low_opens.si(),
                high: spec.low_closes.si(),
                closed: false,
            },
            cut_out: Switch {
                low: spec.high_closes.map_or(0.0, Quantity::si),
                high: spec.high_opens.map_or(NEVER, Quantity::si),
                closed: true,
            },
            engaged: false,
            at_plug: false,
            cycles: 0,
            held_back: false,
            felt: [p; 2],
            pressures: [p; 2],
            lag: spec.lag.si(),
            too_hot: spec.coolant_opens.map_or(NEVER, Quantity::si),
        };
        drive.cycling.on_low(p, drive.cycling_points());
        drive
    }

    /// Fits a high-pressure cut-out that opens and closes at these, Pa gauge.
    pub fn fit_cut_out(&mut self, opens: f64, closes: f64) {
        self.cut_out = Switch {
            low: closes,
            high: opens,
            closed: self.felt[1] < opens,
        };
    }

    /// Pressure at which the high-pressure cut-out opens, Pa gauge; none where there is no such switch.
    pub fn cut_out_opens(&self) -> Option<f64> {
        Some(self.cut_out.high).filter(|p| *p < NEVER)
    }

    /// Turns the cycling switch's screw: both its points move by `by`, Pa.
    pub fn reset_cycling(&mut self, by: f64) {
        self.cycling.low += by;
        self.cycling.high += by;
    }

    /// Pressures at which the cycling switch opens and closes, Pa gauge.
    pub fn cycling_points(&self) -> [f64; 2] {
        [self.cycling.low, self.cycling.high]
    }

    /// Pressures as the lagging switches feel them, Pa gauge: low, high.
    pub fn felt(&self) -> [f64; 2] {
        self.felt
    }

    /// Where each switch acts in its condition, Pa gauge: cycling switch, cut-out; lower point, upper point.
    fn acts_at(&self, condition: &Condition) -> [[f64; 2]; 2] {
        let (cycling, cut_out) = (&self.cycling, &self.cut_out);
        let share = condition.cut_out_opens;
        [
            [
                (cycling.low * condition.cycling_switch_opens).min(cycling.high),
                cycling.high,
            ],
            [cut_out.low * share, cut_out.high * share],
        ]
    }

    /// No switch can act within `dt` seconds, going by what they feel and how fast that changes.
    pub fn rests(&self, condition: &Condition, dt: f64) -> bool {
        let clear = |(k, points): (usize, [f64; 2])| {
            let (felt, p) = (self.felt[k], self.pressures[k]);
            let goes = NEAR * (p - felt).abs() / self.lag.max(dt) * dt;
            points.iter().all(|point| (felt - point).abs() > goes)
        };
        self.acts_at(condition).into_iter().enumerate().all(clear)
    }

    /// Current reaches the clutch's plug.
    fn feeds(&self, settings: &Settings, condition: &Condition) -> bool {
        let loose = &settings.loose;
        let called = settings.engine_on && settings.ac_on && !self.held_back;
        called
            && !condition.clutch_circuit_open
            && !loose.battery
            && loose.plug(Lead::LowSwitch).passes(self.cycling.closed)
            && loose.plug(Lead::CutOut).passes(self.cut_out.closed)
    }

    /// Advances by `dt` seconds with what is felt, its switches and leads in their condition.
    pub fn advance(
        &mut self,
        settings: &Settings,
        condition: &Condition,
        felt: &DriveInputs,
        dt: f64,
    ) {
        let DriveInputs { low, high, coolant } = *felt;
        for (k, now) in [low, high].into_iter().enumerate() {
            self.felt[k] = lag::follow(self.felt[k], self.pressures[k], now, self.lag, dt);
            self.pressures[k] = now;
        }
        let [low, high] = self.acts_at(condition);
        self.cycling.on_low(self.felt[0], low);
        self.cycling.closed |= condition.cycling_switch_stuck;
        self.cut_out.on_high(self.felt[1], high);
        self.cut_out.closed |= condition.cut_out_welded;
        let eased = if self.held_back { COOLER } else { 0.0 };
        self.held_back = coolant > self.too_hot - eased;
        let plugged = settings.loose.plug(Lead::Clutch) == Plug::On;
        let fed = self.feeds(settings, condition);
        self.at_plug = fed && !plugged;
        let engage = fed && plugged;
        if engage && !self.engaged {
            self.cycles += 1;
        }
        self.engaged = engage;
    }
}
