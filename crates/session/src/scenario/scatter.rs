//! How a sound vehicle differs from its kind, and how far the shop's instruments are from the truth: what nobody would mend.
//!
//! A drill draws both, so that no reading is as in a book. A scenario that says nothing has neither.

use lowside_plant::{charge::Start, vehicle::Vehicle};
use lowside_shop::meters::Errors;
use lowside_units::{GaugePressure, MassFlow, Quantity, Ratio, TemperatureDifference, UnitError};
use serde::{Deserialize, Serialize};

use crate::limits::within;

/// What a vehicle has of something that its kind has: 100 % is the same.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ScatterSpec {
    /// The mass it was charged with.
    pub charge: Ratio,
    /// Bore of the orifice tube.
    pub orifice: Ratio,
    /// What the compressor displaces.
    pub compressor: Ratio,
    /// Air through the condenser.
    pub condenser_air: Ratio,
    /// Air that the blower moves.
    pub blower: Ratio,
    /// Pressures, gauge, at which the cycling switch opens and closes.
    pub switch: Ratio,
    /// Heat that gets into the cabin.
    pub cabin: Ratio,
}

/// One thing in which sound vehicles of a kind differ.
#[derive(Debug)]
pub struct Spread {
    /// Its key.
    pub key: &'static str,
    /// Standard deviation between sound vehicles, a share.
    pub sd: f64,
    /// Sets it.
    pub set: fn(&mut ScatterSpec, Ratio),
}

const fn spread(key: &'static str, sd: f64, set: fn(&mut ScatterSpec, Ratio)) -> Spread {
    Spread { key, sd, set }
}

/// In what sound vehicles of a kind differ, and by how much. The charge after what a charging machine has to keep, 15 g (SAE J2788, from
/// memory); the others are own figures, within what workshop manuals allow a sound part: bores to 0.02 mm, switches to a pound.
pub const SPREADS: [Spread; 7] = [
    spread("charge", 0.012, |s, x| s.charge = x),
    spread("orifice", 0.006, |s, x| s.orifice = x),
    spread("compressor", 0.02, |s, x| s.compressor = x),
    spread("condenser_air", 0.05, |s, x| s.condenser_air = x),
    spread("blower", 0.04, |s, x| s.blower = x),
    spread("switch", 0.025, |s, x| s.switch = x),
    spread("cabin", 0.08, |s, x| s.cabin = x),
];

impl Default for ScatterSpec {
    fn default() -> Self {
        let same = Ratio::from_si(1.0);
        Self {
            charge: same,
            orifice: same,
            compressor: same,
            condenser_air: same,
            blower: same,
            switch: same,
            cabin: same,
        }
    }
}

impl ScatterSpec {
    /// Is nothing other than in its kind?
    pub fn is_none(&self) -> bool {
        *self == Self::default()
    }

    pub(super) fn check(&self) -> Result<(), UnitError> {
        let (least, most) = (Ratio::from_percent(70.0), Ratio::from_percent(130.0));
        let fields = [
            ("scatter.charge", self.charge),
            ("scatter.orifice", self.orifice),
            ("scatter.compressor", self.compressor),
            ("scatter.condenser_air", self.condenser_air),
            ("scatter.blower", self.blower),
            ("scatter.switch", self.switch),
            ("scatter.cabin", self.cabin),
        ];
        fields
            .into_iter()
            .try_for_each(|(field, x)| within("%", field, x, least, most).map(|_| ()))
    }

    /// Returns this vehicle of its kind.
    pub(super) fn of(&self, kind: &Vehicle) -> Vehicle {
        let mut v = kind.clone();
        let flow = |flow: &mut MassFlow, x: Ratio| *flow = MassFlow::from_si(flow.si() * x.si());
        v.orifice.bore = Quantity::from_si(v.orifice.bore.si() * self.orifice.si());
        v.compressor.displacement =
            Quantity::from_si(v.compressor.displacement.si() * self.compressor.si());
        for air in [
            &mut v.fan.idle_flow,
            &mut v.fan.top_flow,
            &mut v.fan.cool_flow,
            &mut v.fan.ram_flow,
        ] {
            flow(air, self.condenser_air);
        }
        for step in &mut v.cabin.blower {
            flow(step, self.blower);
        }
        for point in [&mut v.switches.low_opens, &mut v.switches.low_closes] {
            *point = GaugePressure::from_si(point.si() * self.switch.si());
        }
        let cabin = &mut v.cabin.body_conductance;
        *cabin = Quantity::from_si(cabin.si() * self.cabin.si());
        v
    }

    pub(super) fn fill(&self, start: &mut Start) {
        start.charge *= self.charge.si();
    }
}

/// What an instrument shows too much, though nothing is wrong with it.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct InstrumentSpec {
    /// The compound gauge.
    pub low_gauge: GaugePressure,
    /// The high-pressure gauge.
    pub high_gauge: GaugePressure,
    /// The thermometer in the centre vent.
    pub vent: TemperatureDifference,
    /// The thermometer in the cabin.
    pub cabin: TemperatureDifference,
    /// The clamp thermometer.
    pub clamp: TemperatureDifference,
}

impl InstrumentSpec {
    /// Is every instrument right?
    pub fn is_none(&self) -> bool {
        *self == Self::default()
    }

    pub(super) fn check(&self) -> Result<(), UnitError> {
        let kpa = GaugePressure::from_kpa;
        let fields = [
            ("instruments.low_gauge", self.low_gauge, 35.0),
            ("instruments.high_gauge", self.high_gauge, 140.0),
        ];
        for (field, x, most) in fields {
            within("kPag", field, x, kpa(-most), kpa(most))?;
        }
        let k = TemperatureDifference::from_k;
        let fields = [
            ("instruments.vent", self.vent),
            ("instruments.cabin", self.cabin),
            ("instruments.clamp", self.clamp),
        ];
        for (field, x) in fields {
            within("K", field, x, k(-4.0), k(4.0))?;
        }
        Ok(())
    }

    pub(crate) fn errors(&self) -> Errors {
        Errors {
            gauges: [self.low_gauge.si(), self.high_gauge.si()],
            vent: self.vent.si(),
            cabin: self.cabin.si(),
            clamp: self.clamp.si(),
        }
    }
}
