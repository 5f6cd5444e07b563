//! Settings: what is chosen once and kept. Opened from the head of the page, in place.
use lowside_session::{
    TakeError,
    take::{LARGEST, Part},
};
use lowside_units::display::UnitSystem;
use yew::{Callback, Event, Html, MouseEvent, TargetCast, classes, html};

use crate::{
    panel::chosen,
    units::{FAMILIES, MASSES, PRESSURES, TEMPERATURES, name_of, named},
    words,
};

/// What is set, and what sets it.
pub(crate) struct SettingsProps {
    pub(crate) units: UnitSystem,
    pub(crate) set_units: Callback<UnitSystem>,
    /// The page is kept for times without a network.
    pub(crate) offline: bool,
    pub(crate) save_take: Callback<()>,
    pub(crate) copy_link: Callback<()>,
    /// Text of a file that was chosen, or why there is none.
    pub(crate) open: Callback<Result<String, TakeError>>,
}

/// The settings behind their title.
pub(crate) fn settings(p: &SettingsProps) -> Html {
    html! {
        <details class="settings">
            <summary>{ words::settings() }</summary>
            <div class="drawer">
                { units(p) }
                { take(p) }
                <p class="empty">{ if p.offline { words::offline_ready() } else { words::offline_not_yet() } }</p>
            </div>
        </details>
    }
}

fn units(p: &SettingsProps) -> Html {
    let sets = [
        (UnitSystem::US, words::units_us()),
        (UnitSystem::SI, words::units_si()),
        (UnitSystem::MIXED, words::units_mixed()),
    ];
    html! {
        <fieldset class="group" id="units">
            <legend>{ words::units() }</legend>
            <span class="speeds" role="group" aria-label={words::units()}>
                { for sets.into_iter().map(|(u, name)| {
                    let set = p.set_units.clone();
                    html! { <button type="button" aria-pressed={(u == p.units).to_string()} class={classes!((u == p.units).then_some("chosen"))}
                        onclick={Callback::from(move |_: MouseEvent| set.emit(u))}>{ name }</button> }
                }) }
            </span>
            { choice(p, "unit-pressure", words::pressure(), &PRESSURES, p.units.pressure, |u, pressure| UnitSystem { pressure, ..u }) }
            { choice(p, "unit-temperature", words::temperature(), &TEMPERATURES, p.units.temperature, |u, temperature| UnitSystem { temperature, ..u }) }
            { choice(p, "unit-mass", words::mass(), &MASSES, p.units.mass, |u, mass| UnitSystem { mass, ..u }) }
            { choice(p, "unit-rest", words::units_rest(), &FAMILIES, p.units.rest, |u, rest| UnitSystem { rest, ..u }) }
        </fieldset>
    }
}

fn take(p: &SettingsProps) -> Html {
    let press = |c: &Callback<()>| {
        let c = c.clone();
        Callback::from(move |_: MouseEvent| c.emit(()))
    };
    let open = p.open.clone();
    let chosen = Callback::from(move |e: Event| {
        let file = e
            .target_dyn_into::<web_sys::HtmlInputElement>()
            .and_then(|f| f.files())
            .and_then(|f| f.get(0));
        let Some(file) = file else { return };
        // The same file chosen again, mended meanwhile, is to be heard of too.
        if let Some(field) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            field.set_value("");
        }
        let open = open.clone();
        wasm_bindgen_futures::spawn_local(async move {
            // A file larger than any take is not read at all.
            let part = Part::Whole;
            open.emit(if file.size() > LARGEST as f64 {
                Err(TakeError::TooLarge {
                    part,
                    most: LARGEST,
                })
            } else {
                let text = wasm_bindgen_futures::JsFuture::from(file.text()).await;
                let unread = || TakeError::Form {
                    part,
                    detail: String::new(),
                };
                text.ok().and_then(|t| t.as_string()).ok_or_else(unread)
            });
        });
    });
    html! {
        <fieldset class="group">
            <legend>{ words::take() }</legend>
            <span class="pair">
                <button type="button" id="save-take" onclick={press(&p.save_take)}>{ words::take_save() }</button>
                <button type="button" id="copy-link" onclick={press(&p.copy_link)}>{ words::take_link() }</button>
            </span>
            <label for="open-take">{ words::take_open() }</label>
            <input type="file" id="open-take" accept=".json,application/json" onchange={chosen} />
            <a href="?layout=projector">{ words::projector() }</a>
            <button type="button" id="print" onclick={Callback::from(|_: MouseEvent| drop(crate::host::window().print()))}>{ words::print() }</button>
        </fieldset>
    }
}

/// One quantity and its units.
fn choice<T: Copy + PartialEq + 'static>(
    p: &SettingsProps,
    id: &'static str,
    label: &'static str,
    list: &'static [(&'static str, T)],
    now: T,
    with: fn(UnitSystem, T) -> UnitSystem,
) -> Html {
    let (set, units) = (p.set_units.clone(), p.units);
    let change = Callback::from(move |e: Event| {
        if let Some(unit) = chosen(&e).and_then(|name| named(list, &name)) {
            set.emit(with(units, unit));
        }
    });
    html! {
        <span class="choice"><label for={id}>{ label }</label>
        <select {id} onchange={change}>
            { for list.iter().map(|&(name, unit)| html! {
                <option value={name} selected={unit == now}>{ words::unit_name(name_of(list, unit)) }</option>
            }) }
        </select></span>
    }
}
