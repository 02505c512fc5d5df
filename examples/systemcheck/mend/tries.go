package mend

import (
	"fmt"
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// candidates lists changes worth trying, the smallest first.
func candidates(m *facts.Facts, f rules.Finding, rule rules.Rule) []Change {
	if slices.Contains(rule.Untried, f.ID) {
		return nil
	}
	var all []Change
	for _, try := range rule.Tries {
		all = append(all, kinds[try](m, f)...)
	}
	return all
}

// kinds holds what lists the changes of a kind.
var kinds = map[rules.Try]func(*facts.Facts, rules.Finding) []Change{
	rules.OtherRating: otherRatings,
	rules.ThickerRun:  thickerRuns,
	rules.LaidApart:   laidApart,
	rules.OtherFamily: otherFamily,
	rules.NewDevice:   newDevices,
	rules.ThickerPath: thickerPath,
}

// otherRatings tries the ratings of the device's window, the smallest first.
func otherRatings(m *facts.Facts, f rules.Finding) []Change {
	var all []Change
	for _, e := range m.Ends() {
		if e.Fitted == nil || e.Path != f.Path {
			continue
		}
		r, err := m.Window(e)
		if err != nil {
			return nil
		}
		for _, a := range r.Window.InsideA {
			text := fmt.Sprintf("fit %s A in place of %s A (%s)", a, e.Fitted.RatingA, e.Fitted.Family)
			if e.Fitted.OwnCurve() {
				text = fmt.Sprintf("fit %s A with the curve of its standard (%s) in place of this article of %s A", a, e.Fitted.Family, e.Fitted.RatingA)
			}
			d := *e.Fitted
			d.Refit(a)
			all = append(all, Change{Text: text, Circuit: e.Name, Device: &d, Far: e.Node != e.From})
		}
	}
	return all
}

// mostSteps is how many sizes up a remedy looks.
const mostSteps = 6

// thickerRuns tries the next sizes up of the run that the finding is about.
func thickerRuns(m *facts.Facts, f rules.Finding) []Change {
	for _, r := range m.Runs {
		if r.Name == f.Circuit {
			return thicker(r)
		}
	}
	return nil
}

func thicker(r *facts.Run) []Change {
	var all []Change
	size := r.Size
	for range mostSteps {
		next, ok := size.Next()
		if !ok {
			break
		}
		size = next
		all = append(all, resized(r, size))
	}
	return all
}

func resized(r *facts.Run, size tables.Size) Change {
	return Change{Text: fmt.Sprintf("run %s in %s in place of %s", r.Name, size, r.Size), Circuit: r.Name, Size: size}
}

// thickerPath tries the next sizes up of each run on the way to the load, the
// one that loses most first.
func thickerPath(m *facts.Facts, f rules.Finding) []Change {
	runs := slices.Clone(m.Path(f.Node, m.IsBattery))
	slices.SortStableFunc(runs, func(a, b *facts.Run) int { return ownDrop(b).Cmp(ownDrop(a)) })
	var all []Change
	for _, r := range runs {
		all = append(all, thicker(r)...)
	}
	return all
}

// ownDrop is what a run loses at its design current.
func ownDrop(r *facts.Run) decimal.Decimal {
	return r.DesignA.Mul(r.HotMilliohm)
}

// classT is the family that a remedy proposes where the one fitted does not do, or
// none is fitted: quick, and with the highest breaking capacity of the tables.
const classT = "UL 248-15 T 300 V"

// newDevices tries class T at an end that has no device.
func newDevices(m *facts.Facts, f rules.Finding) []Change {
	return ofClassT(m, "fit a device of %s A at %s, close to the source, in air of 25 °C at most (%s marked 125 V d.c., where it breaks 20 kA)",
		func(e facts.End) bool { return e.Name == f.Circuit && e.Node == f.Node })
}

// otherFamily tries class T in place of a device of another family.
func otherFamily(m *facts.Facts, f rules.Finding) []Change {
	return ofClassT(m, "fit %s A at %s of another family (%s marked 125 V d.c., where it breaks 20 kA, in air of 25 °C at most)",
		func(e facts.End) bool { return e.Fitted != nil && e.Path == f.Path && e.Fitted.Family != classT })
}

func ofClassT(m *facts.Facts, text string, at func(e facts.End) bool) []Change {
	ratings, err := tables.Ratings(classT)
	if err != nil {
		return nil
	}
	var all []Change
	for _, e := range m.Ends() {
		if !at(e) {
			continue
		}
		for _, a := range ratings {
			if a.Value.LessThan(e.DesignA) || a.Value.GreaterThan(e.Carried()) {
				continue
			}
			all = append(all, Change{Text: fmt.Sprintf(text, a.Value, e.Node, classT), Circuit: e.Name, Device: marked125V(e, a.Value), Far: e.Node != e.From})
		}
	}
	return all
}

// laidApart tries the run of the finding away from those that it lies with.
func laidApart(m *facts.Facts, f rules.Finding) []Change {
	for _, r := range m.Runs {
		own := decimal.NewFromInt(int64(r.Count()))
		if r.Name == f.Circuit && r.Grouped.GreaterThan(own) {
			return []Change{{
				Text: fmt.Sprintf("lay %s apart from the others (grouped %s in place of %s)", r.Name, own, r.Grouped), Circuit: r.Name, Grouped: decimal.NewNullDecimal(own),
			}}
		}
	}
	return nil
}

// marked125V is a device of that family, where the one of an end stands.
func marked125V(e facts.End, ratingA decimal.Decimal) *job.Device {
	d := &job.Device{
		Family: classT, RatingA: ratingA, AmbientC: decimal.NewNullDecimal(decimal.NewFromInt(25)),
		BreaksA:   decimal.NewNullDecimal(decimal.NewFromInt(20_000)),
		BreaksAtV: decimal.NewNullDecimal(decimal.NewFromInt(125)),
		RatedV:    decimal.NewNullDecimal(decimal.NewFromInt(125)),
	}
	if e.Fitted != nil {
		d.AlongMM = e.Fitted.AlongMM
	}
	return d
}
