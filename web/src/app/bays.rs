//! Bays that come and go: what is replayed, what is put aside for it, the way back, and the list of those that are kept.
use std::{
    cell::{Cell, RefCell},
    rc::Rc,
};

use lowside_lessons::link::LinkError;
use lowside_present::{UnitSystem, statement::Said};
use lowside_session::{
    TICKS_PER_SECOND, Take, TakeError,
    take::{End, Undone},
};
use lowside_units::{Duration, display};
use yew::{Context, Html, MouseEvent, html};

use super::{App, Mode, Msg, Notice, StartMsg, Told, peril::Peril};
use crate::{
    bays::{self, Found, KeptBay, Named, Seen},
    doors::Door,
    fail, host,
    kept_lines::KeptLines,
    later::{self, Part},
    link::Asked,
    resume::{self, Resumed},
    share,
    stage::{self, Stage},
    store,
    tabs::{self, Hold},
    words,
};

/// What happens to kept bays.
pub(crate) enum BaysMsg {
    /// What the address asks for, and what there is to go on with; if that turn is not over.
    Found(u32, Result<Option<Asked>, LinkError>, Box<Found>),
    /// A link was put into the address of the open page.
    Linked,
    /// What it asks for, and in which units, if that turn is not over.
    Asked(u32, Result<Option<Asked>, LinkError>, Option<UnitSystem>),
    /// The list is wanted.
    List,
    /// Here it is: each bay, and whether another tab has it.
    Listed(Vec<(KeptBay, bool)>),
    /// Opens a bay.
    Open(Rc<KeptBay>),
    /// It may be opened; not if another tab has it.
    Opened(u32, Box<KeptBay>, Option<Hold>),
    /// Saves its take as a file.
    Save(Rc<KeptBay>),
    /// Asks whether to remove it, or no longer does.
    Ask(Option<String>),
    /// Removes it.
    Remove(String),
}

/// What is being replayed.
pub(super) enum Source {
    /// A kept bay, under its own id.
    Own(KeptBay, Hold),
    File,
    Link,
    /// Another line of the bay on stage, with those beside it.
    Line(KeptLines),
}

/// The bays beside the one on stage.
#[derive(Default)]
pub(crate) struct Bays {
    /// Counts what was begun: what comes late, from an earlier turn, is not taken any more.
    turn: Rc<Cell<u32>>,
    source: Option<Source>,
    /// The visitor's own bay, while a link goes before it.
    pub(super) own: Option<(KeptBay, Hold)>,
    /// The bay on stage is this tab's.
    hold: Rc<RefCell<Option<Hold>>>,
    list: Vec<Entry>,
    /// The one that is to be removed, if that is confirmed.
    asked: Option<String>,
}

/// A bay of the list.
struct Entry {
    bay: Rc<KeptBay>,
    seen: Seen,
    elsewhere: bool,
}

impl Bays {
    /// Is something being replayed?
    pub(super) fn replays(&self) -> bool {
        self.source.is_some()
    }

    /// Begins another turn.
    pub(super) fn turn(&self) -> u32 {
        let next = self.turn.get().wrapping_add(1);
        self.turn.set(next);
        next
    }

    /// Is this turn over?
    pub(super) fn is_over(&self, turn: u32) -> bool {
        turn != self.turn.get()
    }
}

fn clock(seen: &Seen) -> String {
    let time = Duration::from_s(seen.ticks as f64 / TICKS_PER_SECOND as f64);
    display::duration(time).number
}

