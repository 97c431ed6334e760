# The review as a page: as plain text on the command line, and as one HTML file.

page-language = en
page-title = Review: { $title } (call { $call }, seed { $seed })
page-disclaimer = This is a way of thinking, practiced on a model. On real equipment, licensed practice, the equipment maker's instructions and local codes decide.

# Its head.

page-review = Review: { $title }
page-call = Call { $call }, seed { $seed }.
page-review-of-visit = Review of a visit. Call { $call }, seed { $seed }.
page-customer = The customer said: "{ $complaint }"
page-quote = “{ $complaint }”
page-ended = { $ticket ->
    [closed] Ticket closed after { $took } on site; a sound visit needs about { $par }. Parts and refrigerant cost { $cost }.
   *[open] Ticket still open after { $took } on site; a sound visit needs about { $par }. Parts and refrigerant cost { $cost }.
}
page-points-sum = Points: { $points } of 100.
page-score = { $points } of 100 points
page-what-was-wrong = What was wrong
page-nothing-wrong = Nothing
page-declared = Declared
page-declared-cause = Declared: { $cause }.
page-nothing-declared = Nothing was declared.
page-nothing = nothing
page-time = Time
page-took = { $ticket ->
    [closed] Ticket closed after { $took } on site; a sound visit needs about { $par }
   *[open] Ticket still open after { $took } on site; a sound visit needs about { $par }
}
page-cost = Parts and refrigerant
page-contents = Contents

# Marks.

page-marks = Marks
page-marks-caption = Every mark, area by area
page-earned = Earned
page-points = Points
page-why = Why
page-where = Where
page-area-points = { $area }: { $points } of { $of }
page-points-of = { $points } of { $of }
page-entry-number = entry { $entry }
page-mark-full = ✓ yes
page-mark-part = ◐ in part
page-mark-none = ✗ no

# Evidence.

page-evidence = Where the evidence led
page-not-weighed = The evidence has not been weighed.
page-moves-caption = Your moves by number of the entry. Full dot: a reliable reading. Hollow dot: a reading in doubt. Square: something seen. Vertical stroke: work, talk or waiting. Horizontal stroke: not possible. A cross, with a dashed line, marks where the sound order was broken. Under them, each band runs from 0 to 100 %: how likely that suspect was after what had been read so far.
page-moves-title = Moves and suspects
page-moves-about = Numbered moves over the minutes of the visit, and under them how likely each suspect was after each of them.
page-moves = Moves
page-true-and-declared = (was wrong; you declared it)
page-true = (was wrong)
page-you-declared = (you declared it)
page-order-broke = Where the order was broken
page-order-held = No move broke it.
page-entry-lead = Entry { $entry }.
page-rulings = What each reading ruled out
page-rulings-about = Behind every suspect are model systems that went through your moves. A reading that such a system would not have given counts against its suspect, by as much as instrument and model allow. Ruled out means: at least five times less likely than before. One bit is the information that cuts the suspects in half.
page-in-doubt = In doubt: { $doubt }.
page-some-in-doubt = Some readings were in doubt:
page-nothing-read = Nothing was read or seen.
page-rulings-caption = Entries that carried evidence
page-entry = Entry
page-read-or-seen = What was read or seen
page-what-it-did = What it did
page-bits = Information, bits

# The course of the system.

