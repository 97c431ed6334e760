# What is seen, heard and felt at a place.

sight-thermostat-off = Off, { $fan }. The room is at { $wall-k }, { $humidity-share } humidity.
sight-thermostat-cool = Cool, { $fan }, set to { $set-point-k }. The room is at { $wall-k }, { $humidity-share } humidity.
sight-paper-pulled-flat = The air pulls a sheet of paper flat at the { $place }.
sight-paper-stirs = A sheet of paper barely stirs in the air at the { $place }.
sight-paper-still = A sheet of paper hangs still; no air moves at the { $place }.
sight-oily = There is an oily patch with dust on it: { $leak-place }.
sight-display-dark = The thermostat's display is dark.
sight-most-registers-shut = Most registers in the house are shut or stand under furniture.
sight-some-registers-shut = Some registers in the house are shut or stand under furniture.
sight-duct-flat = By flashlight through the grille: the duct behind it lies flat but for a slit.
sight-duct-sags = By flashlight through the grille: the duct behind it sags in on itself.
sight-air-cold = It feels cold.
sight-air-cool = It feels cool.
sight-air-as-room = It feels like the room.
sight-slot-covered = The cover of the filter slot is on. Pull the filter to see it.
sight-cover-whistles = Air whistles at the edge of the cover.
sight-panel-hides-wheel = The blower panel is on; you can't see the wheel.
sight-hums-behind-panel = Something hums behind it.
sight-silent-behind-panel = There is nothing to hear behind it.
sight-wheel-creeps = The wheel turns, but so slowly that its blades can almost be told apart.
sight-wheel-labors = The wheel turns with a low, laboring note, slower than it should; its motor is hot.
sight-wheel-in-its-own-air = The wheel turns, and it sounds as if it turned in its own air.
sight-wheel-even = The wheel turns evenly.
sight-wheel-still = The wheel is not turning.
sight-wheel-motor-hums = Its motor hums and grows hot.
sight-wheel-stuck = By hand it does not turn at all.
sight-wheel-free = By hand it turns freely and coasts to a stop.
sight-blades-packed = The hollows of its blades are packed with dust.
sight-cabinet-hides-coil = The cabinet is closed; the coil itself is out of sight.
sight-line-frosted-at-cabinet = White frost is on the suction line where it leaves the cabinet.
sight-line-sweats-at-cabinet = The suction line sweats where it leaves the cabinet.
sight-line-dry-at-cabinet = The suction line is dry where it leaves the cabinet.
sight-drain-runs = Water runs from the drain.
sight-drain-stopped = The drain has stopped running; nothing drips any more.
sight-coil-dry = The coil is dry and free of ice from end to end.
sight-coil-wet = The coil is wet and free of ice from end to end; water stands between its fins.
sight-coil-block = The coil is one block of ice; no fin shows.
sight-coil-mostly-frosted = Frost covers most of the coil face.
sight-coil-partly-frosted = Frost covers part of the coil face.
sight-coil-little-frost = A little frost is on the coil face.
sight-ice-melts = The ice is melting: water drips from it into the pan.
sight-medium-on-coil = A gray mat of filter medium lies on the face of the coil.
sight-lint-on-coil = A felt of lint and dust covers the face of the coil.
sight-float-up = At the drain pan the float switch is at its top.
sight-bulb-in-ice-water = The bulb is off the line, in your cup of ice water.
sight-bulb-hangs = The bulb hangs off the line, as you left it.
sight-bulb-bare = The bulb has no insulation; it lies in the cold air of the cabinet.
sight-bulb-loose = The strap of the bulb has let go; the bulb can be turned and lifted off the line.
sight-bulb-strapped = The bulb is strapped to the line and wrapped.
sight-orifice-without-bulb = A fixed orifice in a brass body; no bulb.
sight-frost-at-outlet = Frost begins right at the outlet of the device.
sight-outlet-cold-and-wet = Its outlet is cold and wet.
sight-liquid-line-hot = The liquid line feels hot.
sight-liquid-line-warm = The liquid line feels warm.
sight-liquid-line-as-air = The liquid line is no warmer than the air.
sight-liquid-line-colder = The liquid line is colder than the air.
sight-liquid-line-flat = Between service valve and filter drier the liquid line is folded almost flat.
sight-liquid-line-dented = Between service valve and filter drier the liquid line has a sharp dent.
sight-suction-line-flat = Under its insulation the suction line is folded almost flat at the bend before the outdoor unit.
sight-suction-line-dented = The insulation of the suction line is creased at the bend before the outdoor unit, and the tube under it dented.
sight-drier-inlet-colder = The line feels colder at the inlet of the filter drier than at the service valve.
sight-drier-outlet-colder = The outlet of the filter drier feels colder than its inlet.
sight-drier-even = Inlet and outlet of the filter drier feel the same.
sight-compressor-runs = The compressor runs.
sight-compressor-still = The compressor is off.
sight-compressor-hums = It hums loudly without starting.
sight-fan-lazy = The fan turns lazily; its blades can be counted.
sight-fan-labors = The fan turns slower than it should, and its motor feels hot.
sight-fan-blows-warm = The fan blows warm air up.
sight-fan-blows-cool = The fan runs; its air is hardly warmer than the day.
sight-fan-still = The fan is not turning.
sight-fan-motor-hums = Its motor hums and feels hot.
sight-fins-grey = The fins of the outdoor coil are gray with fluff and grass.
sight-disconnect-in = The disconnect is in.
sight-disconnect-out = The disconnect is out, hung up beside its box.
sight-wires-tight = The wires on R, C, Y and G are tight.
sight-transformer-hums = The transformer hums.
sight-transformer-silent = The transformer is silent.
sight-fuse-black = The window of the low-voltage fuse is black.
sight-contactor-in-without-call = The contactor is pulled in though nothing calls; its contacts stay closed.
sight-cable-worn = Where the low-voltage cable comes through the sheet metal its sheath is worn away; the copper of two wires is exposed.
sight-suction-line-frosted = The suction line is white with frost down to the service valve.
sight-suction-line-sweats = The suction line is cold and sweats.
sight-suction-line-cool = The suction line is cool and dry.
sight-suction-line-warm = The suction line is as warm as the day.
sight-no-oil = No oil to see.

