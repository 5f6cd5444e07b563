//! Charts of properties: the still lines on one canvas, what moves on another above it, and the same as a table and as files.
use std::rc::Rc;

use lowside_present::{
    palette::Theme,
    parts::Part,
    plot::{self, Axis, Dot, Frame, Line, Live, Name, Plot},
};
use web_sys::Element;
use yew::{
    Callback, FocusEvent, Html, MouseEvent, Properties, classes, component, html, use_effect_with,
    use_node_ref,
};

use crate::{
    ink::{self, Kind, Marks, Side},
    sheet, theme,
    words::{self, charts},
};

/// Where the plot lies in its place, and how values become places.
struct Grid<'a> {
    frame: &'a Frame,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

/// Where a value stands on an axis, 0 to 1.
pub(crate) fn share(axis: &Axis, v: f64) -> f64 {
    let [a, b] = axis.range;
    if axis.log {
        (v.max(a * 1e-3) / a).ln() / (b / a).ln()
    } else {
        (v - a) / (b - a)
    }
}

impl<'a> Grid<'a> {
    fn new(frame: &'a Frame, (w, h): (f64, f64)) -> Self {
        Self {
            frame,
            left: 46.0,
            right: w - 14.0,
            top: 24.0,
            bottom: h - 34.0,
        }
    }

    fn x(&self, v: f64) -> f64 {
        self.left + (self.right - self.left) * share(&self.frame.x, v)
    }

    fn y(&self, v: f64) -> f64 {
        self.bottom - (self.bottom - self.top) * share(&self.frame.y, v)
    }

    fn at(&self, p: (f64, f64)) -> (f64, f64) {
        (self.x(p.0), self.y(p.1))
    }

    /// The pieces of a line that lie within the plot.
    fn pieces(&self, line: &Line) -> Vec<Vec<(f64, f64)>> {
        let mut out: Vec<Vec<(f64, f64)>> = vec![Vec::new()];
        let inside = |p: (f64, f64)| {
            p.0 >= self.left - 0.5
                && p.0 <= self.right + 0.5
                && p.1 >= self.top - 0.5
                && p.1 <= self.bottom + 0.5
        };
        let mut before: Option<(f64, f64)> = None;
        for p in line.points.iter().map(|p| self.at(*p)) {
            if let Some(q) = before
                && inside(p) != inside(q)
            {
                // Cut where it crosses the edge.
                let (mut a, mut b) = (q, p);
                for _ in 0..20 {
                    let m = (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1));
                    if inside(m) == inside(a) {
                        a = m;
                    } else {
                        b = m;
                    }
                }
                if let Some(last) = out.last_mut() {
                    last.push(a);
                }
                if !inside(p) {
                    out.push(Vec::new());
                }
            }
            if inside(p)
                && let Some(last) = out.last_mut()
            {
                last.push(p);
            }
            before = Some(p);
        }
        out.retain(|piece| piece.len() > 1);
        out
    }
}

fn number(v: f64, decimals: usize) -> String {
    let sign = if v < -1e-9 { "\u{2212}" } else { "" };
    let v = v.abs();
    if v >= 1e4 {
        // Long ones are read by their thousands.
        return format!("{sign}{:.0}\u{202f}{:03.0}", (v / 1e3).floor(), v % 1e3);
    }
    format!("{sign}{v:.decimals$}")
}

/// The upright lines and the numbers under them.
fn below(g: &Grid, frame: &Frame, width: f64, t: &Theme, m: &mut Marks) {
    let half = |text: &str| 3.2 * text.chars().count() as f64;
    // The last number is kept; before it those give way that would touch the one before them, or it.
    let end = frame
        .x
        .ticks
        .iter()
        .rev()
        .find(|&&v| g.x(v) <= g.right + 0.5);
    let room = end.map_or(f64::INFINITY, |&v| {
        g.x(v).min(width - 3.0) - 2.0 * half(&number(v, frame.x.decimals))
    });
    let mut last = f64::NEG_INFINITY;
    for &v in &frame.x.ticks {
        let x = g.x(v);
        if x < g.left - 0.5 || x > g.right + 0.5 {
            continue;
        }
        m.line(vec![(x, g.top), (x, g.bottom)], t.rule, 1.0);
        let text = number(v, frame.x.decimals);
        let half = half(&text);
        if x - half - last > 8.0 && (x + half + 8.0 < room || Some(&v) == end) {
            last = x + half;
            let x = x.min(width - 3.0 - half);
            m.text(text, (x, g.bottom + 9.0), 11.0, Side::Centre, t.soft);
        }
    }
}

