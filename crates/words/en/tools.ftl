# Tools, the bench, the job.

## Service hose
hose = Service hose
hose-tool = Tool
hose-connect = Connect
hose-free = Take it off
tool-can = Can
tool-self-sealing = Self-sealing can
tool-other-can = Can of { $gas }, with an adapter
tool-machine = Recovery machine
tool-pump = Vacuum pump, { $size }
tool-cylinder = Charging cylinder
tool-nitrogen = Dry nitrogen
pump-run = Pump
pump-valve = Isolation valve
pump-ballast = Gas ballast
pump-change-oil = Change the oil
pump-oil = Oil in the glass
pump-oil-clear = clear
pump-oil-milky = milky: water
pump-oil-low = below the mark
gauge-place = Vacuum gauge at
gauge-place-states =
    .off = the pump
    .on = the loop
machine-run = Machine
machine-stop = Stops at
machine-new-cylinder = Empty cylinder
recovered = Recovered
cylinder-full = Cylinder full to
separator-oil = Oil separated
cylinder-valve = Valve
cylinder-way = Gives
cylinder-way-states =
    .off = vapour
    .on = liquid
dose = Dose
dose-give = Give the dose
dose-left = Still to come
cylinder-holds = It holds
regulator = Regulator
vacuum-gauge = Vacuum gauge
vacuum-over = above its range
gauge-at = at { $place }
scale-zero = Zero

wear = Wear
goggles = Goggles
gloves = Gloves
worn-states =
    .off = off
    .on = on

## Instruments
instruments = Instruments
identifier = Identifier
identify-none = no sample yet
identify-working = working: { $left } left
identify-pure = one gas, { $gas } { $share }; air { $air }
identify-mixed = mixed: { $shares }; air { $air }
search = Leak search
detector = Detector
soap = Soap
lamp = Lamp
dye = Put dye in
search-none = not searched yet
search-found = { $place }: leak found
search-clear = { $place }: nothing found
clamp = Clamp thermometer
clamp-off = taken off
sight-glass = Sight glass
glass-clear = clear
glass-wet = droplets
glass-bubbles = liquid with bubbles
glass-liquid = full of liquid
anemometer = Air at the vent
hygrometer = Hygrometer
clutch-meter = Meter at the clutch
clutch-hub = Clutch hub
pulley = Pulley
heater-hose = Heater hose pinched off
cover-condenser = Cardboard over half the condenser
mist-condenser = Spray water on the condenser
warm-orifice = Lay a hot wet cloth round the orifice tube
try-out = See how it answers
put-right = Put right outside the loop
mend-blend-door = Set the blend door right
mend-radiator = Clean the radiator
mend-cycling-switch = Renew the cycling switch
mend-cut-out = Renew the high-pressure cut-out
mend-clutch-circuit = Mend the clutch's circuit
mend-fan = Mend the fan
mend-hood-seals = Fit the seals round the condenser
mend-recirculation-door = Free the recirculation door
mend-compound-gauge = Set the compound gauge to zero
mend-high-gauge = Set the high-pressure gauge to zero
mend-low-coupler = Renew the low-side coupler
mend-high-coupler = Renew the high-side coupler
stopwatch = Stopwatch
stopwatch-start = Start
stopwatch-stop = Stop
note-before = Note readings before
note-after = Note readings after
noted = noted
label-write = Label: { $what }
label-technician = Technician
label-shop = Shop and its address
label-date = Date
label-oil-maker = Oil’s maker
label-oil-volume = Oil put in
label-old-covered = Old label covered
inject-oil = Inject oil, { $volume }
point-discharge = discharge line
point-condenser-in = condenser inlet
point-condenser-middle = condenser middle
point-condenser-out = condenser outlet
point-liquid-line = liquid line
point-evaporator-in = evaporator inlet
point-evaporator-out = evaporator outlet
point-accumulator = accumulator
point-suction = suction line
point-radiator-hose = radiator hose

