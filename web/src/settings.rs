//! Settings: what is chosen once and kept: language, theme, sound, units; and the bay as a file.
use lowside_units::display::UnitSystem;
use lowside_words::Language;
use yew::{Callback, Event, Html, MouseEvent, TargetCast, classes, html};

use crate::{
    kit::chosen,
    theme::Choice,
    units::{FAMILIES, MASSES, PRESSURES, TEMPERATURES, name_of, named},
    words,
};

/// What is set, and what sets it.
pub(crate) struct SettingsProps {
    pub(crate) units: UnitSystem,
    pub(crate) set_units: Callback<UnitSystem>,
    pub(crate) set_language: Callback<Language>,
    pub(crate) theme: Choice,
    pub(crate) set_theme: Callback<Choice>,
    pub(crate) sound: bool,
    pub(crate) toggle_sound: Callback<()>,
    /// The page is held for times without a network.
    pub(crate) offline: bool,
    pub(crate) save_take: Callback<()>,
    pub(crate) copy_link: Callback<()>,
    /// Opens a file.
    pub(crate) open: Callback<web_sys::File>,
}

/// The settings.
pub(crate) fn settings(p: &SettingsProps) -> Html {
    let set = p.set_language.clone();
    let language = Callback::from(move |e| {
        if let Some(l) = chosen(&e).and_then(|tag| Language::from_tag(&tag)) {
            set.emit(l);
        }
    });
    let set = p.set_theme.clone();
    let theme = Callback::from(move |e| {
        if let Some(theme) = chosen(&e).and_then(|id| Choice::of(&id)) {
            set.emit(theme);
        }
    });
    let toggle = p.toggle_sound.clone();
    let sound = Callback::from(move |_: MouseEvent| toggle.emit(()));
    html! { <>
        <span class="choice"><label for="language">{ words::language() }</label>
        <select id="language" onchange={language}>
            { for Language::OFFERED.iter().map(|&l| html! {
                <option value={l.tag()} lang={l.tag()} selected={l == words::current()}>{ l.name() }</option>
            }) }
        </select></span>
        <span class="choice"><label for="theme">{ words::theme() }</label>
        <select id="theme" onchange={theme}>
            { for Choice::ALL.iter().map(|&c| html! { <option value={c.id()} selected={c == p.theme}>{ c.name() }</option> }) }
        </select></span>
        <button type="button" aria-pressed={p.sound.to_string()} onclick={sound}>{ words::sound() }</button>
        { units(p) }
        { take(p) }
        <p class="empty">{ if p.offline { words::offline_ready() } else { words::offline_not_yet() } }</p>
    </> }
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
        open.emit(file);
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
