# The job: the next step with its reason, and the cautions.

next = Next
show-me = Show me
spoken-next = Next: { $what }
next-stop-engine = Step back and shut the engine off
    .why = It drives gas and oil out of the opening, and belt and fan are turning next to it.
next-keep-away = Stay back until it stops blowing, and help anyone who is hurt
    .why = What comes out freezes skin and eyes. Open the doors, no flame. Eyes and frozen skin: lukewarm water, then a doctor.
next-air-drawn-in = Air is being drawn in: find the opening, close it, then evacuate again
    .why = The loop was empty, so the room's air and its moisture run into it. Air never condenses, and water makes acid and ice.
next-vacuum-lost = The vacuum does not hold: find where air comes in, close it, then evacuate again
    .why = The gauges rise though nothing was let in. A leak lifts them as far as the room's pressure; moisture alone stops early.
next-cap-ends = The loop is open: cap it or close it
    .why = An open end takes in moisture and dirt from the first minute.
next-unknown-charge = Nobody has weighed what is in the loop: recover it, evacuate, charge by weight
    .why = Gauges do not tell the charge. A can on top of an unknown one is a guess.
next-burst-can = The can has burst: shut the valves and take it off
    .why = What was in it is in the room now.
next-shut-high-valve = Shut the high-side valve
    .why = It lets the high side into the yellow hose: a can on it bursts, an open hose vents.
next-shut-open-hose = Shut the low-side valve: the yellow hose is open to the room
    .why = Air flows into an empty loop, refrigerant out of a full one.
next-put-low-coupler = Put the low-side coupler back on its port
    .why = The can feeds the loop through the blue hose.
next-take-can = Screw a can onto the yellow service hose
    .why = { $given } of { $label } is in, by weight.
next-open-tap = Open the can's tap
    .why = Its gas then fills the yellow hose, and goes on into the loop where a hand valve is open.
next-purge = Purge the yellow hose until the air is out
    .why = Air in the hose would go into the loop and never condense.
next-stop-purge = The air is out: tighten the hose again
    .why = From here on only refrigerant is lost.
next-start-engine = Start the engine
    .why = The compressor pulls the low side below the can's pressure.
next-ac-on = Switch the A/C on
    .why = The clutch can pull in once the low side has pressure.
next-blower-high = Set the blower to high
    .why = Warm air over the evaporator keeps the load up while charging.
next-open-low-valve = Open the low-side valve
    .why = The can's pressure is above the low side's, so vapour flows in.
next-watch-charging = Vapour is flowing: watch can, clutch and gauges
    .why = The clutch short-cycles on the low switch until enough is in.
next-warm-can = The can has gone cold and slow: stand it in warm water
    .why = Boiling cools it, and its pressure falls to the low side's. Water up to 52 °C (125 °F).
next-cool-bath = The water is too hot for a can: cool it below 52 °C (125 °F)
    .why = The pressure in the can rises towards its burst mark.
next-turn-upright = Turn the can upright
    .why = Liquid in the suction can break a running compressor.
next-can-empty-shut = The can is empty: shut the low-side valve
    .why = Then nothing flows back while you change cans.
next-can-empty-tap = The can is empty: shut its tap
    .why = Unscrewed with its tap open it lets the rest of its vapour into the room.
next-can-empty-swap = Take a fresh can
    .why = The label asks for more than this one held.
next-charged-shut = { $given } of { $label } is in: shut the low-side valve and let it settle
    .why = The label's charge is in, as near as cans allow.
next-overcharged = { $given } of { $label } is in, too much: shut the low-side valve
    .why = Watch the high side: liquid backs up in the condenser.
next-too-much = { $given } of { $label } is in: connect the recovery machine and take the rest out
    .why = The rest backs up as liquid in the condenser and raises the high side. Only the machine takes it out; never vent it.
next-settle = Charged and shut: let it settle
    .why = Cycling slows, pressures settle. On all but the hottest days the vent falls below 10 °C (50 °F).
