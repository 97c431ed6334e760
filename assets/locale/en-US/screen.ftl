# Labels and sentences of the window, asked for by their key. They are written as they are shown, capitals and keys of the keyboard too.
# Two spaces stand between a label and its key.

# Several things, each with commas of its own, in a row.

screen-series = { $before }; { $next }

# The start screen.

screen-start-name = Rimebench
screen-start-purpose = Run a service call on an air conditioner that is freezing up: find the cause, prove it, repair it.
screen-start-quit = Quit
screen-start-calls = Calls waiting
screen-start-no-calls = No calls came with this program. Open a call file on the right.
screen-start-par-time = a sound visit takes { $par }
screen-quoted = “{ $said }”
screen-start-go = Go to the call
screen-start-seed = Seed
screen-start-seed-example = 1
screen-start-seed-wrong = A seed is a whole number, 0 or more.
screen-start-next-seed = Next seed
screen-start-next-seed-about = The same call with different details
screen-start-seed-about = The same seed gives the same visit; another seed changes the weather, the house and how bad the fault is.
screen-start-choose-first = Choose a call first.
screen-start-arrive = Arrive
screen-start-open = Open a file
screen-start-path = Path of a call file or a visit record
screen-start-path-example = scenarios/my-call.ron
screen-start-open-call = Arrive at this call
screen-start-open-record = Open this record
screen-start-interrupted = Interrupted visits
screen-start-interrupted-visit = { $count ->
    [one] { $title }, seed { $seed }: 1 move
   *[other] { $title }, seed { $seed }: { $count } moves
}
screen-start-resume = Resume this visit
screen-start-honesty = What this is, and is not
screen-start-honesty-text = Rimebench teaches a way of thinking. On real equipment, licensed practice, the equipment maker’s instructions and local codes decide.
screen-preparing-so-far = { $span } so far

# What several screens share.

screen-help-open = Help  F1
screen-units-change = Change the units (U)
screen-cancel = Cancel
screen-close = Close
screen-dismiss = Dismiss
screen-caution = Caution
screen-caution-above = As above.
screen-not-known = —
screen-suffix = {" "}{ $unit }

# The bar of the ticket.

screen-ticket-leave = Leave
screen-ticket-leave-about = Leave this visit; it can be saved first.
screen-ticket-save = Save  S
screen-ticket-save-about = Write the visit record
screen-ticket-close = Close ticket  T
screen-ticket-verify = Verify  V
screen-ticket-declare = Declare cause  X
screen-ticket-ask = Ask customer  Q
screen-ticket-customer = Customer: { $complaint }

# The bar of the clock.

screen-clock-pause = Pause  Space
screen-clock-resume = Resume  Space
screen-clock-speed-about = Clock speed; , is slower, . is faster
screen-clock-on-site = { $elapsed } on site, a sound visit takes { $par }
screen-clock-paused = Paused
screen-clock-wait = Wait…  W
screen-clock-evidence-behind = The evidence is { $span } behind the clock
screen-clock-doing = { $move }, { $done } of { $total }
screen-clock-doing-with-evidence = { $move }, { $done } of { $total }, evidence worked out for { $followed }
screen-clock-stop-waiting = Stop waiting
screen-clock-stop = Stop here
screen-time-none = no time
screen-time-minutes = { $minutes } min

# Places.

screen-places = Places
screen-places-indoors = Indoors
screen-places-outdoors = Outdoors
screen-places-senses = What you see, hear and feel
screen-place-lettered = { $letter }  { $place }
screen-place-about-thermostat = On the hallway wall.
screen-place-about-return-grille = Where room air enters the equipment.
screen-place-about-supply-register = Where cooled air enters the room.
screen-place-about-filter-slot = Between the return box and the coil.
screen-place-about-blower = Wheel and motor, behind the blower panel.
screen-place-about-indoor-coil = Coil and drain pan, behind the panel of the coil cabinet.
screen-place-about-metering-device = Metering device and sensing bulb, inside the coil cabinet.
screen-place-about-line-set = Suction line (thick, insulated) and liquid line (thin).
screen-place-about-drier = In the liquid line, beside the outdoor unit.
screen-place-about-outdoor-unit = Compressor, condenser coil and fan, service ports, data plate.
screen-place-about-outdoor-disconnect = On the outside wall, within sight of the unit.
screen-place-about-control-board = R, C, Y and G at the air handler, behind the blower panel.