# What the customer says where the call has no answer.

answer-unknown = "I couldn't tell you, sorry."
answer-quoted = "{ $said }"

# The data plate.

plate-note-charge = Refrigerant: { $refrigerant }. Factory charge with line set: { $charge-kg }.
plate-note-line = That charge is for { $line-length-m } of line set; more line takes { $adder-kg-m } more.
plate-note-expansion-valve = Metering device: expansion valve. Target subcooling at the liquid service valve: { $subcooling-difference-k }.
plate-note-orifice = Metering device: fixed orifice. Charge to the target superheat for the conditions.
plate-note-high-pressure-switch = High-pressure switch opens at { $opens-gauge-pa }.

# Switches, panels, declarations and the way out.

site-note-thermostat-off = The thermostat is off; it reads { $wall-k } in the room.
site-note-thermostat-cool = The thermostat is on cool at { $set-point-k }; it reads { $wall-k } in the room.
site-note-live-panel = The disconnect is in: exposed live 240 V in front of you. For work here, pull it first.
site-note-disconnect-out = The disconnect is out; the outdoor unit is dead behind it.
site-note-disconnect-in = The disconnect is in.
site-note-air-handler-dead = The air handler is dead, and with it the 24 V that holds the contactor in.
site-note-air-handler-powered = The air handler has power.
site-note-runs-on = You hear the outdoor unit run on all the same.
site-note-water-runs = You hear water run into the drain pan.
site-note-cause-named = You name the cause: { $cause }.
site-note-no-such-entry = There is no entry { $entry } in the notebook.
site-note-place-not-said = You have not said where.
site-note-nothing-cited = You cite no entry that supports it.
site-note-replaces-earlier = It replaces what you said before.
site-note-panel-back-on = You put the { $panel } back on.
site-note-left-disconnect-out = You leave with the disconnect out.
site-note-left-air-handler-off = You leave with the air handler switched off.
site-note-left-thermostat-off = You leave with the thermostat off.
site-note-left-bulb-off = You leave with the bulb off the line.
site-note-left-without-charge = You leave with no charge in the circuit.
site-note-ticket-closed = The customer signs; the ticket is closed.

