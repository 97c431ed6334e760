# What is seen, heard and felt at a place.

sight-thermostat-off = Off, { $fan }. The room is at { $wall-k }, { $humidity-share } relative humidity.
sight-thermostat-cool = Cool, { $fan }, set to { $set-point-k }. The room is at { $wall-k }, { $humidity-share } relative humidity.
sight-paper-pulled-flat = The air pulls a sheet of paper straight at the { $place }.
sight-paper-stirs = A sheet of paper barely stirs in the air at the { $place }.
sight-paper-still = A sheet of paper hangs still at the { $place }; no air moves.
sight-oily = There is an oily spot with dust stuck to it: { $leak-place }.
sight-display-dark = The thermostat's display is dark.
sight-air-cold = It feels cold.
sight-air-cool = It feels cool.
sight-air-as-room = It feels no cooler than the room.
sight-slot-covered = The cover of the filter slot is on. Pull the filter to see it.
sight-cover-whistles = Air whistles at the edge of the cover.
sight-panel-hides-wheel = The blower panel is on; you can't see the wheel.
sight-hums-behind-panel = Something hums behind it.
sight-silent-behind-panel = You hear nothing behind it.
sight-wheel-creeps = The wheel turns so slowly that you can almost see its blades one by one.
sight-wheel-labors = The wheel turns with a low, laboring note, slower than it should; its motor is hot.
sight-wheel-in-its-own-air = The wheel spins fast with a light sound: it moves hardly any air.
sight-wheel-even = The wheel turns evenly.
sight-wheel-still = The wheel is not turning.
sight-wheel-motor-hums = Its motor hums and gets hot.
sight-wheel-stuck = It does not turn by hand.
sight-wheel-free = By hand it turns freely and coasts to a stop.
sight-cabinet-hides-coil = The coil cabinet is closed; you can't see the coil itself.
sight-line-frosted-at-cabinet = White frost is on the suction line where it leaves the cabinet.
sight-line-sweats-at-cabinet = The suction line sweats where it leaves the cabinet.
sight-line-dry-at-cabinet = The suction line is dry where it leaves the cabinet.
sight-drain-runs = Water runs from the drain.
sight-drain-stopped = The drain has stopped running; nothing drips anymore.
sight-coil-dry = The coil is dry and free of ice from end to end.
sight-coil-wet = The coil is wet and free of ice from end to end; water sits between its fins.
sight-coil-block = The coil is one block of ice; no fins show.
sight-coil-mostly-frosted = Frost covers most of the coil face.
sight-coil-partly-frosted = Frost covers part of the coil face.
sight-coil-little-frost = A little frost is on the coil face.
sight-ice-melts = The ice is melting: water drips from it into the pan.
sight-bulb-in-ice-water = The bulb is off the line, in your cup of ice water.
sight-bulb-hangs = The bulb hangs off the line, as you left it.
sight-bulb-bare = The bulb has no insulation; it sits in the cold air of the cabinet.
sight-bulb-loose = The strap of the bulb is loose; the bulb can be turned and lifted off the line.
sight-bulb-strapped = The bulb is strapped to the line and insulated.
sight-orifice-without-bulb = A fixed orifice in a brass body; no bulb.
sight-frost-at-outlet = Frost begins right at the outlet of the metering device.
sight-outlet-cold-and-wet = The outlet of the metering device is cold and wet.
sight-liquid-line-hot = The liquid line feels hot.
sight-liquid-line-warm = The liquid line feels warm.
sight-liquid-line-as-air = The liquid line is no warmer than the outdoor air.
sight-liquid-line-colder = The liquid line is colder than the outdoor air.
sight-drier-inlet-colder = The line feels colder at the inlet of the filter drier than at the service valve.
sight-drier-outlet-colder = The outlet of the filter drier feels colder than its inlet.
sight-drier-even = The inlet and outlet of the filter drier feel the same.
sight-compressor-runs = The compressor is running.
sight-compressor-still = The compressor is off.
sight-compressor-hums = It hums loudly without starting.
sight-fan-lazy = The fan turns so slowly that you can count its blades.
sight-fan-labors = The fan turns slower than it should, and its motor feels hot.
sight-fan-blows-warm = The fan blows warm air out the top.
sight-fan-blows-cool = The fan runs; its air is hardly warmer than the outdoor air.
sight-fan-still = The fan is not turning.
sight-fan-motor-hums = Its motor hums and feels hot.
sight-disconnect-in = The disconnect is in.
sight-disconnect-out = The disconnect is out, hung up beside its box.
sight-wires-tight = The wires on R, C, Y and G are tight.
sight-transformer-hums = The transformer hums.
sight-transformer-silent = The transformer is silent.
sight-fuse-black = The window of the low-voltage fuse is black.
sight-suction-line-frosted = The suction line is white with frost back to the service valve.
sight-suction-line-sweats = The suction line is cold and sweats.
sight-suction-line-cool = The suction line is cool and dry.
sight-suction-line-warm = The suction line is as warm as the outdoor air.
sight-no-oil = No oil stain to see.

