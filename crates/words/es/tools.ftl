# Herramientas, banco y trabajo.

## Manguera de servicio
hose = Manguera de servicio
hose-tool = Herramienta
hose-connect = Conectar
hose-free = Quitarla
tool-can = Lata
tool-self-sealing = Lata de autocierre
tool-other-can = Lata de { $gas }, con adaptador
tool-machine = Recuperadora
tool-pump = Bomba de vacío, { $size }
tool-cylinder = Cilindro de carga
tool-nitrogen = Nitrógeno seco
pump-run = Bomba
pump-valve = Válvula de aislamiento
pump-ballast = Válvula del lastre de gas
pump-change-oil = Cambiar el aceite
pump-oil = Aceite en la mirilla
pump-oil-clear = claro
pump-oil-milky = lechoso: agua
pump-oil-low = bajo la marca
gauge-place = Vacuómetro en
gauge-place-states =
    .off = la bomba
    .on = el circuito
machine-run = Recuperadora
machine-stop = Se detiene a
machine-new-cylinder = Cilindro vacío
recovered = Recuperado
cylinder-full = Cilindro lleno al
separator-oil = Aceite separado
cylinder-valve = Válvula
cylinder-way = Entrega
cylinder-way-states =
    .off = vapor
    .on = líquido
dose = Dosis
dose-give = Entregar la dosis
dose-left = Falta por salir
cylinder-holds = Contiene
regulator = Regulador
vacuum-gauge = Vacuómetro
vacuum-over = sobre su rango
gauge-at = en { $place }
scale-zero = Tara

wear = Protección
goggles = Lentes
gloves = Guantes
worn-states =
    .off = sin poner
    .on = puestos

## Instrumentos
instruments = Instrumentos
identifier = Identificador
identify-none = sin muestra todavía
identify-working = analizando: faltan { $left }
identify-pure = un solo gas, { $gas } { $share }; aire { $air }
identify-mixed = mezcla: { $shares }; aire { $air }
search = Búsqueda de fugas
detector = Detector
soap = Jabón
lamp = Lámpara
dye = Poner tinte
search-none = sin buscar todavía
search-found = { $place }: hay fuga
search-clear = { $place }: no se halló nada
clamp = Termómetro de pinza
clamp-off = quitado
sight-glass = Mirilla
glass-clear = limpia
glass-wet = gotas
glass-bubbles = líquido con burbujas
glass-liquid = llena de líquido
anemometer = Aire en la salida
hygrometer = Higrómetro
clutch-meter = Medidor en el embrague
clutch-hub = Cubo del embrague
pulley = Polea
heater-hose = Manguera de calefacción pinzada
cover-condenser = Cartón sobre medio condensador
mist-condenser = Rociar agua sobre el condensador
warm-orifice = Poner un paño mojado caliente en el tubo de orificio
try-out = Ver cómo responde
put-right = Arreglar fuera del circuito
mend-blend-door = Ajustar la compuerta de mezcla
mend-radiator = Limpiar el radiador
mend-cycling-switch = Cambiar el interruptor de ciclado
mend-cut-out = Cambiar el corte de alta presión
mend-clutch-circuit = Reparar el circuito del embrague
mend-fan = Reparar el ventilador
mend-hood-seals = Colocar los sellos del condensador
mend-recirculation-door = Liberar la compuerta de recirculación
mend-compound-gauge = Ajustar a cero el manómetro de baja
mend-high-gauge = Ajustar a cero el manómetro de alta
mend-low-coupler = Cambiar el acople de baja
mend-high-coupler = Cambiar el acople de alta
stopwatch = Cronómetro
stopwatch-start = Iniciar
stopwatch-stop = Detener
note-before = Anotar lecturas de antes
note-after = Anotar lecturas de después
noted = anotado
label-write = Etiqueta: { $what }
label-technician = Técnico
label-shop = Taller y su dirección
label-date = Fecha
label-oil-maker = Fabricante del aceite
label-oil-volume = Aceite puesto
label-old-covered = Etiqueta vieja tapada
inject-oil = Inyectar aceite, { $volume }
point-discharge = línea de descarga
point-condenser-in = entrada del condensador
point-condenser-middle = mitad del condensador
point-condenser-out = salida del condensador
point-liquid-line = línea de líquido
point-evaporator-in = entrada del evaporador
point-evaporator-out = salida del evaporador
point-accumulator = acumulador
point-suction = línea de succión
point-radiator-hose = manguera del radiador

