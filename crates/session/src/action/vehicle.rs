//! Acts on the vehicle and the day.

use lowside_plant::plant::Plant;
use lowside_units::{
    AbsolutePressure, Quantity, Ratio, RotationSpeed, Speed, Temperature, count_in_range,
};

use super::{Action, Refused};
use crate::limits::within;

/// Does an act of the driver, or refuses and changes nothing.
pub(super) fn apply(act: Action, plant: &mut Plant) -> Result<(), Refused> {
    let settings = &mut plant.settings;
    match act {
        Action::Engine { on } => settings.engine_on = on,
        Action::EngineSpeed { speed } => {
            // a little wider than what is said, so that a whole number of rpm is never refused for its last bit
            let (least, most) = (
                RotationSpeed::from_rpm(499.9),
                RotationSpeed::from_rpm(5000.1),
            );
            settings.engine_rpm = within("rpm", "speed", speed, least, most)?.rpm();
        }
        Action::AirConditioning { on } => settings.ac_on = on,
        Action::Blower { step } => {
            let most = plant.cabin.blower_steps();
            count_in_range("step", step.into(), 0, most)?;
            settings.blower = usize::from(step);
        }
        Action::Recirculation { on } => settings.recirculate = on,
        Action::RoadSpeed { speed } => {
            let (rest, fastest) = (Speed::from_m_s(0.0), Speed::from_m_s(40.0));
            settings.road_speed = within("km/h", "speed", speed, rest, fastest)?.si();
        }
        Action::Windows { on } => settings.windows_open = on,
        Action::HeaterHose { pinched } => settings.heater_pinched = pinched,
        Action::Ambient { temperature } => {
            let mut day = plant.day();
            let (least, most) = (Temperature::from_k(263.15), Temperature::from_k(323.15));
            day.t = within("degC", "temperature", temperature, least, most)?.si();
            plant.set_day(day);
        }
        Action::Humidity { share } => {
            let mut day = plant.day();
            let (least, most) = (Ratio::from_si(0.05), Ratio::from_si(1.0));
            day.humidity = within("%", "share", share, least, most)?.si();
            plant.set_day(day);
        }
        Action::AirPressure { pressure } => {
            let mut day = plant.day();
            let (thin, dense) = (
                AbsolutePressure::from_kpa(60.0),
                AbsolutePressure::from_kpa(110.0),
            );
            day.p = within("kPa", "pressure", pressure, thin, dense)?.si();
            plant.set_day(day);
        }
        _ => {}
    }
    Ok(())
}
