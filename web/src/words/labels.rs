//! Labels: names of things on the page and short phrases with a number in them.

macro_rules! labels {
    ($($name:ident = $text:expr;)*) => { $(pub(crate) const $name: &str = $text;)* };
}

labels! {
    NAME = "Lowside"; COPY = "Copy its actions";
    CONTROLS = "Controls"; GAUGE_SET = "Gauge set"; CAN = "Can"; VEHICLE = "Vehicle"; TO_CONTROLS = "To the controls";
    LOW_COUPLER = "Low coupler"; HIGH_COUPLER = "High coupler"; LOW_VALVE = "Low valve (blue)"; HIGH_VALVE = "High valve (red)";
    PURGE = "Purge (yellow)"; TAP = "Tap"; TURN_OVER = "Turn over"; BATH = "Water bath"; WATER = "Water";
    ENGINE = "Engine"; AC = "A/C"; BLOWER = "Blower"; CABIN_AIR = "Air"; ENGINE_SPEED = "Engine speed";
    WINDOWS = "Windows";
    FAN = "Fan before the grille"; OUTSIDE_AIR = "Outside air"; SHUT = "Shut"; OPEN = "Open";
    HUMIDITY = "Humidity";
    TAKE_A_CAN = "Take a can"; FRESH_CAN = "Fresh can"; TAKE_OFF = "Take it off";
    GAUGES = "Gauges"; LOW_SIDE = "Low side (blue)"; HIGH_SIDE = "High side (red)"; HOSE_ONLY = "coupler off: shows its hose";
    READINGS = "Readings"; VENT = "Centre vent"; CABIN_T = "Cabin"; CLUTCH = "Clutch"; SCALE = "Scale"; GIVEN = "Given by the cans";
    NO_CAN = "no can"; LEDGER = "Where every gram is"; LEDGER_EMPTY = "No refrigerant in the bay yet.";
    LEDGER_MORE = "Liquid, vapour, oil, air, water"; LEDGER_CAPTION = "Mass by place"; LEDGER_TABLE = "Ledger table";
    LOG = "What happened"; LOG_EMPTY = "Nothing to report."; NEXT = "Next"; SHOW_ME = "Show me";
    UNDERSTOOD = "Understood"; CAUTION = "Caution"; TIME = "Time"; SPEED = "Speed"; UNITS = "Units"; START_OVER = "Start over";
    START_WITH = "Start with"; ONE_SECOND = "One second"; RUN = "\u{25b6} Run"; PAUSE = "\u{2016} Pause"; NOW = "now";
    LEVELS = "Levels"; LEVELS_IDEA = "pressure is height, everything flows downhill"; CHART = "Strip chart";
    CHART_LENGTH = "Length of the chart"; NUMBERS = "Numbers"; NUMBERS_CAPTION = "Readings over time, the latest last";
    NUMBERS_TABLE = "Strip chart as a table";
    CHART_SPOKEN = "Pressures, vent temperature and clutch over time; the table below gives the numbers";
    OUTSIDE = "outside air"; CABIN = "cabin air"; ATMOSPHERE = "atmosphere"; CONDENSER = "condenser"; EVAPORATOR = "evaporator";
    ACCUMULATOR = "accumulator"; COMPRESSOR = "compressor"; ORIFICE = "orifice"; BURSTS = "bursts";
}

/// States of the switches, off and on.
pub(crate) const COUPLER_STATES: [&str; 2] = ["off", "on its port"];
pub(crate) const PURGE_STATES: [&str; 2] = ["tight", "blowing out"];
pub(crate) const TAP_STATES: [&str; 2] = ["shut", "open"];
pub(crate) const TURN_STATES: [&str; 2] = ["valve up: vapour", "valve down: liquid"];
pub(crate) const BATH_STATES: [&str; 2] = ["out", "in the water"];
pub(crate) const ENGINE_STATES: [&str; 2] = ["off", "runs"];
pub(crate) const AC_STATES: [&str; 2] = ["off", "on"];
pub(crate) const AIR_STATES: [&str; 2] = ["outside", "recirculated"];
pub(crate) const IN_OUT: [&str; 2] = ["out", "in"];
/// Marks of the cycling switch: where it opens and where it closes.
pub(crate) const SWITCH: [&str; 2] = ["clutch out", "clutch in"];
/// Key of the drawing: temperature, liquid, vapour, heat.
pub(crate) const KEY: [&str; 4] = ["cold to hot", "liquid", "vapour", "heat"];
/// Key of the strip chart: high, low, vent and clutch, cabin.
pub(crate) const CHART_KEY: [&str; 4] = ["high", "low", "vent, clutch bar", "cabin"];
pub(crate) const LEDGER_COLUMNS: [&str; 6] = ["Place", "Liquid", "Vapour", "Oil", "Air", "Water"];
pub(crate) const NUMBERS_COLUMNS: [&str; 6] = ["Time", "Low", "High", "Vent", "Cabin", "Clutch"];

pub(crate) fn named(what: &str, state: &str) -> String {
    format!("{what}: {}", state.to_lowercase())
}

pub(crate) fn can(number: u32) -> String {
    format!("Can {number}")
}

pub(crate) fn can_label(number: u32, t: &str) -> String {
    format!("can {number}, {t}")
}

pub(crate) fn of(n: u8, most: u8) -> String {
    format!("{n} of {most}")
}

pub(crate) fn cycles(n: usize) -> String {
    format!("{n} / min")
}

pub(crate) fn label(charge: &str) -> String {
    format!("label {charge}")
}

pub(crate) fn in_loop(charge: &str) -> String {
    format!("{charge} in the loop")
}

pub(crate) fn bay_time(spoken: &str) -> String {
    format!("Bay time {spoken}")
}

pub(crate) fn reaches(speed: &str) -> String {
    format!("reaches {speed}\u{d7}")
}

pub(crate) fn minutes(m: u32) -> String {
    format!("{m} min")
}

pub(crate) fn minutes_ago(m: f64) -> String {
    format!("\u{2212}{m:.0} min")
}

pub(crate) fn spoken_caution(title: &str, text: &str) -> String {
    format!("Caution. {title}. {text}")
}

pub(crate) fn spoken_next(what: &str) -> String {
    format!("Next: {what}")
}

pub(crate) fn refused(why: &str) -> String {
    format!("Not done: {why}")
}