# What the customer says where the call has no answer.

answer-unknown = "I couldn't tell you, sorry."
answer-quoted = "{ $said }"

# The data plate.

plate-note-charge = Refrigerant: { $refrigerant }. Factory charge with line set: { $charge-kg }.
plate-note-line = That charge is for { $line-length-m } of line set; a longer line set takes { $adder-kg-m } more.
plate-note-expansion-valve = Metering device: TXV (thermostatic expansion valve). Target subcooling at the liquid service valve: { $subcooling-difference-k }.
plate-note-orifice = Metering device: fixed orifice. Charge to the target superheat for the conditions.
plate-note-high-pressure-switch = The high-pressure switch opens at { $opens-gauge-pa }.

# Switches, panels, declarations and the way out.

site-note-thermostat-off = The thermostat is off; it reads { $wall-k } in the room.
site-note-thermostat-cool = The thermostat is on cool at { $set-point-k }; it reads { $wall-k } in the room.
site-note-live-panel = The disconnect is in: exposed live 240 V in front of you. For work here, pull it first.
site-note-disconnect-out = The disconnect is out; the outdoor unit is dead after it.
site-note-disconnect-in = The disconnect is in.
site-note-air-handler-dead = The air handler has no power, and neither has the 24 V circuit that holds the contactor in.
site-note-air-handler-powered = The air handler has power.
site-note-runs-on = You hear that the outdoor unit keeps running.
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
filter-note-frame-bent = The frame comes out bent; the filter medium has torn off it and been sucked onto the coil.
filter-note-plugged = The filter is plugged with lint; held to the light, it lets nothing through.
filter-note-dirty = The filter is gray with dust; held to the light, it still lets some through.
filter-note-clean = The filter is clean; you can see through it.
filter-note-new-one-in = A new filter is in, its arrow pointing with the airflow.

# Gauges, clamps and probes.

gauge-note-hoses-on = The hoses are on and purged of air.
gauge-note-both-the-same = The compressor is off; both gauges show nearly the same.
gauge-note-hoses-off = Hoses off, caps on; a trace is lost at the fittings, and { $kept-kg } stays in the hoses.
gauge-note-not-at-rest = The display has not settled.
gauge-note-compressor-off = The compressor is off; this says nothing about a running system.
gauge-note-ice-when-last-seen = There was ice on the coil when it was last seen; a reading of a frozen system says little.
gauge-note-discharge-burns = The discharge line is hot enough to burn.
gauge-note-plate-allows-static = The air handler's data plate allows { $most-static-pa } of total external static pressure.
gauge-note-hardly-any-air = Hardly any air passes the probe.

# The meter.

meter-note-module-live = There is power on the module: the plug arcs in your hand. Cut the power first.
meter-note-module-charged = An arc at the plug: the capacitors in the module were still charged. Cut the power and wait five minutes first.
meter-note-at-motor-plug = Measured at the motor's half of the plug, pulled from the module.
meter-note-motor-leads-off = Measured with the leads of the motor off.
meter-note-no-continuity = The meter shows OL: no continuity.
meter-note-capacitor-leads-off = Measured with the leads of the start winding off the capacitor.
meter-note-no-capacitance = The meter finds no capacitance.
meter-note-shunted = Something between the probes conducts; there is no capacitance to read.
meter-note-disturbed = The display jumps about: there is voltage between the probes. Cut the power first.
meter-note-on-charged-capacitor = A crack and a flash at the probes: the capacitor was still charged. An arc burns hands and eyes; this time it cost you a fuse and the probe tips, and it can ruin the meter. Discharge the capacitor first.
meter-note-on-voltage = A crack and a flash at the probes: there was voltage between them. An arc burns hands and eyes; this time it cost you a fuse and the probe tips, and it can ruin the meter. Cut the power first.

