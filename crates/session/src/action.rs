//! Everything a person can do to a bay. A log of these, with ticks, is the whole history.

use lowside_plant::plant::Plant;
use lowside_shop::{
    Shop,
    can::{self, Stance},
    vacuum::GaugePlace,
};
use lowside_units::{
    AbsolutePressure, Quantity, Ratio, RotationSpeed, Speed, Temperature, UnitError, VolumeFlow,
    in_range,
};
use serde::{Deserialize, Serialize};
use thiserror::Error;

mod vacuum;

/// An act. In text form `{"do":"engine","on":true}`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "do", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Action {
    /// Start or stop the engine.
    Engine {
        /// Run it?
        on: bool,
    },
    /// Set the engine speed.
    EngineSpeed {
        /// 500 to 5000 rpm.
        speed: RotationSpeed,
    },
    /// Press the A/C button.
    AirConditioning {
        /// On?
        on: bool,
    },
    /// Set the blower step.
    Blower {
        /// 0 (off) to the vehicle's highest.
        step: u8,
    },
    /// Move the recirculation door.
    Recirculation {
        /// Shut to the outside?
        on: bool,
    },
    /// Road speed (a fan before the grille stands for it).
    RoadSpeed {
        /// 0 to 144 km/h.
        speed: Speed,
    },
    /// Open or shut windows and doors.
    Windows {
        /// Open?
        on: bool,
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
    /// Put the low-side coupler on its port, or take it off.
    LowCoupler {
        /// On?
        on: bool,
    },
    /// Put the high-side coupler on its port, or take it off.
    HighCoupler {
        /// On?
        on: bool,
    },
    /// Turn the low hand valve.
    LowValve {
        /// 0 (shut) to 1 (open).
        open: Ratio,
    },
    /// Turn the high hand valve.
    HighValve {
        /// 0 (shut) to 1 (open).
        open: Ratio,
    },
    /// Crack the service hose at the manifold to purge it, or tighten it.
    Purge {
        /// Cracked?
        on: bool,
    },
    /// Screw a full can onto the service hose (a used one goes to the shelf).
    TakeCan,
    /// Take the can off the service hose.
    DropCan,
    /// Open or shut the can's tap.
    Tap {
        /// Open?
        on: bool,
    },
    /// Turn the can over or back.
    Invert {
        /// Valve down?
        on: bool,
    },
    /// Stand the can in a water bath.
    Bath {
        /// Temperature of the water, 0 to 100 degC; none takes it out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        temperature: Option<Temperature>,
    },
    /// Change the day's air pressure, as by another altitude.
    AirPressure {
        /// 60 to 110 kPa.
        pressure: AbsolutePressure,
    },
    /// Screw the vacuum pump onto the service hose (a can there goes to the shelf).
    TakePump {
        /// Free-air displacement, 1.5 to 8 cfm.
        speed: VolumeFlow,
    },
    /// Take the vacuum pump off the service hose.
    DropPump,
    /// Start or stop the vacuum pump.
    Pump {
        /// Let it turn?
        on: bool,
    },
    /// Open or shut the isolation valve at the pump.
    Isolation {
        /// Open?
        on: bool,
    },
    /// Open or shut the gas ballast of the pump.
    Ballast {
        /// Open?
        on: bool,
    },
    /// Change the pump's oil.
    PumpOil,
    /// Move the electronic vacuum gauge.
    VacuumGauge {
        /// To the pump's inlet, or to the loop.
        at: GaugePlace,
    },
}

/// Why an act was not taken. Nothing has changed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Refused {
    /// A number outside what can be set.
    #[error(transparent)]
    OutOfRange(#[from] UnitError),
    /// There is no can on the hose.
    #[error("there is no can on the service hose")]
    NoCan,
    /// The can is burst.
    #[error("the can has burst: take it off")]
    CanBurst,
    /// There is no pump on the hose.
    #[error("there is no vacuum pump on the service hose")]
    NoPump,
    /// The pump turns.
    #[error("the vacuum pump turns: stop it first")]
    PumpRuns,
}

fn opening(open: Ratio) -> Result<f64, UnitError> {
    Ok(in_range("open", open, Ratio::from_si(0.0), Ratio::from_si(1.0))?.si())
}

