//! The root: holds the bay, lets time pass each frame, draws what moves, and gives the rest its text nine times a second.
use std::rc::Rc;

use lowside_lessons::next::Advice;
use lowside_present::{
    UnitSystem,
    bench::Item,
    controls::{Control, Controls},
    dial::Which,
    history::History,
    readout::{Readout, weighed},
    statement::{Said, Signed},
};
use lowside_session::{Action, Refused};
use yew::{Component, Context, Html, MouseEvent, NodeRef, classes, html};

use crate::{
    bays::KeptBay,
    chart::Chart,
    dial::Needles,
    doors::Door,
    host,
    later::{self, Part},
    levels::Painter,
    log::log,
    next::{NextProps, next},
    panel::{self, PanelProps, panel},
    past::Ended,
    readings::{readings, slim},
    stage::{self, Stage},
    store, units, words,
};

mod act;
mod bays;
mod begin;
pub(crate) mod browser_events;
mod class;
pub(crate) mod closed;
mod coming;
mod doors;
mod drill;
mod face;
mod frame;
mod guess;
mod head;
mod parts;
mod peril;
mod share;
mod sight;
mod work;

pub(crate) use act::TimeMsg;
pub(crate) use bays::BaysMsg;
pub(crate) use begin::StartMsg;
pub(crate) use browser_events::PageMsg;
pub(crate) use class::ClassMsg;
pub(crate) use drill::DrillMsg;
pub(crate) use face::FaceMsg;
pub(crate) use guess::GuessMsg;
pub(crate) use head::HeadMsg;
pub(crate) use peril::PerilMsg;
pub(crate) use share::ShareMsg;
pub(crate) use sight::SightMsg;
pub(crate) use work::WorkMsg;

/// What can happen to the page. What belongs to one part of it is a message of that part.
pub(crate) enum Msg {
    Act(Action),
    /// Tells why an act was refused.
    Refused(Refused),
    Peril(PerilMsg),
    Time(TimeMsg),
    Start(StartMsg),
    Bays(BaysMsg),
    Share(ShareMsg),
    Sight(SightMsg),
    Drill(DrillMsg),
    Class(ClassMsg),
    Work(WorkMsg),
    Face(FaceMsg),
    Head(HeadMsg),
    Page(PageMsg),
    /// Something for the polite region.
    Say(String),
}

impl Msg {
    /// The later parts without which it cannot be answered.
    fn needs(&self) -> &'static [Part] {
        match self {
            Self::Head(HeadMsg::Help) => &[Part::Desk],
            Self::Refused(_)
            | Self::Time(TimeMsg::Undone(_) | TimeMsg::Redone(_))
            | Self::Face(FaceMsg::Guess(_)) => &[Part::Hands],
            Self::Sight(_) => &[Part::Hands, Part::Keeping],
            Self::Start(StartMsg::Start(_) | StartMsg::Again) | Self::Share(ShareMsg::SaveTake) => {
                &[Part::Keeping]
            }
            Self::Share(ShareMsg::Link) => &[Part::Keeping, Part::Links],
            Self::Start(StartMsg::Resumed(..) | StartMsg::Cancel)
            | Self::Share(ShareMsg::SaveNotice | ShareMsg::File(_) | ShareMsg::Open(_))
            | Self::Bays(_)
            | Self::Time(TimeMsg::Line(_)) => &[Part::Keeping, Part::Reading],
            Self::Work(WorkMsg::Choose(_)) => &[],
            Self::Work(_) => &[Part::Keeping, Part::Jobs],
            Self::Drill(_) => &[Part::Keeping, Part::Diagnose],
            Self::Class(_) => &[Part::Keeping, Part::Class],
            Self::Face(FaceMsg::Save(_) | FaceMsg::Strip(_)) => &[Part::Charts],
            _ => &[],
        }
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

/// Wall time at which things were renewed last, ms.
struct Beat {
    text: f64,
    chart: f64,
    /// What changes slowly for those who listen, the drawing in words; and when it was made.
    slow: (String, f64),
}

/// The whole page.
pub(crate) struct App {
    stage: Stage,
    mode: Mode,
    coming: coming::Coming,
    begin: begin::Begin,
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
    /// What was pressed in the drawing of parts, to be worked on.
    item: Option<Item>,
    /// The statement as far as it is filled in.
    draft: Said,
    /// What lies on the desk of whoever teaches.
    class: class::Class,
    /// What lies beside an unknown vehicle.
    desk: drill::Desk,
    /// The record as it was signed.
    signed: Option<Signed>,
    /// The card that was noted as done last.
    done: Option<&'static str>,
    painter: Painter,
    sheet: NodeRef,
    chart: Chart,
    /// The line of time.
    line: NodeRef,
    needles: Needles,
    needed: Option<Control>,
    /// The next step, since when, and whether it was read out.
    step: (Option<Advice>, f64, bool),
    beat: Beat,
    /// Whether the browser keeps the take, as it was told last.
    stored: store::Kept,
    head: head::Head,
    browser: browser_events::Browser,
}

impl Component for App {
    type Message = Msg;
    type Properties = ();

