package sheet_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/color"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/quick"

	"example.org/extralow/examples/sheet"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

var d = decimal.RequireFromString

func ExampleMarks() {
	fmt.Println(sheet.Marks(decimal.RequireFromString("0.3"), decimal.NewFromInt(20)))
	fmt.Println(sheet.MarkBelow(decimal.NewFromInt(31)), sheet.MarkAbove(decimal.NewFromInt(31)))
	// Output:
	// [0.5 1 2 5 10 20]
	// 20 50
}

func ExampleWriteWhole() {
	err := sheet.WriteWhole("no-such-folder/curve.svg", false, func(out io.Writer) error {
		_, err := io.WriteString(out, "<svg/>")
		return err
	})
	fmt.Println(err)
	// Output: cannot write "no-such-folder/curve.svg": no such file or directory
}

// names are those of ticks, and values theirs and those of the ticks without.
func names(all []plot.Tick) (names []string, values []float64) {
	for _, t := range all {
		values = append(values, t.Value)
		if t.Label != "" {
			names = append(names, t.Label)
		}
	}
	return names, values
}

func TestMarks(t *testing.T) {
	for _, c := range []struct{ v, below, above string }{
		{"1", "1", "1"}, {"1.01", "1", "2"}, {"2", "2", "2"}, {"4.99", "2", "5"}, {"5", "5", "5"}, {"9.9", "5", "10"}, {"10.0", "10", "10"},
		{"0.0031", "0.002", "0.005"}, {"70000000", "50000000", "100000000"}, {"0", "0", "0"}, {"-3", "0", "0"},
	} {
		assert.Equal(t, c.below, sheet.MarkBelow(d(c.v)).String(), c.v)
		assert.Equal(t, c.above, sheet.MarkAbove(d(c.v)).String(), c.v)
	}
	assert.Empty(t, sheet.Marks(d("0"), d("10")))
	assert.Empty(t, sheet.Marks(d("6"), d("9")))
}

// TestMarksEnclose: every number lies between its marks, at most two and a half
// times apart.
func TestMarksEnclose(t *testing.T) {
	require.NoError(t, quick.Check(func(n uint32, places uint8) bool {
		v := decimal.New(int64(n)+1, -int32(places%12))
		low, high := sheet.MarkBelow(v), sheet.MarkAbove(v)
		return !low.GreaterThan(v) && !high.LessThan(v) && !high.GreaterThan(low.Mul(d("2.5")))
	}, nil))
}

func TestTicks(t *testing.T) {
	got, values := names(sheet.Ticks(d("20"), d("500")))
	assert.Equal(t, []string{"20", "50", "100", "200", "500"}, got)
	assert.Equal(t, []float64{20, 30, 40, 50, 60, 70, 80, 90, 100, 200, 300, 400, 500}, values)
	got, values = names(sheet.Ticks(d("0.1"), d("1000")))
	assert.Equal(t, []string{"0.1", "1", "10", "100", "1000"}, got, "few where the axis is long")
	assert.Len(t, values, 37)
	assert.Empty(t, sheet.Ticks(d("0"), d("10")))
}

// TestTimeTicks: each name stands at its time, of 60 s to the minute and 60 min
// to the hour, whatever the axis counts in.
func TestTimeTicks(t *testing.T) {
	for axisS, inSeconds := range map[float64]float64{1: 1, 3600: 1.0 / 3600} {
		at := map[string]float64{}
		last := 0.0
		for _, one := range sheet.TimeTicks(axisS) {
			assert.Greater(t, one.Value, last, "rising, and none twice")
			last = one.Value
			at[one.Label] = one.Value
		}
		for name, seconds := range map[string]float64{
			"0.001 s": 0.001, "0.5 s": 0.5, "5 s": 5, "10 s": 10, "30 s": 30, "1 min": 60, "5 min": 300, "30 min": 1800, "1 h": 3600, "100 h": 360_000,
		} {
			assert.InEpsilon(t, seconds*inSeconds, at[name], 1e-12, name)
		}
		assert.NotContains(t, at, "60 s")
		assert.NotContains(t, at, "100 s")
	}
}

// page is a plot with everything on it.
func page(across bool) sheet.Page {
	p := sheet.NewPaper("Curve of a pump")
	sheet.SetLogAxis(&p.X, "Current, A", 1, 100, sheet.Ticks(d("1"), d("100")))
	sheet.SetAxis(&p.Y, "Share, %", 0, 100, []plot.Tick{{Value: 50, Label: "half"}})
	p.Grid()
	p.Curve(sheet.Stroke(1, 2, 2), plotter.XYs{{X: 1, Y: 0}, {X: 1000, Y: 200}})
	p.Dots(draw.CircleGlyph{}, color.Black, 2, plotter.XY{X: 10, Y: 40})
	p.Upright(sheet.Stroke(1), 20, "load 20 A", draw.YTop, sheet.NameGap)
	p.Upright(sheet.Stroke(1), 30, "surge 30 A", draw.YBottom, sheet.NameGap)
	p.Name(plotter.XY{X: 2, Y: 50}, "k²S²", draw.XLeft, draw.YCenter)
	p.Name(plotter.XY{X: 90, Y: 50}, "opens by", draw.XRight, draw.YTop)
	return sheet.Page{Plot: p.Plot, Across: across, Beside: 20, Remarks: []string{"first remark", "second remark"}}
}