impl Action {
    /// Does the act, or refuses and changes nothing.
    ///
    /// # Errors
    /// [`Refused`], naming the field and its limits or what is missing.
    pub(crate) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        let settings = &mut plant.settings;
        match self {
            Self::Engine { on } => settings.engine_on = on,
            Self::EngineSpeed { speed } => {
                let (least, most) = (
                    RotationSpeed::from_rpm(499.9),
                    RotationSpeed::from_rpm(5000.1),
                );
                settings.engine_rpm = in_range("speed", speed, least, most)?.rpm();
            }
            Self::AirConditioning { on } => settings.ac_on = on,
            Self::Blower { step } => {
                let most = plant.cabin.blower_steps();
                if usize::from(step) > most {
                    return Err(UnitError::OutOfRange {
                        field: "step".into(),
                        value: step.to_string(),
                        lo: "0".into(),
                        hi: most.to_string(),
                    }
                    .into());
                }
                settings.blower = usize::from(step);
            }
            Self::Recirculation { on } => settings.recirculate = on,
            Self::RoadSpeed { speed } => {
                settings.road_speed =
                    in_range("speed", speed, Speed::from_m_s(0.0), Speed::from_m_s(40.0))?.si();
            }
            Self::Windows { on } => settings.windows_open = on,
            Self::Ambient { temperature } => {
                let mut day = plant.day();
                day.t = in_range(
                    "temperature",
                    temperature,
                    Temperature::from_k(263.15),
                    Temperature::from_k(323.15),
                )?
                .si();
                plant.set_day(day);
            }
            Self::Humidity { share } => {
                let mut day = plant.day();
                day.humidity =
                    in_range("share", share, Ratio::from_si(0.05), Ratio::from_si(1.0))?.si();
                plant.set_day(day);
            }
            Self::LowCoupler { on } => shop.hands.low_coupled = on,
            Self::HighCoupler { on } => shop.hands.high_coupled = on,
            Self::LowValve { open } => shop.hands.low_valve = opening(open)?,
            Self::HighValve { open } => shop.hands.high_valve = opening(open)?,
            Self::Purge { on } => shop.hands.purging = on,
            Self::TakeCan => shop.take_can(plant),
            Self::DropCan => {
                shop.hands.can.ok_or(Refused::NoCan)?;
                shop.drop_can(plant);
            }
            Self::Tap { on } => {
                let can = shop.hands.can.as_mut().ok_or(Refused::NoCan)?;
                if can.burst {
                    return Err(Refused::CanBurst);
                }
                can.open = on;
            }
            Self::Invert { on } => {
                shop.hands.can.as_mut().ok_or(Refused::NoCan)?.stance = if on {
                    Stance::Inverted
                } else {
                    Stance::Upright
                };
            }
            Self::Bath { temperature } => {
                let (least, most) = (Temperature::from_k(273.15), Temperature::from_k(373.15));
                let t = temperature
                    .map(|t| in_range("temperature", t, least, most))
                    .transpose()?;
                shop.hands.can.as_mut().ok_or(Refused::NoCan)?.bath = t.map(Temperature::k);
            }
            Self::AirPressure { pressure } => {
                let mut day = plant.day();
                let (thin, dense) = (
                    AbsolutePressure::from_kpa(60.0),
                    AbsolutePressure::from_kpa(110.0),
                );
                day.p = in_range("pressure", pressure, thin, dense)?.si();
                plant.set_day(day);
            }
            Self::TakePump { .. }
            | Self::DropPump
            | Self::Pump { .. }
            | Self::Isolation { .. }
            | Self::Ballast { .. }
            | Self::PumpOil
            | Self::VacuumGauge { .. } => self.apply_vacuum(plant, shop)?,
        }
        shop.set_laws(plant);
        Ok(())
    }

    /// The caution to show at the act, given how the bay stands before it.
    pub fn caution(self, plant: &Plant, shop: &Shop) -> Option<Caution> {
        let running = plant.settings.engine_on;
        match self {
            Self::HighValve { open } if open.si() > 0.0 && running => {
                Some(Caution::HighValveRunning)
            }
            Self::Engine { on: true } if shop.hands.high_valve > 0.0 => {
                Some(Caution::HighValveRunning)
            }
            Self::Bath {
                temperature: Some(t),
            } if t.k() > can::BATH_LIMIT => Some(Caution::BathTooHot),
            Self::Invert { on: true } if running => Some(Caution::LiquidToSuction),
            Self::Engine { on: true } => Some(Caution::BeltAndFan),
            Self::TakeCan | Self::Tap { on: true } => Some(Caution::EyesAndHands),
            Self::DropCan if shop.hands.can.is_some_and(|c| c.open) => Some(Caution::Venting),
            Self::LowValve { open } | Self::HighValve { open }
                if open.si() > 0.0 && shop.hands.can.is_none() && shop.hands.pump.is_none() =>
            {
                Some(Caution::OpenHose)
            }
            _ => self.caution_vacuum(plant, shop),
        }
    }
}

/// A caution of the trade, shown at the act. The words are the page's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Caution {
    /// High valve open with the engine running drives discharge gas into the can.
    HighValveRunning,
    /// Water hotter than 52 degC can burst a can.
    BathTooHot,
    /// Liquid into a running suction can break the compressor.
    LiquidToSuction,
    /// Rotating belt and fan.
    BeltAndFan,
    /// Frost burns: eye and hand protection.
    EyesAndHands,
    /// Refrigerant goes into the room: forbidden and harmful.
    Venting,
    /// The service hose is open to the room.
    OpenHose,
    /// Pressure at the pump's inlet blows its oil out and the refrigerant into the room: recover first.
    PressureToPump,
    /// A pump that stops with its valve open lets air back into what it has emptied.
    PumpStopsOpen,
    /// The oil of a pump that has run is hot, and used oil is waste.
    HotOil,
}
