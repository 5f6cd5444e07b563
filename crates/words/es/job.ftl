# El trabajo: el paso que sigue con su razón, y las precauciones.

next = Sigue
show-me = Muéstreme
spoken-next = Sigue: { $what }
next-stop-engine = Aléjese y apague el motor
    .why = El motor empuja gas y aceite por lo que quedó abierto, y al lado giran la banda y el ventilador.
next-keep-away = No se acerque hasta que deje de salir gas, y ayude a quien se lastimó
    .why = Lo que sale congela la piel y ciega. Abra las puertas, sin llama; enjuague ojos y piel congelada con agua tibia y llame al médico.
next-air-drawn-in = Está entrando aire: busque la abertura, ciérrela y haga vacío otra vez
    .why = El circuito estaba vacío, así que le entran el aire y la humedad del taller. El aire no se condensa nunca, y el agua forma ácido y hielo.
next-vacuum-lost = El vacío no se mantiene: busque por dónde entra aire, ciérrelo y haga vacío otra vez
    .why = Los manómetros suben sin que nada se haya dejado entrar. Una fuga los sube hasta la presión del taller; la humedad sola se detiene antes.
next-cap-ends = Algo quedó abierto: tápelo o ármelo
    .why = Un extremo abierto toma humedad y suciedad desde el primer minuto.
next-unknown-charge = Nadie ha pesado lo que hay en el circuito: recupérelo, haga vacío y cargue por peso
    .why = Los manómetros no dicen la carga. Una lata encima de una carga desconocida es adivinar.
next-burst-can = La lata reventó: cierre las válvulas y quítela
    .why = Lo que tenía está ahora en el taller.
next-shut-high-valve = Cierre la válvula de alta
    .why = Por ella el lado de alta baja a la manguera amarilla: a una lata, que revienta, o al taller.
next-shut-open-hose = Cierre la válvula de baja: la manguera amarilla está abierta al taller
    .why = A un circuito vacío le entra aire; de uno lleno se sale el refrigerante.
next-put-low-coupler = Ponga el acople de baja en su puerto
    .why = La lata alimenta el circuito por la manguera azul.
next-take-can = Enrosque una lata en la manguera amarilla de servicio
    .why = Por peso hay { $given } de { $label }.
next-open-tap = Abra la llave de la lata
    .why = Su gas llena entonces la manguera amarilla, y sigue al circuito si hay una válvula de mano abierta.
next-purge = Purgue la manguera amarilla hasta sacar el aire
    .why = El aire de la manguera entraría al circuito y ahí no se condensa nunca.
next-stop-purge = Ya salió el aire: apriete la manguera
    .why = De aquí en adelante solo se pierde refrigerante.
next-start-engine = Arranque el motor
    .why = El compresor baja el lado de baja por debajo de la presión de la lata.
next-ac-on = Encienda el A/C
    .why = El embrague puede acoplarse en cuanto el lado de baja tenga presión.
next-blower-high = Ponga el soplador al máximo
    .why = El aire caliente sobre el evaporador mantiene la demanda durante la carga.
next-open-low-valve = Abra la válvula de baja
    .why = La presión de la lata está por encima de la del lado de baja, así que el vapor entra.
next-watch-charging = Está entrando vapor: vigile la lata, el embrague y los manómetros
    .why = El embrague entra y sale seguido por el interruptor de baja hasta que entre suficiente.
next-warm-can = La lata se enfrió y va lenta: póngala en agua tibia
    .why = Al hervir se enfría y su presión baja a la del lado de baja. Agua hasta 52 °C (125 °F).
next-cool-bath = El agua está muy caliente para una lata: bájela de 52 °C (125 °F)
    .why = La presión de la lata sube hacia su marca de reventar.
next-turn-upright = Enderece la lata
    .why = Líquido en la succión con el compresor en marcha puede romperlo.
next-can-empty-shut = La lata está vacía: cierre la válvula de baja
    .why = Así nada regresa mientras cambia de lata.
next-can-empty-tap = La lata está vacía: cierre su llave
    .why = Si la quita con la llave abierta, el vapor que le queda se va al taller.
next-can-empty-swap = Tome una lata nueva
    .why = La etiqueta pide más de lo que esta traía.
next-charged-shut = Entraron { $given } de { $label }: cierre la válvula de baja y deje que se estabilice
    .why = La carga de la etiqueta está adentro, hasta donde permiten las latas.
next-overcharged = Entraron { $given } de { $label }, es demasiado: cierre la válvula de baja
    .why = Vigile el lado de alta: el líquido se acumula en el condensador.
next-too-much = Entraron { $given } de { $label }: conecte la recuperadora y saque lo que sobra
    .why = Lo que sobra se acumula como líquido en el condensador y sube la alta. Solo la recuperadora lo saca; nunca lo suelte al aire.
