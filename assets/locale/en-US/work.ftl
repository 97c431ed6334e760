# Work: what a job is called, what was done, and what the old part or the place showed if it had been faulty and if it had been sound.

work-clean-coil = Wash the indoor coil
work-note-done-clean-coil = The coil is washed and rinsed.
work-note-was-faulty-clean-coil = A thick layer of lint came off its face.
work-note-was-sound-clean-coil = The water ran off as clear as it went on.

work-peel-filter-medium = Peel the filter medium off the coil face
work-note-done-peel-filter-medium = The face is bare again; what was on it is in the bag.
work-note-was-faulty-peel-filter-medium = It came off in strips, gray and thick with lint.
work-note-was-sound-peel-filter-medium = There was nothing on it.

work-restore-return-duct = Rehang and seal the return duct
work-note-done-restore-return-duct = The return duct hangs in its straps, and its joints are sealed.
work-note-was-faulty-restore-return-duct = It had sagged and collapsed.
work-note-was-sound-restore-return-duct = It was open from end to end before you touched it.

work-open-supplies = Open and clear the supply registers
work-note-done-open-supplies = You have walked every room; all registers are open and clear.
work-note-was-faulty-open-supplies = Several were closed or had furniture on them.
work-note-was-sound-open-supplies = They were all open before.

work-clean-blower-wheel = Take the blower wheel out and clean it
work-note-done-clean-blower-wheel = The wheel is cleaned, balanced and back in.
work-note-was-faulty-clean-blower-wheel = Its blades were packed with dust.
work-note-was-sound-clean-blower-wheel = Its blades were clean; hardly any dust came off.

work-set-speed-tap = Set the blower to its cooling speed tap
work-note-done-set-speed-tap = The blower is on the tap that the wiring diagram names for cooling.
work-note-was-faulty-set-speed-tap = It was on another one.
work-note-was-sound-set-speed-tap = It was on that one before.

work-replace-blower-capacitor = Replace the blower capacitor
work-note-done-replace-blower-capacitor = A new run capacitor of the same rating is in.
work-note-was-faulty-replace-blower-capacitor = The old one measures well below its rating.
work-note-was-sound-replace-blower-capacitor = The old one measures what its label says.

work-replace-blower-motor = Replace the blower motor
work-note-done-replace-blower-motor = A new motor is in, and the wheel is on it.
work-note-was-faulty-replace-blower-motor = On the bench the old one is dead.
work-note-was-sound-replace-blower-motor = On the bench the old one runs.

work-replace-blower-module = Replace the blower motor module
work-note-done-replace-blower-module = A new module is on the motor.
work-note-was-faulty-replace-blower-module = The board of the old one is burned.
work-note-was-sound-replace-blower-module = The old one shows no damage.

work-reconnect-blower-command = Repair the command harness of the blower
work-note-done-reconnect-blower-command = The harness is repaired from the board to the plug of the module, and every pin makes contact.
work-note-was-faulty-reconnect-blower-command = One of its wires made no contact.
work-note-was-sound-reconnect-blower-command = All its wires made contact before.

work-replace-board = Replace the control board
work-note-done-replace-board = A new control board with its blower relay is in, wired as the old one was.
work-note-was-faulty-replace-board = On the bench the old one does not work.
work-note-was-sound-replace-board = On the bench the old one works.

work-replace-thermostat = Replace the thermostat
work-note-done-replace-thermostat = A new thermostat is on the wall, set as the old one was.
work-note-was-faulty-replace-thermostat = The old one does not close all its contacts.
work-note-was-sound-replace-thermostat = The old one closes all its contacts.

work-repair-conductor = Splice the Y wire to the outdoor unit
work-note-done-repair-conductor = Y has continuity to the outdoor unit, and none to common.
work-note-was-faulty-repair-conductor = Its insulation was worn through along the run, and the copper was damaged.
work-note-was-sound-repair-conductor = It had continuity before, and its insulation was intact.

work-replace-control-fuse = Replace the low-voltage fuse
work-note-done-replace-control-fuse = A new fuse of the same rating is in.
work-note-was-faulty-replace-control-fuse = The element of the old one is blown.
work-note-was-sound-replace-control-fuse = The element of the old one is intact.