# What the drawing shows, in words.

screen-site-picture = The site. { $seen }
screen-site-seen = { $seen }.
screen-site-air = { $air } at the register
screen-site-suction-line = suction line { $feel }
screen-site-liquid-line = liquid line { $feel }
screen-site-frost = frost on the suction line
screen-site-coil-clear = coil free of ice
screen-site-coil-iced = ice on { $share } of the coil

screen-feel-freezing = freezing
screen-feel-cold = cold
screen-feel-cool = cool
screen-feel-mild = mild
screen-feel-warm = warm
screen-feel-hot = hot
screen-feel-too-hot = too hot to hold

# What is written in the drawing. There is little room.

screen-drawn-title = Section through the house, not to scale
screen-drawn-seed = Seed { $seed }. Numbers come from instruments in place.
screen-drawn-cool-to = cool to { $set-point }
screen-drawn-air = { $air }, { $feel }
screen-drawn-coil-panel = coil panel
screen-drawn-blower-panel = blower panel
screen-drawn-panel-closed = closed
screen-drawn-service-switch-off = service switch off
screen-drawn-board-r = R
screen-drawn-board-c = C
screen-drawn-board-y = Y
screen-drawn-board-g = G
screen-drawn-wheel-turns = turns
screen-drawn-wheel-still = stopped
screen-drawn-compressor-runs = runs
screen-drawn-compressor-off = off
screen-drawn-disconnect-in = in
screen-drawn-disconnect-out = pulled
screen-drawn-suction-line = Suction line: { $suction }
screen-drawn-suction-line-frosted = Suction line: { $suction }, frosted
screen-drawn-liquid-line = Liquid line: before the drier { $before }, after it { $after }
screen-drawn-suction-letter = S
screen-drawn-liquid-letter = L
screen-drawn-suction-gauge = S { $pressure }
screen-drawn-liquid-gauge = L { $pressure }

# Instruments.

screen-instruments = Instruments
screen-instruments-none = No thermometer is in place. Clamps stay where you put them and show here; so do air probes in return and supply.
screen-instruments-settled = settled
screen-gauge-off = not connected
screen-gauge-dew = dew { $temperature }
screen-gauge-bubble = bubble { $temperature }
screen-gauge-spoken = { $port } gauge: { $pressure }
screen-gauge-spoken-off = { $port } gauge: not connected
screen-doubt = ! { $doubt }
screen-trust-settled = settled
screen-trust-moving = moving
screen-trust-stopped = stopped
screen-trust-ice = ice
screen-display-suction-at-service-valve = Suction at valve
screen-display-suction-at-bulb = Suction at bulb
screen-display-liquid-at-service-valve = Liquid at valve
screen-display-liquid-before-drier = Liquid before drier
screen-display-liquid-after-drier = Liquid after drier
screen-display-liquid-at-metering-device = Liquid at metering
screen-display-discharge = Discharge line
screen-display-sensing-bulb = Sensing bulb

# Moves at a place.

screen-moves-none = Nothing can be done here.
screen-moves-busy = Something is being done. Wait for it, or stop it below.
screen-move-keyed = { $key }  { $move }
screen-move-unkeyed = {"   "}{ $move }
screen-move-weigh-in = Weigh in refrigerant…
screen-move-add = Add refrigerant…
screen-move-add-vapor = Add vapor…
screen-move-remove = Recover part of the refrigerant…
screen-move-recover-to = Recover to a target…
screen-move-nitrogen = Pressurize with nitrogen…
screen-move-standing-test = Standing pressure test…
screen-move-evacuate-to = Evacuate to a target…
screen-move-decay-test = Watch the vacuum…
screen-move-charge-to = Charge to a target…
screen-move-wait = Wait…
screen-move-declare = Declare the cause…
screen-move-thermostat = Other settings…
screen-move-voltage = Measure between other terminals…

# The notebook.

screen-notebook = Notebook
screen-notebook-empty = Empty. Every move you make is written down here, with the time it began.
screen-notebook-cite = Cite as evidence
screen-notebook-tick = check what you cite
screen-notebook-cited = { $count } cited
screen-notebook-doubt = ! Not reliable: { $doubt }

