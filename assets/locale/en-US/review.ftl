# What a review holds beside the marks, as screen, page and command line say it.

# Suspects and what readings made of them.

hypothesis = { $causes-id ->
    [none] nothing wrong
   *[other] { $causes }
}
cause = { $place-id ->
    [none] { $kind }
   *[other] { $kind } ({ $place })
}
row-of-others = all others ({ $count })

wrong-thing = { $still-there-id ->
    [yes] { $place-id ->
        [none] { $kind } (severity { $severity } of 1): still there
       *[other] { $kind } ({ $place }; severity { $severity } of 1): still there
    }
   *[no] { $place-id ->
        [none] { $kind } (severity { $severity } of 1): gone
       *[other] { $kind } ({ $place }; severity { $severity } of 1): gone
    }
}

# Probabilities that must not read 0 or 100 %.

probability-near-one = over { $limit }
probability-near-none = under { $limit }

effect-ruled-out = { $more ->
    [0] Ruled out: { $changes-each }.
    [one] Ruled out: { $changes-each }; one more ({ $before-probability } to { $after-probability }).
   *[other] Ruled out: { $changes-each }; { $more } more (together { $before-probability } to { $after-probability }).
}
effect-points-to = { $more ->
    [0] Points to: { $changes-each }.
    [one] Points to: { $changes-each }; one more ({ $before-probability } to { $after-probability }).
   *[other] Points to: { $changes-each }; { $more } more (together { $before-probability } to { $after-probability }).
}
effect-nothing = Did not tell suspects apart.
effect-little = Shifted a little; ruled nothing out.
shift = { $suspect } ({ $before-probability } to { $after-probability })

# Why a reading could not be trusted.

trust-sound = reliable
trust-unsettled = still moving
trust-compressor-stopped = compressor not running
trust-ice-on-coil = ice on the coil
review-ice-when-last-seen = ice on the coil when last seen
review-doubt-unsettled = The value was still moving, so it fits many suspects at some moment: it counts for little.
review-doubt-compressor-stopped = The compressor was not running. Pressures and temperatures then drift toward those of their surroundings, whatever is wrong: it counts for little.
review-doubt-ice = There was ice on the coil. It blocks the air and pulls pressures and temperatures down in the same way, whatever caused it: it counts for little until the coil is thawed.

# A sound path: what each step is for, and what it told.

purpose-tests = Expected to tell the most for the time it takes.
purpose-prepares = Makes the next test possible.
purpose-keeps-order = A sound order has it before what comes next.
purpose-runs-up = Leads to a system that runs with a clear coil: the rest shows only then.
purpose-puts-back = Puts back what was switched off or opened.
purpose-declares = Says what is wrong, with the readings that single it out.
purpose-makes-safe = Makes the system safe to work on.
purpose-repairs = Removes the cause: { $fault-kind }.
purpose-fills = Closes and charges the circuit as the data plate says.
purpose-proves = Proves the repair and leaves the site in order.
step-gain = Most likely after it: { $leader }, { $after-probability } (before it { $before-probability }).
review-steps = { $count ->
    [one] 1 step
   *[other] { $count } steps
}

# The refrigerant's cycle.

cycle-moment-first-reading = entry { $entry }, a first reading
cycle-moment-declaration = entry { $entry }, the declaration
cycle-moment-end = the end of the visit
cycle-moment-last-running = last run, { $since-arrival-s } after arrival
cycle-moment-sound = without a fault
review-none = none

# Where the refrigerant went.

balance-line-data-plate = data plate
balance-line-at-start = at the start of the call
balance-line-put-in = added
balance-line-leaked = leaked
balance-line-vented = vented
balance-line-lost-with-hoses = lost with hoses
balance-line-left-in-hoses = left in the hoses
balance-line-recovered = recovered
balance-line-at-end = in the circuit at the end

# The system in the hours after the visit.

outlook-line-coil-iced = coil iced
outlook-line-time-iced = time with an iced coil
outlook-line-most-ice = most ice
outlook-line-ice-at-end = ice at the end
outlook-line-compressor-ran = compressor ran
outlook-line-compressor-starts = compressor starts
outlook-line-high-pressure-trips = high-pressure switch opened
outlook-line-overload-trips = compressor overload opened
outlook-line-warmest-room = warmest room
outlook-line-too-warm = room too warm for
outlook-line-lost = refrigerant lost
outlook-line-liquid-through = liquid returned to the compressor
outlook-line-worn = compressor pumping capacity lost to new wear

outlook-value-never = never
outlook-value-from-the-start = from the start
outlook-value-after = after { $after-h }
outlook-value-span = { $time-h }
outlook-value-mass = { $mass-kg }
outlook-value-count = { $count }
outlook-value-times = { $times ->
    [0] never
    [1] once
    [2] twice
   *[other] { $times } times
}
outlook-value-temperature = { $temperature-k }
outlook-value-no-wear = none
outlook-value-wear = { $worn-share }
