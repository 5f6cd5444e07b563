//! In front of a class: what stands behind its door.
use lowside_present::qr::Qr;
use yew::{Context, Html, html};

use super::{App, FaceMsg, Msg, ShareMsg};
use crate::{kit::button, words};

mod compare;
mod planting;

use compare::{Compare, CompareMsg};
use planting::{PlantMsg, Planting};

/// What lies on the desk of whoever teaches.
#[derive(Default)]
pub(crate) struct Class {
    /// The link that was made last.
    pub(super) link: Option<String>,
    planting: Planting,
    compare: Option<Compare>,
}

/// What is asked of the desk.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum ClassMsg {
    /// Of faults that are planted.
    Plant(PlantMsg),
    /// Of bays side by side.
    Compare(CompareMsg),
}

impl App {
    /// Does it.
    pub(crate) fn class(&mut self, msg: ClassMsg) {
        match msg {
            ClassMsg::Plant(msg) => {
                if let Some(act) = self.class.planting.hear(msg) {
                    self.act(act);
                }
            }
            ClassMsg::Compare(msg) => self.compare(msg),
        }
    }

    /// What stands behind the door to a class.
    pub(crate) fn class_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        let large = link.callback(|_: yew::MouseEvent| Msg::Face(FaceMsg::Large));
        let copy = link.callback(|()| Msg::Share(ShareMsg::Link));
        let print = link.callback(|()| Msg::Face(FaceMsg::Print));
        let open = !self.closed();
        html! {
            <section class="behind" aria-labelledby="behind-title">
                <h2 id="behind-title">{ words::door_class() }</h2>
                <p>{ words::class_idea() }</p>
                <span class="pair">
                    if open { { self.compare_switch(ctx) } }
                    <button type="button" aria-pressed={self.face.large.to_string()} onclick={large}>{ words::large_gauges() }</button>
                    <a href="?layout=projector">{ words::projector() }</a>
                    { button(words::take_link(), true, move || copy.emit(())) }
                    { button(words::print(), true, move || print.emit(())) }
                </span>
                { self.class.link.as_deref().map(code).unwrap_or_default() }
                if open {
                    { self.compare_view(ctx) }
                    <details><summary>{ words::plant() }</summary>{ self.planting_view(ctx) }</details>
                }
            </section>
        }
    }
}

/// A link as a code to be read off the wall.
fn code(link: &str) -> Html {
    let Some(qr) = Qr::of(link) else {
        return html! {};
    };
    let around = format!("0 0 {0} {0}", qr.side);
    html! {
        <figure class="code">
            <svg role="img" aria-label={words::link_code()} viewBox={around} shape-rendering="crispEdges"><path d={qr.path} /></svg>
            <figcaption>{ words::link_code_idea() }</figcaption>
        </figure>
    }
}
