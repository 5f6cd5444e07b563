//! The trace of a run: a comma-separated table, a row every so often.

use crate::{failure::Failure, files};
use lowside_lessons::Shown;
use lowside_plant::{network::NodeId, species::REFRIGERANT};
use lowside_session::{Bay, Event, Sight, Tick};
use lowside_shop::{ledger::Place, vacuum::MICRON};
use serde_json::Value;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

/// Columns of time and instruments.
const INSTRUMENTS: &[&str] = &[
    "t_s",
    "gauge_low_kPag",
    "gauge_high_kPag",
    "thermometer_vent_degC",
    "thermometer_cabin_degC",
    "scale_g",
    "vacuum_gauge_micron",
];

/// Columns of what goes on inside, before the ledger.
const INSIDE: &[&str] = &[
    "low_kPa_abs",
    "high_kPa_abs",
    "evaporator_kPa_abs",
    "discharge_degC",
    "liquid_line_degC",
    "evaporator_out_degC",
    "suction_degC",
    "vent_degC",
    "cabin_degC",
    "superheat_K",
    "subcooling_K",
    "clutch_in",
    "suction_liquid_share",
    "compressor_g_s",
    "orifice_g_s",
    "loop_refrigerant_g",
    "can_content_g",
    "can_kPa_abs",
    "can_degC",
];

/// Places of the ledger, in its order.
const PLACES: [Place; 16] = [
    Place::DischargeLine,
    Place::Condenser,
    Place::LiquidLine,
    Place::Evaporator,
    Place::Accumulator,
    Place::SuctionLine,
    Place::Hoses,
    Place::Can,
    Place::Shelf,
    Place::Room,
    Place::Cylinder,
    Place::RecoveryCylinder,
    Place::Separator,
    Place::Bench,
    Place::Waste,
    Place::Lost,
];

/// A table being written.
#[derive(Debug)]
pub(crate) struct Trace {
    path: PathBuf,
    file: BufWriter<File>,
    every: Tick,
    sight: Sight,
    events: Vec<Event>,
}

impl Trace {
    /// Opens the file and writes the head; a row every `every` ticks follows, the first at the start. Where the bay is worked in by hand, a
    /// row has the instruments that are connected, and no more.
    ///
    /// # Errors
    /// [`Failure::Asked`] naming the file.
    pub(crate) fn create(path: &Path, every: Tick, sight: Sight) -> Result<Self, Failure> {
        let mut trace = Self {
            path: path.to_owned(),
            file: files::create(path)?,
            every: every.max(1),
            sight,
            events: Vec::new(),
        };
        let ledger = PLACES.map(|p| format!("{}_refrigerant_g", column(p)));
        let head = if sight.closed() {
            format!("{},clutch_in", INSTRUMENTS.join(","))
        } else {
            format!(
                "{},{},{},events",
                INSTRUMENTS.join(","),
                INSIDE.join(","),
                ledger.join(",")
            )
        };
        trace.line(&head)?;
        Ok(trace)
    }

    /// Looks at the bay, once at the start and once after each tick; writes a row when one is due.
    ///
    /// # Errors
    /// [`Failure::Asked`] naming the file.
    pub(crate) fn look(&mut self, bay: &Bay) -> Result<(), Failure> {
        let new = bay.events().iter().rev().take_while(|e| e.0 == bay.tick());
        let at = self.events.len();
        self.events.extend(new.map(|e| e.1));
        self.events[at..].reverse();
        if bay.tick().is_multiple_of(self.every) {
            let row = if self.sight.closed() {
                shown(bay.seconds(), &Shown::of(bay))
            } else {
                row(bay, &self.events)
            };
            self.events.clear();
            self.line(&row)?;
        }
        Ok(())
    }

    /// Writes what is still in the buffer.
    ///
    /// # Errors
    /// [`Failure::Asked`] naming the file.
    pub(crate) fn finish(mut self) -> Result<(), Failure> {
        self.file
            .flush()
            .map_err(|e| files::unwritable(&self.path, &e))
    }

    fn line(&mut self, text: &str) -> Result<(), Failure> {
        writeln!(self.file, "{text}").map_err(|e| files::unwritable(&self.path, &e))
    }
}

/// A place's name in a column head.
fn column(place: Place) -> &'static str {
    match place {
        Place::DischargeLine => "discharge_line",
        Place::Condenser => "condenser",
        Place::LiquidLine => "liquid_line",
        Place::Evaporator => "evaporator",
        Place::Accumulator => "accumulator",
        Place::SuctionLine => "suction_line",
        Place::Hoses => "hoses",
        Place::Can => "can",
        Place::Shelf => "shelf",
        Place::Room => "room",
        Place::Cylinder => "cylinder",
        Place::RecoveryCylinder => "recovery_cylinder",
        Place::Separator => "separator",
        Place::Bench => "bench",
        Place::Waste => "waste",
        Place::Lost => "lost",
    }
}