# Hints beside the notebook.

screen-hints-tab = Next test  N
screen-hints-failed = No test can be worked out any more: { $reason }
screen-hints-arriving = Possible causes are being set up, { $share }
screen-hints-after-arrival = The tests follow once that is done.
screen-hints-comparing = Tests are being compared, { $share }
screen-hints-no-test = As things are now, no test is expected to tell anything more.
screen-hints-when-idle = The tests are compared once nothing is being done.
screen-hints-ask = Which test would tell the most?
screen-hints-counted = What you ask here is counted and shown in the review.
screen-hints-worth-very-much = Very useful.
screen-hints-worth-much = Useful.
screen-hints-worth-something = Somewhat useful.
screen-hints-worth-little = Slightly useful.
screen-hints-worth-nothing = Hardly useful.
screen-hints-first = First: { $moves }.
screen-hints-next-running-clear = Needs a running system and a clear coil. Next for that: { $moves }.
screen-hints-next = Next for that: { $moves }.
screen-hints-with-it = With the same setup: { $moves }.
screen-hints-possible = What is still possible?
screen-hints-possible-hide = Hide what is still possible
screen-hints-as-of = As of move { $number }; later ones are being worked out.
screen-hints-others = All others together

# Dialogs.

screen-ask = Ask the customer
screen-dialog-takes = Takes { $time }.
screen-dialog-do = Do it
screen-close-ticket-about = You tell the customer what was wrong and what was done, write the ticket and leave. After that nothing can be changed, and the review follows.
screen-close-ticket-no-cause = ! No cause has been declared.
screen-close-ticket-not-verified = ! The repair has not been verified.
screen-verify-about = You let the system run, watch it settle and take the readings that prove the repair.
screen-leave = Leave this visit
screen-leave-about = You can open a saved record again and go on with the visit.
screen-leave-save = Save and leave
screen-leave-lose = Leave without saving

screen-declare = Declare the cause
screen-declare-about = Say what is wrong, cite the entries that show it, and check the rivals that they rule out.
screen-declare-no-cause = Choose a cause.
screen-declare-no-place = Choose where.
screen-declare-no-evidence = Cite at least one entry.
screen-declare-cause = Cause
screen-declare-where = Where
screen-declare-ruled-out = Ruled out by the evidence: { $count }
screen-declare-not = Not: { $fault }
screen-declare-evidence = Evidence from the notebook: { $count } cited
screen-declare-entry = No. { $number }
screen-declare-nothing-yet = Nothing has been read or seen yet.
screen-declare-go = Declare

screen-wait = Wait
screen-wait-about = The clock runs fast while you wait. You can stop at any time.
screen-wait-or = or
screen-wait-go = Wait this long

screen-thermostat = Set the thermostat
screen-thermostat-system = System
screen-thermostat-off = Off
screen-thermostat-cool = Cool
screen-thermostat-fan = Fan
screen-thermostat-fan-auto = Auto
screen-thermostat-fan-on = On
screen-thermostat-cool-to = Cool to
screen-thermostat-less = −
screen-thermostat-more = +
screen-thermostat-go = Set

screen-mass-weigh-in = Weigh in refrigerant
screen-mass-weigh-in-go = Weigh in
screen-mass-add = Add refrigerant
screen-mass-add-vapor = Add refrigerant as vapor
screen-mass-add-go = Add
screen-mass-remove = Recover part of the refrigerant
screen-mass-remove-go = Recover
screen-mass-amount = Amount
screen-mass-none = Enter an amount.

screen-voltage = Measure a voltage
screen-voltage-from = From
screen-voltage-to = To
screen-voltage-go = Measure
screen-voltage-same = Choose two different terminals.

