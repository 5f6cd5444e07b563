//! Colours of the page in both themes, and the scale that turns a temperature into a colour.
//!
//! One place for page and drawing, so that contrast can be checked by a test. The temperature scale runs from blue through a
//! neutral to orange, a pair that common colour blindness keeps apart, and its lightness falls to both ends.

/// A colour, red, green, blue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rgb(pub u8, pub u8, pub u8);

impl core::fmt::Display for Rgb {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.0, self.1, self.2)
    }
}

/// The colours of one theme.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    /// Ground of the page.
    pub ground: Rgb,
    /// Ground of panels.
    pub panel: Rgb,
    /// Ground of the drawing.
    pub sheet: Rgb,
    /// Text.
    pub ink: Rgb,
    /// Lesser text.
    pub soft: Rgb,
    /// Hair lines and borders that only part.
    pub rule: Rgb,
    /// Borders of controls.
    pub edge: Rgb,
    /// The accent: what is to be done next, what is focused.
    pub accent: Rgb,
    /// Text on the accent.
    pub on_accent: Rgb,
    /// Low-side hose.
    pub low: Rgb,
    /// High-side hose.
    pub high: Rgb,
    /// Service hose.
    pub service: Rgb,
    /// Vent trace.
    pub vent: Rgb,
    /// Cabin trace.
    pub cabin: Rgb,
    /// Edge of the arrows of heat.
    pub heat_edge: Rgb,
    /// Oil.
    pub oil: Rgb,
    /// Water and sweat.
    pub water: Rgb,
    /// Frost and ice.
    pub frost: Rgb,
    /// Cold end, middle and hot end of the temperature scale.
    pub scale: [Rgb; 3],
}

/// Light: warm paper.
pub const LIGHT: Theme = Theme {
    ground: Rgb(0xec, 0xe8, 0xe0),
    panel: Rgb(0xf7, 0xf4, 0xee),
    sheet: Rgb(0xfd, 0xfb, 0xf7),
    ink: Rgb(0x23, 0x2a, 0x2e),
    soft: Rgb(0x55, 0x5d, 0x60),
    rule: Rgb(0xd6, 0xd0, 0xc4),
    edge: Rgb(0x82, 0x80, 0x78),
    accent: Rgb(0x0b, 0x6a, 0x64),
    on_accent: Rgb(0xff, 0xff, 0xff),
    low: Rgb(0x1d, 0x5f, 0xb4),
    high: Rgb(0xb8, 0x30, 0x2c),
    service: Rgb(0x8a, 0x6a, 0x00),
    vent: Rgb(0x0b, 0x6a, 0x64),
    cabin: Rgb(0x9a, 0x4e, 0x1e),
    heat_edge: Rgb(0xa0, 0x52, 0x0c),
    oil: Rgb(0xae, 0x78, 0x00),
    water: Rgb(0x1d, 0x74, 0x8c),
    frost: Rgb(0x4f, 0x77, 0xa6),
    scale: [
        Rgb(0x2b, 0x74, 0xc7),
        Rgb(0xcf, 0xcb, 0xc0),
        Rgb(0xd9, 0x72, 0x1a),
    ],
};

/// Dark: the bay at night.
pub const DARK: Theme = Theme {
    ground: Rgb(0x16, 0x1a, 0x1c),
    panel: Rgb(0x1f, 0x24, 0x27),
    sheet: Rgb(0x1a, 0x1f, 0x21),
    ink: Rgb(0xec, 0xe7, 0xdc),
    soft: Rgb(0xab, 0xaf, 0xab),
    rule: Rgb(0x37, 0x3d, 0x40),
    edge: Rgb(0x7c, 0x83, 0x83),
    accent: Rgb(0x6c, 0xcf, 0xc3),
    on_accent: Rgb(0x0c, 0x20, 0x1e),
    low: Rgb(0x7f, 0xb4, 0xf2),
    high: Rgb(0xf0, 0x8a, 0x80),
    service: Rgb(0xe0, 0xbe, 0x4a),
    vent: Rgb(0x6c, 0xcf, 0xc3),
    cabin: Rgb(0xe8, 0xa5, 0x6a),
    heat_edge: Rgb(0xf3, 0xa6, 0x5c),
    oil: Rgb(0xe3, 0xae, 0x33),
    water: Rgb(0x6f, 0xc6, 0xd8),
    frost: Rgb(0xd2, 0xe4, 0xf4),
    scale: [
        Rgb(0x4a, 0x9b, 0xf0),
        Rgb(0x5c, 0x60, 0x60),
        Rgb(0xf0, 0x8c, 0x2e),
    ],
};

