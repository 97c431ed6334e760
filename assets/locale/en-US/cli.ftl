# What the command line prints, beside reviews and notebooks.

cli-visit = { $title } (call { $call }, seed { $seed })
cli-customer-says = The customer says: "{ $complaint }"
cli-moves-left-out = The ticket is closed; the rest of the moves in the file were not made.
cli-call-is-good = { $name }: ok ({ $title })
cli-reviewed = { $record }: { $points } of 100 points; the review is in { $path }

cli-begun = begun
cli-grading = Visits worked again and marked
cli-graded-so-far = { $done } of { $all }, { $share }
cli-arriving = Suspects on their way
cli-weighing = Evidence being weighed
cli-figures = Figures being worked out
cli-path = Sound path being worked out (--without-path leaves it out)
cli-moves-so-far = { $count ->
    [one] 1 move so far
   *[other] { $count } moves so far
}

# Lists.

cli-at-place = at { $place }
cli-fault-example = Written with a severity from 0 to 1: { $examples }.
cli-plate = { $refrigerant }, { $charge }, target subcooling { $subcooling }

# A settled system: what happened.

cli-does-not-start = The compressor does not start.
cli-protection = { $how ->
    [stops] { $since ->
        [start] The { $protection } stops the compressor { $after } after the start.
       *[call] The { $protection } stops the compressor { $after } after the call.
    }
    [opens] { $since ->
        [start] The { $protection } opens { $after } after the start.
       *[call] The { $protection } opens { $after } after the call.
    }
   *[first] { $since ->
        [start] The compressor stops { $after } after the start; the first protective device to open is the { $protection }.
       *[call] The compressor stops { $after } after the call; the first protective device to open is the { $protection }.
    }
}
cli-stops = { $since ->
    [start] The compressor stops { $after } after the start; no protective device has opened.
   *[call] The compressor stops { $after } after the call; no protective device has opened.
}
cli-comes-back-never = { $what ->
    [compressor] It runs again at no time that was simulated.
   *[protection] It closes again at no time that was simulated.
}
cli-comes-back = { $what ->
    [compressor] It runs again { $later } later.
   *[protection] It closes again { $later } later.
}
cli-comes-back-in-turns = { $what ->
    [compressor] It runs again { $later } later; from then on it runs for { $on } and rests for { $off } on average.
   *[protection] It closes again { $later } later; from then on it stays closed for { $on } and open for { $off } on average.
}
cli-at-rest = At rest the suction gauge comes to { $suction }, the liquid gauge to { $liquid }.
cli-runs-too-short = It stops too soon after each start for a superheat or a subcooling.
cli-not-steady = { $means ->
    [running] Not steady: { $why }; the values are means over the time in which the compressor runs, not over its cycles.
    [ten-minutes] Not steady: { $why }; the values are means of ten minutes.
   *[at-rest] Not steady: { $why }; the values are means of ten minutes at rest.
}
cli-why-cycles = it goes on and off
cli-why-protection = a protective device opens
cli-why-ice = there is ice on the coil
cli-why-leak = refrigerant leaks
cli-why-relief = the relief device let refrigerant out
cli-why-off = it does not run
cli-why-moving = the readings keep moving

# Its rows.

cli-row-outdoor-air = Outdoor air
cli-row-return-dry-bulb = Return dry bulb
cli-row-return-wet-bulb = Return wet bulb
cli-row-supply-dry-bulb = Supply dry bulb
cli-row-supply-wet-bulb = Supply wet bulb
cli-row-temperature-split = Temperature split
cli-row-indoor-airflow = Indoor airflow
cli-row-static-return-before-the-filter = Static, return before the filter
cli-row-static-behind-the-filter = Static, after the filter
cli-row-static-behind-the-coil = Static, after the coil
cli-row-static-supply = Static, supply
cli-row-static-drop-over-the-filter = Static drop across the filter
cli-row-static-drop-over-the-coil = Static drop across the coil
cli-row-static-total-external = Static, total external
cli-row-suction-pressure = Suction pressure
cli-row-liquid-pressure = Liquid pressure
cli-row-evaporating-temperature-dew = Evaporating temperature (dew)
cli-row-condensing-temperature-dew = Condensing temperature (dew)
cli-row-superheat = Superheat
cli-row-subcooling = Subcooling
cli-row-suction-line-at-the-bulb = Suction line at the bulb
cli-row-suction-line-at-the-service-valve = Suction line at the service valve
cli-row-evaporator-pressure = Evaporator pressure
cli-row-liquid-line-at-the-service-valve = Liquid line at the service valve
cli-row-liquid-line-at-the-drier-inlet = Liquid line at the drier inlet
cli-row-liquid-line-at-the-drier-outlet = Liquid line at the drier outlet
cli-row-liquid-line-at-the-metering-device = Liquid line at the metering device
cli-row-discharge-temperature = Discharge temperature
cli-row-temperature-drop-over-the-drier = Temperature drop across the drier
cli-row-metering-device-opening = Metering device opening
cli-row-capacity-gross = Capacity, gross
cli-row-capacity-while-running-gross = Capacity while running, gross
cli-row-capacity-net-of-blower-heat = Capacity, net of blower heat
cli-row-capacity-while-running-net = Capacity while running, net
cli-row-capacity-gross-sensible = Capacity, gross sensible
cli-row-capacity-while-running-sensible = Capacity while running, sensible
cli-row-compressor-power = Compressor power
cli-row-compressor-power-while-running = Compressor power while running
cli-row-outdoor-fan-power = Condenser fan power
cli-row-outdoor-fan-power-while-running = Condenser fan power while running
cli-row-blower-power = Blower power
cli-row-blower-power-while-running = Blower power while running
cli-row-power-total = Power, total
cli-row-power-while-running-total = Power while running, total
cli-row-frost-on-the-indoor-coil = Frost on the indoor coil
cli-row-charge-condenser = Charge, condenser
cli-row-charge-liquid-line = Charge, liquid line
cli-row-charge-evaporator = Charge, evaporator
cli-row-charge-suction-line-and-shell = Charge, suction line and shell
cli-row-charge-total = Charge, total
cli-row-suction-pressure-at-rest = Suction pressure at rest
cli-row-liquid-pressure-at-rest = Liquid pressure at rest
cli-not-graded = { $file }: not graded: { $why }
cli-outside = faults were injected, worsened or cleared during this visit, which a learner can't do. If you kept the record of a visit in which you did so yourself: --with-events
cli-no-call-of-record = { $why } (--call FILE)