screen-service-nitrogen = Pressurize with nitrogen
screen-service-nitrogen-go = Pressurize
screen-service-nitrogen-about = Through the regulator, on both sides of the circuit.
screen-service-stand = Standing pressure test
screen-service-stand-go = Start the test
screen-service-stand-about = The gauge and the thermometer are read at the start and at the end.
screen-service-recovery = Recover to a target
screen-service-recovery-go = Recover
screen-service-recovery-about = For a unit this small, the rule only asks for 0 inHg of vacuum.
screen-service-vacuum = Evacuate to a target
screen-service-vacuum-go = Evacuate
screen-service-vacuum-about = Until the micron gauge shows it, or until time is up.
screen-service-decay = Watch the vacuum
screen-service-decay-go = Watch
screen-service-decay-about = With the pump valved off.
screen-service-charge = Charge to a target
screen-service-charge-go = Charge
screen-service-charge-about = Small steps in or out of the running system, with fifteen minutes to settle after each.
screen-service-regulator = Regulator at
screen-service-down-to = Down to
screen-service-by = By
screen-service-target = Target
screen-service-no-target = Enter a target.
screen-service-at-most = Put in at most
screen-service-for = For
screen-service-for-at-most = For at most

# Units behind a number that is typed in.

screen-unit-minutes = min
screen-unit-pounds = lb
screen-unit-ounces = oz
screen-unit-kilograms = kg
screen-unit-vacuum-inches = inHg of vacuum
screen-unit-vacuum-kilopascals = kPa of vacuum
screen-unit-microns = microns
screen-unit-pascals = Pa
screen-unit-fahrenheit = °F
screen-unit-kelvin = K

# Help.

screen-help = How to work here
screen-help-about = Choose a place in the drawing or in the list. Its moves are on the right. You can try a move that the site does not allow: you are told why, and it takes the minutes all the same.
screen-help-not-practice = Rimebench teaches a way of thinking; licensed practice, the equipment maker’s instructions and local codes decide.
screen-key-letters = A to L
screen-key-digits = 1 to 0
screen-key-tab = Tab
screen-key-arrows = arrows
screen-key-enter = Enter
screen-key-space = Space
screen-key-does-help = open and close this page
screen-key-does-place = go to a place
screen-key-does-move = make a move of the place
screen-key-does-buttons = go from button to button
screen-key-does-press = press the button that has the focus
screen-key-does-pause = pause, resume
screen-key-does-speed = slower, faster
screen-key-does-wait = wait
screen-key-does-ask = ask the customer
screen-key-does-declare = declare the cause
screen-key-does-verify = run the system and verify the repair
screen-key-does-close = close the ticket
screen-key-does-hints = next test, back to the notebook
screen-key-does-units = change the units
screen-key-does-save = save the visit record
screen-key-does-page = in the review: save it as a page
screen-term-call = Call
screen-term-call-about = what the customer wants, with the equipment, the house and what is wrong.
screen-term-visit = Visit
screen-term-visit-about = your work on one call, from arrival to closed ticket.
screen-term-move = Move
screen-term-move-about = one thing you do. Every move takes minutes; parts cost money.
screen-term-reading = Reading
screen-term-reading-about = a number from an instrument, with its unit and how far it can be off (±, one standard deviation).
screen-term-notebook = Notebook
screen-term-notebook-about = everything you did and saw. Check an entry to cite it as evidence.
screen-term-superheat = Superheat
screen-term-superheat-about = suction line temperature minus the dew point at suction pressure.
screen-term-subcooling = Subcooling
screen-term-subcooling-about = bubble point at liquid pressure minus liquid line temperature.
screen-term-split = Temperature split
screen-term-split-about = return air minus supply air, dry bulb.
screen-term-settled = Settled
screen-term-settled-about = an instrument that has stopped moving. A reading taken with ice on the coil or with the compressor off is marked.
screen-term-thaw = Thaw
screen-term-thaw-about = to get the coil free of ice. Compressor off and blower on melts it fastest.
screen-term-rival = Rival
screen-term-rival-about = another fault that could show the same signs. Good evidence rules it out.
screen-term-review = Review
screen-term-review-about = how your points were earned, move by move, and what was wrong.

# The review.

