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

## Theme

theme = Theme
theme-system = as the system
theme-light = light
theme-dark = dark
