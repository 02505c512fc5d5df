package job

import (
	"fmt"
	"strings"
	"testing"
)

// manyCircuits returns testdata/van.yaml with a chain of n circuits more.
func manyCircuits(b *testing.B, n int) string {
	var more strings.Builder
	from := "board"
	for i := range n {
		to := fmt.Sprintf("joint %d", i)
		if i == n-1 {
			to = "house"
		}
		fmt.Fprintf(&more, `  - name: link %d
    from: %s
    to: %s
    length_m: 0.8
    size: 35 mm2
    strands: 5
    insulation_c: 90
    method: C
    ambient_f: 104
    grouped: 1
    return: cable
    contacts_milliohm: 0.4
    purpose: supply
    device:
      family: ISO 8820-3 C
      rating_a: 15
      along_mm: 100
`, i, from, to)
		from = to
	}
	return strings.Replace(van(b), "states:\n", more.String()+"states:\n", 1)
}

func BenchmarkRead(b *testing.B) {
	for _, n := range []int{10, 50, 190} {
		text := manyCircuits(b, n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				if _, err := Read("many.yaml", strings.NewReader(text)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