/// Axes and still lines.
fn still(frame: &Frame, size: (f64, f64), t: &Theme) -> Marks {
    let g = Grid::new(frame, size);
    let mut m = Marks::default();
    below(&g, frame, size.0, t, &mut m);
    for &v in &frame.y.ticks {
        let y = g.y(v);
        if y < g.top - 0.5 || y > g.bottom + 0.5 {
            continue;
        }
        m.line(vec![(g.left, y), (g.right, y)], t.rule, 1.0);
        m.text(
            number(v, frame.y.decimals),
            (g.left - 6.0, y),
            11.0,
            Side::Right,
            t.soft,
        );
    }
    let mut last_label = f64::NEG_INFINITY;
    for line in &frame.lines {
        let (colour, width, dash) = match line.name {
            Name::Saturation => (t.ink, 2.0, None),
            Name::Isotherm => (t.edge, 1.0, None),
            Name::Quality => (t.edge, 1.0, Some([2.0, 4.0])),
            Name::Freezing => (t.low, 1.2, Some([6.0, 4.0])),
            _ => (t.edge, 1.0, Some([5.0, 3.0])),
        };
        let pieces = g.pieces(line);
        for piece in &pieces {
            match dash {
                Some(d) => m.dashed(piece, colour, width, d),
                None => m.line(piece.clone(), colour, width),
            }
        }
        let Some(end) = pieces.last().and_then(|p| p.last()) else {
            continue;
        };
        if line.name == Name::Freezing {
            m.text(
                charts::name(line.name),
                (g.right - 4.0, end.1 - 8.0),
                11.0,
                Side::Right,
                t.low,
            );
        } else if let Some(label) = &line.label {
            let (low, high) = (end.1 > g.bottom - 14.0, end.1 < g.top + 2.0);
            let (at, side) = if low {
                ((end.0 + 2.0, end.1 - 8.0), Side::Left)
            } else if high {
                // Over the plot's edge, where the line leaves it.
                ((end.0, g.top - 7.0), Side::Centre)
            } else {
                ((end.0 - 4.0, end.1 - 8.0), Side::Right)
            };
            // Figures that would lie upon each other are left out.
            if (low || high) && (at.0 - last_label).abs() < if low { 30.0 } else { 33.0 }
                || low && at.0 + 26.0 > g.right
            {
                continue;
            }
            if low || high {
                last_label = at.0;
            }
            m.text(label.clone(), at, 10.5, side, t.soft);
        }
    }
    m.line(
        vec![(g.left, g.top), (g.left, g.bottom), (g.right, g.bottom)],
        t.edge,
        1.0,
    );
    let title = |a: &Axis| words::unit_of(charts::name(a.name), a.unit);
    m.text(title(&frame.y), (6.0, 10.0), 11.0, Side::Left, t.ink);
    m.text(
        title(&frame.x),
        (g.right, size.1 - 8.0),
        11.0,
        Side::Right,
        t.ink,
    );
    m
}

/// Where a point's name stands to it.
fn beside(name: Name) -> ((f64, f64), Side) {
    match name {
        Name::Discharge | Name::Outside | Name::OutsideWarmth => ((9.0, -8.0), Side::Left),
        Name::Suction | Name::LowSide | Name::BoilsHere => ((9.0, 11.0), Side::Left),
        Name::BeforeOrifice | Name::CoilOut | Name::Static | Name::HighSide | Name::Mixed => {
            ((-9.0, -9.0), Side::Right)
        }
        Name::Vent | Name::Cabin => ((9.0, 10.0), Side::Left),
        _ => ((-9.0, 11.0), Side::Right),
    }
}

