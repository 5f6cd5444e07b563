//! The middle of the page: which views are open, which part is lit or opened, and the views themselves.
use std::{cell::RefCell, rc::Rc};

use lowside_lessons::Shown;
use lowside_present::{
    bench::{self, Item, Standing},
    closed,
    history::Row,
    notes::{self, Note},
    opened,
    parts::{Part, Parts, Tubes, inside},
    plot::{Frame, Key, Live, Plot},
    retrofit,
};
use web_sys::Element;
use yew::{Context, Html, NodeRef, html};

use super::{
    App, Msg, WorkMsg,
    guess::{GuessMsg, Guessing},
};
use crate::{
    chart::Strip,
    host,
    ink::Kind,
    later::{self, Part as Later},
    parts::{Flows, Instrument, PartsProps, parts_view},
    plot::PlotView,
    print::print_soon,
    theme,
    views::{Open, View, picker},
    words,
};

/// What a person does to the views.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum FaceMsg {
    /// Opens or closes a view.
    Toggle(View),
    /// A press on the drawing of levels, and the pointer over it.
    Press(f64, f64),
    Hover(f64, f64),
    /// Unfolds or folds the controls rarely used.
    Fold,
    /// Points at a part, or at none.
    Light(Option<Part>),
    /// Opens a part, or shuts it.
    Open(Option<Part>),
    /// Prints readings and chart, which is opened for it.
    Print,
    /// Picks an instrument up, or puts it away.
    Take(Option<Instrument>),
    /// Closes the loop, as in a drill, or opens it.
    Close(bool),
    /// Moves the strip chart's window or cursor.
    Strip(Strip),
    /// Saves the strip chart.
    Save(Kind),
    /// Large gauges or not.
    Large,
    /// Sounds or silence.
    Sound,
    /// Challenges.
    Guess(GuessMsg),
}

/// Time between renewals of charts and parts, ms; what flows moves each frame all the same.
const RENEWED: f64 = 240.0;

/// State of the views.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is one independent thing that is so or not"
)]
pub(super) struct Face {
    pub(super) open: Open,
    pub(super) lit: Option<Part>,
    pub(super) part: Option<Part>,
    pub(super) closed: bool,
    /// What was picked up.
    pub(super) hand: Option<Instrument>,
    pub(super) large: bool,
    pub(super) sound: bool,
    /// The controls rarely used are unfolded.
    pub(super) more: bool,
    pub(super) guess: Guessing,
    pub(super) flows: Flows,
    pub(super) tubes: NodeRef,
    /// Wall time since each drawing was drawn, s, and whose turn it is.
    owed: [f64; 2],
    turn: u32,
    frames: RefCell<Vec<(Key, Rc<Frame>)>>,
    lives: RefCell<Vec<(Plot, f64, Rc<Live>)>>,
    parts: RefCell<Option<(f64, Rc<Parts>)>>,
    /// Notes of the drawing of levels, and when they were found.
    pub(super) notes: (f64, Vec<Note>),
    /// When the flags were tied to their dials last.
    pub(super) tied: f64,
}

impl Face {
    pub(super) fn new() -> Self {
        Self {
            open: Open::remembered(),
            lit: None,
            part: None,
            closed: false,
            hand: None,
            large: false,
            sound: false,
            more: false,
            guess: Guessing::default(),
            flows: Flows::default(),
            tubes: NodeRef::default(),
            owed: [0.0; 2],
            turn: 0,
            frames: RefCell::default(),
            lives: RefCell::default(),
            parts: RefCell::default(),
            notes: (-1e9, Vec::new()),
            tied: -1e9,
        }
    }

