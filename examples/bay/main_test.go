package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/extralow/battery"
	"example.org/extralow/examples/form"
	"example.org/extralow/examples/programtest"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var d = decimal.RequireFromString

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

// tight is a space that the case as drawn goes into, and the one delivered does not.
var tight = []string{"-space_length_mm", "783"}

// asked is the answer to flags, in the tight space unless they say so.
func asked(t *testing.T, args ...string) answer {
	t.Helper()
	f := form.New("bay", entries)
	require.NoError(t, f.Parse(append(slices.Clone(tight), args...)))
	a, err := read(f).answer(f.Faults())
	require.NoError(t, err)
	return a
}

// flooded fails by heat, gas, fixings and rear axle.
var flooded = []string{
	"-case", "drawn", "-chemistry", "lead-acid flooded", "-cells", "6", "-capacity_ah", "230", "-fitted_cm2", "15",
	"-loss_w", "120", "-fixing_n", "600", "-rear_limit_kg", "1640", "-case_height_mm", "240",
}

func TestPages(t *testing.T) {
	for name, args := range map[string][]string{
		"sample.txt":    nil,
		"drawn.txt":     {"-case", "drawn"},
		"delivered.txt": append([]string{"-working", "-case", "delivered"}, tight...),
		"flooded.txt":   append([]string{"-working"}, flooded...),
		"shorter.txt":   {"-longer_mm", "-12.5", "-cable_diameter_mm", "0", "-lug_mm", "0", "-ambient_c", "30"},
	} {
		status, out, errs := ask(args...)
		assert.Equal(t, map[string]int{"delivered.txt": 1, "flooded.txt": 1, "shorter.txt": 1}[name], status, name)
		assert.Empty(t, errs, name)
		programtest.Golden(t, name, out)
		for line := range strings.Lines(out) {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 80, line)
			assert.Equal(t, strings.TrimRight(line, " \n"), strings.TrimSuffix(line, "\n"), "no space at the end")
		}
		assert.True(t, strings.HasSuffix(out, "local codes come first.\n"), name)
		workingtest.Page(t, name, out)
	}
}

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		args []string
		want []string // every line
	}{
		{[]string{"foo"}, []string{`"foo" is no flag: want flags only, such as -case both`}},
		{[]string{"-nosuch"}, []string{"flag provided but not defined: -nosuch"}},
		{[]string{"-o"}, []string{"flag needs an argument: -o"}},
		{[]string{"-o", ""}, []string{`o: cannot write "": want the name of a file, new or to be replaced`}},
		{[]string{"-o", filepath.Join("nosuch", "x.svg")}, []string{`o: cannot write "nosuch/x.svg": no such file or directory`}},
		{[]string{"-case", "brown"}, []string{`case is "brown": want one of drawn, delivered, both`}},
		{[]string{"-gap_mm", "1 cm"}, []string{`gap_mm is "1 cm": want a number of plain digits, such as 12.5, without a unit`}},
		{[]string{"-gap_mm", ""}, []string{`gap_mm is "": want a number of plain digits, such as 12.5, without a unit`}},
		{[]string{"-gap_mm", "-1", "-space_height_mm", "0"}, []string{"space_height_mm is 0: want 1 to 5000", "gap_mm is -1: want 0 to 500", "box_height_m is 0: want 0.01 to 10"}},
		{[]string{"-along", "1.5"}, []string{"along is 1.5: want a whole number"}},
		{[]string{"-along", "25"}, []string{"along is 25: want 1 to 24", "fixings is 100: want 2 to 48"}},
		{[]string{"-longer_mm", "-300"}, []string{"case_length_mm is -20: want 1 to 5000"}},
		{[]string{"-longer_mm", "501"}, []string{"longer_mm is 501: want -500 to 500"}},
		{[]string{"-straps", "0"}, []string{"straps is 0: want 1 to 4"}},
		{[]string{"-terminal_mm", "210"}, []string{"terminal_mm is 210: want 0 or more, and less than case_height_mm"}},
		{[]string{"-case_kg", "0"}, []string{"case_kg is 0: want above 0 and at most 500"}},
		{[]string{"-chemistry", "lead", "-position", "floating"}, []string{
			`position is "floating": want one of free on all sides; single, on a wall; end of a row, free; end of a row, on a wall; in a row, free; in a row, on a wall; in a row, on a wall, top covered`,
			`chemistry is "lead": want one of lead-acid flooded, lead-acid AGM, lead-acid gel, lead-acid VRLA, lead-acid, LiFePO4, NMC, Li-ion, NiCd, NiMH`}},
		{[]string{"-material", "wood"}, []string{`material is "wood": want one of painted sheet steel; stainless steel; aluminium; aluminium, coated; aluminium, double wall; plastic`}},
		{[]string{"-fitted_cm2", "-1"}, []string{"fitted_cm2 is -1: want 0 to 100000"}},
		{[]string{"-wheelbase_m", "0"}, []string{"wheelbase_m is 0: want 0.1 to 20"}},
		{[]string{"-fixing_n", "0"}, []string{"fixing_n is 0: want above 0 and at most 1000000"}},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		var want string
		for _, line := range c.want {
			want += "bay: " + line + "\n"
		}
		assert.Equal(t, want, errs, "%q", c.args)
	}
}

