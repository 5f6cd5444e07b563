# The unknown vehicle: bringing one in, readings, suspects, the debrief.

drill = The unknown vehicle
drill-idea = A van comes in with a complaint. Something is wrong with it, or nothing is. Take the readings you need, name the fault, and see which reading told.
drill-number = Vehicle number
drill-number-hint = The same number brings in the same van: give it to a partner, or take the one you were given.
drill-slight = Slight faults too
drill-exam = As an exam: no going back, no hints
drill-quote = “{ $text }”
drill-bring = Bring it in
drill-any = Any vehicle, worked in by hand
drill-vehicle = Unknown vehicle { $number }
drill-label = { $name }, { $gas }, label { $charge }
drill-next = Bring in the next one
drill-time = Time spent
drill-minutes = { $spent } of 30 min

complaint = { $key ->
    [hot-engine] The engine gets hot as soon as I switch the A/C on.
    [little-air] Hardly any air comes out of the vents.
    [fades] It starts out cold, and then it gives up.
    [warm] It just blows warm, in town and on the road.
    [warm-standing] On the road it is fine. At the lights it blows warm.
    [warm-driving] It is all right standing. On the road it does not keep up.
   *[none] Nothing is wrong that I know of. Please look it over before the summer.
 }

hand-in = Hand in
hand-in-idea = Hand in what you did: the file, or the link as a line to paste. It holds your code, every act and reading, and what you named.
slip-open = Open it in the page
slip-hands = Work by hand: take readings, name the fault, and hand in your file or link.
slip-exam = This is an exam: no going back and no hints. Take readings, name the fault, and hand in your file or link.

## Readings

drill-read = Take a reading
drill-read-now = Read
drill-put-on = Put it on
drill-sample = Take a sample
drill-clamp = Clamp thermometer at
drill-hand = Hand and eye at
drill-where = { $meter }: { $place }
drill-hub = clutch hub
drill-pulley = pulley
drill-air = air in the sample
drill-slips = Readings taken
drill-slips-none = None yet. A reading stands here with its minute and what the instrument showed; tick those that show your fault.
drill-cite = shows it
drill-found = found
drill-not-found = nothing found
drill-volts = { $volts } V
drill-amperes = { $amperes } A
drill-doubt = No instrument is exact: a gauge that reads high does so each time.

## What it is

drill-say = What is it?
drill-fault = Fault
drill-nothing = Nothing is wrong
drill-in-loop = What the loop holds
drill-in-parts = Parts
drill-in-controls = Switches, leads, fans and doors
drill-in-passages = Narrowed passages
drill-in-gauges = The shop's own gauges
drill-much = How much
drill-cure = What puts it right
drill-sure = How sure
drill-commit = This is it: { $fault }
drill-commit-hint = It cannot be taken back. Sure and right pays; sure and wrong costs.

## The debrief

debrief = What your readings told
debrief-working = Every suspect does what you did, in a bay of its own: { $percent } %
debrief-it-was = It was: { $fault }
debrief-it-was-much = It was: { $fault }, { $much }
debrief-said = You said: { $fault }, { $percent } % sure
debrief-decided = Reading { $number } decided: { $reading } { $value }. From then on { $fault } was ahead.
debrief-undecided = No reading of yours settled it.
debrief-rival = The hardest rival was { $fault }.
debrief-telling = This would have told them apart: { $reading }. Here { $own }, with { $fault } { $theirs }.
debrief-no-telling = Nothing that these instruments read would have told them apart here: the two are twins.
debrief-beside = At reading { $number } yours showed { $own }; the same acts on a van with { $fault }: { $theirs }.
debrief-chart = Suspects after each reading
debrief-chart-idea = How tall a band is says how likely that fault was by then.
debrief-before = before
debrief-reading = Reading
debrief-likely = Likeliest then
debrief-others = others
debrief-share = { $fault } { $percent } %
debrief-marks = Marks: { $total } of 100
debrief-open = Nothing you read rules out: { $faults }
debrief-spoilt = Spoilt on the way: { $what }
mark-line = { $key ->
    [found] The right fault, or one that reads the same
    [cure] What puts it right
    [evidence] The readings you named show it
    [telling] You took the readings that tell it from its look-alikes
    [certainty] How sure you were
    [safety] Nobody hurt, nothing spoilt, nothing let out
    [order] Named before anything was renewed
   *[time] Time taken
 }