    /// Time to move the drawings of levels and of parts by in this frame, `dt` after the last, s. With both open they take turns,
    /// so that a frame never pays for two.
    pub(super) fn due(&mut self, dt: f64) -> (Option<f64>, Option<f64>) {
        let both = self.open.has(View::Levels) && self.open.has(View::Parts);
        self.turn = self.turn.wrapping_add(1);
        let odd = self.turn % 2 == 1;
        self.owed = self.owed.map(|t| t + dt);
        let mut take = |k: usize, due: bool| due.then(|| core::mem::take(&mut self.owed[k]));
        (take(0, !both || odd), take(1, !both || !odd))
    }
}

impl App {
    /// Does what a person does to the views; true if the page is to be shown anew.
    pub(super) fn face(&mut self, msg: FaceMsg) -> bool {
        let face = &mut self.face;
        match msg {
            FaceMsg::Toggle(view) => {
                face.open.toggle(view);
                if face.open.has(view) {
                    self.seek(view);
                }
            }
            FaceMsg::Press(x, y) => {
                let Some(control) = self.spot(x, y) else {
                    return false;
                };
                self.press(control);
                self.look_out();
                self.refresh();
                self.beat.slow.1 = -1e9;
            }
            FaceMsg::Hover(x, y) => {
                let over = self.spot(x, y).is_some();
                if let Some(sheet) = self.sheet.cast::<web_sys::HtmlElement>() {
                    let cursor = if over { "pointer" } else { "default" };
                    drop(sheet.style().set_property("cursor", cursor));
                }
                let lit = self.zone(x, y);
                return self.face(FaceMsg::Light(lit));
            }
            FaceMsg::Fold => face.more = !face.more,
            FaceMsg::Light(part) => {
                let changed = face.lit != part;
                face.lit = part;
                return changed;
            }
            FaceMsg::Open(part) => {
                face.part = part;
                if let Some(piece) = part.and_then(Part::piece) {
                    self.item = Some(Item::Part(piece));
                }
            }
            FaceMsg::Take(tool) => face.hand = tool,
            FaceMsg::Print => {
                if !face.open.has(View::Strip) {
                    face.open.toggle(View::Strip);
                }
                print_soon();
            }
            FaceMsg::Close(closed) => face.closed = closed,
            FaceMsg::Strip(act) => {
                if let Some(charts) = later::charts() {
                    (charts.act)(self, act);
                }
            }
            FaceMsg::Save(kind) => {
                if let Some(charts) = later::charts() {
                    (charts.save)(self, kind);
                }
            }
            FaceMsg::Guess(msg) => {
                if let Some(hands) = later::hands() {
                    (hands.guess)(self, msg);
                }
            }
            FaceMsg::Large => face.large = !face.large,
            FaceMsg::Sound => {
                face.sound = !face.sound;
                self.hear();
            }
        }
        self.beat.chart = 0.0;
        true
    }

    /// Moves the strip chart's window or cursor.
    pub(crate) fn act_strip(&mut self, act: Strip) {
        self.chart.act(act, &self.stage.bay);
        // The table shows the window at once; the cursor changes nothing in it.
        if !matches!(act, Strip::Cursor(_) | Strip::Nudge(_)) {
            self.beat.slow.1 = -1e9;
        }
    }

    /// Draws the strip chart.
    pub(crate) fn draw_strip(&mut self, (axes, traces): (&Element, &Element)) {
        self.chart.closed = self.closed();
        let s = &self.stage;
        let (bay, look) = ((&s.bay, &s.history), (self.units, self.face.lit));
        self.chart.draw((axes, traces), theme::current(), bay, look);
    }

    /// The strip chart's table of now.
    pub(crate) fn rows(&self) -> Rc<Vec<Row>> {
        let s = &self.stage;
        let (from, to) = self.chart.window(s.bay.tick());
        Rc::new(s.history.table(from, to, 10, self.units))
    }

    /// Saves the strip chart as a file.
    pub(crate) fn save_strip(&self, kind: Kind) {
        let bay = (&self.stage.bay, &self.stage.history);
        self.chart.save(kind, bay, self.units);
    }

