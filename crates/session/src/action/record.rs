//! Acts in the job record.

use lowside_fluids::Refrigerant;
use lowside_plant::plant::Plant;
use lowside_shop::{
    Shop,
    label::{Label, Particulars},
    oil::OilKind,
    record::{Checked, Performance},
};
use lowside_units::{GaugePressure, Mass, Quantity, Temperature, Volume, plain_text};
use serde::{Deserialize, Serialize};

use super::{Outcome, Refused};
use crate::limits::within;

/// An act in the job record.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum RecordAct {
    /// Write the readings into the job record.
    NoteReadings {
        /// True for those after the work, false for those before it.
        after: bool,
    },
    /// Begin the performance test: for eight minutes the readings are held against those of a healthy vehicle of the
    /// kind.
    PerformanceTest,
    /// Enter how the test under way came out: of each reading the mean, the least and the most that pass. Whoever watches the
    /// test enters it, so that a replay needs nobody to watch.
    PerformanceResult {
        /// Compound gauge, -0.2 to 10 MPag.
        low: [GaugePressure; 3],
        /// High-pressure gauge, -0.2 to 10 MPag.
        high: [GaugePressure; 3],
        /// Centre vent, 100 to 500 K.
        vent: [Temperature; 3],
    },
    /// Enter that the test under way was broken off: day or settings were changed.
    PerformanceBrokenOff,
    /// Stick a label under the hood.
    Label {
        /// The charge written on it, 50 g to 3 kg.
        charge: Mass,
        /// The refrigerant; left out, the vehicle's.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        gas: Option<Refrigerant>,
        /// The oil, if it is named.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        oil: Option<OilKind>,
        /// What else a conversion's label says.
        #[serde(default, skip_serializing_if = "Particulars::none")]
        particulars: Particulars,
    },
}

impl RecordAct {
    /// Does the act, or refuses and changes nothing.
    pub(super) fn apply(self, plant: &Plant, shop: &mut Shop) -> Result<Outcome, Refused> {
        match self {
            Self::NoteReadings { after } => {
                shop.noted[usize::from(after)] = Some(shop.readings(plant));
            }
            Self::PerformanceTest => return Ok(Outcome::TestBegins),
            Self::PerformanceResult { low, high, vent } => {
                let (least, most) = (GaugePressure::from_pa(-0.2e6), GaugePressure::from_pa(1e7));
                let (coldest, warmest) = (Temperature::from_k(100.0), Temperature::from_k(500.0));
                let day = plant.day();
                return Ok(Outcome::TestEnds(Some(Performance {
                    ambient: day.t,
                    humidity: day.humidity,
                    low: checked("low", low, "kPag", [least, most])?,
                    high: checked("high", high, "kPag", [least, most])?,
                    vent: checked("vent", vent, "degC", [coldest, warmest])?,
                })));
            }
            Self::PerformanceBrokenOff => return Ok(Outcome::TestEnds(None)),
            Self::Label {
                charge,
                gas,
                oil,
                particulars,
            } => {
                let (least, most) = (Mass::from_g(50.0), Mass::from_kg(3.0));
                plain_text("technician", &particulars.technician)?;
                plain_text("shop", &particulars.shop)?;
                plain_text("oil_maker", &particulars.oil_maker)?;
                if let Some(volume) = particulars.oil_volume {
                    let (none, bottle) = (Volume::from_l(0.0), Volume::from_l(1.0));
                    within("mL", "oil_volume", volume, none, bottle)?;
                }
                shop.label = Some(Label {
                    charge: within("g", "charge", charge, least, most)?.si(),
                    gas: gas.unwrap_or(plant.vehicle.refrigerant),
                    oil,
                    particulars,
                    at: shop.clock,
                });
            }
        }
        Ok(Outcome::Done)
    }
}

/// A reading of the performance test as it is kept, if its numbers lie within limits.
fn checked<Q: Quantity>(
    field: &str,
    values: [Q; 3],
    unit: &str,
    [lo, hi]: [Q; 2],
) -> Result<Checked, Refused> {
    for value in values {
        within(unit, field, value, lo, hi)?;
    }
    let [found, least, most] = values.map(Quantity::si);
    Ok(Checked { found, least, most })
}
