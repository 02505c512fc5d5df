package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/examples/form"
	"example.org/extralow/examples/programtest"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

var d = decimal.RequireFromString

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

// asked is the answer to flags.
func asked(t *testing.T, args ...string) answer {
	t.Helper()
	f := form.New("runtime", entries)
	require.NoError(t, f.Parse(args))
	q := read(f)
	require.NoError(t, f.Faults())
	a, err := q.answer()
	require.NoError(t, err)
	return a
}

// pages are command lines whose output was read and found good.
var pages = map[string][]string{
	"sample.txt":  nil,
	"working.txt": {"-working", "-battery_c", "0"},
	"cold.txt":    {"-chemistry", "lead-acid flooded", "-power_w", "700", "-battery_c", "20,-15", "-system_v", "24", "-fast_ah", "187", "-fast_h", "5"},
	"heavy.txt":   {"-working", "-current_a", "300"},
}

func TestPages(t *testing.T) {
	for name, args := range pages {
		status, out, errs := ask(args...)
		assert.Equal(t, 0, status, name)
		assert.Empty(t, errs, name)
		programtest.Golden(t, name, out)
		programtest.Narrow(t, out)
		assert.True(t, strings.HasSuffix(out, "competent people decide.\n"), name)
		workingtest.Page(t, name, out)
	}
}

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string // every line
	}{
		{[]string{"foo"}, "\"foo\" is no flag: want flags only, such as -chemistry \"lead-acid AGM\"\n"},
		{[]string{"-nosuch"}, "flag provided but not defined: -nosuch\n"},
		{[]string{"-o"}, "flag needs an argument: -o\n"},
		{[]string{"-slow_ah", "220 Ah"}, "slow_ah is \"220 Ah\": want a number of plain digits, such as 12.5, without a unit\n"},
		{[]string{"-slow_ah", "1e400"}, "slow_ah is \"1e400\": want a number of plain digits, such as 12.5, without a unit; all digits written out, without an exponent\n"},
		{[]string{"-slow_ah", "0"}, "slow_ah is 0: want above 0 and at most 5000\n"},
		{[]string{"-chemistry", "NiCd", "-depth_percent", "101"},
			"chemistry is \"NiCd\": want one of lead-acid flooded, lead-acid AGM, lead-acid gel, lead-acid VRLA, lead-acid\nruntime: depth_percent is 101: want above 0 and at most 100\n"},
		{[]string{"-fast_ah", "230"}, "fast is 230 Ah in 1 h: want fewer hours and no more capacity than the slow rating, at a greater current\n"},
		{[]string{"-slow_ah", "3", "-fast_ah", "1"}, "slow_ah is 3 Ah in 20 h: want 0.2 A or more\n"},
		{[]string{"-lithium_ah", "4000", "-system_v", "48"}, "system_v is 48 V at loads up to 5000 A: want no more than 100000 W\n"},
		{[]string{"-battery_c", "1,2,3,4"}, "battery_c is \"1,2,3,4\": want up to three temperatures with commas, such as 25,0,-10\n"},
		{[]string{"-battery_c", "5,5.0"}, "battery_c is 5 twice: want each temperature once\n"},
		{[]string{"-battery_c", ""}, "battery_c is \"\": want a number of plain digits, such as 12.5, without a unit\n"},
		{[]string{"-battery_c", "-30"}, "capacity of lead-acid AGM at -30 °C: outside the table on the cold side\n"},
		{[]string{"-battery_c", "-60"}, "battery_c is -60: want -40 to 80\n"},
		{[]string{"-current_a", "0"}, "current_a is 0: want above 0 and at most 10000\n"},
		{[]string{"-current_a", "0.001"}, "current_a is 0.001: want 0.01 to 10000\n"},
		{[]string{"-current_a", "9", "-power_w", "90"}, "power_w is 90 beside current_a 9: want one of both\n"},
		{[]string{"-o", filepath.Join("nosuch", "x.svg")}, "o: cannot write \"nosuch/x.svg\": no such file or directory\n"},
		{[]string{"-o", ""}, "o: cannot write \"\": want the name of a file, new or to be replaced\n"},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Equal(t, "runtime: "+c.want, errs, "%q", c.args)
	}
}

func TestHelp(t *testing.T) { program.Help(t, entries) }

// TestWarmNewBank: of a new bank at the temperature of its rating, emptied
// whole, every line is the package's own answer without a share.
func TestWarmNewBank(t *testing.T) {
	a := asked(t, "-ageing_percent", "100", "-depth_percent", "100", "-lithium_depth_percent", "100", "-battery_c", "30")
	for _, r := range a.rows {
		if r.currentA.LessThanOrEqual(d("132")) {
			own, err := a.ratings.At(r.currentA)
			require.NoError(t, err)
			assert.Equal(t, own.TimeH.String(), r.lines[0].timeH.String(), r.currentA)
		} else {
			assert.Empty(t, r.lines[0].Working, r.currentA)
		}
		whole, _ := d("220").QuoRem(r.currentA, 2)
		assert.Equal(t, whole.String(), r.label.timeH.String(), r.currentA)
		if r.currentA.LessThanOrEqual(d("220")) {
			assert.Equal(t, whole.String(), r.lines[1].timeH.String(), r.currentA)
		}
	}
}