/// Points, paths and dimensions of the moment.
fn moving(frame: &Frame, live: &Live, size: (f64, f64), t: &Theme, lit: Option<Part>) -> Marks {
    let g = Grid::new(frame, size);
    let mut m = Marks::default();
    for path in &live.paths {
        for piece in g.pieces(path) {
            match path.name {
                Name::Mixing => m.dashed(&piece, t.soft, 1.6, [7.0, 4.0]),
                Name::Reading => m.dashed(&piece, t.accent, 1.6, [3.0, 3.0]),
                Name::Reheat => m.line(piece, t.heat(62.0), 2.4),
                Name::Coil => m.line(piece, t.heat(-10.0), 2.6),
                _ => m.line(piece, t.ink, 2.4),
            }
        }
    }
    for s in &live.spans {
        let (a, b) = (g.at(s.from), g.at(s.to));
        let up = if s.name == Name::Subcooling {
            -16.0
        } else {
            18.0
        };
        let y = a.1 + up;
        for end in [a, b] {
            m.line(
                vec![
                    (end.0, end.1 + up.signum() * 3.0),
                    (end.0, y + up.signum() * 4.0),
                ],
                t.accent,
                1.2,
            );
        }
        m.line(vec![(a.0, y), (b.0, y)], t.accent, 1.6);
        let text = format!("{} {}", charts::name(s.name), s.shown);
        let middle = f64::midpoint(a.0, b.0);
        let side = if middle > g.right - 90.0 {
            Side::Right
        } else if middle < g.left + 90.0 {
            Side::Left
        } else {
            Side::Centre
        };
        m.text(text, (middle, y + up.signum() * 11.0), 11.5, side, t.accent);
    }
    let mut named: Vec<(f64, f64, f64)> = Vec::new();
    for d in &live.dots {
        let at = g.at(d.at);
        let at = (at.0.clamp(g.left, g.right), at.1.clamp(g.top, g.bottom));
        if d.part.is_some() && d.part == lit {
            m.0.push(ink::Mark::Disc(
                at,
                if d.small { 8.0 } else { 10.0 },
                t.sheet,
                t.accent,
            ));
        }
        m.0.push(ink::Mark::Disc(
            at,
            if d.small { 3.5 } else { 5.5 },
            colour(d, t),
            t.ink,
        ));
        if d.small || d.name == Name::AccumulatorOut {
            continue;
        }
        let ((dx, dy), side) = beside(d.name);
        let room = 6.4 * charts::name(d.name).chars().count() as f64;
        // Where the edge is near it changes sides, and stands where the lines of the chart leave it free.
        let (x, dy, side) = match side {
            Side::Left if at.0 + dx + room > g.right => (at.0 - 9.0, dy.min(-9.0), Side::Right),
            Side::Right if at.0 + dx - room < g.left && d.name == Name::CoilOut => {
                (at.0, -30.0, Side::Left)
            }
            Side::Right if at.0 + dx - room < g.left => (at.0 + 9.0, 13.0, Side::Left),
            _ => (at.0 + dx, dy, side),
        };
        let place = (x, at.1 + dy);
        let from = if side == Side::Left { x } else { x - room };
        // A name that would lie upon another is left to the table.
        let taken = |&(a, b, y): &(f64, f64, f64)| {
            from < b && from + room > a && (y - place.1).abs() < 13.0
        };
        if named.iter().any(taken) {
            continue;
        }
        named.push((from, from + room, place.1));
        m.text(charts::name(d.name), place, 11.5, side, t.ink);
    }
    m
}

fn colour(d: &Dot, t: &Theme) -> lowside_present::palette::Rgb {
    match d.name {
        Name::Discharge | Name::InCondenser | Name::BeforeOrifice | Name::HighSide => t.high,
        Name::Suction
        | Name::InEvaporator
        | Name::BehindOrifice
        | Name::AccumulatorOut
        | Name::LowSide
        | Name::BoilsHere => t.low,
        Name::Static | Name::Vent => t.accent,
        _ => t.soft,
    }
}

#[derive(Properties, PartialEq)]
pub(crate) struct PlotProps {
    pub(crate) plot: Plot,
    pub(crate) frame: Rc<Frame>,
    pub(crate) live: Rc<Live>,
    pub(crate) lit: Option<Part>,
    pub(crate) dark: bool,
    pub(crate) light: Callback<Option<Part>>,
}

