//! The root: holds the bay, lets time pass each frame, draws what moves, and gives the rest its text ten times a second.
use std::{cell::RefCell, rc::Rc};

use lowside_present::{
    UnitSystem,
    controls::{Control, Controls},
    dial::{self, Face, Which},
    history::{History, Row},
    ledger::Ledger,
    levels,
    next::{NextStep, next_step},
    readout::Readout,
};
use lowside_session::{Action, Caution, Event as BayEvent, TICKS_PER_SECOND, Take};
use lowside_units::Ratio;
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::HtmlCanvasElement;
use yew::{Component, Context, Html, KeyboardEvent, MouseEvent, NodeRef, classes, html};

use crate::{
    caution::Cautions,
    chart::{Chart, ChartTable},
    dial::Dial,
    host,
    ledger::LedgerView,
    levels::Painter,
    log::Log,
    next::Next,
    panel::Panel,
    readings::Readings,
    resume,
    stage::{self, Stage},
    store, theme,
    top::Top,
    words,
};

/// Time between renewals of text, ms.
const TEXT_EVERY: f64 = 110.0;
/// Time between renewals of the strip chart, ms.
const CHART_EVERY: f64 = 180.0;
/// Time between renewals of the descriptions, ms.
const SLOW_EVERY: f64 = 4_000.0;
/// Least time between two spoken messages, ms.
const SPEAK_EVERY: f64 = 3_000.0;
/// How long a next step must stand before it is read out, ms.
const STEADY: f64 = 1_200.0;
/// Lengths of the strip chart, minutes.
const WINDOWS: [u32; 3] = [3, 10, 30];

/// What can happen to the page.
pub(crate) enum Msg {
    Frame(f64),
    Act(Action),
    Press(f64, f64),
    Hover(f64, f64),
    Pause,
    Save,
    Step,
    Speed(u32),
    Units(UnitSystem),
    Window(u32),
    Start(String),
    Dismiss(Caution),
    Progress(f64),
    Resumed(Box<Option<(lowside_session::Bay, History)>>, Option<String>),
}

/// What the page is doing.
enum Mode {
    /// A take is being replayed; share done.
    Resuming(f64),
    Running,
}

/// The whole page.
pub(crate) struct App {
    stage: Stage,
    mode: Mode,
    scenario: String,
    units: UnitSystem,
    minutes: u32,
    cautions: Vec<Caution>,
    notice: Option<String>,
    /// What the polite region says, and since when; what waits.
    said: (String, f64),
    waiting: Vec<String>,
    painter: Painter,
    chart: Chart,
    sheet: NodeRef,
    axes: NodeRef,
    traces: NodeRef,
    needles: [NodeRef; 2],
    needed: Option<Control>,
    /// The next step, since when, and whether it was read out.
    step: (NextStep, f64, bool),
    last_text: f64,
    last_chart: f64,
    /// What changes slowly for those who listen: the drawing in words, the chart as rows; and when it was made.
    slow: (String, f64),
    rows: Rc<Vec<Row>>,
    dark: bool,
    _frame: Rc<RefCell<Option<Closure<dyn FnMut(f64)>>>>,
    _key: Closure<dyn FnMut(KeyboardEvent)>,
    _leave: Closure<dyn FnMut()>,
}

fn request(frame: &RefCell<Option<Closure<dyn FnMut(f64)>>>) {
    if let Some(frame) = &*frame.borrow() {
        drop(host::window().request_animation_frame(frame.as_ref().unchecked_ref()));
    }
}

/// The frame loop: one message a frame.
fn frames(ctx: &Context<App>) -> Rc<RefCell<Option<Closure<dyn FnMut(f64)>>>> {
    let holder: Rc<RefCell<Option<Closure<dyn FnMut(f64)>>>> = Rc::default();
    let (link, inner) = (ctx.link().clone(), Rc::downgrade(&holder));
    *holder.borrow_mut() = Some(Closure::new(move |now: f64| {
        link.send_message(Msg::Frame(now));
        if let Some(inner) = inner.upgrade() {
            request(&inner);
        }
    }));
    request(&holder);
    holder
}

