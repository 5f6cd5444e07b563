//! The root: holds the bay, lets time pass each frame, draws what moves, and gives the rest its text nine times a second.
use std::{cell::Cell, rc::Rc};

use gloo::{events::EventListener, render::AnimationFrame};
use lowside_lessons::next::Advice;
use lowside_present::{
    UnitSystem,
    bench::{Item, Joint},
    controls::{Control, Controls},
    dial::Which,
    history::{History, Row},
    readout::{Readout, weighed},
    statement::{Said, Signed},
};
use lowside_session::{Action, Refused, Sight, TakeError, wait::Goal};
use lowside_words::Language;
use yew::{Component, Context, Html, MouseEvent, NodeRef, classes, html};

use crate::{
    bays::KeptBay,
    chart::Chart,
    doors::Door,
    host, later,
    levels::Painter,
    log::log,
    next::{NextProps, next},
    panel::{self, PanelProps, panel},
    past::Ended,
    readings::{readings, slim},
    resume::Resumed,
    speech,
    stage::{self, Stage},
    store,
    theme::{self, Choice},
    top::Drawer,
    units, words,
};

mod accessibility;
mod act;
mod bays;
mod begin;
pub(crate) mod browser_events;
pub(crate) mod closed;
mod doors;
mod face;
mod frame;
mod parts;
mod peril;
mod sight;
mod work;

pub(crate) use bays::BaysMsg;
pub(crate) use peril::PerilMsg;
pub(crate) use sight::SightMsg;
pub(crate) use work::WorkMsg;

/// What can happen to the page.
pub(crate) enum Msg {
    Frame(f64),
    Act(Action),
    Press(f64, f64),
    Hover(f64, f64),
    Pause,
    Step,
    Speed(f64),
    Seek(f64),
    Undo,
    Redo,
    Line(u32),
    Until(Goal),
    Units(UnitSystem),
    Face(face::FaceMsg),
    Work(WorkMsg),
    Sight(SightMsg),
    Language(Language),
    /// The page speaks another language now.
    Speaks,
    Start(String),
    /// Chooses what to start with; nothing happens yet.
    Pick(String),
    /// Starts over with what the bay began with.
    Again,
    /// Something for the polite region.
    Say(String),
    Peril(PerilMsg),
    Progress(f64),
    /// The end of a replay; it counts if that turn is not over.
    Resumed(u32, Box<Result<Resumed, TakeError>>),
    /// The replay under way is no longer wanted.
    Cancel,
    Bays(BaysMsg),
    Copy,
    /// The browser holds the page for times without a network.
    Offline,
    /// A new version waits.
    Newer,
    /// Take it.
    Update,
    /// Opens or closes the help.
    Help,
    /// Goes through a door.
    Go(Door),
    /// Opens or shuts what opens from the head.
    Drawer(Drawer),
    /// Shuts whatever lies over the page.
    Shut,
    /// Unfolds or folds the controls rarely used.
    Fold,
    Theme(Choice),
    Shortcuts(bool),
    /// Says what the instruments read.
    ReadOut,
    /// A faster or slower speed.
    Faster(bool),
    /// Tells what has the focus or the pointer, by id.
    Hint(Option<&'static str>),
    /// Saves the take as a file.
    SaveTake,
    /// Saves the take that the notice is about as a file.
    SaveNotice,
    /// A file that was chosen.
    Open(Result<String, TakeError>),
    /// Copies a link to this bay.
    Link,
    /// The later part of the program is here.
    Later,
    /// Tells why an act was refused.
    Refused(Refused),
    /// Tells that an act was taken back.
    Undone(Action),
    /// Tells that an act was done again.
    Redone(Action),
}

impl Msg {
    /// Only the later part can answer.
    fn needs_later(&self) -> bool {
        matches!(
            self,
            Self::Line(_)
                | Self::Work(_)
                | Self::Bays(_)
                | Self::Open(_)
                | Self::SaveTake
                | Self::Link
                | Self::Help
                | Self::Face(face::FaceMsg::Save(_) | face::FaceMsg::Strip(_))
                | Self::Refused(_)
                | Self::Undone(_)
                | Self::Redone(_)
        )
    }
}

/// What the page is doing.
enum Mode {
    /// A take is being replayed; share done.
    Resuming(f64),
    Running,
}

/// A text that is made anew when the page changes its language.
struct Told {
    text: String,
    say: Box<dyn Fn() -> String>,
}

impl Told {
    fn new(say: impl Fn() -> String + 'static) -> Self {
        let (text, say) = (say(), Box::new(say));
        Self { text, say }
    }

