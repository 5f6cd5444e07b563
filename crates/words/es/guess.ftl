# Adivine y vea.

guess-open = Adivine y vea
guess-which = Desafío
guess-climbs = sube
guess-stays = queda igual
guess-falls = baja
guess-again = Siguiente desafío
guess-do = Hacerlo en este taller
guess-here = Se pregunta a este taller tal como está.
guess-own = Se pregunta a un taller aparte, porque no va con este.
guess-cannot = El motor de cálculo no puede decir qué pasa aquí.
guess-watched = { $key ->
        [low] el lado de baja
        [high] el lado de alta
        [scale] la lata
       *[pulls] el embrague
    }
guess-came = { $right ->
        [yes] Correcto
       *[no] No esta vez
    }: { $what } { $came ->
        [climbs] sube
        [falls] baja
       *[stays] queda igual
    }, de { $before } a { $after }, { $why }
guess-beside = { $right ->
        [yes] Correcto
       *[no] No esta vez
    }: { $what } { $came ->
        [climbs] sube
        [falls] baja
       *[stays] queda igual
    }, con { $after } contra { $before }, { $why }
guess-unlike = y no como en un vehículo sano: averigüe por qué.
challenge-hotter-day = El día se pone 10 °C (18 °F) más caliente. ¿Qué hace el lado de alta?
    .why = porque tiene que estar por encima del aire de afuera para soltar su calor, y esa línea subió.
challenge-less-blower = El soplador baja al primer paso. ¿Qué tan seguido acopla el embrague?
    .why = porque con menos calor hierve menos, el lado de baja cae hasta el interruptor cíclico y este suelta el embrague.
challenge-faster-engine = El motor gira a más de vez y media. ¿Qué hace el lado de baja?
    .why = porque el compresor saca más de lo que el orificio deja entrar.
challenge-standing-charge = En reposo, con la mitad de la carga. ¿Qué hace el manómetro de alta?
    .why = porque mientras quede una gota de líquido, solo su temperatura fija la presión.
challenge-more-gas = En marcha, con una décima parte más de carga. ¿Qué hace el lado de baja?
    .why = porque el acumulador guarda lo que sobra y nada de lo que fluye ha cambiado.
challenge-fan-stops = Falta la mitad del aire del condensador. ¿Qué hace el lado de alta?
    .why = porque el mismo calor necesita una caída mayor hacia menos aire.
challenge-air-inside = Hay 15 g (media onza) de aire en el circuito. ¿Qué hace el lado de alta?
    .why = porque el aire no se condensa: ocupa lugar y suma su propia presión.
challenge-narrow-orifice = El orificio está abierto a dos quintos. ¿Qué hace el lado de alta?
    .why = porque el líquido retenido se acumula en el condensador y deja menos lugar para condensar.
challenge-red-valve = Hay una lata en la manguera amarilla, con la válvula abierta, y se abre la llave roja con el motor en marcha. ¿Qué hace el peso de la lata?
    .why = porque el lado de alta está muy por encima de la lata y cae en ella; así revienta una lata. Nunca lo haga.
challenge-wet-vacuum = Hay cinco gramos de agua en un circuito vacío. La bomba lleva cinco minutos y sigue tres más. ¿Qué hace el manómetro azul?
    .why = porque el agua hierve todo el tiempo y sostiene la presión; la aguja parece vacío total mientras la mayor parte sigue allí.
