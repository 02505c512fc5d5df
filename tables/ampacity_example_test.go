package tables_test

import (
	"fmt"
	"strings"

	"example.org/extralow/tables"
)

// european is the default set.
func european() tables.RuleSet {
	r, err := tables.RuleSetOf("european")
	if err != nil {
		panic(err)
	}
	return r
}

// Silicone takes the column of 90 °C: the next lower one.
func ExampleAmpacityRule_Column() {
	column, err := european().Ampacity.Column(mustSize("16 mm2"), "B", number("180"))
	fmt.Println(column.Table, column.Method, column.InsulationC, "°C in", column.AmbientC, "°C", err)
	_, err = european().Ampacity.Column(mustSize("16 mm2"), "Z", number("70"))
	fmt.Println(err)
	// Output:
	// BS 7671 4E1A B 90 °C in 30 °C <nil>
	// method is "Z": want one of A, B, C, F, G horizontal, G vertical
}

func ExampleAmpacityColumn_At() {
	column, err := european().Ampacity.Column(mustSize("16 mm2"), "B", number("90"))
	if err != nil {
		panic(err)
	}
	a, err := column.At(mustSize("16 mm2"))
	fmt.Println(a.Value, a.Unit, a.Source, err)
	_, err = column.At(mustSize("0.5 mm2"))
	fmt.Println(err)
	// Output:
	// 100 A BS 7671:2008, appendix 4 table 4E1A, method B, 90 °C, 16 mm2 <nil>
	// ampacity of 0.5 mm2 in BS 7671 4E1A: not in the table; it has 1 mm2 to 240 mm2
}

// AWG 6 has 13.3 mm² of copper, so it is judged as 10 mm².
func ExampleAmpacityColumn_NoLarger() {
	column, err := european().Ampacity.Column(mustSize("AWG 6"), "B", number("90"))
	if err != nil {
		panic(err)
	}
	size, a, err := column.NoLarger(mustSize("AWG 6"))
	fmt.Println(size, a.Value, a.Unit, err)
	// Output:
	// 10 mm2 75 A <nil>
}

func ExampleAmpacityColumn_Sizes() {
	column, err := european().Ampacity.Column(mustSize("16 mm2"), "F", number("90"))
	if err != nil {
		panic(err)
	}
	fmt.Println(column.Sizes())
	// Output:
	// [25 mm2 35 mm2 50 mm2 70 mm2 95 mm2 120 mm2 150 mm2 185 mm2 240 mm2]
}

// xlpe is a cable of 90 °C insulation, its ampacity stated in 30 °C.
var xlpe = tables.AmpacityBase{InsulationC: number("90"), AmbientC: number("30")}

// 37 °C takes the row of 40 °C.
func ExampleAmpacityBase_AmbientFactor() {
	for _, ambient := range []string{"40", "37", "10", "90"} {
		f, err := xlpe.AmbientFactor("BS 7671 16th ambient", number(ambient))
		fmt.Println(f.Value, f.Note, err)
	}
	// Output:
	// 0.91  <nil>
	// 0.91 the next hotter row for 37 °C <nil>
	// 1.02 the next hotter row for 10 °C <nil>
	// 0  ambient 90 °C for 90 °C insulation in BS 7671 16th ambient: outside the table; it ends at 85 °C
}

func ExampleAmpacityBase_AmbientFactorInterpolated() {
	f, err := xlpe.AmbientFactorInterpolated("BS 7671 16th ambient", number("37"))
	fmt.Println(f.Value, f.Note, err)
	// Output:
	// 0.94 interpolated between 0.96 (at 35) and 0.91 (at 40) <nil>
}

// Four circuits are eight conductors where the table counts conductors.
func ExampleGroupingFactor() {
	for _, table := range []string{"BS 7671 4C1", "NFPA 70 310.15(B)(3)(a)"} {
		f, err := tables.GroupingFactor(table, tables.Bundle{Circuits: 4, Conductors: 8})
		fmt.Println(f.Value, f.Source, err)
	}
	_, err := tables.GroupingFactor("BS 7671 4C1", tables.Bundle{Circuits: 21, Conductors: 42})
	fmt.Println(err)
	// Output:
	// 0.65 BS 7671:2008, appendix 4 table 4C1, bunched in air, on a surface, embedded or enclosed, 4 circuits <nil>
	// 0.7 NFPA 70, 310.15(B)(3)(a), in a raceway or cable, 7 conductors; second hand <nil>
	// 21 circuits in BS 7671 4C1: outside the table; it ends at 20
}

func ExampleEngineSpaceFactor() {
	f, err := tables.EngineSpaceFactor("33 CFR 183.425 note 1", number("110"))
	fmt.Println(f.Value, f.Note, f.Source, err)
	// Output:
	// 0.85 the next lower row for 110 °C insulation 33 CFR 183, 183.425 table 5 note 1, 105 °C insulation <nil>
}

// A 45 °C table on an ampacity in 30 °C: refused, or carried over by name.
func ExampleAmpacityBase_AmbientFactorConverted() {
	_, err := xlpe.AmbientFactor("IEC 60092 ship cable", number("50"))
	fmt.Println(err)
	f, err := xlpe.AmbientFactorConverted("IEC 60092 ship cable", number("50"))
	fmt.Println(f.Value, f.Note, err)
	// Output:
	// table_ambient_c is 30: want 45: the factors of IEC 60092 ship cable multiply ampacities of that ambient
	// 0.814 0.94 in its own table, which holds for ampacities in 45 °C; carried to 30 °C by the square-root law <nil>
}

func ExampleAmbientTables() {
	fmt.Println(strings.Join(tables.AmbientTables(), "\n"))
	// Output:
	// NFPA 70 310.15(B)(1)
	// NFPA 70 310.15(B)(2)(b)
	// IEC 60364-5-52 B.52.14
	// VDE 0298-4 table 17
	// BS 7671 16th ambient
	// BS 7671 4F2A
	// IEC 60092 ship cable
}

func ExampleGroupingTables() {
	fmt.Println(strings.Join(tables.GroupingTables(), "\n"))
	// Output:
	// BS 7671 4C1
	// IEC 60364-5-52 simplified
	// NFPA 70 310.15(B)(3)(a)
	// VDE 0298-4 table 26
	// 33 CFR 183.425 note 2
	// ABYC E-11 bundles
	// ISO 13297 annex A
}

func ExampleEngineSpaceTables() {
	fmt.Println(strings.Join(tables.EngineSpaceTables(), "\n"))
	// Output:
	// 33 CFR 183.425 note 1
	// ABYC E-11 105 C
	// ISO 10133 annex A
}

func ExampleGroupingCounts() {
	fmt.Println(tables.GroupingCounts("BS 7671 4C1"))
	fmt.Println(tables.GroupingCounts("ABYC E-11 bundles"))
	// Output:
	// circuits <nil>
	// conductors <nil>
}