## Bench
pick-up = Pick up
press-a-joint = Press a joint, a port, a switch or a part to work on it.
put-it-on = Press the place to put it on.
searched = Searched:
stand-unsearched = not searched
cloth-empty = What you take out lies here.
meter = Meter
piece-compressor = Compressor
piece-discharge-hose = Discharge hose
piece-condenser = Condenser
piece-liquid-line = Liquid line
piece-orifice = Orifice tube
piece-evaporator = Evaporator
piece-accumulator = Accumulator
piece-suction-hose = Suction hose
piece-relief-valve = Relief valve
joint = Joint { $from } / { $to }
shaft-seal = Compressor shaft seal
port-low = Low port
port-high = High port
stand-unopened = not looked at
stand-leaks = leak found
stand-no-leak = no leak found
stand-made = made: { $seal }
stand-open = open
stand-capped = capped
stand-fitted = fitted
stand-bench = on the bench
stand-coupled = coupler on it
stand-cap = capped
stand-core = core in, no cap
stand-no-core = no core
seal-new-oiled = new O-ring, oiled
seal-new-dry = new O-ring, dry
seal-old-oiled = old O-ring, oiled
seal-old-dry = old O-ring, dry
seal-missing = no O-ring
do-open = Open
do-cap = Cap both ends
do-close = Put together
do-remove = Take out
do-refit = Put back
do-new = Get a new one
do-drain = Drain the oil
do-flush = Flush with solvent, blow dry with nitrogen
do-blow = Blow through with nitrogen
do-pour = Pour oil in
do-fit-orifice = Push it in
with-seal = With
amount = Amount
oil-kind = Oil
bore = Bore
turned = Inlet screen
turned-states =
    .off = to the condenser
    .on = to the evaporator
rings = O-rings
rings-states =
    .off = left out
    .on = on
port-cap = Cap
low-tap = Low port in use
low-tap-states =
    .off = at the accumulator
    .on = at the compressor
port-core = Core
port-core-states =
    .off = out
    .on = in
coupler-first = The coupler is on this port: take it off first.
held-by = Still connected at { $joints }: open it first.
what-is-seen = What is seen
shut-unseen = Closed: open one of its joints to look inside.
sight-blocked = { $much ->
    [none] screen clean
    [some] some dirt on the screen, { $share } blocked
   *[lots] screen clogged, { $share } blocked
 }
sight-face = { $much ->
    [none] face clean
    [some] face dirty, { $share } of the air goes through
   *[lots] face full of dirt, { $share } of the air goes through
 }
sight-beads = { $much ->
    [none] no beads
    [some] a few beads of desiccant
   *[lots] full of beads: the desiccant's bag has burst
 }
sight-metal = { $much ->
    [none] no metal in the oil
    [some] fine glitter in the oil
   *[lots] oil full of metal
 }
sight-dark = { $much ->
    [none] oil clear
    [some] oil brown
   *[lots] oil black, burnt
 }
sight-water = { $much ->
    [none] no water visible
    [some] drops of water
   *[lots] oil milky with water
 }
sight-oil = { $much ->
    [none] dry
    [some] wet with oil
   *[lots] oil pooled in it
 }
drained = Drained from it
poured = Poured into it
renewed = New ones
worksheet-note = Measure what comes out. Put the same amount back in, of the same kind.

