# Dibujos y gráficas.

## Views

views = Vistas
save-as = Guardar como
view-parts = Piezas
parts-idea = donde van las manos: oprima una unión para abrirla, una pieza para ver adentro
part-close = Cerrarla
work-away = Apartar
closed-loop = Cerrado: léalo desde afuera, con manómetro, termómetro, tacto y vista.
close-loop = Cerrar el circuito
open-loop = Abrir el circuito
notes = Lo que muestra
bay-cabin = cabina
bay-engine = compartimiento del motor
bay-grille = parrilla
bay-block = motor
bay-air = entra
bay-belt = banda
large-gauges = Manómetros grandes
sound = Sonido
strip-earlier = Antes
strip-later = Después
strip-closer = Acercar
strip-wider = Alejar
points = Puntos en una tabla
strip-keys = Las flechas mueven el cursor, con Mayús la ventana, más y menos acercan y alejan, Fin vuelve al presente
strip-cursor-vacuum = { $read }, vacío { $vacuum }
strip-cursor = { $time }: baja { $low }, alta { $high }, salida { $vent }, cabina { $cabin }
part-spoken = { $part }, { $t }, { $coat }
part-is = { $part }, { $state }
unit-of = { $what }, { $unit }
wear-line = { $cause }: { $share }

## Charts of properties

plot-pressure-enthalpy = Ciclo
plot-pressure-enthalpy-idea = presión contra entalpía: los estados del circuito en el mapa de su gas
plot-moist-air = Aire
plot-moist-air-idea = psicrométrica: qué se mezcla, qué quita el serpentín, qué calientan los ductos
plot-pressure-temperature = Punto de ebullición
plot-pressure-temperature-idea = en reposo ambos lados están sobre la línea, en el aire exterior
plot-water-boils = Vacío
plot-water-boils-idea = qué tan profundo debe ser para que el agua se evapore hirviendo

## Parts

part-compressor = Compresor
part-compressor-does = Sube vapor del lado de baja al lado de alta. No puede comprimir líquido.
part-discharge = Línea de descarga
part-discharge-does = Gas caliente al condensador. Aquí están el puerto de alta y la válvula de alivio, y el interruptor de corte donde lo hay.
part-condenser = Condensador
part-condenser-does = Da su calor al aire exterior, hasta que todo el gas es líquido.
part-liquid = Línea de líquido
part-liquid-does = Líquido tibio rumbo al tubo de orificio.
part-orifice = Tubo de orificio
part-orifice-does = Una malla y un tubo angosto de latón: la caída del lado de alta al lado de baja.
part-evaporator = Evaporador
part-evaporator-does = Hierve el líquido con el calor del aire de la cabina, y seca ese aire.
part-accumulator = Acumulador
part-accumulator-does = Retiene líquido, devuelve aceite, seca con su bolsa. Aquí están el puerto de baja y el interruptor de ciclado.
part-suction = Línea de succión
part-suction-does = Vapor frío y aceite de regreso al compresor.
part-low-hose = Manguera de baja
part-low-hose-does = Azul: del puerto de baja a los manómetros.
part-high-hose = Manguera de alta
part-high-hose-does = Roja: del puerto de alta a los manómetros.
part-service-hose = Manguera de servicio
part-service-hose-does = Amarilla: de los manómetros a la lata.
part-can = Lata
part-can-does = Líquido abajo, vapor arriba. Con la válvula arriba da vapor, con la válvula abajo líquido.

## Figures of an opened part

figure-temperature = Temperatura
figure-pressure = Presión
figure-boils-at = Hierve a
figure-superheat = Sobrecalentamiento
figure-subcooling = Subenfriamiento
figure-refrigerant = Refrigerante adentro
figure-liquid = Líquido adentro
figure-level = Nivel de líquido
figure-spills-at = Se derrama arriba de
figure-liquid-leaving = Líquido en lo que sale
figure-flow = Flujo
figure-oil = Aceite adentro
figure-air = Aire adentro
figure-air-share = Parte del aire en la presión
figure-water = Agua libre
figure-desiccant = Agua en la bolsa
figure-desiccant-load = Bolsa llena al
figure-ice = Hielo en el orificio
figure-open = Orificio abierto
figure-debris = Suciedad en la malla
figure-heat = Calor
figure-shaft = Potencia en el eje
figure-turns = Vueltas
figure-wear = Desgaste
figure-on-fins = Agua en las aletas
figure-dripped = Escurrida
figure-dry-cells = Secciones ya secas
figure-full-cells = Secciones llenas de líquido
cause-age = como llegó
cause-slugging = golpe de líquido
cause-washing = aceite lavado
cause-dryness = funcionó sin aceite
cause-heat = funcionó muy caliente
cause-pressure = demasiada presión
cause-grit = polvo de desecante
coat-dry = seco
coat-dew = mojado con condensado
coat-frost = escarchado