/// Space pauses, unless it works the control that has the focus.
fn keys(ctx: &Context<App>) -> Closure<dyn FnMut(KeyboardEvent)> {
    let link = ctx.link().clone();
    let handler = Closure::new(move |e: KeyboardEvent| {
        let focused = host::document()
            .active_element()
            .map(|a| a.tag_name().to_lowercase())
            .unwrap_or_default();
        let free = !matches!(
            focused.as_str(),
            "button" | "input" | "select" | "textarea" | "summary" | "a"
        );
        if e.key() == " " && free && !e.ctrl_key() && !e.meta_key() && !e.alt_key() {
            e.prevent_default();
            link.send_message(Msg::Pause);
        }
    });
    drop(
        host::window()
            .add_event_listener_with_callback("keydown", handler.as_ref().unchecked_ref()),
    );
    handler
}

/// The page is left or hidden: save.
fn leaving(ctx: &Context<App>) -> Closure<dyn FnMut()> {
    let link = ctx.link().clone();
    let handler = Closure::new(move || link.send_message(Msg::Save));
    drop(
        host::window()
            .add_event_listener_with_callback("pagehide", handler.as_ref().unchecked_ref()),
    );
    drop(
        host::document()
            .add_event_listener_with_callback("visibilitychange", handler.as_ref().unchecked_ref()),
    );
    handler
}

impl Component for App {
    type Message = Msg;
    type Properties = ();

    fn create(ctx: &Context<Self>) -> Self {
        let units = if store::get(store::UNITS).as_deref() == Some("si") {
            UnitSystem::Si
        } else {
            UnitSystem::Us
        };
        let mut notice = None;
        let mut mode = Mode::Running;
        if let Some(text) = store::get(store::TAKE) {
            if store::get(store::REPLAYING).is_some() {
                store::remove(store::REPLAYING);
                notice = Some(words::RESUME_ONCE.to_owned());
                let _ = store::set("lowside.take.kept", &text);
            } else {
                match Take::parse(&text) {
                    Ok(take) if take.ticks > 0 || !take.log.is_empty() => {
                        mode = Mode::Resuming(0.0);
                        resume_in_background(ctx, take);
                    }
                    Ok(_) => {}
                    Err(e) => notice = Some(format!("{}: {e}", words::RESUME_BROKEN)),
                }
            }
        }
        Self {
            stage: Stage::new(stage::open("charge-from-cans"), History::default()),
            mode,
            scenario: "charge-from-cans".into(),
            units,
            minutes: 10,
            cautions: Vec::new(),
            notice,
            said: (String::new(), 0.0),
            waiting: Vec::new(),
            painter: Painter::default(),
            chart: Chart::default(),
            sheet: NodeRef::default(),
            axes: NodeRef::default(),
            traces: NodeRef::default(),
            needles: Default::default(),
            needed: None,
            step: (NextStep::TakeCan, 0.0, true),
            last_text: 0.0,
            last_chart: 0.0,
            slow: (String::new(), -1e9),
            rows: Rc::default(),
            dark: host::dark(),
            _frame: frames(ctx),
            _key: keys(ctx),
            _leave: leaving(ctx),
        }
    }