    fn renew(&mut self) {
        self.text = (self.say)();
    }
}

/// Something to be told, the take it is about, and a kept bay to open with what the button says.
pub(crate) struct Notice {
    told: Told,
    take: Option<String>,
    back: Option<(Told, Rc<KeptBay>)>,
}

/// The whole page.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is one independent thing that is open or not"
)]
pub(crate) struct App {
    stage: Stage,
    mode: Mode,
    /// What the address asks for, until it or what was kept is taken up.
    asked: Option<String>,
    /// What came before the later part that answers it, in order.
    early: Vec<Msg>,
    /// Id of the offered scenario the bay began with; empty if it is none of them.
    scenario: String,
    /// What is chosen to start with, if it is not what the bay began with.
    picked: Option<String>,
    /// How the next bay is to be worked in.
    sight: Sight,
    bays: bays::Bays,
    units: UnitSystem,
    peril: peril::Peril,
    notice: Option<Notice>,
    /// How the last wait ended, until something else is done.
    told: Option<Ended>,
    /// What the polite region says, and since when; what waits.
    said: (String, f64),
    waiting: Vec<String>,
    face: face::Face,
    /// What is chosen on the bench.
    item: Item,
    /// The statement as far as it is filled in.
    draft: Said,
    /// The record as it was signed.
    signed: Option<Signed>,
    painter: Painter,
    chart: Chart,
    sheet: NodeRef,
    axes: NodeRef,
    traces: NodeRef,
    /// The line of time.
    film: NodeRef,
    needles: [NodeRef; 2],
    needed: Option<Control>,
    /// The next step, since when, and whether it was read out.
    step: (Option<Advice>, f64, bool),
    last_text: f64,
    last_chart: f64,
    /// What changes slowly for those who listen: the drawing in words, the chart as rows; and when it was made.
    slow: (String, f64),
    rows: Rc<Vec<Row>>,
    dark: bool,
    /// Whether the browser keeps the take, as it was told last.
    stored: store::Kept,
    offline: bool,
    update: bool,
    help: bool,
    /// The door one is in, and what is open from the head.
    door: Door,
    drawer: Option<Drawer>,
    /// The controls rarely used are unfolded.
    more: bool,
    /// The card that was noted as done last.
    done: Option<&'static str>,
    shortcuts: Rc<Cell<bool>>,
    hint: Option<&'static str>,
    /// Dropped, it would not come.
    next_frame: AnimationFrame,
    listeners: Vec<EventListener>,
}
impl Component for App {
    type Message = Msg;
    type Properties = ();

