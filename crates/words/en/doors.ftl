# The four doors, and what comes forward behind each.

doors = Doors
door-explore = Explore
door-service = Charge and service
door-diagnose = Diagnose
door-class = Class

day = The day
vehicle-more = Engine speed, fan
hose-nothing = Nothing is connected.

invites = Nothing is open here. Open a drawing or a chart:
wait-until = Wait until { $goal }
strip-vent = vent

## The shelf

shelf = Job cards
shelf-idea = Take a card. Its bay opens, paused, and its steps stand beside the controls.
card-minutes = about { $n } min of bay time
card-steps = { $n ->
    [one] { $n } step
   *[other] { $n } steps
 }
card-done = done
card-back = Put the card back
card-sheet = Open the whole sheet

## Class

class-idea = In front of others: larger figures, and what can be handed out.

link-code = QR code of the link
link-code-idea = The bay as it was when the link was copied. Nothing is sent: the link holds all of it.

plant = Plant a fault
plant-idea = It comes about in this bay while it runs, as it would on the road, and whoever works here has to find it.
plant-after = Begins
plant-over = Grows
plant-now = now
plant-at-once = at once
plant-minutes = in { $n } min
plant-secret = Told
secret-off = told
secret-on = secret
plant-do = Plant it
plant-clear = Take it away
plant-something = Something secret

compare = Compare three bays
compare-idea = The same bay three times on one clock; two differ in one thing each. What you do in this bay is done in all, and going back takes all back.
compare-names = Names
compare-names-off = hidden
compare-names-on = shown
compare-bay = Bay { $letter }
compare-this = this bay
compare-with = { $fault }, { $severity }
compare-inside = Inside
compare-charge = Refrigerant in the loop
compare-air = Air in the loop
compare-behind = It is catching up.
compare-halted = It has stopped.
compare-clutch = Clutch in { $percent } % of the minute, { $cycles ->
    [one] { $cycles } cycle
   *[other] { $cycles } cycles
 }
compare-strip = Last five minutes
compare-strip-of = Last five minutes of all three: { $reading }
compare-cycle = Pressure over enthalpy, all three

## Theme

theme = Theme
theme-system = as the system
theme-light = light
theme-dark = dark
