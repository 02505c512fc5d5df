package main

import (
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.org/extralow/examples/programtest"
	"example.org/extralow/tables"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

// drawn returns the picture of a circuit as the program writes it.
func drawn(t *testing.T, args ...string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sheet.svg")
	status, _, errs := ask(append(args, "-o", file)...)
	require.Less(t, status, 2, errs)
	svg, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(svg)
}

// TestText compares the text of the sample with the one that was read and found
// good.
func TestText(t *testing.T) {
	status, out, errs := ask()
	assert.Zero(t, status)
	assert.Empty(t, errs)
	programtest.Golden(t, "sample.txt", out)
}

// TestVerdicts gives the sample one fault at a time and wants the check that is
// there to find it.
func TestVerdicts(t *testing.T) {
	for want, args := range map[string][]string{
		"P01 fails":          {"-load_a", "36"},
		"P02 fails":          {"-rating_a", "60"},
		"P03 fails":          {"-family", "IEC 60269 gG", "-rating_a", "50"},
		"P08 fails":          {"-surge_s", "2"},
		"P08 cannot tell":    {"-surge_a", "300"},
		"P08 not applicable": {"-surge_a", "40"},
		"P09 fails":          {"-size", "1.5 mm2"},
		"P09 cannot tell":    {"-fault_least_a", "53.9"},
		"P11 cannot tell":    {"-family", "IEC 60898-1 C", "-rating_a", "40"},
		"no window":          {"-family", "SAE J553"},
		"from memory":        {"-family", "ISO 8820-3 C", "-rating_a", "20"},
	} {
		status, out, errs := ask(args...)
		assert.Equal(t, strings.Contains(out, " fails: ") || strings.Contains(out, " cannot tell: "), status == 1, "%q %s", args, errs)
		assert.Contains(t, out, want, "%q", args)
		programtest.Narrow(t, out)
		assert.Contains(t, out, "Caution: a design aid, not a certificate.")
	}
}

// texts returns what an SVG letters, and fails where it is no well-formed XML.
func texts(t *testing.T, svg string) string {
	t.Helper()
	var all strings.Builder
	inside := false
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return all.String()
		}
		require.NoError(t, err)
		switch x := token.(type) {
		case xml.StartElement:
			inside = x.Name.Local == "text"
		case xml.CharData:
			if inside {
				all.WriteString(string(x) + "\n")
			}
		}
	}
}

func TestPictureBearsItsNames(t *testing.T) {
	got := texts(t, drawn(t))
	for _, want := range []string{
		"ISO 8820-3 E, 40 A, with 10 mm2 PVC 70 C", "Current, A", "Time",
		"load 31 A", "ampacity 53.58 A", "smallest fault 320 A", "largest fault 900 A", "surge 110 A, 0.3 s",
		"opens not before", "opens by", "cable: k²S²", "cable: heats to 160 °C",
		"0.01 s", "1 s", "30 s", "1 min", "10 min", "1 h", "100 h", "20", "500", "5000",
		"Verdicts: P01 passes, P02 passes, P03 passes, P08 passes, P09 passes.", "ISO 8820-3:2015 (second hand)",
	} {
		assert.Contains(t, got, want)
	}
	assert.NotContains(t, got, "0.1 min")
}

// TestPictureIsSteady: the same circuit gives the same bytes, on paper of A4
// (210 by 297 mm, ISO 216).
func TestPictureIsSteady(t *testing.T) {
	first := drawn(t)
	assert.True(t, first == drawn(t), "two runs differ")
	assert.Contains(t, first, `width="595.28pt" height="841.89pt"`)
}

// TestPictureHasNoColour: every colour of it is a grey.
func TestPictureHasNoColour(t *testing.T) {
	colours := regexp.MustCompile(`#([0-9A-Fa-f]{2})([0-9A-Fa-f]{2})([0-9A-Fa-f]{2})\b`).FindAllStringSubmatch(drawn(t), -1)
	require.NotEmpty(t, colours)
	for _, c := range colours {
		assert.True(t, c[1] == c[2] && c[2] == c[3], c[0])
	}
}

// TestEveryFamily draws the smallest and the largest rating of every family that
// has gates, whatever the verdicts.
func TestEveryFamily(t *testing.T) {
	count := 0
	for _, f := range tables.Families() {
		ratings, err := tables.Ratings(f.Name)
		if err != nil {
			continue
		}
		for _, r := range []string{ratings[0].Value.String(), ratings[len(ratings)-1].Value.String()} {
			if gates, err := tables.Gates(f.Name, ratings[0].Value); err != nil || len(gates) == 0 {
				continue
			}
			if status, _, errs := ask("-family", f.Name, "-rating_a", r); status < 2 {
				texts(t, drawn(t, "-family", f.Name, "-rating_a", r))
				count++
			} else {
				assert.Contains(t, errs, "not in the table")
			}
		}
	}
	assert.Greater(t, count, 20)
}

