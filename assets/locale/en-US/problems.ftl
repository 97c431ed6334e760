# What is wrong with a file. Keys, kinds and values stand as the file writes them.

cli-bad-files = { $all ->
    [1] The file has problems
   *[other] { $count ->
        [one] 1 of { $all } files has problems
       *[other] { $count } of { $all } files have problems
    }
}
cli-error = error: { $what }
cli-file-error = error: { $path }: { $why }
cli-broke-down = error: the simulation broke down ({ $why }); this is a defect of the program
cli-problem-at = { $file }:{ $line }:{ $column }: { $what }
cli-problems-more = { $count ->
    [one] { $file }: and 1 problem more
   *[other] { $file }: and { $count } problems more
}
cli-old-name = { $file }: { $old } is called { $new } by now; it was read as that

# Writing.

mistake-too-long = the text has { $bytes } bytes, and no more than { $most } are read
mistake-too-many = there are more than { $most } values in the text, and no more are read
mistake-too-deep = brackets stand more than { $most } deep within each other
mistake-nothing = there is nothing in the text
mistake-character = `{ $found }` does not belong here
mistake-hidden = the character { $code }, which steers what shows it, is not allowed; hint: take it out
mistake-unclosed = { $bracket } that opens here is never closed
mistake-closes-nothing = a bracket closes here that was never opened; hint: take it out
mistake-comma-missing = a comma or a closing bracket is missing before this; hint: values and keys are separated by commas
mistake-colon-missing = a colon is missing after the key `{ $key }`
mistake-value-missing = the key `{ $key }` has no value
mistake-after-the-end = there is more text after the end
mistake-escape = a backslash stands before a letter that it does not go with; hint: write two for one
mistake-unknown-key = there is no key `{ $key }` in { $inside }: keys { $known }{ $nearest-id ->
    [none] ; hint: take it out
   *[names] { $nearest }
}
mistake-missing-key = the key `{ $key }` is missing in { $inside }{ $example-id ->
    [none] ; hint: add `{ $key }: …`
   *[of] { $example }
}
mistake-doubled-key = the key `{ $key }` is here twice: each key once; hint: take one of the two out
mistake-no-key = a value without a key; hint: write its key and a colon before it
mistake-key-too-much = no key belongs here; hint: take out `{ $key }:`
mistake-unknown-name = `{ $name }` is not known here: one of { $known-any }{ $nearest }
mistake-wrong-sort = { $wanted-id ->
    [text-or-texts] { $wanted } belongs here
   *[other] { $wanted } belongs here, not `{ $written }`
}{ $example }
mistake-not-finite = { $written } is no number to reckon with; hint: write a number
mistake-count = { $wanted ->
    [one] 1 value belongs in these brackets, and there are { $found }
   *[other] { $wanted } values belong in these brackets, and there { $found ->
        [one] is 1
       *[other] are { $found }
    }
}
mistake-no-brackets = `{ $name }` stands without brackets
mistake-needs-value = `{ $name }` needs brackets with a value{ $example }
mistake-not-taken = `{ $written }` can't stand here

bracket-round = the bracket `(`
bracket-square = the bracket `[`
bracket-curly = the bracket `{ "{" }`
bracket-quote = the text in double quotes
bracket-comment = the comment

wanted-number = a number
wanted-whole = a whole number, zero or more,
wanted-text = a text in double quotes
wanted-character = a character in single quotes
wanted-yes-or-no = true or false
wanted-list = a list in square brackets
wanted-map = a map in curly brackets
wanted-keyed = a value in round brackets, with keys,
wanted-values = a value in round brackets
wanted-name = a name
wanted-nothing = ()
wanted-text-or-texts = a text in double quotes, or a map of language to text,

inside-file = the file
inside-of = `{ $value }`
example-none = { "" }
example-of = ; hint: for example `{ $value }`
nearest-none = { "" }
nearest-names = ; hint: did you mean { $names-count ->
    [one] `{ $names-any }`
   *[other] one of { $names-any }
}?

# Calls.