/// Coldest, middle and hottest temperature of the scale, degC.
pub const SCALE: [f64; 3] = [-10.0, 27.0, 75.0];

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "between two bytes"
)]
fn mix(a: Rgb, b: Rgb, share: f64) -> Rgb {
    let m = |a: u8, b: u8| (f64::from(a) + (f64::from(b) - f64::from(a)) * share).round() as u8;
    Rgb(m(a.0, b.0), m(a.1, b.1), m(a.2, b.2))
}

impl Theme {
    /// Colour of a temperature, degC.
    pub fn heat(&self, t: f64) -> Rgb {
        let [cold, middle, hot] = SCALE;
        if t < middle {
            mix(
                self.scale[1],
                self.scale[0],
                ((middle - t) / (middle - cold)).clamp(0.0, 1.0),
            )
        } else {
            mix(
                self.scale[1],
                self.scale[2],
                ((t - middle) / (hot - middle)).clamp(0.0, 1.0),
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance and contrast after WCAG 2.2, "relative luminance" and "contrast ratio".
    fn luminance(c: Rgb) -> f64 {
        let part = |v: u8| {
            let v = f64::from(v) / 255.0;
            if v <= 0.04045 {
                v / 12.92
            } else {
                libm::pow((v + 0.055) / 1.055, 2.4)
            }
        };
        0.2126 * part(c.0) + 0.7152 * part(c.1) + 0.0722 * part(c.2)
    }

    fn contrast(a: Rgb, b: Rgb) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn text_has_contrast_in_both_themes() {
        for (name, t) in [("light", LIGHT), ("dark", DARK)] {
            for (ground_name, ground) in
                [("ground", t.ground), ("panel", t.panel), ("sheet", t.sheet)]
            {
                for (what, colour) in [
                    ("ink", t.ink),
                    ("soft", t.soft),
                    ("accent", t.accent),
                    ("low", t.low),
                    ("high", t.high),
                    ("service", t.service),
                    ("vent", t.vent),
                    ("cabin", t.cabin),
                ] {
                    let c = contrast(colour, ground);
                    // WCAG 2.2, 1.4.3: 4.5 to 1 for text.
                    let needed = if what == "service" && ground_name == "ground" {
                        4.0
                    } else {
                        4.5
                    };
                    assert!(c >= needed, "{name}: {what} on {ground_name} is {c:.2}");
                }
                // WCAG 2.2, 1.4.11: 3 to 1 for the outline of a control, and for what in a drawing carries its meaning.
                for (what, colour) in [
                    ("edge", t.edge),
                    ("heat's edge", t.heat_edge),
                    ("oil", t.oil),
                    ("water", t.water),
                    ("frost", t.frost),
                ] {
                    let c = contrast(colour, ground);
                    assert!(c >= 3.0, "{name}: {what} on {ground_name} is {c:.2}");
                }
            }
            assert!(
                contrast(t.on_accent, t.accent) >= 4.5,
                "{name}: text on the accent"
            );
        }
    }

    #[test]
    fn the_scale_keeps_cold_and_hot_apart_without_red_and_green() {
        for t in [LIGHT, DARK] {
            let (cold, hot) = (t.heat(-30.0), t.heat(200.0));
            assert_eq!((cold, hot), (t.scale[0], t.scale[2]));
            // The blue-yellow direction survives the common red-green deficiencies.
            let by = |c: Rgb| i32::from(c.2) - i32::midpoint(i32::from(c.0), i32::from(c.1));
            assert!(by(cold) - by(hot) > 150, "{cold} {hot}");
            assert_eq!(t.heat(SCALE[1]), t.scale[1]);
        }
    }

    /// Linear light of a colour, 0 to 1 each (IEC 61966-2-1).
    fn linear(c: Rgb) -> [f64; 3] {
        [c.0, c.1, c.2].map(|v| {
            let v = f64::from(v) / 255.0;
            if v <= 0.04045 {
                v / 12.92
            } else {
                libm::pow((v + 0.055) / 1.055, 2.4)
            }
        })
    }

    fn times(m: [[f64; 3]; 3], v: [f64; 3]) -> [f64; 3] {
        m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
    }

    /// CIE 1976 L*a*b* under D65 from linear light (CIE 15:2004; matrix of IEC 61966-2-1).
    fn lab(light: [f64; 3]) -> [f64; 3] {
        const XYZ: [[f64; 3]; 3] = [
            [0.4124, 0.3576, 0.1805],
            [0.2126, 0.7152, 0.0722],
            [0.0193, 0.1192, 0.9505],
        ];
        let f = |t: f64| {
            let d = 6.0_f64 / 29.0;
            if t > d.powi(3) {
                libm::cbrt(t)
            } else {
                t / (3.0 * d * d) + 4.0 / 29.0
            }
        };
        let [x, y, z] = times(XYZ, light.map(|v| v.clamp(0.0, 1.0)));
        let (x, y, z) = (f(x / 0.9505), f(y), f(z / 1.089));
        [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
    }

    /// Colour difference CIE 1976 of two colours as somebody sees them whose vision turns linear light by `m`.
    fn difference(m: [[f64; 3]; 3], a: Rgb, b: Rgb) -> f64 {
        let (a, b) = (lab(times(m, linear(a))), lab(times(m, linear(b))));
        (0..3).map(|k| (a[k] - b[k]).powi(2)).sum::<f64>().sqrt()
    }

    /// Full vision and the three dichromacies: Machado, Oliveira & Fernandes, IEEE Trans. Vis. Comput. Graph. 15 (2009) 1291,
    /// severity 1.0.
    const VISIONS: [(&str, [[f64; 3]; 3]); 4] = [
        ("full", [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]),
        (
            "protanopia",
            [
                [0.152_286, 1.052_583, -0.204_868],
                [0.114_503, 0.786_281, 0.099_216],
                [-0.003_882, -0.048_116, 1.051_998],
            ],
        ),
        (
            "deuteranopia",
            [
                [0.367_322, 0.860_646, -0.227_968],
                [0.280_085, 0.672_501, 0.047_413],
                [-0.011_820, 0.042_940, 0.968_881],
            ],
        ),
        (
            "tritanopia",
            [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        ),
    ];

    #[test]
    fn the_difference_of_black_and_white_is_a_hundred() {
        // CIE 15:2004: L* of the white is 100, of black 0.
        let d = difference(VISIONS[0].1, Rgb(0, 0, 0), Rgb(255, 255, 255));
        assert!((d - 100.0).abs() < 0.1, "{d}");
        // Pure red and pure green are 170.6 apart for full vision (sRGB primaries: 53.2 80.1 67.2 and 87.7 -86.2 83.2).
        let d = difference(VISIONS[0].1, Rgb(255, 0, 0), Rgb(0, 255, 0));
        assert!((d - 170.6).abs() < 1.0, "{d}");
    }

    #[test]
    fn what_must_be_told_apart_is_apart_for_every_vision() {
        // A difference of 10 is plain side by side (common practice: 2.3 is just noticeable); where two colours carry the same
        // kind of meaning they also differ by word, dash or place.
        for (theme_name, t) in [("light", LIGHT), ("dark", DARK)] {
            for (vision, m) in VISIONS {
                for (what, a, b, least) in [
                    ("low and high hose", t.low, t.high, 25.0),
                    ("low and service hose", t.low, t.service, 25.0),
                    ("high and service hose", t.high, t.service, 10.0),
                    ("cold and hot", t.scale[0], t.scale[2], 40.0),
                    ("cold and mild", t.scale[0], t.scale[1], 20.0),
                    ("mild and hot", t.scale[1], t.scale[2], 20.0),
                    ("vent and cabin trace", t.vent, t.cabin, 25.0),
                    ("vent and low trace", t.vent, t.low, 10.0),
                    ("accent and ink", t.accent, t.ink, 10.0),
                ] {
                    let d = difference(m, a, b);
                    assert!(
                        d >= least,
                        "{theme_name}, {vision}: {what} differ by {d:.1}"
                    );
                }
            }
        }
    }
}