// TestBadInput wants one clear line a fault, nothing on the page and nothing in
// the folder.
func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		want []string
		args []string
	}{
		{[]string{"rating_a is \"x\"", "load_a is 0", "grouped is 1.5", "family is \"Q\"", "size is \"4 mm\""},
			[]string{"-rating_a", "x", "-load_a", "0", "-size", "4 mm", "-grouped", "1.5", "-family", "Q"}},
		{[]string{"ambient_c is \"1e5\"", "surge_s is 0.0001"}, []string{"-ambient_c", "1e5", "-surge_s", "0.0001"}},
		{[]string{"surge_a is -1", "fault_least_a is \"\"", "fault_most_a is 10001"}, []string{"-surge_a", "-1", "-fault_least_a", "", "-fault_most_a", "10001"}},
		{[]string{"fault_most_a is 1: want no less than fault_least_a, 320"}, []string{"-fault_most_a", "1"}},
		{[]string{"gates of \"ISO 8820-3 E\" at 100.5 A", "insulation is \"PVC\": want one of"}, []string{"-rating_a", "100.5", "-insulation", "PVC"}},
		{[]string{"method is \"Z\": want one of A, B, "}, []string{"-method", "Z"}},
		{[]string{"it ends at 65 °C"}, []string{"-ambient_c", "80"}},
		{[]string{"\"word\" is no flag"}, []string{"word"}},
		{[]string{"not defined: -nosuch"}, []string{"-nosuch"}},
		{[]string{"needs an argument: -load_a"}, []string{"-load_a"}},
		{[]string{"o: cannot write \"\": want the name of a file"}, []string{"-o", ""}},
		{[]string{"o: cannot write \"testdata\": want the name of a file"}, []string{"-o", "testdata"}},
		{[]string{"o: cannot write \"nosuch/sheet.svg\": no such file"}, []string{"-o", "nosuch/sheet.svg"}},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out)
		assert.Equal(t, len(c.want), strings.Count(errs, "\n"), errs)
		for _, want := range c.want {
			assert.Contains(t, errs, want)
		}
	}
	program.Help(t, entries)
}

// TestWriteIsWhole replaces an older picture in one step where it is told to, and
// leaves it as it was where the circuit is refused.
func TestWriteIsWhole(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "sheet.svg")
	require.NoError(t, os.WriteFile(file, []byte("older"), 0o600))
	status, _, _ := ask("-o", file, "-load_a", "0")
	assert.Equal(t, 2, status)
	old, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "older", string(old))

	status, _, errs := ask("-o", file)
	assert.Equal(t, 2, status)
	assert.Contains(t, errs, "it is there already")
	status, out, _ := ask("-o", file, "-force")
	assert.Zero(t, status)
	assert.Contains(t, out, "The picture is in "+file)
	svg, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, strings.HasSuffix(strings.TrimSpace(string(svg)), "</svg>"))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 1, "no temporary file stays")
}

// FuzzRun: whatever is typed, the program answers or refuses in lines of its
// own, and never panics.
func FuzzRun(f *testing.F) {
	f.Add("ISO 8820-3 E", "40", "10 mm2", "PVC 70 C", "35", "31", "110", "0.3", "320", "900")
	f.Add("UL 248-14", "31", "AWG 2", "rubber 60 C", "-40", "0.1", "10000", "3600", "0.1", "10000")
	f.Fuzz(func(t *testing.T, family, rating, size, insulation, ambient, load, surgeA, surgeS, least, most string) {
		status, _, errs := ask("-family="+family, "-rating="+rating, "-size="+size, "-insulation="+insulation, "-ambient="+ambient,
			"-load="+load, "-surge_a="+surgeA, "-surge_s="+surgeS, "-fault_least_a="+least, "-fault_most_a="+most,
			"-o="+filepath.Join(t.TempDir(), "sheet.svg"))
		if status < 2 {
			assert.Empty(t, errs)
			return
		}
		assert.Equal(t, 2, status)
		for line := range strings.Lines(errs) {
			assert.True(t, strings.HasPrefix(line, "timecurrent: "), line)
		}
	})
}
