# La página: nombres de las cosas y frases cortas, como se habla en el taller.

name = Lowside
title = Lowside: un taller para aprender A/C automotriz
tagline = Taller para aprender A/C automotriz
evacuated = Camioneta en vacío
healthy = Camioneta en buen estado, encendida
footer = Un simulador para practicar. No otorga licencia: en un vehículo real siga los datos del fabricante y las normas locales; el servicio pagado exige certificación, y el refrigerante se recupera, nunca se suelta al aire.
language = Idioma

## Guardar y retomar

storage-denied = Este navegador no guarda nada para esta página: si la recarga, se empieza de nuevo. Todo lo demás funciona.
resuming = Retomando donde se quedó
coming = Esta parte viene en camino
coming-failed = Esta parte no ha llegado.
coming-again = Intentar de nuevo
resuming-leave = Guardarlo para después y abrir otro trabajo
resuming-cancel = Volver al trabajo que estaba abierto
resume-broken = No se pudo retomar un trabajo: { $why }. Sigue guardado.
resume-once = El programa falló mientras se retomaba su trabajo, por eso este es otro. El suyo sigue guardado.
copy = Copiar sus acciones
take-too-large = pasa de { $most }, lo más que puede tener
take-part-too-large = su { $part } pasa de { $most }
take-empty = no contiene nada
take-cut-short = le falta el final
take-not-one = no es un taller guardado
take-part-broken = su { $part } no se puede leer
take-format = tiene el formato { $format }, y este programa lee del 1 al { $known }
take-many-acts = tiene { $value } acciones, y no se leen más de { $most }
take-too-long = dura más de { $hours } horas
take-out-of-order = su { $part } va antes que la anterior o después del final
take-part = { $part ->
    [format] número de formato
    [scenario] situación inicial
    [log] lista de acciones
    [ticks] duración
    [hash] marca del final
    [physics] marca de su física
    [hidden] parte oculta
    [card] ficha de trabajo
    [sight] modo de trabajo
    [handed_in] momento de la entrega
    [opened] momento de la apertura
    [learner] código de quien aprende
    [seed] semilla
    [hints] lista de pistas
    [lines] lista de acciones deshechas
    [mixed] nota sobre su física
    [seal] sello
   *[act] acción { $number }
 }
take-value = su situación inicial: { $why }
take-act = acción { $number } de su lista: { $why }
take-seal = se cambió después de guardarlo: su sello ya no coincide
take-differs = no termina donde dice: se editó, o lo hizo otra versión del programa

## Mandos

controls = Mandos
to-controls = Ir a los mandos
gauge-set = Juego de manómetros
can-number = Lata { $number }
vehicle = Vehículo
low-coupler = Acople de baja
high-coupler = Acople de alta
low-valve = Válvula de baja (azul)
high-valve = Válvula de alta (roja)
purge = Purga (amarilla)
tap = Llave
turn-over = Voltear
bath = Baño de agua
water = Agua
engine = Motor
ac = A/C
blower = Soplador
cabin-air = Aire
engine-speed = Velocidad del motor
windows = Ventanas
fan = Ventilador frente a la parrilla
outside-air = Aire exterior
humidity = Humedad
shut = Cerrar
open = Abrir
take-a-can = Tomar una lata
fresh-can = Lata nueva
take-off = Quitarla
coupler-state =
    .off = desconectado
    .on = en su puerto
purge-state =
    .off = apretada
    .on = purgando
tap-state =
    .off = cerrada
    .on = abierta
windows-state =
    .off = cerradas
    .on = abiertas
turn-state =
    .off = válvula arriba: vapor
    .on = válvula abajo: líquido
bath-state =
    .off = fuera
    .on = en el agua
engine-state =
    .off = apagado
    .on = en marcha
ac-state =
    .off = apagado
    .on = encendido
air-state =
    .off = de afuera
    .on = recirculado
