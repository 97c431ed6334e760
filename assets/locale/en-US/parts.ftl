# Names of places, parts and faults. In a sentence as they stand: no capital but where the trade writes one.

# Places on the site.

place-thermostat = thermostat
place-return-grille = return grille
place-supply-register = supply register
place-filter-slot = filter slot
place-blower = blower compartment
place-indoor-coil = indoor coil
place-metering-device = metering device
place-line-set = line set
place-drier = liquid-line filter drier
place-outdoor-unit = outdoor unit
place-outdoor-disconnect = outdoor disconnect
place-control-board = low-voltage terminal strip

panel-blower-compartment = blower panel
panel-coil-cabinet = coil cabinet
panel-outdoor-electrical = electrical panel of the outdoor unit

port-suction = suction
port-liquid = liquid

# Where a thermometer is clamped.

pipe-point-suction-at-service-valve = suction line at the service valve
pipe-point-suction-at-bulb = suction line beside the bulb
pipe-point-liquid-at-service-valve = liquid line at the service valve
pipe-point-liquid-before-drier = liquid line at the drier inlet
pipe-point-liquid-after-drier = liquid line at the drier outlet
pipe-point-liquid-at-metering-device = liquid line at the metering device
pipe-point-discharge = discharge line
pipe-point-sensing-bulb = sensing bulb
static-tap-room = the room
static-tap-return = the return, before the filter
static-tap-before-coil = between filter and coil
static-tap-after-coil = between coil and blower
static-tap-supply = the supply

air-point-return = return air
air-point-supply = supply air
air-point-outdoor = outdoor air

charge-by-subcooling = subcooling
charge-by-superheat = superheat

cylinder-use-charging = charging cylinder
cylinder-use-recovery = recovery cylinder

# Terminals of the wiring.

terminal-r = R (24 V hot)
terminal-c = C (24 V common)
terminal-y = Y (cooling call)
terminal-g = G (blower call)
terminal-contactor-coil-y = contactor coil, Y side
terminal-contactor-coil-c = contactor coil, C side
terminal-disconnect-line1 = disconnect, line 1
terminal-disconnect-line2 = disconnect, line 2
terminal-disconnect-load1 = disconnect, load 1
terminal-disconnect-load2 = disconnect, load 2
terminal-contactor-load1 = contactor, load 1
terminal-contactor-load2 = contactor, load 2
terminal-blower-motor1 = blower motor, lead 1
terminal-blower-motor2 = blower motor, lead 2
terminal-ground = cabinet ground
terminal-thermostat-r = thermostat, R
terminal-thermostat-y = thermostat, Y
terminal-thermostat-g = thermostat, G
terminal-transformer-primary1 = transformer primary 1
terminal-transformer-primary2 = transformer primary 2
terminal-transformer-secondary1 = transformer secondary 1 (hot)
terminal-transformer-secondary2 = transformer secondary 2 (common)
terminal-fuse-supply = low-voltage fuse, transformer side
terminal-fuse-load = low-voltage fuse, R side
terminal-float-switch-in = float switch, thermostat side
terminal-float-switch-out = float switch, outdoor side
terminal-service-line1 = service switch, line 1
terminal-service-line2 = service switch, line 2
terminal-service-load1 = service switch, load 1
terminal-service-load2 = service switch, load 2
terminal-blower-relay-common = blower relay, common
terminal-blower-relay-out = blower relay, output
terminal-blower-relay-coil-g = blower relay coil, G side
terminal-blower-relay-coil-c = blower relay coil, C side
terminal-blower-capacitor1 = blower capacitor 1
terminal-blower-capacitor2 = blower capacitor 2
terminal-blower-motor-start = blower motor, start lead
terminal-ecm-line1 = ECM plug, line 1
terminal-ecm-line2 = ECM plug, line 2
terminal-ecm-board-command = board, ECM command out
terminal-ecm-command = ECM plug, command
terminal-ecm-common = ECM plug, common
terminal-ecm-motor1 = ECM motor plug, phase 1
terminal-ecm-motor2 = ECM motor plug, phase 2
terminal-ecm-motor3 = ECM motor plug, phase 3
terminal-outdoor-y = outdoor unit, Y
terminal-outdoor-c = outdoor unit, C
terminal-high-pressure-in = high-pressure switch, Y side
terminal-high-pressure-out = high-pressure switch, contactor side
terminal-low-pressure-in = low-pressure switch, Y side
terminal-low-pressure-out = low-pressure switch, contactor side
terminal-contactor-line1 = contactor, line 1
terminal-contactor-line2 = contactor, line 2
terminal-capacitor-common = dual capacitor, C
terminal-capacitor-herm = dual capacitor, Herm
terminal-capacitor-fan = dual capacitor, Fan
terminal-compressor-common = compressor, C
terminal-compressor-start = compressor, S
terminal-compressor-run = compressor, R
terminal-fan-motor-common = condenser fan, common lead
terminal-fan-motor-run = condenser fan, run lead
terminal-fan-motor-start = condenser fan, start lead

# Wires.