impl App {
    /// Does it.
    pub(crate) fn bays(&mut self, ctx: &Context<Self>, msg: BaysMsg) {
        let link = ctx.link().clone();
        match msg {
            BaysMsg::Found(turn, ..) | BaysMsg::Asked(turn, ..) | BaysMsg::Opened(turn, ..)
                if self.bays.is_over(turn) => {}
            BaysMsg::Found(_, asked, found) => self.found(ctx, asked, *found),
            BaysMsg::Linked => self.linked(ctx),
            BaysMsg::Asked(_, asked, units) => self.asked(ctx, asked, units),
            BaysMsg::List => Self::list(ctx),
            BaysMsg::Listed(list) => {
                let entry = |(bay, elsewhere): (KeptBay, bool)| Entry {
                    seen: bay.seen(),
                    bay: Rc::new(bay),
                    elsewhere,
                };
                self.bays.list = list.into_iter().map(entry).collect();
            }
            BaysMsg::Open(bay) => {
                let turn = self.bays.turn();
                wasm_bindgen_futures::spawn_local(async move {
                    let hold = tabs::hold(&bay.id, true).await;
                    // Another tab may have had it since it was seen here.
                    let newest = KeptBay::newest(&bay.id).await;
                    let mut bay = newest.unwrap_or_else(|| (*bay).clone());
                    if hold.as_ref().is_some_and(|hold| !hold.sure()) {
                        bay.id = bays::new_id();
                    }
                    link.send_message(Msg::Bays(BaysMsg::Opened(turn, Box::new(bay), hold)));
                });
            }
            BaysMsg::Opened(_, bay, None) => {
                self.tell(
                    move || words::bay_elsewhere_still(bay.seen().name.told()),
                    None,
                );
            }
            BaysMsg::Opened(_, bay, Some(hold)) => match bay.take() {
                Ok(take) => self.replay(ctx, take, Source::Own(*bay, hold)),
                Err(e) => self.tell_of(move || words::resume_broken(words::take_why(&e)), *bay),
            },
            BaysMsg::Save(bay) => share::save(bay.take_text()),
            BaysMsg::Ask(id) => self.bays.asked = id,
            BaysMsg::Remove(id) => {
                self.bays.asked = None;
                wasm_bindgen_futures::spawn_local(async move {
                    bays::remove(&id).await;
                    link.send_message(Msg::Bays(BaysMsg::List));
                });
            }
        }
    }

    fn list(ctx: &Context<Self>) {
        let link = ctx.link().clone();
        wasm_bindgen_futures::spawn_local(async move {
            let list = bays::list().await;
            // Bays of a job go by the name of its card.
            if list.iter().any(|(bay, _)| bay.text(store::JOB).is_some()) {
                later::fetch(Part::Jobs).await;
            }
            link.send_message(Msg::Bays(BaysMsg::Listed(list)));
        });
    }

    /// Gives the bay on stage an id of its own.
    pub(crate) fn settle_anew(&mut self) {
        self.settle(bays::new_id(), None);
    }

    /// The bay on stage has this id from now on, and is this tab's.
    pub(super) fn settle(&mut self, id: String, hold: Option<Hold>) {
        self.bays.turn();
        store::begin_bay(&id);
        host::set_note(None);
        let place = self.bays.hold.clone();
        drop(place.replace(hold));
        wasm_bindgen_futures::spawn_local(async move {
            if place.borrow().is_none() {
                let hold = tabs::hold(&id, false).await;
                if store::bay() == id {
                    place.replace(hold);
                }
            }
            bays::sweep().await;
        });
    }

    /// Replays a take while the page shows how far it is. What is on stage stays there until the replay is whole.
    pub(super) fn replay(&mut self, ctx: &Context<Self>, take: Take, source: Source) {
        self.stage.save(host::now());
        self.head.drawer = None;
        let job = match &source {
            Source::Own(bay, _) => bay.text(store::JOB).map(str::to_owned),
            Source::File | Source::Line(_) => self.stage.job.as_ref().map(|j| j.name.to_owned()),
            Source::Link => None,
        };
        let job = take.sitting.job().map(str::to_owned).or(job);
        if let Source::Own(bay, _) = &source {
            fail::replays(Some(&bay.id));
            fail::remember(bay.take_text());
        }
        self.mode = Mode::Resuming(0.0);
        self.bays.source = Some(source);
        let turn = self.bays.turn();
        let (link, turns) = (ctx.link().clone(), self.bays.turn.clone());
        wasm_bindgen_futures::spawn_local(async move {
            let report = |done| {
                let wanted = turns.get() == turn;
                if wanted {
                    link.send_message(Msg::Start(StartMsg::Progress(done)));
                }
                wanted
            };
            if job.is_some() {
                later::fetch(Part::Jobs).await;
            }
            match resume::resume(&take, job.as_deref(), report).await {
                Ok(None) => {}
                Ok(Some(found)) => {
                    link.send_message(Msg::Start(StartMsg::Resumed(turn, Box::new(Ok(found)))));
                }
                Err(e) => link.send_message(Msg::Start(StartMsg::Resumed(turn, Box::new(Err(e))))),
            }
        });
    }

    /// A replay is no longer wanted: what was on stage is there again, or a bay of its own.
    pub(crate) fn cancel(&mut self) {
        self.bays.turn();
        fail::replays(None);
        self.mode = Mode::Running;
        let left = match self.bays.source.take() {
            Some(Source::Own(bay, _)) => Some(bay),
            _ => self.bays.own.take().map(|(bay, _)| bay),
        };
        if store::bay().is_empty() {
            self.first(true);
            if let Some(bay) = left {
                let seen = bay.seen();
                self.announce(way_back(&bay, seen));
            }
        }
    }

