//! The strip chart: axes on one canvas, drawn when they change; traces on another above it.
use lowside_present::{
    history::{History, Row, Trace, marks},
    palette::{Rgb, Theme},
};
use lowside_session::{Bay, TICKS_PER_SECOND};
use lowside_units::{
    GaugePressure, Temperature,
    display::{PressureUnit, TemperatureUnit, UnitSystem},
};
use plotters::{
    chart::{ChartBuilder, ChartContext},
    coord::{Shift, types::RangedCoordf64},
    drawing::{DrawingArea, IntoDrawingArea},
    prelude::Cartesian2d,
    series::LineSeries,
    style::{Color, IntoFont, RGBColor, ShapeStyle},
};
use plotters_canvas::CanvasBackend;
use web_sys::HtmlCanvasElement;
use yew::{Html, Properties, component, html};

use std::rc::Rc;

use crate::{host, words};

/// What the axes depend on; they are drawn anew when it changes.
#[derive(Clone, PartialEq)]
struct Frame {
    units: UnitSystem,
    dark: bool,
    minutes: u32,
    size: (i32, i32),
    ratio: f64,
}

/// The strip chart.
#[derive(Default)]
pub(crate) struct Chart {
    drawn: Option<Frame>,
}

type Sheet = DrawingArea<CanvasBackend, Shift>;
type Plot<'a> = ChartContext<'a, CanvasBackend, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

fn ink(c: Rgb) -> RGBColor {
    RGBColor(c.0, c.1, c.2)
}

fn pressure(pa: f64, units: UnitSystem) -> f64 {
    let p = GaugePressure::from_pa(pa);
    match units.pressure {
        PressureUnit::Psi => p.psi(),
        PressureUnit::Kpa => p.kpa(),
        PressureUnit::Bar => p.bar(),
    }
}

fn degrees(k: f64, units: UnitSystem) -> f64 {
    let t = Temperature::from_k(k);
    match units.temperature {
        TemperatureUnit::Fahrenheit => t.deg_f(),
        TemperatureUnit::Celsius => t.deg_c(),
    }
}

/// Makes a canvas as large as its place, device pixels counted, and clears it.
fn sheet(canvas: &HtmlCanvasElement, f: &Frame) -> Option<Sheet> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a screen's size"
    )]
    let device = |css: i32| (f64::from(css) * f.ratio).round() as u32;
    // Setting the size also clears.
    canvas.set_width(device(f.size.0));
    canvas.set_height(device(f.size.1));
    Some(CanvasBackend::with_canvas_object(canvas.clone())?.into_drawing_area())
}

/// The two plots, laid out the same on both canvases: pressures above, temperatures below.
fn plots(area: &Sheet, f: &Frame) -> Option<(Plot<'static>, Plot<'static>)> {
    let px = |css: f64| css * f.ratio;
    #[expect(clippy::cast_possible_truncation, reason = "a screen's size")]
    let whole = |css: f64| px(css).round() as i32;
    let (upper, lower) = area.split_vertically(whole(f64::from(f.size.1) * 0.56));
    let most = match f.units.pressure {
        PressureUnit::Psi => 450.0,
        PressureUnit::Kpa => 3100.0,
        PressureUnit::Bar => 31.0,
    };
    let t = match f.units.temperature {
        TemperatureUnit::Fahrenheit => 30.0..100.0,
        TemperatureUnit::Celsius => 0.0..40.0,
    };
    let minutes = f64::from(f.minutes);
    let upper = ChartBuilder::on(&upper)
        .margin_top(whole(7.0))
        .margin_right(whole(14.0))
        .set_label_area_size(plotters::chart::LabelAreaPosition::Left, whole(40.0))
        .build_cartesian_2d(-minutes..0.0, -0.0..most)
        .ok()?;
    let lower = ChartBuilder::on(&lower)
        .margin_top(whole(11.0))
        .margin_right(whole(14.0))
        .set_label_area_size(plotters::chart::LabelAreaPosition::Left, whole(40.0))
        .set_label_area_size(plotters::chart::LabelAreaPosition::Bottom, whole(18.0))
        .build_cartesian_2d(-minutes..0.0, t)
        .ok()?;
    Some((upper, lower))
}

impl Chart {
    /// Draws the traces, and the axes if need be.
    pub(crate) fn draw(
        &mut self,
        (axes, traces): (&HtmlCanvasElement, &HtmlCanvasElement),
        theme: &Theme,
        (bay, history): (&Bay, &History),
        units: UnitSystem,
        minutes: u32,
    ) {
        let frame = Frame {
            units,
            dark: host::dark(),
            minutes,
            size: (traces.client_width(), traces.client_height()),
            ratio: host::pixel_ratio(),
        };
        if frame.size.0 < 80 || frame.size.1 < 60 {
            return;
        }
        if self.drawn.as_ref() != Some(&frame) && draw_axes(axes, &frame, theme).is_some() {
            self.drawn = Some(frame.clone());
        }
        let _ = draw_traces(traces, &frame, theme, bay, history);
    }
}

