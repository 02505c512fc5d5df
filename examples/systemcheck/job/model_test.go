package job

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// metricOf says which unit each US unit is converted to.
var metricOf = map[string]string{"ft": "m", "in": "mm", "lb": "kg", "°F": "°C"}

// TestTags holds the model to what the reader can read.
func TestTags(t *testing.T) {
	for _, s := range sections() {
		seen := map[string]bool{}
		for _, k := range keysOf(s.of) {
			at := s.title + " " + strings.Join(k.names, "|")
			require.NotEmpty(t, k.is, at)
			for i, name := range k.names {
				require.Regexp(t, `^[a-z][a-z0-9_]*$`, name, at)
				require.False(t, seen[name], at)
				seen[name] = true
				if i > 0 {
					require.Equal(t, unitOf(k.names[0]), metricOf[unitOf(name)], at)
				}
			}
			if k.isNumber() {
				require.True(t, k.want.ranged || k.want.words != nil, at)
				require.False(t, k.want.ranged && k.want.low.GreaterThan(k.want.high), at)
				require.Equal(t, k.kind == nullDecimalType, k.optional, at)
			}
			if k.kind.Kind() == reflect.Pointer {
				require.True(t, k.optional, at)
			}
		}
	}
}

// TestUnitsOfKeys wants a unit behind every number but counts.
func TestUnitsOfKeys(t *testing.T) {
	counts := map[string]bool{
		"strands": true, "grouped": true, "along": true, "in_series": true, "strings": true, "across": true, "fixings": true, "count": true, "gravities": true, "bend_times": true,
	}
	for _, s := range sections() {
		for _, k := range keysOf(s.of) {
			for _, name := range k.names {
				require.Equal(t, k.isNumber() && !counts[name], k.isNumber() && unitOf(name) != "", name)
			}
		}
	}
}