func drawn(t *testing.T, across bool) string {
	t.Helper()
	var svg bytes.Buffer
	require.NoError(t, page(across).WriteSVG(&svg))
	return svg.String()
}

// texts returns what an SVG letters, and fails where it is no well-formed XML.
func texts(t *testing.T, svg string) []string {
	t.Helper()
	var all []string
	inside := false
	for decoder := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := decoder.Token()
		if err == io.EOF {
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

func TestPage(t *testing.T) {
	upright := drawn(t, false)
	assert.Subset(t, texts(t, upright), []string{
		"Curve of a pump", "Current, A", "Share, %", "half", "1", "50", "100", "load 20 A", "surge 30 A", "k²S²", "opens by", "first remark", "second remark",
	})
	// 210 by 297 mm (ISO 216), of 72 points to 25.4 mm
	assert.Contains(t, upright, `width="595.28pt" height="841.89pt"`)
	assert.Contains(t, drawn(t, true), `width="841.89pt" height="595.28pt"`)
	assert.True(t, upright == drawn(t, false), "the same plot gives the same bytes")
	assert.Contains(t, upright, "data:font", "it holds its own letters")
	for _, c := range regexp.MustCompile(`#([0-9A-Fa-f]{2})([0-9A-Fa-f]{2})([0-9A-Fa-f]{2})\b`).FindAllStringSubmatch(upright, -1) {
		assert.True(t, c[1] == c[2] && c[2] == c[3], "%s is a colour", c[0])
	}
}

// TestAxesStay: nothing that is drawn moves the ends of the axes.
func TestAxesStay(t *testing.T) {
	p := page(false).Plot
	assert.Equal(t, []float64{1, 100, 0, 100}, []float64{p.X.Min, p.X.Max, p.Y.Min, p.Y.Max})
}

// full refuses to write.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestNoRoom(t *testing.T) {
	assert.EqualError(t, page(false).WriteSVG(full{}), "no room")
}

// with writes a text.
func with(text string) func(io.Writer) error {
	return func(out io.Writer) error {
		_, err := io.WriteString(out, text)
		return err
	}
}

// holds wants a file to hold a text, and its folder nothing else.
func holds(t *testing.T, file, text string, mode os.FileMode) {
	t.Helper()
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, text, string(got))
	info, err := os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, mode, info.Mode())
	all, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, all, 1, "no temporary file stays")
}

func TestWriteWhole(t *testing.T) {
	file := filepath.Join(t.TempDir(), "curve.svg")
	require.NoError(t, sheet.WriteWhole(file, false, with("new")))
	holds(t, file, "new", 0o644)
	require.NoError(t, os.Chmod(file, 0o600))
	assert.EqualError(t, sheet.WriteWhole(file, false, with("newer")),
		fmt.Sprintf("cannot write %q: it is there already: want another name, or -force to replace it", file))
	holds(t, file, "new", 0o600)
	require.NoError(t, sheet.WriteWhole(file, true, with("newer")))
	holds(t, file, "newer", 0o600)
	err := sheet.WriteWhole(file, true, func(out io.Writer) error {
		return errors.Join(with("half of it")(out), errors.New("the pen broke"))
	})
	assert.EqualError(t, err, fmt.Sprintf("cannot write %q: the pen broke", file))
	holds(t, file, "newer", 0o600)
}

// TestWriteRefused: what is no file of its own stays as it is, and is not asked
// to be drawn.
func TestWriteRefused(t *testing.T) {
	dir := t.TempDir()
	file, link, dangling := filepath.Join(dir, "curve.svg"), filepath.Join(dir, "link.svg"), filepath.Join(dir, "dangling.svg")
	require.NoError(t, os.WriteFile(file, []byte("older"), 0o644))
	require.NoError(t, os.Symlink(file, link))
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere.svg"), dangling))
	for name, why := range map[string]string{
		"": "want the name of a file, new or to be replaced", dir: "want the name of a file", dir + "/": "want the name of a file",
		link: "want the name of a file", dangling: "want the name of a file", os.DevNull: "want the name of a file",
		filepath.Join(dir, "no", "curve.svg"): "no such file or directory", filepath.Join(file, "curve.svg"): "not a directory",
	} {
		err := sheet.WriteWhole(name, true, func(io.Writer) error {
			assert.Fail(t, "drawn", name)
			return nil
		})
		assert.ErrorContains(t, err, fmt.Sprintf("cannot write %q: %s", name, why))
		assert.NotContains(t, err.Error(), "unfinished")
	}
	older, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "older", string(older))
	all, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, all, 3)
}
