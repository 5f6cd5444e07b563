//! A picture: curves, marks and the range asked for, drawn as SVG that takes its colours from the page around it.

use std::fmt::Write as _;

use plotters::prelude::*;
use plotters::style::Color;

use crate::error::Error;

/// Size of a picture, in its own units.
const SIZE: (u32, u32) = (640, 340);
/// Colours a picture has for curves; more curves begin again.
pub const COLOURS: usize = 6;
/// Dashes of the curves, so that they differ without colour.
pub const DASHES: [&str; COLOURS] = ["none", "7 4", "2 3", "10 3 2 3", "4 4", "12 4"];
/// Rows a table of numbers has at most.
const ROWS: usize = 60;

/// Points of a picture.
pub type Points = Vec<(f64, f64)>;

/// One curve or one set of marks.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// What it is.
    pub name: String,
    /// Where it goes.
    pub points: Vec<(f64, f64)>,
    /// Joined by a line?
    pub line: bool,
    /// Marked at each point?
    pub marks: bool,
}

/// A range asked for, as a strip over x.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// What it is.
    pub name: String,
    /// x, least, most.
    pub points: Vec<(f64, f64, f64)>,
}

/// A picture.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plot {
    /// What it shows.
    pub title: String,
    /// Horizontal axis, with unit.
    pub x: String,
    /// Vertical axis, with unit.
    pub y: String,
    /// Curves.
    pub series: Vec<Series>,
    /// Ranges asked for.
    pub bands: Vec<Band>,
    /// Vertical axis by powers of ten?
    pub log: bool,
}

impl Plot {
    /// An empty picture.
    pub fn new(title: impl Into<String>, x: impl Into<String>, y: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            x: x.into(),
            y: y.into(),
            ..Self::default()
        }
    }

    /// With the vertical axis by powers of ten; what is not above zero is left out.
    #[must_use]
    pub fn log(mut self) -> Self {
        self.log = true;
        self
    }

    /// With a curve through marked points.
    #[must_use]
    pub fn curve(self, name: impl Into<String>, points: Vec<(f64, f64)>) -> Self {
        self.with(name, points, true, true)
    }

    /// With a plain line, for many points.
    #[must_use]
    pub fn line(self, name: impl Into<String>, points: Vec<(f64, f64)>) -> Self {
        self.with(name, points, true, false)
    }

    /// With marks alone.
    #[must_use]
    pub fn marks(self, name: impl Into<String>, points: Vec<(f64, f64)>) -> Self {
        self.with(name, points, false, true)
    }

    /// With a range asked for.
    #[must_use]
    pub fn band(mut self, name: impl Into<String>, points: Vec<(f64, f64, f64)>) -> Self {
        self.bands.push(Band {
            name: name.into(),
            points,
        });
        self
    }

    fn with(
        mut self,
        name: impl Into<String>,
        points: Vec<(f64, f64)>,
        line: bool,
        marks: bool,
    ) -> Self {
        self.series.push(Series {
            name: name.into(),
            points,
            line,
            marks,
        });
        self
    }

    /// Where a value stands on the vertical axis.
    fn height(&self, y: f64) -> Option<f64> {
        let y = if self.log { y.log10() } else { y };
        y.is_finite().then_some(y)
    }

    fn placed(&self, points: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let on = |&(x, y): &(f64, f64)| self.height(y).map(|y| (x, y));
        points.iter().filter_map(on).collect()
    }

    /// Least and most of both axes, with some room.
    fn extent(&self) -> ([f64; 2], [f64; 2]) {
        let mut all: Vec<(f64, f64)> = Vec::new();
        for s in &self.series {
            all.extend(self.placed(&s.points));
        }
        for b in &self.bands {
            for &(x, lo, hi) in &b.points {
                all.extend(self.placed(&[(x, lo), (x, hi)]));
            }
        }
        let span = |of: fn(&(f64, f64)) -> f64, room: f64| {
            let lo = all.iter().map(of).fold(f64::INFINITY, f64::min);
            let hi = all.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
            if lo > hi {
                return [0.0, 1.0];
            }
            let more = (hi - lo).max(1e-9 * hi.abs()).max(1e-12) * room;
            [lo - more, hi + more]
        };
        (span(|p| p.0, 0.02), span(|p| p.1, 0.06))
    }

    /// The picture as an SVG element with a title for those who do not see it.
    ///
    /// # Errors
    /// When the drawing library refuses.
    pub fn svg(&self) -> Result<String, Error> {
        let mut drawn = String::new();
        self.draw(&mut drawn)
            .map_err(|e| Error::Drawing(format!("{}: {e}", self.title)))?;
        Ok(dressed(&drawn, &self.title, &self.description()))
    }

    fn draw(&self, into: &mut String) -> Result<(), Box<dyn std::error::Error + '_>> {
        let root = SVGBackend::with_string(into, SIZE).into_drawing_area();
        let ([x0, x1], [y0, y1]) = self.extent();
        let ink = TextStyle::from(("sans-serif", 13)).color(&INK);
        let mut chart = ChartBuilder::on(&root)
            .margin(8)
            .margin_right(16)
            .x_label_area_size(40)
            .y_label_area_size(64)
            .build_cartesian_2d(x0..x1, y0..y1)?;
        let log = self.log;
        let figure = move |v: &f64| if log { power(*v) } else { number(*v) };
        chart
            .configure_mesh()
            .bold_line_style(GRID)
            .light_line_style(GRID.mix(0.0))
            .axis_style(INK)
            .x_labels(8)
            .y_labels(7)
            .x_label_formatter(&|v| number(*v))
            .y_label_formatter(&figure)
            .label_style(ink.clone())
            .axis_desc_style(ink)
            .x_desc(self.x.as_str())
            .y_desc(self.y.as_str())
            .draw()?;
        for band in &self.bands {
            let mut edge: Vec<(f64, f64)> = Vec::new();
            edge.extend(band.points.iter().map(|&(x, lo, _)| (x, lo)));
            edge.extend(band.points.iter().rev().map(|&(x, _, hi)| (x, hi)));
            chart.draw_series(std::iter::once(Polygon::new(
                self.placed(&edge),
                BAND.mix(0.16),
            )))?;
        }
        for (k, s) in self.series.iter().enumerate() {
            let colour = series_colour(k);
            let points = self.placed(&s.points);
            if s.line {
                chart.draw_series(LineSeries::new(
                    points.iter().copied(),
                    colour.stroke_width(2),
                ))?;
            }
            if s.marks {
                match k % 3 {
                    0 => chart
                        .draw_series(points.iter().map(|p| Circle::new(*p, 3, colour.filled())))?,
                    1 => chart.draw_series(
                        points
                            .iter()
                            .map(|p| TriangleMarker::new(*p, 5, colour.filled())),
                    )?,
                    _ => chart.draw_series(
                        points
                            .iter()
                            .map(|p| Cross::new(*p, 3, colour.stroke_width(2))),
                    )?,
                };
            }
        }
        root.present()?;
        Ok(())
    }

    /// One sentence for a screen reader.
    fn description(&self) -> String {
        let mut text = format!("{} over {}.", self.y, self.x);
        for s in &self.series {
            if let (Some(first), Some(last)) = (s.points.first(), s.points.last()) {
                let _ = write!(
                    text,
                    " {}: from {} at {} to {} at {}.",
                    s.name,
                    number(first.1),
                    number(first.0),
                    number(last.1),
                    number(last.0)
                );
            }
        }
        text
    }

    /// The numbers: a head and rows, one row an x, thinned where there are very many.
    pub fn numbers(&self) -> (Vec<String>, Vec<Vec<String>>) {
        let mut head = vec![self.x.clone()];
        head.extend(self.series.iter().map(|s| s.name.clone()));
        head.extend(self.bands.iter().map(|b| b.name.clone()));
        let mut at: Vec<f64> = self
            .series
            .iter()
            .flat_map(|s| s.points.iter().map(|p| p.0))
            .chain(self.bands.iter().flat_map(|b| b.points.iter().map(|p| p.0)))
            .collect();
        at.sort_by(f64::total_cmp);
        at.dedup();
        let thin = at.len().div_ceil(ROWS).max(1);
        let rows = at
            .iter()
            .step_by(thin)
            .map(|&x| {
                let mut row = vec![number(x)];
                for s in &self.series {
                    let here: Vec<String> = s
                        .points
                        .iter()
                        .filter(|p| p.0.total_cmp(&x).is_eq())
                        .map(|p| number(p.1))
                        .collect();
                    row.push(here.join(", "));
                }
                for b in &self.bands {
                    let here = b.points.iter().find(|p| p.0.total_cmp(&x).is_eq());
                    row.push(here.map_or(String::new(), |p| {
                        format!("{} to {}", number(p.1), number(p.2))
                    }));
                }
                row
            })
            .collect();
        (head, rows)
    }
}

