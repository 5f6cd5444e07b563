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
                // WCAG 2.2, 1.4.11: 3 to 1 for the outline of a control.
                let c = contrast(t.edge, ground);
                assert!(c >= 3.0, "{name}: edge on {ground_name} is {c:.2}");
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
}