## Banco
pick-up = Tome
press-a-joint = Oprima una unión, un puerto, un interruptor o una pieza para trabajar en ella.
put-it-on = Oprima el lugar donde va.
searched = Revisado:
stand-unsearched = sin buscar
cloth-empty = Aquí queda lo que saque.
meter = Multímetro
piece-compressor = Compresor
piece-discharge-hose = Manguera de descarga
piece-condenser = Condensador
piece-liquid-line = Línea de líquido
piece-orifice = Tubo de orificio
piece-evaporator = Evaporador
piece-accumulator = Acumulador
piece-suction-hose = Manguera de succión
piece-relief-valve = Válvula de alivio
joint = Unión { $from } / { $to }
shaft-seal = Retén del eje del compresor
port-low = Puerto de baja
port-high = Puerto de alta
stand-unopened = sin revisar
stand-leaks = fuga encontrada
stand-no-leak = sin fuga encontrada
stand-made = armada: { $seal }
stand-open = abierta
stand-capped = tapada
stand-fitted = montado
stand-bench = en el banco
stand-coupled = con acople
stand-cap = con tapa
stand-core = con núcleo, sin tapa
stand-no-core = sin núcleo
seal-new-oiled = O-ring nuevo, aceitado
seal-new-dry = O-ring nuevo, seco
seal-old-oiled = O-ring viejo, aceitado
seal-old-dry = O-ring viejo, seco
seal-missing = sin O-ring
do-open = Abrir
do-cap = Tapar ambos extremos
do-close = Armar
do-remove = Sacar
do-refit = Volver a poner
do-new = Conseguir uno nuevo
do-drain = Escurrir el aceite
do-flush = Lavar con solvente y secar con nitrógeno
do-blow = Soplar con nitrógeno
do-pour = Verter aceite
do-fit-orifice = Introducirlo
with-seal = Con
amount = Cantidad
oil-kind = Aceite
bore = Diámetro
turned = Malla de entrada
turned-states =
    .off = hacia el condensador
    .on = hacia el evaporador
rings = O-rings
rings-states =
    .off = sin poner
    .on = puestos
port-cap = Tapa
low-tap = Puerto de baja en uso
low-tap-states =
    .off = en el acumulador
    .on = en el compresor
port-core = Núcleo
port-core-states =
    .off = fuera
    .on = puesto
coupler-first = El acople está en este puerto: quítelo primero.
held-by = Sigue conectado en { $joints }: ábrala primero.
what-is-seen = Qué se ve
shut-unseen = Cerrado: abra una de sus uniones y mire.
sight-blocked = { $much ->
    [none] malla limpia
    [some] algo de suciedad en la malla, { $share } obstruido
   *[lots] malla tapada, { $share } obstruido
 }
sight-face = { $much ->
    [none] cara limpia
    [some] cara sucia, pasa el { $share } del aire
   *[lots] cara llena de suciedad, pasa el { $share } del aire
 }
sight-beads = { $much ->
    [none] sin perlas
    [some] algunas perlas de desecante
   *[lots] lleno de perlas: se rompió la bolsa del desecante
 }
sight-metal = { $much ->
    [none] sin metal en el aceite
    [some] brillo fino en el aceite
   *[lots] aceite lleno de metal
 }
sight-dark = { $much ->
    [none] aceite claro
    [some] aceite pardo
   *[lots] aceite negro, quemado
 }
sight-water = { $much ->
    [none] no se ve agua
    [some] gotas de agua
   *[lots] aceite lechoso por el agua
 }
sight-oil = { $much ->
    [none] seco
    [some] mojado de aceite
   *[lots] hay aceite dentro
 }
