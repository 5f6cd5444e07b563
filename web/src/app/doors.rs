//! What stands behind each door, the card in hand, and what the head's drawers hold.
use yew::{Context, Html, html};

use super::{App, FaceMsg, HeadMsg, Msg, ShareMsg, StartMsg, WorkMsg};
use crate::{
    doors::Door,
    job::JobView,
    kit::button,
    settings::{SettingsProps, settings},
    shelf::{Shelf, card},
    store, theme,
    top::{Drawer, StartProps, start},
    views::View,
    words,
};

impl App {
    /// Notes that the card in hand was done, for the shelf. In a closed bay that is not told.
    pub(super) fn note_done(&mut self) {
        let Some(job) = &self.stage.job else { return };
        if self.done == Some(job.name) || self.closed() || !job.passed() {
            return;
        }
        self.done = Some(job.name);
        let known = store::get(store::DONE).unwrap_or_default();
        if !known.split(' ').any(|name| name == job.name) {
            let _ = store::set(store::DONE, format!("{known} {}", job.name).trim_start());
        }
    }

    /// What stands behind the door one is in, above the views.
    pub(crate) fn door_view(&self, ctx: &Context<Self>) -> Html {
        match self.head.door {
            Door::Explore => html! {},
            Door::Service if self.stage.job.is_some() => html! {},
            Door::Service => self.shelf_view(ctx),
            Door::Diagnose if self.is_drill() => self.slips_view(ctx),
            Door::Diagnose => html! { <>
                { self.bring_view(ctx) }
                <details class="behind"><summary>{ words::drill_any() }</summary>
                    { self.start_view(ctx) }
                    { self.begin_view(ctx) }
                </details>
            </> },
            Door::Class => self.class_view(ctx),
        }
    }

    fn shelf_view(&self, ctx: &Context<Self>) -> Html {
        let done = store::get(store::DONE).unwrap_or_default();
        let take = ctx
            .link()
            .callback(|name| Msg::Work(WorkMsg::Job(Some(name))));
        html! { <Shelf sight={self.sight_choice(ctx, "shelf-sight")} {done} {take} /> }
    }

    /// The card in hand, if there is one and one is at work on it.
    pub(crate) fn card_view(&self, ctx: &Context<Self>) -> Html {
        let s = &self.stage;
        if self.head.door == Door::Diagnose && self.is_drill() {
            return self.drill_view(ctx);
        }
        let Some(job) = s.job.as_ref().filter(|_| self.head.door == Door::Service) else {
            return html! {};
        };
        let view = JobView::of(job, &s.bay, &s.sitting, self.units);
        let back = ctx.link().callback(|()| Msg::Work(WorkMsg::Job(None)));
        let sheet = ctx
            .link()
            .callback(|()| Msg::Face(FaceMsg::Toggle(View::Job)));
        let open = !self.face.open.has(View::Job);
        card(&view, &back, open.then_some(&sheet))
    }

    fn class_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        let large = link.callback(|_: yew::MouseEvent| Msg::Face(FaceMsg::Large));
        let copy = link.callback(|()| Msg::Share(ShareMsg::Link));
        let print = link.callback(|()| Msg::Face(FaceMsg::Print));
        html! {
            <section class="behind" aria-labelledby="behind-title">
                <h2 id="behind-title">{ words::door_class() }</h2>
                <p>{ words::class_idea() }</p>
                <span class="pair">
                    <button type="button" aria-pressed={self.face.large.to_string()} onclick={large}>{ words::large_gauges() }</button>
                    <a href="?layout=projector">{ words::projector() }</a>
                    { button(words::take_link(), true, move || copy.emit(())) }
                    { button(words::print(), true, move || print.emit(())) }
                </span>
            </section>
        }
    }

    /// What to start with.
    fn start_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        start(&StartProps {
            scenario: self.begin.scenario.clone(),
            picked: self.begin.picked.clone(),
            own: self.own(),
            pick: link.callback(|x| Msg::Start(StartMsg::Pick(x))),
            start: link.callback(|x| Msg::Start(StartMsg::Start(x))),
            again: link.callback(|()| Msg::Start(StartMsg::Again)),
        })
    }

    /// What a drawer of the head holds.
    pub(crate) fn drawer_view(&self, ctx: &Context<Self>, drawer: Drawer) -> Html {
        let link = ctx.link();
        match drawer {
            Drawer::Bays => html! { <>{ self.start_view(ctx) }{ self.bays_view(ctx) }</> },
            Drawer::Settings => settings(&SettingsProps {
                units: self.units,
                set_units: link.callback(|x| Msg::Head(HeadMsg::Units(x))),
                set_language: link.callback(|x| Msg::Head(HeadMsg::Language(x))),
                theme: theme::chosen(),
                set_theme: link.callback(|x| Msg::Head(HeadMsg::Theme(x))),
                sound: self.face.sound,
                toggle_sound: link.callback(|()| Msg::Face(FaceMsg::Sound)),
                offline: self.browser.offline,
                save_take: link.callback(|()| Msg::Share(ShareMsg::SaveTake)),
                copy_link: link.callback(|()| Msg::Share(ShareMsg::Link)),
                open: link.callback(|x| Msg::Share(ShareMsg::Open(x))),
            }),
        }
    }
}
