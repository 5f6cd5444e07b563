//! How each part is drawn, shut and opened.
use lowside_present::{
    bench::Loose,
    palette::Theme,
    parts::{Cell, Coat, Part, Parts, inside::Opened},
};
use yew::{Html, html};

use super::{
    BEHIND, COLD, CONDENSER, DISCHARGE, EVAPORATOR, HIGH_HOSE, LIQUID, LOW_HOSE, SERVICE_HOSE,
    SUCTION, frosted, heat,
};
use crate::words::{self, charts};

/// What the parts are drawn with.
pub(super) struct Look<'a> {
    pub(super) parts: &'a Parts,
    pub(super) theme: &'a Theme,
    pub(super) closed: bool,
    pub(super) loose: Loose,
}

fn f(v: f64) -> String {
    format!("{v:.1}")
}

fn text(x: f64, y: f64, anchor: &'static str, class: &'static str, text: impl AsRef<str>) -> Html {
    html! { <text x={f(x)} y={f(y)} text-anchor={anchor} class={class}>{ text.as_ref() }</text> }
}

impl Look<'_> {
    fn tint(&self, t: f64) -> String {
        if self.closed {
            self.theme.rule.to_string()
        } else {
            heat(self.theme, t)
        }
    }

    /// What clings to the outside of a part.
    pub(super) fn coat(&self, part: Part) -> Coat {
        let p = self.parts;
        match part {
            Part::Discharge => p.tubes.discharge.coat,
            Part::Liquid => p.tubes.liquid.coat,
            Part::Orifice => p.tubes.behind.coat,
            Part::Evaporator if p.frosted => Coat::Frost,
            Part::Evaporator if p.held > 0.02 => Coat::Dew,
            Part::Accumulator => p.accumulator.2,
            Part::Suction => p.tubes.suction.coat,
            Part::LowHose => p.tubes.low_hose.coat,
            Part::HighHose => p.tubes.high_hose.coat,
            Part::ServiceHose => p.tubes.service_hose.coat,
            Part::Can => p.can.map_or(Coat::Dry, |c| c.2),
            _ => Coat::Dry,
        }
    }

    /// Bulkhead, engine, grille: what only stands there.
    pub(super) fn ground() -> Html {
        html! { <g class="still">
            <path class="wall" d="M172 60V84M172 114V396M172 424V440" />
            <rect class="engine" x="300" y="272" width="200" height="106" rx="8" />
            <path class="fin" d="M330 272v106M360 272v106M390 272v106M420 272v106M450 272v106" />
            { text(400.0, 330.0, "middle", "quiet", words::bay_block()) }
            <rect class="case" x="70" y="112" width="86" height="284" rx="6" />

            <path class="grille" d="M768 84V404M776 84V404M784 84V404" />
            { text(20.0, 438.0, "start", "quiet", words::bay_cabin()) }
            { text(186.0, 438.0, "start", "quiet", words::bay_engine()) }
            { text(790.0, 424.0, "end", "quiet", words::bay_grille()) }
        </g> }
    }

    /// A tube: wall, content, and what clings to it.
    fn tube(
        &self,
        (d, width): (&'static str, f64),
        t: f64,
        coat: Coat,
        own: Option<&String>,
    ) -> Html {
        let rim = own.cloned().unwrap_or_else(|| self.theme.edge.to_string());
        let inner = if own.is_some() && self.closed {
            self.theme.sheet.to_string()
        } else {
            self.tint(t)
        };
        html! { <>
            <path class="reach" {d} />
            if coat != Coat::Dry {
                <path class={if frosted(coat) { "frost" } else { "dew" }} {d} stroke-width={f(width + if frosted(coat) { 10.0 } else { 12.0 })} />
            }
            <path class="rim" {d} stroke={rim} stroke-width={f(width + 4.0)} />
            <path class="bore" {d} stroke={inner} stroke-width={f(if own.is_some() { width * 0.4 } else { width })} />
        </> }
    }

    /// One part.
    pub(super) fn part(&self, part: Part) -> Html {
        let (p, t) = (self.parts, self.theme);
        match part {
            Part::Compressor => self.compressor(),
            Part::Discharge => html! { <>
                { self.tube(DISCHARGE, p.tubes.discharge.t, p.tubes.discharge.coat, None) }
                <path class="pipe" d="M512 108V114" />
                { self.port(560.0, 104.0, p.coupled[1], t.high.to_string()) }
                { switch(620.0, 104.0, (!self.closed).then_some(p.switches[1])) }
                if p.relief { <path class="blow" d="M506 182l-6 18M512 182v22M518 182l6 18" /> }
                { text(590.0, 134.0, "middle", "name", charts::part(part)) }
            </> },
            Part::Condenser => self.coil(CONDENSER, &p.condenser, false, part),
            Part::Liquid => html! { <>
                { self.tube(LIQUID, p.tubes.liquid.t, p.tubes.liquid.coat, None) }
                { text(430.0, 434.0, "middle", "name", charts::part(part)) }
            </> },
            Part::Orifice => html! { <>
                { self.tube(BEHIND, p.tubes.behind.t, p.tubes.behind.coat, None) }
                <path class="body" d="M262 401H246L236 406H212L202 401H196V419H202L212 414H236L246 419H262Z" fill={self.tint(p.tubes.behind.t)} />
                { text(230.0, 394.0, "middle", "name", charts::part(part)) }
            </> },
            Part::Evaporator => html! { <>
                { self.coil(EVAPORATOR, &p.evaporator, true, part) }
                { self.tube(COLD, p.tubes.cold.t, p.tubes.cold.coat, None) }
                if p.drips { <g class="drops"><path d="M124 400q4 7 0 9q-4-2 0-9M134 404q4 7 0 9q-4-2 0-9" /></g> }
            </> },
            Part::Accumulator => {
                let (temp, fill, coat) = p.accumulator;
                let top = 232.0 - fill * 144.0;
                html! { <>
                    if coat != Coat::Dry { <rect class={if frosted(coat) { "frost" } else { "dew" }} x="218" y="82" width="54" height="156" rx="22" stroke-width="8" /> }
                    <rect class="body" x="224" y="88" width="42" height="144" rx="18" fill={t.sheet.to_string()} />
                    <clipPath id="vessel"><rect x="225" y="89" width="40" height="142" rx="17" /></clipPath>
                    <g clip-path="url(#vessel)">
                        <rect x="224" y="88" width="42" height="144" fill={self.tint(temp)} fill-opacity="0.35" />
                        if !self.closed { <rect x="224" y={f(top)} width="42" height={f(232.0 - top)} fill={self.tint(temp)} />
                            <path class="surface" d={format!("M224 {top:.1}h42")} /> }
                    </g>
                    { switch(245.0, 84.0, (!self.closed).then_some(p.switches[0])) }
                    { text(245.0, 252.0, "middle", "name", charts::part(part)) }
                </> }
            }
            Part::Suction => html! { <>
                { self.tube(SUCTION, p.tubes.suction.t, p.tubes.suction.coat, None) }
                { self.port(332.0, 122.0, p.coupled[0], t.low.to_string()) }
                { text(360.0, 148.0, "middle", "name", charts::part(part)) }
            </> },
            Part::LowHose => self.tube(
                LOW_HOSE,
                p.tubes.low_hose.t,
                p.tubes.low_hose.coat,
                Some(&t.low.to_string()),
            ),
            Part::HighHose => self.tube(
                HIGH_HOSE,
                p.tubes.high_hose.t,
                p.tubes.high_hose.coat,
                Some(&t.high.to_string()),
            ),
            Part::ServiceHose => html! { <>
                { self.tube(SERVICE_HOSE, p.tubes.service_hose.t, p.tubes.service_hose.coat, Some(&t.service.to_string())) }
            </> },
            Part::Can => self.can(),
        }
    }

    fn coil(
        &self,
        (x, y, w, h): (f64, f64, f64, f64),
        cells: &[Cell],
        upward: bool,
        part: Part,
    ) -> Html {
        let n = cells.len() as f64;
        let whole = n * h;
        let row = |k: usize| {
            if upward {
                y + (n - 1.0 - k as f64) * h
            } else {
                y + k as f64 * h
            }
        };
        html! { <>
            if part == Part::Evaporator && self.coat(part) != Coat::Dry {
                <rect class={if self.parts.frosted { "frost" } else { "dew" }} x={f(x - 4.0)} y={f(y - 4.0)} width={f(w + 8.0)} height={f(whole + 8.0)} stroke-width={if self.parts.frosted { "8" } else { "4.5" }} />
            }
            { for cells.iter().enumerate().map(|(k, c)| {
                let top = row(k);
                let wet = c.fill * h;
                html! { <>
                    <rect x={f(x)} y={f(top)} width={f(w)} height={f(h)} fill={self.theme.sheet.to_string()} />
                    <rect x={f(x)} y={f(top)} width={f(w)} height={f(h)} fill={self.tint(c.t)} fill-opacity="0.4" />
                    if !self.closed {
                        <rect x={f(x)} y={f(top + h - wet)} width={f(w)} height={f(wet)} fill={self.tint(c.t)} />
                        if c.fill > 0.01 { <path class="surface" d={format!("M{x:.1} {:.1}h{w:.1}", top + h - wet)} /> }
                        if c.air > 0.03 { <rect x={f(x)} y={f(top)} width={f(w)} height={f(((h - wet) * c.air).max(3.0).min(h))} fill="url(#air)" /> }
                    }
                    <path class="fin" d={format!("M{x:.1} {top:.1}h{w:.1}")} />
                </> }
            }) }
            <rect class="outline" x={f(x)} y={f(y)} width={f(w)} height={f(whole)} rx="3" />
            { if part == Part::Condenser { text(x + w / 2.0, y - 10.0, "middle", "name", charts::part(part)) }
              else { text(14.0, 86.0, "start", "name", charts::part(part)) } }
        </> }
    }

    fn compressor(&self) -> Html {
        let p = self.parts;
        let on = p.turns > 0.0;
        html! { <>
            if self.loose.belt {
                <path class="belt slack" d="M504 330C520 300 540 282 530 300S506 320 514 330" />
            } else {
                <path class="belt" d="M503 216V328M515 216V328" />
            }
            <path class="wire" d="M524 204Q534 186 548 188" />
            <rect class="body" x="502" y="302" width="14" height="54" rx="3" />
            <rect class="body" x="408" y="188" width="92" height="58" rx="12" fill={self.tint(p.body)} />
            <path class="fin" d="M430 188v58M452 188v58M474 188v58" />
            <rect class="body" x="502" y="184" width="14" height="66" rx="3" />
            <rect class={if on { "clutch in" } else { "clutch" }} x={if on { "517" } else { "521" }} y="196" width="6" height="42" rx="2" />
            { text(444.0, 264.0, "middle", "name", charts::part(Part::Compressor)) }
        </> }
    }

    /// A service port: a cap, or a coupler on it.
    fn port(&self, x: f64, y: f64, on: bool, colour: String) -> Html {
        let fill = if on {
            colour.clone()
        } else {
            self.theme.sheet.to_string()
        };
        html! { <rect x={f(x - 7.0)} y={f(y - 12.0)} width="14" height="16" rx="3" {fill} stroke={colour} stroke-width="2" /> }
    }

    fn gauge_set(&self) -> Html {
        let (p, t) = (self.parts, self.theme);
        let knob = |x: f64, open: f64, colour: String| {
            let turn = format!("rotate({:.0} {x} 54)", 90.0 * (1.0 - open));
            html! { <><circle cx={f(x)} cy="54" r="8" fill={if open > 0.0 { colour.clone() } else { t.sheet.to_string() }} stroke={colour} stroke-width="2" />
            <path class="contact" d={format!("M{} 54h10", x - 5.0)} transform={turn} /></> }
        };
        html! { <g class="set">
            <rect class="body" x="340" y="46" width="120" height="17" rx="6" />
            <circle cx="370" cy="26" r="20" fill={t.sheet.to_string()} stroke={t.low.to_string()} stroke-width="3" />
            <circle cx="430" cy="26" r="20" fill={t.sheet.to_string()} stroke={t.high.to_string()} stroke-width="3" />
            { text(370.0, 31.0, "middle", "name", "L") }{ text(430.0, 31.0, "middle", "name", "H") }
            { knob(340.0, p.valves[0], t.low.to_string()) }
            { knob(460.0, p.valves[1], t.high.to_string()) }
        </g> }
    }

    fn can(&self) -> Html {
        let Some((temp, fill, coat)) = self.parts.can else {
            return html! {};
        };
        let top = 76.0 - fill * 60.0;
        html! { <>
            if coat != Coat::Dry { <rect class={if frosted(coat) { "frost" } else { "dew" }} x="616" y="12" width="42" height="68" rx="8" stroke-width="8" /> }
            <rect x="620" y="16" width="34" height="60" rx="6" fill={self.tint(temp)} fill-opacity="0.35" />
            if !self.closed { <rect x="620" y={f(top)} width="34" height={f(76.0 - top)} fill={self.tint(temp)} /><path class="surface" d={format!("M620 {top:.1}h34")} /> }
            <rect class="outline" x="620" y="16" width="34" height="60" rx="6" />
            { text(662.0, 50.0, "start", "name", charts::part(Part::Can)) }
        </> }
    }

    /// Air and heat around the loop, over everything.
    pub(super) fn surroundings(&self) -> Html {
        let p = self.parts;
        let arrow = |x: f64, y: f64, dx: f64, watts: f64| {
            // As wide as the heat is strong, by one factor.
            let half = (watts / 420.0).clamp(0.0, 15.0);
            let (tip, neck) = (
                x + dx,
                x + dx - dx.signum() * (half * 1.4).min(dx.abs() * 0.5),
            );
            (watts > 20.0).then(|| html! { <path class="heat" d={format!(
                "M{x:.1} {:.1}L{neck:.1} {:.1}V{:.1}L{tip:.1} {y:.1}L{neck:.1} {:.1}V{:.1}L{x:.1} {:.1}Z",
                y - half * 0.6, y - half * 0.6, y - half * 1.2, y + half * 1.2, y + half * 0.6, y + half * 0.6)} /> })
        };
        html! { <g class="around" aria-hidden="true">
            <defs><pattern id="air" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V6" stroke={self.theme.ink.to_string()} stroke-width="1.6" /></pattern></defs>
            // Heat and power are read on no instrument of the bay.
            if !self.closed {
                { arrow(20.0, 258.0, 56.0, p.taken.0) }
                { text(8.0, 220.0, "start", "figure", &p.taken.1.number) }
                { text(8.0, 237.0, "start", "unit", p.taken.1.unit) }
                { arrow(686.0, 258.0, -56.0, p.shed.0) }
                { text(658.0, 220.0, "middle", "figure", &p.shed.1.number) }
                { text(658.0, 237.0, "middle", "unit", p.shed.1.unit) }
                if p.work.0 > 20.0 {
                    { text(530.0, 260.0, "start", "quiet", words::bay_belt()) }
                    { text(530.0, 276.0, "start", "figure", p.work.1.to_string()) }
                }
            }
            { text(8.0, 294.0, "start", "quiet", words::bay_air()) }
            { text(8.0, 311.0, "start", "quiet", p.air[1].to_string()) }
            { text(794.0, 36.0, "end", "quiet", words::bay_air()) }
            { text(794.0, 53.0, "end", "quiet", p.air[0].to_string()) }
            { text(530.0, 212.0, "start", "quiet", words::clutch()) }
            { text(530.0, 228.0, "start", "figure", words::in_out()[usize::from(p.turns > 0.0)]) }
            { self.gauge_set() }
            <path class="draught" d="M150 250V56Q150 50 144 50H26l8-5M26 50l8 5" />
            { text(14.0, 22.0, "start", "quiet", words::vent()) }
            { text(14.0, 40.0, "start", "figure", p.air[2].to_string()) }
        </g> }
    }
}

