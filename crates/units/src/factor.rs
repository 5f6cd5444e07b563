//! Conversion factors: one of the named unit in SI.
//!
//! Source: NIST Special Publication 811 (2008 edition), appendix B.8. The publication prints seven digits; the values
//! here are the exact definitions it rests on, and a test holds them against the printed digits.

/// Avoirdupois pound, kg (exact by definition).
pub const POUND_KG: f64 = 0.453_592_37;
/// Avoirdupois ounce, kg: pound / 16.
pub const OUNCE_KG: f64 = 0.028_349_523_125;
/// Inch, m (exact by definition).
pub const INCH_M: f64 = 0.0254;
/// Foot, m: 12 inches.
pub const FOOT_M: f64 = 0.3048;
/// Mile an hour, m/s: 1609.344 m / 3600 s.
pub const MILE_PER_HOUR_MS: f64 = 0.447_04;
/// US fluid ounce, m3: 231/128 cubic inches.
pub const FLUID_OUNCE_M3: f64 = 2.957_352_956_25e-5;
/// US gallon, m3: 231 cubic inches.
pub const GALLON_M3: f64 = 3.785_411_784e-3;
/// Cubic inch, m3.
pub const CUBIC_INCH_M3: f64 = 1.638_706_4e-5;
/// Cubic foot, m3.
pub const CUBIC_FOOT_M3: f64 = 0.028_316_846_592;
/// Standard acceleration of free fall, m/s2 (exact by definition).
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Pound-force per square inch, Pa: pound x standard gravity / inch squared.
pub const PSI_PA: f64 = POUND_KG * STANDARD_GRAVITY / (INCH_M * INCH_M);
/// Conventional millimetre of mercury, Pa: 13 595.1 kg/m3 x standard gravity x 1 mm.
pub const MILLIMETRE_OF_MERCURY_PA: f64 = 133.322_387_415;
/// Conventional inch of mercury, Pa.
pub const INCH_OF_MERCURY_PA: f64 = 3_386.388_640_341;
/// Micron (micrometre) of mercury, Pa: the unit of electronic vacuum gauges.
pub const MICRON_PA: f64 = 0.133_322_387_415;
/// Torr, Pa: standard atmosphere / 760.
pub const TORR_PA: f64 = STANDARD_ATMOSPHERE_PA / 760.0;
/// Standard atmosphere, Pa (exact by definition).
pub const STANDARD_ATMOSPHERE_PA: f64 = 101_325.0;
/// British thermal unit (International Table), J.
pub const BTU_J: f64 = 1_055.055_852_62;
/// Horsepower of 550 foot-pounds-force a second, W.
pub const HORSEPOWER_W: f64 = 550.0 * FOOT_M * POUND_KG * STANDARD_GRAVITY;
/// Ton of refrigeration, W: 12 000 Btu an hour.
pub const TON_OF_REFRIGERATION_W: f64 = 12_000.0 * BTU_J / 3_600.0;
/// Year of 365 days, s: the year in which leak rates are quoted.
pub const YEAR_S: f64 = 31_536_000.0;
/// 0 degC, K (exact by definition).
pub const ZERO_CELSIUS_K: f64 = 273.15;
/// 0 degF below absolute zero, in degF (exact: 273.15 x 1.8 - 32).
pub const ZERO_FAHRENHEIT_R: f64 = 459.67;
