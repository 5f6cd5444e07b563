//! The bay's own record of the job, to print and to save. The readings that were noted can always be looked up; what the statement is held
//! against shows once that is signed.
use lowside_present::{
    Shown,
    record::{Line as LabelLine, NewLabel, Noted, RecordView},
    record_file,
    statement::{Mismatch, Outcome, Said, Signed},
    tools::Refrigerant,
};
use yew::{Html, html};

use crate::{
    host,
    kit::{button, line},
    print::print_job,
    words,
};

/// A line: which of the statement it is, its name, what was recorded, what was stated.
type Line = (Option<Mismatch>, String, String, String);

/// The record; not a component, it has no state of its own.
pub(crate) fn record(r: &RecordView, signed: Option<&Signed>) -> Html {
    let all = lines(r, signed.map(|s| &s.said));
    let saves = |csv: bool| {
        let (record, signed) = (r.clone(), signed.cloned());
        move || save(&record, signed.as_ref(), csv)
    };
    let wrong = |which: Option<Mismatch>| {
        which.is_some_and(|m| signed.is_some_and(|s| s.verdict.wrong.contains(&m)))
    };
    html! {
        <details class="record" open={signed.is_some()}>
            <summary>{ words::record() }</summary>
            <div class="acts">
                { button(words::record_print(), true, print_job) }
                { button(words::record_save("CSV"), signed.is_some(), saves(true)) }
                { button(words::record_save("JSON"), signed.is_some(), saves(false)) }
            </div>
            <div class="scroll" tabindex="0" role="region" aria-label={words::record()}>
            <table>
                <thead><tr><td></td><th scope="col">{ words::record_before() }</th><th scope="col">{ words::record_after() }</th></tr></thead>
                <tbody>
                    { for rows().into_iter().map(|(name, read)| html! {
                        <tr><th scope="row">{ name }</th>{ for noted(r, read).map(|n| html! { <td>{ n }</td> }) }</tr>
                    }) }
                </tbody>
            </table>
            </div>
            { r.performance.found.as_ref().map_or_else(Html::default, crate::performance_test::limits) }
            if signed.is_some() {
                <div class="lines">
                    { for all.iter().map(|(which, name, value, stated)| if wrong(*which) {
                        line(name, &words::record_wrong(value, if stated.is_empty() { words::state_unsaid() } else { stated }))
                    } else {
                        line(name, value)
                    }) }
                </div>
            } else {
                <p class="told">{ words::record_unsigned() }</p>
            }
        </details>
    }
}

fn yes(on: bool) -> String {
    if on { words::yes() } else { words::no() }.to_owned()
}

fn or_none(text: String) -> String {
    if text.is_empty() {
        words::record_none().to_owned()
    } else {
        text
    }
}

pub(crate) fn outcome(o: Outcome) -> &'static str {
    match o {
        Outcome::NotDone => words::hold_not_done(),
        Outcome::Held => words::hold_held(),
        Outcome::Rose => words::hold_rose(),
    }
}

/// What stands on the new label.
fn label(l: &NewLabel) -> String {
    let p = &l.particulars;
    let oil = [
        l.oil.map(|o| words::oil_name(o).to_owned()),
        l.oil_volume.as_ref().map(Shown::to_string),
        Some(p.oil_maker.to_string()),
    ];
    let oil: Vec<String> = oil
        .into_iter()
        .flatten()
        .filter(|t| !t.is_empty())
        .collect();
    let date = p.date.map_or_else(String::new, |d| d.to_string());
    let covered = if p.old_covered {
        words::label_line(LabelLine::OldCovered)
    } else {
        ""
    };
    let lines = [
        format!("{}, {}", l.gas, l.charge),
        oil.join(", "),
        p.technician.to_string(),
        p.shop.to_string(),
        date,
        covered.to_owned(),
    ];
    let lines: Vec<String> = lines.into_iter().filter(|t| !t.is_empty()).collect();
    lines.join("; ")
}

