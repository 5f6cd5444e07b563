//! Flushing of a coil or line on the bench: solvent pushed through against the stream and blown out with dry nitrogen, or nitrogen alone.
//!
//! What may be flushed, that many small tubes side by side do not come clean, and that it takes the oil along is common practice. The
//! shares are our own figures. Solvent that is left in a part is not modelled: a flush ends dry.

use lowside_plant::plant::Plant;
use serde::{Deserialize, Serialize};

use crate::parts::Part;

/// Share of the solids that solvent washes out of one tube end to end (own figure).
const ONE_TUBE: f64 = 0.95;
/// The same of tubes side by side: the solvent takes the open ones (own figure, plausible 0.2-0.6).
const SIDE_BY_SIDE: f64 = 0.4;
/// What nitrogen alone carries of that (own figure: what lies dry; the rest sticks in oil).
const BLAST: f64 = 0.4;
/// Share of the oil that solvent takes along (own figure: a film is left).
const OIL_BY_SOLVENT: f64 = 0.97;
/// Share of the oil that nitrogen drives out (own figure: more than runs out by itself).
const OIL_BY_BLAST: f64 = 0.7;

/// With what a part is flushed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Flush {
    /// Solvent, then dry nitrogen until it is dry.
    Solvent,
    /// Dry nitrogen alone.
    Nitrogen,
}

/// Coils and plain lines only: an accumulator, a hose with its muffler and a compressor keep the solvent, and a tube is thrown away.
pub fn flushable(part: Part) -> bool {
    matches!(part, Part::Condenser | Part::LiquidLine | Part::Evaporator)
}

/// Shares of the solids and of the oil in a part that a flush carries out, 0 to 1.
pub fn carries(plant: &Plant, part: Part, with: Flush) -> (f64, f64) {
    let tubes = &plant.vehicle.condenser.tubes;
    let clean = if part == Part::Condenser && tubes.count > tubes.passes {
        SIDE_BY_SIDE
    } else {
        ONE_TUBE
    };
    match with {
        Flush::Solvent => (clean, OIL_BY_SOLVENT),
        Flush::Nitrogen => (clean * BLAST, OIL_BY_BLAST),
    }
}
