package tables_test

import (
	"fmt"
	"os"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
)

// Every table of one subject, with its rows and how sure the weakest is.
func ExampleCatalogue() {
	for _, t := range tables.Catalogue() {
		if t.Subject == "supply" {
			fmt.Printf("%s: %s, %d rows, %s\n", t.Name, t.Title, t.Rows, t.Weakest)
		}
	}
	// Output:
	// supply-voltage-codes: Supply-voltage codes, 8 rows, published
	// transients: Voltage tests of vehicle supplies, 31 rows, from memory
}

func ExampleTableOf() {
	t, err := tables.TableOf("ampacity-bs7671")
	fmt.Println(t.Title, t.Columns[:5], err)
	fmt.Println("second hand:", t.Counts[cite.SecondHand], "of", t.Rows)
	_, err = tables.TableOf("ampacity")
	first, _, _ := strings.Cut(err.Error(), ",")
	fmt.Println(first)
	// Output:
	// Ampacity by the British wiring code [table method insulation_c size ampacity_a] <nil>
	// second hand: 50 of 176
	// table is "ampacity": want one of conductor-resistance
}

func ExampleFind() {
	for _, t := range tables.Find("fuse", "gate") {
		fmt.Println(t.Name, t.Documents[0])
	}
	// Output:
	// device-gates ISO 8820-3:2015
	// gg-gates IEC 60269-1
}

func ExampleTable_Cells() {
	t, _ := tables.TableOf("cranking-steps")
	for _, row := range t.Cells() {
		fmt.Println(row[:3])
	}
	// Output:
	// [0 200 10]
	// [200 300 20]
	// [300 600 30]
	// [600 800 40]
	// [800  50]
}

// What to confirm before relying on the wire table.
func ExampleTable_Weak() {
	t, _ := tables.TableOf("awg")
	for _, row := range t.Weak().Cells()[:2] {
		fmt.Println(row)
	}
	// Output:
	// [AWG 4/0 resistance_20c 0.04901 ohm per kft NBS Circular 31 wire table from memory ]
	// [AWG 3/0 resistance_20c 0.0618 ohm per kft NBS Circular 31 wire table from memory ]
}

func ExampleTable_WriteText() {
	t, _ := tables.TableOf("voltage-drop-4e1b")
	_ = t.WriteText(os.Stdout)
	// Output:
	// Voltage drop of 90 C single-core cable (voltage-drop-4e1b)
	// ==========================================================
	// Two cables, out and back, conductors at 90 C, by metre of route.
	// Rows: 16, published 15, second hand 1.
	//
	// table: BS 7671 4E1B
	// size     mv per  source
	//          a per
	//          m
	// -------  ------  ------
	// 1 mm2    46      [1]
	// 1.5 mm2  31      [1]
	// 2.5 mm2  19      [1]
	// 4 mm2    12      [1]
	// 6 mm2     7.9    [1]
	// 10 mm2    4.7    [1]
	// 16 mm2    2.9    [1]
	// 25 mm2    1.85   [1]
	// 35 mm2    1.35   [1]
	// 50 mm2    0.99   [1]
	// 70 mm2    0.68   [1]
	// 95 mm2    0.49   [1]
	// 120 mm2   0.39   [1]
	// 150 mm2   0.32   [1]
	// 185 mm2   0.25   [1]
	// 240 mm2   0.190  [2]
	//
	// Sources and notes
	// [1] BS 7671:2008, appendix 4 table 4E1B
	// [2] BS 7671:2008, appendix 4 table 4E1B; second hand: read in one reproduction
}

func ExampleTable_WriteCSV() {
	t, _ := tables.TableOf("airflow-altitude")
	_ = t.WriteCSV(os.Stdout)
	// Output:
	// altitude_from_m,altitude_to_m,factor_m3_k_per_wh,source,where,confidence,note
	// 0,100,3.1,common practice,cabinet cooling,from memory,
	// 100,250,3.2,common practice,cabinet cooling,from memory,
	// 250,500,3.3,common practice,cabinet cooling,from memory,
	// 500,750,3.4,common practice,cabinet cooling,from memory,
	// 750,1000,3.5,common practice,cabinet cooling,from memory,
}

func ExampleTable_WriteMarkdown() {
	t, _ := tables.TableOf("w-characteristic")
	_ = t.WriteMarkdown(os.Stdout)
	// Output:
	// ## Points of the W characteristic
	//
	// Current by rated current of a charger with falling characteristic.
	//
	// | v_per_cell | current_over_rated | source | where | confidence | note |
	// | --- | --- | --- | --- | --- | --- |
	// | 2.00 | 1.00 | DIN 41774 | characteristic | from memory | nominal point |
	// | 2.40 | 0.50 | DIN 41774 | characteristic | from memory | near gassing |
	// | 2.65 | 0.25 | DIN 41774 | characteristic | from memory | end of charge; older practice went up to 2.7 V a cell (DE 975920 sets chargers at 2.35 to 2.45 V and at 2.7 V) |
}