// TestColdOldBank: the rest of the bank is a battery of its own, and only a
// part of its charge is used.
func TestColdOldBank(t *testing.T) {
	a := asked(t, "-battery_c", "-15")
	// 80 % of age, 40 % at -17.8 °C, the next colder row of TM 10-6140-200-14
	p := battery.Peukert{Slow: battery.HourRating{CapacityAh: d("70.4"), RateH: d("20")}, Fast: battery.HourRating{CapacityAh: d("42.24"), RateH: d("1")}}
	own, err := p.At(d("25"))
	require.NoError(t, err)
	assert.Equal(t, own.TimeH.Div(d("2")).String(), a.load().lines[0].timeH.String())
	// lithium at -20 °C, the next colder row: 55 %
	assert.Equal(t, "3.09", a.load().lines[1].timeH.String()) // 220 × 0.8 × 0.8 × 0.55 ÷ 25
}

// TestLinesAreWorked: the drift guard evaluates every line of every answer.
func TestLinesAreWorked(t *testing.T) {
	for _, r := range asked(t).rows {
		for _, l := range r.lines {
			if len(l.Working) > 0 {
				workingtest.Guard(t, l.Working)
			}
		}
	}
}

// TestOrder: no battery outlasts its label, cold or old, and a greater load
// never lasts longer.
func TestOrder(t *testing.T) {
	a := asked(t)
	for n, r := range a.rows {
		for i, l := range r.lines {
			assert.False(t, l.timeH.GreaterThan(r.label.timeH), "%s A, line %d", r.currentA, i)
			if i%len(a.temperatures) > 0 {
				assert.False(t, l.timeH.GreaterThan(r.lines[i-1].timeH), "%s A, line %d: colder", r.currentA, i)
			}
			if n > 0 {
				assert.False(t, l.timeH.GreaterThan(a.rows[n-1].lines[i].timeH), "%s A, line %d: heavier", r.currentA, i)
			}
		}
	}
}

// TestStraight: between its corners a line of the picture is straight on
// logarithmic paper, to a hundredth of an hour and the width of the pen (1 %).
func TestStraight(t *testing.T) {
	all, err := asked(t).curves()
	require.NoError(t, err)
	require.Len(t, all, 7)
	for _, c := range all {
		for i := 1; i < len(c.points); i++ {
			p, q := xy(c.points[i-1]), xy(c.points[i])
			if p == q {
				continue
			}
			middle := decimal.NewFromFloat(math.Sqrt(p.X * q.X)).Round(4)
			l, err := c.at(middle)
			require.NoError(t, err)
			drawn := math.Sqrt(p.Y * q.Y)
			assert.InDelta(t, drawn, l.timeH.InexactFloat64(), 0.01+0.01*drawn, "%s at %s A", c.name, middle)
		}
	}
}

func TestApart(t *testing.T) {
	heights := []vg.Length{100, 99, 98, 50, 49.5, 10}
	apart(heights, 12)
	for i := 1; i < len(heights); i++ {
		assert.Greater(t, float64(heights[i-1]-heights[i]), 11.9)
	}
	assert.InDelta(t, 99, float64(heights[1]), 0.1, "a group stays around its middle")
	assert.InDelta(t, 10, float64(heights[5]), 0.1, "what stands free stays")
}

// texts returns the texts of an SVG, and fails where it is not well formed.
func texts(t *testing.T, svg []byte) []string {
	t.Helper()
	var all []string
	inside := false
	for decoder := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			inside = token.Name.Local == "text"
		case xml.EndElement:
			inside = false
		case xml.CharData:
			if inside {
				all = append(all, string(token))
			}
		}
	}
}

func TestPicture(t *testing.T) {
	file := filepath.Join(t.TempDir(), "hours.svg")
	status, out, errs := ask("-o", file)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "The picture is in "+file+".")
	svg, err := os.ReadFile(file)
	require.NoError(t, err)
	all := texts(t, svg)
	for _, want := range []string{
		"label, 220 Ah ÷ A", "lead-acid AGM, 25 °C", "lead-acid AGM, -10 °C", "LiFePO4, 0 °C", "25 A (300 W at 12 V)",
		"Steady load, A", "Steady load, W at 12 V", "Time until empty", "30 min", "100 h", "5000",
		"lead-acid AGM: 220 Ah in 20 h and 132 Ah in 1 h, Peukert's exponent 1.2056 between the rings; 50 % is used.",
	} {
		assert.Contains(t, all, want)
	}
	var again bytes.Buffer
	require.NoError(t, asked(t).draw(&again))
	assert.True(t, bytes.Equal(svg, again.Bytes()), "the same flags give the same picture")
	left, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, left, 1, "no temporary file stays")
}

// TestNoHalfPicture: where the picture cannot be written there is no answer.
func TestNoHalfPicture(t *testing.T) {
	status, out, errs := ask("-o", t.TempDir())
	assert.Equal(t, 2, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "want the name of a file")
	assert.ErrorContains(t, asked(t).draw(full{}), "no room")
}

// full refuses to write.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }
