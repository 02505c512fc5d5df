package job

import (
	"errors"
	"fmt"
	"testing"

	"example.org/extralow/tables/working"
	"github.com/stretchr/testify/require"
)

func input(field, got, want string) error {
	return &working.InputError{Field: field, Got: got, Want: want}
}

func TestPlace(t *testing.T) {
	f := readVan(t)
	for name, c := range map[string]struct {
		err  error
		want string
	}{
		"a key": {working.In("circuits[5]", input("length_m", "4.5", "at most 4")),
			`van.yaml:153:5: circuits[5].length_m is "4.5": want at most 4`},
		"a key in US units": {input("circuits[1].device.along_mm", "152.4", "at most 100"),
			`van.yaml:110:7: circuits[1].device.along_in is "6": want at most 100 (as along_mm it is 152.4)`},
		"a key that is not given": {input("circuits[5].terminal_c", "70", "at least 75"),
			`van.yaml:150:5: circuits[5].terminal_c is 70: want at least 75`},
		"a key of a section that is not given": {input("circuits[5].device.rating_a", "0", "above 0"),
			`van.yaml:150:5: circuits[5].device.rating_a is 0: want above 0`},
		"a map": {input("circuits[1].device", "too small", "another"),
			`van.yaml:107:5: circuits[1].device is too small: want another`},
		"a list entry": {input("states[1].loads[1]", `"label printer"`, "a load at a node"),
			`van.yaml:171:26: states[1].loads[1] is "label printer": want a load at a node`},
		"an entry that is not there": {input("circuits[17].length_m", "0", "above 0"),
			`van.yaml:79:1: circuits[17].length_m is 0: want above 0`},
		"nothing in the file": {input("pressure_bar", "0", "above 0"),
			`van.yaml:2:1: pressure_bar is 0: want above 0`},
		"wrapped": {fmt.Errorf("drop: %w", input("system_v", "12", "24")),
			`van.yaml:4:1: system_v is "12": want 24`},
		"another error": {errors.New("no such table"), `van.yaml: no such table`},
		"several, in the order of the file": {errors.Join(
			errors.New("no such table"),
			input("needs.refill_h", "6", "at most 5"),
			fmt.Errorf("sum: %w", errors.Join(input("system_v", "12", "24"), errors.New("too many")))),
			"van.yaml:4:1: system_v is \"12\": want 24\n" +
				"van.yaml:178:3: needs.refill_h is \"6\": want at most 5\n" +
				"van.yaml: no such table\n" +
				"van.yaml: too many"},
	} {
		t.Run(name, func(t *testing.T) {
			require.EqualError(t, f.Place(c.err), c.want)
		})
	}
}

func TestPlaceKeepsWhatItDoesNotPlace(t *testing.T) {
	f := readVan(t)
	require.NoError(t, f.Place(nil))
	cause := errors.New("no such table")
	require.ErrorIs(t, f.Place(fmt.Errorf("look-up: %w", cause)), cause)
	once := f.Place(input("system_v", "12", "24"))
	require.Equal(t, once.Error(), f.Place(once).Error())
}