func TestHelp(t *testing.T) { program.Help(t, entries) }

// TestLonger: by hand, 2 × (280 + 2) + 10 + 2 × 15 + (40 + 4 × 14 + 14) = 714 in
// 783 − 5; each of two cases 35 longer makes 784.
func TestLonger(t *testing.T) {
	a := asked(t)
	require.Len(t, a.laid, 2)
	drawn, delivered := a.laid[0], a.laid[1]
	assert.Equal(t, "64", drawn.FitMargins.LengthMM.String())
	assert.Equal(t, "-6", delivered.FitMargins.LengthMM.String())
	own := a.fit
	own.Case.LengthMM = d("315")
	fitted, err := own.Fit()
	require.NoError(t, err)
	for i, c := range fitted.Checks {
		assert.Equal(t, c.Margin().String(), delivered.Checks[i].Margin().String(), c.Title)
	}
	_, out, _ := ask(tight...)
	assert.Contains(t, out, "fails by 6 mm in the length")
}

// TestChains: the dimensions of a chain add up to what there is, also where the
// last is too little.
func TestChains(t *testing.T) {
	for _, args := range [][]string{nil, flooded, {"-gap_mm", "0", "-wall_mm", "0"}, {"-along", "3", "-across", "1", "-case_tolerance_mm", "0"}} {
		for _, l := range asked(t, args...).laid {
			for i, spans := range [][]span{l.lengths(), l.widths(), l.heights()} {
				sum := decimal.Zero
				for _, s := range spans {
					sum = sum.Add(s.mm)
				}
				assert.Equal(t, l.Checks[i].Limit.String(), sum.String(), "%q %s", args, l.Checks[i].Title)
			}
		}
	}
}

// TestHeld: the fixings are asked as the package is with the sums done by hand.
func TestHeld(t *testing.T) {
	a := asked(t, "-fixing_n", "700")
	own := battery.HoldDown{MassKg: d("47.2"), Times: d("10"), Fixings: 8, HeightMM: decimal.NewNullDecimal(d("105")), SpacingMM: d("350"), StrengthN: decimal.NewNullDecimal(d("700"))}
	check, err := own.Check()
	require.NoError(t, err)
	assert.Equal(t, check.Demand.String(), a.held.Demand.String())
	assert.Equal(t, working.Passes, a.held.Verdict())
	assert.Equal(t, working.CannotTell, asked(t).held.Verdict())
}

func TestFlooded(t *testing.T) {
	a := asked(t, flooded...)
	for _, c := range []working.Check{a.warm, a.opening, a.held, a.axles.Checks[1], a.laid[0].Checks[2]} {
		assert.Equal(t, working.Fails, c.Verdict(), c.Title)
	}
	require.NotNil(t, a.fan)
	assert.True(t, a.fan.FlowM3H.IsPositive())
}

// TestWorked: the drift guard evaluates every line.
func TestWorked(t *testing.T) {
	for _, args := range [][]string{nil, flooded, {"-longer_mm", "-3"}} {
		for _, part := range asked(t, args...).workings() {
			workingtest.Guard(t, part.Working)
		}
	}
}

// written is a text on the sheet, with the box that it fills.
type written struct {
	text                     string
	left, top, right, bottom float64
}

// texts returns those of a drawing, and fails where it is not well formed.
func texts(t *testing.T, svg []byte) []written {
	t.Helper()
	var all []written
	var now map[string]string
	for decoder := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			now = nil
			if token.Name.Local == "text" {
				now = map[string]string{}
				for _, one := range token.Attr {
					now[one.Name.Local] = one.Value
				}
			}
		case xml.CharData:
			if now != nil {
				all = append(all, box(t, now, string(token)))
				now = nil
			}
		}
	}
}

func box(t *testing.T, a map[string]string, text string) written {
	t.Helper()
	at := map[string]float64{}
	for _, name := range []string{"x", "y", "font-size"} {
		v, err := strconv.ParseFloat(a[name], 64)
		require.NoError(t, err)
		at[name] = v
	}
	x, y, size := at["x"], at["y"], at["font-size"]
	wide := float64(utf8.RuneCountInString(text)) * size * letterWidth
	if a["transform"] != "" {
		assert.Equal(t, fmt.Sprintf("rotate(-90 %s %s)", a["x"], a["y"]), a["transform"])
		return written{text, x - 0.75*size, y - wide/2, x + 0.05*size, y + wide/2}
	}
	left := x - map[string]float64{"start": 0, "middle": 0.5, "end": 1}[a["text-anchor"]]*wide
	return written{text, left, y - 0.75*size, left + wide, y + 0.05*size}
}