drained = Sacado de ella
poured = Vertido en ella
renewed = Nuevos
worksheet-note = Mida lo que sale. Ponga la misma cantidad, del mismo tipo.

## Trabajo
job = Trabajo
job-idea = la queja, los pasos y el informe
job-card = Ficha de trabajo
job-open = Abrir el trabajo
job-again = Empezar de nuevo este trabajo
job-leave = Dejar el trabajo
job-none = Elija una ficha de trabajo y ábrala: su vehículo toma el lugar de este.
job-steps = Pasos
step-open = pendiente
step-holding = se mantiene
step-done = hecho
step-lost = perdido
step-accept = Hecho cuando
hint-first = Primera pista
hint-second = Segunda pista
harms = Daños causados
harm-none = Ninguno hasta ahora.
harm-at = { $time }: { $what }
sign-off = Entregar
signed-apart = No es comparable: parte se hizo con otra física.
signed-passed = Aprobado. Todos los pasos están hechos y nada se dañó.
signed-missing = Todavía no. Falta: { $steps }
signed-failed = No aprobado: { $harms }
record = Informe del trabajo
record-print = Imprimir
paper = Hoja de trabajo
paper-complaint = Queja
vehicle-compact = Auto compacto, tipo de los años 90
vehicle-crossover = Crossover, tipo de los años 2020
vehicle-van = Camioneta de trabajo, tipo de los años 80, convertida
vehicle-van-as-built = Camioneta de trabajo, tipo de los años 80, de fábrica
record-before = Antes
record-after = Después
record-not-noted = sin anotar
record-gas = Refrigerante
record-label = Carga de la etiqueta
record-charged = Cargado
record-vented = Perdido al aire
record-co2 = como { $mass } de dióxido de carbono
record-oil-out = Aceite sacado
record-oil-in = Aceite puesto
record-parts = Piezas nuevas
record-none = ninguna
record-searched = Fugas buscadas en
record-caps = Tapas en los puertos
record-injuries = Lesiones
record-ventings = Veces que se soltó gas
record-time = Tiempo
record-save = Guardar como { $kind }
record-hold = de { $from } a { $to } en { $time }
hold = Prueba de vacío
hold-not-done = no hecha
hold-held = aguantó
hold-rose = subió
state = Su declaración
state-idea = Declare lo que hizo. Al firmar se abre el informe del taller y se ve en qué difieren. Lo que deje en blanco no se compara.
state-unsaid = sin declarar
state-leaks = Fuga hallada en
state-none-vented = No se soltó nada al aire
state-caps = Las dos tapas están puestas
state-in-order = La conversión está en regla: gas, conexiones, etiqueta, interruptor de alta
state-sign = Firmar el informe
state-matches = Firmado. Todo lo declarado coincide con el informe del taller.
state-differs = Firmado, pero el informe del taller dice otra cosa: { $lines }
performance = Prueba de rendimiento
perf-idea = No cambie nada durante ocho minutos. Los promedios de los minutos 7 y 8 se comparan con los de un vehículo en buen estado de este tipo en este día. La espera se puede saltar; los minutos cuentan igual. Los manómetros cuentan con el embrague acoplado. En un día templado un vehículo sano cicla: una falla que mantiene el embrague acoplado puede enfriar más que él.
perf-engine = Motor de 1500 a 2000 rpm
perf-ac = A/C encendido
perf-blower = Soplador al máximo
perf-recirculation = Recirculación
perf-windows = Ventanas y puertas cerradas
perf-gauges = Los dos acoples puestos, válvulas cerradas
perf-begin = Empezar la prueba
perf-running = En marcha: { $share }
perf-disturbed = Interrumpida: cambió un ajuste o el día. Empiece de nuevo.
perf-passed = Aprobada: todo dentro de los límites de este día.
perf-failed = No aprobada.
perf-found = Leído
perf-least = De
perf-most = A
perf-good = dentro
perf-bad = fuera
record-unsigned = Lo que el taller registró por su cuenta aparece aquí cuando la declaración está firmada.
record-wrong = { $value } (declarado: { $stated })
next-spoilt = Todos los pasos están hechos, pero este trabajo ya no se puede aprobar
    .why = Lo que costó está en la vista Trabajo. Vuelva a antes de que pasara, o abra la ficha otra vez.
