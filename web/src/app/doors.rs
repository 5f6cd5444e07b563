//! What stands behind each door, the card in hand, and what the head's drawers hold.
use yew::{Context, Html, html};

use super::{App, FaceMsg, HeadMsg, Msg, ShareMsg, StartMsg, WorkMsg};
use crate::{
    doors::Door,
    job::JobView,
    later::{self, Part},
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
    pub(super) fn door(&self, ctx: &Context<Self>) -> Html {
        let (part, html) = match self.head.door {
            Door::Explore => return html! {},
            Door::Service if self.stage.job.is_some() => return html! {},
            Door::Service => (Part::Jobs, later::jobs().map(|l| (l.shelf)(self, ctx))),
            Door::Diagnose => (
                Part::Diagnose,
                later::diagnose().map(|l| (l.door)(self, ctx)),
            ),
            Door::Class => (Part::Class, later::class().map(|l| (l.door)(self, ctx))),
        };
        html.unwrap_or_else(|| self.sign(ctx, part))
    }

    /// The card in hand: of a job, or of an unknown vehicle.
    pub(super) fn card(&self, ctx: &Context<Self>) -> Html {
        let (part, html) = if self.head.door == Door::Diagnose {
            (
                Part::Diagnose,
                later::diagnose().map(|l| (l.sheet)(self, ctx)),
            )
        } else {
            (Part::Jobs, later::jobs().map(|l| (l.card)(self, ctx)))
        };
        html.unwrap_or_else(|| self.sign(ctx, part))
    }

    /// What the open drawer of the head holds.
    pub(super) fn drawer(&self, ctx: &Context<Self>) -> Html {
        let html = |part, html: Option<Html>| html.unwrap_or_else(|| self.sign(ctx, part));
        let desk = later::desk();
        match self.head.drawer {
            None => html! {},
            Some(Drawer::Settings) => html(Part::Desk, desk.map(|l| (l.settings)(self, ctx))),
            Some(Drawer::Bays) => html! { <>
                { html(Part::Desk, desk.map(|l| (l.start)(self, ctx))) }
                { html(Part::Reading, later::reading().map(|l| (l.list)(self, ctx))) }
            </> },
        }
    }

    /// What stands behind the door to the unknown vehicle.
    pub(crate) fn diagnose_view(&self, ctx: &Context<Self>) -> Html {
        if self.is_drill() {
            return self.slips_view(ctx);
        }
        html! { <>
            { self.bring_view(ctx) }
            <details class="behind"><summary>{ words::drill_any() }</summary>
                { for later::desk().map(|l| (l.start)(self, ctx)) }
            </details>
        </> }
    }

    /// The shelf of job cards.
    pub(crate) fn shelf_view(&self, ctx: &Context<Self>) -> Html {
        let done = store::get(store::DONE).unwrap_or_default();
        let take = ctx
            .link()
            .callback(|name| Msg::Work(WorkMsg::Job(Some(name))));
        html! { <Shelf sight={self.choice_of_sight(ctx, "shelf-sight")} {done} {take} /> }
    }

    /// The card of the job in hand.
    pub(crate) fn card_view(&self, ctx: &Context<Self>) -> Html {
        let s = &self.stage;
        let Some(job) = &s.job else {
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

    /// What to start with, and how it is to be worked in.
    pub(crate) fn start_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        let offered = start(&StartProps {
            scenario: self.begin.scenario.clone(),
            picked: self.begin.picked.clone(),
            own: self.own(),
            pick: link.callback(|x| Msg::Start(StartMsg::Pick(x))),
            start: link.callback(|x| Msg::Start(StartMsg::Start(x))),
            again: link.callback(|()| Msg::Start(StartMsg::Again)),
        });
        html! { <>{ offered }{ self.begin_view(ctx) }</> }
    }

    /// The settings.
    pub(crate) fn settings_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        settings(&SettingsProps {
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
            open: link.callback(|file| Msg::Share(ShareMsg::File(file))),
        })
    }
}