    /// A replay has ended.
    pub(crate) fn resumed(&mut self, ctx: &Context<Self>, outcome: Result<Resumed, TakeError>) {
        fail::replays(None);
        self.mode = Mode::Running;
        let Some(source) = self.bays.source.take() else {
            return;
        };
        match outcome {
            Ok(found) => self.put_on(found, source),
            Err(e) => {
                let why = move || words::take_why(&e);
                match source {
                    Source::Own(bay, _) => {
                        if store::bay().is_empty() {
                            self.first(true);
                        }
                        self.tell_of(move || words::resume_broken(why()), bay);
                    }
                    Source::File => self.tell(move || words::file_broken(why()), None),
                    Source::Line(_) => self.tell(move || words::resume_broken(why()), None),
                    Source::Link => {
                        self.tell(move || words::link_broken(why()), None);
                        if !store::bay().is_empty() {
                            return;
                        }
                        let own = self.bays.own.take();
                        let found =
                            own.map_or(Found::Nothing, |(bay, hold)| Found::Mine(bay, hold));
                        self.take_up(ctx, found);
                    }
                }
            }
        }
    }

    /// Puts a replayed bay on stage, and what was there aside.
    fn put_on(&mut self, found: Resumed, source: Source) {
        let end = found.end;
        let skipped: Vec<_> = found.skipped.iter().map(|s| s.action).collect();
        let (mut same, mut left) = (None, Vec::new());
        let (kept_lines, notice) = match source {
            Source::Line(kept_lines) => {
                same = Some(self.stage.sitting.clone());
                left = self.stage.sitting_now().lines;
                let head = self.stage.past.head(&self.stage.bay);
                left.extend(Undone::between(head.log(), found.bay.log()));
                (kept_lines, None)
            }
            Source::Own(bay, hold) => {
                let notice = self.put_aside();
                self.settle(bay.id.clone(), Some(hold));
                let draft = bay.text(store::DRAFT).and_then(Said::parse);
                self.draft = draft.unwrap_or_default();
                self.signed = None;
                (KeptLines::of(&bay), notice)
            }
            Source::File | Source::Link => {
                // What was told of the file or link before is over.
                self.notice = None;
                let notice = self.put_aside();
                self.settle(bays::new_id(), None);
                self.state_nothing();
                (KeptLines::default(), notice)
            }
        };
        self.begin.scenario = stage::offered(found.bay.scenario())
            .unwrap_or_default()
            .into();
        self.stage = Stage::taken_up(found, kept_lines);
        if let Some(sitting) = same {
            // Going to another line changes nothing of how it is worked in.
            self.stage.sitting = sitting;
            // The line was kept with what had been undone by then.
            let known = self.stage.past.undone().len();
            self.stage.past.remember(left.into_iter().skip(known));
        }
        self.begin.sight = self.stage.sitting.sight;
        self.peril = Peril::default();
        if self.stage.job.is_some() {
            self.head.door = Door::Service;
        } else if self.is_drill() {
            self.head.door = Door::Diagnose;
        }
        self.keep_work();
        self.stage.save(host::now());
        if end != End::Same {
            let take = share::text(&self.stage.bay, &self.stage.sitting_now());
            self.announce(Notice {
                told: Told::new(move || {
                    if end == End::Unknown {
                        words::other_physics(&skipped)
                    } else {
                        words::resume_differs().to_owned()
                    }
                }),
                take: Some(take),
                back: notice.and_then(|notice| notice.back),
            });
        } else if let Some(notice) = notice {
            self.announce(notice);
        }
    }

    /// The bay on stage as it is kept.
    fn present(&self) -> KeptBay {
        let s = &self.stage;
        let sitting = s.sitting_now();
        let own = [
            (store::TAKE, share::text(s.past.head(&s.bay), &sitting)),
            (store::AT, host::today().to_string()),
            (store::DRAFT, self.draft.to_text()),
        ];
        let mut texts = s
            .kept_lines
            .texts(&s.past, |bay| share::text(bay, &sitting));
        texts.extend(own.map(|(name, text)| (name.to_owned(), text)));
        texts.extend(
            s.job
                .as_ref()
                .map(|job| (store::JOB.to_owned(), job.name.to_owned())),
        );
        KeptBay {
            id: store::bay(),
            texts,
        }
    }

