//! Acts with instruments.

use lowside_plant::plant::Plant;
use lowside_shop::{
    Shop,
    detect::{self, Sensitivity, Spot},
    identifier::Port,
    meters::Point,
    vacuum::GaugePlace,
};
use lowside_units::{Length, Quantity, Speed};
use serde::{Deserialize, Serialize};

use super::Refused;
use crate::limits::within;

/// An act with an instrument.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum InstrumentAct {
    /// Take a sample at a service port into the refrigerant identifier.
    Identify {
        /// Which port; its coupler has to be on.
        port: Port,
    },
    /// Move the electronic vacuum gauge.
    VacuumGauge {
        /// To the pump's inlet, or to the loop.
        at: GaugePlace,
    },
    /// Search a place with the electronic detector.
    Sniff {
        /// The place.
        at: Spot,
        /// Its setting.
        sensitivity: Sensitivity,
        /// Distance of its tip, 0 to 100 mm.
        distance: Length,
        /// Draught in the bay, 0 to 10 m/s.
        wind: Speed,
    },
    /// Brush soap on a place.
    Soap {
        /// The place.
        at: Spot,
    },
    /// Press dye into the loop through the low-side port.
    Dye,
    /// Shine the lamp on a place.
    Lamp {
        /// The place.
        at: Spot,
    },
    /// Clamp the thermometer on a line or coil, or take it off.
    Clamp {
        /// The line or coil; left out takes it off.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        at: Option<Point>,
    },
    /// Connect the meter at the clutch's plug, or take it off.
    ClutchMeter {
        /// True to connect it.
        on: bool,
    },
    /// Start the stopwatch from zero, or stop it.
    Stopwatch {
        /// True to start it.
        on: bool,
    },
    /// Set the scale to zero with what stands on it.
    ZeroScale,
}

impl InstrumentAct {
    /// Does the act, or refuses and changes nothing.
    pub(super) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        match self {
            Self::Identify { port } => shop.identify(plant, port)?,
            Self::VacuumGauge { at } => shop.hands.vacuum_gauge = at,
            Self::Sniff {
                at,
                sensitivity,
                distance,
                wind,
            } => {
                let (touching, far) = (Length::from_mm(0.0), Length::from_mm(100.0));
                let distance = within("mm", "distance", distance, touching, far)?.si();
                let (still, storm) = (Speed::from_m_s(0.0), Speed::from_m_s(10.0));
                let wind = within("m/s", "wind", wind, still, storm)?.si();
                let finding = detect::sniff(plant, shop, at, sensitivity, distance, wind);
                shop.search[at.index()] = Some(finding);
            }
            Self::Soap { at } => {
                shop.search[at.index()] = Some(detect::soap(plant, shop, at));
            }
            Self::Dye => {
                if !shop.hands.low_coupled {
                    return Err(Refused::NotCoupled);
                }
                shop.dye = true;
            }
            Self::Lamp { at } => shop.search[at.index()] = Some(detect::lamp(plant, shop, at)),
            Self::Clamp { at } => shop.hands.clamp = at,
            Self::ClutchMeter { on } => shop.hands.clutch_meter = on,
            Self::Stopwatch { on } => {
                if on {
                    shop.instruments.stopwatch = 0.0;
                }
                shop.hands.timing = on;
            }
            Self::ZeroScale => shop.zero_scale(plant),
        }
        Ok(())
    }
}