    fn create(ctx: &Context<Self>) -> Self {
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
        let head = head::Head::new(door.unwrap_or(Door::Explore));
        Self {
            stage: if asked.is_some() {
                Stage::new(stage::open(stage::FIRST), History::default())
            } else {
                let mut stage = stage::first();
                // Nothing runs that nobody started.
                stage.paused |= head.door != Door::Explore;
                stage
            },
            mode: if asked.is_some() {
                Mode::Resuming(0.0)
            } else {
                Mode::Running
            },
            coming: coming::Coming::default(),
            begin: begin::Begin::new(asked),
            bays: bays::Bays::default(),
            units: linked.unwrap_or_else(units::load),
            peril: peril::Peril::default(),
            notice: None,
            told: None,
            said: (String::new(), 0.0),
            waiting: Vec::new(),
            face: face::Face::new(),
            item: None,
            draft: Said::default(),
            class: class::Class::default(),
            desk: drill::Desk::default(),
            signed: None,
            done: None,
            painter: Painter::default(),
            sheet: NodeRef::default(),
            chart: Chart::default(),
            line: NodeRef::default(),
            needles: Needles::default(),
            needed: None,
            step: (None, 0.0, true),
            beat: Beat {
                text: 0.0,
                chart: 0.0,
                slow: (String::new(), -1e9),
            },
            stored: store::Kept::Yes,
            browser: browser_events::Browser::new(ctx, head.shortcuts.clone()),
            head,
        }
    }

    fn update(&mut self, ctx: &Context<Self>, msg: Msg) -> bool {
        let Some(msg) = self.ready(ctx, msg) else {
            return false;
        };
        let changed = match msg {
            Msg::Face(msg) => return self.face(msg),
            Msg::Page(PageMsg::Frame(now)) => {
                self.browser.next_frame = browser_events::next_frame(ctx);
                return self.frame(now);
            }
            Msg::Say(text) => {
                self.waiting.push(text);
                false
            }
            Msg::Head(msg) => self.head(ctx, msg),
            Msg::Start(msg) => self.starts(ctx, msg),
            Msg::Page(msg) => {
                self.page(ctx, &msg);
                true
            }
            Msg::Act(action) => {
                self.act(action);
                true
            }
            Msg::Refused(refused) => {
                self.refused(refused);
                true
            }
            Msg::Peril(msg) => {
                self.peril(msg);
                true
            }
            Msg::Time(msg) => {
                self.time(ctx, msg);
                true
            }
            Msg::Share(msg) => {
                self.shares(ctx, msg);
                true
            }
            Msg::Work(WorkMsg::Choose(item)) => {
                self.choose(item);
                true
            }
            Msg::Work(msg) => later::jobs().map(|l| (l.work)(self, msg)).is_some(),
            Msg::Sight(msg) => later::hands().map(|l| (l.see)(self, msg)).is_some(),
            Msg::Drill(msg) => later::diagnose().map(|l| (l.act)(self, msg)).is_some(),
            Msg::Class(msg) => later::class().map(|l| (l.act)(self, msg)).is_some(),
            Msg::Bays(msg) => later::reading().map(|l| (l.bays)(self, ctx, msg)).is_some(),
        };
        if changed {
            self.look_out();
            self.refresh();
            self.beat.chart = 0.0;
            self.beat.slow.1 = -1e9;
        }
        changed
    }

