package tables

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// System is a way to name conductor sizes.
type System string

const (
	Metric System = "mm2" // cross-section of copper: IEC 60228, ISO 6722-1
	AWG    System = "AWG" // American wire gauge: ASTM B258
	SAE    System = "SAE" // gauge of SAE J1127/J1128, 5 to 11 % less copper than AWG
)

// Systems returns every system.
func Systems() []System { return []System{Metric, AWG, SAE} }

var _ = also("system", Systems, func(s System) string { return string(s) })

// Check refuses a system that is none of [Systems], as an input error of that
// field.
func (s System) Check(field string) error {
	if slices.Contains(Systems(), s) {
		return nil
	}
	return unlisted(field, string(s), kinds["system"]())
}

// Size is a standard conductor size: "16 mm2", "AWG 6", "SAE 6". The zero Size
// is none. Sizes compare with ==.
type Size struct{ text string }

var metricForm = regexp.MustCompile(`^((?:0|[1-9][0-9]*)(?:\.[0-9]+)?) ?mm[2²]$`)
var gaugeForm = regexp.MustCompile(`^(AWG|SAE) ?([0-9]+|[1-4]/0)$`)
var gaugeBehind = regexp.MustCompile(`^([0-9]+|[1-4]/0) ?(AWG|SAE)$`)

// ParseSize reads a size: "16 mm2", "2.5 mm²", "AWG 6", "6 AWG", "AWG 2/0",
// "SAE 6". A bare "4 mm" is refused, because cable sold by its outer diameter
// has less than half that area of copper, and so is a bare gauge number,
// because AWG 6 and SAE 6 are different wires.
func ParseSize(text string) (Size, error) {
	t := strings.Join(strings.Fields(text), " ")
	if m := metricForm.FindStringSubmatch(t); m != nil {
		area, err := decimal.NewFromString(m[1])
		if err != nil {
			return Size{}, sizeError(text)
		}
		return listed(text, area.String()+" mm2")
	}
	if m := gaugeBehind.FindStringSubmatch(t); m != nil {
		t = m[2] + " " + m[1]
	}
	if m := gaugeForm.FindStringSubmatch(t); m != nil {
		return listed(text, m[1]+" "+noughts(m[2]))
	}
	if strings.HasSuffix(t, "mm") {
		return Size{}, refused(text, "the copper area, such as 2.5 mm2: cable named by a bare mm is named by its outer diameter, and 4 mm has about 1.8 mm2 of copper")
	}
	return Size{}, sizeError(text)
}

// noughts writes 0000 as 4/0.
func noughts(gauge string) string {
	if strings.Trim(gauge, "0") == "" {
		return fmt.Sprintf("%d/0", len(gauge))
	}
	return gauge
}

func sizeError(text string) error {
	return refused(text, "an area such as 16 mm2, or a gauge with its system, AWG 6 or SAE 6 (not the same wire)")
}

// refused shows what was typed, or its beginning.
func refused(typed, want string) error {
	if len(typed) > 40 {
		typed = typed[:40] + "..."
	}
	return &working.InputError{Field: "size", Got: fmt.Sprintf("%q", typed), Want: want}
}

func listed(typed, text string) (Size, error) {
	s := Size{text}
	if _, ok := sizes()[s]; !ok {
		var names []string
		for _, one := range Sizes(s.System()) {
			names = append(names, one.text)
		}
		return Size{}, refused(typed, "one of "+strings.Join(names, ", "))
	}
	return s, nil
}

// String returns the size as it is written: "16 mm2".
func (s Size) String() string { return s.text }

// IsZero reports whether there is no size.
func (s Size) IsZero() bool { return s.text == "" }

// MarshalText writes the size as in [Size.String].
func (s Size) MarshalText() ([]byte, error) { return []byte(s.text), nil }

// UnmarshalText reads a size as [ParseSize] does, and the zero size back from
// empty text.
func (s *Size) UnmarshalText(text []byte) (err error) {
	if len(text) == 0 {
		*s = Size{}
		return nil
	}
	*s, err = ParseSize(string(text))
	return err
}

// System returns how the size is named.
func (s Size) System() System {
	switch {
	case strings.HasPrefix(s.text, string(AWG)):
		return AWG
	case strings.HasPrefix(s.text, string(SAE)):
		return SAE
	default:
		return Metric
	}
}

// Area returns the copper cross-section in mm²: the nominal area of a metric
// size, by the formula of ASTM B258 for AWG, the nominal construction for SAE.
func (s Size) Area() (working.Figure, error) {
	if f, ok := sizes()[s]; ok {
		return f, nil
	}
	return working.Figure{}, s.check()
}

// check refuses the zero size: every other is one that a table has.
func (s Size) check() error {
	if _, ok := sizes()[s]; ok {
		return nil
	}
	return notNamed{&working.InputError{Field: "size", Got: "unset", Want: "a conductor size such as 16 mm2 or AWG 6"}}
}

// Sizes returns the sizes of a system that a fitter is offered, least copper
// first: the metric ones are those of IEC 60228. A vehicle cable of ISO 6722-1
// in between, 3 mm2 or 5 mm2, can be named but is not offered.
func Sizes(system System) []Size {
	return slices.Clone(bySystem()[system])
}

// Next returns the next size up that is offered; ok is false at the end.
func (s Size) Next() (next Size, ok bool) {
	for _, one := range bySystem()[s.System()] {
		if sizes()[one].Value.GreaterThan(sizes()[s].Value) {
			return one, !s.IsZero()
		}
	}
	return Size{}, false
}

// Previous returns the next size down that is offered.
func (s Size) Previous() (previous Size, ok bool) {
	for _, one := range slices.Backward(bySystem()[s.System()]) {
		if sizes()[one].Value.LessThan(sizes()[s].Value) {
			return one, true
		}
	}
	return Size{}, false
}

// sizes ties every size to its area.
var sizes = sync.OnceValue(func() map[Size]working.Figure {
	m := map[Size]working.Figure{}
	add := func(s Size, from cite.Source) {
		if area, isMetric := strings.CutSuffix(s.text, " mm2"); isMetric {
			m[s] = working.Figure{Value: decimal.RequireFromString(area), Unit: "mm²", Source: from}
		}
	}
	for _, v := range vehicleCables() {
		add(v.size, v.figure.Source)
	}
	for _, c := range conductors() {
		add(c.size, c.figure.Source)
	}
	for _, g := range gauges() {
		m[g.size] = g.area
	}
	return m
})

// bySystem holds the sizes that are offered, least copper first.
var bySystem = sync.OnceValue(func() map[System][]Size {
	offered := map[Size]bool{}
	for _, c := range conductors() {
		offered[c.size] = true
	}
	m := map[System][]Size{}
	for s := range sizes() {
		if s.System() != Metric || offered[s] {
			m[s.System()] = append(m[s.System()], s)
		}
	}
	for _, all := range m {
		slices.SortFunc(all, func(a, b Size) int { return sizes()[a].Value.Cmp(sizes()[b].Value) })
	}
	return m
})