/// A chart.
#[component]
pub(crate) fn PlotView(p: &PlotProps) -> Html {
    let (under, over) = (use_node_ref(), use_node_ref());
    let size = over.cast::<Element>().and_then(|e| ink::place(&e));
    {
        let (under, frame) = (under.clone(), p.frame.clone());
        // Drawn when it is first there, and when its size, units or colours change.
        use_effect_with((p.frame.clone(), p.dark, size), move |_| {
            if let Some(sheet) = under.cast::<Element>()
                && let Some(size) = ink::place(&sheet)
            {
                ink::on_page(&sheet, &still(&frame, size, theme::current()), size);
            }
        });
    }
    {
        let (over, frame, live, lit) = (over.clone(), p.frame.clone(), p.live.clone(), p.lit);
        use_effect_with((p.live.clone(), p.lit, p.dark, size), move |_| {
            if let Some(sheet) = over.cast::<Element>()
                && let Some(size) = ink::place(&sheet)
            {
                let marks = moving(&frame, &live, size, theme::current(), lit);
                ink::on_page(&sheet, &marks, size);
            }
        });
    }
    let hover = {
        let (over, frame, live, light) = (
            over.clone(),
            p.frame.clone(),
            p.live.clone(),
            p.light.clone(),
        );
        Callback::from(move |e: MouseEvent| {
            let Some((w, h)) = over.cast::<Element>().and_then(|e| ink::place(&e)) else {
                return;
            };
            let g = Grid::new(&frame, (w, h));
            let (x, y) = sheet::pointed(&e);
            let far = |d: &&Dot| {
                let (dx, dy) = g.at(d.at);
                (dx - x).hypot(dy - y)
            };
            let near = live.dots.iter().min_by(|a, b| far(a).total_cmp(&far(b)));
            light.emit(near.filter(|d| far(d) < 16.0).and_then(|d| d.part));
        })
    };
    let leave = {
        let light = p.light.clone();
        Callback::from(move |_: MouseEvent| light.emit(None))
    };
    let save = {
        let (over, frame, live, plot) = (over.clone(), p.frame.clone(), p.live.clone(), p.plot);
        Callback::from(move |kind: Kind| {
            let (w, h) = over
                .cast::<Element>()
                .and_then(|e| ink::place(&e))
                .unwrap_or((800.0, 500.0));
            let t = theme::current();
            let mut marks = still(&frame, (w, h), t);
            marks.0.extend(moving(&frame, &live, (w, h), t, None).0);
            let csv = || plot::csv(&frame, &live, &|n| charts::name(n).to_owned());
            ink::save(
                kind,
                crate::views::View::Plot(plot).id(),
                marks,
                t.sheet,
                (w, h),
                csv,
            );
        })
    };
    let id = crate::views::View::Plot(p.plot).id();
    html! {
        <section class="chart plot" aria-labelledby={format!("{id}-title")}>
            <h2 id={format!("{id}-title")}>{ charts::plot(p.plot) }<small>{ charts::plot_idea(p.plot) }</small></h2>
            <div class="strip">
                <div ref={under} aria-hidden="true"></div>
                <div ref={over} role="img" aria-label={spoken(p.plot, &p.live)} onmousemove={hover} onmouseleave={leave}></div>
            </div>
            <div class="foot">{ points(p) }{ saver(&save) }</div>
        </section>
    }
}

/// What a chart says to those who listen: its idea; the table gives the figures.
fn spoken(plot: Plot, live: &Live) -> String {
    let spans: Vec<_> = live
        .spans
        .iter()
        .map(|s| format!("{} {}", charts::name(s.name), s.shown))
        .collect();
    format!(
        "{}: {}. {}",
        charts::plot(plot),
        charts::plot_idea(plot),
        spans.join(", ")
    )
}

/// Buttons that save a chart.
pub(crate) fn saver(save: &Callback<Kind>) -> Html {
    html! {
        <span class="saver" role="group" aria-label={words::save_as()}>
            { for Kind::ALL.into_iter().map(|kind| {
                let save = save.clone();
                html! { <button type="button" onclick={Callback::from(move |_: MouseEvent| save.emit(kind))}>{ kind.name() }</button> }
            }) }
        </span>
    }
}

/// The points as a table.
fn points(p: &PlotProps) -> Html {
    let (frame, live) = (&p.frame, &p.live);
    let title = |a: &Axis| words::unit_of(charts::name(a.name), a.unit);
    // A point's row lights it as the point itself does, by pointer and by focus.
    let light = |part: Option<Part>| p.light.reform(move |_: MouseEvent| part);
    let lit_by = |part: Option<Part>| p.light.reform(move |_: FocusEvent| part);
    html! {
        <details>
            <summary>{ words::points() }</summary>
            <div class="scroll" tabindex="0" role="region" aria-label={words::points()}>
            <table>
                <thead><tr><td></td><th scope="col">{ title(&frame.x) }</th><th scope="col">{ title(&frame.y) }</th></tr></thead>
                <tbody>
                    { for live.dots.iter().map(|d| html! {
                        <tr tabindex={d.part.map(|_| "0")} class={classes!((d.part.is_some() && d.part == p.lit).then_some("lit"))}
                            onmouseenter={light(d.part)} onmouseleave={light(None)} onfocus={lit_by(d.part)} onblur={lit_by(None)}><th scope="row">{ charts::name(d.name) }</th><td>{ d.shown[0].to_string() }</td><td>{ d.shown[1].to_string() }</td></tr>
                    }) }
                    { for live.spans.iter().map(|s| html! {
                        <tr><th scope="row">{ charts::name(s.name) }</th><td>{ s.shown.to_string() }</td><td></td></tr>
                    }) }
                </tbody>
            </table>
            </div>
        </details>
    }
}
