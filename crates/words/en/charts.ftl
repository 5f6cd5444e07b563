# Drawings and charts.

## Views

views = Views
save-as = Save as
view-parts = Parts
parts-idea = where the hands go: press a joint to open it, a part to look into it
part-close = Close it
work-away = Put away
closed-loop = Closed: read it from outside, by gauge, thermometer, touch and eye.
close-loop = Close the loop
open-loop = Open the loop
notes = What it shows
bay-cabin = cabin
bay-engine = engine bay
bay-grille = grille
bay-block = engine
bay-air = air in
bay-belt = belt
large-gauges = Large gauges
sound = Sound
strip-earlier = Earlier
strip-later = Later
strip-closer = Closer
strip-wider = Wider
points = Points as a table
strip-keys = Arrow keys move the cursor, Shift with them the window, plus and minus zoom, End goes back to now
strip-cursor-vacuum = { $read }, vacuum { $vacuum }
strip-cursor = { $time }: low { $low }, high { $high }, vent { $vent }, cabin { $cabin }
part-spoken = { $part }, { $t }, { $coat }
part-is = { $part }, { $state }
unit-of = { $what }, { $unit }
wear-line = { $cause }: { $share }

## Charts of properties

plot-pressure-enthalpy = Cycle
plot-pressure-enthalpy-idea = pressure over enthalpy: the loop's states on the map of its gas
plot-moist-air = Air
plot-moist-air-idea = psychrometric: what mixes, what the coil takes out, what the ducts warm
plot-pressure-temperature = Boiling point
plot-pressure-temperature-idea = at rest both sides stand on the line, at the outside air
plot-water-boils = Vacuum
plot-water-boils-idea = how deep it must be before water boils away

## Parts

part-compressor = Compressor
part-compressor-does = Lifts vapour from the low side to the high side. It cannot squeeze liquid.
part-discharge = Discharge line
part-discharge-does = Hot gas to the condenser. High port and relief valve sit here, and the cut-out switch where there is one.
part-condenser = Condenser
part-condenser-does = Gives its heat to the outside air, until all gas is liquid.
part-liquid = Liquid line
part-liquid-does = Warm liquid on its way to the orifice tube.
part-orifice = Orifice tube
part-orifice-does = A screen and a narrow brass tube: the fall from the high side to the low side.
part-evaporator = Evaporator
part-evaporator-does = Boils the liquid with the heat of the cabin air, and dries that air.
part-accumulator = Accumulator
part-accumulator-does = Keeps liquid back, returns oil, dries with its bag. Low port and cycling switch sit here.
part-suction = Suction line
part-suction-does = Cold vapour and oil back to the compressor.
part-low-hose = Low hose
part-low-hose-does = Blue: from the low port to the gauge set.
part-high-hose = High hose
part-high-hose-does = Red: from the high port to the gauge set.
part-service-hose = Service hose
part-service-hose-does = Yellow: from the gauge set to the can.
part-can = Can
part-can-does = Liquid below, vapour above. Valve up gives vapour, valve down liquid.

## Figures of an opened part

figure-temperature = Temperature
figure-pressure = Pressure
figure-boils-at = Boils at
figure-superheat = Superheat
figure-subcooling = Subcooling
figure-refrigerant = Refrigerant in it
figure-liquid = Liquid in it
figure-level = Liquid level
figure-spills-at = Spills above
figure-liquid-leaving = Liquid in what leaves
figure-flow = Flow
figure-oil = Oil in it
figure-air = Air in it
figure-air-share = Air's share of the pressure
figure-water = Free water
figure-desiccant = Water in the bag
figure-desiccant-load = Bag full to
figure-ice = Ice in the bore
figure-open = Bore open
figure-debris = Debris on the screen
figure-heat = Heat
figure-shaft = Shaft power
figure-turns = Turns
figure-wear = Wear
figure-on-fins = Water on the fins
figure-dripped = Dripped off
figure-dry-cells = Sections boiled dry
figure-full-cells = Sections full of liquid
cause-age = as it came
cause-slugging = liquid slugging
cause-washing = oil washed off
cause-dryness = run without oil
cause-heat = run too hot
cause-pressure = too much pressure
cause-grit = dust of desiccant
coat-dry = dry
coat-dew = wet with condensate
coat-frost = frosted

