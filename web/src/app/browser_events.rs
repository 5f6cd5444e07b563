//! What reaches the page from outside it: frames, the space bar, leaving, and the end of a replay.
use std::{cell::Cell, rc::Rc};

use gloo::{
    events::{EventListener, EventListenerOptions},
    render::{AnimationFrame, request_animation_frame},
};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event};
use yew::{Context, KeyboardEvent};

use super::{App, BaysMsg, HeadMsg, Msg, ShareMsg, TimeMsg};
use crate::{host, later::Part, theme, words};

/// What the browser tells.
pub(crate) enum PageMsg {
    /// A frame, at this wall time, ms.
    Frame(f64),
    /// A later part of the program is here, could not be fetched, or is asked for again.
    Here(Part),
    Missed(Part),
    Again(Part),
    /// The browser holds the page for times without a network.
    Offline,
    /// A new version waits.
    Newer,
    /// Take it.
    Update,
}

/// What is known of the browser.
pub(super) struct Browser {
    pub(super) dark: bool,
    pub(super) offline: bool,
    pub(super) update: bool,
    /// Dropped, it would not come.
    pub(super) next_frame: AnimationFrame,
    pub(super) listeners: Vec<EventListener>,
}

impl Browser {
    pub(super) fn new(ctx: &Context<App>, shortcuts: Rc<Cell<bool>>) -> Self {
        Self {
            dark: theme::dark(),
            offline: false,
            update: false,
            next_frame: next_frame(ctx),
            listeners: told(ctx, shortcuts),
        }
    }
}

impl App {
    /// Takes note of it.
    pub(super) fn page(&mut self, ctx: &Context<Self>, msg: &PageMsg) {
        match msg {
            PageMsg::Frame(_) => {}
            PageMsg::Here(part) => self.has_come(ctx, *part),
            PageMsg::Missed(part) => self.missed(*part),
            PageMsg::Again(part) => Self::ask_again(ctx, *part),
            PageMsg::Offline => self.browser.offline = true,
            PageMsg::Newer => self.browser.update = true,
            PageMsg::Update => {
                self.stage.save(host::now());
                host::call("lowsideUpdate");
            }
        }
    }
}

/// Asks for the next frame: one message.
pub(super) fn next_frame(ctx: &Context<App>) -> AnimationFrame {
    let link = ctx.link().clone();
    request_animation_frame(move |now| link.send_message(Msg::Page(PageMsg::Frame(now))))
}

/// What the first part listens to: keys; of the service worker's keeper in `boot.js`, that the page is kept and that a newer one waits,
/// which may come at any time; files that are dropped; and that a link was put into the address of the open page.
fn told(ctx: &Context<App>, shortcuts: Rc<Cell<bool>>) -> Vec<EventListener> {
    let hear = |name: &'static str, make: fn() -> Msg| {
        let link = ctx.link().clone();
        EventListener::new(&host::window(), name, move |_| link.send_message(make()))
    };
    let dropped = ctx.link().callback(|file| Msg::Share(ShareMsg::File(file)));
    vec![
        keys(ctx, shortcuts),
        EventListener::new(&host::window(), "lowside-file", move |e| {
            let detail = e.dyn_ref().map(web_sys::CustomEvent::detail);
            if let Some(file) = detail.and_then(|file| file.dyn_into().ok()) {
                dropped.emit(file);
            }
        }),
        hear("lowside-offline", || Msg::Page(PageMsg::Offline)),
        hear("lowside-update", || Msg::Page(PageMsg::Newer)),
        hear("hashchange", || Msg::Bays(BaysMsg::Linked)),
    ]
}

/// What the later part listens to: what is pointed at, and that the page is left.
pub(crate) fn listen(ctx: &Context<App>) -> Vec<EventListener> {
    let (window, document) = (host::window(), host::document());
    vec![
        EventListener::new(&document, "focusin", hints(ctx)),
        EventListener::new(&document, "mouseover", hints(ctx)),
        EventListener::new(&window, "pagehide", leaving(ctx)),
        EventListener::new(&document, "visibilitychange", leaving(ctx)),
    ]
}

/// Space pauses, unless it works the control that has the focus; Ctrl+Z takes back, Ctrl+Y does again.
fn keys(ctx: &Context<App>, shortcuts: Rc<Cell<bool>>) -> EventListener {
    let link = ctx.link().clone();
    let handler = move |e: &Event| {
        let Some(e) = e.dyn_ref::<KeyboardEvent>() else {
            return;
        };
        let focused = host::document()
            .active_element()
            .map(|a| a.tag_name().to_ascii_lowercase())
            .unwrap_or_default();
        let free = !matches!(
            focused.as_str(),
            "button" | "input" | "select" | "textarea" | "summary" | "a"
        );
        let control = (e.ctrl_key() || e.meta_key()) && !e.alt_key();
        // A text being written has an undo of its own.
        let writes = focused == "textarea" || host::in_text_field();
        let message = match e.key().to_ascii_lowercase().as_str() {
            "z" if control && !e.shift_key() && !writes => Some(Msg::Time(TimeMsg::Undo)),
            "y" | "z" if control && !writes => Some(Msg::Time(TimeMsg::Redo)),
            _ => None,
        };
        if let Some(message) = message {
            e.prevent_default();
            link.send_message(message);
        }
        if e.key() == "Escape" {
            return link.send_message(Msg::Head(HeadMsg::Shut));
        }
        if focused == "input" && host::fine_step(e) {
            return;
        }
        let types = writes || focused == "select";
        if !shortcuts.get() || types || e.ctrl_key() || e.meta_key() || e.alt_key() {
            return;
        }
        let message = match e.key().as_str() {
            " " if free => Msg::Time(TimeMsg::Pause),
            "." => Msg::Time(TimeMsg::Step),
            "[" => Msg::Time(TimeMsg::Faster(false)),
            "]" => Msg::Time(TimeMsg::Faster(true)),
            "r" | "R" => Msg::Head(HeadMsg::ReadOut),
            "?" => Msg::Head(HeadMsg::Help),
            // A presenter's remote has these two.
            "PageUp" if host::projector() => Msg::Time(TimeMsg::Turn(false)),
            "PageDown" if host::projector() => Msg::Time(TimeMsg::Turn(true)),
            _ => return,
        };
        e.prevent_default();
        link.send_message(message);
    };
    let options = EventListenerOptions::enable_prevent_default();
    EventListener::new_with_options(&host::window(), "keydown", options, handler)
}

/// What has the focus or is under the pointer explains itself.
fn hints(ctx: &Context<App>) -> impl Fn(&Event) + 'static {
    let link = ctx.link().clone();
    move |e| {
        let mut at = e.target().and_then(|t| t.dyn_into::<Element>().ok());
        let mut hint = None;
        let explain = words::hint;
        for _ in 0..4 {
            let Some(element) = at else { break };
            hint = explain(&element.id()).or_else(|| {
                let field = element.query_selector("input[id]").ok().flatten();
                let near = element.class_list().contains("slider");
                field.filter(|_| near).and_then(|f| explain(&f.id()))
            });
            if hint.is_some() {
                break;
            }
            at = element.parent_element();
        }
        link.send_message(Msg::Head(HeadMsg::Hint(hint)));
    }
}

/// The page is left or hidden: keep what was done. Directly, not by a message: those may wait for a time that the page no longer has.
fn leaving(ctx: &Context<App>) -> impl Fn(&Event) + 'static {
    let link = ctx.link().clone();
    move |e| {
        if let Some(app) = link.get_component() {
            app.leave(e.type_() == "pagehide" || host::document().hidden());
        }
    }
}
