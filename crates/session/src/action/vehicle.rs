//! Acts at the vehicle's controls, and on the day.

use lowside_plant::plant::Plant;
use lowside_shop::{
    Shop,
    fault::{self, Cure, Device},
};
use lowside_units::{
    AbsolutePressure, Quantity, Ratio, RotationSpeed, Speed, Temperature, count_in_range,
};
use serde::{Deserialize, Serialize};

use super::{Refused, fixing::can_start};
use crate::limits::within;

/// An act at the vehicle's controls, or on the day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum VehicleAct {
    /// Start or stop the engine.
    Engine {
        /// True to start it.
        on: bool,
    },
    /// Set the engine speed.
    EngineSpeed {
        /// 500 to 5000 rpm.
        speed: RotationSpeed,
    },
    /// Press the A/C button.
    AirConditioning {
        /// True to switch it on.
        on: bool,
    },
    /// Set the blower step.
    Blower {
        /// 0 (off) to the vehicle's highest.
        step: u8,
    },
    /// Move the recirculation door.
    Recirculation {
        /// True to shut it to the outside.
        on: bool,
    },
    /// Set the road speed (a fan before the grille stands for it).
    RoadSpeed {
        /// 0 to 144 km/h.
        speed: Speed,
    },
    /// Open or shut windows and doors.
    Windows {
        /// True to open them.
        on: bool,
    },
    /// Pinch a heater hose off, or let it go.
    HeaterHose {
        /// True to pinch it off.
        pinched: bool,
    },
    /// Stand cardboard over half the condenser's face, or take it away.
    CoverCondenser {
        /// True to stand it there.
        on: bool,
    },
    /// Spray water on the condenser's face.
    MistCondenser,
    /// Lay a hot wet cloth round the orifice tube.
    WarmOrifice,
    /// Put a device outside the loop right: set the blend door, clean the radiator, renew the cycling switch.
    Mend {
        /// Which.
        device: Device,
    },
    /// Change the day's temperature.
    Ambient {
        /// -10 to 50 degC.
        temperature: Temperature,
    },
    /// Change the day's relative humidity.
    Humidity {
        /// 5 to 100 %.
        share: Ratio,
    },
    /// Change the day's air pressure, as by another altitude.
    AirPressure {
        /// 60 to 110 kPa.
        pressure: AbsolutePressure,
    },
}

impl VehicleAct {
    /// Does the act, or refuses and changes nothing.
    pub(super) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        let settings = &mut plant.settings;
        match self {
            Self::Engine { on } => {
                if on {
                    can_start(plant)?;
                }
                plant.settings.engine_on = on;
            }
            Self::EngineSpeed { speed } => {
                // a little wider than what is said, so that a whole number of rpm is never refused for its last bit
                let (least, most) = (
                    RotationSpeed::from_rpm(499.9),
                    RotationSpeed::from_rpm(5000.1),
                );
                settings.engine_rpm = within("rpm", "speed", speed, least, most)?.rpm();
            }
            Self::AirConditioning { on } => settings.ac_on = on,
            Self::Blower { step } => {
                let most = plant.cabin.blower_steps();
                count_in_range("step", step.into(), 0, most)?;
                settings.blower = usize::from(step);
            }
            Self::Recirculation { on } => settings.recirculate = on,
            Self::RoadSpeed { speed } => {
                let (rest, fastest) = (Speed::from_m_s(0.0), Speed::from_m_s(40.0));
                settings.road_speed = within("km/h", "speed", speed, rest, fastest)?.si();
            }
            Self::Windows { on } => settings.windows_open = on,
            Self::HeaterHose { pinched } => settings.heater_pinched = pinched,
            Self::CoverCondenser { on } => settings.face_covered = on,
            Self::MistCondenser => plant.provoked.mist(),
            Self::WarmOrifice => plant.provoked.wrap(),
            Self::Mend { device } => fault::cure(plant, shop, Cure::Mend(device)),
            Self::Ambient { temperature } => {
                let mut day = plant.day();
                let (least, most) = (Temperature::from_k(263.15), Temperature::from_k(323.15));
                day.t = within("degC", "temperature", temperature, least, most)?.si();
                plant.set_day(day);
            }
            Self::Humidity { share } => {
                let mut day = plant.day();
                let (least, most) = (Ratio::from_si(0.05), Ratio::from_si(1.0));
                day.humidity = within("%", "share", share, least, most)?.si();
                plant.set_day(day);
            }
            Self::AirPressure { pressure } => {
                let mut day = plant.day();
                let (thin, dense) = (
                    AbsolutePressure::from_kpa(60.0),
                    AbsolutePressure::from_kpa(110.0),
                );
                day.p = within("kPa", "pressure", pressure, thin, dense)?.si();
                plant.set_day(day);
            }
        }
        Ok(())
    }
}
