//! Settings: what is chosen once and kept. Opened from the head of the page, in place.
use lowside_units::display::UnitSystem;
use yew::{Callback, Event, Html, MouseEvent, Properties, classes, component, html};

use crate::{
    panel::chosen,
    units::{FAMILIES, MASSES, PRESSURES, TEMPERATURES, name_of, named},
    words,
};

#[derive(Properties, PartialEq)]
pub(crate) struct SettingsProps {
    pub(crate) units: UnitSystem,
    pub(crate) set_units: Callback<UnitSystem>,
    /// The page is kept for times without a network.
    pub(crate) offline: bool,
}

/// The settings behind their title.
#[component]
pub(crate) fn Settings(p: &SettingsProps) -> Html {
    html! {
        <details class="settings">
            <summary>{ words::settings() }</summary>
            <div class="drawer">
                { units(p) }
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
