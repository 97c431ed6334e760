# What a learner can do: imperative, sentence case.

move-look = Look at the { $place }
move-look-control-board = Look at the low-voltage terminal strip
move-ask = Ask: { $question }
move-read-data-plate = Read the data plate
move-set-thermostat = { $mode-id ->
    [off] Set the thermostat to off, { $fan }
   *[cool] Set the thermostat to cool, { $fan }, { $set-point }
}
move-outdoor-disconnect-open = Pull the outdoor disconnect
move-outdoor-disconnect-closed = Put the outdoor disconnect back in
move-indoor-service-switch-open = Switch the air handler off
move-indoor-service-switch-closed = Switch the air handler on
move-open-panel = Open the { $panel }
move-close-panel = Close the { $panel }
move-inspect-filter = Pull the filter and look at it
move-replace-filter = Put a new filter in
move-watch-blower = Watch the blower wheel
move-measure-voltage = Measure the voltage from { $from } to { $to }
move-measure-resistance = Measure the resistance from { $from } to { $to }
move-measure-capacitance = Measure the capacitance from { $from } to { $to }
move-measure-static = Measure the static pressure from { $high } to { $low }
move-clamp-current = Measure the current: { $conductor }
move-connect-gauges = Connect the gauges
move-disconnect-gauges = Disconnect the gauges
move-read-gauge = Read the { $port } gauge
move-read-pipe = Read the temperature of the { $pipe-point }
move-read-air = Read the { $second } of the { $first }
move-warm-bulb = Warm the sensing bulb in your hand
move-chill-bulb = Chill the sensing bulb in ice water
move-put-bulb-back = Strap the bulb back as it was
move-insulate-bulb = Strap and insulate the bulb
move-search-leak = { $second-id ->
    [electronic-detector] Search for a leak with the detector: { $first }
   *[bubbles] Search for a leak with bubbles: { $first }
}
move-recover = Recover the refrigerant
move-recover-to = Recover the refrigerant down to { $pressure }
move-remove-refrigerant = Recover { $mass } of refrigerant
move-pressurize-with-nitrogen = Pressurize with nitrogen to { $pressure }
move-standing-test = Standing pressure test for { $duration }
move-vent-nitrogen = Bleed off the nitrogen
move-purge-with-nitrogen = Purge the circuit with nitrogen
move-repair-leak = Repair a leak: { $leak-place }
move-replace-metering-device = Replace the metering device and the filter drier
move-repair = { $work }
move-discharge-capacitor = Discharge the { $capacitor }
move-evacuate = Evacuate the circuit
move-evacuate-to = Evacuate to { $target }, for { $within } at most
move-decay-test = Valve off the pump and watch the vacuum for { $duration }
move-weigh-in = Weigh in { $mass }
move-add-refrigerant = Add { $mass } of refrigerant
move-add-vapor = Add { $mass } of refrigerant as vapor
move-charge-to = Charge to { $target } of { $by }
move-change-cylinder = Get another { $cylinder-use }
move-make-area-safe-indoors = Make the area at the air handler safe: no flames, fresh air, detector
move-make-area-safe-outdoors = Make the area at the outdoor unit safe: no flames, detector
move-wait = Wait { $duration }
move-declare = { $place-id ->
    [none] Declare the cause: { $cause }
   *[other] Declare the cause: { $cause }, { $place }
}
move-verify = Run the system and verify the repair
move-close-ticket = Tell the customer and close the ticket

# Quantities as the learner gave them.

temperature-fahrenheit = { $value } °F
temperature-celsius = { $value } °C
temperature-difference-fahrenheit-difference = { $value } °F
temperature-difference-celsius-difference = { $value } K
mass-ounces = { $value } oz
mass-pounds = { $value } lb
mass-grams = { $value } g
mass-kilograms = { $value } kg
pressure-pounds-gauge = { $value } psig
pressure-kilopascals-gauge = { $value } kPa gauge
pressure-inches-of-vacuum = { $value } inHg of vacuum
pressure-microns = { $value } microns
pressure-pascals-absolute = { $value } Pa absolute

mode-off = off
mode-cool = cool
fan-setting-auto = fan auto
fan-setting-on = fan on
switch-open = off
switch-closed = on
bulb-dry = dry bulb
bulb-wet = wet bulb
leak-method-electronic-detector = detector
leak-method-bubbles = soap bubbles
location-indoors = indoors
location-outdoors = outdoors

question-when-it-started = When did it start, and how?
question-thermostat-habits = What is the thermostat set to, day and night?
question-filter-last-changed = When was the filter last changed?
question-earlier-service = Has anyone worked on it or added refrigerant?
question-noises-and-water = Any noises, smells or water?

list = { $others } and { $last }
list-any = { $others } or { $last }
