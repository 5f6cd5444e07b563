//! Small controls that tools, bench and job share: a switch, a slider, a choice, a button, a line of reading.
use gloo::events::EventListener;
use yew::{Callback, Event, Html, InputEvent, MouseEvent, TargetCast, classes, html};

use crate::{host, panel::chosen};

/// A control with two states.
pub(crate) fn switch(
    id: &'static str,
    label: &'static str,
    states: [&'static str; 2],
    on: bool,
    toggle: impl Fn(bool) + 'static,
) -> Html {
    let click = Callback::from(move |_: MouseEvent| toggle(!on));
    html! {
        <button type="button" {id} role="switch" aria-checked={on.to_string()} class="switch" onclick={click}>
            <span class="name">{ label }</span>
            <span class="state" aria-hidden="true">{ states[usize::from(on)] }</span>
        </button>
    }
}

/// A number on a range: least, most, step, value.
pub(crate) fn slider(
    id: &'static str,
    label: &'static str,
    range: [f64; 4],
    text: &str,
    set: impl Fn(f64) + 'static,
) -> Html {
    let input = Callback::from(move |e: InputEvent| {
        if let Some(field) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            let value = field.value_as_number();
            if value.is_finite() {
                set(value);
            }
        }
    });
    let [least, most, step, value] = range;
    html! {
        <div class="slider">
            <label for={id} class="name">{ label }</label>
            <output class="state" for={id} aria-live="off">{ text.to_owned() }</output>
            <input type="range" {id} min={least.to_string()} max={most.to_string()} step={step.to_string()}
                value={value.to_string()} aria-valuetext={text.to_owned()} oninput={input} />
        </div>
    }
}

/// A line to write on, of text or for a date.
pub(crate) fn field(
    name: &'static str,
    kind: &'static str,
    value: &str,
    set: impl Fn(String) + 'static,
) -> Html {
    let typed = Callback::from(move |e: InputEvent| {
        if let Some(f) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            set(f.value());
        }
    });
    html! {
        <label class="amount"><span>{ name }</span>
            <input type={kind} autocomplete="off" value={value.to_owned()} oninput={typed} /></label>
    }
}

/// A choice among names; hears the place of what was chosen.
pub(crate) fn choice(
    id: &'static str,
    label: &str,
    names: &[String],
    now: usize,
    set: impl Fn(usize) + 'static,
) -> Html {
    let change = Callback::from(move |e: Event| {
        if let Some(n) = chosen(&e).and_then(|v| v.parse().ok()) {
            set(n);
        }
    });
    html! {
        <span class="pick"><label for={id}>{ label.to_owned() }</label>
        <select {id} onchange={change}>
            { for names.iter().enumerate().map(|(i, name)| html! {
                <option value={i.to_string()} selected={i == now}>{ name }</option>
            }) }
        </select></span>
    }
}

/// A button.
pub(crate) fn button(label: impl Into<String>, can: bool, press: impl Fn() + 'static) -> Html {
    let click = Callback::from(move |_: MouseEvent| press());
    html! { <button type="button" class={classes!("plain")} disabled={!can} onclick={click}>{ label.into() }</button> }
}

/// A name and what it reads.
pub(crate) fn line(name: &str, value: &str) -> Html {
    html! { <p class="line"><span>{ name.to_owned() }</span><b>{ value.to_owned() }</b></p> }
}

/// Prints the job and its record alone. The page by itself prints readings and chart.
pub(crate) fn print_job() {
    let mark = |on: bool| {
        if let Some(body) = host::document().body() {
            drop(body.class_list().toggle_with_force("prints-job", on));
        }
    };
    mark(true);
    EventListener::once(&host::window(), "afterprint", move |_| mark(false)).forget();
    drop(host::window().print());
}