# The sensing bulb.

bulb-note-valve-opens = Suction pressure climbs by { $rise-difference-pa } while the bulb warms: the valve opens.
bulb-note-no-rise = Suction pressure does not change while the bulb warms: the valve opens no further. A valve that is starved of liquid can be open all the way already.
bulb-note-in-hand = The bulb is still in your hand.
bulb-note-no-gauges = Without gauges on the ports there is no pressure to watch.
bulb-note-started-meanwhile = The compressor started only during the test; there is no earlier pressure to compare with.
bulb-note-compressor-off = The compressor is off; the valve can't show any effect.
bulb-note-as-low-before = Suction pressure was already as low as a closed valve would hold it; this test can't tell what the valve does.
bulb-note-valve-closes = Suction pressure falls by { $fall-difference-pa }, to that of a coil below freezing: the valve closes down.
bulb-note-does-not-close = Suction pressure falls by { $fall-difference-pa } and stays above what a bulb in ice water calls for: the valve does not close.
bulb-note-went-off = The compressor shut off before the gauge showed anything.
bulb-note-in-ice-water = The bulb is still in the ice water.
bulb-note-put-back = The bulb is back on the line as you found it.
bulb-note-insulated = The bulb is on clean copper at the side of the line, strapped twice and wrapped.
bulb-note-let-go = You let go of the bulb; it hangs off the line.

# Leaks, and cutting into the circuit.

leak-note-found-by-detector = The detector ticks faster and faster at the { $leak-place }, and again on the second pass.
leak-note-found-by-bubbles = Bubbles grow at the { $leak-place } as fast as you wipe them off.
leak-note-nothing = No leak found at the { $leak-place }.
leak-note-under-ice = Ice covers the coil; bubbles can't show what is under it.
leak-note-smells-no-nitrogen = The detector finds refrigerant, not nitrogen; bubbles show any gas that escapes.
leak-note-too-little-pressure = There is too little pressure in the circuit for a leak to show.
leak-note-disconnect-in = The disconnect is in: the unit can start while your hands are in it. Pull it before you open a circuit.
leak-note-torch-on-gas = What is left in the circuit can burn, and there is a lit torch in your hand. Recover, then purge with nitrogen, and cut joints out instead of unbrazing them.
leak-note-nitrogen-blows-off = The circuit is under nitrogen and blows off as you cut in. Bleed it off first.
leak-note-vented = You cut into a charged circuit: { $vented-kg } of refrigerant blow into the air. Liquid refrigerant causes frostbite, and venting is not allowed (40 CFR 82 subpart F). Recover first.
leak-note-hole-closed = The hole at the { $leak-place } is closed; the joint shows no bubbles.
leak-note-no-hole = You find no hole at the { $leak-place }; the new joint shows no bubbles, and the old one would have shown none either.
leak-note-metering-device-in = A new metering device and a new filter drier are in; the joints show no bubbles.
leak-note-metering-was-faulty = The old device does not move as it should.
leak-note-metering-was-sound = On the bench the old device moves as it should.

# Recovery.