## Job
job = Job
job-idea = the complaint, the steps and the record
job-card = Job card
job-open = Open the job
job-again = Start this job over
job-leave = Leave the job
job-none = Choose a job card and open it: its bay takes the place of this one.
job-steps = Steps
step-open = open
step-holding = holding
step-done = done
step-lost = lost
step-accept = Done when
hint-first = First hint
hint-second = Second hint
harms = Harm done
harm-none = None so far.
harm-at = { $time }: { $what }
sign-off = Sign off
signed-apart = Not comparable: some of it was done under another physics.
signed-passed = Passed. Every step is done and no harm was done.
signed-missing = Not yet. Missing: { $steps }
signed-failed = Not passed: { $harms }
record = Job record
record-print = Print
paper = Job sheet
paper-complaint = Complaint
vehicle-compact = Compact car, 1990s pattern
vehicle-crossover = Crossover, 2020s pattern
vehicle-van = Utility van, 1980s pattern, converted
vehicle-van-as-built = Utility van, 1980s pattern, as built
record-before = Before
record-after = After
record-not-noted = not noted
record-gas = Refrigerant
record-label = Label charge
record-charged = Charged
record-vented = Lost to the room
record-co2 = as { $mass } of carbon dioxide
record-oil-out = Oil out
record-oil-in = Oil in
record-parts = New parts
record-none = none
record-searched = Searched for leaks
record-caps = Caps on the ports
record-injuries = Injuries
record-ventings = Times vented
record-time = Time taken
record-save = Save as { $kind }
record-hold = from { $from } to { $to } in { $time }
hold = Hold under vacuum
hold-not-done = not done
hold-held = held
hold-rose = rose
state = Your statement
state-idea = State what you did. Signing then opens the bay’s own record and shows where the two differ. What you leave blank is not compared.
state-unsaid = not stated
state-leaks = Leak found at
state-none-vented = Nothing was vented
state-caps = Both caps are on
state-in-order = The conversion is in order: gas, fittings, label, cut-out
state-sign = Sign the record
state-matches = Signed. All that is stated matches the bay’s own record.
state-differs = Signed, but the bay’s own record says otherwise: { $lines }
performance = Performance test
perf-idea = Leave all settings alone for eight minutes. The averages of minutes 7 and 8 are then compared with a healthy vehicle of this kind on this day. You can skip the waiting; the minutes still count. Gauges count while the clutch is in. On a mild day a sound vehicle cycles: a fault that keeps the clutch in can blow colder than it does.
perf-engine = Engine at 1500 to 2000 rpm
perf-ac = A/C on
perf-blower = Blower at its highest
perf-recirculation = Recirculation
perf-windows = Windows and doors shut
perf-gauges = Both couplers on, hand valves shut
perf-begin = Begin the test
perf-running = Under way: { $share }
perf-disturbed = Stopped: a setting or the day was changed. Start again.
perf-passed = Passed: all within the limits of this day.
perf-failed = Not passed.
perf-found = Read
perf-least = From
perf-most = To
perf-good = within
perf-bad = outside
record-unsigned = The bay’s own record appears here once the statement is signed.
record-wrong = { $value } (stated: { $stated })
next-spoilt = Every step is done, but this job cannot be passed any more
    .why = The Job view lists what it cost. Go back to before it happened, or open the card again.
next-sign-off = Every step is done: sign off
    .why = Open the whole sheet: the button is below its steps.
yes = yes
no = no

## Cautions, events, refusals of these tools
caution-recovery-cylinder = Recovery cylinder
    .text = One gas per cylinder, and no more than 80 % liquid: a full one bursts when it warms. Watch the scale.
caution-opens-under-pressure = The loop is under pressure
    .text = Opening it now sprays freezing, blinding liquid and vents. Recover first, until the gauges stay down.
caution-nitrogen = Nitrogen at high pressure
    .text = Only with regulator and relief valve; never oxygen, never shop air. Open slowly and stay below the low side's limit.
caution-cap-at-once = Cap open ends at once
    .text = An open end takes moisture from the air from the first minute.
caution-solvent = Solvent
    .text = Its vapour is flammable and harmful: closed circuit, good air, no flame, gloves and goggles, and what its data sheet says. What comes out is hazardous waste. Blow dry with nitrogen behind a regulator, never with shop air. The oil goes with it: measure new oil in.
caution-oil = Oil
    .text = Used oil is waste: hand it in. New oil takes up water: keep the bottle shut. Gloves on.
event-engine-too-hot = The engine is too hot: its control released the clutch
event-gauge-red = The engine's temperature gauge is in the red
event-coolant-boils = The coolant boils over: steam under the hood. Let it cool down before anybody opens the cap
event-engine-stalled = The engine has stopped: its coolant has boiled away
event-clutch-smells = The clutch is slipping and smells burnt
event-injury = Refrigerant hit whoever opened it
event-dosed = The cylinder's valve shut itself: the dose is out
event-machine-at-vacuum = The recovery machine stopped at its vacuum
event-cylinder-full = The recovery machine stopped: its cylinder is full
refused-nothing-attached = nothing is connected to the service hose
refused-no-cylinder = there is no charging cylinder on the service hose
refused-no-machine = the recovery machine is not on the service hose
refused-no-nitrogen = the nitrogen is not on the service hose
refused-wrong-fitting = a fitting for { $fitting } does not mate with hoses for { $hose }
refused-cylinder-full = the recovery cylinder is at its limit: change it
refused-joint-made = the joint is closed
refused-joint-apart = the joint is open already
refused-part-out = a part is out: put it back first
refused-part-in = the part is in the vehicle: take it out first
refused-no-room = that much oil does not fit
refused-not-flushed = this part is not flushed: solvent stays in it; drain it or put a new one in
refused-not-coupled = the low coupler is off its port
refused-coupled = the coupler is on the port: take it off first
refused-one-port = this vehicle has one low port only
refused-cap-on = the cap is on the port: take it off first
refused-cylinder-empty = { $asked } g is more than the { $held } g in the cylinder

