//! What an unknown vehicle shows: the door, its sheet, slips, the debrief.
use lowside_lessons::{
    mark::{Line, Mark},
    rivals::{Debrief, Inquiry},
};
use lowside_present::{
    drill::{self, Figure, Group, Slip, ToRead, Where, cures, suspects},
    toll,
};
use lowside_session::{
    LearnerAct,
    action::{FaultId, Meter, Wheel},
};
use lowside_units::{Mass, display};
use wasm_bindgen::JsCast;
use yew::{Callback, Context, Event, Html, MouseEvent, classes, html};

use super::{
    super::{App, Msg, ShareMsg},
    DrillMsg, name,
    odds::chart,
};
use crate::{
    closed,
    kit::{button, choice, field, slider, switch},
    words,
};

impl App {
    /// What stands behind the door where no vehicle is in.
    pub(crate) fn bring_view(&self, ctx: &Context<Self>) -> Html {
        let ask = |msg: fn(String) -> DrillMsg| {
            let link = ctx.link().clone();
            move |text| link.send_message(Msg::Drill(msg(text)))
        };
        let link = ctx.link().clone();
        let slight = move |on| link.send_message(Msg::Drill(DrillMsg::Slight(on)));
        let link = ctx.link().clone();
        let exam = move |on| link.send_message(Msg::Drill(DrillMsg::Exam(on)));
        let link = ctx.link().clone();
        let bring = move || link.send_message(Msg::Drill(DrillMsg::Bring));
        html! {
            <section class="behind bring" aria-labelledby="bring-title">
                <h2 id="bring-title">{ words::drill() }</h2>
                <p>{ words::drill_idea() }</p>
                <div class="bring-in">
                    { field(words::drill_number(), "text", &self.desk.number, ask(DrillMsg::Number)) }
                    { switch("slight", words::drill_slight(), [words::no(), words::yes()], self.desk.slight, slight) }
                    { switch("as-exam", words::drill_exam(), [words::no(), words::yes()], self.desk.exam, exam) }
                    { button(words::drill_bring(), true, bring) }
                </div>
                <p><small>{ words::drill_number_hint() }</small></p>
            </section>
        }
    }

    /// The sheet of the vehicle that is in: what the customer says, readings to take, what it is.
    pub(crate) fn drill_view(&self, ctx: &Context<Self>) -> Html {
        let (s, shown) = (&self.stage, self.stage.shown());
        let number = s.sitting.seed.to_string();
        let spent = (shown.seconds() / 60.0).floor();
        let said = self.committed();
        html! {
            <section class="card drill" aria-labelledby="drill-title">
                <h2 id="drill-title">{ words::drill_vehicle(number) }</h2>
                <p class="line"><span>{ words::drill_time() }</span><b>{ words::drill_minutes(format!("{spent:.0}")) }</b></p>
                if said.is_none() {
                    { self.readings_to_take(ctx) }
                    { self.what_it_is(ctx) }
                } else {
                    { for self.desk.debrief.as_ref().map(|(_, mark)| self.marks(mark)) }
                    { Self::next_one(ctx) }
                }
            </section>
        }
    }

    /// What the customer says, and what the vehicle's label does: in place of what is advised, until it is said what it is.
    pub(crate) fn drill_told(&self) -> Option<(String, String)> {
        let (of, complaint) = self.desk.complaint?;
        if of != self.stage.sitting.seed {
            return None;
        }
        if self.committed().is_some() {
            return Some(self.outcome());
        }
        let shown = self.stage.shown();
        let charge = display::mass(Mass::from_kg(shown.printed.label_charge), self.units);
        let vehicle = words::vehicle_name(self.stage.bay.scenario().vehicle.name.as_str());
        let label = words::drill_label(&vehicle, shown.printed.built_for, charge);
        let said = words::drill_quote(words::complaint(complaint.key()));
        Some((said, label))
    }

    /// What it was, and what it was said to be; until that is known, how far the debrief is.
    fn outcome(&self) -> (String, String) {
        let Some((debrief, mark)) = &self.desk.debrief else {
            let done = self.desk.inquiry.as_ref().map_or(0.0, Inquiry::progress);
            let percent = format!("{:.0}", 100.0 * done);
            return (words::debrief().to_owned(), words::debrief_working(percent));
        };
        let of_truth = debrief.odds.last().iter().find(|s| s.fault == mark.truth);
        let much = of_truth
            .and_then(|s| s.severity)
            .filter(|_| mark.truth.is_some());
        let truth = name(mark.truth);
        let was = match much {
            Some(much) => words::debrief_it_was_much(truth, words::severity_name(much.name())),
            None => words::debrief_it_was(truth),
        };
        let sure = format!("{:.0}", mark.certainty * 100.0);
        let said = mark
            .said
            .map(|id| words::debrief_said(name(id.fault()), sure));
        (was, said.unwrap_or_default())
    }

