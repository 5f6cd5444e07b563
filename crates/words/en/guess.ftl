# Guess, then see: challenges of what a reading will do. A reason goes on in the sentence that tells what came.

guess-open = Guess, then see
guess-which = Challenge
guess-climbs = climbs
guess-stays = stays
guess-falls = falls
guess-again = Next challenge
guess-do = Do it in this bay
guess-here = Asked of this bay as it stands.
guess-own = Asked of a bay of its own, since it does not fit this one.
guess-cannot = The engine cannot say what comes here.
guess-watched = { $key ->
        [low] the low side
        [high] the high side
        [scale] the can
       *[pulls] the clutch
    }
guess-came = { $right ->
        [yes] Right
       *[no] Guess again next time
    }: { $what } { $came ->
        [climbs] climbs
        [falls] falls
       *[stays] stays
    }, from { $before } to { $after }, { $why }
guess-beside = { $right ->
        [yes] Right
       *[no] Guess again next time
    }: { $what } { $came ->
        [climbs] climbs
        [falls] falls
       *[stays] stays
    }, at { $after } against { $before }, { $why }
guess-unlike = and not as in a sound vehicle: find out why.
challenge-hotter-day = The day turns 10 °C (18 °F) hotter. What does the high side do?
    .why = because it must stand above the outside air to shed its heat, and that line has climbed.
challenge-less-blower = The blower goes down to its first step. How often does the clutch pull in?
    .why = because with less heat coming in less boils, the low side sinks to the cycling switch, and the switch lets the clutch out.
challenge-faster-engine = The engine runs at more than half as many revolutions again. What does the low side do?
    .why = because the compressor takes more away than the orifice lets in.
challenge-standing-charge = At rest, with half the charge. What does the high gauge do?
    .why = because as long as a drop of liquid is left, its temperature alone sets the pressure.
challenge-more-gas = Running, with a tenth more charge. What does the low side do?
    .why = because the accumulator stores the surplus, and nothing that flows has changed.
challenge-fan-stops = Half of the air over the condenser stays away. What does the high side do?
    .why = because the same heat needs a steeper fall to less air.
challenge-air-inside = Half an ounce (15 g) of air is in the loop. What does the high side do?
    .why = because air does not condense: it takes up room and adds its own pressure.
challenge-narrow-orifice = The orifice is open to two fifths. What does the high side do?
    .why = because the liquid that is held back stacks up in the condenser and leaves less of it to condense in.
challenge-red-valve = A can hangs on the yellow hose, its tap open, and the red valve is opened with the engine running. What does the can's weight do?
    .why = because the high side stands far above the can and runs into it; so a can bursts. Never do it.
challenge-wet-vacuum = Five grams of water lie in an empty loop. The pump has run for five minutes and runs three more. What does the blue gauge do?
    .why = because the water boils all the time and holds the pressure; the needle looks like a full vacuum while most of it is still there.