/// Every line of the record, with what was stated of it.
#[expect(clippy::too_many_lines, reason = "a line of the record each")]
pub(crate) fn lines(r: &RecordView, stated_in: Option<&Said>) -> Vec<Line> {
    let s = Shown::to_string;
    let join = |all: Vec<String>| or_none(all.join("; "));
    let searched = r.searched.iter().map(|(spot, found)| {
        let spot = words::spot_name(*spot);
        if *found {
            words::search_found(spot)
        } else {
            words::search_clear(spot)
        }
    });
    let parts = |all: &[_]| join(all.iter().map(|p| words::part(*p).to_owned()).collect());
    let held = r
        .hold
        .as_ref()
        .map_or_else(String::new, |hold| match &hold.pressures {
            Some([from, to]) => words::record_hold(s(from), s(to), &hold.time.number),
            None => hold.time.number.clone(),
        });
    let new_label = r.new_label.as_ref().map_or_else(String::new, label);
    let plain = |name: &str, value: String| (None, name.to_owned(), value, String::new());
    let of = |which, name: &str, value, said: &dyn Fn(&Said) -> String| {
        let stated = stated_in.map_or_else(String::new, said);
        (Some(which), name.to_owned(), value, stated)
    };
    let drained = r
        .drained
        .iter()
        .map(|(p, out)| format!("{} {out}", host::lower(words::part(*p))));
    let oil_out = std::iter::once(s(&r.oil[0]))
        .chain(drained)
        .collect::<Vec<_>>()
        .join("; ");
    let mut all = vec![
        of(Mismatch::Gas, words::record_gas(), r.gas.to_owned(), &|s| {
            s.gas.map_or("", Refrigerant::name).to_owned()
        }),
        plain(
            words::record_label(),
            format!("{}, {}", r.built_for, r.label),
        ),
        plain(words::port_low(), r.fittings[0].to_owned()),
        plain(words::port_high(), r.fittings[1].to_owned()),
        plain(words::low_switch(), s(&r.switches.cycling[0])),
        plain(
            words::cut_out(),
            or_none(r.switches.cut_out.as_ref().map_or_else(String::new, s)),
        ),
        plain(words::new_label(), or_none(new_label)),
        of(
            Mismatch::Recovered,
            words::recovered(),
            s(&r.recovered),
            &|s| s.numbers[0].clone(),
        ),
        of(
            Mismatch::Charged,
            words::record_charged(),
            s(&r.charged),
            &|s| s.numbers[1].clone(),
        ),
        of(
            Mismatch::Vented,
            words::record_vented(),
            r.vented.as_ref().map_or_else(String::new, |[kg, co2]| {
                format!("{kg}, {}", words::record_co2(co2))
            }),
            &|s| {
                s.nothing_vented.map_or_else(String::new, |a| {
                    words::named(words::state_none_vented(), &yes(a))
                })
            },
        ),
        of(Mismatch::OilOut, words::record_oil_out(), oil_out, &|s| {
            s.numbers[2].clone()
        }),
        of(
            Mismatch::OilIn,
            words::record_oil_in(),
            s(&r.oil[1]),
            &|s| s.numbers[3].clone(),
        ),
        of(
            Mismatch::Parts,
            words::record_parts(),
            parts(&r.parts),
            &|s| {
                if s.no_parts || !s.parts.is_empty() {
                    parts(&s.parts)
                } else {
                    String::new()
                }
            },
        ),
        of(
            Mismatch::Leaks,
            words::record_searched(),
            join(searched.collect()),
            &|s| {
                if s.no_leaks || !s.leaks.is_empty() {
                    join(s.leaks.iter().map(|l| words::spot_name(*l)).collect())
                } else {
                    String::new()
                }
            },
        ),
        of(Mismatch::Hold, words::hold(), or_none(held), &|s| {
            s.hold.map_or("", outcome).to_owned()
        }),
        of(Mismatch::Caps, words::record_caps(), yes(r.caps_on), &|s| {
            s.caps_on.map_or_else(String::new, yes)
        }),
        plain(words::record_injuries(), r.injuries.to_string()),
        plain(words::record_time(), r.time.number.clone()),
    ];
    if let Some(ventings) = r.ventings {
        let at = all.len() - 1;
        all.insert(at, plain(words::record_ventings(), ventings.to_string()));
    }
    if let Some(faults) = &r.faults {
        all.push(plain(
            words::record_faults(),
            or_none(
                faults
                    .iter()
                    .map(|id| fault(id))
                    .collect::<Vec<_>>()
                    .join(" "),
            ),
        ));
    }
    if !r.altered.is_empty() {
        all.push(plain(words::record_altered(), r.altered.join("; ")));
    }
    if let Some(lacks) = r.lacks.as_ref().filter(|_| r.converted) {
        let lacks = join(lacks.iter().map(|b| words::lacks(*b)).collect());
        all.push(of(
            Mismatch::Conversion,
            words::record_lacks(),
            lacks,
            &|s| {
                s.in_order.map_or_else(String::new, |a| {
                    words::named(words::state_in_order(), &yes(a))
                })
            },
        ));
    }
    all
}

/// A fault: what it is called, what it does, what cures it.
fn fault(id: &str) -> String {
    let said = |more: &str| words::fault(&format!("{id}{more}")).unwrap_or_default();
    words::record_fault(said(""), said(".sign"), said(".cure"))
}

/// The record as a file: every line with what was recorded and what was stated.
fn save(r: &RecordView, signed: Option<&Signed>, csv: bool) {
    let mut all = lines(r, signed.map(|s| &s.said));
    let mut more = |name: String, value: String| all.push((None, name, value, String::new()));
    for (name, read) in rows() {
        let [before, after] = noted(r, read);
        more(words::named(name, words::record_before()), before);
        more(words::named(name, words::record_after()), after);
    }
    let names = [words::low_side(), words::high_side(), words::vent()];
    for (name, ([found, least, most], _)) in names.iter().zip(r.performance.found.iter().flatten())
    {
        let limits = format!("{found} ({least} \u{2013} {most})");
        more(words::named(words::performance(), name), limits);
    }
    let all: Vec<_> = all
        .into_iter()
        .map(|(_, n, v, stated)| [n, v, stated])
        .collect();
    if csv {
        host::save_text("lowside-record.csv", "text/csv", &record_file::csv(&all));
    } else {
        host::save_text(
            "lowside-record.json",
            "application/json",
            &record_file::json(&all),
        );
    }
}

/// What is noted, and how it is read from a note.
pub(crate) type Row = (&'static str, fn(&Noted) -> &Shown);

pub(crate) fn rows() -> [Row; 6] {
    [
        (words::low_side(), |n| &n.low),
        (words::high_side(), |n| &n.high),
        (words::vent(), |n| &n.vent),
        (words::outside_air(), |n| &n.outside),
        (words::humidity(), |n| &n.humidity),
        (words::engine_speed(), |n| &n.rpm),
    ]
}

/// A row's two notes.
pub(crate) fn noted(r: &RecordView, read: fn(&Noted) -> &Shown) -> [String; 2] {
    [0, 1].map(|i| {
        r.noted[i].as_ref().map_or_else(
            || words::record_not_noted().to_owned(),
            |n| read(n).to_string(),
        )
    })
}