work-replace-transformer = Replace the control transformer
work-note-done-replace-transformer = A new transformer is in.
work-note-was-faulty-replace-transformer = One winding of the old one is open.
work-note-was-sound-replace-transformer = Both windings of the old one have continuity.

work-restore-condensate-switch = Clear the drain and free the float switch
work-note-done-restore-condensate-switch = Water poured into the pan drains, and the float moves freely.
work-note-was-faulty-restore-condensate-switch = The drain had been plugged, or the float stuck at the top.
work-note-was-sound-restore-condensate-switch = The float had moved freely before.

work-replace-contactor = Replace the contactor
work-note-done-replace-contactor = A new contactor is in.
work-note-was-faulty-replace-contactor = The old one does not open and close as it should.
work-note-was-sound-replace-contactor = The old one pulls in and drops out as it should.

work-replace-drier = Replace the liquid-line filter drier
work-note-done-replace-drier = A new filter drier is in; the joints hold under nitrogen.
work-note-was-faulty-replace-drier = Nitrogen hardly gets through the old one.
work-note-was-sound-replace-drier = Nitrogen flows through the old one freely.

work-replace-liquid-line = Replace the liquid line at the outdoor unit
work-note-done-replace-liquid-line = A new section of liquid line is in at the outdoor unit; the joints hold under nitrogen.
work-note-was-faulty-replace-liquid-line = The old section was folded almost flat.
work-note-was-sound-replace-liquid-line = The old section was round from end to end.

work-replace-suction-line = Replace the suction line at the outdoor unit
work-note-done-replace-suction-line = A new section of suction line is in at the outdoor unit, insulated; the joints hold under nitrogen.
work-note-was-faulty-replace-suction-line = The old section was folded at the bend.
work-note-was-sound-replace-suction-line = The old section was round from end to end.

work-clean-condenser = Wash the condenser coil
work-note-done-clean-condenser = The condenser coil is washed from the inside out.
work-note-was-faulty-clean-condenser = Gray water and lint ran out of it.
work-note-was-sound-clean-condenser = The water ran out of it clear.

work-replace-fan-capacitor = Replace the condenser fan run capacitor
work-note-done-replace-fan-capacitor = A new run capacitor for the fan is in.
work-note-was-faulty-replace-fan-capacitor = The old section measures well below its rating.
work-note-was-sound-replace-fan-capacitor = The old section measures what its label says.

work-replace-fan-motor = Replace the condenser fan motor
work-note-done-replace-fan-motor = A new motor is in; the blade turns the right way.
work-note-was-faulty-replace-fan-motor = The shaft of the old one does not turn.
work-note-was-sound-replace-fan-motor = The shaft of the old one turns freely.

work-replace-compressor-capacitor = Replace the compressor run capacitor
work-note-done-replace-compressor-capacitor = A new run capacitor for the compressor is in.
work-note-was-faulty-replace-compressor-capacitor = The old section measures well below its rating.
work-note-was-sound-replace-compressor-capacitor = The old section measures what its label says.

work-replace-compressor = Replace the compressor
work-note-done-replace-compressor = A new compressor is in; the joints hold under nitrogen.
work-note-was-faulty-replace-compressor = On the bench the old one builds hardly any pressure.
work-note-was-sound-replace-compressor = On the bench the old one builds pressure and holds it.
work-note-outdoor-power-on = The disconnect is in: line voltage and a fan that can start are within reach of your hands. Pull it first.
work-note-indoor-power-on = The air handler has power: line voltage and a wheel that can start are within reach of your hands. Switch it off first.
work-note-capacitor-snaps = The capacitor still holds its charge and arcs to your pliers. Discharge it first.
work-note-air-in-circuit = There is air in the circuit now: evacuate before charging.
work-note-resistor-hot = There is power on it: the resistor gets hot and the capacitor stays charged. Cut the power first.
work-note-charge-drawn-off = The resistor bleeds the charge off; the capacitor is discharged.
work-note-no-charge-left = There was no charge left on it.

work-replace-filter = Put a new filter in
work-strap-and-insulate-bulb = Strap and insulate the bulb
work-replace-metering-device = Replace the metering device and the filter drier