/// A pressure switch with its plug: its contact shut or open, where that is known.
fn switch(x: f64, y: f64, shut: Option<bool>) -> Html {
    let contact = shut.map(|shut| {
        if shut {
            format!("M{:.1} {:.1}h12", x - 6.0, y - 5.0)
        } else {
            format!("M{:.1} {:.1}l11-6", x - 6.0, y - 4.0)
        }
    });
    html! { <><rect class="body" x={f(x - 9.0)} y={f(y - 12.0)} width="18" height="13" rx="3" />
    <path class="plug" d={format!("M{:.1} {:.1}v-6h10v6M{x:.1} {:.1}v-5q0-7 9-7h14", x - 5.0, y - 12.0, y - 18.0)} />
    if let Some(d) = contact { <path class="contact" {d} /> }</> }
}

/// A part cut open, 240 by 110.
pub(super) fn section(o: &Opened, t: &Theme) -> Html {
    let liquid = t.heat(-10.0).to_string();
    // Oil is lighter than liquid refrigerant and drawn upon it, though much of it is mixed in.
    let vessel = |x: f64, w: f64, fill: f64, air: f64| {
        let oil = o.oil.clamp(0.0, 1.0);
        let deep = 104.0 - fill * (1.0 - oil) * 96.0;
        let top = deep - oil * 96.0;
        html! { <>
            <rect x={f(x)} y={f(top)} width={f(w)} height={f(deep - top)} fill={t.service.to_string()} fill-opacity="0.8" />
            <rect x={f(x)} y={f(deep)} width={f(w)} height={f(104.0 - deep)} fill={liquid.clone()} fill-opacity="0.75" />
            if deep < 103.5 { <path class="surface" d={format!("M{x:.1} {deep:.1}h{w:.1}")} /> }
            if air > 0.02 { <rect x={f(x)} y="8" width={f(w)} height={f(((top - 8.0) * air).max(3.0))} fill="url(#air)" /> }
            <rect class="outline" x={f(x)} y="8" width={f(w)} height="96" />
        </> }
    };
    let picture = match o.part {
        Part::Accumulator => {
            let spill = 104.0 - o.spills.unwrap_or(1.0) * 96.0;
            html! { <>
                { vessel(70.0, 100.0, o.fill[0], o.air[0]) }
                <path class="pipe" d="M104 8V88Q104 98 112 98T120 88V20" />
                <path class="spill" d={format!("M62 {spill:.1}h116")} />
                <rect x="134" y="54" width="24" height="40" rx="8" fill={t.low.to_string()} fill-opacity={f(0.15 + 0.75 * o.desiccant)} stroke={t.ink.to_string()} stroke-width="1.8" />
            </> }
        }
        Part::Condenser | Part::Evaporator => {
            let w = 216.0 / o.fill.len() as f64;
            html! { { for (0..o.fill.len()).map(|k| vessel(12.0 + k as f64 * w, w, o.fill[k], o.air[k])) } }
        }
        Part::Orifice => {
            let [ice, debris] = o.blocked;
            let half = 16.0 * (1.0 - ice - debris).clamp(0.0, 1.0);
            let dots = (debris * 60.0).round();
            let mut grains = Vec::new();
            let mut k = 0.0;
            while k < dots {
                grains.push((34.0 + (k * 7.3) % 18.0, 30.0 + (k * 12.7) % 50.0));
                k += 1.0;
            }
            html! { <>
                <rect x="8" y="26" width="224" height="58" fill={liquid} fill-opacity="0.25" />
                <path class="spill" d="M30 26V84M38 26V84M46 26V84M54 26V84" />
                <path d="M70 26H190V39H70ZM70 71H190V84H70Z" fill={t.edge.to_string()} />
                <path d={format!("M70 39H190V{:.1}H70ZM70 {:.1}H190V71H70Z", 55.0 - half, 55.0 + half)} fill={t.low.to_string()} fill-opacity={if ice > 0.0 { "0.55" } else { "0" }} />
                { for grains.iter().map(|(x, y)| html! { <circle cx={f(*x)} cy={f(*y)} r="2.6" fill={t.ink.to_string()} /> }) }
                <path class="outline" d="M8 26H232M8 84H232" />
            </> }
        }
        Part::Compressor => {
            let wet = (o.leaving[0] * 60.0).min(40.0);
            html! { <>
                <rect class="outline" x="30" y="20" width="130" height="70" />
                <rect x="30" y={f(90.0 - wet)} width="60" height={f(wet)} fill={liquid} fill-opacity="0.75" />
                <rect x="90" y="22" width="26" height="66" fill={t.edge.to_string()} />
                <path class="pipe" d="M116 55H206" />
                <path class="spill" d="M30 32H22V8M30 78H22V102" />
                <rect x="176" y="88" width="56" height="8" fill={t.rule.to_string()} /><rect x="176" y="88" width={f(56.0 * o.wear)} height="8" fill={t.high.to_string()} />
            </> }
        }
        Part::Can => vessel(90.0, 60.0, o.fill[0], o.air[0]),
        _ => {
            let oil = o.oil.clamp(0.0, 1.0) * 44.0;
            let fill = o.fill[0] * (44.0 - oil);
            html! { <>
                <rect x="8" y={f(78.0 - fill)} width="224" height={f(fill)} fill={liquid} fill-opacity="0.75" />
                <rect x="8" y={f(78.0 - fill - oil)} width="224" height={f(oil)} fill={t.service.to_string()} />
                if o.air[0] > 0.02 { <rect x="8" y="34" width="224" height={f(((44.0 - fill) * o.air[0]).max(3.0))} fill="url(#air)" /> }
                <path class="outline" d="M8 34H232M8 78H232" />
            </> }
        }
    };
    html! { <svg class="cut" viewBox="0 0 240 112" aria-hidden="true">{ picture }</svg> }
}