recovery-note-own-compressor-runs = The system's own compressor is still running. Stop it: it gets less and less gas to cool its motor.
recovery-note-recovered = The scale shows { $weighed-kg } recovered.
recovery-note-cylinder-full = The float switch has stopped the machine: the recovery cylinder is full. It holds { $holds-kg }; liquid may fill 80 % of it and no more (49 CFR 173.304a, and common practice). Get another one to go on.
recovery-note-not-empty = The circuit is not empty: { $left-gauge-pa } is left.
recovery-note-ran-again = { $times ->
    [1] Five minutes after the machine had stopped the gauges had risen by { $rise-difference-pa }: refrigerant had boiled out of the oil. You ran it again once.
    [2] Five minutes after the machine had stopped the gauges had risen by { $rise-difference-pa }: refrigerant had boiled out of the oil. You ran it again twice.
   *[other] Five minutes after the machine had stopped the gauges had risen by { $rise-difference-pa }: refrigerant had boiled out of the oil. You ran it again { $times } times.
}
recovery-note-at-set-vacuum = The gauges are at the vacuum you set, or below, and stay there.
recovery-note-at-zero = The gauges are at zero or below and stay there.
recovery-note-still-above = After an hour the gauges are still above the target; the circuit is not empty.
recovery-note-drawn-off = The scale shows { $weighed-kg } recovered.
recovery-note-stops-short = Recovery stops short of the amount you wanted.
recovery-note-charging-cylinder-fetched = A full charging cylinder is on the scale.
recovery-note-recovery-cylinder-fetched = An empty, evacuated recovery cylinder is on the scale.

# Nitrogen.

nitrogen-note-above-plate = The data plate gives { $plate-gauge-pa } as the low side's test pressure; above that, a coil or the compressor shell can burst. Bleed it off.
nitrogen-note-shut = The regulator is closed and so are the valves; the gauge shows { $shown-gauge-pa }.
nitrogen-note-stood = At the start { $first-gauge-pa } at { $first-k }, now { $last-gauge-pa } at { $last-k } (mean of the air outdoors and indoors).
nitrogen-note-no-drop = Temperature-corrected (absolute pressure goes with absolute temperature, so { $expected-gauge-pa } was to be expected): no drop.
nitrogen-note-dropped = Temperature-corrected (absolute pressure goes with absolute temperature, so { $expected-gauge-pa } was to be expected): down by { $drop-difference-pa }.
nitrogen-note-rose = Temperature-corrected (absolute pressure goes with absolute temperature, so { $expected-gauge-pa } was to be expected): up by { $rise-difference-pa }.
nitrogen-note-too-short = A test this short shows only a large hole.
nitrogen-note-still-hisses = It still hisses; the gauges are above zero.
nitrogen-note-refrigerant-went = { $vented-kg } of refrigerant went with it: it had not been recovered.
nitrogen-note-at-zero = The gauges are at zero. Nitrogen and air are in the circuit: evacuate before charging.
nitrogen-note-flushed = { $times ->
    [one] Nitrogen to 50 psig and off, then the vacuum pump and nitrogen once more: what had boiled out of the oil went with it.
   *[other] Nitrogen to 50 psig and off, then { $times } times the vacuum pump and nitrogen again: what had boiled out of the oil went with it.
}
nitrogen-note-detector-silent = Five minutes after the last nitrogen, the detector at the open hose stays far below the flammability limit.
nitrogen-note-detector-sounds = The detector at the open hose still sounds; there is too much refrigerant left for a flame.
nitrogen-note-purged = Three times up to 50 psig and off again: the refrigerant that was left is diluted.

# Evacuation.

vacuum-note-disconnect-in = The disconnect is in: if the unit starts in a vacuum, the compressor's windings arc and burn. Pull it.
vacuum-note-falls = After { $after-s } the micron gauge shows { $shown-vacuum-pa }.
vacuum-note-stood-at-target = After { $after-s } of pumping it has been at the target for a minute.
vacuum-note-not-started = The pump had not been started yet.
vacuum-note-valved-off = The pump is valved off at { $shown-vacuum-pa }. This does not show yet whether the vacuum holds: a decay test of ten minutes or more does (common practice). Do one before you charge.
vacuum-note-target-not-reached = The target was not reached.
vacuum-note-ten-minutes-later = Ten minutes after the pump is valved off, the micron gauge shows { $shown-vacuum-pa }.
vacuum-note-holds = It stays under 1000 microns: the vacuum holds.
vacuum-note-does-not-hold = The vacuum does not hold; it has risen above 1000 microns: air is leaking in, or there is still moisture in the circuit.
vacuum-note-not-reached = After an hour the pump has not reached 500 microns.
vacuum-note-test-begins = The pump is valved off: { $shown-vacuum-pa }.
vacuum-note-half-way = Halfway through: { $shown-vacuum-pa }.
vacuum-note-test-ends = At the end: { $shown-vacuum-pa }; up by { $first-half-vacuum-pa } in the first half, by { $second-half-vacuum-pa } in the second. A dry, tight circuit stays low; a wet one rises and levels off; with a leak the pressure keeps rising.
vacuum-note-too-short = It is under 1000 microns, but so short a test does not show that it holds: that takes ten minutes or more (common practice).
vacuum-note-above = It is above 1000 microns: the vacuum does not hold.
vacuum-note-compressor-runs-on-open-circuit = The compressor runs on a circuit that is open or empty. Stop it.