    /// Everything is to be read anew: another bay, other units, a step while paused.
    pub(super) fn refresh(&self) {
        self.face.lives.borrow_mut().clear();
        self.face.parts.replace(None);
    }

    /// Draws what flows in the parts, if they are to be seen.
    pub(super) fn draw_flows(&mut self, theme: &lowside_present::palette::Theme, dt: f64) {
        if self.face.closed || self.closed() {
            return;
        }
        if let Some(canvas) = self.face.tubes.cast::<web_sys::HtmlCanvasElement>() {
            let tubes = Tubes::of(&self.stage.bay);
            self.face.flows.draw(&canvas, theme, &tubes, dt);
        }
    }

    /// Lets the page sound as the bay does, or be silent.
    pub(super) fn hear(&self) {
        let quiet = self.stage.paused || !self.face.sound;
        host::sound((!quiet).then(|| self.stage.shown().sound));
    }

    /// The views that are open and that this bay has, in their order.
    fn open_views(&self) -> impl Iterator<Item = View> + '_ {
        let closed = self.closed();
        self.face.open.iter().filter(move |v| !closed || v.closed())
    }

    /// Is a view open?
    pub(super) fn sees_something(&self) -> bool {
        self.open_views().next().is_some()
    }

    /// All open views, in their order; with none open an invitation.
    pub(super) fn views(&self, ctx: &Context<Self>, shown: &Shown<'_>) -> Html {
        let closed = self.closed();
        if !self.sees_something() {
            return html! { <div class="invites"><p>{ words::invites() }</p>{ self.picker(ctx) }</div> };
        }
        let view = |v: View| {
            let (part, html) = match v {
                View::Levels if closed => (
                    Later::Hands,
                    later::hands().map(|l| (l.around)(self, shown)),
                ),
                View::Levels => return self.levels_view(ctx),
                View::Parts => (Later::Parts, later::parts().map(|l| (l.view)(self, ctx))),
                View::Strip => (Later::Charts, later::charts().map(|l| (l.strip)(self, ctx))),
                View::Job => (Later::Sheet, later::sheet().map(|l| (l.view)(self, ctx))),
                View::Plot(p) => (
                    Later::Charts,
                    later::charts().map(|l| (l.plot)(self, ctx, p)),
                ),
            };
            html.unwrap_or_else(|| self.sign(ctx, part))
        };
        self.open_views()
            .map(|v| {
                let id = format!("view-{}", v.id());
                html! { <div class="view" key={v.id()} {id} tabindex="-1">{ view(v) }</div> }
            })
            .collect()
    }

    /// The buttons that open views: in the foot, or in the empty middle.
    pub(super) fn picker(&self, ctx: &Context<Self>) -> Html {
        let toggle = ctx.link().callback(|v| Msg::Face(FaceMsg::Toggle(v)));
        picker(&self.face.open, &toggle, self.closed())
    }

    pub(crate) fn parts_view(&self, ctx: &Context<Self>) -> Html {
        let (bay, units, link) = (&self.stage.bay, self.units, ctx.link());
        let (shown, hidden) = (self.stage.shown(), self.closed());
        let places = bench::places(&shown);
        let state = match self.item {
            Some(Item::Part(part)) if hidden => Some(bench::part(&shown, part, units)),
            Some(Item::Part(part)) => Some(opened::part(bay, part, units)),
            _ => None,
        };
        let out = |part: Part| {
            let piece = part.piece().map(Item::Part);
            piece.is_some_and(|item| places.contains(&(item, Standing::OnBench)))
        };
        let looked_into = self.face.part.filter(|part| !hidden && !out(*part));
        let opened = looked_into.map(|part| Rc::new(inside::open(bay, part, units)));
        let wear = if looked_into == Some(Part::Compressor) {
            inside::wear(bay)
                .iter()
                .map(|(c, x)| words::wear_line(words::charts::cause(*c), x))
                .collect()
        } else {
            Vec::new()
        };
        let warmth = |part| (part, inside::temperature(bay, part, units).to_string());
        parts_view(&PartsProps {
            parts: if hidden {
                Rc::new(closed::parts::parts(&shown, units))
            } else {
                self.parts()
            },
            opened,
            wear,
            lit: self.face.lit,
            closed: hidden || self.face.closed,
            hidden,
            places,
            chosen: self.item,
            state,
            switches: retrofit::switches(&shown, units),
            fixings: bench::fixings(&shown),
            tools: self.tools(&shown),
            hand: self.face.hand,
            blows: shown.blows,
            units,
            choose: link.callback(|i| Msg::Work(WorkMsg::Choose(Some(i)))),
            leave: link.callback(|()| Msg::Work(WorkMsg::Choose(None))),
            take: link.callback(|t| Msg::Face(FaceMsg::Take(t))),
            act: link.callback(Msg::Act),
            temperatures: Rc::new(if hidden {
                Vec::new()
            } else {
                Part::ALL.map(warmth).to_vec()
            }),
            flows: self.face.tubes.clone(),
            light: link.callback(|p| Msg::Face(FaceMsg::Light(p))),
            open: link.callback(|p| Msg::Face(FaceMsg::Open(p))),
            close: link.callback(|on| Msg::Face(FaceMsg::Close(on))),
        })
    }

    /// The parts as read last, anew if that is long enough ago.
    fn parts(&self) -> Rc<Parts> {
        let mut kept = self.face.parts.borrow_mut();
        let now = host::now();
        if let Some((_, parts)) = kept.as_ref().filter(|(at, _)| now - at < RENEWED) {
            return parts.clone();
        }
        let parts = Rc::new(Parts::of(&self.stage.bay, self.units));
        *kept = Some((now, parts.clone()));
        parts
    }

    /// What moves on a chart as read last, likewise.
    fn live(&self, plot: Plot) -> Rc<Live> {
        let mut lives = self.face.lives.borrow_mut();
        let now = host::now();
        let kept = lives
            .iter()
            .find(|(p, at, _)| *p == plot && now - at < RENEWED);
        if let Some((_, _, live)) = kept {
            return live.clone();
        }
        let live = Rc::new(plot.live(&self.stage.bay, self.units));
        lives.retain(|(p, ..)| *p != plot);
        lives.push((plot, now, live.clone()));
        live
    }

    pub(crate) fn plot_view(&self, ctx: &Context<Self>, plot: Plot) -> Html {
        let frame = self.frame_of(plot);
        html! {
            <PlotView key={View::Plot(plot).id()} {plot} {frame} live={self.live(plot)} lit={self.face.lit} dark={self.browser.dark}
                light={ctx.link().callback(|p| Msg::Face(FaceMsg::Light(p)))} />
        }
    }

    /// What stands still on a chart, made anew when it changes.
    pub(super) fn frame_of(&self, plot: Plot) -> Rc<Frame> {
        let bay = &self.stage.bay;
        let key = plot.key(bay, self.units);
        let mut frames = self.face.frames.borrow_mut();
        let known = frames
            .iter()
            .find(|(k, _)| *k == key)
            .map(|(_, f)| f.clone());
        known.unwrap_or_else(|| {
            let frame = Rc::new(plot.frame(bay, self.units));
            frames.retain(|((p, ..), _)| *p != plot);
            frames.push((key, frame.clone()));
            frame
        })
    }

    /// The notes under the drawing of levels, numbered as they are in it.
    pub(super) fn notes_view(&self) -> Html {
        let notes = &self.face.notes.1;
        html! {
            <ol class="notes" tabindex={(!notes.is_empty()).then_some("0")} aria-label={words::notes()}>
                { for notes.iter().take(notes::SHOWN).map(|n| html! { <li>{ words::charts::note(n) }</li> }) }
            </ol>
        }
    }
}
