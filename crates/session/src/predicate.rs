//! A condition on a bay, as scripts wait for it and job cards ask for it: `vent < 10 degC`, `engine is off`.

use core::fmt;

use lowside_fluids::{Refrigerant, oil::Oil};
use lowside_plant::{
    species::{AIR, OIL},
    state::RHO_OIL,
};
use lowside_shop::{
    conversion::{breaches, label_lacks},
    joints::Joint,
    parts::Part,
    record::Prices,
};
use lowside_units::{
    AbsolutePressure, GaugePressure, Mass, MassFlow, Quantity, Ratio, Temperature, UnitError,
    Volume,
};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use thiserror::Error;

use crate::bay::Bay;

/// What kind of value a reading has, and so which units it may be compared in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Gauge,
    Absolute,
    Temperature,
    Mass,
    Share,
    Flow,
    Volume,
    Switch,
}

/// Declares the readings once: variant, name in text, kind, and how it is read from a bay.
macro_rules! readings {
    ($($(#[$doc:meta])* $name:ident, $text:literal, $kind:ident, $bay:ident => $value:expr;)*) => {
        /// Something in a bay that a condition can be about.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Reading {
            $($(#[$doc])* $name,)*
        }

        impl Reading {
            /// Every reading.
            pub const ALL: &[Self] = &[$(Self::$name,)*];

            /// Its name in text.
            pub fn name(self) -> &'static str {
                match self {
                    $(Self::$name => $text,)*
                }
            }

            /// Whether it is on or off, and so not compared with a value.
            pub fn is_switch(self) -> bool {
                self.kind() == Kind::Switch
            }

            fn kind(self) -> Kind {
                match self {
                    $(Self::$name => Kind::$kind,)*
                }
            }

            /// Its value in a bay, SI; for a switch 1 is on, 0 off.
            pub fn value(self, bay: &Bay) -> f64 {
                match self {
                    $(Self::$name => { let $bay = bay; $value })*
                }
            }
        }
    };
}

readings! {
    /// Compound gauge, as its pointer stands.
    Low, "low", Gauge, b => b.shop().instruments.low.pointer();
    /// High-pressure gauge.
    High, "high", Gauge, b => b.shop().instruments.high.pointer();
    /// Vent thermometer.
    Vent, "vent", Temperature, b => b.shop().instruments.vent.pointer();
    /// Cabin thermometer.
    Cabin, "cabin", Temperature, b => b.shop().instruments.cabin.pointer();
    /// Liquid left in the can.
    CanLiquid, "can_liquid", Mass, b => b.plant().network.node(b.shop().manifold.can).state.m_liq;
    /// Refrigerant in the loop, without hoses and cans.
    Charge, "charge", Mass, b => b.charge();
    /// Electronic vacuum gauge.
    Vacuum, "vacuum", Absolute, b => b.shop().instruments.vacuum.pointer();
    /// Air in the loop.
    Air, "air", Mass, b => b.plant().held(AIR);
    /// Water in the loop, with that in its oil, that no desiccant, ice or rubber holds.
    Water, "water", Mass, b => b.plant().free_water();
    /// Refrigerant that went into the room.
    Vented, "vented", Mass, b => b.vented();
    /// Liquid share of what the compressor draws.
    SuctionLiquid, "suction_liquid", Share, b => b.plant().suction_liquid();
    /// R-12 in the loop's refrigerant.
    R12, "r12", Share, b => b.plant().r12_share();
    /// Largest share of one gas that the refrigerant identifier shows; neither below nor above anything until it has a result.
    Purity, "purity", Share, b => b.shop().identifier.result().map_or(f64::NAN, |s| s.purity());
    /// Wear that use has added to the compressor.
    Wear, "wear", Share, b => b.plant().damage.wear();
    /// The engine runs.
    Engine, "engine", Switch, b => switch(b.plant().settings.engine_on);
    /// The A/C button is pressed.
    AirConditioning, "ac", Switch, b => switch(b.plant().settings.ac_on);
    /// The clutch is in.
    Clutch, "clutch", Switch, b => switch(b.plant().drive.engaged);
    /// The low-side coupler is on its port.
    LowCoupler, "low_coupler", Switch, b => switch(b.shop().hands.low_coupled);
    /// The high-side coupler is on its port.
    HighCoupler, "high_coupler", Switch, b => switch(b.shop().hands.high_coupled);
    /// The low hand valve is open, be it a crack.
    LowValve, "low_valve", Switch, b => switch(b.shop().hands.low_valve > 0.0);
    /// The high hand valve is open, be it a crack.
    HighValve, "high_valve", Switch, b => switch(b.shop().hands.high_valve > 0.0);
    /// The scale, less what its zero key has set aside.
    Scale, "scale", Mass, b => b.shop().instruments.scale.pointer();
    /// What the recovery machine's cylinder has gained.
    Recovered, "recovered", Mass, b => b.shop().recovered(b.plant());
    /// Clamp thermometer.
    Clamp, "clamp", Temperature, b => b.shop().instruments.clamp.pointer();
    /// Somebody was hurt.
    Hurt, "hurt", Switch, b => switch(b.shop().injuries > 0);
    /// Both ports have their caps on.
    Caps, "caps", Switch, b => switch(b.shop().openings.all_ports().all(|p| p.cap));
    /// Some joint is apart.
    LoopOpen, "loop_open", Switch, b => switch(Joint::ALL.iter().any(|j| b.shop().openings.apart(*j)));
    /// A search for leaks has found one.
    LeakFound, "leak_found", Switch, b => switch(b.shop().search.iter().flatten().any(|f| f.found));
    /// Vapour that joints and ports made by hand would let out if the loop stood at saturation at 20 degC.
    SealsLeak, "seals_leak", Flow, b => b.shop().openings.standing_leak();
    /// Vapour that joints and parts, the ports aside, would let out if the loop stood at saturation at 20 degC.
    Leaks, "leaks", Flow, b => b.shop().standing_leak(b.plant());
    /// Every place that hands have worked at has been searched since and cleared, and no last search shows a leak.
    RepairsCleared, "repairs_cleared", Switch, b => switch(b.shop().repairs_cleared());
    /// The clamp, last read with the clutch in, was colder behind the orifice tube than before it by 15 K.
    ColdAtOrifice, "cold_at_orifice", Switch, b => switch(matches!(b.shop().across, [Some(before), Some(behind)] if before - behind > STEP));
    /// Beads of a burst desiccant bag that are loose in the loop, on no screen yet.
    LooseBeads, "loose_beads", Mass, b => b.plant().debris.loose + b.plant().debris.beads_in_condenser();
    /// Refrigerant has been let out by hand.
    LetOut, "let_out", Switch, b => switch(b.shop().ventings > 0);
    /// A label with the charge has been stuck on; a conversion's says all that it has to.
    Label, "label", Switch, b => switch(b.shop().label.is_some() && label_lacks(&b.record(&Prices::default())).is_empty());
    /// Both ports carry R-134a's fittings.
    NewFittings, "r134a_fittings", Switch, b => switch(b.shop().openings.all_ports().all(|p| p.fitting == Refrigerant::R134a));
    /// There is a high-pressure cut-out.
    CutOut, "cut_out", Switch, b => switch(b.plant().drive.cut_out_opens().is_some());
    /// Where the cycling switch opens.
    LowSwitch, "low_switch", Gauge, b => b.plant().drive.cycling_points()[0];
    /// Every joint has been made up with a new oiled O-ring.
    NewSeals, "new_seals", Switch, b => switch(b.shop().openings.all_new());
    /// A new accumulator is in.
    NewAccumulator, "new_accumulator", Switch, b => switch(new_accumulator(b));
    /// A conversion has what the law asks: old gas gone, fittings, cut-out, and a label that says what is in the loop.
    ConversionInOrder, "conversion_in_order", Switch, b => switch(converted(b));
    /// Readings were noted before the work.
    NotedBefore, "noted_before", Switch, b => switch(b.shop().noted[0].is_some());
    /// Readings were noted after the work.
    NotedAfter, "noted_after", Switch, b => switch(b.shop().noted[1].is_some());
    /// The vacuum pump runs.
    Pump, "pump", Switch, b => switch(b.shop().hands.attached.pump().is_some_and(|p| p.on));
    /// Water that the desiccant holds.
    DesiccantWater, "desiccant_water", Mass, b => b.plant().desiccant_water();
    /// Oil in the loop.
    Oil, "oil", Mass, b => b.plant().held(OIL);
    /// The same by volume.
    OilVolume, "oil_volume", Volume, b => b.plant().held(OIL) / RHO_OIL;
    /// Mineral oil in the loop's oil.
    MineralOil, "mineral_oil", Share, b => b.plant().oil.oils.share(Oil::Mineral);
    /// The recovery machine runs.
    Machine, "machine", Switch, b => switch(b.shop().hands.attached.machine().is_some_and(|m| m.running));
    /// A can hangs on the service hose.
    Can, "can", Switch, b => switch(b.shop().hands.attached.can().is_some());
    /// The can on the service hose has burst.
    CanBurst, "can_burst", Switch, b => switch(b.shop().hands.attached.can().is_some_and(|c| c.burst));
}

/// What a line has to fall at the orifice tube for it to be the place where it turns cold, K (own figure).
pub const STEP: f64 = 15.0;

fn switch(on: bool) -> f64 {
    f64::from(u8::from(on))
}

fn new_accumulator(bay: &Bay) -> bool {
    bay.shop().renewed[Part::Accumulator as usize] > 0 && bay.plant().fitted.accumulator
}

fn converted(bay: &Bay) -> bool {
    let record = bay.record(&Prices::default());
    record.gas != record.built_for && breaches(&record).is_empty()
}

/// How a reading is compared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Test {
    /// Below the value, SI.
    Below(f64),
    /// Above the value, SI.
    Above(f64),
    /// On or off.
    Is(bool),
}

/// A reading and what is asked of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Predicate {
    /// What is read.
    pub reading: Reading,
    /// What is asked of it.
    pub test: Test,
}

/// Why a condition could not be read.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PredicateError {
    /// Not of the form.
    #[error(
        "\"{0}\" is not a condition: write READING < VALUE, READING > VALUE, READING is on or READING is off, as in \
         \"vent < 10 degC\" or \"engine is off\""
    )]
    Form(String),
    /// An unknown reading.
    #[error("\"{0}\" is not a reading; use one of {known}", known = names())]
    Reading(String),
    /// A switch compared with a value, or a value asked to be on.
    #[error("{name} is {what}")]
    Kind {
        /// The reading.
        name: &'static str,
        /// What is asked of such a reading.
        what: &'static str,
    },
    /// A value that is no such quantity.
    #[error(transparent)]
    Value(#[from] UnitError),
}

/// Names of the readings, for a message.
fn names() -> String {
    let names: Vec<&str> = Reading::ALL.iter().map(|r| r.name()).collect();
    names.join(", ")
}

impl core::str::FromStr for Predicate {
    type Err = PredicateError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let form = || PredicateError::Form(text.chars().take(60).collect());
        let (name, sign, rest) = if let Some(at) = text.find(['<', '>']) {
            let (name, rest) = text.split_at(at);
            (name, &rest[..1], &rest[1..])
        } else {
            let (name, rest) = text.split_once(" is ").ok_or_else(form)?;
            (name, "is", rest)
        };
        let (name, value) = (name.trim(), rest.trim());
        let reading = *Reading::ALL
            .iter()
            .find(|r| r.name() == name)
            .ok_or_else(|| PredicateError::Reading(name.chars().take(40).collect()))?;
        let kind = reading.kind();
        let wrong = |what| PredicateError::Kind {
            name: reading.name(),
            what,
        };
        let test = match (sign, value) {
            ("is", _) if kind != Kind::Switch => return Err(wrong("compared by < or >")),
            ("is", "on") => Test::Is(true),
            ("is", "off") => Test::Is(false),
            ("is", _) => return Err(form()),
            (_, _) if kind == Kind::Switch => return Err(wrong("either on or off")),
            (sign, value) => {
                let si = match kind {
                    Kind::Gauge => GaugePressure::parse(value)?.si(),
                    Kind::Absolute => AbsolutePressure::parse(value)?.si(),
                    Kind::Temperature => Temperature::parse(value)?.si(),
                    Kind::Mass => Mass::parse(value)?.si(),
                    Kind::Flow => MassFlow::parse(value)?.si(),
                    Kind::Volume => Volume::parse(value)?.si(),
                    Kind::Share | Kind::Switch => Ratio::parse(value)?.si(),
                };
                if sign == "<" {
                    Test::Below(si)
                } else {
                    Test::Above(si)
                }
            }
        };
        Ok(Self { reading, test })
    }
}

impl fmt::Display for Predicate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = self.reading.name();
        let (sign, si) = match self.test {
            Test::Is(on) => return write!(f, "{name} is {}", if on { "on" } else { "off" }),
            Test::Below(si) => ('<', si),
            Test::Above(si) => ('>', si),
        };
        write!(f, "{name} {sign} ")?;
        match self.reading.kind() {
            Kind::Gauge => GaugePressure::from_si(si).fmt(f),
            Kind::Absolute => AbsolutePressure::from_si(si).fmt(f),
            Kind::Temperature => Temperature::from_si(si).fmt(f),
            Kind::Mass => Mass::from_si(si).fmt(f),
            Kind::Flow => MassFlow::from_si(si).fmt(f),
            Kind::Volume => Volume::from_si(si).fmt(f),
            Kind::Share | Kind::Switch => Ratio::from_si(si).fmt(f),
        }
    }
}

impl Serialize for Predicate {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Predicate {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        String::deserialize(d)?
            .parse()
            .map_err(serde::de::Error::custom)
    }
}

impl Predicate {
    /// Does it hold in a bay?
    pub fn holds(&self, bay: &Bay) -> bool {
        let value = self.reading.value(bay);
        match self.test {
            Test::Below(limit) => value < limit,
            Test::Above(limit) => value > limit,
            Test::Is(on) => (value > 0.5) == on,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_and_written_again() {
        for text in [
            "vent < 10 degC",
            "vacuum < 500 micron",
            "low > 30 psig",
            "vented < 30 g",
            "suction_liquid > 12 %",
            "engine is off",
            "low_coupler is on",
        ] {
            let c: Predicate = text.parse().unwrap();
            let again: Predicate = c.to_string().parse().unwrap();
            assert_eq!(c, again, "{text} became {c}");
        }
    }

    #[test]
    fn what_makes_no_sense_is_refused_by_name() {
        let said = |text: &str| text.parse::<Predicate>().unwrap_err().to_string();
        assert!(said("vent = 10 degC").contains("READING < VALUE"));
        assert!(said("vents < 10 degC").contains("use one of low, high, vent"));
        assert_eq!(said("engine < 3"), "engine is either on or off");
        assert_eq!(said("vent is on"), "vent is compared by < or >");
        assert!(said("engine is perhaps").contains("is not a condition"));
        assert!(said("vent < 10 psig").contains("degC"));
    }
}
