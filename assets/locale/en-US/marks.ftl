# Why points were earned or lost. A reason may begin with a label: the first letter becomes a capital where it is shown.

area-order = order
area-evidence = evidence
area-refrigerant = refrigerant
area-safety = safety
area-repair = repair
area-time = time

# Order.

reason-no-rule-tested = Nothing in this visit put a rule of the sound order to the test.
reason-never-reached = Never reached: { $before }. It needs { $one-of-any } first.
reason-out-of-order = { $before } came before { $one-of-any }.
reason-in-order = { $one-of-any } came first, then { $before }.

milestone-customer-asked = a question to the customer
milestone-data-plate-read = reading the data plate
milestone-compressor-stopped = stopping the compressor
milestone-filter-inspected = inspecting the filter
milestone-coil-seen = looking at the coil face
milestone-blower-seen = watching the blower wheel
milestone-thermostat-read = reading the thermostat
milestone-control-voltage-measured = measuring the control voltage
milestone-coil-thawed = a coil free of ice
milestone-gauges-connected = connecting the gauges
milestone-pressures-read = reading the pressures
milestone-superheat-measured = measuring superheat
milestone-subcooling-measured = measuring subcooling
milestone-temperature-split-measured = measuring the temperature split
milestone-drier-drop-measured = measuring the temperature drop across the drier
milestone-bulb-seen = looking at the sensing bulb
milestone-bulb-tested = warming or chilling the sensing bulb
milestone-leak-searched = a leak search
milestone-leak-found = finding the leak
milestone-recovered = recovering the refrigerant
milestone-cause-declared = declaring the cause
milestone-part-replaced = the repair
milestone-pressure-tested = a pressure test with nitrogen
milestone-evacuated = evacuating the circuit
milestone-vacuum-held = a vacuum that holds
milestone-weighed-in = weighing in refrigerant
milestone-refrigerant-added = adding refrigerant
milestone-repair-verified = verifying the repair
milestone-ticket-closed = closing the ticket

# Evidence.

reason-nothing-declared = No cause was declared.
reason-wrongly-declared-first = You declared this first, and it was not the cause: { $cause }.
reason-cause-wrong = You declared the wrong cause: { $cause }.
reason-cause-not-all = You declared a right cause, but not the only one: { $cause }. Never declared: { $missing-each }.
reason-cause-misplaced = You declared the right cause, but at the wrong place: { $cause }. It is here: { $places }.
reason-cause-right = You declared the right cause: { $cause }.
reason-nothing-cited = The declaration cites no entry of the notebook.
reason-cited-in-part = { $cited ->
    [one] The one cited entry rules out nothing: { $useless-each }.
   *[other] Of { $cited } cited entries, these rule out nothing: { $useless-each }.
}
reason-cited-soundly = Every cited entry holds a reliable reading or an observation.
reason-evidence-for-wrong-cause = Evidence for a wrong cause rules out nothing.
reason-guessed = A cause declared without evidence is a guess, even when it is right.
reason-cause-probable = { $standing-count ->
    [0] { $doubtful-count ->
        [0] What you had read and seen makes it { $probability } probable: { $cause }.
       *[other] What you had read and seen makes it { $probability } probable: { $cause }. Some readings were in doubt: { $doubtful-each }.
    }
   *[other] { $doubtful-count ->
        [0] What you had read and seen makes it { $probability } probable: { $cause }. Still possible: { $standing-each }.
       *[other] What you had read and seen makes it { $probability } probable: { $cause }. Still possible: { $standing-each }. Some readings were in doubt: { $doubtful-each }.
    }
}
reason-no-rivals = The call has no rivals to rule out.
reason-ruled-out-but-true = You ruled this out, but it is one of the causes: { $rival }.
reason-rival-stands = Not ruled out: { $rival }. It is { $probability } probable.
reason-rival-ruled-out = { $entries-count ->
    [0] Ruled out: { $rival }.
    [one] Ruled out, most of all by entry { $entries }: { $rival }.
   *[other] Ruled out, most of all by entries { $entries }: { $rival }.
}

useless = { $entries-count ->
    [one] entry { $entries } ({ $why })
   *[other] entries { $entries } ({ $why })
}
no-evidence-not-yet-there = not in the notebook at that time
no-evidence-nothing-read-or-seen = nothing was read or seen
standing = { $suspect } ({ $probability })
doubtful = { $entries-count ->
    [one] entry { $entries } ({ $doubt })
   *[other] entries { $entries } ({ $doubt })
}

# Refrigerant.

