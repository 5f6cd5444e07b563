//! What reaches the page from outside it: frames, the space bar, leaving, and the end of a replay.
use std::{
    cell::{Cell, RefCell},
    rc::Rc,
};

use wasm_bindgen::{JsCast, closure::Closure};
use yew::{Context, KeyboardEvent};

use super::{App, BaysMsg, Msg};
use crate::{host, later};

/// The callback that asks for itself again each frame.
pub(super) type FrameLoop = RefCell<Option<Closure<dyn FnMut(f64)>>>;

fn request(frame: &FrameLoop) {
    if let Some(frame) = &*frame.borrow() {
        drop(host::window().request_animation_frame(frame.as_ref().unchecked_ref()));
    }
}

/// The frame loop: one message a frame.
pub(super) fn frames(ctx: &Context<App>) -> Rc<FrameLoop> {
    let holder: Rc<FrameLoop> = Rc::default();
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

/// Space pauses, unless it works the control that has the focus; Ctrl+Z takes back, Ctrl+Y does again.
pub(super) fn keys(
    ctx: &Context<App>,
    shortcuts: Rc<Cell<bool>>,
) -> Closure<dyn FnMut(KeyboardEvent)> {
    let link = ctx.link().clone();
    let handler = Closure::new(move |e: KeyboardEvent| {
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
            "z" if control && !e.shift_key() && !writes => Some(Msg::Undo),
            "y" | "z" if control && !writes => Some(Msg::Redo),
            _ => None,
        };
        if let Some(message) = message {
            e.prevent_default();
            link.send_message(message);
        }
        if focused == "input" && host::fine_step(&e) {
            return;
        }
        let types = writes || focused == "select";
        if !shortcuts.get() || types || e.ctrl_key() || e.meta_key() || e.alt_key() {
            return;
        }
        let message = match e.key().as_str() {
            " " if free => Msg::Pause,
            "." => Msg::Step,
            "[" => Msg::Faster(false),
            "]" => Msg::Faster(true),
            "r" | "R" => Msg::ReadOut,
            "?" => Msg::Help,
            _ => return,
        };
        e.prevent_default();
        link.send_message(message);
    });
    drop(
        host::window()
            .add_event_listener_with_callback("keydown", handler.as_ref().unchecked_ref()),
    );
    handler
}

/// What has the focus or is under the pointer explains itself.
pub(super) fn hints(ctx: &Context<App>) -> Closure<dyn FnMut(web_sys::Event)> {
    let link = ctx.link().clone();
    let handler = Closure::new(move |e: web_sys::Event| {
        let mut at = e
            .target()
            .and_then(|t| t.dyn_into::<web_sys::Element>().ok());
        let mut hint = None;
        let explain = |id: &str| later::here().and_then(|l| (l.hint)(id));
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
        link.send_message(Msg::Hint(hint));
    });
    for name in ["focusin", "mouseover"] {
        drop(
            host::document()
                .add_event_listener_with_callback(name, handler.as_ref().unchecked_ref()),
        );
    }
    handler
}

/// The page is left or hidden: keep what was done. Directly, not by a message: those may wait for a time that the page no longer has.
pub(super) fn leaving(ctx: &Context<App>) -> Closure<dyn FnMut(web_sys::Event)> {
    let link = ctx.link().clone();
    let handler = Closure::new(move |e: web_sys::Event| {
        if let Some(app) = link.get_component() {
            app.leave(e.type_() == "pagehide" || host::document().hidden());
        }
    });
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

/// What the service worker's keeper in `boot.js` tells: the page is kept, and a newer one waits. And that a link was put into the address of
/// the open page.
pub(super) fn told(ctx: &Context<App>) -> [Closure<dyn FnMut()>; 3] {
    let hear = |name: &str, make: fn() -> Msg| {
        let link = ctx.link().clone();
        let handler = Closure::new(move || link.send_message(make()));
        drop(
            host::window().add_event_listener_with_callback(name, handler.as_ref().unchecked_ref()),
        );
        handler
    };
    [
        hear("lowside-offline", || Msg::Offline),
        hear("lowside-update", || Msg::Newer),
        hear("hashchange", || Msg::Bays(BaysMsg::Linked)),
    ]
}
