# Units as they are read aloud.

minus = minus { $value }
no-reading = no reading
hours = { $n } { $n ->
    [one] hour
   *[other] hours
 }
whole-minutes = { $n } { $n ->
    [one] minute
   *[other] minutes
 }
whole-seconds = { $n } { $n ->
    [one] second
   *[other] seconds
 }
unit-psig = { $n } { $n ->
    [one] pound per square inch gauge
   *[other] pounds per square inch gauge
 }
unit-in-hg-vacuum = { $n } { $n ->
    [one] inch of mercury vacuum
   *[other] inches of mercury vacuum
 }
unit-kpag = { $n } { $n ->
    [one] kilopascal gauge
   *[other] kilopascals gauge
 }
unit-psia = { $n } { $n ->
    [one] pound per square inch absolute
   *[other] pounds per square inch absolute
 }
unit-kpa = { $n } { $n ->
    [one] kilopascal absolute
   *[other] kilopascals absolute
 }
unit-micron = { $n } { $n ->
    [one] micron
   *[other] microns
 }
unit-pa = { $n } { $n ->
    [one] pascal
   *[other] pascals
 }
unit-deg-f = { $n } { $n ->
    [one] degree Fahrenheit
   *[other] degrees Fahrenheit
 }
unit-deg-c = { $n } { $n ->
    [one] degree Celsius
   *[other] degrees Celsius
 }
unit-kelvin = { $n } { $n ->
    [one] kelvin
   *[other] kelvins
 }
unit-oz = { $n } { $n ->
    [one] ounce
   *[other] ounces
 }
unit-gram = { $n } { $n ->
    [one] gram
   *[other] grams
 }
unit-milligram = { $n } { $n ->
    [one] milligram
   *[other] milligrams
 }
unit-mph = { $n } { $n ->
    [one] mile an hour
   *[other] miles an hour
 }
unit-km-h = { $n } { $n ->
    [one] kilometre an hour
   *[other] kilometres an hour
 }
unit-rpm = { $n } { $n ->
    [one] revolution a minute
   *[other] revolutions a minute
 }
unit-percent = { $n } { $n ->
    [one] per cent
   *[other] per cent
 }
unit-bar-g = { $n } { $n ->
    [one] bar gauge
   *[other] bars gauge
 }
