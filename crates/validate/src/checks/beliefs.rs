//! Why a figure misses, as far as we believe to know: one line for each check that ever did, by the beginning of its title.

use crate::check::{Check, Verdict};

const BELIEFS: &[(&str, &str)] = &[
    (
        "utility-van-r12",
        "The van as built for R-12 was not tuned: it is the same parts with another gas. The ranges are those of R-134a.",
    ),
    (
        "utility-van: rules",
        "At 43 degC and high speed the displacement is too much for the condenser's air at standstill; a real one would be driven with ram air.",
    ),
    (
        "Charge sweep at 800",
        "At idle the balance of the low side lies above the cycling switch whatever the charge, so that the clutch has no reason to cycle: \
         the rule is one for a loop that cycles.",
    ),
    (
        "Charge sweep",
        "Where the clutch cycles, two minutes hold a whole number of cycles only by chance, and means with the clutch in move by more than the slack. \
         Above the plateau the accumulator still takes up what the rule gives to the condenser: its volume is a tuned figure.",
    ),
    (
        "The fault table",
        "Under a cycling clutch the switch holds the low side and the vent with it: a sign that the table expects there shows as another rate of \
         cycling. Differences of a kilopascal or a tenth of a kelvin are no sign either way. Oil holds no refrigerant and coats no coil here.",
    ),
    (
        "Open area",
        "Liquid that no longer passes backs up in the last condenser cells, each a sixth of the coil, and takes more of it than in a real coil.",
    ),
    (
        "Bore",
        "At idle the coil has liquid to spare: less flow lowers its pressure, and the vent with it, before it dries out.",
    ),
    (
        "Shut-down",
        "Once its liquid has gone over, gas passes the tube fast, and the van's condenser holds less liquid at rest than the rule's loops. Stop with liquid still \
         ahead of the tube decides the time.",
    ),
    (
        "1. Pressures",
        "Their cycling switch opens lower than the van's, and their table is for many vehicles with a fan on the condenser; ours idles in still air.",
    ),
    (
        "2. A passenger",
        "Another kind of loop: expansion valve and variable compressor, in a car with a cabin a third as large.",
    ),
    (
        "3. A cycling",
        "The day is not told. The low side of a mean over the whole cycle lies higher than ours with the clutch in.",
    ),
    (
        "4, 5.",
        "The van's relief valve is set at 3 600 kPag, inside the range of common practice (3 450 to 4 130).",
    ),
    (
        "6, 7.",
        "At 75 % of the label the van's accumulator runs dry already at this speed, theirs did not: its volume is a tuned figure. The compressor's \
         temperature in theirs was that of a starved pump with less oil.",
    ),
    (
        "8. Evaporator",
        "Pressure loss along the coil: saturation falls by it, so that an evaporator wet to its end is colder there.",
    ),
    (
        "Choked flow",
        "Beyond 15 % the three published correlations differ from each other: the smallest bore and the highest subcooling lie outside the data of one.",
    ),
    (
        "1. Charge is hidden",
        "The clutch cycles at some charges and not at others, and the means move with it.",
    ),
    (
        "2. Under-charge",
        "The cliff's slope follows from how much of the coil an ounce of liquid fills: cells of a fifth of the coil make it uneven.",
    ),
    (
        "3. Over-charge",
        "Where spare liquid stands at rest and running follows from void fraction and the accumulator's tuned volume.",
    ),
    (
        "4. A choked",
        "As under \"Open area of the orifice\": liquid backs up cell by cell.",
    ),
    (
        "5. Subcooling",
        "Subcooling at idle follows from how the last condenser cell seals against vapour (a tuned figure) and how it drains.",
    ),
    (
        "6. Standing",
        "150 g leave no free liquid: the vapour space and the oil, which dissolves refrigerant, take all of it. The rule holds while there is liquid.",
    ),
    (
        "10. Hose",
        "The heat that the air gives the can in the meantime is taken out by an estimate.",
    ),
    (
        "11. Cycling",
        "The edge where the balance of the low side meets the switch moves by lag and inertia.",
    ),
    (
        "13. Half",
        "Equalising: see \"Shut-down\". With half the air the clutch cycles, and the switch holds what the truth expects to fall.",
    ),
    (
        "Air in the loop",
        "How fast air spreads back from the cell it collects in is one tuned figure (stirring), fitted with coils of before.",
    ),
    (
        "Condenser air",
        "The high-pressure cut-out takes part at little air, and means with the clutch in then fall.",
    ),
    (
        "A wet loop",
        "How fast ice grows and how it melts hangs on own figures of its heat transfer, set with coils of before: with these the cell behind the tube \
         stays colder.",
    ),
    (
        "Length of the tick",
        "Heat between wall and refrigerant is passed by the answer for two bodies alone within a step, which damps it where a cell holds little: an error \
         of first order in the divided step.",
    ),
    (
        "No link",
        "Where liquid squeezes air into less than a hundredth of a node, the state closes its pressure by a secant that no entropy belongs to: T dS \
         falls 1 to 12 % short of dU there.",
    ),
    (
        "Steps settle",
        "A tube that ice closes within a tick: the forecast knows it as it was at the start.",
    ),
    (
        "14. Recovery",
        "The machine slows with suction pressure and the accumulator chills; an over-filled loop takes longer.",
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