next-shut-tap = The vent is cold. Shut the can's tap
    .why = The job's goal is reached; now pack up.
next-take-low-coupler = Take the low-side coupler off
    .why = Its core shuts as it comes off.
next-engine-off = Shut the engine off
    .why = The high-side coupler comes off at rest: with the engine running its hose holds hot discharge gas.
next-take-high-coupler = Take the high-side coupler off
    .why = At rest its hose no longer holds hot discharge gas.
next-try-hotter = Try one thing: make the day hotter
    .why = Watch the high side climb with the line of the outside air. Everything can be taken back.
next-free = Try what you like, or open a job card
    .why = The gauges answer, and everything can be taken back.
next-done = Done: by weight the charge is in, and the couplers are off
    .why = Try what one can or six would have done: start over at the top, or go on and see.

caution = Caution
understood = Understood
spoken-caution = Caution. { $title }. { $text }
standing = Real vehicles: follow the maker's data and local code; service for pay needs certification.
ask-open = Open it under pressure?
ask-unknown = Open it without knowing the pressure inside?
ask-gauges = Low side: { $low }. High side: { $high }.
ask-off = gauge not connected
ask-nobody = No gauge is connected: nobody knows the pressure inside.
ask-can = Left in the open can by the scale: { $mass }.
ask-do = Do it all the same
ask-leave = Leave it
ask-ahead = A copy of this bay, { $time } ahead: { $what }.
ahead-nothing = A copy of this bay, { $time } ahead: nothing to see yet.
ahead-can = can { $pressure } with { $mass } in it
ahead-burst = the can has burst
ahead-lost = { $mass } of refrigerant in the room
ahead-air = { $mass } of air drawn in
ahead-hurt = you are hurt
missing-goggles = No goggles.
missing-gloves = No gloves.
missing-both = No goggles, no gloves.
put-on = Put on
harm-bare = Refrigerant hit your eyes and bare hands
harm-goggles = Refrigerant hit your bare hands
harm-gloves = Refrigerant hit your eyes
harm-protected = Refrigerant hit your face and wrists
harm-burst = The can burst beside you
    .text = Metal and freezing liquid fly. Get everybody out, open the doors, no flame. Eyes and frozen skin: lukewarm water for 15 minutes, rub nothing, doctor at once.
first-aid = Eyes and frozen skin: lukewarm water for 15 minutes, rub nothing, doctor at once. No flame.
emergency-engine = Engine off
emergency-shut = Shut what you can reach
emergency-away = Step back, open the doors
caution-high-valve = High-side valve open with the engine running
    .text = Discharge gas runs into the yellow hose, into whatever hangs on it, or into the room. A small can may burst from 270 psi (1860 kPa). The red valve stays shut while the engine runs.
caution-bath = Water above 52 °C (125 °F)
    .text = Hotter water takes a can past the pressure it is made for. No flame, no kettle.
caution-liquid = Liquid in the suction while the compressor runs
    .text = A turned-over can gives liquid. A compressor cannot compress liquid: valves and pistons break.
caution-belt = Belt and fan are turning
    .text = Keep hoses, sleeves and fingers away; the electric fan can start by itself. Vent the exhaust outdoors.
caution-eyes = Eyes and hands
    .text = Escaping { $gas } boils at { $celsius } ({ $fahrenheit }) and freezes skin and eyes. Goggles and gloves on, good air in the room.
caution-burns = { $gas } burns (mildly flammable, class A2L of ASHRAE 34): no flame, no spark, nothing hot near it.
caution-other-gas = A can of another gas
    .text = Its fitting does not mate with this hose: an adapter defeats what keeps gases apart. Mixed, the whole charge is waste, pressures no longer tell temperatures, and machine and cylinder are spoilt. Identify first. Goggles and gloves on.
caution-venting = That lets refrigerant into the room
    .text = Venting is forbidden and harms the climate. Shut tap and valves first; what has to come out goes into the recovery machine.