    fn create(ctx: &Context<Self>) -> Self {
        let shortcuts = Rc::new(Cell::new(
            store::get(store::SHORTCUTS).as_deref() != Some("off"),
        ));
        // What a link asks for goes before what was kept, and is taken once: a reload goes on where one was.
        let kept = || {
            [store::LAST, store::TAKE]
                .iter()
                .any(|name| store::get(name).is_some())
        };
        let fragment = host::take_fragment();
        let linked = crate::share::units(&fragment);
        // Who presses a door of the shell comes for that; who explores wants the van that runs, and what was kept goes to the archive.
        let door = host::entered().as_deref().and_then(Door::of);
        let goes_on = || door != Some(Door::Explore) && kept();
        let asked = Some(fragment).filter(|fragment| !fragment.is_empty() || goes_on());
        let door = door.unwrap_or(Door::Explore);
        let link = ctx.link().clone();
        wasm_bindgen_futures::spawn_local(async move {
            later::fetch().await;
            link.send_message(Msg::Later);
        });
        Self {
            stage: match &asked {
                Some(_) => Stage::new(stage::open(stage::FIRST), History::default()),
                None => {
                    let mut stage = stage::first();
                    // Nothing runs that nobody started.
                    stage.paused |= door != Door::Explore;
                    stage
                }
            },
            mode: if asked.is_some() {
                Mode::Resuming(0.0)
            } else {
                Mode::Running
            },
            asked,
            early: Vec::new(),
            scenario: stage::FIRST.into(),
            picked: None,
            sight: Sight::Open,
            bays: bays::Bays::default(),
            units: linked.unwrap_or_else(units::load),
            peril: peril::Peril::default(),
            notice: None,
            told: None,
            said: (String::new(), 0.0),
            waiting: Vec::new(),
            face: face::Face::new(),
            item: Item::Joint(Joint::EvaporatorOut),
            draft: Said::default(),
            signed: None,
            painter: Painter::default(),
            chart: Chart::default(),
            sheet: NodeRef::default(),
            axes: NodeRef::default(),
            traces: NodeRef::default(),
            film: NodeRef::default(),
            needles: Default::default(),
            needed: None,
            step: (None, 0.0, true),
            last_text: 0.0,
            last_chart: 0.0,
            slow: (String::new(), -1e9),
            rows: Rc::default(),
            dark: theme::dark(),
            stored: store::Kept::Yes,
            offline: false,
            update: false,
            help: false,
            door,
            drawer: None,
            more: false,
            done: None,
            next_frame: browser_events::next_frame(ctx),
            listeners: browser_events::told(ctx, shortcuts.clone()),
            shortcuts,
            hint: None,
        }
    }

