# El vehículo desconocido: recibirlo, lecturas, sospechas, repaso.

drill = El vehículo desconocido
drill-idea = Llega una camioneta con una queja. Algo tiene, o no tiene nada. Tome las lecturas que necesite, nombre la falla y vea cuál lectura la delató.
drill-number = Número de vehículo
drill-number-hint = El mismo número trae la misma camioneta: déselo a un compañero, o use el que le dieron.
drill-slight = También fallas leves
drill-exam = Como examen: sin volver atrás, sin pistas
drill-quote = «{ $text }»
drill-bring = Recibirla
drill-any = Cualquier vehículo, trabajado a mano
drill-vehicle = Vehículo desconocido { $number }
drill-label = { $name }, { $gas }, etiqueta { $charge }
drill-next = Recibir la siguiente
drill-time = Tiempo usado
drill-minutes = { $spent } de 30 min

complaint = { $key ->
    [hot-engine] El motor se calienta en cuanto prendo el A/C.
    [little-air] Casi no sale aire por las salidas.
    [fades] Empieza frío y luego se rinde.
    [warm] Sopla caliente, en la ciudad y en la carretera.
    [warm-standing] En carretera va bien. En los semáforos sopla caliente.
    [warm-driving] Parado enfría. En la carretera no alcanza.
   *[none] Que yo sepa no tiene nada. Revísela antes del verano, por favor.
 }

hand-in = Entregar
hand-in-idea = Entregue lo que hizo: el archivo, o el enlace como una línea para pegar. Contiene su código, cada acción y lectura, y lo que nombró.
slip-open = Abrirlo en la página
slip-hands = Trabaje a mano: tome lecturas, nombre la falla y entregue su archivo o enlace.
slip-exam = Es un examen: sin volver atrás y sin pistas. Tome lecturas, nombre la falla y entregue su archivo o enlace.

## Lecturas

drill-read = Tomar una lectura
drill-read-now = Leer
drill-put-on = Ponerlo
drill-sample = Tomar una muestra
drill-clamp = Termómetro de pinza en
drill-hand = Mano y ojo en
drill-where = { $meter }: { $place }
drill-hub = plato del embrague
drill-pulley = polea
drill-air = aire en la muestra
drill-slips = Lecturas tomadas
drill-slips-none = Todavía ninguna. Aquí queda cada lectura con su minuto y lo que marcó el instrumento; marque las que muestran su falla.
drill-cite = la muestra
drill-found = hallado
drill-not-found = nada hallado
drill-volts = { $volts } V
drill-amperes = { $amperes } A
drill-doubt = Ningún instrumento es exacto: un manómetro que marca de más lo hace siempre.

## Qué es

drill-say = ¿Qué tiene?
drill-fault = Falla
drill-nothing = No tiene nada
drill-in-loop = Lo que contiene el circuito
drill-in-parts = Piezas
drill-in-controls = Interruptores, cables, ventiladores y compuertas
drill-in-passages = Pasos estrechados
drill-in-gauges = Los manómetros del taller
drill-much = Cuánto
drill-cure = Qué la arregla
drill-sure = Qué tan seguro
drill-commit = Es esto: { $fault }
drill-commit-hint = No se puede retirar. Seguro y acertado suma; seguro y equivocado resta.

## El repaso

debrief = Lo que dijeron sus lecturas
debrief-working = Cada sospecha repite lo que usted hizo, en su propio taller: { $percent } %
debrief-it-was = Era: { $fault }
debrief-it-was-much = Era: { $fault }, { $much }
debrief-said = Usted dijo: { $fault }, { $percent } % seguro
debrief-decided = Decidió la lectura { $number }: { $reading } { $value }. Desde entonces { $fault } iba adelante.
debrief-undecided = Ninguna de sus lecturas lo resolvió.
debrief-rival = La rival más difícil fue { $fault }.
debrief-telling = Esto las habría distinguido: { $reading }. Aquí { $own }, con { $fault } { $theirs }.
debrief-no-telling = Nada de lo que leen estos instrumentos las habría distinguido aquí: son gemelas.
debrief-beside = En la lectura { $number } la suya marcó { $own }; lo mismo en una camioneta con { $fault }: { $theirs }.
debrief-chart = Sospechas después de cada lectura
debrief-chart-idea = El alto de una franja dice qué tan probable era esa falla hasta ahí.
debrief-before = antes
debrief-reading = Lectura
debrief-likely = Lo más probable entonces
debrief-others = otras
debrief-share = { $fault } { $percent } %
debrief-marks = Puntos: { $total } de 100
debrief-open = Nada de lo que leyó descarta: { $faults }
debrief-spoilt = Lo que se estropeó en el camino: { $what }
mark-line = { $key ->
    [found] La falla correcta, o una que se lee igual
    [cure] Lo que la arregla
    [evidence] Las lecturas que nombró la muestran
    [telling] Tomó las lecturas que la distinguen de sus parecidas
    [certainty] Qué tan seguro estaba
    [safety] Nadie herido, nada estropeado, nada liberado
    [order] Nombrada antes de cambiar algo
   *[time] Tiempo usado
 }
