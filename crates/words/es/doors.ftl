# Las cuatro puertas y lo que pasa al frente detrás de cada una.

doors = Puertas
door-explore = Explorar
door-service = Cargar y dar servicio
door-diagnose = Diagnosticar
door-class = Clase

day = El día
vehicle-more = Régimen del motor, ventilador
hose-nothing = No hay nada conectado.

invites = Aquí no hay nada abierto. Abra un dibujo o una gráfica:
wait-until = Esperar hasta que { $goal }
strip-vent = salida

## El estante

shelf = Fichas de trabajo
shelf-idea = Tome una ficha. Se abre su taller, en pausa, y sus pasos quedan junto a los controles.
card-minutes = unos { $n } min de taller
card-steps = { $n ->
    [one] { $n } paso
   *[other] { $n } pasos
 }
card-done = hecha
card-back = Devolver la ficha
card-sheet = Abrir la hoja completa

## Clase

class-idea = Frente a otros: cifras más grandes y lo que se puede repartir.

link-code = Código QR del enlace
link-code-idea = El taller como estaba cuando se copió el enlace. No se envía nada: el enlace lo contiene todo.

plant = Provocar una falla
plant-idea = Aparece en este taller mientras trabaja, como en la calle, y quien trabaja aquí tiene que encontrarla.
plant-after = Empieza
plant-over = Crece
plant-now = ya
plant-at-once = de golpe
plant-minutes = en { $n } min
plant-secret = Aviso
secret-off = se dice
secret-on = en secreto
plant-do = Provocarla
plant-clear = Quitarla
plant-something = Algo en secreto

compare = Comparar tres talleres
compare-idea = El mismo taller tres veces con un solo reloj; dos difieren en una cosa cada uno. Lo que haga en este taller se hace en todos, y al retroceder retroceden todos.
compare-names = Nombres
compare-names-off = ocultos
compare-names-on = a la vista
compare-bay = Taller { $letter }
compare-this = este taller
compare-with = { $fault }, { $severity }
compare-inside = Por dentro
compare-charge = Refrigerante en el circuito
compare-air = Aire en el circuito
compare-behind = Se está poniendo al día.
compare-halted = Se ha detenido.
compare-clutch = Embrague acoplado { $percent } % del minuto, { $cycles ->
    [one] { $cycles } ciclo
   *[other] { $cycles } ciclos
 }
compare-strip = Últimos cinco minutos
compare-strip-of = Últimos cinco minutos de los tres: { $reading }
compare-cycle = Presión y entalpía, los tres

## Tema

theme = Tema
theme-system = como el sistema
theme-light = claro
theme-dark = oscuro
