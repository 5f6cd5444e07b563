//! Every word of the page, in each of its languages.
//!
//! The words stand in Fluent files, `en` and `es`, for translators; `build.rs` makes a function of each message, so that a
//! message without a translation, or with other variables in one language, ends the build, and a call to a message that is not
//! there does not compile. Nothing is parsed in the browser. Variables are given in the order in which the English text has them.
//!
//! Spanish is that of workshops in the United States and Mexico (es-419): "lado de baja", "abanico", "embrague".

mod language;
mod plural;
mod pseudo;
mod say;

mod generated {
    include!(concat!(env!("OUT_DIR"), "/words.rs"));
}

pub use generated::*;
pub use language::{Language, Texts, current, set};
