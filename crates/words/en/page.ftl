# The page: names of things and short phrases.

name = Lowside
title = Lowside: a service bay for learning car A/C
tagline = A service bay for learning car A/C
evacuated = Evacuated van
healthy = Healthy van, running
footer = A simulator to practise in. It gives no licence: on a real vehicle follow the maker's data and local code; service for pay needs certification, and refrigerant is recovered, never vented.
language = Language

## Saving and taking up again

storage-denied = This browser keeps nothing for this page, so a reload starts over. Everything else works.
resuming = Taking up where you left off
coming = This part is on its way
coming-failed = This part has not come.
coming-again = Try again
resuming-leave = Keep it for later and open another bay
resuming-cancel = Back to the bay that was open
resume-broken = A bay could not be taken up again: { $why }. It is kept.
resume-once = The program failed while your bay was being taken up, so this is another one. Yours is kept.
copy = Copy its actions
take-too-large = it is larger than { $most }, the most it may be
take-part-too-large = its { $part } is larger than { $most }
take-empty = it is empty
take-cut-short = its end is missing
take-not-one = it is not a saved bay
take-part-broken = its { $part } cannot be read
take-format = it has format { $format }, and this program reads 1 to { $known }
take-many-acts = it has { $value } acts, and no more than { $most } are read
take-too-long = it lasts longer than { $hours } hours
take-out-of-order = its { $part } comes before the one above it or after its end
take-part = { $part ->
    [format] format number
    [scenario] scenario
    [log] list of acts
    [ticks] length
    [hash] mark of its end
    [physics] mark of its physics
    [hidden] hidden part
    [card] job card
    [sight] manner of work
    [handed_in] time of handing in
    [opened] time of opening
    [learner] learner’s code
    [seed] seed
    [hints] list of hints
    [lines] list of undone acts
    [mixed] note on its physics
    [seal] seal
   *[act] act { $number }
 }
take-value = its scenario: { $why }
take-act = act { $number } of its log: { $why }
take-seal = it was changed after it was saved: its seal no longer fits
take-differs = it does not end where it says: it was edited, or another version of the program made it

## Controls

controls = Controls
to-controls = To the controls
gauge-set = Gauge set
can-number = Can { $number }
vehicle = Vehicle
low-coupler = Low coupler
high-coupler = High coupler
low-valve = Low valve (blue)
high-valve = High valve (red)
purge = Purge (yellow)
tap = Tap
turn-over = Turn over
bath = Water bath
water = Water
engine = Engine
ac = A/C
blower = Blower
cabin-air = Air
engine-speed = Engine speed
windows = Windows
fan = Fan in front of the grille
outside-air = Outside air
humidity = Humidity
shut = Shut
open = Open
take-a-can = Take a can
fresh-can = Fresh can
take-off = Take it off
coupler-state =
    .off = off
    .on = on its port
purge-state =
    .off = tight
    .on = blowing out
tap-state =
    .off = shut
    .on = open
windows-state =
    .off = shut
    .on = open
turn-state =
    .off = valve up: vapour
    .on = valve down: liquid
bath-state =
    .off = out
    .on = in the water
engine-state =
    .off = off
    .on = running
ac-state =
    .off = off
    .on = on
air-state =
    .off = outside
    .on = recirculated
named-state = { $what }: { $state }
of = { $n } of { $most }
refused = Not done: { $why }
refused-halted = the bay has stopped ({ $place }): undo, go back in time or start over
refused-no-can = there is no can on the service hose
refused-can-burst = the can has burst: take it off
refused-mixture = { $gas } does not mix with { $main } here; only R-12 and R-134a do
refused-no-coupler = there is no coupler on that port
refused-no-pressure = there is not enough pressure at the port to fill the identifier's cell
refused-identifier-busy = the identifier is still working on a sample
refused-no-pump = there is no vacuum pump on the service hose
refused-pump-runs = the vacuum pump is running: stop it first
refused-character = { $field }: the character { $found } is not allowed; write letters, digits, signs and spaces
refused-range = { $field } { $value } is outside { $lo } to { $hi }

## Instruments

gauges = Gauges
low-side = Low side (blue)
high-side = High side (red)
hose-only = coupler off: reads its hose
boils-at = boils at { $t }
condenses-at = condenses at { $t }
readings = Readings
vent = Centre vent
vent-cold = cold
cabin-t = Cabin
clutch = Clutch
clutch-out = out
clutch-in = in
cycles = { $n } / min
scale = Scale
given = Charged by weight
label = label { $charge }
no-can = no can

## Ledger and log

