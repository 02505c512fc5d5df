// Package tables holds the published tables of the trade with a source and a
// confidence behind every figure, and typed look-ups into them.
//
// The tables are CSV files under data/, embedded, one figure a row; open them in a
// spreadsheet beside the book. A name (a size, a rating, a chemistry) matches
// exactly or is an error that lists what there is. A condition (an ambient, a
// number of circuits) takes the next worse row. Interpolation is a separate
// function with Interpolated in its name. Where sources differ, both stay and the
// caller names one.
//
// What nobody means is refused before a table is asked. Every look-up takes
// temperatures of -273 to 2000 °C (-100 to 212 °F), voltages of 0 to 2000 V (of a
// cell or a battery above 0 to 100 V, of an alternator above 0 to 60 V), currents and
// ratings of 0 to 1 000 000 A (cranking to 100 000 A), capacities above 0 to 100 000 Ah,
// densities of 0 to 2, depths above 0 to 100 %, latitudes of -90 to 90°, altitudes of
// -500 to 100 000 m and 1 to 1000 wires; the table then says where it ends.
//
// # Questions and calls
//
//   - What does this code ask, and of which craft? [RuleSetOf], [RuleSet.At],
//     [RuleSet.Yardstick]; one figure of a code by its id: [DeviceRuleOf],
//     [InstallationRule], [BondOf], [SolarCurrentFactor]
//   - What may this cable carry by the book? [AmpacityRule.Column] or
//     [AmpacityRuleOf], then [AmpacityColumn.At], [AmpacityColumn.NoLarger]
//   - And in hotter air, in a bundle, in an engine space?
//     [AmpacityBase.AmbientFactor], [GroupingFactor], [EngineSpaceFactor],
//     [BundleFactor], [AltitudeFactor]
//   - And on terminals that bear less than its insulation?
//     [TerminalRule.Unstated], [AmpacityRule.AtTerminals]
//   - What resistance has this conductor, and how tight may it bend? [Resistance],
//     [TinnedResistance], [BendMultiple]
//   - Which fuse ratings are there, and what does this one do at that current?
//     [Ratings], [Gates], [ConventionalOf], [DeviceDerating], [FamilyOf], [Colour]
//   - How far from the battery may the fuse be? [RuleSet] has it in its [PlaceRule]
//   - Does the upper fuse wait for the lower? [SelectivityRatio], [PreArcing]
//   - What short circuit bears this cable? [AdiabaticOf], [FusingConstant]
//   - How full is the battery by its volts or its acid? [ChargeByVoltage],
//     [ChargeByDensity]; and when does it freeze? [LeastDensityInterpolated], [FreezingPoint]
//   - What does this chemistry bear and need? [Chemistry.Has], [BatteryLimits],
//     [ColdChargeRate], [CellVoltages], [GreatestCellVoltage], [Compensations]
//   - What is left of the capacity in the cold, at a rate, with the years?
//     [ColdCapacity], [PeukertExponents], [CycleLives], [SelfDischarge]
//   - What current must a fuse break at the least? [InternalResistance] gives the
//     battery; [BreakingByCranking] is a table of last resort
//   - How much gas does it make? [GasCurrent], [TractionGasCurrent], [GasConstants]
//   - Which volts tell a running engine? [RunningVoltageOf]; what comes from the
//     alternator? [AlternatorOutput]
//   - What does the sun give there? [InsolationOf], [MonthRadiation],
//     [OpenCircuitFactor], [CellTemperature]
//   - What does such an appliance draw, and when it starts? [TypicalLoads],
//     [SurgeMultiple], [LockedRotor]
//   - How tight? [Torque]; which switch? [SwitchFactor]; which peaks?
//     [VoltageTest]
//   - Which tables are there, and what is our copy not sure of? [Catalogue], [Find],
//     [TableOf], [Table.Weak]
//   - Which words does a look-up take? [Kinds], [Names]
//
// # Cautions
//
// This is an aid to design and no certificate. A figure holds for the edition that
// its source names, and for the insulation, ambient, grouping and terminals that
// its table supposes; a figure from memory or of common practice says so and wants
// to be read in the code itself before work depends on it. Local codes and the
// maker's own data go first. Disconnect every source and insulate what stays live
// before work. Mains wiring, gas, and what the law keeps for licensed people are
// theirs.
package tables
