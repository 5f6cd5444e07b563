//! Faults, one row each: what a scenario may set, how it applies, what it shows, what cures it.
//!
//! Reading, checking, planting, the README's rows, the cure by a new part and the validation of signs all go by these rows. A fault
//! changes what a part is like, never the state of the loop; what is in the loop at the start is filled in once.

use lowside_plant::{charge::Start, leak::Site, passage::Passage, plant::Plant, vehicle::Vehicle};
use lowside_units::{GaugePressure, Length, Mass, MassFlow, Quantity, Ratio, Unit};
use serde::{Deserialize, Serialize};

use crate::{Shop, joints::Joint, parts::Part, record::Prices};

mod controls;
mod growing;
mod instruments;
mod leaks;
mod loop_holds;
mod parts;
mod passages;

pub use growing::Growing;

/// A fault.
#[derive(Debug)]
pub struct Fault {
    /// Its name in the code, and in the ids of its words: `fault-ID` is what it is called, `fault-ID.sign` what it does that somebody
    /// complains of or finds, `fault-ID.cure` what puts it right. No two are alike.
    pub id: &'static str,
    /// The field that sets it. Two faults may share one: too little and too much of the same.
    pub field: &'static Field,
    /// Where it sits.
    pub place: Place,
    /// What cures it.
    pub cure: Cure,
    /// What the readings do.
    pub signs: Signs,
    /// Severities at which the signs are asked for.
    pub shown_at: &'static [Severity],
    /// Faults that show alike, by id, as far as neither their rows nor the same pressures and vent say so: see [`Fault::look_alikes`].
    pub resembles: &'static [&'static str],
    /// Value at each severity, in the order of [`Severity::ALL`]: SI, or a share of what the vehicle has where that is its sound value.
    /// Own figures. One at which signs are asked is tuned, so that the signs show on the van: the signs are the check, not the value.
    pub severities: [f64; 4],
    /// Labour of the cure, hours (own figures). See [`Fault::cost`].
    pub hours: f64,
}

/// A field of a scenario that sets a fault.
#[derive(Debug)]
pub struct Field {
    /// Which table it stands in.
    pub table: Table,
    /// Its key there.
    pub key: &'static str,
    /// What it is, as the README says it.
    pub what: &'static str,
    /// What kind of value it takes.
    pub kind: Kind,
    /// Its value in a sound vehicle.
    pub sound: Sound,
    /// Least and most value, SI.
    pub range: fn(&Vehicle) -> (f64, f64),
    /// How it applies.
    pub applies: Applies,
}

/// A table of a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    /// What the loop holds at the start.
    Start,
    /// Condition of the parts.
    Condition,
    /// The list of restrictions by place.
    Restriction,
    /// The list of leaks.
    Leak,
    /// The list of joints that somebody has made up.
    Joint,
}

/// What kind of value a field takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// True or false: 1 or 0.
    Switch,
    /// A ratio.
    Share,
    /// A mass, kg.
    Mass,
    /// A gauge pressure, Pa.
    Gauge,
    /// A mass flow, kg/s.
    Flow,
    /// A length, m.
    Length,
    /// An O-ring: its place in [`Seal::WORSE`](crate::joints::Seal::WORSE).
    Seal,
}

impl Kind {
    /// Its name in the README.
    pub fn name(self) -> &'static str {
        match self {
            Self::Switch => "true or false",
            Self::Share => Ratio::NAME,
            Self::Mass => Mass::NAME,
            Self::Gauge => GaugePressure::NAME,
            Self::Flow => MassFlow::NAME,
            Self::Length => Length::NAME,
            Self::Seal => "O-ring",
        }
    }

    /// The unit in which its values are told, if it has any.
    pub fn unit(self) -> Option<&'static Unit> {
        let (units, name): (&[Unit], _) = match self {
            Self::Switch | Self::Seal => return None,
            Self::Share => (Ratio::UNITS, "%"),
            Self::Mass => (Mass::UNITS, "g"),
            Self::Gauge => (GaugePressure::UNITS, "kPag"),
            Self::Flow => (MassFlow::UNITS, "g/yr"),
            Self::Length => (Length::UNITS, "um"),
        };
        units.iter().find(|u| u.names.contains(&name))
    }
}

/// The value that a field has in a sound vehicle.
#[derive(Debug, Clone, Copy)]
pub enum Sound {
    /// Always this, SI.
    Is(f64),
    /// What the vehicle has, and how the README says it.
    Of(fn(&Vehicle) -> f64, &'static str),
}

impl Sound {
    /// Returns it for a vehicle, SI.
    pub fn of(self, vehicle: &Vehicle) -> f64 {
        match self {
            Self::Is(value) => value,
            Self::Of(of, _) => of(vehicle),
        }
    }
}

/// How a field applies.
#[derive(Debug, Clone, Copy)]
pub enum Applies {
    /// To what the loop is filled with.
    Start(fn(&mut Start, f64)),
    /// To a value of the vehicle.
    Plant(fn(&mut Plant) -> &mut f64),
    /// To what is so in the vehicle, or not.
    PlantSwitch(fn(&mut Plant, bool)),
    /// To a value of the shop.
    Shop(fn(&mut Shop) -> &mut f64),
    /// To what is so in the shop, or not.
    ShopSwitch(fn(&mut Shop, bool)),
    /// To the open share of the row's passage.
    Passage,
    /// To the places that the list names.
    Places,
}

impl Applies {
    /// Sets it in the vehicle to a value, SI, if it is the vehicle's.
    pub fn to_plant(self, plant: &mut Plant, value: f64) {
        match self {
            Self::Plant(of) => *of(plant) = value,
            Self::PlantSwitch(set) => set(plant, value > 0.0),
            _ => {}
        }
    }