ledger = Where every gram is
ledger-empty = No refrigerant in the bay yet.
ledger-more = Liquid, vapour, oil, air, water
ledger-caption = Mass by place
ledger-table = Ledger table
in-loop = { $charge } in the loop
column-place = Place
column-liquid = Liquid
column-vapour = Vapour
column-oil = Oil
column-air = Air
column-water = Water
place-discharge-line = Discharge line
place-condenser = Condenser
place-liquid-line = Liquid line
place-evaporator = Evaporator
place-accumulator = Accumulator
place-suction-line = Suction, compressor
place-hoses = Hoses
place-can = Can
place-shelf = Used cans
place-room = Room (lost)
place-cylinder = Charging cylinder
place-recovery-cylinder = Recovery cylinder
place-separator = Oil separator
place-bench = Parts on the bench
place-waste = Waste
place-lost = Lost at open ends
log = What happened
log-empty = Nothing to report.
event-clutch-in = Clutch pulled in
event-low-switch = Cycling switch released the clutch
event-cut-out = High-pressure cut-out opened and released the clutch
event-relief-lifted = Relief valve opened: refrigerant blows into the room
bay-halted = The bay has stopped: what comes next cannot be computed reliably ({ $place }). Undo, go back in time or start over; a saved file lets us find out why.
event-compressor-seized = The compressor seized: it got too hot
event-let-out = Refrigerant was let into the room: an open hose or can
event-hose-burst = The discharge hose burst: it was too hot for its pressure
event-relief-seated = Relief valve closed again
event-can-burst = The can has burst
event-can-empty = The can is empty: no liquid is left in it
event-liquid = Liquid reaches the compressor
event-liquid-gone = The suction is dry again
event-compressor-hurt = The compressor is worn by another tenth
event-air-drawn-in = Air was drawn in: { $place }
event-air-by-hose = Air was drawn in: open end of the service hose
event-clutch-burnt = The clutch has burnt out: it slipped too hot
event-pump-oil-blown = Pressure has blown oil out of the vacuum pump

## Time

time = Time
speed = Speed
units = Units
start-over = Start over
more = More
start-with = Start with
start = Begin
one-second = One second
run = { "\u25B6" } Run
pause = { "\u2016" } Pause
space-key = Space
bay-time = Bay time { $spoken }
reaches = reaches { $speed }{ "\u00D7" }
times = { $speed }{ "\u00D7" }

## Going back, going on, waiting

timeline = Time line
undo = Undo
redo = Redo
undone = Taken back: { $act }
redone = Done again: { $act }
scrub = Moment
looking-back = { $now } of { $end }
to-now = To the latest
line = Branch
line-choice = { $id }: from { $from } to { $end }, { $acts ->
    [one] { $acts } act
   *[other] { $acts } acts
 }
until = Run until …
waiting-for = Until { $goal }
stop-waiting = Stop
wait-met = Reached: { $goal }
wait-given-up = Not reached within an hour: { $goal }
goal-cycles = { $n ->
    [one] the clutch pulls in
   *[other] the clutch has pulled in { $n } times
 }
goal-empty = the can is empty
goal-steady = the vent is steady
goal-minutes = { $n ->
    [one] { $n } minute has passed
   *[other] { $n } minutes have passed
 }
goal-below = { $what } is below { $value }
goal-above = { $what } is above { $value }
goal-other = it happens
quantity-low = the low side
quantity-high = the high side
quantity-vent = the vent

## Drawing

levels = Levels
levels-idea = pressure is height, everything flows downhill
outside = outside air
cabin = cabin air
atmosphere = atmosphere
condenser = condenser
evaporator = evaporator
accumulator = accumulator
compressor = compressor
orifice = orifice
limit = 80 %
lifts = lifts { $x }
drive-loose = belt, plug or battery off
falls = { $x } fall
bursts = bursts
switch-out = clutch out
switch-in = clutch in
key-temperature = cold to hot
key-liquid = liquid
key-vapour = vapour
key-heat = heat
can-label = can { $number }, { $t }
levels-spoken = Levels by pressure. High shelf: gauge { $high }, { $high-place ->
        [above] above the line of the outside air, shedding heat
       *[below] not above the line of the outside air
    }. Low shelf: gauge { $low }, { $low-place ->
        [below] below the line of the cabin air
       *[above] not below the line of the cabin air
    }. { $clutch ->
        [in] The compressor lifts gas from the low shelf to the high one
       *[out] The compressor rests
    }. { $can }.
hangs-pump = vacuum pump
    .spoken = The vacuum pump is on the service hose
hangs-cylinder = charging cylinder
    .spoken = The charging cylinder is on the service hose
hangs-nitrogen = nitrogen
    .spoken = The bottle of dry nitrogen is on the service hose
hangs-machine = recovery machine
    .spoken = The recovery machine is on the service hose
levels-no-can = No can is on the service hose
levels-can = Can { $number } at { $t } stands { $place ->
        [above] above
       *[below] at or below
    } the low shelf { $flow ->
        [gives] and gives
        [takes] and is being filled
       *[rests] and gives nothing
    }

## Strip chart

chart = Strip chart
chart-length = Length of the chart
chart-high = high
chart-low = low
chart-vent = vent, clutch bar
chart-cabin = cabin
chart-vacuum = vacuum
chart-spoken = Pressures, vent temperature and clutch over time; the table below gives the numbers
numbers = Numbers
numbers-caption = Readings over time, the latest last
numbers-table = Strip chart as a table
column-time = Time
column-low = Low
column-high = High
column-vent = Vent
column-cabin = Cabin
column-vacuum = Vacuum
column-clutch = Clutch
now = now
minutes = { $n } min
minutes-ago = { "\u2212" }{ $n } min
mark-can = can { $n }
mark-empty = empty
mark-engine-on = engine
mark-engine-off = engine off
mark-burst = burst
mark-cut-out = cut-out
mark-hose-burst = hose burst
mark-pump-on = pump valve open
mark-pump-off = pump valve shut
mark-gauge-loop = gauge to loop
mark-gauge-pump = gauge to pump
mark-relief = relief
