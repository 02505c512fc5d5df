// Package battery answers questions about loads and the batteries that carry
// them: what a day takes, what an inverter draws, what a bank gives at a rate
// and a temperature, what it feeds into a fault, and what its bay must bear.
//
// An [Audit] sums loads. A [Bank] is batteries in series and parallel, each
// [BankBattery] with two resistances: the low one for the greatest fault, the high
// one for volts and the least fault. Demands are rounded up and supplies down, so
// that no rounding leads to a pass. A demand that was forgotten is an error; what is
// not known is an unset figure beside Missing, which says what to ask or measure.
//
// # Questions and calls
//
// Loads and inverters:
//
//   - What do the loads take in a day, together, and while the vehicle stands? [Audit.Sum]
//   - Which of them take most of it? [AuditSum.Shares]
//   - A plate says volt-amperes: how many watts? [PowerFromVA]
//   - What current must the cables of this inverter bear? [Inverter.Draw] at its cut-out
//   - Why does it alarm at a start though the bank is full? [Feed.Check], and [Feed.Terminals] for the volts; with a whole installation solved [SurgeVoltage.Check]
//   - What does a motor draw while it starts? [Motor.LockedRotor]
//
// The bank:
//
//   - Which bank lasts the days asked? [StandAlone.Size] to begin with, [BankAutonomy.Check] to judge one
//   - How long does it last, at this load or without charging? [Bank.Runtime], [BankAutonomy.Reserve]
//   - What is left of its ampere-hours at this rate, or when cold and old? [Bank.CapacityAt], [Bank.Usable]
//   - One battery sits on longer leads: who carries what? [Bank.UnderLoad], and [Bank.Discharge] for the limit
//   - One battery drops out: do the others bear it? [Bank.CheckDischargeMissing]; with a whole installation solved [DischargeShare.Check]
//   - Do all chargers together ask too much? [Bank.CheckCharge]
//   - What must the fuse break, and which current must open it? [Bank.Fault]
//   - Does each battery in parallel need a device, and for how many amperes? [Bank.Fault], Strings
//   - Who is shed first, and does what must run outlast the rest? [Bank.CheckCutOut], [Bank.CheckOutlasts]
//   - How long may it stand until it no longer starts? [Parked.Days]
//   - How many years will it last? [Cycling.Life]
//
// Measuring:
//
//   - What is its resistance? [TwoLoads.Resistance]; from cranking amperes [CrankingRating.Resistance]
//   - How full is it? [Rested.StateOfCharge], [Electrolyte.StateOfCharge]
//   - Will it freeze? [Electrolyte.CheckFreezing], [CheckFreezing]
//   - What does it give back of what it was charged with? [ChargeCycle.Efficiency]
//
// The bay:
//
//   - How large must the openings be, for one battery or for all in the room? [Gassing.CheckOpening], [GasRoom.CheckOpening]
//   - How warm does it become in there, and what must a fan take? [Box.CheckTemperature], [Airflow.Flow]
//   - Does it fit, with the case that really arrives? [Fit.Fit]
//   - Does the hold-down bear a crash? [HoldDown.Check]
//   - What is left on each axle? [Vehicle.Axles]
//
// # Cautions
//
// The answers are an aid to design and no certificate. A battery cannot be switched
// off: disconnect it, cover its posts and put rings and tools away before work. Gas
// of a charge explodes, acid burns, a shorted bank welds. Figures from memory are
// marked so; the data sheet of the article comes before every table. Mains wiring,
// gas, seats, floors and structure, and type approval belong to licensed or approved
// people, and local codes come first.
package battery