next-settle = Cargado y cerrado: deje que se estabilice
    .why = El embrague cicla más despacio y las presiones se estabilizan. Salvo en los días más calientes, la salida baja de 10 °C (50 °F).
next-shut-tap = La salida ya enfría. Cierre la llave de la lata
    .why = La meta está cumplida; ahora recoja.
next-take-low-coupler = Quite el acople de baja
    .why = Su válvula se cierra al quitarlo.
next-engine-off = Apague el motor
    .why = El acople de alta se quita en reposo: con el motor en marcha su manguera guarda gas caliente de descarga.
next-take-high-coupler = Quite el acople de alta
    .why = En reposo su manguera ya no guarda gas caliente de descarga.
next-try-hotter = Pruebe una cosa: haga el día más caliente
    .why = Mire cómo el lado de alta sube con la línea del aire exterior. Todo se puede deshacer.
next-free = Pruebe lo que quiera o abra una ficha de trabajo
    .why = Los manómetros responden, y todo se puede deshacer.
next-done = Listo: por peso la carga está adentro, y los acoples están fuera
    .why = Pruebe qué habría pasado con una lata o con seis: empiece de nuevo arriba, o siga y vea.

caution = Precaución
understood = Entendido
spoken-caution = Precaución. { $title }. { $text }
standing = En vehículos reales siga los datos del fabricante y las normas locales; el servicio pagado exige certificación.
ask-open = ¿Abrirlo con presión?
ask-unknown = ¿Abrirlo sin saber qué presión tiene adentro?
ask-gauges = Lado de baja: { $low }. Lado de alta: { $high }.
ask-off = manómetro sin conectar
ask-nobody = No hay ningún manómetro conectado: nadie sabe qué presión tiene adentro.
ask-can = En la lata abierta, según la báscula: { $mass }.
ask-do = Hacerlo de todos modos
ask-leave = Dejarlo así
ask-ahead = Una copia de este trabajo, { $time } después: { $what }.
ahead-nothing = Una copia de este trabajo, { $time } después: todavía no se nota nada.
ahead-can = lata a { $pressure }, con { $mass }
ahead-burst = la lata reventó
ahead-lost = { $mass } de refrigerante en el taller
ahead-air = entraron { $mass } de aire
ahead-hurt = usted sale lastimado
missing-goggles = Sin lentes.
missing-gloves = Sin guantes.
missing-both = Sin lentes ni guantes.
put-on = Ponérselos
harm-bare = El refrigerante le dio en los ojos y en las manos sin guantes
harm-goggles = El refrigerante le dio en las manos sin guantes
harm-gloves = El refrigerante le dio en los ojos
harm-protected = El refrigerante le dio en la cara y las muñecas
harm-burst = La lata reventó a su lado
    .text = Vuelan metal y líquido helado. Saque a todos, abra las puertas, sin llama. Ojos y piel congelada: agua tibia durante 15 minutos, sin frotar, al médico de inmediato.
first-aid = Ojos y piel congelada: agua tibia durante 15 minutos, sin frotar, al médico de inmediato. Sin llama.
emergency-engine = Apague el motor
emergency-shut = Cierre lo que alcance
emergency-away = Aléjese y abra las puertas
caution-high-valve = Válvula de alta abierta con el motor en marcha
    .text = El gas de descarga pasa a la manguera amarilla, a lo que esté conectado o al taller. Una lata chica puede reventar desde 270 psi (1860 kPa). La válvula roja queda cerrada mientras el motor está en marcha.
caution-bath = Agua a más de 52 °C (125 °F)
    .text = En agua más caliente la lata pasa de la presión que aguanta. Sin llama y sin agua hirviendo.
caution-liquid = Líquido en la succión con el compresor en marcha
    .text = Una lata volteada da líquido. El compresor no puede comprimir líquido: se rompen válvulas y pistones.
caution-belt = La banda y el ventilador giran
    .text = Aparte mangueras, mangas y dedos; el ventilador eléctrico puede arrancar solo. Saque los gases del escape afuera.
caution-eyes = Ojos y manos
    .text = El { $gas } que escapa hierve a { $celsius } ({ $fahrenheit }) y congela la piel y los ojos. Use lentes y guantes, con buena ventilación.
caution-burns = El { $gas } arde (ligeramente inflamable, clase A2L de ASHRAE 34): sin llama, sin chispa, sin nada caliente cerca.
caution-other-gas = Una lata de otro gas
    .text = Su conexión no entra en esta manguera: un adaptador anula lo que mantiene separados los gases. Mezclada, toda la carga es desecho, la presión ya no dice la temperatura, y se arruinan recuperadora y cilindro. Identifique primero. Use lentes y guantes.
caution-venting = Eso suelta refrigerante al taller
    .text = Soltarlo al aire está prohibido y daña el clima. Cierre antes la llave y las válvulas; lo que tenga que salir va a la recuperadora.