    /// The next vehicle, of a number that is drawn.
    fn next_one(ctx: &Context<Self>) -> Html {
        let link = ctx.link().clone();
        let bring = move || {
            link.send_message(Msg::Drill(DrillMsg::Number(String::new())));
            link.send_message(Msg::Drill(DrillMsg::Bring));
        };
        html! { <div class="bring-in">{ button(words::drill_next(), true, bring) }</div> }
    }

    fn readings_to_take(&self, ctx: &Context<Self>) -> Html {
        let shown = self.stage.shown();
        let [looked_at, clamp, hand] = drill::to_read(&shown);
        let act = ctx.link().callback(Msg::Act);
        let one = |r: &ToRead| {
            let (act, r) = (act.clone(), *r);
            let press = Callback::from(move |_: MouseEvent| {
                let read = LearnerAct::Read {
                    instrument: r.meter,
                };
                act.emit(r.first.unwrap_or_else(|| read.into()));
            });
            let label = match (r.first, r.meter) {
                (None, _) => words::drill_read_now(),
                (Some(_), Meter::Identifier(_) | Meter::IdentifierAir) => words::drill_sample(),
                (Some(_), _) => words::drill_put_on(),
            };
            let what = meter(r.meter);
            html! {
                <li><span>{ &what }</span>
                    <button type="button" aria-label={format!("{label}: {what}")} onclick={press}>{ label }</button></li>
            }
        };
        let listed = |id: &'static str,
                      label: &'static str,
                      all: &[ToRead],
                      at: usize,
                      msg: fn(usize) -> DrillMsg| {
            let names: Vec<String> = all.iter().map(|r| place(r.meter)).collect();
            let link = ctx.link().clone();
            let chosen = all.get(at).or_else(|| all.first());
            html! {
                <li class="place">{ choice(id, label, &names, at, move |n| link.send_message(Msg::Drill(msg(n)))) }
                    <ul>{ for chosen.map(one) }</ul></li>
            }
        };
        html! {
            <fieldset class="to-read"><legend>{ words::drill_read() }</legend>
                <ul>{ for looked_at.iter().map(one) }
                    { listed("clamp-at", words::drill_clamp(), &clamp, self.desk.places[0], DrillMsg::Point) }
                    { listed("hand-at", words::drill_hand(), &hand, self.desk.places[1], DrillMsg::Surface) }
                </ul>
                <p><small>{ words::drill_doubt() }</small></p>
            </fieldset>
        }
    }

    fn what_it_is(&self, ctx: &Context<Self>) -> Html {
        let desk = &self.desk;
        let ask = |msg: fn(usize) -> DrillMsg| {
            let link = ctx.link().clone();
            move |n| link.send_message(Msg::Drill(msg(n)))
        };
        let link = ctx.link().clone();
        let sure = move |percent| link.send_message(Msg::Drill(DrillMsg::Sure(percent)));
        let link = ctx.link().clone();
        let commit = move || link.send_message(Msg::Drill(DrillMsg::Commit));
        let all = suspects();
        let chosen = all.get(desk.fault).copied().unwrap_or(FaultId::NOTHING);
        let much = words::severities();
        let cures: Vec<String> = cures()
            .iter()
            .map(|(_, f)| {
                words::fault(&format!("{}.cure", f.id))
                    .unwrap_or(f.id)
                    .to_owned()
            })
            .collect();
        html! {
            <fieldset class="what-it-is"><legend>{ words::drill_say() }</legend>
                { fault_choice("drill-fault", &all, desk.fault, ask(DrillMsg::Fault)) }
                { choice("drill-much", words::drill_much(), &much, desk.much, ask(DrillMsg::Much)) }
                { choice("drill-cure", words::drill_cure(), &cures, desk.cure, ask(DrillMsg::Cure)) }
                { slider("drill-sure", words::drill_sure(), [10.0, 100.0, 5.0, desk.sure], &format!("{:.0} %", desk.sure), sure) }
                { button(words::drill_commit(name(chosen.fault())), true, commit) }
                <p><small>{ words::drill_commit_hint() }</small></p>
            </fieldset>
        }
    }