    #[expect(clippy::too_many_lines, reason = "one arm a message")]
    fn update(&mut self, ctx: &Context<Self>, msg: Msg) -> bool {
        if msg.needs_later() && later::here().is_none() {
            self.early.push(msg);
            return false;
        }
        match msg {
            Msg::Frame(now) => {
                self.next_frame = browser_events::next_frame(ctx);
                return self.frame(now);
            }
            Msg::Act(action) => self.act(action),
            Msg::Press(x, y) => match self.spot(x, y) {
                Some(control) => self.press(control),
                None => return false,
            },
            Msg::Hover(x, y) => {
                let over = self.spot(x, y).is_some();
                let lit = self.zone(x, y);
                if let Some(sheet) = self.sheet.cast::<web_sys::HtmlElement>() {
                    drop(
                        sheet
                            .style()
                            .set_property("cursor", if over { "pointer" } else { "default" }),
                    );
                }
                return self.face(face::FaceMsg::Light(lit));
            }
            Msg::Pause
            | Msg::Step
            | Msg::Speed(_)
            | Msg::Seek(_)
            | Msg::Undo
            | Msg::Redo
            | Msg::Until(_) => self.time(ctx, &msg),
            Msg::Line(id) => {
                if let Some(later) = later::here() {
                    (later.line)(self, ctx, id);
                }
            }
            Msg::Units(units) => {
                self.units = units;
                self.stage.ticks.clear();
                units::save(units);
            }
            Msg::Face(msg) => return self.face(msg),
            Msg::Work(msg) => {
                if let Some(later) = later::here() {
                    (later.work)(self, msg);
                }
            }
            Msg::Sight(msg) => {
                if let Some(later) = later::here() {
                    (later.see)(self, msg);
                }
            }
            Msg::Language(language) => {
                let link = ctx.link().clone();
                wasm_bindgen_futures::spawn_local(async move {
                    speech::choose(language).await;
                    link.send_message(Msg::Speaks);
                });
                return false;
            }
            Msg::Speaks => {
                // What was said and waits is in the other language.
                self.said.0.clear();
                self.waiting.clear();
                self.hint = None;
                if let Some(notice) = &mut self.notice {
                    notice.told.renew();
                    if let Some((label, _)) = &mut notice.back {
                        label.renew();
                    }
                }
                ctx.link().send_message(Msg::Bays(BaysMsg::List));
            }
            Msg::Start(name) => self.begin_with(Some(name)),
            Msg::Pick(name) => {
                let begun = self.own().is_none() && name == self.scenario;
                self.picked = Some(name).filter(|name| !begun && !name.is_empty());
            }
            Msg::Again => self.again(),
            Msg::Say(text) => {
                self.waiting.push(text);
                return false;
            }
            Msg::Peril(msg) => self.peril(msg),
            Msg::Progress(_) if matches!(self.mode, Mode::Running) => return false,
            Msg::Progress(p) => self.mode = Mode::Resuming(p),
            Msg::Resumed(turn, _) if self.bays.is_over(turn) => return false,
            Msg::Resumed(_, outcome) => {
                if let Some(later) = later::here() {
                    (later.resumed)(self, ctx, *outcome);
                }
            }
            Msg::Cancel => {
                if let Some(later) = later::here() {
                    (later.cancel)(self);
                }
            }
            Msg::Bays(msg) => {
                if let Some(later) = later::here() {
                    (later.bays)(self, ctx, msg);
                }
            }
            Msg::Hint(hint) => {
                if self.hint == hint {
                    return false;
                }
                self.hint = hint;
            }
            Msg::Open(_) | Msg::SaveTake | Msg::SaveNotice | Msg::Link => {
                if let Some(later) = later::here() {
                    (later.share)(self, ctx, &msg);
                }
            }
            Msg::Go(door) => self.go(door),
            Msg::Drawer(drawer) => {
                self.drawer = Some(drawer).filter(|_| self.drawer != Some(drawer));
                if self.drawer == Some(Drawer::Bays) {
                    ctx.link().send_message(Msg::Bays(BaysMsg::List));
                }
            }
            Msg::Fold => self.more = !self.more,
            Msg::Theme(choice) => choice.choose(),
            Msg::Help | Msg::Shut | Msg::Shortcuts(_) | Msg::ReadOut | Msg::Faster(_) => {
                self.accessibility(&msg);
            }
            Msg::Later => {
                if let Some(later) = later::here() {
                    self.listeners.extend((later.listen)(ctx));
                    let asked = self.asked.take();
                    (later.begin)(self, ctx, asked);
                    ctx.link()
                        .send_message_batch(core::mem::take(&mut self.early));
                }
            }
            Msg::Refused(refused) => self.refused(refused),
            Msg::Undone(act) => self.told_act(act, words::undone),
            Msg::Redone(act) => self.told_act(act, words::redone),
            Msg::Offline => self.offline = true,
            Msg::Newer => self.update = true,
            Msg::Update => {
                self.stage.save(host::now());
                host::call("lowsideUpdate");
            }
            Msg::Copy => {
                if let Some(take) = self.notice.as_ref().and_then(|n| n.take.as_ref()) {
                    host::copy(take);
                }
            }
        }
        self.look_out();
        self.refresh();
        self.last_chart = 0.0;
        self.slow.1 = -1e9;
        true
    }

