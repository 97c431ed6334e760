# What can be wrong, and where in the equipment.

fault-group-air-side = air side
fault-group-blower-and-controls = blower and controls
fault-group-refrigerant-side = refrigerant side
fault-group-outdoor-unit = outdoor unit

fault-kind-loaded-filter = dirty or plugged filter
fault-kind-fouled-evaporator = no filter, indoor coil face plugged
fault-kind-collapsed-return-duct = return duct collapsed
fault-kind-closed-registers = supply registers closed or blocked
fault-kind-dirty-blower-wheel = dirty blower wheel
fault-kind-wrong-speed-tap = blower on the wrong speed tap
fault-kind-weak-blower-capacitor = weak blower capacitor
fault-kind-seized-blower-motor = blower motor seized
fault-kind-open-blower-winding = blower motor winding open
fault-kind-dead-blower-module = blower motor module dead
fault-kind-no-blower-command = no command to the blower motor module
fault-kind-open-blower-relay = blower relay open
fault-kind-dead-board = control board dead
fault-kind-thermostat-no-g = thermostat sends no G
fault-kind-thermostat-no-y = thermostat sends no Y
fault-kind-broken-y-conductor = open Y wire
fault-kind-shorted-y-conductor = Y wire shorted to common
fault-kind-blown-control-fuse = low-voltage fuse blown
fault-kind-open-transformer = transformer primary open
fault-kind-open-condensate-switch = float (overflow) switch open
fault-kind-welded-contactor = contactor welded shut
fault-kind-open-contactor-coil = contactor coil open
fault-kind-refrigerant-leak = refrigerant leak
fault-kind-undercharged = low charge, no leak
fault-kind-overcharged = overcharged
fault-kind-non-condensables = non-condensables
fault-kind-kinked-liquid-line = liquid line kinked
fault-kind-kinked-suction-line = suction line kinked
fault-kind-plugged-drier = filter drier plugged
fault-kind-metering-restricted = metering device stuck closed, underfeeding
fault-kind-metering-stuck-open = TXV stuck open, overfeeding
fault-kind-uninsulated-bulb = sensing bulb bare in cold cabinet air
fault-kind-bulb-loose = sensing bulb loose on the line
fault-kind-bulb-charge-lost = sensing bulb charge lost
fault-kind-orifice-too-small = fixed orifice too small
fault-kind-orifice-too-large = fixed orifice too large
fault-kind-fouled-condenser = dirty condenser coil
fault-kind-weak-fan-capacitor = weak condenser fan capacitor
fault-kind-dead-fan-motor = condenser fan motor seized
fault-kind-compressor-internal-leak = compressor bypassing, not pumping
fault-kind-weak-compressor-capacitor = weak compressor capacitor

# What a look finds of it: as the notebook tells it, and as it is named.

sight-most-registers-shut = Most registers in the house are closed or have furniture on them.
sight-some-registers-shut = Some registers in the house are closed or have furniture on them.
sight-duct-flat = With a flashlight through the grille: the duct behind it has collapsed flat; only a slit is open.
sight-duct-sags = With a flashlight through the grille: the duct behind it has sagged and partly collapsed.
sight-blades-packed = The cups of its blades are packed with dust.
sight-medium-on-coil = A gray mat of filter medium lies on the face of the coil.
sight-lint-on-coil = A thick layer of lint and dust covers the face of the coil.
sight-float-up = At the drain pan, the float switch is up.
sight-liquid-line-flat = Between the service valve and the filter drier, the liquid line is folded almost flat.
sight-liquid-line-dented = Between the service valve and the filter drier, the liquid line has a sharp dent.
sight-suction-line-flat = Under its insulation the suction line is folded almost flat at the bend before the outdoor unit.
sight-suction-line-dented = The insulation of the suction line is creased at the bend before the outdoor unit, and the tube under it is dented.
sight-fins-grey = The fins of the condenser coil are gray with lint and grass clippings.
sight-contactor-in-without-call = The contactor is pulled in without a call; its contacts stay closed.
sight-cable-worn = Where the low-voltage cable comes through the sheet metal, its jacket is worn through; the copper of two wires is exposed.

observation-filter-on-coil = filter medium on the coil
observation-registers-closed = supply registers closed or covered
observation-return-duct-collapsed = return duct collapsed
observation-coil-face-matted = coil face plugged with dirt
observation-blower-wheel-dirty = blower wheel full of dirt
observation-outdoor-coil-dirty = condenser coil dirty
observation-liquid-line-kinked = liquid line kinked
observation-suction-line-kinked = suction line kinked
observation-cable-chafed = low-voltage cable chafed at the outdoor unit
observation-float-switch-up = float switch up
observation-contactor-in-without-call = contactor pulled in without a call