named-state = { $what }: { $state }
of = { $n } de { $most }
refused = No se hizo: { $why }
refused-halted = el taller se detuvo ({ $place }): deshaga, vuelva atrás en el tiempo o empiece de nuevo
refused-no-can = no hay lata en la manguera de servicio
refused-can-burst = la lata reventó: quítela
refused-mixture = { $gas } no se mezcla aquí con { $main }; solo R-12 y R-134a
refused-no-coupler = no hay acople en ese puerto
refused-no-pressure = no hay presión suficiente en el puerto para llenar la celda del identificador
refused-identifier-busy = el identificador todavía analiza una muestra
refused-no-pump = no hay bomba de vacío en la manguera de servicio
refused-pump-runs = la bomba de vacío está girando: deténgala primero
refused-character = { $field }: el carácter { $found } no se permite; escriba letras, cifras, signos y espacios
refused-range = { $field } { $value } está fuera de { $lo } a { $hi }

## Instrumentos

gauges = Manómetros
low-side = Lado de baja (azul)
high-side = Lado de alta (rojo)
hose-only = acople suelto: marca su manguera
boils-at = hierve a { $t }
condenses-at = condensa a { $t }
readings = Lecturas
vent = Salida central
vent-cold = fría
cabin-t = Cabina
clutch = Embrague
clutch-out = suelto
clutch-in = acoplado
cycles = { $n } / min
scale = Báscula
given = Cargado por peso
label = etiqueta { $charge }
no-can = sin lata

## Balance y registro

ledger = Dónde está cada gramo
ledger-empty = Todavía no hay refrigerante.
ledger-more = Líquido, vapor, aceite, aire, agua
ledger-caption = Masa por lugar
ledger-table = Tabla del balance
in-loop = { $charge } en el circuito
column-place = Lugar
column-liquid = Líquido
column-vapour = Vapor
column-oil = Aceite
column-air = Aire
column-water = Agua
place-discharge-line = Línea de descarga
place-condenser = Condensador
place-liquid-line = Línea de líquido
place-evaporator = Evaporador
place-accumulator = Acumulador
place-suction-line = Succión, compresor
place-hoses = Mangueras
place-can = Lata
place-shelf = Latas usadas
place-room = Taller (perdido)
place-cylinder = Cilindro de carga
place-recovery-cylinder = Cilindro de recuperación
place-separator = Separador de aceite
place-bench = Piezas en el banco
place-waste = Desechos
place-lost = Perdido por extremos abiertos
log = Qué pasó
log-empty = Sin novedad.
event-clutch-in = El embrague se acopló
event-low-switch = El interruptor de ciclado soltó el embrague
event-cut-out = Abrió el corte por alta presión y soltó el embrague
event-relief-lifted = Abrió la válvula de alivio: sale refrigerante al taller
bay-halted = El taller se detuvo: lo que sigue no se puede calcular con seguridad ({ $place }). Deshaga, vuelva atrás en el tiempo o empiece de nuevo; un archivo guardado nos permite averiguar por qué.
event-compressor-seized = El compresor se agarrotó por exceso de calor
event-let-out = Salió refrigerante al taller: manguera o lata abierta
event-hose-burst = Reventó la manguera de descarga: demasiado calor para su presión
event-relief-seated = La válvula de alivio cerró de nuevo
event-can-burst = La lata reventó
event-can-empty = La lata está vacía: ya no le queda líquido
event-liquid = Llega líquido al compresor
event-liquid-gone = La succión está seca otra vez
event-compressor-hurt = El compresor se desgastó otro décimo
event-air-drawn-in = Entró aire: { $place }
event-air-by-hose = Entró aire: extremo abierto de la manguera de servicio
event-clutch-burnt = El embrague se quemó: patinó demasiado caliente
event-pump-oil-blown = La presión expulsó aceite de la bomba de vacío

## Tiempo

time = Tiempo
speed = Velocidad
units = Unidades
start-over = Empezar de nuevo
more = Más
start-with = Empezar con
start = Comenzar
one-second = Un segundo
run = { "\u25B6" } Seguir
pause = { "\u2016" } Pausa
space-key = Espacio
bay-time = Tiempo del taller: { $spoken }
reaches = alcanza { $speed }{ "\u00D7" }
times = { $speed }{ "\u00D7" }

## Regresar, seguir, esperar