var drawings = [][]string{
	nil, {"-case", "drawn"}, {"-case", "delivered"}, flooded,
	{"-case_width_mm", "190", "-longer_mm", "120", "-straps", "3"},
	{"-along", "6", "-across", "1", "-space_length_mm", "2400", "-straps", "1", "-fitted_cm2", "0", "-cable_diameter_mm", "0"},
	{"-along", "1", "-across", "4", "-space_width_mm", "800", "-space_length_mm", "500", "-bend_multiple", "6"},
}

// TestNothingOverlaps: every text stands on the sheet, and none on another.
func TestNothingOverlaps(t *testing.T) {
	for _, args := range drawings {
		var svg bytes.Buffer
		require.NoError(t, asked(t, args...).draw(&svg))
		all := texts(t, svg.Bytes())
		require.NotEmpty(t, all)
		for i, a := range all {
			assert.True(t, a.left >= 0 && a.top >= 0 && a.right <= sheetWidth && a.bottom <= sheetHeight, "%q: %q leaves the sheet", args, a.text)
			for _, b := range all[:i] {
				apart := a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top
				assert.True(t, apart, "%q: %q on %q", args, a.text, b.text)
			}
		}
	}
}

func TestDrawing(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bay.svg")
	status, out, errs := ask(append(tight, "-o", file)...)
	require.Equal(t, 1, status, errs)
	assert.Contains(t, out, "The picture is in "+file+".")
	svg, err := os.ReadFile(file)
	require.NoError(t, err)
	count := map[string]int{}
	for _, one := range texts(t, svg) {
		count[one.text]++
	}
	for text, want := range map[string]int{
		"As drawn: case 280 × 170 × 210": 1, "As delivered: case 315 × 170 × 210": 1,
		"Fits. Left: length 64, width 7, height 8": 1, "FAILS: length by 6 mm. Left: width 7, height 8": 1,
		"plan": 2, "front": 2, "space 783 − 5": 2, "396 − 5": 2, "275 − 5": 2,
		"280 + 2": 2, "315 + 2": 2, "170 + 2": 4, "210 + 2": 2, "110": 2, "50": 2, "64": 1, "−6": 1, "7": 2, "8": 2,
		"15": 8, "10": 4, "+": 8, "−": 8, "1": 2, "2": 2, "3": 2, "4": 2, "5": 2,
		"3 cable 14, straight for 40, radius 56 inside": 1, "4 opening, low and high, 60 cm² free": 1,
		"2 strap; each fixing bears 674.76 N at 10 g": 1,
	} {
		assert.Equal(t, want, count[text], text)
	}
	var again bytes.Buffer
	require.NoError(t, asked(t).draw(&again))
	assert.Equal(t, string(svg), again.String(), "the same flags give the same drawing")
	left, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, left, 1, "no temporary file stays")
}

// TestHatched: only what reaches into a wall is hatched.
func TestHatched(t *testing.T) {
	for _, c := range []struct {
		args []string
		want int // two views
	}{
		{[]string{"-case", "drawn"}, 0},
		{[]string{"-case", "delivered"}, 2},
		{[]string{"-case", "delivered", "-case_height_mm", "240"}, 3},
	} {
		var svg bytes.Buffer
		require.NoError(t, asked(t, c.args...).draw(&svg))
		assert.Equal(t, c.want, strings.Count(svg.String(), "url(#hatch)"), "%q", c.args)
	}
}

func TestApart(t *testing.T) {
	all := []label{{10, 10, "a"}, {11, 11, "b"}, {12, 12, "c"}, {40, 40, "d"}}
	apart(all, func(_, _ label) float64 { return 5 })
	for i := 1; i < len(all); i++ {
		assert.GreaterOrEqual(t, all[i].place-all[i-1].place, 4.99)
	}
	assert.InDelta(t, 11, all[1].place, 0.1, "a group stays around its middle")
	assert.InDelta(t, 40, all[3].place, 0, "what stands free stays")
}

// TestNoHalfDrawing: where the drawing cannot be written there is no answer.
func TestNoHalfDrawing(t *testing.T) {
	status, out, errs := ask("-o", t.TempDir())
	assert.Equal(t, 2, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "want the name of a file, new or to be replaced")
	assert.ErrorContains(t, asked(t).draw(full{}), "no room")
}

// full refuses to write.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }
