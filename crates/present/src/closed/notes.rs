//! What the drawing of a closed bay has to say: facts of the moment that gauges and thermometers show.

use lowside_fluids::water;
use lowside_lessons::Shown as Known;
use lowside_shop::{can::BURST, vacuum::GaugePlace};
use lowside_units::{
    AbsolutePressure, PressureDifference, Quantity, Temperature, TemperatureDifference,
    display::{self, Shown, UnitSystem},
};

use crate::{
    levels::height,
    notes::{Idea, LEVEL, Note, Spot, add},
};

/// Difference of the readings of two gauges up to which a loop is at one pressure, Pa: the step of the coarser one.
const SAME: f64 = 10e3;

/// Notes of the moment, the most urgent first.
pub fn of(shown: &Known<'_>, units: UnitSystem) -> Vec<Note> {
    let mut notes = Vec::new();
    let air = shown.day.p;
    let mut put = |idea, spot, pa: f64, shown: Shown| {
        let height = height(pa, air);
        add(
            &mut notes,
            Note {
                idea,
                spot,
                height,
                shown,
            },
        );
    };
    let warmth = |k: f64| display::temperature(Temperature::from_k(k), units);
    let apart = |k: f64| display::temperature_difference(TemperatureDifference::from_si(k), units);
    let runs = shown.sound.turns > 0.0;
    let at_loop = shown.hands.vacuum_gauge == GaugePlace::Loop;
    if let Some(pa) = shown.vacuum.filter(|_| at_loop && !runs) {
        let boils = water::boiling_temperature(pa.max(5.0));
        let idea = if boils < shown.day.t {
            Idea::Dries
        } else {
            Idea::NotDryYet
        };
        put(idea, Spot::Low, pa, warmth(boils));
        return notes;
    }
    let can = shown.can().is_some_and(|can| !can.burst);
    if let Some(over) = shown
        .high
        .map(|pa| pa - BURST)
        .filter(|pa| can && *pa > 0.0)
    {
        let text = display::pressure_difference(PressureDifference::from_pa(over), units);
        put(Idea::AboveBurst, Spot::High, over + BURST + air, text);
    }
    if let Some(low) = shown.low.filter(|pa| runs && *pa < 0.0) {
        let pa = (low + air).max(0.0);
        let text = display::vacuum(AbsolutePressure::from_pa(pa), units);
        put(Idea::BelowAtmosphere, Spot::Low, pa, text);
    }
    let [boils, condenses] = shown.saturation;
    if let (Some(low), Some(high)) = (shown.low, shown.high)
        && !runs
        && (low - high).abs() <= SAME
    {
        let outside = shown.hands.hoses.table().p_sat(shown.day.t);
        let level = (height(low + air, air) - height(outside, air)).abs() < 2.0 * LEVEL;
        if level && boils.is_some() {
            put(Idea::Static, Spot::Low, low + air, warmth(shown.day.t));
        }
    }
    if let Some((high, k)) = shown
        .high
        .zip(condenses)
        .filter(|(_, k)| runs && *k > shown.day.t)
    {
        put(
            Idea::HighAbove,
            Spot::High,
            high + air,
            apart(k - shown.day.t),
        );
    }
    let cabin = shown.air[1];
    if let Some((low, k)) = shown.low.zip(boils).filter(|(_, k)| runs && *k < cabin) {
        put(Idea::LowBelow, Spot::Low, low + air, apart(cabin - k));
    }
    notes
}