fn draw_axes(canvas: &HtmlCanvasElement, f: &Frame, theme: &Theme) -> Option<()> {
    let area = sheet(canvas, f)?;
    let (mut upper, mut lower) = plots(&area, f)?;
    let font = ("sans-serif", 11.0 * f.ratio)
        .into_font()
        .color(&ink(theme.soft));
    let rule = ShapeStyle::from(&ink(theme.rule)).stroke_width(1);
    let none = ShapeStyle::from(&ink(theme.rule).mix(0.0));
    let axis = ShapeStyle::from(&ink(theme.edge)).stroke_width(1);
    upper
        .configure_mesh()
        .light_line_style(none)
        .bold_line_style(rule)
        .axis_style(axis)
        .x_labels(7)
        .y_labels(5)
        .y_label_style(font.clone())
        .y_label_formatter(&|v| format!("{v:.0}"))
        .draw()
        .ok()?;
    lower
        .configure_mesh()
        .light_line_style(none)
        .bold_line_style(rule)
        .axis_style(axis)
        .x_labels(7)
        .y_labels(4)
        .x_label_style(font.clone())
        .y_label_style(font)
        .x_label_formatter(&|v| {
            if *v > -0.01 {
                words::now().into()
            } else {
                words::minutes_ago(v.abs())
            }
        })
        .y_label_formatter(&|v| format!("{v:.0}\u{b0}"))
        .draw()
        .ok()?;
    area.present().ok()
}

fn draw_traces(
    canvas: &HtmlCanvasElement,
    f: &Frame,
    theme: &Theme,
    bay: &Bay,
    history: &History,
) -> Option<()> {
    let area = sheet(canvas, f)?;
    let (mut upper, mut lower) = plots(&area, f)?;
    let minutes = f64::from(f.minutes);
    let span = u64::from(f.minutes) * 60 * TICKS_PER_SECOND;
    let to = bay.tick();
    let from = to.saturating_sub(span);
    // Early on the window is not yet full: what there is stands at its right.
    let part = (to - from) as f64 / span as f64;
    let x = |at: f64| -minutes * part * (1.0 - at);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a screen's size"
    )]
    let columns = (f64::from(f.size.0) * part).max(1.0) as usize;
    let width = |css: f64| {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few pixels"
        )]
        let w = (css * f.ratio).round().max(1.0) as u32;
        w
    };
    let style = |c: Rgb, css: f64| ShapeStyle::from(&ink(c)).stroke_width(width(css));
    let of = |trace: Trace| history.thin(trace, from, to, columns);
    let mut last_text = f64::NEG_INFINITY;
    let mut last = f64::NEG_INFINITY;
    for (at, kind) in marks(bay, from, to) {
        if (x(at) - last) / minutes * f64::from(f.size.0) < 12.0 {
            continue;
        }
        last = x(at);
        let most = pressure(3.1e6, f.units);
        upper
            .draw_series(LineSeries::new(
                [(x(at), 0.0), (x(at), most)],
                style(theme.rule, 1.0),
            ))
            .ok()?;
        // A name that would lie upon the one before is left out.
        if (x(at) - last_text) / minutes * f64::from(f.size.0) < 46.0 || at > 0.96 {
            continue;
        }
        last_text = x(at);
        let font = ("sans-serif", 10.0 * f.ratio)
            .into_font()
            .color(&ink(theme.soft));
        let text = plotters::element::Text::new(words::mark(kind), (x(at), most * 0.98), font);
        upper.draw_series([text]).ok()?;
    }
    for (trace, colour) in [(Trace::High, theme.high), (Trace::Low, theme.low)] {
        let points = of(trace)
            .into_iter()
            .map(|(at, v)| (x(at), pressure(v, f.units)));
        upper
            .draw_series(LineSeries::new(points, style(colour, 1.6)))
            .ok()?;
    }
    for (a, b) in history.clutch_in(from, to) {
        upper
            .draw_series(LineSeries::new(
                [(x(a), 0.0), (x(b), 0.0)],
                style(theme.accent, 5.0),
            ))
            .ok()?;
    }
    for (trace, colour, css) in [
        (Trace::Cabin, theme.soft, 1.2),
        (Trace::Vent, theme.vent, 1.8),
    ] {
        let points = of(trace)
            .into_iter()
            .map(|(at, v)| (x(at), degrees(v, f.units)));
        lower
            .draw_series(LineSeries::new(points, style(colour, css)))
            .ok()?;
    }
    area.present().ok()
}

#[derive(Properties, PartialEq)]
pub(crate) struct TableProps {
    pub(crate) rows: Rc<Vec<Row>>,
}

/// The chart as numbers.
#[component]
pub(crate) fn ChartTable(p: &TableProps) -> Html {
    html! {
        <details>
            <summary>{ words::numbers() }</summary>
            <div class="scroll" tabindex="0" role="region" aria-label={words::numbers_table()}>
            <table>
                <caption class="unseen">{ words::numbers_caption() }</caption>
                <thead><tr>
                    { for words::numbers_columns().iter().map(|h| html! { <th scope="col">{ *h }</th> }) }
                </tr></thead>
                <tbody>
                    { for p.rows.iter().map(|r| html! {
                        <tr><th scope="row">{ &r.time.number }</th>
                            { for [&r.low, &r.high, &r.vent, &r.cabin].iter().map(|s| html! { <td>{ s.to_string() }</td> }) }
                            <td>{ words::in_out()[usize::from(r.clutch)] }</td>
                        </tr>
                    }) }
                </tbody>
            </table>
            </div>
        </details>
    }
}
