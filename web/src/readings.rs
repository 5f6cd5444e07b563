//! Thermometers, scale, clutch and charge.
use crate::words;
use lowside_present::readout::Readout;
use lowside_units::display::Shown;
use yew::{Html, html};

/// The smaller instruments; a scale with nothing on it and a vacuum gauge that hangs at no pump and reads nothing are left out. `pump`: one is
/// on the service hose.
pub(crate) fn readings(r: &Readout, pump: bool) -> Html {
    let vacuum = pump || r.vacuum_at_loop || r.vacuum.is_some();
    let given = format!("{:.1}", (r.given_share * 150.0).clamp(0.0, 198.0));
    html! {
        <section class="readings" aria-labelledby="readings-title">
            <h2 id="readings-title" class="unseen">{ words::readings() }</h2>
            <dl>
                <div class={if r.vent_cold { "cold" } else { "" }}><dt>{ words::vent() }</dt><dd>{ r.vent.to_string() }if r.vent_cold { <small>{ words::vent_cold() }</small> }</dd></div>
                <div><dt>{ words::cabin_t() }</dt><dd>{ r.cabin.to_string() }</dd></div>
                <div><dt>{ words::clutch() }</dt><dd>
                    <span class={if r.clutch { "lamp lit" } else { "lamp" }} aria-hidden="true"></span>
                    <span class="word">{ words::in_out()[usize::from(r.clutch)] }</span><small>{ words::cycles(r.cycles) }</small>
                </dd></div>
                <div class="given"><dt>{ words::given() }</dt><dd>{ r.given.to_string() }<small>{ words::label(&r.label) }</small></dd>
                    <svg viewBox="0 0 200 8" preserveAspectRatio="none" aria-hidden="true">
                        <rect class="trough" x="0" y="1" width="200" height="6" rx="3" />
                        <rect class="level" x="0" y="1" width={given} height="6" rx="3" />
                        <path class="goal" d="M150 0V8" />
                    </svg>
                </div>
                if let Some(scale) = &r.scale {
                    <div class="wide"><dt>{ words::scale() }</dt><dd>{ scale.to_string() }</dd></div>
                }
                if vacuum {
                    <div class="wide" id="reading-vacuum"><dt>{ words::vacuum_gauge() }{ " " }<small>{ words::gauge_at([words::gauge_place_states_off(), words::gauge_place_states_on()][usize::from(r.vacuum_at_loop)]) }</small></dt><dd>{ r.vacuum.as_ref().map_or_else(|| words::vacuum_over().to_owned(), ToString::to_string) }</dd></div>
                }
            </dl>
        </section>
    }
}

/// The figures that matter, in one line at the top of a phone; those who listen have them from the gauges.
pub(crate) fn slim(r: &Readout) -> Html {
    let figure = |class: &'static str, name: &'static str, read: &Shown| {
        html! { <span class={class}><b>{ &read.number }</b><small>{ name }<br />{ read.unit }</small></span> }
    };
    html! {
        <p class="slim" aria-hidden="true">
            { figure("low", words::chart_low(), &r.low) }
            { figure("high", words::chart_high(), &r.high) }
            { figure("cool", words::strip_vent(), &r.vent) }
        </p>
    }
}
