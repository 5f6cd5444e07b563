//! The parts of the page that hold a canvas or a needle.
use lowside_present::{
    controls::Controls,
    dial::{self, Face, Which},
    readout::Readout,
};
use yew::{Context, Html, MouseEvent, html};

use super::{App, Msg, face::FaceMsg};
use crate::{
    chart::{Strip, StripView},
    dial::Dial,
    words,
};

impl App {
    pub(super) fn dial(&self, which: Which, r: &Readout, c: &Controls) -> Html {
        let (title, reading, coupled, needle) = match which {
            Which::Low => (words::low_side(), &r.low, c.low_coupled, &self.needles[0]),
            Which::High => (
                words::high_side(),
                &r.high,
                c.high_coupled,
                &self.needles[1],
            ),
        };
        let saturation = match which {
            Which::Low => r.low_saturation.as_ref().map(words::boils_at),
            Which::High => r.high_saturation.as_ref().map(words::condenses_at),
        };
        html! {
            <Dial face={Face::of(&self.stage.bay, which, self.units)} needle={needle.clone()} {title}
                number={reading.number.clone()} unit={reading.unit} spoken={words::spoken(reading)} {saturation} {coupled}
                memory={dial::memory(&self.stage.history, &self.stage.bay, which, self.units)} />
        }
    }

    pub(super) fn levels_view(&self, ctx: &Context<Self>) -> Html {
        let at = |make: fn(f64, f64) -> Msg| {
            ctx.link().callback(move |e: MouseEvent| {
                make(f64::from(e.offset_x()), f64::from(e.offset_y()))
            })
        };
        html! {
            <section key="levels" class="levels" aria-labelledby="levels-title">
                <h2 id="levels-title">{ words::levels() }<small>{ words::levels_idea() }</small>
                <span class="key" aria-hidden="true"><span class="scale"></span>{ words::key()[0] }<span class="wet"></span>{ words::key()[1] }<span class="dry"></span>{ words::key()[2] }
                    <span class="heat"></span>{ words::key()[3] }</span></h2>
                <canvas ref={self.sheet.clone()} role="img" aria-label={self.slow.0.clone()}
                    onclick={at(Msg::Press)} onmousemove={at(Msg::Hover)}
                    onmouseleave={ctx.link().callback(|_: MouseEvent| Msg::Face(FaceMsg::Light(None)))}></canvas>
                { self.notes_view() }
            </section>
        }
    }

    pub(super) fn chart_view(&self, ctx: &Context<Self>) -> Html {
        let send = ctx.link().callback(|s: Strip| Msg::Face(FaceMsg::Strip(s)));
        let save = ctx.link().callback(|k| Msg::Face(FaceMsg::Save(k)));
        html! {
            <StripView key="strip" look={self.chart.look()} read={self.chart.read(&self.stage.history, &self.stage.bay, self.units)}
                axes={self.axes.clone()} traces={self.traces.clone()} {send} {save} rows={self.rows.clone()} />
        }
    }
}
