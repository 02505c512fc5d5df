package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func TestExplainNamesEveryKey(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Explain(&b))
	text := b.String()
	for line := range strings.Lines(text) {
		require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), pageWidth, line)
	}
	for _, s := range sections() {
		_, of, found := strings.Cut(text, "\n"+s.title+"\n")
		require.True(t, found, s.title)
		of, _, _ = strings.Cut(of, "\n\n")
		for _, k := range keysOf(s.of) {
			require.Contains(t, of, "  "+strings.Join(k.names, " or "))
		}
	}
}

func TestExplainWords(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Explain(&b))
	for _, want := range []string{
		"  batteries: a list of at most 16, each with the keys of BATTERY\n      every battery, starter battery included\n",
		"  mass_kg or mass_lb (optional): a number from 0.1 to 2000 kg\n      mass\n",
		"  size: a size of cable\n      16 mm2, AWG 6 or SAE 6\n",
		"  far_device (optional): the keys of DEVICE\n      overcurrent device at the to end\n",
		"  sources (optional): a list of names\n",
		"  hours_a_day: a number from 0 to 24 h\n",
		"  grouped: a whole number from 1 to 60\n",
		"  cables (optional): the keys of CABLES\n",
		"  switch (optional): the keys of SWITCH\n",
		"  critical: true or false\n",
	} {
		require.Contains(t, b.String(), want)
	}
}

// closed is a writer that refuses.
type closed struct{}

func (closed) Write([]byte) (int, error) { return 0, errors.New("closed") }

func TestWritersThatRefuse(t *testing.T) {
	require.EqualError(t, Explain(closed{}), "closed")
	require.EqualError(t, Schema(closed{}), "closed")
}

func TestSchema(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Schema(&b))
	var root struct {
		Dialect string `json:"$schema"`
		Defs    map[string]struct {
			Properties map[string]json.RawMessage
			Required   []string
			Closed     *bool           `json:"additionalProperties"`
			AllOf      json.RawMessage `json:"allOf"`
		} `json:"$defs"`
		Properties map[string]json.RawMessage
		Required   []string
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &root))
	require.Equal(t, "https://json-schema.org/draft/2020-12/schema", root.Dialect)
	require.Contains(t, root.Required, "system_v")
	require.NotContains(t, root.Required, "coldest_c") // coldest_f will do
	require.JSONEq(t, `{"enum": [12, "12", 24, "24"], "description": "nominal voltage"}`, string(root.Properties["system_v"]))

	circuit := root.Defs["circuit"]
	require.False(t, *circuit.Closed)
	require.Contains(t, circuit.Required, "insulation_c")
	require.NotContains(t, circuit.Required, "terminal_c")
	require.JSONEq(t, `[
		{"oneOf": [{"required": ["length_m"]}, {"required": ["length_ft"]}]},
		{"not": {"required": ["in_bay_m", "in_bay_ft"]}},
		{"oneOf": [{"required": ["ambient_c"]}, {"required": ["ambient_f"]}]}]`, string(circuit.AllOf))
	// 0.01 m is 0.03281 ft and 200 m is 656.168 ft: NIST SP 811, B.8
	require.JSONEq(t, `{"type": ["number", "string"], "minimum": 0.0328, "maximum": 656.168,
		"pattern": "^[+-]?(0|[1-9][0-9]{0,11})(\\.[0-9]+)?$", "description": "one-way length along the cable"}`,
		string(circuit.Properties["length_ft"]))
	require.JSONEq(t, `{"type": ["integer", "string"], "minimum": 1, "maximum": 60, "pattern": "^[+-]?(0|[1-9][0-9]*)(\\.0+)?$",
		"description": "circuits that lie together, itself counted"}`, string(circuit.Properties["grouped"]))
	require.JSONEq(t, `{"$ref": "#/$defs/device", "description": "overcurrent device at the to end"}`, string(circuit.Properties["far_device"]))
	require.JSONEq(t, `[
		{"oneOf": [{"required": ["along_mm"]}, {"required": ["along_in"]}]},
		{"not": {"required": ["ambient_c", "ambient_f"]}}]`, string(root.Defs["device"].AllOf))
}
