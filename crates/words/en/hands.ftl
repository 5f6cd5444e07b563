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
   *[bridge] the wire across the low-pressure switch's plug
 }
next-put-back = { $what ->
    [battery] Put the battery lead on
    [belt] Put the drive belt on
    [bolts] Put the bolts in
    [clutch] Push the clutch plug on
    [low-switch] Push the plug of the low-pressure switch on
    [cut-out] Push the plug of the cut-out on
   *[bridge] Take the wire out and push the plug on
 }
    .why = { $what ->
    [battery] Without it nothing electrical works, the starter included.
    [belt] The compressor stands still without it, clutch in or not.
    [bolts] A part that hangs on its lines alone shakes its joints loose.
    [bridge] Bridged, nothing stops the compressor when the charge is gone.
   *[plug] The clutch gets no current without it.
 }
next-turn-hub = Turn the compressor's hub by hand
    .why = Liquid was let in with the engine off, and some lies in the cylinders. Ten turns push it out gently.
caution-switch-bridged = The low-pressure switch is bridged
    .text = Nothing stops the compressor now when the charge is gone: it runs hot and without oil. Bridge it for seconds, to test, with the gauges in sight.
caution-hands-at-belt = Hands at belt and hub
    .text = Nobody may start the engine: key out, battery lead off its post.
caution-liquid-in-compressor = Liquid in the compressor
    .text = Liquid was let in with the engine off. Turn the hub ten times by hand before the engine does, or its first strokes meet liquid.
refused-engine-runs = the engine is running: stop it first
refused-battery-off = the battery lead is off: nothing electrical works
refused-no-cut-out = this vehicle has no high-pressure cut-out
refused-not-bridged = only the low-pressure switch's plug is bridged, to test
refused-unbolted = the part's bolts are out: put them in first
refused-no-bolts = no bolts hold this part
refused-belt-on = the belt is on the pulley: take it off first
refused-wrong-tool = { $lock ->
    [spring] a spring lock holds this joint: it does not come apart with wrenches
   *[nut] a nut holds this joint: the spring-lock tool does nothing here
 }