    /// Sets it in the shop to a value, SI, if it is the shop's.
    pub fn to_shop(self, shop: &mut Shop, value: f64) {
        match self {
            Self::Shop(of) => *of(shop) = value,
            Self::ShopSwitch(set) => set(shop, value > 0.0),
            _ => {}
        }
    }
}

/// Where a fault sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// In what the loop holds.
    Loop,
    /// In a part, and at no place of the flow.
    Part(Part),
    /// In a passage of the circuit.
    Passage(Passage),
    /// At any of the places where a loop leaks; most often at this one.
    Site(Site),
    /// At any joint; most often at this one.
    Joint(Joint),
    /// In a device outside the loop.
    Device(Device),
}

/// A device outside the loop that can be mended: of the vehicle, or one of the shop's own tools.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Device {
    /// Blend door.
    BlendDoor,
    /// Radiator.
    Radiator,
    /// Cycling switch.
    CyclingSwitch,
    /// High-pressure cut-out.
    CutOut,
    /// The clutch's fuse, relay and leads.
    ClutchCircuit,
    /// Condenser's fan.
    Fan,
    /// Seals and panels round the condenser.
    HoodSeals,
    /// Recirculation door.
    RecirculationDoor,
    /// Compound gauge of the gauge set.
    CompoundGauge,
    /// High-pressure gauge of the gauge set.
    HighGauge,
    /// Low-side coupler of the gauge set.
    LowCoupler,
    /// High-side coupler of the gauge set.
    HighCoupler,
}

impl Device {
    /// All of them.
    pub const ALL: [Self; 12] = [
        Self::BlendDoor,
        Self::Radiator,
        Self::CyclingSwitch,
        Self::CutOut,
        Self::ClutchCircuit,
        Self::Fan,
        Self::HoodSeals,
        Self::RecirculationDoor,
        Self::CompoundGauge,
        Self::HighGauge,
        Self::LowCoupler,
        Self::HighCoupler,
    ];
}

/// What cures a fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cure {
    /// A new part.
    NewPart(Part),
    /// The same part, put in anew.
    Refit(Part),
    /// What leaks is renewed: the part of the site, or a port's core.
    TightPart,
    /// A new O-ring, oiled.
    NewSeal,
    /// Recovery, evacuation and a charge by weight.
    Charge,
    /// Oil poured in or taken out by the measuring cup.
    OilBalance,
    /// Work at the device.
    Mend(Device),
}

/// Which way a reading goes against a sound vehicle on the same day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Up.
    Up,
    /// Down.
    Down,
    /// As in a sound vehicle.
    Level,
    /// Not said.
    Any,
}

/// What the readings do, clutch in, at 1 500 rpm and 35 degC (fault tables of common practice, no single source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Signs {
    /// Low side.
    pub low: Way,
    /// High side.
    pub high: Way,
    /// Air at the centre vent.
    pub vent: Way,
    /// How often the clutch cycles.
    pub cycling: Way,
    /// How long the clutch is in.
    pub duty: Way,
    /// Subcooling ahead of the orifice.
    pub subcooling: Way,
}

impl Signs {
    /// Nothing is said.
    pub const UNSAID: Self = Self::of([Way::Any; 3]);

    /// Ways of low side, high side and vent.
    pub const fn of([low, high, vent]: [Way; 3]) -> Self {
        Self {
            low,
            high,
            vent,
            cycling: Way::Any,
            duty: Way::Any,
            subcooling: Way::Any,
        }
    }

    /// Ways of low side, high side and vent.
    fn pressures_and_vent(self) -> [Way; 3] {
        [self.low, self.high, self.vent]
    }
}

/// How severe a fault is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Hardly seen.
    Slight,
    /// Seen by who looks.
    Moderate,
    /// Plain.
    Severe,
    /// As far as it goes in practice.
    Extreme,
}

impl Severity {
    /// All of them, the least first.
    pub const ALL: [Self; 4] = [Self::Slight, Self::Moderate, Self::Severe, Self::Extreme];

    /// Its name in reports.
    pub fn name(self) -> &'static str {
        match self {
            Self::Slight => "slight",
            Self::Moderate => "moderate",
            Self::Severe => "severe",
            Self::Extreme => "extreme",
        }
    }
}

/// Returns every fault, in the order of the README.
pub fn all() -> impl Iterator<Item = &'static Fault> {
    let rooms = [
        loop_holds::FAULTS,
        parts::FAULTS,
        controls::FAULTS,
        passages::FAULTS,
        leaks::FAULTS,
        instruments::FAULTS,
    ];
    rooms.into_iter().flatten()
}