next-sign-off = Todos los pasos están hechos: entregue
    .why = Abra la hoja completa: el botón está bajo los pasos.
yes = sí
no = no

## Avisos, sucesos y negativas de estas herramientas
caution-recovery-cylinder = Cilindro de recuperación
    .text = Un solo gas por cilindro y líquido hasta el 80 % como máximo: lleno, revienta al calentarse. Vigile la báscula.
caution-opens-under-pressure = El circuito tiene presión
    .text = Abrirlo ahora suelta líquido que congela y ciega, y gas al aire. Recupere primero, hasta que los manómetros no suban.
caution-nitrogen = Nitrógeno a alta presión
    .text = Solo con regulador y válvula de alivio; nunca oxígeno ni aire del compresor. Abra despacio, sin pasar el límite de baja.
caution-cap-at-once = Tape de inmediato los extremos
    .text = Un extremo abierto toma humedad del aire desde el primer minuto.
caution-solvent = Solvente
    .text = Su vapor es inflamable y dañino: circuito cerrado, buena ventilación, sin llamas, guantes y lentes, y lo que diga su hoja de seguridad. Lo que sale es residuo peligroso. Seque con nitrógeno y regulador, nunca con aire del taller. El aceite se va también: mida el nuevo.
caution-oil = Aceite
    .text = El aceite usado es residuo: entréguelo. El nuevo absorbe agua: mantenga cerrada la botella. Use guantes.
event-engine-too-hot = El motor está demasiado caliente: su control soltó el embrague
event-gauge-red = El indicador de temperatura del motor está en rojo
event-coolant-boils = El anticongelante hierve: sale vapor bajo el cofre. Deje enfriar el motor antes de que alguien abra el tapón
event-engine-stalled = El motor se apagó: se le evaporó el anticongelante
event-clutch-smells = El embrague huele a quemado: patina
event-injury = El refrigerante alcanzó a quien lo abrió
event-dosed = La válvula del cilindro se cerró sola: salió la dosis
event-machine-at-vacuum = La recuperadora se detuvo en su vacío
event-cylinder-full = La recuperadora se detuvo: su cilindro está lleno
refused-nothing-attached = no hay nada conectado a la manguera de servicio
refused-no-cylinder = no hay cilindro de carga en la manguera de servicio
refused-no-machine = la recuperadora no está en la manguera de servicio
refused-no-nitrogen = el nitrógeno no está en la manguera de servicio
refused-wrong-fitting = una conexión para { $fitting } no entra en mangueras para { $hose }
refused-cylinder-full = el cilindro de recuperación está en su límite: cámbielo
refused-joint-made = la unión no está abierta
refused-joint-apart = la unión ya está abierta
refused-part-out = falta una pieza: póngala primero
refused-part-in = la pieza está en el vehículo: sáquela primero
refused-no-room = no cabe tanto aceite
refused-not-flushed = esta pieza no se lava: el solvente se queda dentro; escúrrala o ponga una nueva
refused-not-coupled = el acople de baja no está en su puerto
refused-coupled = el acople está en el puerto: quítelo primero
refused-one-port = este vehículo tiene un solo puerto de baja
refused-cap-on = la tapa está en el puerto: quítela primero
refused-cylinder-empty = { $asked } g es más que los { $held } g del cilindro

## Acciones
oil-ester = éster
oil-mineral = mineral
machine-states =
    .off = apagada
    .on = en marcha
port-cap-states =
    .off = quitada
    .on = puesta
next-work-tool = Use el equipo conectado a la manguera amarilla
    .why = Sus interruptores y válvulas están en el grupo Manguera de servicio. Los manómetros, el vacuómetro y la báscula dicen cuándo termina.

## Conversion
gauge-set-for = Juego de manómetros para
conversion-charge = Conversión: { $least } a { $most } de { $new }, del { $low } al { $high } % de los { $label } de { $old } de la etiqueta del fabricante.
old-core = Núcleo viejo
old-core-states =
    .off = se queda
    .on = cambiado