# The filter.

filter-note-slot-empty = The slot is empty; lint hangs from its rails, and there is no filter to pull.
filter-note-frame-bent = The frame comes out bent; the medium is torn off it and has been sucked onto the coil.
filter-note-plugged = The filter is plugged with lint; held to the light, nothing comes through.
filter-note-dirty = The filter carries a gray coat; held to the light, it still shows through.
filter-note-clean = The filter is clean; you can see through it.
filter-note-new-one-in = A new filter is in, arrow with the air.

# Gauges, clamps and probes.

gauge-note-hoses-on = Hoses on, the air purged out of them.
gauge-note-both-the-same = The compressor is off; both gauges show nearly the same.
gauge-note-hoses-off = Hoses off, caps on; a trace is lost at the fittings, and { $kept-kg } stays shut in the hoses.
gauge-note-not-at-rest = The display has not come to rest.
gauge-note-compressor-off = The compressor is off; this says nothing about a running system.
gauge-note-ice-when-last-seen = There was ice on the coil when it was last seen; a reading of a frozen system says little.
gauge-note-discharge-burns = The discharge line is hot enough to burn.
gauge-note-hardly-any-air = Hardly any air passes the probe.

# The meter.

meter-note-module-live = There is power on the module; an arc at the plug throws your hand back. Cut the power first.
meter-note-module-charged = An arc at the plug: the capacitors of the module were still charged. Leave it without power for five minutes first.
meter-note-at-motor-plug = Measured at the motor's half of its plug, pulled from the module.
meter-note-motor-leads-off = Measured with the leads of the motor off.
meter-note-no-continuity = The meter shows OL: no continuity.
meter-note-capacitor-leads-off = Measured with the leads of the start winding off the capacitor.
meter-note-no-capacitance = The meter shows nothing that holds a charge.
meter-note-shunted = Something that conducts lies across the probes; there is no capacitance to read.
meter-note-disturbed = The display jumps about: there is voltage between the probes. Cut the power first.
meter-note-on-charged-capacitor = A crack: the capacitor was still charged, and the fuse of your meter is gone. You put a new one in. Discharge it first.
meter-note-on-voltage = A crack: there was voltage between the probes, and the fuse of your meter is gone. You put a new one in. Cut the power first.

# The sensing bulb.

bulb-note-valve-opens = Suction pressure climbs by { $rise-difference-pa } while the bulb warms: the valve opens.
bulb-note-no-rise = Suction pressure does not change while the bulb warms: the valve opens no further.
bulb-note-in-hand = The bulb is still in your hand.
bulb-note-no-gauges = Without gauges on the ports there is nothing to see.
bulb-note-started-meanwhile = The compressor started only meanwhile; there is nothing to compare the gauge's reading with.
bulb-note-compressor-off = The compressor is off, so the valve has nothing to answer with.
bulb-note-as-low-before = Suction pressure was as low before as a closed valve would hold it; what the valve does can't be told from it.
bulb-note-valve-closes = Suction pressure falls by { $fall-difference-pa }, to a coil below freezing: the valve closes down.
bulb-note-does-not-close = Suction pressure falls by { $fall-difference-pa } and stays above what a bulb in ice asks for: the valve does not close.
bulb-note-went-off = The compressor went off before the gauge had told anything.
bulb-note-in-ice-water = The bulb is still in the ice water.
bulb-note-put-back = The bulb is back on the line as you found it.
bulb-note-insulated = The bulb is on clean copper at the side of the line, strapped twice and wrapped.
bulb-note-let-go = You let go of the bulb; it hangs off the line.

# Leaks, and cutting into the circuit.