caution-open-hose = La manguera amarilla está abierta al taller
    .text = Una válvula abierta comunica ahora el circuito con el aire: le entra aire y humedad, o se sale el refrigerante.
caution-pressure-to-pump = Presión en la bomba de vacío
caution-pressure-to-pump-text = El refrigerante a presión expulsa el aceite de la bomba y sale al ambiente. Recupérelo antes, hasta que los manómetros queden en cero o por debajo.
caution-pump-stops-open = Bomba parada con su válvula abierta
caution-pump-stops-open-text = Una bomba que se detiene con su válvula abierta deja volver el aire, y con él la humedad, al circuito. Cierre primero la válvula.
caution-hot-oil = Aceite caliente
caution-hot-oil-text = El aceite de una bomba que ha trabajado quema la piel. El aceite usado es residuo: entréguelo como piden las normas locales.

## Acts with tools
act-air-pressure = Presión del aire del día
act-take-pump = Bomba de vacío en la manguera de servicio
act-pump-oil = Aceite de la bomba de vacío cambiado
act-vacuum-gauge = Vacuómetro cambiado de lugar
act-take-self-sealing-can = Lata de autocierre en la manguera de servicio
act-tap-screw = Aguja de la llave de la lata
act-take-can-of = Lata de { $gas } en la manguera de servicio
act-identify-low = Identificador de refrigerante: muestra en el puerto de baja
act-identify-high = Identificador de refrigerante: muestra en el puerto de alta
act-take-cylinder = Cilindro de carga en la manguera de servicio
act-dose = Dosis ajustada en el cilindro
act-take-machine = Recuperadora en la manguera de servicio
act-machine-stop = Vacío al que la recuperadora se detiene
act-change-cylinder = Cilindro de recuperación cambiado
act-disconnect = Manguera de servicio libre
act-zero-scale = Báscula puesta a cero
act-take-nitrogen = Nitrógeno conectado
act-regulator = Regulador de nitrógeno ajustado
act-sniff = Búsqueda con el detector de fugas
act-soap = Búsqueda con jabón
act-dye = Tinte puesto en el circuito
act-lamp = Búsqueda con la lámpara
act-clamp = Termómetro de pinza movido
act-note-readings = Lecturas anotadas
act-label = Etiqueta pegada
act-stopwatch = Cronómetro
act-pump = Bomba de vacío
act-isolation = Válvula de aislamiento
act-ballast = Válvula del lastre de gas
act-machine = Recuperadora
act-open-joint = Unión abierta
act-cap-joint = Unión tapada
act-close-joint = Unión armada
act-remove-part = Pieza desmontada
act-refit-part = Pieza montada otra vez
act-new-part = Pieza nueva montada
act-fit-orifice = Tubo de orificio montado
act-drain-part = Aceite sacado
act-pour-oil = Aceite puesto
act-inject-oil = Aceite inyectado
act-port-cap = Tapa de un puerto de servicio
act-core = Núcleo de un puerto de servicio
act-convert-port = Conexión de conversión de un puerto de servicio

## Lectura, diagnóstico y protección
act-read = Lectura: { $meter }
act-suspect = Sospecha: { $fault } ({ $percent } %)
act-commit = Diagnóstico: { $fault }, { $severity }
act-plant = Provocada: { $fault }, { $severity }
act-clear = Quitada: { $fault }
act-secret = Algo del instructor
act-wear = { $what ->
    [goggles] Lentes de seguridad
   *[gloves] Guantes
 }: { $on ->
    [on] puestos
   *[off] quitados
 }
refused-busy = tiene las manos ocupadas { $seconds } s más
refused-not-connected = no hay nada que leer ({ $meter }): no está conectado, no está ahí o no tiene resultado
refused-by-hand = { $fault } no aparece por sí sola: hay que ponerla, sacarla o armarla a mano
refused-no-reading = no existe la lectura { $asked }: se han tomado { $taken }
meter-name = { $key ->
    [low-gauge] manómetro de baja
    [high-gauge] manómetro de alta
    [vacuum-gauge] vacuómetro
    [vent-thermometer] termómetro de la salida
    [cabin-thermometer] termómetro de la cabina
    [thermometer] termómetro del taller
    [hygrometer] higrómetro
    [clamp] termómetro de pinza
    [anemometer] anemómetro
    [tachometer] tacómetro
    [clutch-meter] multímetro en el embrague
    [scale] báscula
    [stopwatch] cronómetro
    [identifier] identificador de refrigerante
    [identifier-air] identificador de refrigerante
    [surface] mano y ojo
   *[search] última búsqueda de fugas
 }
severity-name = { $key ->
    [slight] leve
    [moderate] moderada
    [severe] grave
   *[extreme] extrema
 }