    /// What lies in the middle: the slips, and after the commitment the debrief.
    pub(crate) fn slips_view(&self, ctx: &Context<Self>) -> Html {
        let said = self.committed();
        html! { <>
            if said.is_some() && self.stage.sitting.learner.is_some() { { hand_in(ctx) } }
            if said.is_some() { { self.debrief_view() } }
            <section class="slips" aria-labelledby="slips-title">
                <h2 id="slips-title">{ words::drill_slips() }</h2>
                if self.desk.readings.is_empty() { <p class="empty">{ words::drill_slips_none() }</p> }
                <ol>{ for drill::slips(&self.desk.readings, self.units).iter().map(|slip| self.slip(ctx, slip, said.is_none())) }</ol>
            </section>
        </> }
    }

    fn slip(&self, ctx: &Context<Self>, slip: &Slip, open: bool) -> Html {
        let cited = self.desk.cited.contains(&slip.number);
        let n = slip.number;
        let cite = ctx
            .link()
            .callback(move |_: Event| Msg::Drill(DrillMsg::Cite(n)));
        html! {
            <li class={classes!("slip", cited.then_some("cited"))}>
                <span class="of"><b class="number">{ n }</b><time>{ &slip.clock.number }</time></span>
                <span>{ meter(slip.meter) }</span>
                <strong>{ figures(&slip.figures) }</strong>
                if open { <label><input type="checkbox" checked={cited} onchange={cite} />{ words::drill_cite() }</label> }
            </li>
        }
    }

    fn debrief_view(&self) -> Html {
        let desk = &self.desk;
        let percent = desk.inquiry.as_ref().map_or(0.0, Inquiry::progress) * 100.0;
        let content = match &desk.debrief {
            None => html! { <>
                <p>{ words::debrief_working(format!("{percent:.0}")) }</p>
                <progress max="100" value={format!("{percent:.0}")} aria-label={words::debrief()}></progress>
            </> },
            Some((debrief, _)) => self.told(debrief),
        };
        html! {
            <section id="debrief" class="debrief" tabindex="-1" aria-labelledby="debrief-title">
                <h2 id="debrief-title">{ words::debrief() }</h2>
                { content }
            </section>
        }
    }

    fn told(&self, debrief: &Debrief) -> Html {
        html! { <>
            <ul class="telling">{ for self.sentences(debrief).into_iter().map(|text| html! { <li>{ text }</li> }) }</ul>
            { chart(&debrief.odds) }
        </> }
    }

    /// What the readings told, a sentence each.
    fn sentences(&self, debrief: &Debrief) -> Vec<String> {
        let slips = drill::slips(&self.desk.readings, self.units);
        let first = debrief.odds.last().first().and_then(|s| s.fault);
        let mut all = Vec::new();
        all.push(
            match debrief.decided.and_then(|n| Some((n, slips.get(n)?))) {
                Some((n, slip)) => words::debrief_decided(
                    (n + 1).to_string(),
                    meter(slip.meter),
                    figures(&slip.figures),
                    name(first),
                ),
                None => words::debrief_undecided().to_owned(),
            },
        );
        let Some(rival) = debrief.rival else {
            return all;
        };
        let rival = name(rival.fault);
        all.push(words::debrief_rival(rival));
        let show = |channel, si| figure(&drill::figure(channel, si, self.units));
        match debrief.telling {
            Some(telling) => all.push(words::debrief_telling(
                meter(telling.channel.meter),
                show(telling.channel, telling.shows[0]),
                rival,
                show(telling.channel, telling.shows[1]),
            )),
            None => all.push(words::debrief_no_telling().to_owned()),
        }
        let mut beside = debrief.beside.clone();
        beside.sort_by(|a, b| b.apart.total_cmp(&a.apart));
        for b in beside.iter().take(3) {
            all.push(words::debrief_beside(
                (b.read.reading + 1).to_string(),
                show(b.read.channel, b.read.value.unwrap_or_default()),
                rival,
                show(b.read.channel, b.rival),
            ));
        }
        all
    }