    fn update(&mut self, _ctx: &Context<Self>, msg: Msg) -> bool {
        match msg {
            Msg::Frame(now) => return self.frame(now),
            Msg::Act(action) => self.act(action),
            Msg::Press(x, y) => match self.spot(x, y) {
                Some(control) => self.press(control),
                None => return false,
            },
            Msg::Hover(x, y) => {
                let over = self.spot(x, y).is_some();
                if let Some(sheet) = self.sheet.cast::<web_sys::HtmlElement>() {
                    drop(
                        sheet
                            .style()
                            .set_property("cursor", if over { "pointer" } else { "default" }),
                    );
                }
                return false;
            }
            Msg::Save => {
                if matches!(self.mode, Mode::Running) {
                    self.stage.save(host::now());
                }
                return false;
            }
            Msg::Pause => self.stage.paused = !self.stage.paused,
            Msg::Step => self.stage.step_once(1),
            Msg::Speed(s) => {
                self.stage.speed = s;
                self.stage.paused = false;
            }
            Msg::Units(units) => {
                self.units = units;
                self.stage.ticks.clear();
                let _ = store::set(
                    store::UNITS,
                    if units == UnitSystem::Si { "si" } else { "us" },
                );
            }
            Msg::Window(m) => self.minutes = m,
            Msg::Start(name) => {
                let speed = self.stage.speed;
                self.stage = Stage::new(stage::open(&name), History::default());
                self.stage.speed = speed;
                self.scenario = name;
                self.cautions.clear();
                self.notice = None;
                self.stage.save(host::now());
            }
            Msg::Dismiss(c) => self.cautions.retain(|x| *x != c),
            Msg::Progress(p) => self.mode = Mode::Resuming(p),
            Msg::Resumed(bay, error) => {
                store::remove(store::REPLAYING);
                self.mode = Mode::Running;
                if let Some((bay, history)) = *bay {
                    self.scenario = if bay.scenario().name.to_lowercase().contains("healthy") {
                        "healthy"
                    } else {
                        "charge-from-cans"
                    }
                    .into();
                    self.stage = Stage::new(bay, history);
                    self.stage.save(host::now());
                }
                if let Some(e) = error {
                    self.notice = Some(format!("{}: {e}", words::RESUME_BROKEN));
                }
            }
        }
        self.last_chart = 0.0;
        self.slow.1 = -1e9;
        true
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        if let Mode::Resuming(done) = self.mode {
            return html! {
                <main class="resuming">
                    <h1>{ "Lowside" }</h1>
                    <p id="resuming">{ words::RESUMING }</p>
                    <progress max="1" value={format!("{done:.3}")} aria-labelledby="resuming"></progress>
                    <p><button type="button" onclick={link.callback(|_: MouseEvent| Msg::Start("charge-from-cans".into()))}>{ "Start over" }</button></p>
                </main>
            };
        }
        let bay = &self.stage.bay;
        let readout = Readout::of(bay, self.units);
        let controls = Controls::of(bay, self.units);
        let step = next_step(bay);
        let reached = (self.stage.overloaded && !self.stage.paused)
            .then(|| format!("{:.0}", self.stage.reached));
        html! { <>
            <a class="skip" href="#controls-title">{ "To the controls" }</a>
            <Top clock={readout.clock.number.clone()} spoken_clock={readout.clock.spoken.clone()} paused={self.stage.paused}
                speed={self.stage.speed} {reached} units={self.units} scenario={self.scenario.clone()}
                pause={link.callback(|()| Msg::Pause)} step={link.callback(|()| Msg::Step)} set_speed={link.callback(Msg::Speed)}
                set_units={link.callback(Msg::Units)} start={link.callback(Msg::Start)} />
            <main class="bay">
                <div class="say">
                    <Next {step} given={readout.given.to_string()} label={readout.label.to_string()} />
                    if let Some(notice) = &self.notice { <p class="notice">{ notice }</p> }
                    if self.stage.storage_denied { <p class="notice">{ words::STORAGE_DENIED }</p> }
                </div>
                <section class="gauges" aria-labelledby="gauges-title">
                    <h2 id="gauges-title" class="unseen">{ "Gauges" }</h2>
                    { self.dial(Which::Low, &readout, &controls) }
                    { self.dial(Which::High, &readout, &controls) }
                </section>
                <Panel controls={controls} needed={step.control()} act={link.callback(Msg::Act)} />
                <div class="middle">
                    { self.levels_view(ctx) }
                    { self.chart_view(ctx) }
                </div>
                <div class="side">
                    <Readings readout={readout} />
                    <LedgerView ledger={Ledger::of(bay, self.units)} />
                    <Log lines={self.stage.lines.clone()} />
                </div>
            </main>
            <Cautions shown={self.cautions.clone()} dismiss={link.callback(Msg::Dismiss)} />
            <footer>{ words::FOOTER }</footer>
            <div class="unseen" aria-live="polite" role="status">{ &self.said.0 }</div>
        </> }
    }
}

