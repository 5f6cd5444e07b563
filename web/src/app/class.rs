//! In front of a class: what stands behind its door.
use lowside_present::qr::Qr;
use yew::{Context, Html, html};

use super::{App, FaceMsg, Msg, ShareMsg};
use crate::{kit::button, words};

/// What lies on the desk of whoever teaches.
#[derive(Default)]
pub(crate) struct Class {
    /// The link that was made last.
    pub(super) link: Option<String>,
}

impl App {
    pub(crate) fn class_view(&self, ctx: &Context<Self>) -> Html {
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
                { self.class.link.as_deref().map(code).unwrap_or_default() }
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