page-course = What the system did
page-pressures-title = Pressures over the visit
page-pressures-caption = Pressures at the service ports. Curves: the true values. Dots: what you read, with the number of the entry; hollow dots were in doubt.
page-pressures-about = Suction pressure: { $first } on arrival, { $last } at the end.
page-lines-title = Temperatures of lines and coil over the visit
page-lines-caption = Refrigerant lines at the outdoor unit and the surface of the indoor coil, with your readings of the lines. Below freezing, the coil builds up ice.
page-lines-about = Coil surface: { $first } on arrival, { $last } at the end.
page-air-title = Air temperatures over the visit
page-air-caption = Air indoors and out, with your readings.
page-air-about = Room air: { $first } on arrival, { $last } at the end.
page-ice-title = Ice on the coil over the visit
page-ice-caption = Ice on the indoor coil.
page-ice-about = Ice: { $first } on arrival, { $last } at the end.
page-charge-title = Refrigerant in the circuit over the visit
page-charge-caption = Refrigerant in the circuit.
page-charge-about = Refrigerant: { $first } on arrival, { $last } at the end.
page-axis-minutes = minutes since arrival
page-axis-hours = hours after the visit
page-axis-pressure = pressure, { $unit }
page-axis-temperature = temperature, { $unit }
page-axis-dry-bulb = dry bulb, { $unit }
page-axis-ice = ice, { $unit }
page-axis-refrigerant = refrigerant, { $unit }
page-curve-liquid = liquid
page-curve-suction = suction
page-curve-liquid-line = liquid line
page-curve-suction-line = suction line
page-curve-coil = coil surface
page-curve-outdoor = outdoor
page-curve-room = room
page-curve-return = return
page-curve-supply = supply
page-curve-ice = ice
page-curve-circuit = in the circuit
page-curve-plate = data plate
page-water-freezes = water freezes

# The cycle.

page-cycle = The refrigeration cycle
page-no-cycle = The compressor did not run while anything was read, so there is no cycle to show.
page-cycle-title = The cycle on a chart of pressure over enthalpy
page-cycle-about = { $count ->
    [one] The saturation dome of { $refrigerant } and one cycle of this visit.
   *[other] The saturation dome of { $refrigerant } and { $count } cycles of this visit.
}
page-cycle-caption = The cycle of { $refrigerant } at moments of this visit, and of the same system without a fault in the same air. 1 to 2: evaporator. 3: compressor inlet. 4: compressor outlet. 5: condenser outlet. Corners follow from pressures and line temperatures; wet vapor shows as saturated.
page-cycle-lettered = { $letter }: { $moment }
page-axis-absolute-psi = pressure, psia
page-axis-absolute-kpa = pressure, kPa absolute
page-axis-enthalpy-btu = enthalpy, Btu/lb (86.0 for saturated liquid at 32 °F)
page-axis-enthalpy-kj = enthalpy, kJ/kg (200 for saturated liquid at 0 °C)
page-curve-saturation = saturation
page-curve-sound = system without a fault
page-cycles-caption = The cycles in numbers
page-cycle-name = Cycle
page-evaporating = Evaporating
page-condensing = Condensing
page-superheat = Superheat
page-subcooling = Subcooling
page-flow = Flow
page-flow-each-minute = { $mass }/min
page-net-cooling = Net cooling
page-flooded = No superheat was left here: { $moments }. Liquid may have come back to the compressor.

# After the visit.

page-later = What would have happened next
page-later-still-wrong = What was wrong is still there.
page-later-gone = What was wrong is gone.
page-later-conditions = For { $hours } h more the system kept running as you left it, in the same weather, with the customer's settings back on the thermostat (set point { $set-point }). Beside it: the same house with a system that has no fault, the data plate's charge and no ice.
page-in-numbers = In numbers
page-as-left = As you left it
page-repaired = Repaired
page-curve-as-left = as you left it
page-curve-repaired = repaired
page-set-point = set point
page-later-about = Two curves over the hours after the visit: the system as it was left, and a repaired one.
page-later-room-title = Room temperature after the visit
page-later-room-caption = Room temperature in the hours after the visit, beside that with a repaired system.
page-later-ice-title = Ice after the visit
page-later-ice-caption = Ice on the indoor coil in the hours after the visit, beside that with a repaired system.

# The sound path, the notebook, the refrigerant.

page-path = A sound path through this call
page-path-caption = { $steps }, { $time } in all
page-step = Step
page-move = Move
page-minutes = Minutes
page-what-came-of-it = What came of it
page-done = What was done
page-nothing-done = Nothing was done.
page-notebook = The notebook
page-refrigerant = Where the refrigerant went
page-refrigerant-caption = Refrigerant of the circuit
page-mass = Mass
