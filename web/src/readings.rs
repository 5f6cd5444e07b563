//! Thermometers, scale, clutch and charge.
use crate::words;
use lowside_present::readout::Readout;
use yew::{Html, html};

/// The smaller instruments.
pub(crate) fn readings(r: &Readout) -> Html {
    let given = format!("{:.1}", (r.given_share * 150.0).clamp(0.0, 198.0));
    html! {
        <section class="readings" aria-labelledby="readings-title">
            <h2 id="readings-title" class="unseen">{ words::readings() }</h2>
            <dl>
                <div class={if r.vent_cold { "cold" } else { "" }}><dt>{ words::vent() }</dt><dd>{ r.vent.to_string() }if r.vent_cold { <small>{ words::vent_cold() }</small> }</dd></div>
                <div><dt>{ words::cabin_t() }</dt><dd>{ r.cabin.to_string() }</dd></div>
                <div><dt>{ words::clutch() }</dt><dd>
                    <span class={if r.clutch { "lamp lit" } else { "lamp" }} aria-hidden="true"></span>
                    { words::in_out()[usize::from(r.clutch)] }<small>{ words::cycles(r.cycles) }</small>
                </dd></div>
                <div><dt>{ words::scale() }</dt><dd>{ r.scale.as_ref().map_or_else(|| words::scale_empty().to_owned(), ToString::to_string) }</dd></div>
                <div class="wide" id="reading-vacuum"><dt>{ words::vacuum_gauge() }{ " " }<small>{ words::gauge_at([words::gauge_place_states_off(), words::gauge_place_states_on()][usize::from(r.vacuum_at_loop)]) }</small></dt><dd>{ r.vacuum.as_ref().map_or_else(|| words::vacuum_over().to_owned(), ToString::to_string) }</dd></div>
                <div class="wide"><dt>{ words::given() }</dt><dd>{ r.given.to_string() }<small>{ words::label(&r.label) }</small></dd>
                    <svg viewBox="0 0 200 8" preserveAspectRatio="none" aria-hidden="true">
                        <rect class="trough" x="0" y="1" width="200" height="6" rx="3" />
                        <rect class="level" x="0" y="1" width={given} height="6" rx="3" />
                        <path class="goal" d="M150 0V8" />
                    </svg>
                </div>
            </dl>
        </section>
    }
}
