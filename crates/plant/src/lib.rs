//! The vehicle: a network of volumes and links with the parts, air side, cabin and controls around it.

pub mod assembly;
pub mod cabin;
pub mod charge;
pub mod compressor;
pub mod condenser;
pub mod controls;
pub mod damage;
pub mod evaporator;
pub mod exchange;
pub mod flow;
pub mod moisture;
pub mod network;
pub mod oil;
pub mod orifice;
pub mod plant;
pub mod shell;
pub mod sparse;
pub mod species;
pub mod state;
pub mod stream;
pub mod vehicle;
