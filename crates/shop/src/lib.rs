//! The technician's hands: gauge set and hoses, cans, scale and thermometers, and the ledger of where every gram is.
//!
//! The shop adds its volumes and valves to the vehicle's network; nothing flows by any other law than the network's.

pub mod attached;
pub mod can;
pub mod conversion;
pub mod cylinder;
pub mod detect;
pub mod fault;
pub mod fixings;
pub mod flush;
pub mod gauge;
pub mod hold;
pub mod identifier;
pub mod joints;
pub mod label;
pub mod ledger;
pub mod manifold;
pub mod meters;
pub mod nitrogen;
pub mod oil;
pub mod parts;
pub mod ports;
pub mod protection;
pub mod record;
pub mod recovery;
pub mod senses;
pub mod shop;
pub mod vacuum;
pub mod weighed;

pub use attached::Attached;
pub use shop::{Hands, Instruments, Shop};
