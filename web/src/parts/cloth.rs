//! The cloth below the drawing: what was taken out, the measuring cup, and what an opened part shows, drawn from its condition.
use lowside_present::bench::{Item, Much, Part, PartState, Place, Sight, Standing};
use yew::{Callback, Html, classes, html};

use super::presses;
use crate::{bench, words};

/// Where the cloth begins, and how far apart parts lie on it.
const TOP: f64 = 460.0;
const APART: f64 = 78.0;

/// The outline of a part that lies there, about 60 by 56 from its middle.
fn outline(part: Part) -> &'static str {
    match part {
        Part::Compressor => {
            "M-26-16h40v34h-40zM-16-16V18M-6-16V18M4-16V18M14-22h8v46h-8zM-20-16v-8M4-16v-8"
        }
        Part::DischargeHose | Part::SuctionHose => {
            "M-28 8C-20-20 0-20 2 0S20 18 28-8M-31 5l6 6M25-11l6 6"
        }
        Part::Condenser => "M-22-24h44v46h-44zM-22-16h44M-22-8h44M-22 0h44M-22 8h44M-22 16h44",
        Part::LiquidLine => "M-30 6H-6Q0 6 0 0T8-6H30M-30 2v8M30-10v8",
        Part::Orifice => "M-26-5h14l5 3h14l5-3h14V5H12L7 2H-7L-12 5h-14zM-22-5V5M-18-5V5",
        Part::Evaporator => {
            "M-18-24h36v46h-36zM-18-16h36M-18-8h36M-18 0h36M-18 8h36M-18 16h36M-8-24v-6M8 22v6"
        }
        Part::Accumulator => "M-15-18q0-8 15-8t15 8V16q0 8-15 8t-15-8zM-6-26v-7M6-26v-7M-15-10h30",
        Part::ReliefValve => "M-9-10h18v8l-4 4v12H-5V2l-4-4z",
    }
}

/// The cloth with what lies on it; what is chosen is pressed there as it was in its place.
pub(super) fn cloth(
    places: &[Place],
    chosen: Option<Item>,
    state: Option<&PartState>,
    choose: &Callback<Item>,
) -> Html {
    let out: Vec<Item> = places
        .iter()
        .filter(|(_, standing)| *standing == Standing::OnBench)
        .map(|(item, _)| *item)
        .collect();
    let cup = state.filter(|s| s.drained.is_some());
    html! { <g class="cloth">
        <path class="hem" d="M6 462H794V548q-20 8-39 0t-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-39 0-47 0z" />
        <path class="stripe" d="M6 536H794M6 541H794" />
        if out.is_empty() && cup.is_none() {
            <text class="quiet" x="400" y="506" text-anchor="middle">{ words::cloth_empty() }</text>
        }
        { for out.iter().enumerate().map(|(n, item)| lying(*item, 62.0 + n as f64 * APART, chosen == Some(*item), choose)) }
        if let Some(state) = cup {
            <g transform="translate(752 468)">
                <rect class="oil" x="-22" y={format!("{:.1}", 60.0 - 56.0 * state.cup)} width="44" height={format!("{:.1}", 56.0 * state.cup)} />
                <path class="outline" d="M-24 0V60H24V0M-24 4H-14M-24 18H-17M-24 32H-14M-24 46H-17" />
                if let Some(drained) = &state.drained { <text class="figure" x="-30" y="36" text-anchor="end">{ drained.to_string() }</text> }
            </g>
        }
    </g> }
}

fn lying(item: Item, x: f64, chosen: bool, choose: &Callback<Item>) -> Html {
    let Item::Part(part) = item else {
        return html! {};
    };
    let go = {
        let choose = choose.clone();
        move || choose.emit(item)
    };
    let (click, key) = presses(go);
    let name = bench::name(item);
    html! {
        <g key={name.clone()} role="button" tabindex="0" class={classes!("mark", "lying", chosen.then_some("chosen"))}
            aria-label={format!("{name}: {}", words::standing_of(Standing::OnBench))} aria-pressed={chosen.to_string()}
            transform={format!("translate({x} {:.0})", TOP + 38.0)} onclick={click} onkeydown={key}>
            <rect class="target" x="-36" y="-34" width="72" height="66" />
            <path class="body" d={outline(part)} />
            <text class="quiet" y="43" text-anchor="middle">{ name }</text>
        </g>
    }
}

/// Up to so many dots, spread by steps that never fall on each other.
fn dots(count: u32, class: &'static str, r: f64, [x, y, w, h]: [f64; 4]) -> Html {
    let place = |n: u32| {
        let n = f64::from(n) + 0.5;
        (x + (n * 0.618) % 1.0 * w, y + (n * 0.755) % 1.0 * h)
    };
    html! { { for (0..count).map(|n| {
        let (cx, cy) = place(n);
        html! { <circle {class} cx={format!("{cx:.1}")} cy={format!("{cy:.1}")} r={r.to_string()} /> }
    }) } }
}

/// A look into an opened part, 240 by 112: oil by its colour, metal, water, beads, and a screen or face by how much of it is covered.
pub(crate) fn seen(part: Part, seen: &[Sight]) -> Html {
    let much = |m: Much| match m {
        Much::None => 0,
        Much::Some => 1,
        Much::Lots => 2,
    };
    let (mut oil, mut dark, mut metal, mut water, mut beads, mut covered) = (1, 0, 0, 0, 0, 0);
    for sight in seen {
        match sight {
            Sight::Blocked(m, _) | Sight::Face(m, _) => covered = much(*m),
            Sight::Beads(m) => beads = much(*m),
            Sight::Metal(m) => metal = much(*m),
            Sight::Dark(m) => dark = much(*m),
            Sight::Water(m) => water = much(*m),
            Sight::Oil(m) => oil = much(*m),
        }
    }
    let deep = f64::from(oil) * 20.0;
    let colour = ["clear", "brown", "black"][dark as usize];
    let few = |n: u32| [0, 7, 36][n as usize];
    let screen = part == Part::Orifice;
    html! {
        <svg class="cut seen-in" viewBox="0 0 240 112" aria-hidden="true">
            if screen {
                <path class="outline" d="M8 34H150L166 46H232V66H166L150 78H8" />
                <path class="mesh" d="M20 34V78M32 34V78M44 34V78M56 34V78M68 34V78M80 34V78M92 34V78M104 34V78M116 34V78M128 34V78M140 34V78M8 45H150M8 56H150M8 67H150" />
                { dots(few(covered) * 2, "dirt", 3.4, [10.0, 37.0, 136.0, 38.0]) }
                { dots(few(dark), "stain", 2.4, [10.0, 37.0, 136.0, 38.0]) }
            } else {
                <rect class={classes!("oil", colour)} x="31" y={format!("{:.0}", 103.0 - deep)} width="178" height={format!("{deep:.0}")} />
                <path class="outline" d="M30 8V104H210V8" />
                { dots(few(water), "drop", 4.0, [36.0, 60.0, 168.0, 40.0]) }
            }
            { dots(few(metal), "metal", 1.6, [36.0, if screen { 38.0 } else { 99.0 - deep }, if screen { 110.0 } else { 168.0 }, if screen { 36.0 } else { deep }]) }
            { dots(few(beads), "bead", 4.2, [36.0, if screen { 38.0 } else { 66.0 }, if screen { 110.0 } else { 168.0 }, 34.0]) }
            if !screen && matches!(part, Part::Condenser | Part::Evaporator) { { dots(few(covered) * 2, "dirt", 3.0, [36.0, 12.0, 168.0, 36.0]) } }
        </svg>
    }
}
