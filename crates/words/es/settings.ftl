# Ajustes.

settings = Ajustes
units-us = EE. UU.
units-si = SI
units-mixed = Mixtas
pressure = Presión
temperature = Temperatura
mass = Masa
units-rest = Velocidad, flujo, potencia
choice-psi = psig, inHg
choice-kpa = kPa
choice-bar = bar
choice-fahrenheit = °F
choice-celsius = °C
choice-ounce = onzas
choice-gram = gramos
choice-us = mph
choice-si = km/h

storage-full = El espacio de este navegador está lleno: lo que haga desde ahora se pierde al recargar. Todo lo demás funciona; la grabación se puede guardar como archivo en los ajustes.
update-there = Hay una versión más nueva. Su trabajo se conserva.
update-now = Actualizar ahora
offline-ready = Guardado en este aparato: funciona sin red.
offline-not-yet = Todavía no está guardado en este aparato para usarlo sin red.
resume-differs = No termina donde dice: se editó, o lo hizo otra versión de este programa. Las lecturas pueden diferir de las que se vieron.
resume-unknown = Lo grabó otra versión de este programa, con otra física. Se volvió a reproducir; las lecturas pueden diferir y su resultado no es comparable.
resume-skipped = { $count ->
    [one] Una acción ya no es posible y se omitió: { $acts }.
   *[other] { $count } acciones ya no son posibles y se omitieron: { $acts }.
 }

## Trabajos guardados

bays = Sus trabajos
bays-idea = Los últimos ocho trabajos que dejaron la vista. Cada uno sigue donde quedó.
bays-none = Todavía ninguno: un trabajo llega aquí cuando otro toma su lugar.
bay-open = Abrir
bay-about = { $clock } · { $acts ->
    [one] { $acts } acción
   *[other] { $acts } acciones
 } · { $when }
bay-unreadable = Un trabajo que esta versión no puede leer
bay-in-other-tab = Abierto en otra pestaña
bay-remove = Quitar
bay-remove-sure = Quitar del todo
bay-remove-not = Conservar
bay-kept = El trabajo anterior queda guardado.
bay-back = Volver a su trabajo: { $name }, { $clock }
bay-again = Probar de nuevo
bay-elsewhere = Su trabajo "{ $name }" está abierto en otra pestaña. Esta pestaña tiene un trabajo propio.
bay-elsewhere-still = "{ $name }" está abierto en otra pestaña. Ciérrelo allí primero.
bay-full = No se puede guardar un trabajo más largo: 24 horas o 100 000 acciones. Se detiene aquí; guárdelo, vuelva atrás en el tiempo o empiece de nuevo.

take = Este trabajo
take-save = Guardar como archivo
take-link = Copiar un enlace
take-open = Abrir un archivo guardado
link-copied = Enlace copiado: { $link }
link-too-long = Un enlace a este taller tendría { $length } caracteres; el correo y los chats cortan enlaces de más de { $most }. Páselo como archivo: contiene lo mismo.
link-no-packer = Este navegador no puede escribir un enlace a un taller en el que ya se hizo algo. Páselo como archivo: contiene lo mismo.
projector = Mostrar a un grupo
print = Imprimir lecturas y gráfica
file-broken = No se pudo abrir este archivo: { $why }. Su taller sigue como estaba.
link-broken = No se pudo abrir este enlace: { $why }.
link-unknown = aquí no hay ningún taller llamado «{ $name }»
link-length = tiene { $length } caracteres, y un enlace tiene como máximo { $most }: fue modificado, o se juntaron dos
link-damaged = está dañado o incompleto; cópielo entero
link-large = desempaquetado es mayor que { $most }, lo máximo que cabe en un enlace
link-version = es de la versión { $version }, que esta página no sabe leer; una más nueva quizá sí