screen-review-timeline = What happened
screen-review-evidence = Where the evidence led
screen-review-system = What the system did
screen-review-cycle = The cycle
screen-review-later = What would have come next
screen-review-path = A sound path
screen-review-refrigerant = Where the refrigerant went
screen-review-of-points = of 100 points
screen-review-wrong = What was wrong: { $things }
screen-review-wrong-nothing = What was wrong: nothing
screen-review-still-there = { $fault }, still there
screen-review-still-there-at = { $fault } ({ $place }), still there
screen-review-gone = { $fault }, gone
screen-review-gone-at = { $fault } ({ $place }), gone
screen-review-declared = You declared: { $fault }
screen-review-declared-nothing = You declared: nothing
screen-review-leave = Back to the calls
screen-review-save-page = Save as a page  P
screen-review-save-page-about = Write this review as one HTML file, in these units, for screen and paper
screen-review-save-record = Save record  S
screen-review-marks = Marks
screen-review-points = { $points } of { $most }
screen-review-points-signed = { $sign } { $points } of { $most }
screen-review-time-and-cost = { $elapsed } on site, a sound visit takes { $par }. Parts and refrigerant: ${ $cost }.
screen-review-hints-always = Hints: the next test was shown all the time.
screen-review-hints-tests = { $count ->
    [1] Hints: you asked for the next test once.
    [2] Hints: you asked for the next test twice.
   *[other] Hints: you asked for the next test { $count } times.
}
screen-review-hints-possible = { $count ->
    [1] Hints: you looked at what was still possible once.
    [2] Hints: you looked at what was still possible twice.
   *[other] Hints: you looked at what was still possible { $count } times.
}
screen-review-nothing-to-mark = Nothing to mark here.
screen-area-about-order = Whether things were done in a sound order.
screen-area-about-evidence = Whether your readings single out the cause you declared.
screen-area-about-refrigerant = How refrigerant was handled.
screen-area-about-safety = Whether you and the equipment were kept safe.
screen-area-about-repair = Whether the cause is gone, and proven gone.
screen-area-about-time = How long it took.
screen-review-move = Move { $number }
screen-review-move-named = Move { $number }: { $move }
screen-review-move-about = Show it under “What happened”
screen-review-to-come = This is being worked out
screen-review-not-worked-out = This could not be worked out for this visit.

screen-balance-plate = On the data plate
screen-balance-start = In the circuit at the start
screen-balance-added = Added by you
screen-balance-leaked = Leaked out
screen-balance-vented = Vented to the air
screen-balance-hoses = Lost with the hoses
screen-balance-trapped = Left in the hoses
screen-balance-recovered = Recovered into a cylinder
screen-balance-end = In the circuit at the end

# The review: where the evidence led.

screen-evidence-none = The evidence has not been worked out.
screen-evidence-to-come = The evidence is being worked out
screen-evidence-legend = Full dot: a reliable reading. Hollow dot: a reading in doubt. Square: something seen. Vertical stroke: work, talk or waiting. Horizontal stroke: not possible. Cross: the sound order was broken. Bands run from 0 to 100 %.
screen-evidence-moves = Your moves
screen-evidence-move-about = { $number }: { $move }
screen-evidence-wrong-and-declared = { $suspect } (the fault; declared)
screen-evidence-wrong = { $suspect } (the fault)
screen-evidence-declared = { $suspect } (declared)
screen-evidence-breaks = Where the order was broken
screen-evidence-rulings = What each reading ruled out

# The review: plots, the cycle, what would have come next, a sound path.

screen-plot-too-short = This visit was too short for plots.
screen-plot-pressure = Pressure, { $unit }
screen-plot-liquid = liquid
screen-plot-suction = suction
screen-plot-temperature = Temperature, { $unit }
screen-plot-room-air = room air
screen-plot-supply-air = supply air
screen-plot-coil-surface = coil surface
screen-plot-ice = Ice on the coil, { $unit }
screen-plot-ice-curve = ice
screen-plot-move = a move
screen-plot-level = level line
screen-plot-reading = your reading
screen-plot-legend = Along the bottom: minutes since arrival. Vertical lines: your moves. Dots: your readings, hollow when in doubt. Horizontal line among the temperatures: freezing point of water.

screen-cycle-none = The compressor did not run while anything was read, so there is no cycle to show.
screen-cycle-at = at { $moment }
screen-cycle-legend = Thin line: { $sound }. Thick gray line: { $refrigerant } at saturation.
screen-cycle-flood-back = Where no superheat is left, liquid may come back to the compressor.
screen-cycle-corners = Corners follow from pressures and line temperatures; wet vapor shows as saturated.
screen-cycle-axes = Pressure, { $pressure-unit }, over enthalpy, { $enthalpy-unit }
screen-cycle-psia = psia
screen-cycle-kilopascals = kPa absolute
screen-cycle-saturation = saturation
screen-cycle-sound = system without a fault
screen-cycle-evaporating = Evaporating
screen-cycle-condensing = Condensing
screen-cycle-superheat = Superheat
screen-cycle-subcooling = Subcooling
screen-cycle-net-cooling = Net cooling