/// Returns the fields of a table, each once.
pub fn fields(table: Table) -> impl Iterator<Item = &'static Field> {
    let mut last = "";
    // Faults that share a field stand one after the other.
    all().map(|fault| fault.field).filter(move |field| {
        field.table == table && core::mem::replace(&mut last, field.key) != field.key
    })
}

/// Returns the field of a table with this key.
pub fn field(table: Table, key: &str) -> Option<&'static Field> {
    fields(table).find(|field| field.key == key)
}

/// Returns the passages that a scenario can restrict.
pub fn passages() -> impl Iterator<Item = Passage> {
    all().filter_map(|fault| match fault.place {
        Place::Passage(at) if fault.field.table == Table::Restriction => Some(at),
        _ => None,
    })
}

/// Returns the fault with this id.
pub fn named(id: &str) -> Option<&'static Fault> {
    all().find(|fault| fault.id == id)
}

/// Returns the faults that a field sets.
pub fn of_field(field: &Field) -> impl Iterator<Item = &'static Fault> {
    let of = (field.table, field.key);
    all().filter(move |fault| (fault.field.table, fault.field.key) == of)
}

/// Returns the fault that a field's value is, SI: of those that share the field, the one which has a severity closest to it; none where
/// the value is sound, or better than sound.
pub fn of_value(field: &Field, value: f64, vehicle: &Vehicle) -> Option<&'static Fault> {
    let sound = field.sound.of(vehicle);
    let beyond = |x: f64| x - sound;
    let distance = |fault: &Fault| {
        let away = Severity::ALL.map(|s| (fault.at(s, vehicle) - value).abs());
        away.into_iter().fold(f64::INFINITY, f64::min)
    };
    of_field(field)
        .filter(|fault| beyond(value) * beyond(fault.at(Severity::Extreme, vehicle)) > 0.0)
        .min_by(|a, b| distance(a).total_cmp(&distance(b)))
}

/// No two rows have an id in common.
impl PartialEq for Fault {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Fault {}

impl Fault {
    /// Returns its value at a severity in a vehicle, SI.
    pub fn at(&self, severity: Severity, vehicle: &Vehicle) -> f64 {
        let value = self.severities[severity as usize];
        match self.field.sound {
            Sound::Is(_) => value,
            Sound::Of(of, _) => value * of(vehicle),
        }
    }

    /// Can a vehicle have it? One without a high-pressure cut-out has none that is wrong.
    pub fn fits(&self, vehicle: &Vehicle) -> bool {
        let (least, most) = (self.field.range)(vehicle);
        (least..=most).contains(&self.at(Severity::Extreme, vehicle))
    }

    /// Returns the faults that show like it: those that move both pressures and the vent the same way, those it names and those that
    /// name it.
    pub fn look_alikes(&self) -> impl Iterator<Item = &'static Self> {
        all().filter(|other| {
            let alike = self.signs.pressures_and_vent() == other.signs.pressures_and_vent();
            let named = self.resembles.contains(&other.id) || other.resembles.contains(&self.id);
            other.id != self.id && (named || alike && self.signs != Signs::UNSAID)
        })
    }

    /// Returns what its cure costs: labour and the new part (refrigerant aside, which is charged by weight).
    pub fn cost(&self, prices: &Prices) -> f64 {
        let part = match (self.cure, self.place) {
            (Cure::NewPart(part), _) => Some(part),
            (Cure::TightPart, Place::Site(site)) => Part::with(site),
            _ => None,
        };
        self.hours * prices.hour + part.map_or(0.0, |part| prices.parts[part as usize])
    }

    /// Makes sound what it is about.
    fn heal(&self, plant: &mut Plant, shop: &mut Shop) {
        // What a part held goes with it, and a leak is mended where it is.
        if !matches!(self.field.applies, Applies::Places) {
            self.set(plant, shop, self.field.sound.of(&plant.vehicle));
        }
    }
}

/// Makes sound what a cure is for. What grows of it grows no further.
pub fn cure(plant: &mut Plant, shop: &mut Shop, by: Cure) {
    shop.stop_growing(by);
    for fault in all().filter(|fault| fault.cure == by) {
        fault.heal(plant, shop);
    }
    if by == Cure::Mend(Device::Radiator) {
        // Whoever cleans it fills up what has boiled away.
        plant.engine.fill();
    }
}

const fn share(
    table: Table,
    key: &'static str,
    what: &'static str,
    sound: f64,
    applies: Applies,
) -> Field {
    Field {
        table,
        key,
        what,
        kind: Kind::Share,
        sound: Sound::Is(sound),
        range: |_| (0.0, 1.0),
        applies,
    }
}

const fn switch(key: &'static str, what: &'static str, applies: Applies) -> Field {
    Field {
        table: Table::Condition,
        key,
        what,
        kind: Kind::Switch,
        sound: Sound::Is(0.0),
        range: |_| (0.0, 1.0),
        applies,
    }
}
