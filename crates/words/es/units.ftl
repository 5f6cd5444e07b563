# Unidades, como se leen en voz alta.

minus = menos { $value }
no-reading = sin lectura
hours = { $n } { $n ->
    [one] hora
   *[other] horas
 }
whole-minutes = { $n } { $n ->
    [one] minuto
   *[other] minutos
 }
whole-seconds = { $n } { $n ->
    [one] segundo
   *[other] segundos
 }
unit-psig = { $n } { $n ->
    [one] libra por pulgada cuadrada manométrica
   *[other] libras por pulgada cuadrada manométricas
 }
unit-in-hg-vacuum = { $n } { $n ->
    [one] pulgada de mercurio de vacío
   *[other] pulgadas de mercurio de vacío
 }
unit-kpag = { $n } { $n ->
    [one] kilopascal manométrico
   *[other] kilopascales manométricos
 }
unit-psia = { $n } { $n ->
    [one] libra por pulgada cuadrada absoluta
   *[other] libras por pulgada cuadrada absolutas
 }
unit-kpa = { $n } { $n ->
    [one] kilopascal absoluto
   *[other] kilopascales absolutos
 }
unit-micron = { $n } { $n ->
    [one] micra
   *[other] micras
 }
unit-pa = { $n } { $n ->
    [one] pascal
   *[other] pascales
 }
unit-deg-f = { $n } { $n ->
    [one] grado Fahrenheit
   *[other] grados Fahrenheit
 }
unit-deg-c = { $n } { $n ->
    [one] grado Celsius
   *[other] grados Celsius
 }
unit-kelvin = { $n } { $n ->
    [one] kelvin
   *[other] kelvins
 }
unit-oz = { $n } { $n ->
    [one] onza
   *[other] onzas
 }
unit-gram = { $n } { $n ->
    [one] gramo
   *[other] gramos
 }
unit-milligram = { $n } { $n ->
    [one] miligramo
   *[other] miligramos
 }
unit-mph = { $n } { $n ->
    [one] milla por hora
   *[other] millas por hora
 }
unit-km-h = { $n } { $n ->
    [one] kilómetro por hora
   *[other] kilómetros por hora
 }
unit-rpm = { $n } { $n ->
    [one] revolución por minuto
   *[other] revoluciones por minuto
 }
unit-percent = { $n } { $n ->
    [one] por ciento
   *[other] por ciento
 }
unit-bar-g = { $n } { $n ->
    [one] bar manométrico
   *[other] bares manométricos
 }