    fn marks(&self, mark: &Mark) -> Html {
        let line = |(line, marks): (Line, f64)| {
            html! { <tr><th scope="row">{ words::mark_line(line.key()) }</th><td>{ format!("{marks:.0}") }</td><td>{ format!("{:.0}", line.most()) }</td></tr> }
        };
        let open: Vec<&str> = mark.open.iter().map(|f| name(*f)).collect();
        let spoilt: Vec<String> = toll::texts(mark.costs.clone(), self.units)
            .iter()
            .map(|(_, told)| words::cost(told))
            .collect();
        html! { <>
            <h3>{ words::debrief_marks(format!("{:.0}", mark.total())) }</h3>
            <table class="rubric"><tbody>{ for Line::ALL.into_iter().zip(mark.lines).map(line) }</tbody></table>
            if !open.is_empty() { <p>{ words::debrief_open(open.join(", ")) }</p> }
            if !spoilt.is_empty() { <p>{ words::debrief_spoilt(spoilt.join("; ")) }</p> }
        </> }
    }
}

/// Where a meter is read; its own name where that is always the same.
fn place(of: Meter) -> String {
    match drill::place(of) {
        Some(Where::Point(at)) => words::point(at).to_owned(),
        Some(Where::Surface(at)) => closed::name(at).to_owned(),
        Some(Where::Spot(at)) => words::spot_name(at),
        Some(Where::Wheel(Wheel::Hub)) => words::drill_hub().to_owned(),
        Some(Where::Wheel(Wheel::Pulley)) => words::drill_pulley().to_owned(),
        Some(Where::Gas(gas)) => gas.to_string(),
        Some(Where::Air) => words::drill_air().to_owned(),
        None => words::meter_name(of.name()),
    }
}

fn meter(of: Meter) -> String {
    let name = words::meter_name(of.name());
    match drill::place(of) {
        Some(_) => words::drill_where(name, place(of)),
        None => name,
    }
}

fn figures(all: &[Figure]) -> String {
    let each: Vec<String> = all.iter().map(figure).collect();
    each.join(", ")
}

fn figure(f: &Figure) -> String {
    match f {
        Figure::Quantity(shown) => shown.to_string(),
        Figure::Electric([volts, amperes]) => {
            let volts = volts
                .is_finite()
                .then(|| words::drill_volts(format!("{volts:.1}")));
            let amperes = amperes
                .is_finite()
                .then(|| words::drill_amperes(format!("{amperes:.1}")));
            volts
                .into_iter()
                .chain(amperes)
                .collect::<Vec<_>>()
                .join(", ")
        }
        Figure::Found(true) => words::drill_found().to_owned(),
        Figure::Found(false) => words::drill_not_found().to_owned(),
        Figure::Touch(touch) => closed::touch(*touch).0.to_owned(),
        Figure::Coat(coat) => closed::coat(*coat).to_owned(),
    }
}

/// What is handed in to whoever gave the vehicle out: a file, or a line to paste.
fn hand_in(ctx: &Context<App>) -> Html {
    let tell = |msg: fn() -> ShareMsg| {
        let link = ctx.link().clone();
        move || link.send_message(Msg::Share(msg()))
    };
    html! {
        <section class="hand-in" aria-label={words::hand_in()}>
            <p>{ words::hand_in_idea() }</p>
            <span class="pair">{ button(words::take_save(), true, tell(|| ShareMsg::SaveTake)) }{ button(words::take_link(), true, tell(|| ShareMsg::Link)) }</span>
        </section>
    }
}

/// A list of faults, by where they sit.
pub(in crate::app) fn fault_choice(
    field: &'static str,
    all: &[FaultId],
    now: usize,
    set: impl Fn(usize) + 'static,
) -> Html {
    let change = Callback::from(move |e: Event| {
        let select = e
            .target()
            .and_then(|t| t.dyn_into::<web_sys::HtmlSelectElement>().ok());
        if let Some(n) = select.and_then(|s| s.value().parse().ok()) {
            set(n);
        }
    });
    let option = |(n, id): (usize, &FaultId)| html! { <option value={n.to_string()} selected={n == now}>{ name(id.fault()) }</option> };
    let group = |group: Group| {
        let label = match group {
            Group::Loop => words::drill_in_loop(),
            Group::Parts => words::drill_in_parts(),
            Group::Controls => words::drill_in_controls(),
            Group::Passages => words::drill_in_passages(),
            Group::Gauges => words::drill_in_gauges(),
        };
        let here = |id: &FaultId| id.fault().is_some_and(|f| Group::of(f) == group);
        let here = all.iter().enumerate().filter(|(_, id)| here(id));
        html! { <optgroup {label}>{ for here.map(option) }</optgroup> }
    };
    html! {
        <span class="pick"><label for={field}>{ words::drill_fault() }</label>
        <select id={field} onchange={change}>
            { for all.iter().enumerate().filter(|(_, id)| id.fault().is_none()).map(option) }
            { for Group::ALL.into_iter().map(group) }
        </select></span>
    }
}