fn resume_in_background(ctx: &Context<App>, take: Take) {
    let link = ctx.link().clone();
    let _ = store::set(store::REPLAYING, "1");
    wasm_bindgen_futures::spawn_local(async move {
        let reporter = link.clone();
        let outcome = resume::resume(&take, move |p| reporter.send_message(Msg::Progress(p))).await;
        link.send_message(match outcome {
            Ok(done) => Msg::Resumed(Box::new(Some(done)), None),
            Err(e) => Msg::Resumed(Box::new(None), Some(e.to_string())),
        });
    });
}

impl App {
    fn frame(&mut self, now: f64) -> bool {
        if matches!(self.mode, Mode::Resuming(_)) {
            return false;
        }
        let dt = self.stage.frame(now);
        let dark = host::dark();
        if dark != self.dark {
            self.dark = dark;
            theme::apply();
        }
        let theme = theme::current();
        let step = next_step(&self.stage.bay);
        self.needed = step.control();
        if step != self.step.0 {
            self.step = (step, now, false);
        } else if !self.step.2 && now - self.step.1 > STEADY {
            self.step.2 = true;
            let r = Readout::of(&self.stage.bay, self.units);
            let (what, _) = words::next(step, &r.given.to_string(), &r.label.to_string());
            self.waiting.push(format!("Next: {what}"));
        }
        if self.stage.ticks.is_empty() {
            self.stage.ticks = levels::ticks(&self.stage.bay, self.units);
        }
        if let Some(canvas) = self.sheet.cast::<HtmlCanvasElement>() {
            let still = self.stage.paused || host::reduced_motion();
            let names = if self.units == UnitSystem::Us {
                ["psig", "\u{b0}F"]
            } else {
                ["kPag", "\u{b0}C"]
            };
            let moved = if still { 0.0 } else { dt };
            let levels = self.stage.levels(self.units);
            self.painter.draw(
                &canvas,
                theme,
                &levels,
                &self.stage.ticks,
                &names,
                self.needed,
                moved,
            );
        }
        for (which, needle) in [Which::Low, Which::High].into_iter().zip(&self.needles) {
            if let Some(needle) = needle.cast::<web_sys::Element>() {
                let angle = crate::dial::angle(dial::needle(&self.stage.bay, which, self.units));
                drop(needle.set_attribute("transform", &format!("rotate({angle:.2} 100 100)")));
            }
        }
        if now - self.last_chart > CHART_EVERY {
            self.last_chart = now;
            if let (Some(axes), Some(traces)) = (
                self.axes.cast::<HtmlCanvasElement>(),
                self.traces.cast::<HtmlCanvasElement>(),
            ) {
                let s = &self.stage;
                self.chart.draw(
                    &axes,
                    &traces,
                    theme,
                    &s.bay,
                    &s.history,
                    self.units,
                    self.minutes,
                );
            }
        }
        self.speak(now);
        if now - self.slow.1 > SLOW_EVERY {
            self.slow_down(now);
        }
        if now - self.last_text > TEXT_EVERY {
            self.last_text = now;
            return true;
        }
        false
    }

    /// Renews what changes slowly.
    fn slow_down(&mut self, now: f64) {
        let s = &self.stage;
        let levels = s.levels(self.units);
        self.slow = (
            words::levels(&Readout::of(&s.bay, self.units), &levels),
            now,
        );
        let to = s.bay.tick();
        let from = to.saturating_sub(u64::from(self.minutes) * 60 * TICKS_PER_SECOND);
        self.rows = Rc::new(s.history.table(from, to, 10, self.units));
    }

    /// One message at a time, none sooner than three seconds after the last.
    fn speak(&mut self, now: f64) {
        let news: Vec<BayEvent> = self.stage.news.drain(..).collect();
        for e in news {
            self.waiting.push(words::event(e).to_owned());
        }
        if self.waiting.is_empty() || now - self.said.1 < SPEAK_EVERY {
            return;
        }
        // Under a flood the latest counts.
        let keep = self.waiting.len().saturating_sub(2);
        self.waiting.drain(..keep);
        self.said = (self.waiting.remove(0), now);
    }