## Names on the charts

name-enthalpy = entalpía
name-absolute-pressure = presión absoluta
name-gauge-pressure = presión manométrica
name-temperature = temperatura
name-humidity-ratio = agua en el aire
name-saturation = saturación
name-isotherm = una temperatura
name-quality = parte de vapor
name-relative-humidity = humedad relativa
name-freezing = hielo abajo
name-cycle = alrededor del circuito
name-mixing = mezcla
name-coil = serpentín
name-reheat = ductos
name-reading = lectura
name-suction = succión
name-discharge = descarga
name-in-condenser = en el condensador
name-before-orifice = antes del orificio
name-behind-orifice = después del orificio
name-in-evaporator = en el evaporador
name-accumulator-out = del acumulador
name-outside = exterior
name-cabin = cabina
name-mixed = entrada del serpentín
name-coil-out = salida del serpentín
name-vent = salida
name-low-side = lado de baja
name-high-side = lado de alta
name-static = en reposo
name-boils-here = hierve el agua
name-outside-warmth = aire exterior
name-superheat = sobrecalentamiento
name-subcooling = subenfriamiento

## Notes on the drawing of levels

note-falls-into-can = El lado de alta cae a la lata desde { $x }. Cierre la válvula roja: una lata revienta.
note-above-burst = El lado de alta está { $x } arriba de la marca donde una lata revienta. La válvula roja queda cerrada.
note-air-falls-in = El taller está { $x } más alto que esta manguera, así que entra aire.
note-air-into-loop = El taller está { $x } más alto que el circuito, así que entra aire por lo que quedó abierto.
note-below-atmosphere = Más bajo que el aire de afuera ({ $x }): por cualquier fuga aquí entran aire y humedad.
note-escapes = La manguera está { $x } arriba del taller, así que sale refrigerante.
note-air-on-top = Aire atrapado: esto está { $x } arriba de lo que tiene el refrigerante solo a su temperatura. El aire no se condensa; recupere y haga vacío.
note-dries = Tan profundo que el agua hierve a { $x }, más frío que el día: lo mojado ahí adentro se evapora.
note-not-dry-yet = Casi vacío, pero el agua hierve apenas a { $x }, más caliente que el día: todavía no se seca.
note-static = En reposo el circuito es un termómetro: con algo de líquido queda al nivel del aire exterior, { $x }, por poco que haya.
note-all-vapour = No hay ni una gota de líquido: con { $x } está debajo de la línea del aire exterior.
note-can-above = La lata está { $x } arriba del lado de baja. Solo esa caída mueve su gas.
note-can-sunk = Al hervir, la lata se enfrió a { $x }, hasta el lado de baja: nada mueve su gas. El agua tibia la sube.
note-can-level = A { $x } la lata no está más alta que el lado de baja: nada mueve su gas hasta que baje el lado de baja.
note-ice-grows = Se congeló agua donde cae el líquido: el hielo cierra { $x } del tubo de orificio. En reposo se derrite; un circuito seco no lo tiene.
note-worn = El compresor se desgastó { $x } con el uso. Oprímalo en el dibujo de piezas para ver la causa.
note-high-above = El lado de alta debe estar arriba del aire exterior, aquí por { $x }: el calor solo sale cuesta abajo.
note-low-below = El lado de baja debe quedar debajo del aire de la cabina, aquí por { $x }: hacia abajo entra su calor.

## Vehículos para empezar

start-compact = Auto compacto en buen estado, encendido
start-crossover = Crossover en buen estado, encendida
start-retrofit = Camioneta antes de su conversión, con R-12
whatif = ¿Y si no hubiera hecho esto?
whatif-none = (un paso que omitir)
whatif-away = Quitarlo
whatif-working = La visita se repite sin ese paso: { $share } %.
whatif-nothing = Sin ese paso ningún manómetro marcaría otra cosa.
whatif-said = Sin ese paso { $what } marcaría { $x }: { $by } { $way }. Las líneas de puntos lo muestran.
whatif-high = el lado de alta
whatif-low = el lado de baja
whatif-vent = la salida central
whatif-charge = la carga en el circuito
whatif-more = más
whatif-less = menos