screen-later-about = { $hours } h more in the same weather, with the customer's settings back on the thermostat (set point { $set-point }). Beside it: the same house with a system that has no fault, the data plate's charge and no ice.
screen-later-as-left = As you left it
screen-later-repaired = Repaired
screen-later-as-left-curve = as you left it
screen-later-repaired-curve = repaired
screen-later-room = Room, { $unit }
screen-later-ice = Ice, { $unit }
screen-later-legend = Along the bottom: hours after the visit. Horizontal line in the room's plot: the set point.

screen-path-under-way = A sound path is being worked out
screen-path-moves-so-far = { $count ->
    [one] 1 move so far. You can leave at any time.
   *[other] { $count } moves so far. You can leave at any time.
}
screen-path-to-come = A sound path will be worked out
screen-path-to-come-about = It begins once the rest of the review is done.
screen-path-none = No sound path was worked out for this call.
screen-path-length = { $count ->
    [one] 1 step, { $span }
   *[other] { $count } steps, { $span }
}
screen-path-step = { $number }. { $move } ({ $time })

# The window: long work, files that were written, and what did not work.

screen-window-title = Rimebench
screen-work-arriving = On the way to the call
screen-work-arriving-about = The house and its air conditioner run through the hours before you arrive.
screen-work-opening = Opening the record
screen-work-opening-about = Every move of { $path } is made again.
screen-work-marking = Working out the marks
screen-work-marking-about = Rival faults are worked through your moves, to see what your readings tell apart.
screen-saved-record = Visit record: { $path }
screen-saved-page = Page: { $path }
screen-saved-page-without-path = Page: { $path }. The sound path is still being worked out; save again later for a page that has it.
screen-failed-outside = Faults were injected, worsened or cleared during this visit, which a learner can't do.
screen-failed-not-begun = The work could not be started: { $reason }.
screen-failed-no-result = The work ended without a result. This is a defect of the program.
screen-failed-broke-off = The work broke off ({ $reason }). This is a defect of the program.
screen-failed-settings-not-read = The settings in { $path } could not be read: { $reason }. The program goes on as it comes.
screen-failed-settings-not-written = The settings could not be written to { $path }: { $reason }.
screen-failed-not-read = { $path } could not be read: { $reason }.
screen-failed-not-read-advice = Give the path as you would in a terminal; a path without a folder is looked for in the current folder.
screen-failed-record-not-written = The visit record could not be written to { $path }: { $reason }.
screen-failed-page-not-written = The page could not be written to { $path }: { $reason }.
screen-failed-interrupted-not-written = The visit record could not be written: { $reason }.
screen-failed-no-journal = The journal of this visit could not be written: { $reason }.
screen-failed-no-journal-advice = Until it can be, this visit would be lost if the program were killed: save the record.
screen-failed-figures-to-come = The figures are still being worked out. Save the page once they are there.
screen-failed-no-figures = The figures of this review could not be worked out, so there is no page.
screen-failed-hints-broke-off = The work on the possible causes broke off: a defect of the program. The visit goes on without hints.
screen-failed-clock-stopped = The clock is stopped. Save the record and report it: this is a defect of the program.

# At the terminal, where no window can be opened.

screen-headless = Rimebench also works without a window: `rimebench play --help` works a call from a file of moves, `rimebench --help` lists the rest.
screen-no-display = No window can be opened here: neither DISPLAY nor WAYLAND_DISPLAY is set, so there is no screen to open it on.
screen-no-display-answers = No window can be opened here: DISPLAY is { $display }, and no display answers there ({ $reason }).
screen-no-graphics = No graphics adapter was found ({ $reason }). The window needs Vulkan, Metal or Direct3D 12; on Linux without a graphics card the package mesa-vulkan-drivers brings one that works on the processor.
screen-broke-down-saved = The visit was saved to { $path }: open it there and go on.
screen-no-window = The window stopped working: { $reason }
screen-engine-ended = the engine ended with code { $code }
screen-engine-stopped = the engine stopped
