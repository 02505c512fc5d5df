package job

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// contradictions are single changes to the sample of a clinic of which no
// installation is true, each with the whole of what is said.
var contradictions = []mistake{
	{"coldest above the hottest air of the bay and the bank in service", "coldest_c: -10\n", "coldest_c: 40\n", []string{
		`bank_c is "15": want at least coldest_c, which is 40: the bank stands in that air`,
		`bay.outside_c is "26": want at least coldest_c, which is 40`,
	}},
	{"air of a cable below the coldest air", "ambient_c: 50\n", "ambient_c: -30\n", []string{
		`circuits[7].ambient_c is "-30": want at least coldest_c, which is -10`,
	}},
	{"air of a device below the coldest air", "rating_a: 7.5, ambient_percent: 95", "rating_a: 7.5, ambient_c: -39", []string{
		`circuits[5].device.ambient_c is "-39": want at least coldest_c, which is -10`,
	}},
	{"air of a far device below the coldest air", "rating_a: 250, ambient_percent: 95", "rating_a: 250, ambient_c: -11", []string{
		`circuits[12].far_device.ambient_c is "-11": want at least coldest_c, which is -10`,
	}},
	{"bank colder than its air", "bank_c: 15 ", "bank_c: -11 ", []string{
		`bank_c is "-11": want at least coldest_c, which is -10: the bank stands in that air`,
	}},
	{"module works above its open-circuit voltage", "working_v: 18.6", "working_v: 22.4", []string{
		`solar[0].working_v is "22.4": want less than open_v, which is 22.4`,
	}},
	{"module of more power than its current gives", "working_v: 18.6", "working_v: 4", []string{
		`solar[0].module_w is "120": want at most working_v × short_a, which is 27.6 W: a module gives less than its short-circuit current`,
	}},
	{"cut-out that no such battery reaches", "cut_out_v: 10.0\n    least_charge_c: 0\n    cold_guard: true\n    length_mm: 483\n    width_mm: 170\n    height_mm: 241\n    mass_kg: 23.5\n  - name: battery B", "cut_out_v: 7.9\n  - name: battery B", []string{
		`batteries[0].cut_out_v is "7.9": want at least 7.936: so far below nominal_v, which is 12.8, it guards no cell`,
	}},
	{"short-time output below the lasting one", "surge_w: 2000", "surge_w: 900", []string{
		`inverters[0].surge_w is "900": want at least rated_w, which is 1000`,
	}},
	{"start below running", "surge_w: 1500", "surge_w: 799", []string{
		`loads[4].surge_w is "799": want at least power_w, which is 800`,
	}},
	{"held rotor below running", "least_v: 10.8\n", "least_v: 10.8\n    stall_a: 3.9\n    stall_s: 5\n", []string{
		`loads[1].stall_a is "3.9": want at least current_a, which is 4`,
	}},
	{"lowest voltage below the range of supply", "least_v: 10.0\n", "least_v: 9.9\n", []string{
		`loads[0].least_v is "9.9": want at least works_from_v, which is 10`,
	}},
	{"more energy than its lithium holds", "    mass_kg: 23.5\n  - name: battery B", "    mass_kg: 11\n  - name: battery B", []string{
		`batteries[0].capacity_ah is "200": want no more than 2420 Wh, not 2560 Wh: 11 kg of LiFePO4 hold no more`,
	}},
	{"more energy than its lead holds", "depth_percent: 30\n", "depth_percent: 30\n    mass_kg: 10\n", []string{
		`batteries[2].capacity_ah is "95": want no more than 750 Wh, not 1140 Wh: 10 kg of lead-acid flooded hold no more`,
	}},
	{"empty at the volts of half full", "depth_percent: 30\n", "depth_percent: 91\n", []string{
		`batteries[2].depth_percent is "91": want at most 65: at empty_v, which is 12.3, such a battery still holds 50 % or more`,
	}},
	{"charged beyond any stage", "depth_percent: 30\n", "depth_percent: 30\n    charge_most_v: 16.6\n", []string{
		`batteries[2].charge_most_v is "16.6": want at most 16.524: 6 cells of lead-acid flooded, of which none is charged higher than 2.7 V in any stage`,
	}},
	{"fixings outside the bay", "rows_mm: 150", "rows_mm: 761", []string{
		`bay.rows_mm is "761": want no more than the bay is long, which is 760 mm`,
	}},
	{"converter feeds itself", "fed_at: converter input", "fed_at: main bus", []string{
		`chargers[0].fed_at is "main bus": want a node that no cable joins to its output, engine converter: the converter would feed itself`,
	}},
	{"terminals that no tinned copper bears", "size: 70 mm2\n    strands: 5\n    insulation_c: 90\n    insulation: EPR or XLPE 90 C\n    method: C\n    ambient_c: 40\n", "size: 70 mm2\n    strands: 5\n    insulation_c: 90\n    insulation: EPR or XLPE 90 C\n    method: C\n    ambient_c: 40\n    terminal_c: 200\n", []string{
		`circuits[2].terminal_c is "200": want a number from 40 to 150 °C`,
	}},
}

// placed is where a fault stands, which changes as the sample grows.
var placed = regexp.MustCompile(`(?m)^[a-z-]+\.yaml:[0-9]+:[0-9]+: `)

// TestABankHotterThanAnyAir is about the workboat, whose air is stated in °F.
func TestABankHotterThanAnyAir(t *testing.T) {
	text, err := os.ReadFile("../jobs/river-workboat.yaml")
	require.NoError(t, err)
	require.Contains(t, string(text), "bank_f: 40 ")
	_, err = Read("boat.yaml", strings.NewReader(strings.Replace(string(text), "bank_f: 40 ", "bank_f: 138 ", 1)))
	require.ErrorContains(t, err, `bank_f is "138": want no more than the hottest air of the file: the greatest ambient_c or outside_c, which is 48.8889`)
}

func TestContradictions(t *testing.T) {
	text, err := os.ReadFile("../jobs/clinic.yaml")
	require.NoError(t, err)
	for _, m := range contradictions {
		t.Run(m.name, func(t *testing.T) {
			require.Contains(t, string(text), m.old)
			_, err := Read("clinic.yaml", strings.NewReader(strings.Replace(string(text), m.old, m.new, 1)))
			if m.want == nil {
				require.NoError(t, err)
				return
			}
			require.Error(t, err)
			require.Equal(t, strings.Join(m.want, "\n"), placed.ReplaceAllString(err.Error(), ""))
		})
	}
}

// TestALinkInNeedIsNoContradiction: a switch between both sides of a converter is
// open while it charges.
func TestALinkInNeedIsNoContradiction(t *testing.T) {
	const link = "  - {name: link, from: starter, to: board, length_m: 1, size: 16 mm2, strands: 5, insulation_c: 90, method: C, ambient_c: 40, grouped: 1, return: cable, contacts_milliohm: 1, purpose: supply%s}\nstates:\n"
	for contact, joined := range map[string]bool{", switch: {kind: isolator, rating_a: 200}": false, "": true} {
		_, err := Read("van.yaml", strings.NewReader(strings.Replace(van(t), "states:\n", strings.Replace(link, "%s", contact, 1), 1)))
		if joined {
			require.ErrorContains(t, err, "the converter would feed itself")
		} else {
			require.NoError(t, err)
		}
	}
}