/// Stand-ins for the page's colours; [`dressed`] puts the page's own in their place.
const INK: RGBColor = RGBColor(0, 0, 0);
const GRID: RGBColor = RGBColor(2, 2, 2);
const BAND: RGBColor = RGBColor(3, 3, 3);

fn series_colour(k: usize) -> RGBColor {
    RGBColor(1, 1, u8::try_from(k % COLOURS).unwrap_or(0))
}

/// The drawing with the page's colours, dashes, and words for a screen reader.
fn dressed(drawn: &str, title: &str, description: &str) -> String {
    let mut out = String::with_capacity(drawn.len() + 500);
    for line in drawn.lines() {
        let mut line = line.to_owned();
        if let Some(rest) = line.strip_prefix("<svg ") {
            let size = format!("width=\"{}\" height=\"{}\" ", SIZE.0, SIZE.1);
            line = format!(
                "<svg role=\"img\" aria-label=\"{}\" {}\n<title>{}</title><desc>{}</desc>",
                escape(title),
                rest.replacen(&size, "", 1),
                escape(title),
                escape(description)
            );
        }
        for (k, dash) in DASHES.iter().enumerate() {
            let token = format!("#01010{k}");
            if line.contains(&token) {
                let mut to = format!("var(--s{k})");
                if line.starts_with("<polyline") && *dash != "none" {
                    to = format!("{to}\" stroke-dasharray=\"{dash}");
                }
                line = line.replace(&token, &to);
            }
        }
        let line = line
            .replace("#000000", "currentColor")
            .replace("#020202", "var(--grid)")
            .replace("#030303", "var(--band)");
        out.push_str(&line);
        out.push('\n');
    }
    out
}

/// A number for an axis or a table: four digits, without empty zeros.
pub fn number(v: f64) -> String {
    let size = v.abs();
    if size != 0.0 && !(1e-3..1e6).contains(&size) {
        return format!("{v:.2e}");
    }
    let decimals = match size {
        s if s >= 1000.0 => 0,
        s if s >= 100.0 => 1,
        s if s >= 1.0 => 2,
        _ => 4,
    };
    let text = format!("{v:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" {
        "0".into()
    } else {
        text.into()
    }
}

fn power(v: f64) -> String {
    number(10f64.powf(v))
}

/// Text made safe for HTML and SVG.
pub fn escape(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}