## Names on the charts

name-enthalpy = enthalpy
name-absolute-pressure = absolute pressure
name-gauge-pressure = gauge pressure
name-temperature = temperature
name-humidity-ratio = water in the air
name-saturation = saturation
name-isotherm = one temperature
name-quality = share of vapour
name-relative-humidity = relative humidity
name-freezing = ice below
name-cycle = round the loop
name-mixing = mixing
name-coil = coil
name-reheat = ducts
name-reading = reading
name-suction = suction
name-discharge = discharge
name-in-condenser = in the condenser
name-before-orifice = before the orifice
name-behind-orifice = after the orifice
name-in-evaporator = in the evaporator
name-accumulator-out = out of the accumulator
name-outside = outside
name-cabin = cabin
name-mixed = into the coil
name-coil-out = out of the coil
name-vent = vent
name-low-side = low side
name-high-side = high side
name-static = at rest
name-boils-here = water boils
name-outside-warmth = outside air
name-superheat = superheat
name-subcooling = subcooling

## Notes on the drawing of levels

note-falls-into-can = The high side falls into the can, { $x } deep. Shut the red valve: a can bursts.
note-above-burst = The high side stands { $x } above the mark where a can bursts. The red valve stays shut.
note-air-falls-in = The room stands { $x } higher than this hose, so air falls in.
note-air-into-loop = The room stands { $x } higher than the loop, so air falls in through what stands open.
note-below-atmosphere = Lower than the air outside ({ $x }): through any leak here air and moisture fall in.
note-escapes = The hose stands { $x } above the room, so refrigerant runs out.
note-air-on-top = Trapped air: this stands { $x } above what the refrigerant alone has at its temperature. Air does not condense; recover and evacuate.
note-dries = So deep that water boils at { $x }, colder than the day: what is wet in there boils away.
note-not-dry-yet = Nearly empty, yet water boils only at { $x }, warmer than the day: it does not dry yet.
note-static = At rest the loop is a thermometer: any liquid in it holds it level with the outside air, { $x }, however little there is.
note-all-vapour = Not a drop of liquid is in it: at { $x } it stands below the line of the outside air.
note-can-above = The can stands { $x } above the low side. That drop is all that drives its gas.
note-can-sunk = Boiling has cooled the can to { $x }, down to the low side: nothing drives its gas. Warm water lifts it.
note-can-level = At { $x } the can stands no higher than the low side: nothing drives its gas until the low side falls.
note-ice-grows = Water has frozen where the liquid falls: ice closes { $x } of the orifice tube. It melts at rest; a dry loop has none.
note-worn = The compressor has worn by { $x } in use. Press it in the drawing of parts to see what did it.
note-high-above = The high side must stand above the outside air, here by { $x }: only downhill does heat run out of it.
note-low-below = The low side must hang below the cabin air, here by { $x }: down there its heat runs in.

## Vehicles to start with

start-compact = Healthy compact car, running
start-crossover = Healthy crossover, running
start-retrofit = Van before its conversion, on R-12
whatif = What if I had not
whatif-none = (an act to leave out)
whatif-away = Put it away
whatif-working = The visit is played again without it: { $share } %.
whatif-nothing = Without it no gauge would read otherwise.
whatif-said = Without it { $what } would read { $x }: { $by } { $way }. The dotted lines show it.
whatif-high = the high side
whatif-low = the low side
whatif-vent = the centre vent
whatif-charge = the charge in the loop
whatif-more = more
whatif-less = less