## Acts
oil-ester = ester
oil-mineral = mineral
machine-states =
    .off = off
    .on = running
port-cap-states =
    .off = off
    .on = on
next-work-tool = Use the tool on the yellow hose
    .why = Its switches and valves are in the group Service hose. Gauges, vacuum gauge and scale tell when it is done.

## Conversion
gauge-set-for = Gauge set for
conversion-charge = Conversion: { $least } to { $most } of { $new }, { $low } to { $high } % of the { $label } of { $old } on the maker's label.
old-core = Old core
old-core-states =
    .off = left in
    .on = changed
do-convert = Screw on a fitting for { $gas }
seals-all = New O-rings at every joint
low-switch = Cycling switch opens at
screw-lower = Screw a quarter turn lower
screw-higher = Screw a quarter turn higher
cut-out = High-pressure cut-out
do-cut-out = Fit a cut-out, { $pressure }
new-label = New label
record-lacks = Conversion still needs
record-faults = Faults it came with
record-fault = { $name }. { $sign }. { $cure }.
record-altered = Altered in its data sheet
lacks-old-gas = old gas taken out
lacks-fittings = fittings of its own gas
refused-wrong-port = a coupler for { $hose } does not go onto a port for { $port }
refused-set-in-hand = the gauge set for { $gas } is in hand already
refused-hose-taken = something is connected to the service hose: take it off first
refused-fitting-locked = the fitting for { $gas } stays on: no other goes over it
refused-cut-out-fitted = there is a cut-out already
refused-screw-at-end = the screw goes no further

## What a step asks at once, and what a job cost
asked-below = { $what } below { $value }
asked-above = { $what } above { $value }
reading-low-switch = Opening point of the cycling switch
reading-can-liquid = Liquid in the can
reading-charge = Charge in the loop
reading-air = Air in the loop
reading-water = Free water in the loop
reading-desiccant-water = Water in the desiccant
reading-oil = Oil in the loop
reading-seals-leak = Leak of the joints a year
reading-leaks = Leak of the loop a year
reading-loose-beads = Loose beads in the loop
reading-repairs-cleared = Repairs searched and cleared
reading-cold-at-orifice = Cold step found at the orifice tube
reading-let-out = Refrigerant let out by hand
reading-suction-liquid = Liquid drawn by the compressor
reading-r12 = R-12 in the refrigerant
reading-purity = Purity by the identifier
reading-wear = Wear of the compressor
reading-mineral-oil = Mineral oil in the oil
reading-hurt = You were hurt
reading-loop-open = A joint is open
reading-leak-found = Leak found
reading-new-fittings = Fittings for R-134a on both ports
reading-new-seals = New oiled O-rings in all joints
reading-new-accumulator = New accumulator
reading-in-order = Conversion in order
reading-noted-before = Readings noted before the work
reading-noted-after = Readings noted after the work
reading-can = Can on the hose
reading-can-burst = Can burst
severity-slight = slight
severity-serious = serious
severity-grave = grave
cost-hurt = { $n ->
    [one] you were hurt once
   *[other] you were hurt { $n } times
 }
cost-burst = { $n ->
    [one] a can burst
   *[other] { $n } cans burst
 }
cost-hose-burst = the discharge hose burst at { $time }
cost-seized = the compressor seized at { $time }
cost-seized-clutch = the compressor seized at { $time } and burnt its clutch
cost-liquid = { $n ->
    [one] the compressor drew liquid once
   *[other] the compressor drew liquid { $n } times
 }, { $time } in all: { $life } of its life
cost-wear = heat, pressure, grit or want of oil took { $life } of the compressor’s life
cost-air = { $mass } of air let into the loop
cost-water = { $mass } of free water let into the loop
cost-vented = { $mass } of refrigerant let into the room
signed-passed-with = Passed: every step is done. Harm done: { $harms }
state-left-out = Not stated: { $lines }
state-impossible = { $line }: write a number from 0 to { $most }
