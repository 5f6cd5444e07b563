# How much of a bay is seen by who works in it.

sight-how = How to work
sight-open = Open
sight-hands = By hand
sight-exam = Exam
sight-begin = Begin: { $name }
sight-hint = Open: everything is seen. By hand: what instruments, eyes, ears, nose and hands tell. Exam: by hand, no going back, no hints.
sight-hands-idea = You have instruments, eyes, ears, nose and hands. The inside is hidden.
sight-exam-idea = Like by hand, with no going back, no undo and no hints.
sight-open-inside = Open the inside
sight-open-inside-idea = This ends the work by hand, for good. The saved bay says at what time the inside was opened.
sight-open-inside-now = Open it now
sight-hand-in = Hand in the exam
sight-hand-in-idea = This ends the exam, for good. The saved bay says at what time it was handed in. After that the inside can be opened.
sight-hand-in-now = Hand it in now
sight-handed-in = Handed in at { $clock }. The inside can be opened now.
sight-opened-hands = Worked by hand until { $clock }; then the inside was opened.
sight-opened-exam = An exam until { $clock }; then the inside was opened.
sight-later = How far the job came, and what the statement is worth, is told once the inside is open.

## What is seen, heard, felt and smelt

around = Around the vehicle
around-view = Outside
around-idea = what hands, eyes, ears and nose tell
around-drawing = The loop from outside. The list says how each numbered place feels and looks.
touch-icy = icy cold
touch-cool = cool
touch-day = as warm as the day
touch-warm = warm
touch-hot = too hot to keep a hand on
surface-compressor = Compressor
surface-discharge = Discharge line
surface-condenser-in = Condenser, where the gas comes in
surface-condenser-out = Condenser, where the liquid leaves
surface-liquid = Liquid line
surface-evaporator-in = Pipe into the evaporator
surface-evaporator-out = Pipe out of the evaporator
surface-accumulator = Accumulator
surface-suction = Suction line
surface-vessel = Vessel on the service hose
surface-felt = { $touch }, { $coat }
surface-gone = not in place
sense-hiss-faint = Gas hisses faintly.
sense-hiss-loud = Gas hisses loudly.
sense-relief = The relief valve is blowing.
sense-blows = Gas is blowing out of the opening.
sense-smell = The clutch is slipping and smells burnt.
sense-drips = Condensate drips below the vehicle.
sense-stain = Oil stain: { $place }.
sense-none = Nothing else is seen, heard or smelt.
weighed = What was weighed
weighed-charge = In the loop, by weight
weighed-unknown = nobody knows
weighed-label = Label charge
