package tables_test

import (
	"testing"

	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// BenchmarkLookUps asks those that a check of a whole job asks most.
func BenchmarkLookUps(b *testing.B) {
	set, twelve, forty := european(), number("12"), number("40")
	lies := tables.AmpacityBase{InsulationC: number("90"), AmbientC: number("30")}
	bundle := tables.Bundle{Circuits: 4, Conductors: 8}
	size, hundred := mustSize("16 mm2"), decimal.NewFromInt(100)
	for name, ask := range map[string]func() error{
		"TableOf":            func() error { return second(tables.TableOf("insolation")) },
		"InsolationOf":       func() error { return second(tables.InsolationOf("Inverness", "horizontal")) },
		"RuleSet.At":         func() error { set.At(twelve); return nil },
		"RuleSetOf":          func() error { return second(tables.RuleSetOf("us-rv")) },
		"AmbientFactor":      func() error { return second(lies.AmbientFactor("BS 7671 16th ambient", forty)) },
		"GroupingFactor":     func() error { return second(tables.GroupingFactor("BS 7671 4C1", bundle)) },
		"Column":             func() error { return second(set.Ampacity.Column(size, "B", lies.InsulationC)) },
		"Gates":              func() error { return second(tables.Gates("ISO 8820-3 C", number("30"))) },
		"InternalResistance": func() error { return erring2(tables.InternalResistance("LiFePO4", number("12.8"), hundred)) },
		"MonthRadiation":     func() error { return second(tables.MonthRadiation(number("52"), 6)) },
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := ask(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
