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

## Tema

theme = Tema
theme-system = como el sistema
theme-light = claro
theme-dark = oscuro
