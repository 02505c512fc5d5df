// Package protect answers questions about what guards an installation:
// overcurrent devices (their window, breaking capacity, place, opening time
// and selectivity), switches, the pre-charge of inputs, supply voltages, the
// devices on the sun side and protective conductors.
//
// A [Need] is a load with its conductor; it answers the [Window] of ratings. A
// [Device] is one fuse or breaker; it answers when it opens, whether it rides
// through a surge and whether it clears a fault before the cable is hurt. Every
// rule comes back as a working.Check under a permanent id, P01 and on. A demand
// that nobody stated is an error that names it, and what is not known is no pass.
//
// # Which question, which call
//
//   - Which fuse for this load and this cable? Is one of 40 A too much? The load's
//     rating or the cable's: [Need.Window]; for one that is fitted [Window.Checks].
//   - Does this fuse survive a short circuit on my bank, lithium or not?
//     [BreakingDuty.Checks]; by the cranking amperes of lead-acid, where the code of
//     the craft asks that, [ByCranking].
//   - Do the devices behind a cable that has none of its own open for it in time?
//     [Upstream.Check].
//   - How far from the battery may the fuse sit? [Place.Check].
//   - Does this end of the cable need a fuse at all? The charger's end, the
//     alternator's, each battery of a bank? [ConductorEnd.Check].
//   - When does this fuse open at that current? [Device.OpeningTime], and by its
//     standard's own two currents [Device.ConventionalCurrents]; a breaker's
//     magnetic release: [Device.ReleaseCurrents].
//   - Why does the fuse blow on a warm day? What does it carry in the engine bay?
//     [Device.Carries], and with the load [Need.Window].
//   - Does it hold while the motor starts? [Device.RidesThrough]. Does it open before
//     a stalled motor burns? [Device.StopsStall].
//   - Is the far end of a long thin cable still guarded? [Device.Clears]; what the
//     device lets through of the fault: [Device.LetThrough]; what the cable bears:
//     [Cable.Withstand], [FaultArea], with a constant of one's own
//     [FaultHeating.Constant].
//   - Which of two fuses in a row opens first? [SeriesPair.Ratio] by rule,
//     [SeriesPair.Selective] by gates, [SeriesPair.Energies] in a short circuit.
//   - May one fuse guard several cables in parallel? [Parallel.Checks].
//   - Is a small wire capped whatever it carries? [SmallWire.Check].
//   - Which switch or relay for lamps, a motor, a heater? [Switch.Check], and for a
//     hard start [Switch.Start]. Which battery switch? [Isolator.Checks].
//   - Why does the inverter spark as it is connected, and which resistor cures it?
//     [Precharge.Resistor].
//   - Does this unit work between flat and charging? [ConnectedUnit.Checks]. Does it
//     survive if the battery comes off under charge? [LoadDump.Check]. Leads swapped, a
//     start from a lorry, a failed regulator? [SupplyTest.Check].
//   - A fuse for each panel? Of how many amperes? [SolarArray.Checks],
//     [SolarArray.LeastRating].
//   - How thick is the protective conductor? [ProtectiveArea]; the rest of the mains
//     side is not for this package.
//
// # Cautions
//
// The answers are an aid to design, not a certificate. They hold for the edition, the
// ambient and the laying that were stated; a fuse does not protect against a bad joint,
// and its times hold from cold. Disconnect and insulate before work. Local codes and
// licensed people come first; leave mains wiring, gas and what needs approval to them.
package protect