    fn act(&mut self, action: Action) {
        match self.stage.act(action) {
            Ok(Some(c)) => {
                self.cautions.retain(|x| *x != c);
                self.cautions.push(c);
                let (title, text) = words::caution(c);
                self.waiting.push(format!("Caution. {title}. {text}"));
            }
            Ok(None) => {}
            Err(refused) => self.waiting.push(format!("Not done: {refused}")),
        }
    }

    /// What can be pressed at a place of the drawing.
    fn spot(&self, x: f64, y: f64) -> Option<Control> {
        let near = |&(_, sx, sy): &(Control, f64, f64)| (sx - x).hypot(sy - y);
        let best = self
            .painter
            .spots
            .iter()
            .min_by(|a, b| near(a).total_cmp(&near(b)))?;
        (near(best) < 20.0).then_some(best.0)
    }

    /// A press on a glyph: from shut to open and back.
    fn press(&mut self, control: Control) {
        let c = Controls::of(&self.stage.bay, self.units);
        let turn = |now: u8| Ratio::from_fraction(if now > 0 { 0.0 } else { 1.0 });
        let action = match control {
            Control::LowValve => Action::LowValve {
                open: turn(c.low_valve),
            },
            Control::HighValve => Action::HighValve {
                open: turn(c.high_valve),
            },
            Control::LowCoupler => Action::LowCoupler { on: !c.low_coupled },
            Control::HighCoupler => Action::HighCoupler {
                on: !c.high_coupled,
            },
            Control::Tap => Action::Tap {
                on: !c.can.is_some_and(|k| k.open),
            },
            _ => return,
        };
        self.act(action);
    }

    fn dial(&self, which: Which, r: &Readout, c: &Controls) -> Html {
        let (title, reading, coupled, needle) = match which {
            Which::Low => ("Low side (blue)", &r.low, c.low_coupled, &self.needles[0]),
            Which::High => ("High side (red)", &r.high, c.high_coupled, &self.needles[1]),
        };
        html! {
            <Dial face={Face::of(&self.stage.bay, which, self.units)} needle={needle.clone()} {title}
                number={reading.number.clone()} unit={reading.unit} spoken={reading.spoken.clone()} {coupled} />
        }
    }

    fn levels_view(&self, ctx: &Context<Self>) -> Html {
        let at = |make: fn(f64, f64) -> Msg| {
            ctx.link().callback(move |e: MouseEvent| {
                make(f64::from(e.offset_x()), f64::from(e.offset_y()))
            })
        };
        html! {
            <section class="levels" aria-labelledby="levels-title">
                <h2 id="levels-title">{ "Levels" }<small>{ "pressure is height, everything flows downhill" }</small></h2>
                <canvas ref={self.sheet.clone()} role="img" aria-label={self.slow.0.clone()}
                    onclick={at(Msg::Press)} onmousemove={at(Msg::Hover)}></canvas>
                <p class="key" aria-hidden="true"><span class="scale"></span>{ "cold to hot" }<span class="wet"></span>{ "liquid" }<span class="dry"></span>{ "vapour" }
                    <span class="heat"></span>{ "heat" }</p>
            </section>
        }
    }

    fn chart_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        html! {
            <section class="chart" aria-labelledby="chart-title">
                <h2 id="chart-title">{ "Strip chart" }
                    <small><span class="name high">{ "high" }</span><span class="name low">{ "low" }</span>
                    <span class="name accent">{ "vent, clutch bar" }</span><span class="name grey">{ "cabin" }</span></small>
                    <span class="speeds" role="group" aria-label="Length of the chart">
                        { for WINDOWS.iter().map(|&m| html! {
                            <button type="button" aria-pressed={(m == self.minutes).to_string()} class={classes!((m == self.minutes).then_some("chosen"))}
                                onclick={link.callback(move |_: MouseEvent| Msg::Window(m))}>{ format!("{m} min") }</button>
                        }) }
                    </span>
                </h2>
                <div class="strip">
                    <canvas ref={self.axes.clone()} aria-hidden="true"></canvas>
                    <canvas ref={self.traces.clone()} role="img" aria-label="Pressures, vent temperature and clutch over time; the table below gives the numbers"></canvas>
                </div>
                <ChartTable rows={self.rows.clone()} />
            </section>
        }
    }
}
