# What holds, drives and feeds a part: battery, plugs, belt, bolts, caps, joint tools; the can rocked, the hub turned.

battery = Battery lead
battery-states =
    .off = off its post
    .on = on
belt = Drive belt
belt-states =
    .off = off the pulley
    .on = on
bolts = Bolts
bolts-states =
    .off = out
    .on = in
plug-clutch = Clutch plug
plug-low-switch = Low-pressure switch plug
plug-cut-out = Cut-out plug
plug-states =
    .on = on
    .off = pulled
    .bridged = bridged
part-caps = Caps on its ends
part-caps-states =
    .off = off
    .on = on
in-hand = In hand
tool-wrenches = two wrenches
tool-spring-lock = spring-lock tool
tool-needed = A garter spring holds this joint, not a nut.
picked-up-in-parts = Detector, soap, lamp, clamp, meter and identifier are picked up in the drawing of parts and put on the place.
turn-hub = Turn the hub ten times by hand
turning-hub = The hub is being turned, { $left } left
rock = Rock the can
hint-rock = Tips it between upright and lying in both hands: it warms, and liquid goes along while it reaches the valve.
rock-states =
    .off = stands
    .on = rocked
contact-closed = conducts
contact-open = open
low-pressure-switch = Low-pressure switch
at-its-pins = At its pins, by the meter
drive = Clutch plug and belt
battery-box = Battery
stand-loosened = taken off
still-on = Take off first: { $what }

loosened = { $what ->
    [battery] the battery lead
    [belt] the drive belt
    [bolts] the bolts
    [clutch] the clutch plug
    [low-switch] the plug of the low-pressure switch
    [cut-out] the plug of the cut-out
   *[bridge] the low-pressure switch's plug, without the wire
 }
next-put-back = Put back { $what }
    .why = The loop works only with all of it on.
next-turn-hub = Turn the compressor's hub by hand
    .why = Liquid went in with the engine off: ten turns push it out of the cylinders gently.
caution-switch-bridged = The low-pressure switch is bridged
    .text = Nothing stops the compressor now when the charge is gone: it runs hot and dry. For seconds only, to test, eyes on the gauges.
caution-hands-at-belt = Hands at belt and hub
    .text = Nobody may start the engine: key out, battery lead off its post.
caution-liquid-in-compressor = Liquid in the compressor
    .text = Liquid went in with the engine off, and the first strokes meet it: turn the hub by hand first.
refused-engine-runs = the engine is running: stop it first
refused-battery-off = the battery lead is off: nothing electrical works
refused-unbolted = the part's bolts are out: put them in first
refused-belt-on = the belt is on the pulley: take it off first
refused-wrong-tool = { $lock ->
    [spring] a spring lock holds this joint: it does not come apart with wrenches
   *[nut] a nut holds this joint: the spring-lock tool does nothing here
 }