# Charging.

charge-note-thermostat-off = You turn the thermostat off while the liquid goes in.
charge-note-thermostat-back = The thermostat is back as it was.
charge-note-set-point-down = You lower the set point so that the system keeps running.
charge-note-stops-at-pressure = The scale stops short: the cylinder and the circuit are at the same pressure, and the system can't run.
charge-note-goes-on-through-suction = The liquid stops short; you start the system and throttle the rest in through the suction side.
charge-note-blend-as-vapor = This refrigerant is a blend: the vapor that boils off has a different composition from the liquid that stays behind. Charge it as liquid.
charge-note-compressor-off = The compressor is off; only the pressure of the cylinder drives anything in.
charge-note-weighed = The scale shows { $weighed-kg } into the circuit.
charge-note-short-of-wanted = That is short of what you wanted to weigh in.
charge-note-cylinder-empty = The cylinder is empty.
charge-note-half-hour-over = Half an hour is up, and the scale has not reached the amount.
charge-note-instruments-gone = The instruments are no longer in place.
charge-note-compressor-stopped = The compressor has stopped; there is no { $by } to charge by.
charge-note-on-target = On target: { $shown }.
charge-note-all-in = The most that you wanted to put in is in, at { $shown }. Look for another cause.
charge-note-going-in-circles = Step after step, the charge does not settle on the target; it is at { $shown }.
charge-note-nothing-to-add = The charging cylinder is empty, at { $shown }.
charge-note-no-room-for-it = There is too much charge, and the recovery cylinder is full, at { $shown }.
charge-note-step-in = At { $shown }: { $step-kg } in.
charge-note-step-out = At { $shown }: { $step-kg } out.
charge-note-time-over = { $steps ->
    [0] Time is up before the target of { $target-difference-k } was reached; no step was made. A reading counts only fifteen minutes after the last change.
    [one] Time is up before the target of { $target-difference-k } was reached, after one step. A reading counts only fifteen minutes after it.
   *[other] Time is up before the target of { $target-difference-k } was reached, after { $steps } steps. A reading counts only fifteen minutes after the last one.
}
charge-note-now = Now it is { $shown }.
charge-note-not-connected = Time is up, and nothing had been connected yet.
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

area-note-does-not-burn = This refrigerant is class A1: it does not burn, but in a closed space it displaces the air you breathe.
area-note-silent-outdoors = Outdoors the detector stays silent; wind dilutes what escapes.
area-note-silent-indoors = At the air handler the detector stays silent.
area-note-detected = At the air handler the detector shows { $share } of the lower flammability limit.
area-note-left-until-clear = At the air handler the detector shows { $share } of the lower flammability limit: you leave until it has cleared.
area-note-safe-indoors = Pilot lights are out, nothing sparks, doors and windows are open, a fan blows.
area-note-safe-outdoors = No flame, no grill, no cigarette within ten feet; the extinguisher is at hand.
area-note-not-made-safe = This refrigerant is mildly flammable (A2L), and within the last hour nobody has put out flames, let fresh air in and checked the air. Do that first.

# Proving the repair.

verify-note-set-point-down = You lower the set point to { $set-point-k } for the test, so that the system keeps running.
verify-note-set-point-back = The set point is back where it was.
verify-note-compressor-off = The compressor is not running.
verify-note-still-moving = The readings are still moving; you write down what you have.
verify-note-too-cold-to-judge-charge = It is below 55 °F (13 °C) outside: superheat and subcooling can't judge the charge; only the scale can.


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
