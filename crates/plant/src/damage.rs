//! What hard use does to the compressor: slugging, running dry of oil, heat, pressure, grit. It adds up and does not heal.
//!
//! Rates are our own figures, chosen so that what a shop would call minutes of abuse shows and what it would call normal never
//! does; no published measurement is behind them.

use serde::{Deserialize, Serialize};

use crate::{network::Node, species::OIL};

/// Volume share of liquid in the suction flow from which a piston meets it solid: the clearance volume, 3 %.
const SLUG_FROM: f64 = 0.03;
/// Volume share at which that is at its worst.
const SLUG_FULL: f64 = 0.13;
/// Wear a second of the worst slugging adds: a minute to ruin.
const SLUG_RATE: f64 = 1.0 / 60.0;
/// Mass share of liquid above which the oil on bearings and rings is thinned and washed off.
const WASH_FROM: f64 = 0.12;
/// Wear a second of pure liquid adds by washing: three hours to ruin.
const WASH_RATE: f64 = 1.0 / 10_800.0;
/// Oil in suction line and crankcase below which bearings and rings run dry, kg (about half a fluid ounce).
const OIL_LEAST: f64 = 0.015;
/// Wear a second without any oil adds: about ten minutes to ruin.
const DRY_RATE: f64 = 1.0 / 600.0;
/// Wear a second adds while oil is short but not gone, so that rings and bearings touch now and then, for the whole of the shortage: ten
/// hours to ruin (own figure, plausible 2-50 hours: a compressor short of oil fails within days of driving, common practice).
const RUB_RATE: f64 = 1.0 / 36_000.0;
/// Discharge temperature from which oil and seals suffer, K (common practice: 120-130 degC).
const HOT_FROM: f64 = 403.15;
/// Discharge temperature at which its pistons grow fast in their bores, K: 250 degC, where oil has burnt and seals of PTFE are near their
/// end (own figure, plausible 220-280 degC).
const SEIZES: f64 = 523.15;
/// Wear a second adds for each kelvin above that: at 150 degC about half an hour to ruin.
const HOT_RATE: f64 = 1.0 / (1800.0 * 20.0);
/// Discharge pressure from which valves and gaskets suffer, Pa (above any cut-out's setting).
const PRESSURE_FROM: f64 = 3.2e6;
/// Wear a second adds for each pascal above that: at 4 MPa about five minutes to ruin.
const PRESSURE_RATE: f64 = 1.0 / (300.0 * 0.8e6);
/// Wear a kilogram of bead dust adds on its way through bearings and rings: 10 g to ruin (own figure, plausible 1-100 g).
const GRIT_RATE: f64 = 1.0 / 10e-3;

/// Wear that use has added to a compressor, by cause; each 0 to 1, where 1 is ruin.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct Damage {
    /// Liquid between piston and valve plate.
    pub slugging: f64,
    /// Oil washed off by wet suction.
    pub washing: f64,
    /// Run short of oil or without.
    pub dryness: f64,
    /// Run too hot.
    pub heat: f64,
    /// Run against too much pressure.
    pub pressure: f64,
    /// Ground by the dust of desiccant beads.
    pub grit: f64,
    /// Its pistons are stuck in their bores: it turns no more.
    pub seized: bool,
}

impl Damage {
    /// All of it, 0 to 1.
    pub fn wear(&self) -> f64 {
        (self.slugging + self.washing + self.dryness + self.heat + self.pressure + self.grit)
            .min(1.0)
    }

    /// Adds what so much dust of beads (kg), drawn through, grinds off.
    pub fn grind(&mut self, dust: f64) {
        self.grit = (self.grit + dust * GRIT_RATE).min(1.0);
    }

    /// Adds what `dt` seconds of turning do: `liquid` is the liquid share of what is drawn, `shortage` how far oil is short (0 to 1),
    /// `suction` and `discharge` the nodes on either side.
    pub fn add(&mut self, liquid: f64, shortage: f64, suction: &Node, discharge: &Node, dt: f64) {
        let share = |x: f64| x.clamp(0.0, 1.0);
        let s = &suction.state;
        let (v_liq, v_gas) = (
            liquid / s.rho_liq,
            (1.0 - liquid) / s.gas_density(&suction.content),
        );
        let by_volume = v_liq / (v_liq + v_gas);
        self.slugging += share((by_volume - SLUG_FROM) / (SLUG_FULL - SLUG_FROM)) * SLUG_RATE * dt;
        self.washing += (liquid - WASH_FROM).max(0.0) * WASH_RATE * dt;
        let dry = share(1.0 - suction.content[OIL] / OIL_LEAST);
        self.dryness += (dry * DRY_RATE + shortage * RUB_RATE) * dt;
        self.heat += (discharge.state.t - HOT_FROM).max(0.0) * HOT_RATE * dt;
        self.seized |= discharge.state.t > SEIZES;
        self.pressure += (discharge.state.p - PRESSURE_FROM).max(0.0) * PRESSURE_RATE * dt;
        for cause in [
            &mut self.slugging,
            &mut self.washing,
            &mut self.dryness,
            &mut self.heat,
            &mut self.pressure,
        ] {
            *cause = cause.min(1.0);
        }
    }
}