caution-open-hose = The yellow hose is open to the room
    .text = An open valve now connects the loop with the air: it takes air and moisture in, or lets refrigerant out.
caution-pressure-to-pump = Pressure at the vacuum pump
caution-pressure-to-pump-text = Refrigerant under pressure blows the pump's oil out and goes into the room. Recover it first, until the gauges stand at or below zero.
caution-pump-stops-open = Pump stopped with its valve open
caution-pump-stops-open-text = A pump that stops with its valve open lets air, and with it moisture, back into the loop. Shut the valve first.
caution-hot-oil = Hot oil
caution-hot-oil-text = The oil of a pump that has run burns the skin. Used oil is waste: hand it in as your local rules ask.

## Acts with tools
act-air-pressure = Air pressure of the day
act-take-pump = Vacuum pump on the service hose
act-pump-oil = Oil of the vacuum pump changed
act-vacuum-gauge = Vacuum gauge moved
act-take-self-sealing-can = Self-sealing can on the service hose
act-tap-screw = Needle of the can tap
act-take-can-of = Can of { $gas } on the service hose
act-identify-low = Refrigerant identifier: sample at the low port
act-identify-high = Refrigerant identifier: sample at the high port
act-take-cylinder = Charging cylinder on the service hose
act-dose = Dose set at the cylinder
act-take-machine = Recovery machine on the service hose
act-machine-stop = Vacuum at which the machine stops
act-change-cylinder = Recovery cylinder changed
act-disconnect = Service hose freed
act-zero-scale = Scale set to zero
act-take-nitrogen = Nitrogen connected
act-regulator = Nitrogen regulator set
act-sniff = Searched with the leak detector
act-soap = Searched with soap
act-dye = Dye put into the loop
act-lamp = Searched with the lamp
act-clamp = Clamp thermometer moved
act-note-readings = Readings written down
act-label = Label stuck on
act-stopwatch = Stopwatch
act-pump = Vacuum pump
act-isolation = Isolation valve
act-ballast = Gas ballast
act-machine = Recovery machine
act-open-joint = Joint opened
act-cap-joint = Joint capped
act-close-joint = Joint made up
act-remove-part = Part taken out
act-refit-part = Part put back
act-new-part = New part fitted
act-fit-orifice = Orifice tube fitted
act-drain-part = Oil drained
act-pour-oil = Oil poured in
act-inject-oil = Oil injected
act-port-cap = Cap of a service port
act-core = Core of a service port
act-convert-port = Conversion fitting of a service port

## Reading, diagnosis and protection
act-read = Read: { $meter }
act-suspect = Suspected: { $fault } ({ $percent } %)
act-commit = Diagnosis: { $fault }, { $severity }
act-plant = Planted: { $fault }, { $severity }
act-clear = Taken away: { $fault }
act-secret = Something by the instructor
act-wear = { $what ->
    [goggles] Goggles
   *[gloves] Gloves
 }: { $on ->
    [on] on
   *[off] off
 }
refused-busy = your hands are busy for { $seconds } s more
refused-not-connected = nothing to read ({ $meter }): it is not connected, not there, or has no result
refused-by-hand = { $fault } does not come about by itself: put it in, let it out or make it up by hand
refused-no-reading = there is no reading { $asked }: { $taken } have been taken
meter-name = { $key ->
    [low-gauge] low-side gauge
    [high-gauge] high-side gauge
    [vacuum-gauge] vacuum gauge
    [vent-thermometer] vent thermometer
    [cabin-thermometer] cabin thermometer
    [thermometer] thermometer in the bay
    [hygrometer] hygrometer
    [clamp] clamp thermometer
    [anemometer] anemometer
    [tachometer] tachometer
    [clutch-meter] meter at the clutch
    [scale] scale
    [stopwatch] stopwatch
    [identifier] refrigerant identifier
    [identifier-air] refrigerant identifier
    [surface] hand and eye
   *[search] last leak search
 }
severity-name = { $key ->
    [slight] slight
    [moderate] moderate
    [severe] severe
   *[extreme] extreme
 }
