//! The learner's statement: what was done, put down before the bay's own record is looked at, and where the two differ.
use lowside_present::{
    UnitSystem,
    bench::Part,
    statement::{Impossible, LONGEST_NUMBER, Mismatch, NUMBERS, Outcome, Said, Signed, units},
    tools::{Refrigerant, Spot},
};
use yew::{Callback, Event, Html, InputEvent, Properties, TargetCast, classes, component, html};

use crate::{
    kit::{button, choice},
    record::outcome,
    words,
};

#[derive(Properties, PartialEq)]
pub(crate) struct StatementProps {
    pub(crate) units: UnitSystem,
    /// It is held against the record later: the bay is closed.
    pub(crate) closed: bool,
    /// It is being converted.
    pub(crate) converted: bool,
    /// Places that were searched.
    pub(crate) leaks: Vec<Spot>,
    /// As far as it is filled in.
    pub(crate) said: Said,
    /// Fills it in further.
    pub(crate) edit: Callback<Said>,
    pub(crate) signed: Option<Signed>,
    pub(crate) sign: Callback<()>,
}

/// Every way a hold can be said to have come out.
const OUTCOMES: [Outcome; 3] = [Outcome::NotDone, Outcome::Held, Outcome::Rose];

/// The form, and what came of signing it.
#[component]
pub(crate) fn StatementForm(p: &StatementProps) -> Html {
    let said = &p.said;
    let holds: Vec<String> = std::iter::once(words::state_unsaid())
        .chain(OUTCOMES.map(outcome))
        .map(str::to_owned)
        .collect();
    let held = OUTCOMES.iter().position(|o| Some(*o) == said.hold);
    let set_hold = change(p, |s, n: usize| {
        s.hold = n.checked_sub(1).map(|n| OUTCOMES[n]);
    });
    let gases: Vec<String> = std::iter::once(words::state_unsaid())
        .chain(Refrigerant::ALL.map(Refrigerant::name))
        .map(str::to_owned)
        .collect();
    let gas = Refrigerant::ALL.iter().position(|g| Some(*g) == said.gas);
    let set_gas = change(p, |s, n: usize| {
        s.gas = n.checked_sub(1).map(|n| Refrigerant::ALL[n]);
    });
    let sign = {
        let sign = p.sign.clone();
        move || sign.emit(())
    };
    html! {
        <div class="statement">
            <h3>{ words::state() }</h3>
            <p class="told">{ words::state_idea() }</p>
            <div class="lines">
                { for number_names().iter().zip(units(p.units)).enumerate().map(|(i, (name, unit))| number(p, i, name, unit)) }
                { for said.impossible(p.units).iter().map(|wrong| html! { <p class="told wrong" id={format!("wrong-{}", wrong.number)}>{ impossible(wrong) }</p> }) }
                { choice("state-gas", words::record_gas(), &gases, gas.map_or(0, |n| n + 1), set_gas) }
                { choice("state-hold", words::hold(), &holds, held.map_or(0, |n| n + 1), set_hold) }
            </div>
            <fieldset class="ticks"><legend>{ words::record_parts() }</legend>
                { tick(words::record_none().to_owned(), said.no_parts, change(p, |s: &mut Said, on| { s.no_parts = on; s.parts.clear(); })) }
                { for Part::ALL.iter().map(|part| {
                    let part = *part;
                    tick(words::part(part).to_owned(), said.parts.contains(&part), change(p, move |s: &mut Said, on| { s.no_parts = false; toggle(&mut s.parts, part, on); }))
                }) }
            </fieldset>
            if !p.leaks.is_empty() {
                <fieldset class="ticks"><legend>{ words::state_leaks() }</legend>
                    { tick(words::record_none().to_owned(), said.no_leaks, change(p, |s: &mut Said, on| { s.no_leaks = on; s.leaks.clear(); })) }
                    { for p.leaks.iter().map(|spot| {
                        let spot = *spot;
                        tick(words::spot_name(spot), said.leaks.contains(&spot), change(p, move |s: &mut Said, on| { s.no_leaks = false; toggle(&mut s.leaks, spot, on); }))
                    }) }
                </fieldset>
            }
            <div class="lines">
                { answer("state-vented", words::state_none_vented(), said.nothing_vented, change(p, |s, a| s.nothing_vented = a)) }
                { answer("state-caps", words::state_caps(), said.caps_on, change(p, |s, a| s.caps_on = a)) }
                if p.converted {
                    { answer("state-order", words::state_in_order(), said.in_order, change(p, |s, a| s.in_order = a)) }
                }
            </div>
            <div class="acts">{ button(words::state_sign(), !p.closed, sign) }</div>
            <p class={classes!("verdict", p.signed.as_ref().is_some_and(|s| s.verdict.wrong.is_empty()).then_some("passed"))}>
                { p.signed.as_ref().map_or_else(String::new, verdict) }
            </p>
        </div>
    }
}

