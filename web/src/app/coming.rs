//! The later parts of the program: which are wanted, on their way, missed, and what waits for them.
use gloo::timers::future::TimeoutFuture;
use yew::{Context, Html, MouseEvent, html};

use super::{App, Msg, PageMsg};
use crate::{
    doors::Door,
    host,
    later::{self, Part},
    top::Drawer,
    views::View,
    words,
};

/// The parts that were asked for and are not here, and whether asking failed the last time.
#[derive(Default)]
pub(super) struct Coming {
    asked: Vec<(Part, bool)>,
    /// The bay on stage has its id, or what was asked for is being taken up.
    begun: bool,
    /// What came before the parts that answer it, in order.
    pub(super) early: Vec<Msg>,
    /// The view opened last, whose part is not here yet.
    sought: Option<View>,
}

/// The part that draws a view; none for what the first view has.
pub(super) fn draws(view: View) -> Option<Part> {
    match view {
        View::Levels => None,
        View::Parts => Some(Part::Parts),
        View::Job => Some(Part::Sheet),
        View::Strip | View::Plot(_) => Some(Part::Charts),
    }
}

impl App {
    /// What stands on the page asks for these parts: two always, the others with their door or their view.
    fn wanted(&self) -> impl Iterator<Item = Part> + use<> {
        let (door, open) = (self.head.door, &self.face.open);
        let drawn = |part: Part| open.iter().any(|view| draws(view) == Some(part));
        let wanted = [
            (Part::Hands, true),
            (Part::Keeping, true),
            (
                Part::Desk,
                self.head.drawer.is_some() || self.head.help || door == Door::Diagnose,
            ),
            (
                Part::Reading,
                self.begin.asked.is_some() || self.head.drawer == Some(Drawer::Bays),
            ),
            (
                Part::Jobs,
                door == Door::Service || self.stage.job.is_some() || open.has(View::Job),
            ),
            (Part::Sheet, drawn(Part::Sheet)),
            (
                Part::Diagnose,
                door == Door::Diagnose || self.stage.sitting.seed != 0,
            ),
            (Part::Class, door == Door::Class),
            (Part::Parts, drawn(Part::Parts)),
            (Part::Charts, drawn(Part::Charts)),
        ];
        wanted
            .into_iter()
            .filter(|(_, is)| *is)
            .map(|(part, _)| part)
    }

    /// What was opened is seen: at once, and again when what draws it has come.
    pub(super) fn seek(&mut self, view: View) {
        host::show_soon(format!("view-{}", view.id()));
        self.coming.sought = draws(view)
            .is_some_and(|part| !part.is_here())
            .then_some(view);
    }

    /// Fetches what is wanted and neither here nor on its way.
    pub(super) fn fetch_wanted(&mut self, ctx: &Context<Self>) {
        for part in self.wanted() {
            self.want(ctx, part);
        }
    }

    /// Fetches a part that is neither here nor on its way, however long it takes.
    fn want(&mut self, ctx: &Context<Self>, part: Part) {
        if part.is_here() || self.coming.asked.iter().any(|(p, _)| *p == part) {
            return;
        }
        self.coming.asked.push((part, false));
        let link = ctx.link().clone();
        wasm_bindgen_futures::spawn_local(async move {
            while part.ask().await.is_err() {
                link.send_message(Msg::Page(PageMsg::Missed(part)));
                TimeoutFuture::new(later::AGAIN).await;
            }
            link.send_message(Msg::Page(PageMsg::Here(part)));
        });
    }

    /// Keeps what only later parts can answer, and fetches those; gives it back if they are all here.
    pub(super) fn ready(&mut self, ctx: &Context<Self>, msg: Msg) -> Option<Msg> {
        let mut ready = true;
        for part in msg.needs().iter().filter(|part| !part.is_here()) {
            ready = false;
            self.want(ctx, *part);
        }
        if ready {
            return Some(msg);
        }
        self.coming.early.push(msg);
        None
    }

    /// A part could not be fetched. It is asked for again by itself, and at once by who presses for it.
    pub(super) fn missed(&mut self, part: Part) {
        let asked = self.coming.asked.iter_mut().find(|(p, _)| *p == part);
        if let Some((_, missed @ false)) = asked {
            *missed = true;
            self.waiting.push(words::coming_failed().to_owned());
        }
    }

    /// Asks at once for a part that was missed.
    pub(super) fn ask_again(ctx: &Context<Self>, part: Part) {
        let link = ctx.link().clone();
        wasm_bindgen_futures::spawn_local(async move {
            if part.ask().await.is_ok() {
                link.send_message(Msg::Page(PageMsg::Here(part)));
            }
        });
    }

    /// A part is here: what waited for it goes on.
    pub(super) fn has_come(&mut self, ctx: &Context<Self>, part: Part) {
        // It may be told of twice: by itself, and by who pressed for it.
        if let Some(at) = self.coming.asked.iter().position(|(p, _)| *p == part) {
            self.coming.asked.remove(at);
            let sought = &mut self.coming.sought;
            if let Some(view) = sought.take_if(|view| draws(*view) == Some(part)) {
                host::show_again(format!("view-{}", view.id()));
            }
            if let (Part::Hands, Some(hands)) = (part, later::hands()) {
                self.browser.listeners.extend((hands.listen)(ctx));
            }
        }
        // The tables of several parts may be here before the first is told of.
        if let Some(keeping) = later::keeping().filter(|_| !self.coming.begun) {
            let asked = self.begin.asked.take();
            self.coming.begun = true;
            match (asked, later::reading()) {
                (None, _) => (keeping.settle)(self),
                (Some(asked), Some(reading)) => (reading.begin)(self, ctx, asked),
                (asked, None) => {
                    self.begin.asked = asked;
                    self.coming.begun = false;
                }
            }
        }
        ctx.link()
            .send_message_batch(core::mem::take(&mut self.coming.early));
    }

    /// What stands where a part will be: that it is on its way, or that it was missed and can be asked for.
    pub(super) fn sign(&self, ctx: &Context<Self>, part: Part) -> Html {
        if !self.coming.asked.contains(&(part, true)) {
            return html! { <p class="coming">{ words::coming() }</p> };
        }
        let again = ctx
            .link()
            .callback(move |_: MouseEvent| Msg::Page(PageMsg::Again(part)));
        html! { <p class="coming">{ words::coming_failed() }{ " " }<button type="button" onclick={again}>{ words::coming_again() }</button></p> }
    }
}