    fn rendered(&mut self, ctx: &Context<Self>, _: bool) {
        self.fetch_wanted(ctx);
        self.show_question();
        self.show_help();
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
                        <p><button type="button" onclick={link.callback(|_: MouseEvent| Msg::Start(StartMsg::Cancel))}>{ if store::bay().is_empty() { words::resuming_leave() } else { words::resuming_cancel() } }</button></p>
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
        let emergency = step.is_some_and(Advice::emergency);
        let told = later::diagnose().filter(|_| self.has_card() && !emergency);
        let said_of_it = told.and_then(|l| (l.told)(self));
        let unknown = said_of_it.is_some();
        let asked = said_of_it.or_else(|| {
            let weighed = weighed(&shown, self.units);
            Some(words::advice(
                step?,
                job,
                &weighed,
                &readout.label.to_string(),
            ))
        });
        let advised = asked.map(|(what, why)| {
            next(&NextProps {
                what,
                why,
                control: needed.filter(|_| !unknown),
                emergency,
            })
        });
        let [hose, instruments] = later::hands().map_or_else(
            || panel::coming(self.sign(ctx, Part::Hands)),
            |l| (l.tools)(self, ctx),
        );
        let panel = panel(&PanelProps {
            door: self.head.door,
            unknown,
            controls,
            needed,
            act: link.callback(Msg::Act),
            hose,
            instruments,
            no_can: shown.tool(),
            more: self.face.more,
            fold: link.callback(|()| Msg::Face(FaceMsg::Fold)),
        });
        let card = self.has_card().then(|| self.card(ctx));
        let large = self.face.large.then_some("large");
        html! { <div class={classes!("page", host::projector().then_some("projector"))} key={words::current().tag()}>
            <a class="skip" href="#controls-title">{ words::to_controls() }</a>
            { self.top(ctx, &readout) }
            { later::hands().map(|l| (l.sight)(self, ctx)).unwrap_or_default() }
            if self.head.help {
                if let Some(desk) = later::desk() {
                    { (desk.help)(self.head.shortcuts.get(), link.callback(|x| Msg::Head(HeadMsg::Shortcuts(x))), &link.callback(|()| Msg::Head(HeadMsg::Shut)), self.head.sheet_of_help.clone()) }
                }
            }
            <main class={classes!("bay", card.is_some().then_some("with-card"), large)}>
                <div class="say">{ for advised }{ slim(&readout) }</div>
                { for card }
                { panel }
                <div class="stage">
                    <div class="middle">
                        { self.door(ctx) }
                        { self.views(ctx, &shown) }
                    </div>
                    <div class="warns">
                        { said }
                        { self.notices(ctx) }
                    </div>
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
            if let Some(hint) = self.head.hint { <p class="hint" aria-hidden="true">{ hint }</p> }
            <footer><p>{ words::footer() }</p>if self.sees_something() { { self.picker(ctx) } }</footer>
            <div class="unseen" aria-live="polite" role="status">{ &self.said.0 }</div>
        </div> }
    }
}

impl App {
    /// A card is in hand, and one is at work on it.
    fn has_card(&self) -> bool {
        match self.head.door {
            Door::Service => self.stage.job.is_some(),
            Door::Diagnose => self.stage.sitting.seed != 0,
            Door::Explore | Door::Class => false,
        }
    }

    /// A card or a vehicle is about to be chosen, and nothing was done to the bay behind: no step of its own is shown then.
    fn chooses(&self) -> bool {
        let shelf = matches!(self.head.door, Door::Service | Door::Diagnose);
        shelf && !self.has_card() && self.stage.bay.log().is_empty()
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
                        <button type="button" onclick={link.callback(|_: MouseEvent| Msg::Share(ShareMsg::SaveNotice))}>{ words::take_save() }</button>
                        <button type="button" onclick={link.callback(|_: MouseEvent| Msg::Share(ShareMsg::Copy))}>{ words::copy() }</button>
                    }
                </p>
            }
            if let Some((halt, hands)) = self.stage.bay.halt().zip(later::hands()) {
                <p class="notice" role="alert">{ (hands.halted)(&halt.place) }</p>
            }
            if let Some(text) = words::stored(self.stage.stored) { <p class="notice">{ text }</p> }
            if self.browser.update { <p class="notice">{ words::update_there() }
                <button type="button" id="update" onclick={link.callback(|_: MouseEvent| Msg::Page(PageMsg::Update))}>{ words::update_now() }</button></p> }
        </> }
    }
}
