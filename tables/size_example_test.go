package tables_test

import (
	"encoding/json"
	"fmt"

	"example.org/extralow/tables"
)

// A size has one spelling, however it was typed; a bare diameter is refused.
func ExampleParseSize() {
	for _, text := range []string{"16mm2", "2.50 mm²", "6 AWG", "AWG 0000", "4 mm"} {
		fmt.Println(tables.ParseSize(text))
	}
	// Output:
	// 16 mm2 <nil>
	// 2.5 mm2 <nil>
	// AWG 6 <nil>
	// AWG 4/0 <nil>
	//  size is "4 mm": want the copper area, such as 2.5 mm2: cable named by a bare mm is named by its outer diameter, and 4 mm has about 1.8 mm2 of copper
}

func ExampleSize_String() {
	fmt.Println(mustSize("AWG 0").String())
	// Output:
	// AWG 1/0
}

// A field that was not filled in has no size.
func ExampleSize_IsZero() {
	var none tables.Size
	fmt.Println(none.IsZero(), mustSize("16 mm2").IsZero())
	// Output:
	// true false
}

func ExampleSize_MarshalText() {
	text, err := json.Marshal(map[string]tables.Size{"feeder": mustSize("35mm2")})
	fmt.Println(string(text), err)
	// Output:
	// {"feeder":"35 mm2"} <nil>
}

func ExampleSize_UnmarshalText() {
	var cable struct{ Size tables.Size }
	err := json.Unmarshal([]byte(`{"size": "SAE 6"}`), &cable)
	fmt.Println(cable.Size, err)
	// Output:
	// SAE 6 <nil>
}

func ExampleSize_System() {
	fmt.Println(mustSize("SAE 6").System(), mustSize("6 mm2").System())
	// Output:
	// SAE mm2
}

// The same number is three different wires.
func ExampleSize_Area() {
	for _, text := range []string{"6 mm2", "AWG 6", "SAE 6"} {
		area, err := mustSize(text).Area()
		fmt.Println(text, area.Value, area.Unit, area.Source, err)
	}
	// Output:
	// 6 mm2 6 mm² IEC 60228:2004, table 3, class 5, 6 mm2 <nil>
	// AWG 6 13.30177 mm² ASTM B258, diameter series, AWG 6 <nil>
	// SAE 6 12.1 mm² SAE J1127, conductor sizes, SAE 6; from memory <nil>
}

func ExampleSizes() {
	fmt.Println(tables.Sizes(tables.SAE))
	// Output:
	// [SAE 22 SAE 20 SAE 18 SAE 16 SAE 14 SAE 12 SAE 10 SAE 8 SAE 6 SAE 4 SAE 2 SAE 1 SAE 1/0 SAE 2/0 SAE 3/0 SAE 4/0]
}

func ExampleSize_Next() {
	fmt.Println(mustSize("16 mm2").Next())
	fmt.Println(mustSize("AWG 4/0").Next())
	// Output:
	// 25 mm2 true
	//  false
}

func ExampleSize_Previous() {
	fmt.Println(mustSize("AWG 4/0").Previous())
	// Output:
	// AWG 3/0 true
}

func ExampleSystems() {
	fmt.Println(tables.Systems())
	// Output:
	// [mm2 AWG SAE]
}

func ExampleSystem_Check() {
	fmt.Println(tables.System("awg").Check("system"))
	// Output:
	// system is "awg": want one of mm2, AWG, SAE; nearest: AWG
}