reason-nothing-added = No refrigerant was added on top of an existing charge.
reason-added-too-early = Refrigerant was added before this had been done: { $missing }.
reason-added-to-full = Refrigerant was added to a circuit that held { $charge-share } of its charge.
reason-added-after-tests = Refrigerant was added after the airflow was checked and the coil thawed, when the readings made a low charge { $probability } probable.
reason-hardly-vented = Nothing was vented beyond what can't be helped ({ $lost-kg }, hoses included).
reason-vented = { $vented-kg } of refrigerant went into the air; recovery would have kept it.
reason-leak-found-first = The leak was found before refrigerant was charged.
reason-charged-before-leak-found = Refrigerant was charged before the leak was found.
reason-leak-found-not-charged = The leak was found, but the charge was never corrected.
reason-leak-not-found = The leak was never found.
reason-circuit-not-opened = The circuit was never opened for the repair that it needs.
reason-opened-before-recovery = The circuit was opened before its refrigerant was recovered.
reason-recovered-first = The refrigerant was recovered before the circuit was opened.
reason-not-weighed-in = No refrigerant was weighed in.
reason-weighed-in = The circuit ended with { $charge-share } of the data plate's charge.

# Safety.

reason-nothing-done = Nothing was done.
reason-not-on-ice = The compressor did not run on ice.
reason-on-ice-briefly = The compressor was stopped soon: it ran on ice for { $on-ice-for-s }.
reason-on-ice-long = The compressor ran on ice for { $on-ice-for-s }; liquid refrigerant that no longer boils off in the coil can reach it.
reason-nothing-touched = No part was worked on, so there is nothing to earn.
reason-dead-when-touched = Power was off each time hands went into the equipment.
reason-left-open = The ticket was not closed.
reason-left-in-order = The site was left closed up, with power on and cooling set.
reason-left-undone = When you left, { $undone }.

undone-panel-open = a panel was open
undone-gauges-on = the gauges were still on
undone-switch-off = a switch was off
undone-thermostat-off = the thermostat was off
undone-bulb-off = the sensing bulb was off the line

# What was done in an unsafe way, as sentences.

danger-disconnect-in = Hands went into the equipment with the outdoor disconnect still in.
danger-blower-under-power = Hands went into the air handler while the blower had power.
hazard-circuit-work-with-power-on = The circuit was worked on with the outdoor disconnect still in.
hazard-refrigerant-vented = The circuit was opened with refrigerant in it.
hazard-live-panel-opened = The electrical panel of the outdoor unit was opened with the disconnect still in.
hazard-wiring-work-with-power-on = Wiring, a motor or a fan was worked on with its power on.
hazard-charged-capacitor-touched = A capacitor was touched before it was discharged.
hazard-meter-on-live-circuit = The meter was set to Ω or µF on a live circuit.
hazard-compressor-run-on-open-circuit = The compressor ran on an open or empty circuit.
hazard-tested-above-design-pressure = The circuit was pressurized above the low side's test pressure.
hazard-flammable-gas-near-ignition = A flammable refrigerant was handled before the area was made safe from ignition.
hazard-flame-on-flammable-gas = A flame was held to a circuit that held flammable refrigerant; it had not been purged.

# Repair.

reason-cause-gone = What was wrong is gone.
reason-taken-away = An instructor cleared what was wrong ({ $taken }); nothing was left to repair.
reason-still-there = Still there: { $left-each }.
reason-charge-right = The circuit holds { $charge-share } of its charge; { $low-share } to { $high-share } is right.
reason-charge-right-only = The circuit holds { $charge-share } of its charge; { $low-share } to { $high-share } is right. That counts once the cause is gone.
reason-charge-wrong = The circuit holds { $charge-share } of its charge; { $low-share } to { $high-share } would be right.
reason-coil-clear = The coil is free of ice.
reason-coil-clear-only = The coil is free of ice. That counts once the cause is gone.
reason-coil-iced = There is { $ice-kg } of ice on the coil.
reason-not-verified = The repair was never verified.
reason-not-proven = The repair was verified, but that does not prove it: { $doubts }.
reason-proven = The system was proven steady after running for { $ran-for-s }.
reason-needless-parts = { $parts ->
    [one] A good part was replaced; the customer pays { $cost } for parts and refrigerant in all.
   *[other] { $parts } good parts were replaced; the customer pays { $cost } for parts and refrigerant in all.
}
reason-nothing-needless = Nothing was replaced needlessly.
reason-nothing-needed-either = Nothing was replaced needlessly, but what needed repair was not repaired either.
reason-ticket-closed = The customer was told and the ticket closed.
reason-ticket-closed-too-soon = The ticket was closed on a system that is not fixed.
reason-ticket-not-closed = The ticket was not closed.

left-behind-medium-on-coil = filter medium on the coil
left-behind-empty-slot = no filter in the slot

proof-doubt-fault-left = a fault was still there
proof-doubt-ran-too-short = the system had run for { $ran-for-s } of the { $needed-for-s } that prove it
proof-doubt-not-steady = the system was not steady
proof-doubt-ice-on-coil = there was ice on the coil
proof-doubt-worked-on-since = work was done on the system afterwards

# Time.

reason-time-not-counted = Time counts only when the cause is gone, the charge right and the ticket closed.
reason-took = The visit took { $took-for-s }; a sound visit needs { $par-for-s }. Parts and refrigerant cost { $cost }.
