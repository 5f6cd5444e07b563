//! The parts of the page that hold a canvas or a needle.
use lowside_present::{
    controls::Controls,
    dial::{Face, Which},
    readout::Readout,
};
use yew::{Context, Html, MouseEvent, classes, html};

use super::{App, Msg};
use crate::{chart::ChartTable, dial::Dial, words};

/// Lengths of the strip chart, minutes.
const WINDOWS: [u32; 3] = [3, 10, 30];

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
                number={reading.number.clone()} unit={reading.unit} spoken={words::spoken(reading)} {saturation} {coupled} />
        }
    }

    pub(super) fn levels_view(&self, ctx: &Context<Self>) -> Html {
        let at = |make: fn(f64, f64) -> Msg| {
            ctx.link().callback(move |e: MouseEvent| {
                make(f64::from(e.offset_x()), f64::from(e.offset_y()))
            })
        };
        html! {
            <section class="levels" aria-labelledby="levels-title">
                <h2 id="levels-title">{ words::levels() }<small>{ words::levels_idea() }</small></h2>
                <canvas ref={self.sheet.clone()} role="img" aria-label={self.slow.0.clone()}
                    onclick={at(Msg::Press)} onmousemove={at(Msg::Hover)}></canvas>
                <p class="key" aria-hidden="true"><span class="scale"></span>{ words::key()[0] }<span class="wet"></span>{ words::key()[1] }<span class="dry"></span>{ words::key()[2] }
                    <span class="heat"></span>{ words::key()[3] }</p>
            </section>
        }
    }

    pub(super) fn chart_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        html! {
            <section class="chart" aria-labelledby="chart-title">
                <h2 id="chart-title">{ words::chart() }
                    <small><span class="name high">{ words::chart_key()[0] }</span><span class="name low">{ words::chart_key()[1] }</span>
                    <span class="name accent">{ words::chart_key()[2] }</span><span class="name grey">{ words::chart_key()[3] }</span></small>
                    <span class="speeds" role="group" aria-label={words::chart_length()}>
                        { for WINDOWS.iter().map(|&m| html! {
                            <button type="button" aria-pressed={(m == self.minutes).to_string()} class={classes!((m == self.minutes).then_some("chosen"))}
                                onclick={link.callback(move |_: MouseEvent| Msg::Window(m))}>{ words::minutes(m) }</button>
                        }) }
                    </span>
                </h2>
                <div class="strip">
                    <canvas ref={self.axes.clone()} aria-hidden="true"></canvas>
                    <canvas ref={self.traces.clone()} role="img" aria-label={words::chart_spoken()}></canvas>
                </div>
                <ChartTable rows={self.rows.clone()} />
            </section>
        }
    }
}
