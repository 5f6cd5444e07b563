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

storage-full = This browser's storage is full, so a reload loses what you do from now on. Everything else works; the settings can save this bay as a file.
update-there = A newer version is ready. Your bay is kept.
update-now = Update now
offline-ready = Stored on this device: works without a network.
offline-not-yet = Not stored on this device yet: needs a network.
resume-differs = It does not end where it says: it was edited, or another version of this program made it. Readings may differ from those seen then.
resume-unknown = Another version of this program recorded it, with another physics. It has been played again; readings may differ, and its mark is not comparable.
resume-skipped = { $count ->
    [one] One act is not possible any more and was left out: { $acts }.
   *[other] { $count } acts are not possible any more and were left out: { $acts }.
 }

## Bays that are kept

bays = Your bays
bays-idea = The last eight bays you left. Each goes on where you left it.
bays-none = None yet: a bay comes here when another takes its place.
bay-open = Open
bay-about = { $clock } · { $acts ->
    [one] { $acts } act
   *[other] { $acts } acts
 } · { $when }
bay-unreadable = A bay that this version cannot read
bay-in-other-tab = Open in another tab
bay-remove = Remove
bay-remove-sure = Remove for good
bay-remove-not = Keep it
bay-kept = The bay before this one is kept.
bay-back = Back to your bay: { $name }, { $clock }
bay-again = Try again
bay-elsewhere = Your bay "{ $name }" is open in another tab. This tab has a bay of its own.
bay-elsewhere-still = "{ $name }" is open in another tab. Close it there first.
bay-full = This bay is as long as one can be kept: 24 hours or 100 000 acts. It stops here; save it, go back in time, or start over.

take = This bay
take-save = Save as a file
take-link = Copy a link
take-open = Open a saved file
link-copied = Link copied: { $link }
link-too-long = A link to this bay would have { $length } characters; mail and chat break links of more than { $most }. Hand it on as a file: it holds the same.
link-no-packer = This browser cannot write a link to a bay in which something was done. Hand it on as a file: it holds the same.
projector = Show to a class
print = Print readings and chart
file-broken = This file could not be opened: { $why }. Your bay is as it was.
link-broken = This link could not be opened: { $why }.
link-unknown = there is no bay called “{ $name }” here
link-length = it has { $length } characters, and a link has at most { $most }: it was changed, or two were put together
link-damaged = it is damaged or cut short; copy it whole
link-large = unpacked it is larger than { $most }, the most a link may hold
link-version = it is of version { $version }, which this page cannot read; a newer page may
