# Settings.

settings = Settings
units-us = US
units-si = SI
units-mixed = Mixed
pressure = Pressure
temperature = Temperature
mass = Mass
units-rest = Speed, flow, power
choice-psi = psig, inHg
choice-kpa = kPa
choice-bar = bar
choice-fahrenheit = °F
choice-celsius = °C
choice-ounce = ounces
choice-gram = grams
choice-us = mph
choice-si = km/h

storage-full = This browser's storage is full, so what you do from now on is lost by a reload. Everything else works; the take can be saved as a file in the settings.
update-there = A newer version is there. Your bay is kept.
update-now = Take it now
offline-ready = Kept on this device: works without a network.
offline-not-yet = Not yet kept on this device for times without a network.
resume-differs = Taken up with a newer version of the physics: readings may differ from what you saw.

take = This bay
take-save = Save as a file
take-link = Copy a link
take-open = Open a saved file
link-copied = Link copied: { $link }
link-too-long = Too much was done here for a link, so it was saved as a file.
projector = Show to a class
print = Print readings and chart
file-broken = This file could not be opened: { $why }. Your bay is as it was.
link-broken = This link could not be opened: { $why }.