leak-note-found-by-detector = The detector ticks faster and faster at the { $leak-place }, and again on the second pass.
leak-note-found-by-bubbles = Bubbles grow at the { $leak-place } as fast as you wipe them off.
leak-note-nothing = Nothing at the { $leak-place }.
leak-note-under-ice = Ice covers the coil; bubbles can't show what is under it.
leak-note-smells-no-nitrogen = The detector smells refrigerant, not nitrogen; bubbles show what escapes.
leak-note-too-little-pressure = There is too little pressure in the circuit for a leak to show.
leak-note-disconnect-in = The disconnect is in: the unit can start under your hands. Pull it before you open a circuit.
leak-note-torch-on-gas = What is left in the circuit can burn, and there is a torch in your hand. Recover, then purge with nitrogen, and cut instead of sweating joints apart.
leak-note-nitrogen-blows-off = The circuit is under nitrogen and blows off as you cut in. Bleed it off first.
leak-note-vented = You cut into a charged circuit: { $vented-kg } of refrigerant blow into the air. Liquid burns by frost, and venting is not allowed (40 CFR 82 subpart F). Recover first.
leak-note-hole-closed = The hole at the { $leak-place } is closed; the joint shows no bubbles.
leak-note-no-hole = You find no hole at the { $leak-place }; the new joint shows no bubbles, as the old one would have shown none.
leak-note-metering-device-in = A new metering device and a new filter drier are in; the joints show no bubbles.
leak-note-metering-was-faulty = The old device does not move as it should.
leak-note-metering-was-sound = On the bench the old device moves as it should.

# Recovery.

recovery-note-own-compressor-runs = The system's own compressor still runs. Stop it: it has less and less gas to cool its motor.
recovery-note-recovered = The scale shows { $weighed-kg } recovered.
recovery-note-cylinder-full = The float switch has stopped the machine: the recovery cylinder is full. It holds { $holds-kg }; liquid may fill 80 % of it and no more (49 CFR 173.304a, and common practice). Fetch another one to go on.
recovery-note-not-empty = The circuit is not empty: { $left-gauge-pa } are left.
recovery-note-ran-again = { $times ->
    [1] Five minutes after the machine had stopped the gauges had risen by { $rise-difference-pa }: the oil gives off what it held. You ran it again once.
    [2] Five minutes after the machine had stopped the gauges had risen by { $rise-difference-pa }: the oil gives off what it held. You ran it again twice.
   *[other] Five minutes after the machine had stopped the gauges had risen by { $rise-difference-pa }: the oil gives off what it held. You ran it again { $times } times.
}
recovery-note-at-set-vacuum = The gauges are at the vacuum you set, or below, and stay there.
recovery-note-at-zero = The gauges are at zero or below and stay there.
recovery-note-still-above = After an hour the gauges are still above it; the circuit is not empty.
recovery-note-drawn-off = The scale shows { $weighed-kg } recovered.
recovery-note-stops-short = It stops short of what you wanted to recover.
recovery-note-charging-cylinder-fetched = A full charging cylinder is on the scale.
recovery-note-recovery-cylinder-fetched = An empty, evacuated recovery cylinder is on the scale.

# Nitrogen.

