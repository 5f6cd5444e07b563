# Cuánto del taller ve quien trabaja en él.

sight-how = Cómo se trabaja
sight-open = A la vista
sight-hands = A mano
sight-exam = Examen
sight-begin = Comenzar: { $name }
sight-hint = A la vista: se ve todo. A mano: lo que dicen los instrumentos, los ojos, los oídos, el olfato y las manos. Examen: a mano, sin volver atrás ni pistas.
sight-hands-idea = Usted tiene instrumentos, ojos, oídos, olfato y manos. Lo que pasa adentro no se ve.
sight-exam-idea = Igual que a mano: sin volver atrás, sin deshacer y sin pistas.
sight-open-inside = Mostrar el interior
sight-open-inside-idea = Con esto termina el trabajo a mano, sin vuelta atrás. El trabajo guardado dice a qué hora se mostró el interior.
sight-open-inside-now = Mostrarlo ahora
sight-hand-in = Entregar el examen
sight-hand-in-idea = Con esto termina el examen, sin vuelta atrás. El trabajo guardado dice a qué hora se entregó. Después se puede mostrar el interior.
sight-hand-in-now = Entregarlo ahora
sight-handed-in = Entregado con el reloj en { $clock }. Ya se puede mostrar el interior.
sight-opened-hands = Se trabajó a mano hasta que el reloj marcó { $clock }; después se mostró el interior.
sight-opened-exam = Fue un examen hasta que el reloj marcó { $clock }; después se mostró el interior.
sight-later = Hasta dónde llegó el trabajo y cuánto vale la declaración se dice cuando se muestra el interior.

## Lo que se ve, se oye, se toca y se huele

around = Alrededor del vehículo
around-view = Por fuera
around-idea = lo que dicen las manos, los ojos, los oídos y el olfato
around-drawing = El circuito por fuera. La lista dice cómo se siente y cómo se ve cada lugar numerado.
touch-icy = helado
touch-cool = fresco
touch-day = a la temperatura del día
touch-warm = tibio
touch-hot = quema: no se aguanta la mano
surface-compressor = Compresor
surface-discharge = Línea de descarga
surface-condenser-in = Condensador, donde entra el gas
surface-condenser-out = Condensador, donde sale el líquido
surface-liquid = Línea de líquido
surface-evaporator-in = Tubo de entrada al evaporador
surface-evaporator-out = Tubo de salida del evaporador
surface-accumulator = Acumulador
surface-suction = Línea de succión
surface-vessel = Recipiente en la manguera de servicio
surface-felt = { $touch }, { $coat }
surface-gone = no está puesto
sense-hiss-faint = Se oye apenas un siseo de gas.
sense-hiss-loud = Se oye un siseo fuerte de gas.
sense-relief = La válvula de alivio está abierta y sopla.
sense-blows = Sale gas por lo que está abierto.
sense-smell = El embrague patina y huele a quemado.
sense-drips = Gotea condensado debajo del vehículo.
sense-stain = Mancha de aceite: { $place }.
sense-none = No se ve, ni se oye, ni se huele nada más.
weighed = Lo que se pesó
weighed-charge = En el circuito, por peso
weighed-unknown = nadie lo sabe
weighed-label = Carga de la etiqueta