do-convert = Enroscar una conexión para { $gas }
seals-all = O-rings nuevos en cada unión
low-switch = El interruptor de ciclado abre a
screw-lower = Tornillo 1/4 de vuelta: corte más bajo
screw-higher = Tornillo 1/4 de vuelta: corte más alto
cut-out = Corte por alta presión
do-cut-out = Poner un corte por alta, { $pressure }
new-label = Etiqueta nueva
record-lacks = A la conversión le falta
record-faults = Fallas con las que llegó
record-fault = { $name }. { $sign }. { $cure }.
record-altered = Alterado en su ficha técnica
lacks-old-gas = sacar el gas viejo
lacks-fittings = conexiones de su propio gas
refused-wrong-port = un acople para { $hose } no entra en un puerto para { $port }
refused-set-in-hand = ya tiene en la mano el juego para { $gas }
refused-hose-taken = hay algo conectado a la manguera de servicio: quítelo primero
refused-fitting-locked = la conexión para { $gas } se queda puesta: encima no va otra
refused-cut-out-fitted = ya hay un corte por alta
refused-screw-at-end = el tornillo no da más

## Lo que un paso pide a la vez, y lo que costó un trabajo
asked-below = { $what } por debajo de { $value }
asked-above = { $what } por encima de { $value }
reading-low-switch = Punto de apertura del interruptor de ciclado
reading-can-liquid = Líquido en la lata
reading-charge = Carga en el circuito
reading-air = Aire en el circuito
reading-water = Agua libre en el circuito
reading-desiccant-water = Agua en el desecante
reading-oil = Aceite en el circuito
reading-seals-leak = Fuga de las uniones por año
reading-leaks = Fuga del circuito al año
reading-loose-beads = Perlas sueltas en el circuito
reading-repairs-cleared = Reparaciones revisadas y sin fuga
reading-cold-at-orifice = Salto frío hallado en el tubo de orificio
reading-let-out = Refrigerante soltado a mano
reading-suction-liquid = Líquido que aspira el compresor
reading-r12 = R-12 en el refrigerante
reading-purity = Pureza según el identificador
reading-wear = Desgaste del compresor
reading-mineral-oil = Aceite mineral en el aceite
reading-hurt = Usted se lastimó
reading-loop-open = Hay una unión abierta
reading-leak-found = Fuga hallada
reading-new-fittings = Conexiones para R-134a en los dos puertos
reading-new-seals = O-rings nuevos y aceitados en todas las uniones
reading-new-accumulator = Acumulador nuevo
reading-in-order = Conversión en regla
reading-noted-before = Lecturas anotadas antes del trabajo
reading-noted-after = Lecturas anotadas después del trabajo
reading-can = Lata en la manguera
reading-can-burst = Lata reventada
severity-slight = leve
severity-serious = serio
severity-grave = grave
cost-hurt = { $n ->
    [one] usted se lastimó una vez
   *[other] usted se lastimó { $n } veces
 }
cost-burst = { $n ->
    [one] reventó una lata
   *[other] reventaron { $n } latas
 }
cost-hose-burst = reventó la manguera de descarga, con el reloj en { $time }
cost-seized = el compresor se agarrotó, con el reloj en { $time }
cost-seized-clutch = el compresor se agarrotó, con el reloj en { $time }, y quemó su embrague
cost-liquid = { $n ->
    [one] el compresor aspiró líquido una vez
   *[other] el compresor aspiró líquido { $n } veces
 }, { $time } en total: { $life } de su vida útil
cost-wear = el calor, la presión, la suciedad o la falta de aceite le quitaron al compresor { $life } de su vida útil
cost-air = { $mass } de aire entraron al circuito
cost-water = { $mass } de agua libre entraron al circuito
cost-vented = { $mass } de refrigerante se fueron al aire
signed-passed-with = Aprobado: todos los pasos están hechos. Daños causados: { $harms }
state-left-out = Sin declarar: { $lines }
state-impossible = { $line }: escriba un número de 0 a { $most }