nitrogen-note-above-plate = The data plate tests the low side with { $plate-gauge-pa }; above that a coil or a shell can burst. Bleed it off.
nitrogen-note-shut = The regulator is shut and the valves are closed; the gauge shows { $shown-gauge-pa }.
nitrogen-note-stood = At the start { $first-gauge-pa } at { $first-k }, now { $last-gauge-pa } at { $last-k } (mean of the air outdoors and indoors).
nitrogen-note-no-drop = Temperature-corrected (absolute pressure goes with absolute temperature, so { $expected-gauge-pa } were to be expected): no drop.
nitrogen-note-dropped = Temperature-corrected (absolute pressure goes with absolute temperature, so { $expected-gauge-pa } were to be expected): { $drop-difference-pa } are lost.
nitrogen-note-rose = Temperature-corrected (absolute pressure goes with absolute temperature, so { $expected-gauge-pa } were to be expected): up by { $rise-difference-pa }.
nitrogen-note-too-short = So short a test shows only a large hole.
nitrogen-note-still-hisses = It still hisses; the gauges are above zero.
nitrogen-note-refrigerant-went = { $vented-kg } of refrigerant went with it: it had not been recovered.
nitrogen-note-at-zero = The gauges are at zero. Nitrogen and air are in the circuit: evacuate before charging.
nitrogen-note-flushed = { $times ->
    [one] Nitrogen to 50 psig and off, then the vacuum pump and nitrogen once more: what the oil gave off went with it.
   *[other] Nitrogen to 50 psig and off, then { $times } times the vacuum pump and nitrogen again: what the oil gave off went with it.
}
nitrogen-note-detector-silent = Five minutes after the last nitrogen the detector at the open hose stays far below the flammability limit.
nitrogen-note-detector-sounds = The detector at the open hose still sounds; there is too much refrigerant left for a flame.
nitrogen-note-purged = Three times up to 50 psig and off again: what refrigerant was left is thinned out.

# Evacuation.

vacuum-note-disconnect-in = The disconnect is in: if the unit starts in a vacuum, its windings burn. Pull it.
vacuum-note-falls = After { $after-s } the micron gauge shows { $shown-vacuum-pa }.
vacuum-note-stood-at-target = After { $after-s } of pumping it has been at the target for a minute.
vacuum-note-not-started = The pump had not been started yet.
vacuum-note-valved-off = The pump is valved off at { $shown-vacuum-pa }. Whether that holds, this does not show: a decay test of ten minutes or more does (common practice). Make it before you charge.
vacuum-note-target-not-reached = The target was not reached.
vacuum-note-ten-minutes-later = Ten minutes after the pump is valved off, the micron gauge shows { $shown-vacuum-pa }.
vacuum-note-holds = It stays under 1000 microns: the vacuum holds.
vacuum-note-does-not-hold = The vacuum does not hold, it has risen above 1000 microns: air comes in somewhere, or water is left in it.
vacuum-note-not-reached = After an hour the pump has not reached 500 microns.
vacuum-note-test-begins = The pump is valved off: { $shown-vacuum-pa }.
vacuum-note-half-way = Half way through: { $shown-vacuum-pa }.
vacuum-note-test-ends = At the end: { $shown-vacuum-pa }; up by { $first-half-vacuum-pa } in the first half, by { $second-half-vacuum-pa } in the second. A dry, tight circuit stays low; a wet one rises and levels off; a leak rises on and on.
vacuum-note-too-short = It is under 1000 microns, but so short a test does not show that it holds: that takes ten minutes or more (common practice).
vacuum-note-above = It is above 1000 microns: the vacuum does not hold.
vacuum-note-compressor-runs-on-open-circuit = The compressor runs on a circuit that is open or empty. Stop it.

# Charging.

charge-note-thermostat-off = You turn the thermostat off while the liquid goes in.
charge-note-thermostat-back = The thermostat is back as it was.
charge-note-set-point-down = You put the set point down, so that the system keeps running.
charge-note-stops-at-pressure = The scale stops short: cylinder and circuit are at the same pressure, and the system can't run.
charge-note-goes-on-through-suction = The liquid stops short; you start the system and let the rest in through the suction side, throttled.
charge-note-blend-as-vapor = This refrigerant is a blend: what boils off has another composition than what stays behind. Draw it as liquid.
charge-note-compressor-off = The compressor is off; only the pressure of the cylinder drives anything in.
charge-note-weighed = The scale shows { $weighed-kg } into the circuit.
charge-note-short-of-wanted = That is short of what you wanted to weigh in.
charge-note-cylinder-empty = The cylinder is empty.
charge-note-half-hour-over = Half an hour is over and the scale has not got there.
charge-note-instruments-gone = The instruments are no longer in place.
charge-note-compressor-stopped = The compressor has stopped; there is no { $by } to charge by.
charge-note-on-target = On target: { $shown }.
charge-note-all-in = All that you wanted to put in at most is in, at { $shown }. Look for another cause.
charge-note-going-in-circles = You are going round in circles, at { $shown }.
charge-note-nothing-to-add = The charging cylinder is empty, at { $shown }.
charge-note-no-room-for-it = Too much is in, at { $shown }.
charge-note-step-in = At { $shown }: { $step-kg } in.
charge-note-step-out = At { $shown }: { $step-kg } out.
charge-note-time-over = { $steps ->
    [0] The time is over before the target of { $target-difference-k } was reached; no step was made. Readings count a quarter of an hour after the last one.
    [one] The time is over before the target of { $target-difference-k } was reached, after one step. Readings count a quarter of an hour after it.
   *[other] The time is over before the target of { $target-difference-k } was reached, after { $steps } steps. Readings count a quarter of an hour after the last one.
}
charge-note-now = Now it is { $shown }.
charge-note-not-connected = The time is over, and nothing had been connected yet.
charge-note-into-recovery = { $weighed-kg } went into the recovery cylinder.