/// What came of signing.
pub(crate) fn verdict(signed: &Signed) -> String {
    let list = |lines: &[Mismatch]| {
        lines
            .iter()
            .map(|m| name(*m))
            .collect::<Vec<_>>()
            .join("; ")
    };
    let found = if signed.verdict.wrong.is_empty() {
        words::state_matches().to_owned()
    } else {
        words::state_differs(list(&signed.verdict.wrong))
    };
    if signed.verdict.unsaid.is_empty() {
        return found;
    }
    format!(
        "{}. {}",
        found.trim_end_matches('.'),
        words::state_left_out(list(&signed.verdict.unsaid))
    )
}

/// Names of the numbers, in their order.
fn number_names() -> [&'static str; NUMBERS] {
    [
        words::recovered(),
        words::record_charged(),
        words::record_oil_out(),
        words::record_oil_in(),
    ]
}

/// Why a number cannot be.
pub(crate) fn impossible(wrong: &Impossible) -> String {
    words::state_impossible(number_names()[wrong.number], &wrong.most)
}

fn name(line: Mismatch) -> &'static str {
    match line {
        Mismatch::Recovered => words::recovered(),
        Mismatch::Charged => words::record_charged(),
        Mismatch::OilOut => words::record_oil_out(),
        Mismatch::OilIn => words::record_oil_in(),
        Mismatch::Parts => words::record_parts(),
        Mismatch::Hold => words::hold(),
        Mismatch::Leaks => words::state_leaks(),
        Mismatch::Vented => words::record_vented(),
        Mismatch::Caps => words::record_caps(),
        Mismatch::Gas => words::record_gas(),
        Mismatch::Conversion => words::record_lacks(),
    }
}

/// What changes the statement by a value.
fn change<T>(p: &StatementProps, by: impl Fn(&mut Said, T) + 'static) -> impl Fn(T) + 'static {
    let (said, edit) = (p.said.clone(), p.edit.clone());
    move |value| {
        let mut now = said.clone();
        by(&mut now, value);
        edit.emit(now);
    }
}

fn toggle<T: PartialEq>(list: &mut Vec<T>, item: T, on: bool) {
    list.retain(|x| *x != item);
    if on {
        list.push(item);
    }
}

fn number(p: &StatementProps, i: usize, name: &str, unit: &str) -> Html {
    let set = change(p, move |s, text| s.numbers[i] = text);
    let typed = Callback::from(move |e: InputEvent| {
        if let Some(f) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            set(f.value());
        }
    });
    let wrong = p.said.impossible(p.units).iter().any(|w| w.number == i);
    html! {
        <label class="amount"><span>{ format!("{name}, {unit}") }</span>
            <input type="text" inputmode="decimal" autocomplete="off" maxlength={LONGEST_NUMBER.to_string()} value={p.said.numbers[i].clone()} oninput={typed}
                aria-invalid={wrong.then_some("true")} aria-describedby={wrong.then(|| format!("wrong-{i}"))} /></label>
    }
}

/// Yes, no, or nothing said.
fn answer(
    id: &'static str,
    question: &'static str,
    said: Option<bool>,
    set: impl Fn(Option<bool>) + 'static,
) -> Html {
    let names = [words::state_unsaid(), words::yes(), words::no()].map(str::to_owned);
    let now = said.map_or(0, |yes| if yes { 1 } else { 2 });
    choice(id, question, &names, now, move |n| {
        set([None, Some(true), Some(false)][n.min(2)]);
    })
}

fn tick(name: String, on: bool, set: impl Fn(bool) + 'static) -> Html {
    let ticked = Callback::from(move |e: Event| {
        if let Some(f) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            set(f.checked());
        }
    });
    html! { <label class="tick"><input type="checkbox" checked={on} onchange={ticked} />{ name }</label> }
}