timeline = Línea de tiempo
undo = Deshacer
redo = Rehacer
undone = Se deshizo: { $act }
redone = Se rehizo: { $act }
scrub = Momento
looking-back = { $now } de { $end }
to-now = Ir a lo último
line = Rama
line-choice = { $id }: de { $from } a { $end }, { $acts ->
    [one] { $acts } acción
   *[other] { $acts } acciones
 }
until = Correr hasta que …
waiting-for = Hasta que { $goal }
stop-waiting = Parar
wait-met = Se llegó: { $goal }
wait-given-up = No se llegó en una hora: { $goal }
goal-cycles = { $n ->
    [one] se acople el embrague
   *[other] el embrague se haya acoplado { $n } veces
 }
goal-empty = se vacíe la lata
goal-steady = la salida esté estable
goal-minutes = { $n ->
    [one] pase { $n } minuto
   *[other] pasen { $n } minutos
 }
goal-below = { $what } baje de { $value }
goal-above = { $what } pase de { $value }
goal-other = suceda
quantity-low = el lado de baja
quantity-high = el lado de alta
quantity-vent = la salida

## Dibujo

levels = Niveles
levels-idea = la presión es altura, todo corre cuesta abajo
outside = aire exterior
cabin = aire de cabina
atmosphere = atmósfera
condenser = condensador
evaporator = evaporador
accumulator = acumulador
compressor = compresor
orifice = orificio
limit = 80 %
lifts = sube { $x }
drive-loose = correa, conector o batería sueltos
falls = cae { $x }
bursts = revienta
switch-out = embrague suelto
switch-in = embrague acoplado
key-temperature = frío a caliente
key-liquid = líquido
key-vapour = vapor
key-heat = calor
can-label = lata { $number }, { $t }
levels-spoken = Niveles según la presión. Repisa de alta: manómetro { $high }, { $high-place ->
        [above] arriba de la línea del aire exterior, soltando calor
       *[below] sin pasar la línea del aire exterior
    }. Repisa de baja: manómetro { $low }, { $low-place ->
        [below] debajo de la línea del aire de cabina
       *[above] sin bajar de la línea del aire de cabina
    }. { $clutch ->
        [in] El compresor sube gas de la repisa de baja a la de alta
       *[out] El compresor descansa
    }. { $can }.
hangs-pump = bomba de vacío
    .spoken = La bomba de vacío está en la manguera de servicio
hangs-cylinder = cilindro de carga
    .spoken = El cilindro de carga está en la manguera de servicio
hangs-nitrogen = nitrógeno
    .spoken = La botella de nitrógeno seco está en la manguera de servicio
hangs-machine = recuperadora
    .spoken = La recuperadora está en la manguera de servicio
levels-no-can = No hay lata en la manguera de servicio
levels-can = La lata { $number }, a { $t }, está { $place ->
        [above] arriba de
       *[below] al nivel o debajo de
    } la repisa de baja { $flow ->
        [gives] y entrega gas
        [takes] y se está llenando
       *[rests] y no entrega nada
    }

## Gráfica

chart = Gráfica de tiempo
chart-length = Duración de la gráfica
chart-high = alta
chart-low = baja
chart-vent = salida, barra de embrague
chart-cabin = cabina
chart-vacuum = vacío
chart-spoken = Presiones, temperatura de salida y embrague en el tiempo; la tabla de abajo da los números
numbers = Números
numbers-caption = Lecturas en el tiempo, la última al final
numbers-table = Gráfica como tabla
column-time = Tiempo
column-low = Baja
column-high = Alta
column-vent = Salida
column-cabin = Cabina
column-vacuum = Vacío
column-clutch = Embrague
now = ahora
minutes = { $n } min
minutes-ago = { "\u2212" }{ $n } min
mark-can = lata { $n }
mark-empty = vacía
mark-engine-on = motor
mark-engine-off = motor apagado
mark-burst = reventó
mark-cut-out = corte
mark-hose-burst = reventó la manguera
mark-pump-on = válvula de la bomba abierta
mark-pump-off = válvula de la bomba cerrada
mark-gauge-loop = vacuómetro al circuito
mark-gauge-pump = vacuómetro a la bomba
mark-relief = alivio