call-mistake-version = version { $version } is not allowed: { $read }; hint: this program reads call files of version { $read }
call-mistake-file-name = the file's name gives the call the id `{ $id }`, which is not allowed: lower case letters a to z, digits, and hyphens between them; hint: rename the file, for example `cold-morning.ron`
call-mistake-empty = { $key } is empty: a text; hint: write at least one sentence
call-mistake-too-long = { $key } has { $characters } characters: at most { $most }; hint: make it shorter
call-mistake-no-english = { $key } has no text in American English; hint: add `"en-US": "…"`, which everybody gets whose language is not there
call-mistake-no-language = { $key } has a text in `{ $language }`, which is no language; hint: write it like en-US or es
call-mistake-too-many-entries = { $key } has { $entries } entries: at most { $most }
call-mistake-answered-twice = { $question } is answered twice: each question at most once; hint: put both answers into one
call-mistake-unknown-system = there is no system "{ $name }": { $known-any }{ $nearest }
call-mistake-out-of-bounds = { $key } { $amount } is not allowed: { $low-written } to { $high }{ $meaning }; hint: { $advice }
call-mistake-higher-first = { $key } has its higher value first: the lower value, then the higher; hint: swap the two
call-mistake-two-units = { $key } is given in two units: one unit for both values; hint: write both in the unit of the first
call-mistake-dew-point = dew_point { $amount } lies above the coldest outdoor air: at most { $high } (lowest mean less swing); hint: air cannot be colder than its dew point: lower the dew point or the swing
call-mistake-no-faults = faults is empty: at least one fault; hint: name what is wrong with the plant
call-mistake-fault-twice = { $kind } is here twice with the same place: each kind once, a leak once for each place; hint: take one of the two out
call-mistake-no-such-part = { $kind } cannot happen to the system { $system }, which has no such part; hint: take another kind, or another system
call-mistake-holds-from-the-start = { $kind } holds from the start: 0 s; hint: write `onset: (Hours(0), Hours(0))`
call-mistake-needs-place = { $kind } needs a place: one or more of { $places-any }; hint: for example `places: [IndoorCoil]`; with several, the seed draws one
call-mistake-has-no-places = { $kind } has no places: places only for { $with }; hint: take `places` out
call-mistake-place-twice = a place is here twice: each place once; hint: take one of the two out
call-mistake-no-way = one_of is empty: at least one milestone; hint: name what must have been done before
call-mistake-before-itself = { $milestone } cannot come before itself: other milestones than `before`; hint: take it out of one_of
call-mistake-prerequisite-twice = the same prerequisite is here twice: each once; hint: take one of the two out
call-mistake-circle = { $milestone } can never be reached: the order runs in a circle; hint: these wait for one another: { $waiting }
call-mistake-rival-is-fault = { $kind } is a fault of this call, so it cannot be a rival: kinds that are not in `faults`; hint: take it out
call-mistake-kind-twice = { $kind } is here twice: each kind once; hint: take one out
call-mistake-weight = the weight of { $kind } is { $written }: { $low } to { $high }, where a kind that is not named has 1; hint: nothing is impossible, and nothing is certain, before the first reading
call-mistake-cleared = cleared does not name the faults of this call, which are { $kinds }; hint: a call is solved when all its faults are gone

advice-raise = raise it
advice-lower = lower it
advice-as-share = a share, not percent: write { $written }
advice-until-arrival = this is the time from the start of the simulation until the technician arrives
advice-from-start = this is counted from the start of the history
advice-sound-visit = this is the time that a sound visit needs
advice-at-steady-state = this is how long the plant must run at steady state