    fn rendered(&mut self, _: &Context<Self>, _: bool) {
        self.show_question();
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        if let Mode::Resuming(done) = self.mode {
            return html! {
                <main class="resuming">
                    <h1>{ words::name() }</h1>
                    <p id="resuming">{ words::resuming() }</p>
                    <progress max="1" value={format!("{done:.3}")} aria-labelledby="resuming"></progress>
                    if self.bays.replays() {
                        <p><button type="button" onclick={link.callback(|_: MouseEvent| Msg::Cancel)}>{ if store::bay().is_empty() { words::resuming_leave() } else { words::resuming_cancel() } }</button></p>
                    }
                </main>
            };
        }
        let shown = self.stage.shown();
        let readout = Readout::of(&shown, self.units);
        let controls = Controls::of(&shown, self.units);
        let [said, question] = self.peril_view(ctx, &shown);
        let job = self.stage.job.as_ref();
        let step = self.advised(&shown);
        let needed = step.and_then(Advice::control);
        let advised = step.map(|step| {
            let weighed = weighed(&shown, self.units);
            let (what, why) = words::advice(step, job, &weighed, &readout.label.to_string());
            next(&NextProps {
                what,
                why,
                control: needed,
                emergency: step.emergency(),
            })
        });
        let [hose, instruments] =
            later::here().map_or_else(panel::coming, |l| (l.tools)(self, ctx));
        let panel = panel(&PanelProps {
            door: self.door,
            controls,
            needed,
            act: link.callback(Msg::Act),
            hose,
            instruments,
            no_can: shown.tool(),
            more: self.more,
            fold: link.callback(|()| Msg::Fold),
        });
        let card = later::here()
            .map(|l| (l.card)(self, ctx))
            .filter(|_| self.has_card());
        let large = self.face.large.then_some("large");
        html! { <div class={classes!("page", host::projector().then_some("projector"))} key={words::current().tag()}>
            <a class="skip" href="#controls-title">{ words::to_controls() }</a>
            { self.top(ctx, &readout) }
            { later::here().map(|l| (l.sight)(self, ctx)).unwrap_or_default() }
            if self.help {
                if let Some(later) = later::here() {
                    { (later.help)(self.shortcuts.get(), link.callback(Msg::Shortcuts), link.callback(|()| Msg::Help)) }
                }
            }
            <main class={classes!("bay", card.is_some().then_some("with-card"), large)}>
                <div class="say">{ for advised }{ slim(&readout) }</div>
                { for card }
                { panel }
                <div class="middle">
                    { later::here().map(|l| (l.door)(self, ctx)).unwrap_or_default() }
                    { self.views(ctx, &shown) }
                </div>
                <div class="warns">
                    { said }
                    { self.notices(ctx) }
                </div>
                <section class={classes!("gauges", large)} aria-labelledby="gauges-title">
                    <h2 id="gauges-title" class="unseen">{ words::gauges() }</h2>
                    { self.dial(Which::High, &shown, &readout) }
                    { self.dial(Which::Low, &shown, &readout) }
                </section>
                <div class="side" tabindex="0" role="group" aria-label={words::readings()}>
                    { readings(&readout, shown.hands.attached.pump().is_some()) }
                    { self.grams(&shown) }
                    { log(&self.stage.lines) }
                </div>
                { self.time_bar(ctx) }
            </main>
            { question }
            { self.ticker() }
            if let Some(hint) = self.hint { <p class="hint" aria-hidden="true">{ hint }</p> }
            <footer><p>{ words::footer() }</p>if self.sees_something() { { self.picker(ctx) } }</footer>
            <div class="unseen" aria-live="polite" role="status">{ &self.said.0 }</div>
        </div> }
    }
}

impl App {
    /// A card is in hand, and one is at work on it.
    fn has_card(&self) -> bool {
        self.door == Door::Service && self.stage.job.is_some()
    }

    /// What is to be told of the page itself.
    fn notices(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        html! { <>
            if let Some(notice) = &self.notice {
                <p class="notice">{ &notice.told.text }
                    if let Some((label, bay)) = &notice.back {
                        <button type="button" class="back-to" onclick={link.callback({ let bay = bay.clone(); move |_: MouseEvent| Msg::Bays(BaysMsg::Open(bay.clone())) })}>{ &label.text }</button>
                    }
                    if notice.take.is_some() {
                        <button type="button" onclick={link.callback(|_: MouseEvent| Msg::SaveNotice)}>{ words::take_save() }</button>
                        <button type="button" onclick={link.callback(|_: MouseEvent| Msg::Copy)}>{ words::copy() }</button>
                    }
                </p>
            }
            if let Some((halt, later)) = self.stage.bay.halt().zip(later::here()) {
                <p class="notice" role="alert">{ (later.halted)(&halt.place) }</p>
            }
            if let Some(text) = words::stored(self.stage.stored) { <p class="notice">{ text }</p> }
            if self.update { <p class="notice">{ words::update_there() }
                <button type="button" id="update" onclick={link.callback(|_: MouseEvent| Msg::Update)}>{ words::update_now() }</button></p> }
        </> }
    }
}