    /// Puts the bay on stage aside, or the visitor's own if a link goes before it; gives the way back, if it is worth one.
    fn put_aside(&mut self) -> Option<Notice> {
        let (bay, seen, hold) = match (self.bays.own.take(), later::reading()) {
            (Some((bay, hold)), Some(reading)) => {
                let seen = (reading.seen)(&bay);
                (bay, seen, Some(hold))
            }
            _ if store::bay().is_empty() => return None,
            _ => (self.present(), self.seen(), self.bays.hold.take()),
        };
        let notice = way_back(&bay, seen.clone());
        store::begin_bay("");
        bay.put_aside(hold, &seen).then_some(notice)
    }

    /// What one sees of the bay on stage in a list.
    fn seen(&self) -> Seen {
        let head = self.stage.past.head(&self.stage.bay);
        Seen {
            name: Named::of(self.stage.job.as_ref(), head.scenario()),
            ticks: head.tick(),
            acts: head.log().len(),
        }
    }

    /// Makes room on stage for a fresh bay; gives the way back.
    pub(crate) fn change(&mut self) -> Option<Notice> {
        fail::replays(None);
        self.bays.source = None;
        let notice = self.put_aside();
        self.settle(bays::new_id(), None);
        notice
    }

    /// Keeps what was done, as the page is left or only looked away from.
    pub(super) fn leave(&self, left: bool) {
        if let (Mode::Running, Some(keeping)) = (&self.mode, later::keeping()) {
            let _ = (keeping.keep)(&self.stage);
        }
        let id = store::bay();
        if !id.is_empty() {
            host::set_note(left.then_some(id.as_str()));
        }
    }

    /// Keeps the job and the statement of the bay on stage in its slot.
    fn keep_work(&self) {
        if let Some(job) = &self.stage.job {
            let _ = store::keep(store::JOB, job.name);
        }
        if self.draft != Said::default() {
            let _ = store::keep(store::DRAFT, &self.draft.to_text());
        }
    }

    /// Tells of a bay that could not be taken up: it is kept, can be tried again, and saved.
    pub(super) fn tell_of(&mut self, text: impl Fn() -> String + 'static, bay: KeptBay) {
        self.announce(Notice {
            told: Told::new(text),
            take: Some(bay.take_text().to_owned()),
            back: Some((Told::new(|| words::bay_again().to_owned()), Rc::new(bay))),
        });
    }

    /// The list of kept bays.
    pub(crate) fn bays_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        let row = |e: &Entry| {
            let id = e.bay.id.clone();
            let name = e.seen.name.told();
            let when = host::date_and_time(e.bay.at(), words::current().tag());
            let about = words::bay_about(clock(&e.seen), e.seen.acts, when);
            let asked = self.bays.asked.as_ref() == Some(&id);
            let bay = |make: fn(Rc<KeptBay>) -> BaysMsg| {
                let bay = e.bay.clone();
                link.callback(move |_: MouseEvent| Msg::Bays(make(bay.clone())))
            };
            let open = bay(BaysMsg::Open);
            let save = bay(BaysMsg::Save);
            let ask = bay(|bay| BaysMsg::Ask(Some(bay.id.clone())));
            let remove = bay(|bay| BaysMsg::Remove(bay.id.clone()));
            let not = bay(|_| BaysMsg::Ask(None));
            html! { <li key={id}>
                <strong>{ &name }</strong><small>{ about }</small>
                if e.elsewhere {
                    <small>{ words::bay_in_other_tab() }</small>
                } else if asked {
                    <span class="pair">
                        <button type="button" onclick={remove}>{ words::bay_remove_sure() }</button>
                        <button type="button" onclick={not}>{ words::bay_remove_not() }</button>
                    </span>
                } else {
                    <span class="pair">
                        <button type="button" aria-label={words::named(words::bay_open(), &name)} onclick={open}>{ words::bay_open() }</button>
                        <button type="button" aria-label={words::named(words::take_save(), &name)} onclick={save}>{ words::take_save() }</button>
                        <button type="button" aria-label={words::named(words::bay_remove(), &name)} onclick={ask}>{ words::bay_remove() }</button>
                    </span>
                }
            </li> }
        };
        html! { <>
            <p class="told">{ words::bays_idea() }</p>
            if self.bays.list.is_empty() { <p class="empty">{ words::bays_none() }</p> }
            <ul class="kept">{ for self.bays.list.iter().map(row) }</ul>
        </> }
    }
}

/// That a bay is kept, with the way back to it.
fn way_back(bay: &KeptBay, seen: Seen) -> Notice {
    let label = move || words::bay_back(seen.name.told(), clock(&seen));
    Notice {
        told: Told::new(|| words::bay_kept().to_owned()),
        take: None,
        back: Some((Told::new(label), Rc::new(bay.clone()))),
    }
}