conductor-supply-leg1 = outdoor supply, leg 1
conductor-supply-leg2 = outdoor supply, leg 2
conductor-compressor-common = wire to compressor C
conductor-compressor-run = wire to compressor R
conductor-compressor-start = wire from Herm to compressor S
conductor-capacitor-common = wire to the dual capacitor's C
conductor-fan-common = common lead of the condenser fan
conductor-fan-run = run lead of the condenser fan
conductor-fan-start = start lead of the condenser fan
conductor-indoor-leg1 = indoor supply, leg 1
conductor-indoor-leg2 = indoor supply, leg 2
conductor-relay-feed = wire to the blower relay
conductor-blower-line = blower lead 1
conductor-blower-return = blower lead 2
conductor-blower-start = start lead of the blower
conductor-transformer-feed = wire to the transformer's primary
conductor-transformer-return = wire from the transformer's primary
conductor-control-hot = 24 V hot wire of the transformer
conductor-control-common = 24 V common wire of the transformer
conductor-fuse-to-r = wire from the fuse to R
conductor-thermostat-r = thermostat cable, R
conductor-thermostat-y = thermostat cable, Y
conductor-thermostat-g = thermostat cable, G
conductor-float-switch = wire to the float switch
conductor-y-to-outdoor = Y wire to the outdoor unit
conductor-common-to-outdoor = C wire to the outdoor unit
conductor-high-pressure-switch = wire to the high-pressure switch
conductor-low-pressure-switch = wire to the low-pressure switch
conductor-contactor-coil = wire to the contactor coil
conductor-coil-common = wire from the contactor coil
conductor-ecm-command = command wire of the ECM
conductor-ecm-common = common wire of the ECM

capacitor-compressor = compressor section of the dual capacitor
capacitor-outdoor-fan = fan section of the dual capacitor
capacitor-blower = blower capacitor

motor-compressor = compressor
motor-outdoor-fan = condenser fan motor
motor-blower = blower motor

# Refrigerants and their safety classes (ASHRAE 34).

refrigerant-name-r410-a = R-410A
refrigerant-name-r32 = R-32
refrigerant-name-r454-b = R-454B
refrigerant-name-r22 = R-22

safety-class-a1 = A1
safety-class-a2-l = A2L

# Where refrigerant escapes.

leak-place-indoor-coil = indoor coil
leak-place-suction-service-valve = suction service valve
leak-place-liquid-line = liquid line joint

protection-high-pressure-switch = high-pressure switch
protection-low-pressure-switch = low-pressure switch
protection-winding-overload = compressor overload
protection-thermal-disc = compressor's internal thermal disc
protection-outdoor-fan-protector = condenser fan motor's overload
protection-blower-protector = blower motor's overload

# Instruments, and what they measure.

instrument-kind-digital-manifold = digital manifold
instrument-kind-pipe-clamp = pipe clamp thermometer
instrument-kind-thermo-hygrometer = thermo-hygrometer
instrument-kind-multimeter = multimeter
instrument-kind-clamp-meter = clamp meter
instrument-kind-charging-scale = charging scale
instrument-kind-micron-gauge = micron gauge
instrument-kind-manometer = manometer

measured-gauge-pressure = { $port } pressure
measured-pipe-temperature = { $pipe-point }
measured-air-temperature = { $first }, { $second }
measured-voltage = voltage from { $first } to { $second }
measured-resistance = resistance from { $first } to { $second }
measured-capacitance = capacitance from { $first } to { $second }
measured-current = current, { $conductor }
measured-recovered-mass = refrigerant recovered
measured-vacuum = vacuum
measured-added-mass = refrigerant added
measured-static-pressure = static pressure from { $first } to { $second }

# Things seen, as clauses.

observation-no-ice = no ice
observation-some-ice = frost on part of the coil
observation-block-of-ice = the coil is a block of ice
observation-filter-clean = filter clean
observation-filter-dirty = filter dirty
observation-filter-matted = filter plugged
observation-filter-collapsed = filter collapsed onto the coil
observation-filter-missing = no filter in the slot
observation-blower-turning = blower wheel turning
observation-blower-still = blower wheel not turning
observation-air-strong = strong air
observation-air-weak = weak air
observation-air-none = no air
observation-compressor-running = compressor running
observation-compressor-still = compressor off
observation-outdoor-fan-running = condenser fan running
observation-outdoor-fan-still = condenser fan not turning
observation-bulb-insulated = bulb strapped and insulated
observation-bulb-bare = bulb bare
observation-no-oil-stain = no oil stain
observation-bulb-answered = suction pressure rose with the warm bulb
observation-chilled-bulb-closed-valve = valve closed with the chilled bulb
observation-chilled-bulb-did-not-close-valve = valve did not close with the chilled bulb
observation-bulb-did-not-answer = suction pressure did not rise with the warm bulb
observation-wheel-turns-freely = blower wheel turns freely by hand
observation-wheel-stuck = blower wheel does not turn by hand
observation-blower-slow = blower slow
observation-blower-humming = blower hums and does not turn
observation-outdoor-fan-slow = condenser fan slow
observation-outdoor-fan-humming = condenser fan hums and does not turn
observation-compressor-humming = compressor hums and does not start
observation-fuse-blown = low-voltage fuse blown
observation-bulb-loose = bulb loose on the line
observation-part-was-sound = the part was good
observation-oil-stain = oil stain: { $leak-place }
observation-leak-found = leak found: { $leak-place }
observation-no-leak-found = no leak found: { $leak-place }
observation-no-continuity = no continuity from { $first } to { $second }
observation-no-capacitance = no capacitance from { $first } to { $second }
observation-part-was-faulty = the part was faulty: { $fault-kind }

# Why there is no superheat or no subcooling.

absence-at-rest = the compressor is off
absence-starting-up = the compressor has run for less than five minutes
absence-no-liquid = there is no liquid
absence-two-phase = liquid and vapor are mixed
