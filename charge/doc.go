// Package charge answers questions about charging: what a battery takes, what a
// charger does stage by stage, what an alternator, a converter and the sun have
// to spare, and how long all of it takes.
//
// A [BatteryOnCharge] is the bank as a charger meets it; it answers what current it
// takes. A [Characteristic] is a charger's habit in the letters of DIN 41772; it
// gives stages. A [Simulation] steps a charge through time. An [Alternator], a
// [Converter] and a [Module] are sources. Currents into the battery are
// positive. Temperatures are the battery's own unless a field says otherwise.
//
// # Questions and calls
//
//   - What voltages does this battery want at this temperature?
//     [Characteristic.Stages], [StageVoltage.At], [Characteristic.Equalising]
//   - Does the charger's setting suit the battery? [VoltageWindow.Checks],
//     [VoltageWindow.CheckClosed]
//   - What current does it take now? [BatteryOnCharge.Acceptance]
//   - May it be charged in the cold, in the heat? [BatteryOnCharge.ColdCharge],
//     [BatteryOnCharge.HotCharge]
//   - How long does a charge take, and what does it cost? [Simulation.Run]; by rules of
//     thumb [Refill.Times], [AbsorptionTime], [Taper.Until]
//   - What will a voltmeter show meanwhile? [Simulation.Run], of one lead-acid cell
//     [LeadAcidCell.Voltage]
//   - How big a charger? [ChargerFor], [PlateRate]
//   - Can the alternator bear it? [Alternator.CheckIdle], [Alternator.CheckRoad],
//     [SpeedCurve.OutputInterpolated], [Coupled.Current]
//   - What does the converter or charger draw? [Converter.Input], [MainsCharger.Input]
//   - Does the converter wake, stay awake and sleep? [Trigger.Wakes],
//     [Trigger.StaysAwake], [Trigger.Sleeps], [Trigger.Drive]
//   - Does it empty the starter battery? [Drain.Check]
//   - Are all sources together too much? [CombinedSources.Checks],
//     [CombinedSources.CheckClosed]
//   - What does the sun give? [SolarYield.Day], [ArrayDay.Charge], [Sky.Radiation],
//     [Slope.Monthly], [Module.Power]
//   - Does the string overvolt its controller in the cold? [Module.ColdVoltage],
//     [ColdString.CheckController]; what must its circuit bear? [Module.Circuit]
//   - Does the bank hold through days, weeks and the year? [Balance.Run],
//     [Ledger.Check], [Ledger.CheckWeek]
//   - How long without any source, and how much driving holds it?
//     [Balance.Autonomy], [Balance.LeastDriving]
//   - 12 V from the middle of a 24 V bank? [CentreTap.Check]
//
// # Cautions
//
// A design aid, not a certificate. The battery's data sheet comes first. Disconnect
// and insulate before work. A lithium cell charged below freezing is harmed for good
// and may fail later without warning; lead-acid sets hydrogen free while it absorbs.
// Mains wiring is for licensed people; local codes come first.
package charge
