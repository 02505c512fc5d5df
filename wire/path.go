package wire

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// PathRun is one run on a way from a source to a load.
type PathRun struct {
	Name string `json:"name"`
	Drop Drop   `json:"drop"` // at what it carries there, of all its loads
}

// PathDrop is what a whole way from a source to a load loses.
type PathDrop struct {
	DropV   decimal.Decimal `json:"path_drop_v"`
	Working working.Working `json:"working"`
}

// AlongPath adds up the drops of runs one behind the other:
//
//	ΔU_p = ΔU_1 + ΔU_2 + ...   [V]
//
// Each run has the current that it carries, which differs where loads branch off. A load
// at the posts of its source has no run before it and loses nothing. 0 to 100 runs, each a
// drop as a run gave it. Source: Kirchhoff's laws.
func AlongPath(runs []PathRun) (PathDrop, error) {
	faults := []error{working.Between("runs", decimal.NewFromInt(int64(len(runs))), 0, 100)}
	for i, r := range runs {
		faults = append(faults, working.In(fmt.Sprintf("runs[%d].drop", i), r.Drop.check()))
	}
	if err := errors.Join(faults...); err != nil {
		return PathDrop{}, err
	}
	lines := 2
	for _, r := range runs {
		lines += len(r.Drop.Working) + 2
	}
	w := make(working.Working, 0, lines)
	sum, terms := decimal.Zero, []string(nil)
	for i, r := range runs {
		w.Part(r.Name)
		w = append(w, r.Drop.Working...)
		own := fmt.Sprintf("ΔU.%d", i+1)
		sum = sum.Add(w.Calc(own, "ΔU", r.Drop.DropV, ohm))
		terms = append(terms, own)
	}
	if len(terms) == 0 {
		terms = []string{"0"}
	}
	w.Part("The whole path")
	w.Calc("ΔU_p", strings.Join(terms, " + "), sum, kirchhoff)
	return PathDrop{sum, slices.Clip(w)}, nil
}

// Check is check W02 as [Drop.Check], of the whole way.
func (d PathDrop) Check(limit working.Figure, systemV decimal.Decimal) (working.Check, error) {
	const id, title = "W02", "Voltage drop along the path"
	if !limit.Stated() {
		return working.Check{ID: id, Title: title, Silent: "the rule set states no drop for this"}, nil
	}
	if line, ok := d.Working.Value("ΔU_p"); !ok || !line.Equal(d.DropV) {
		return working.Check{}, &working.InputError{Field: "path_drop_v", Got: d.DropV.String() + ", without its lines", Want: "a drop with its working"}
	}
	w := working.Start(d.Working)
	if _, err := limitLine(&w, limit, systemV); err != nil {
		return working.Check{}, err
	}
	return w.Check(id, title, "ΔU_p", "ΔU_max"), nil
}