/// A row of what is shown in a bay after so many seconds.
fn shown(seconds: f64, s: &Shown) -> String {
    let celsius = |t: f64| t - 273.15;
    let weighs = s.hands.attached.weighed().then_some(s.weighs * 1e3);
    let cells = [
        Some(seconds),
        s.low.map(|pa| pa / 1e3),
        s.high.map(|pa| pa / 1e3),
        Some(celsius(s.air[0])),
        Some(celsius(s.air[1])),
        weighs,
        s.vacuum.map(|pa| pa / MICRON),
        Some(f64::from(u8::from(s.sound.clutch))),
    ];
    cells.map(cell).join(",")
}

fn row(bay: &Bay, events: &[Event]) -> String {
    let (plant, shop) = (bay.plant(), bay.shop());
    let c = &plant.circuit;
    let node = |i: NodeId| &plant.network.node(i).state;
    let table = plant.network.table();
    let outlet = node(c.evaporator.outlet());
    let (liquid, can) = (node(c.liquid_line.outlet()), node(shop.manifold.can));
    let dials = &shop.instruments;
    let celsius = |t: f64| t - 273.15;
    let on_hose = shop.hands.attached.can().is_some();
    let in_can = |x: f64| on_hose.then_some(x);
    let before = [
        Some(bay.seconds()),
        Some(dials.low.reading() / 1e3),
        Some(dials.high.reading() / 1e3),
        Some(celsius(dials.vent.reading())),
        Some(celsius(dials.cabin.reading())),
        Some(dials.scale.reading() * 1e3),
        (!dials.vacuum.over_range()).then(|| dials.vacuum.reading() / MICRON),
        Some(node(c.low_side()).p / 1e3),
        Some(node(c.high_side()).p / 1e3),
        Some(outlet.p / 1e3),
        Some(celsius(node(c.high_side()).t)),
        Some(celsius(liquid.t)),
        Some(celsius(outlet.t)),
        Some(celsius(node(c.compressor_inlet()).t)),
        Some(celsius(plant.cabin.vent.t)),
        Some(celsius(plant.cabin.air.t)),
        Some((outlet.t - table.t_sat(outlet.p)).max(0.0)),
        Some((table.t_sat(liquid.p) - liquid.t).max(0.0)),
        Some(f64::from(u8::from(plant.drive.engaged))),
        Some(plant.suction_liquid()),
        Some(plant.network.link(c.compressor()).flow * 1e3),
        Some(plant.network.link(c.orifice()).flow * 1e3),
        Some(bay.charge() * 1e3),
        in_can(plant.network.node(shop.manifold.can).content.total() * 1e3),
        in_can(can.p / 1e3),
        in_can(celsius(can.t)),
    ];
    let ledger = bay.ledger();
    let grams = PLACES.map(|place| {
        let entry = ledger.iter().find(|e| e.place == place);
        entry.map(|e| e.content[REFRIGERANT] * 1e3)
    });
    let mut cells: Vec<String> = before.into_iter().chain(grams).map(cell).collect();
    let names: Vec<String> = events.iter().copied().map(event).collect();
    cells.push(names.join(";"));
    cells.join(",")
}

/// A number to six decimals without idle zeros; nothing where there is none.
fn cell(number: Option<f64>) -> String {
    match number {
        Some(x) if x.is_finite() => {
            let text = format!("{x:.6}");
            let text = text.trim_end_matches('0').trim_end_matches('.');
            if text == "-0" {
                "0".into()
            } else {
                text.into()
            }
        }
        _ => String::new(),
    }
}

/// An event's name: `clutch-in`; with its place where it has one: `air-drawn-in condenser-out`.
fn event(event: Event) -> String {
    match serde_json::to_value(event) {
        Ok(Value::String(name)) => name,
        Ok(Value::Object(of)) => {
            let (name, place) = of.into_iter().next().unwrap_or_default();
            format!("{name} {}", place.as_str().unwrap_or_default())
        }
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lowside_shop::{detect::Spot, joints::Joint};

    #[test]
    fn numbers_are_short_and_never_minus_zero() {
        assert_eq!(cell(Some(1.5)), "1.5");
        assert_eq!(cell(Some(100.0)), "100");
        assert_eq!(cell(Some(-1e-9)), "0");
        assert_eq!(cell(Some(f64::NAN)), "");
        assert_eq!(cell(None), "");
        assert_eq!(event(Event::ClutchIn), "clutch-in");
        let at = Spot::Joint(Joint::CondenserOut);
        assert_eq!(event(Event::AirDrawnIn(at)), "air-drawn-in condenser-out");
    }
}