shown-margin-superheat = superheat { $difference-k }
shown-margin-saturated-vapor = superheat { $difference-k } (saturated, as far as instruments tell)
shown-margin-no-superheat-at-rest = no superheat (the compressor is off)
shown-margin-no-superheat-starting-up = no superheat (the compressor has run for less than five minutes)
shown-margin-no-superheat-no-liquid = no superheat (no liquid reaches the indoor coil)
shown-margin-no-superheat-two-phase = no superheat (liquid comes back with the vapor)
shown-margin-subcooling = subcooling { $difference-k }
shown-margin-saturated-liquid = subcooling { $difference-k } (saturated, as far as instruments tell)
shown-margin-no-subcooling-at-rest = no subcooling (the compressor is off)
shown-margin-no-subcooling-starting-up = no subcooling (the compressor has run for less than five minutes)
shown-margin-no-subcooling-no-liquid = no subcooling (no liquid in the condenser, vapor alone)
shown-margin-no-subcooling-two-phase = no subcooling (there is vapor in the liquid line)

# Flames, air and the detector.

area-note-does-not-burn = This refrigerant is of class A1: it does not burn, but it takes the air away.
area-note-silent-outdoors = Outdoors the detector stays silent; wind thins out what escapes.
area-note-silent-indoors = At the air handler the detector stays silent.
area-note-detected = At the air handler the detector shows { $share } of the lower flammability limit.
area-note-left-until-clear = At the air handler the detector shows { $share } of the lower flammability limit: you leave until it has cleared.
area-note-safe-indoors = Pilot lights are out, nothing sparks, doors and windows are open, a fan blows.
area-note-safe-outdoors = No flame, no grill, no cigarette within ten feet; the extinguisher is at hand.
area-note-not-made-safe = This refrigerant is mildly flammable (A2L), and nobody has looked for flames, aired the place and checked its air within the hour. Do that first.

# Proving the repair.

verify-note-set-point-down = You put the set point to { $set-point-k } for the test, so that the system keeps running.
verify-note-set-point-back = The set point is back where it was.
verify-note-compressor-off = The compressor does not run.
verify-note-still-moving = The readings are still moving; you write down what you have.
verify-note-too-cold-to-judge-charge = It is below 55 °F outside: superheat and subcooling do not judge the charge, the scale does.


# How an entry is told.

reading = { $value } ± { $uncertainty }
seen = { $clauses }.
refused = Not possible: { $reason }
verification-steady = After { $ran } of running: { $superheat }, { $subcooling }, temperature split { $split }; steady.
verification-moving = After { $ran } of running: { $superheat }, { $subcooling }, temperature split { $split }; not steady yet.
verification-ice = { $ice } of ice on the coil.
verification-no-ice = No ice on the coil.
hindsight-ice = In truth, ice was on the coil.
hindsight-no-ice = In truth, hardly any ice was on the coil.

# Around moves on screen.

not-now = Not now: { $reason }
caution-before = Caution: { $caution }
in-the-drawing = In the drawing: { $place }
done = Done.
