// Package wire answers questions about conductors: resistance, ampacity,
// conductor temperature, voltage drop, size, and circuits that share feeders.
//
// A [Conductor] is a cable as it lies; it answers ampacity and resistance. A
// [Cable] is one with a length and a current: it answers the usual question, the
// drop at the temperature that the current gives it, in one call. A [Route] is a
// cable whose surroundings change on the way. A [Run] is one supply conductor and
// its return whose resistance is known; a [CodeDrop] is the same by a rule set's
// own formula. A [Sizing] finds the least size, the greatest length or the greatest
// current. A [Network] is an installation as one circuit: what every load sees when
// all of them draw, how batteries share, what a fault draws. Lengths are one way
// unless a field says loop. Resistance is that of the conductor at its real
// temperature, never the cold one.
//
// Checks of this package: W01 ampacity, W02 voltage drop, W03 smallest size, W04
// voltage at the load, W05 joint against its twins, W06 bend radius.
//
// # Questions and calls
//
// Which cable does this load need, and what decides: [Sizing.LeastSize]. The code's
// own area for a drop: [CodeDrop.LeastArea]. The smallest that the set allows at
// all: [CheckLeastSize].
//
// What may this cable carry, laid so, in this heat, in this bundle or engine space,
// on these terminals, by this rule set's table: [Conductor.Ampacity]; where its
// surroundings change on the way: [Route.Ampacity]; several side by side:
// [Ampacity.InParallel]. Does it carry this current: [Ampacity.Check].
//
// How many volts are lost, and how many arrive: [Cable.Drop], [Route.Drop],
// [Run.Drop] and [Drop.VoltageLeft]; against the limit of a rule set: [Drop.Check]. Along
// several runs to one load: [AlongPath], [PathDrop.Check].
// By the set's own formula: [CodeDrop.Drop]. Back through the chassis: ReturnMilliohm
// of [Cable] and [Run]. The loop before any current is known: [Run.Loop].
//
// How far may it be, and how much may it carry: [Sizing.GreatestLength],
// [Sizing.GreatestCurrent], [Run.GreatestLength], [CodeDrop.GreatestCurrent].
//
// How hot does it get: [Ampacity.Temperature]; with a load that comes and goes:
// [Duty.Equivalent]; while a start or a fault lasts: [Overload.Temperature],
// [Overload.TimeTo].
//
// Why does the inverter switch off though the bank is full: [Network.Solve] with
// [Solution.Ladder], which lays out the drops from the battery to it, and
// [Solution.LoadCheck]. The same with thicker cables: [Solution.With].
//
// How do parallel batteries with unequal leads share, and where should the load's
// cables leave the bank: [Network.Solve], [ParallelBank.TakeOff],
// [ParallelBank.EvenTakeOff].
//
// What flows in a short circuit here, and which source gives it: [Network.Fault].
//
// Is this joint tight, and what should the meter show: [Joint.AgainstTwins],
// [Joint.Reading], [ExpectedReading.MilliVolts].
//
// All circuits of a job at once, in every case that can occur: package installation.
//
// What is a gauge in square millimetres, and what does copper lose, weigh and need
// to bend: [AWG], [Strands.Geometry], [KnownResistance.Resistance],
// [SolidConductor.Resistance], [Drop.Loss], [CopperMass], [Bend.LeastRadius],
// [Busbar.Guess]. Aircraft bundles: [AircraftBundle.GreatestCurrent]. What melts, for
// information: [MeltingPreece], [Melting.Onderdonk].
//
// # Cautions
//
// This is a design aid, not a certificate. An undersized cable burns, and a fuse
// protects no bad joint. An ampacity holds for the stated edition, ambient,
// grouping, way of laying and terminals, and for nothing else. Disconnect and
// insulate every source before work, solar modules included. Local codes come
// first; mains wiring belongs to licensed people.
package wire
