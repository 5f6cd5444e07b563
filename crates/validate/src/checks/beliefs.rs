//! Why a figure misses, as far as we believe to know: by the beginning of the title; a longer beginning goes before a shorter.

use crate::check::{Check, Verdict};

const BELIEFS: &[(&str, &str)] = &[
    (
        "1. Charge is hidden",
        "The heaviest of these charges fill the accumulator to where it spills: its last tenth shows as subcooling before the level does.",
    ),
    (
        "Charge of a conversion",
        "What a condenser's cell holds hangs on where it floods, and so on its vapour's density, in which the gases differ less than in their liquid. Between 83 and 88 % \
         for volumes of condenser and liquid line within their ranges; the search reads to 0.8 %. To keep the accumulator wet 81 % are enough.",
    ),
    (
        "Charge sweep at 800",
        "With two fifths of the charge idle's small flow lets the low side fall slowly, and the wide gap of the switch makes each cycle a quarter of a minute. At \
         1 500 and 2 500 rpm it cycles faster than the rule asks.",
    ),
    (
        "crossover: rules",
        "Half a percent below the edge of a rule that is told to two digits, on the mildest day.",
    ),
    (
        "6, 7.",
        "Compressor's temperature and oil go together: theirs was starved of oil, which stays in a coil that is no longer washed. In ours each dry fifth of the evaporator \
         keeps 8 % of the oil by its film's shear and viscosity, and the accumulator 24 % below and around its bleed hole; but in the healthy loop its liquid keeps \
         57 %, which returns when the liquid is gone. With a bleed hole of 1.6 mm it keeps 38 %, and the compressor has 12 % more oil and a body 13 % hotter at 75 %; but twice as \
         much liquid then reaches the compressor, and head with air, R-12's head and the over-charged discharge have to be tuned anew.",
    ),
    (
        "Where the oil lies",
        "The accumulator's liquid is as rich in oil as what its bleed hole lets through: with 1.5 % of oil and 2.4 % of liquid in the suction it holds 57 % of the oil in \
         220 g of liquid. 40 % of it with 2 % in circulation needs 5 % of liquid in the suction (a hole of 1.6 mm for 1.1), which also puts 5.6 % in the condenser and \
         1.5 % in the line, and wets the compressor. A wet evaporator keeps 2 to 3 % as a film whatever the hole: the trade's shares are of parts taken \
         apart at rest, after the liquid has boiled off.",
    ),
    (
        "8. Evaporator",
        "Pressure loss along the coil: saturation falls by it, so that an evaporator wet to its end is colder there.",
    ),
    (
        "2. Under-charge",
        "The slope over six ounces is the mean of a steep part, while subcooling goes, and a flat one, while the liquid line takes bubbles: by the published \
         law 1 % of vapour costs the orifice nothing, and 15 % of the line's room. At idle the coil's last cells are dry by then. Eighteen condenser cells \
         instead of six gave little more (2.2 K, 8.8 kPa an ounce at idle); a smaller condenser makes it steeper and puts it at too little charge.",
    ),
    (
        "4. A choked",
        "Liquid backs up cell by cell: at 60 % open the accumulator is as good as empty, and what is left in it still goes over until 50 %. Some 200 g then fill two of \
         the condenser's six cells, which cool it by more than the practice's 17 K. The order is right: up first, falling below 50 %.",
    ),
    (
        "Too much on a hot day",
        "Above the label the accumulator has room for 8 oz: what the pauses of a cool day send into it, or a sound van draws liquid. The other 10 oz of half \
         too much, 0.25 L, fill a quarter of the condenser, whose liquid still gives half of that part's heat: by hand 12 to 24 % more of the 22 K over \
         the day, 15 to 30 psi. With 0.48 L, and a condenser of 1.15, it is 19 psi and a plateau of 11 oz, with 0.42 L 24 psi; but then a sound van's idle at 21 to 27 degC is wet, and \
         what a shallow recovery leaves falls to 8 %.",
    ),
    (
        "Open area of the orifice",
        "What lies in the accumulator at the label goes over into the condenser and stays there, 200 g with the high side 23 psi up at 40 % open. A condenser \
         of 1.15 L for 1.05 holds 45 g more while sound, so that as much less is left over: 5 psi at 40 %, and half too much then adds 8 psi for 12.",
    ),
    (
        "Charge sweep",
        "Above the plateau the accumulator still takes up what the rule gives to the condenser: its volume is a tuned figure.",
    ),
    (
        "The fault table",
        "With liquid ahead of the tube the flow changes little: liquid backs up, subcooling and high side rise and make up for \
         the area lost, and the wet coil holds the low side within a few kilopascals (rows 4, 6, 8, 17, 18). Where half the air \
         or less passes the coil and both cycle, the switch holds the low side (20, 21).",
    ),
    (
        "12. Recovery",
        "The accumulator has room for most of 28 % more, so that little more liquid is drawn and the discharge stays hot: its \
         volume is a tuned figure. The discharge is 8 K cooler from 50 oz (truth 3), this is 46.",
    ),
    (
        "1. Pressures",
        "Their cycling switch opens lower than the van's, whose low side stays above it from 35 degC on: theirs is the lowest of \
         a cycle, ours that of a loop which does not cycle.",
    ),
    (
        "3. A cycling",
        "Neither day nor humidity is told: at 60 % humidity and 30 degC ours has 244 kPag (see 2), inside the range.",
    ),
];

/// Says in a check that misses why, if there is a belief.
pub fn explain(check: &mut Check) {
    if check.verdict() != Verdict::Miss {
        return;
    }
    let found = BELIEFS
        .iter()
        .find(|(title, _)| check.title.starts_with(title));
    check.why = found.map_or("No belief yet.", |b| b.1).into();
}