meaning-plain = { "" }
meaning-no-percent = { " " }(share, not percent)
meaning-plate-charge = { " " }(share of the data plate's charge)
meaning-supply-air = { " " }(share of the supply air)
meaning-return-air = { " " }(share of the return air)
meaning-dry-air = { " " }of dry air
meaning-severity = { " " }(none of it to the whole of it)
meaning-severity-loaded-filter = { " " }(share of the filter's open area lost)
meaning-severity-fouled-evaporator = { " " }(share of the coil passage shut)
meaning-severity-collapsed-return-duct = { " " }(share of the duct's area lost)
meaning-severity-closed-registers = { " " }(share of the registers' area shut)
meaning-severity-dirty-blower-wheel = { " " }(0 clean to 1, half the wheel's air)
meaning-severity-wrong-speed-tap = { " " }(0 right tap to 1, the lowest tap)
meaning-severity-weak-blower-capacitor = { " " }(share of the capacitance lost)
meaning-severity-weak-fan-capacitor = { " " }(share of the capacitance lost)
meaning-severity-weak-compressor-capacitor = { " " }(share of the capacitance lost)
meaning-severity-seized-blower-motor = { " " }(any above 0)
meaning-severity-open-blower-winding = { " " }(any above 0)
meaning-severity-dead-blower-module = { " " }(any above 0)
meaning-severity-no-blower-command = { " " }(any above 0)
meaning-severity-open-blower-relay = { " " }(any above 0)
meaning-severity-dead-board = { " " }(any above 0)
meaning-severity-thermostat-no-g = { " " }(any above 0)
meaning-severity-thermostat-no-y = { " " }(any above 0)
meaning-severity-broken-y-conductor = { " " }(any above 0)
meaning-severity-shorted-y-conductor = { " " }(any above 0)
meaning-severity-blown-control-fuse = { " " }(any above 0)
meaning-severity-open-transformer = { " " }(any above 0)
meaning-severity-open-condensate-switch = { " " }(any above 0)
meaning-severity-welded-contactor = { " " }(any above 0)
meaning-severity-open-contactor-coil = { " " }(any above 0)
meaning-severity-dead-fan-motor = { " " }(any above 0)
meaning-severity-refrigerant-leak = { " " }(0.02 mm to 1 mm of hole, on a logarithmic scale)
meaning-severity-undercharged = { " " }(share of the charge missing)
meaning-severity-overcharged = { " " }(share of the charge in excess)
meaning-severity-non-condensables = { " " }(0 to 1, 40 g of air)
meaning-severity-kinked-liquid-line = { " " }(share of the line's area lost)
meaning-severity-kinked-suction-line = { " " }(share of the line's area lost)
meaning-severity-plugged-drier = { " " }(share of the drier's passage lost)
meaning-severity-metering-restricted = { " " }(share of the stroke or area lost)
meaning-severity-metering-stuck-open = { " " }(share of the stroke that stays open)
meaning-severity-uninsulated-bulb = { " " }(share of the bulb's heat exchange with cabinet air)
meaning-severity-bulb-loose = { " " }(share of the bulb's heat exchange with warm air)
meaning-severity-bulb-charge-lost = { " " }(share of the bulb's pressure lost)
meaning-severity-orifice-too-small = { " " }(share of the right area missing)
meaning-severity-orifice-too-large = { " " }(area in excess over the right one)
meaning-severity-fouled-condenser = { " " }(share of the outdoor airflow lost)
meaning-severity-compressor-internal-leak = { " " }(share of the compressor's flow that leaks back)

# Moves files and records.

file-mistake-impossible = { $asked } of { $amount } is not possible: { $asked-id ->
    [wait] more than { $low }, up to { $high }; hint: split a longer wait into several
    [limit] more than { $low }, up to { $high }; hint: write the time with its unit, for example Hours(1)
    [test-pressure] more than { $low }, up to { $high }; hint: write the pressure with its unit, for example PoundsGauge(250)
    [recovery] { $low } to { $high }; hint: write the pressure with its unit, for example InchesOfVacuum(10)
    [vacuum] { $low } to { $high }; hint: write the pressure with its unit, for example Microns(500)
    [charge-target] { $low } to { $high }; hint: write the difference with its unit, for example FahrenheitDifference(10)
    [refrigerant] what a scale tells, { $low }, up to { $high }; hint: write the mass with its unit, for example Ounces(8)
   *[set-point] { $low } to { $high }; hint: write the temperature with its unit, for example Fahrenheit(75)
}
file-mistake-same-terminal = both probes are on { $terminal }: two different terminals; hint: give another terminal as `to`
file-mistake-own-move = `{ $work }` has a move of its own; hint: write { $instead }
file-mistake-no-entry = entry 0 is cited; hint: the first entry of the notebook is number 1
file-mistake-too-many-events = { $events } are more than anyone makes: at most { $most }
file-mistake-is-call = this is a call and no visit record
file-mistake-newer = version { $version } of a visit record can't be read: version { $read }; hint: a newer version of the program wrote the record: open it with that one
file-mistake-older = version { $version } of a visit record can't be read: version { $read }; hint: what was read in it was kept as sentences and can't be held against a replay; take its moves out with `rimebench moves` and play them
file-mistake-no-digest = this is no digest: 16 hexadecimal digits; hint: the record was changed by hand
file-mistake-no-name = this is no name of a call: letters, digits, hyphens, dots and underscores, at most 100; hint: the record was changed by hand

asked-wait = a wait
asked-limit = a limit
asked-test-pressure = a test pressure
asked-recovery = a recovery to a pressure
asked-vacuum = a vacuum
asked-charge-target = a target
asked-refrigerant = a mass
asked-set-point = a set point

# Why a record can't be worked again.

replay-error-other-call = the record is of call { $named } ({ $named-digest }), and this is { $given } ({ $given-digest }): it was changed since, or is another one
replay-error-happening = event { $number } of the record can't have happened: { $why }
replay-error-time = event { $number } is recorded at { $at-s } of plant time, which cannot be: it may begin from { $earliest-s } on, within a week of the arrival
replay-error-end = the visit is recorded as over at { $at-s } of plant time, which cannot be: its last event was over at { $earliest-s }, and no visit takes longer than a week
replay-error-digest = the notebook does not match the record: its digest is { $replayed }, the record says { $recorded }. The record was changed by hand, or another version of the program wrote it
replay-error-closing = the record's `closed` does not match its moves: the ticket is closed by CloseTicket only
breakdown-non-finite = the plant's { $state } is no longer a number, { $time-s } after the start of the simulation
breakdown-time-step = a time step of { $written } s is not allowed: above 0 up to 0.5 s

cannot-happen-ticket-closed = the ticket was closed
cannot-happen-severity = a severity lies above 0, and is 1 at most
cannot-happen-no-such-part = the system has no part that this could happen to
cannot-happen-place-missing = the fault needs a place
cannot-happen-place-too-much = the fault has no places
cannot-happen-holds-from-the-start = such a fault is there from the start or not at all
cannot-happen-there-already = the fault was there already
cannot-happen-not-there = no such fault was there
cannot-happen-paused-already = it was paused already
cannot-happen-not-paused = it was not paused
cannot-happen-message-length = the message is empty, or longer than anybody reads
cannot-happen-message-hidden = the message holds a character that steers what shows it

# Files.

file-fault-system = { $said }
file-fault-too-long = more than { $most } bytes are too many
file-fault-no-text = this is not a text file in UTF-8
call-fault-none-of-that-name = there is no call "{ $name }": neither a built-in call ({ $known }) nor a file of that name
call-fault-file = { $path }: { $why }
call-fault-not-here = its call "{ $name }" is neither built in nor a file beside it; give the call's file
call-fault-another = its call "{ $name }" has been changed since, or another version of the program wrote it; give the file of the call as it was
journal-error-file = { $path }: { $why }
journal-error-no-record = { $path } does not begin with the record of a visit

# Quantities as they are typed.

untaken-no-temperature = "{ $typed }" is no temperature; write a number with its unit, like 95F or 35C
untaken-no-unit = { $typed } has no unit; write { $typed }F or { $typed }C
untaken-not-finite = "{ $typed }" is no finite temperature
untaken-below-zero = { $typed } is below absolute zero
untaken-one-of-two = write dry bulb and wet bulb like 80F/67F, or dry bulb and relative humidity like 80F/50%
untaken-no-humidity = "{ $typed }" is no relative humidity
untaken-humidity = a relative humidity of { $typed } is not between 0 % and 100 %
untaken-wet-above-dry = the wet bulb ({ $wet }) cannot be above the dry bulb ({ $dry })
untaken-no-share = "{ $typed }" is no share; write it like 0.9 or 90%
untaken-negative = { $typed } is not allowed: a share is zero or more
untaken-no-hours = "{ $typed }" is no number of hours; write it like 24
untaken-hours = { $typed } is not allowed: from { $low } to { $high } hours

amount = { $unit-id ->
    [one] { $written }
    [share] { $written }
   *[other] { $written } { $unit }
}
unit-one = { "" }
unit-share = { "" }
unit-fahrenheit = °F
unit-celsius = °C
unit-fahrenheit-difference = °F of difference
unit-celsius-difference = °C of difference
unit-ounce = oz
unit-pound = lb
unit-gram = g
unit-kilogram = kg
unit-second = s
unit-minute = min
unit-hour = h
unit-pound-gauge = psig
unit-kilopascal-gauge = kPa gauge
unit-inch-of-vacuum = inHg below the atmosphere
unit-micron = microns
unit-pascal-absolute = Pa absolute
unit-watt = W
unit-watt-per-kelvin = W/K
unit-joule-per-kelvin = J/K
unit-watt-per-square-meter = W/m²
unit-kelvin-per-watt-per-square-meter = K per W/m²
unit-kilogram-per-second = kg/s
unit-square-meter = m²
