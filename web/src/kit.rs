//! The kit: every control of the page is one of these, a switch, a slider, a list, a line to write on, a button, a line of reading.
use wasm_bindgen::JsCast;
use yew::{AttrValue, Callback, Event, Html, InputEvent, MouseEvent, TargetCast, classes, html};

/// What a control is: its id, its name, the mark of the hose it belongs to, and whether it is what is asked for next.
pub(crate) struct Tag {
    pub(crate) id: AttrValue,
    pub(crate) label: &'static str,
    pub(crate) dot: &'static str,
    pub(crate) needed: bool,
}

impl Tag {
    /// A control of no hose, never asked for by itself.
    pub(crate) fn plain(id: &'static str, label: &'static str) -> Self {
        Self {
            id: id.into(),
            label,
            dot: "",
            needed: false,
        }
    }

    fn needed(&self) -> Option<&'static str> {
        self.needed.then_some("needed")
    }

    /// A control with two states.
    pub(crate) fn switch(
        self,
        states: [&'static str; 2],
        on: bool,
        toggle: impl Fn(bool) + 'static,
    ) -> Html {
        let click = Callback::from(move |_: MouseEvent| toggle(!on));
        html! {
            <button type="button" id={self.id.clone()} role="switch" aria-checked={on.to_string()}
                class={classes!("switch", self.needed())} onclick={click}>
                <span class={classes!("name", self.dot)}>{ self.label }</span>
                <span class="state" aria-hidden="true">{ states[usize::from(on)] }</span>
            </button>
        }
    }

    /// A number on a range: least, most, step, value; `spoken` is how its text is read aloud.
    pub(crate) fn slider(
        self,
        [least, most, step, value]: [f64; 4],
        text: &str,
        spoken: Option<String>,
        set: impl Fn(f64) + 'static,
    ) -> Html {
        let spoken = spoken.unwrap_or_else(|| text.to_owned());
        html! {
            <div class={classes!("slider", self.needed())}>
                <label for={self.id.clone()} class={classes!("name", self.dot)}>{ self.label }</label>
                <output class="state" for={self.id.clone()} aria-live="off">{ text.to_owned() }</output>
                <input type="range" id={self.id.clone()} min={least.to_string()} max={most.to_string()} step={step.to_string()}
                    value={value.to_string()} aria-valuetext={spoken} oninput={number(set)} />
            </div>
        }
    }

    /// A button that does one thing.
    pub(crate) fn button(self, press: impl Fn() + 'static) -> Html {
        let click = Callback::from(move |_: MouseEvent| press());
        html! { <button type="button" id={self.id.clone()} class={classes!("plain", self.needed())} onclick={click}>{ self.label }</button> }
    }
}

/// A control with two states.
pub(crate) fn switch(
    id: &'static str,
    label: &'static str,
    states: [&'static str; 2],
    on: bool,
    toggle: impl Fn(bool) + 'static,
) -> Html {
    Tag::plain(id, label).switch(states, on, toggle)
}

/// A number on a range: least, most, step, value.
pub(crate) fn slider(
    id: &'static str,
    label: &'static str,
    range: [f64; 4],
    text: &str,
    set: impl Fn(f64) + 'static,
) -> Html {
    Tag::plain(id, label).slider(range, text, None, set)
}

/// Hears the number of a range.
pub(crate) fn number(set: impl Fn(f64) + 'static) -> Callback<InputEvent> {
    Callback::from(move |e: InputEvent| {
        let field = e.target_dyn_into::<web_sys::HtmlInputElement>();
        let value = field.map_or(f64::NAN, |field| field.value_as_number());
        if value.is_finite() {
            set(value);
        }
    })
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

/// The chosen value of a select element.
pub(crate) fn chosen(e: &Event) -> Option<String> {
    e.target()?
        .dyn_into::<web_sys::HtmlSelectElement>()
        .ok()
        .map(|s| s.value())
}

/// A button.
pub(crate) fn button(label: impl Into<String>, can: bool, press: impl Fn() + 'static) -> Html {
    let click = Callback::from(move |_: MouseEvent| press());
    html! { <button type="button" class="plain" disabled={!can} onclick={click}>{ label.into() }</button> }
}

/// Something behind its title, made when it is opened. The state is the caller's, so that nothing is kept twice.
pub(crate) fn fold(
    id: &'static str,
    class: &'static str,
    title: &str,
    open: bool,
    turn: impl Fn() + 'static,
    content: impl FnOnce() -> Html,
) -> Html {
    let click = Callback::from(move |e: MouseEvent| {
        e.prevent_default();
        turn();
    });
    html! {
        <details {class} {open}>
            <summary {id} onclick={click}>{ title.to_owned() }</summary>
            if open { { content() } }
        </details>
    }
}

/// A name and what it reads.
pub(crate) fn line(name: &str, value: &str) -> Html {
    html! { <p class="line"><span>{ name.to_owned() }</span><b>{ value.to_owned() }</b></p> }
}
