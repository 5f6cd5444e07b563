# Lo que sujeta, mueve y alimenta una pieza: batería, conectores, banda, tornillos, tapones, herramientas; la lata que se balancea, el plato que se gira.

battery = Cable de la batería
battery-states =
    .off = suelto
    .on = puesto
belt = Banda
belt-states =
    .off = fuera de la polea
    .on = puesta
bolts = Tornillos
bolts-states =
    .off = fuera
    .on = puestos
plug-clutch = Conector del embrague
plug-low-switch = Conector del interruptor de baja
plug-cut-out = Conector del corte por alta
plug-states =
    .on = puesto
    .off = suelto
    .bridged = puenteado
part-caps = Tapones en sus extremos
part-caps-states =
    .off = quitados
    .on = puestos
in-hand = En la mano
tool-wrenches = dos llaves
tool-spring-lock = herramienta de acople rápido
tool-needed = Esta unión la sujeta un resorte, no una tuerca.
picked-up-in-parts = Detector, jabón, lámpara, pinza, multímetro e identificador se toman en el dibujo de piezas y se ponen en su lugar.
turn-hub = Girar el plato diez vueltas a mano
turning-hub = Girando el plato, faltan { $left }
rock = Balancear la lata
hint-rock = La inclina con ambas manos entre parada y acostada: se entibia y, mientras llega a la válvula, también sale líquido.
rock-states =
    .off = quieta
    .on = balanceada
contact-closed = conduce
contact-open = abierto
low-pressure-switch = Interruptor de baja presión
at-its-pins = En sus terminales, con el multímetro
drive = Conector del embrague y banda
battery-box = Batería
stand-loosened = suelto
still-on = Quite antes: { $what }

loosened = { $what ->
    [battery] el cable de la batería
    [belt] la banda
    [bolts] los tornillos
    [clutch] el conector del embrague
    [low-switch] el conector del interruptor de baja
    [cut-out] el conector del corte por alta
   *[bridge] el conector del interruptor de baja, sin puente
 }
next-put-back = Ponga { $what }
    .why = El circuito solo trabaja con todo puesto.
next-turn-hub = Gire a mano el plato del compresor
    .why = Entró líquido con el motor apagado: diez vueltas lo sacan de los cilindros sin golpes.
caution-switch-bridged = Interruptor de baja puenteado
    .text = Ahora nada detiene el compresor cuando ya no hay carga: trabaja caliente y sin aceite. Solo unos segundos, para probar, y mirando los manómetros.
caution-hands-at-belt = Manos en la banda y el plato
    .text = Nadie debe arrancar el motor: llave fuera y cable de la batería suelto.
caution-liquid-in-compressor = Líquido en el compresor
    .text = Entró líquido con el motor apagado y los primeros golpes del pistón darán con él: gire antes el plato a mano.
refused-engine-runs = el motor está en marcha: apáguelo antes
refused-battery-off = el cable de la batería está suelto: no funciona nada eléctrico
refused-unbolted = los tornillos de la pieza están fuera: póngalos antes
refused-belt-on = la banda está en la polea: quítela antes
refused-wrong-tool = { $lock ->
    [spring] un resorte sujeta esta unión: con llaves no se separa
   *[nut] una tuerca sujeta esta unión: la herramienta de acople rápido no sirve aquí
 }
