// Package mend looks for what would make a failing job pass: the smallest change that
// cures a finding and makes no new one anywhere, tried on the whole job.
package mend

import (
	"cmp"
	"fmt"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// change is one alteration of a job that might make a finding pass.
type change struct {
	text  string
	run   string // the one in another size, whose devices are fitted anew if they must be; "": no conductor changes
	end   string // the path of the device that is another; "": no device is, to begin with
	apply func(*job.Job)
}

// Remedies returns the remedy of each finding that fails, "" for the others; as
// many are looked for at once as there are processors.
func Remedies(m *facts.Facts, findings []rules.Finding) []string {
	all := make([]string, len(findings))
	var next atomic.Int64
	var done sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		done.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(findings)); i = next.Add(1) - 1 {
				if findings[i].Verdict() == working.Fails {
					all[i] = remedy(m, findings[i], findings)
				}
			}
		})
	}
	done.Wait()
	return all
}

// remedy returns the smallest change that makes a finding pass without making
// a new one anywhere, in words; each change is tried by judging the job again.
func remedy(m *facts.Facts, f rules.Finding, before []rules.Finding) string {
	rule, _ := rules.Find(f.Rule)
	reason, hopeless := "", false
	if rule.Reason != nil {
		reason, hopeless = rule.Reason(m, f)
	}
	for _, c := range candidates(m, f, rule) {
		text, ok := cures(m, c, f, before)
		switch {
		case ok && hopeless:
			return reason + ". The smallest change: " + text
		case ok:
			return rule.First + text
		}
	}
	return cmp.Or(reason, rule.Advised(m, f), "no single change of this circuit cures it: plan it anew")
}

// cures tries a change on a copy of the job and returns it in words. A first
// look tells whether the finding stays; only where it does not, the trial is
// made whole and every rule asked that the change bears on.
func cures(m *facts.Facts, c change, f rules.Finding, before []rules.Finding) (text string, ok bool) {
	after, err := tried(m, c)
	if err != nil {
		return "", false
	}
	text = c.text
	if c.run != "" {
		refitted, err := refit(after, c.run)
		if err != nil {
			return "", false
		}
		text += refitted
	}
	if stays(after, f) {
		return "", false
	}
	wholly(after, m, c)
	for _, r := range quickFirst {
		if c.touches(r) && harms(after, r, f, before) {
			return "", false
		}
	}
	return text, true
}

// stays reports whether a finding still fails.
func stays(m *facts.Facts, f rules.Finding) bool {
	rule, _ := rules.Find(f.Rule)
	found, err := rules.Ask(m, rule)
	return err != nil || slices.ContainsFunc(found, func(now rules.Finding) bool { return sameFinding(now, f) && now.Verdict() == working.Fails })
}

// quickFirst are the rules that wiring bears on, those last that work the faults
// out: most changes that cure nothing show it before.
var quickFirst = func() []rules.Rule {
	wired := slices.DeleteFunc(rules.Rules(), func(r rules.Rule) bool { return r.Changes == 0 })
	slices.SortStableFunc(wired, func(a, b rules.Rule) int { return cost(a) - cost(b) })
	return wired
}()

func cost(r rules.Rule) int {
	if r.Slow {
		return 1
	}
	return 0
}

// harms reports whether a rule finds what is worse than before, or cannot be
// asked.
func harms(m *facts.Facts, r rules.Rule, cured rules.Finding, before []rules.Finding) bool {
	found, err := rules.Ask(m, r)
	return err != nil || slices.ContainsFunc(found, func(now rules.Finding) bool { return worse(now, cured, before) })
}

// touches reports whether the change can alter what a rule finds.
func (c change) touches(r rules.Rule) bool {
	return c.run != "" || r.Changes&rules.Devices != 0
}

// tried returns the facts of the job with a change, as far as a first look at a
// finding needs it: of the devices the one that is another.
func tried(m *facts.Facts, c change) (*facts.Facts, error) {
	after := *m
	after.Job.Circuits = slices.Clone(m.Job.Circuits)
	for i := range after.Job.Circuits {
		after.Job.Circuits[i].Device = cloned(after.Job.Circuits[i].Device)
		after.Job.Circuits[i].FarDevice = cloned(after.Job.Circuits[i].FarDevice)
	}
	c.apply(&after.Job)
	if c.run == "" {
		after.Refitted(c.end)
		return &after, nil
	}
	return &after, after.Relaid(c.run)
}

// wholly makes a trial of another device whole: it asks about every end that sees it,
// which has something else behind it than before.
func wholly(m *facts.Facts, before *facts.Facts, c change) {
	if c.run != "" {
		return
	}
	for i, r := range m.Runs {
		for _, e := range []facts.End{r.EndAt(r.From), r.EndAt(r.To)} {
			if m.Sees(e, c.end) && !m.Behind(e.Node, r).Same(before.Behind(e.Node, before.Runs[i]), c.end) {
				m.Only[e.Path] = true
			}
		}
	}
}

// worse reports whether a finding is the one to cure, still there, or one that
// was not there before.
func worse(f rules.Finding, cured rules.Finding, before []rules.Finding) bool {
	if v := f.Verdict(); v != working.Fails && v != working.CannotTell {
		return false
	}
	stood := slices.ContainsFunc(before, func(b rules.Finding) bool { return sameFinding(b, f) && b.Verdict() == f.Verdict() })
	return sameFinding(f, cured) || !stood
}

// refit gives the devices of a run that no longer suit it the best rating of
// their window, and says so.
func refit(m *facts.Facts, name string) (text string, err error) {
	for _, e := range m.Ends() {
		if e.Fitted == nil || e.Name != name {
			continue
		}
		r, err := m.Window(e)
		if err != nil {
			return "", err
		}
		unfit := slices.ContainsFunc(rules.JudgeWindow(r, e.Fitted.RatingA).Checks, func(c working.Check) bool { return c.Verdict() == working.Fails })
		if unfit && r.Window.BestA.Valid {
			e.Fitted.Refit(r.Window.BestA.Decimal)
			text += fmt.Sprintf(", with %s A at %s", e.Fitted.RatingA, e.Node)
			m.Rated(e.Path)
		}
	}
	return text, nil
}

func cloned(d *job.Device) *job.Device {
	if d == nil {
		return nil
	}
	c := *d
	return &c
}

// sameFinding reports whether two findings answer one rule about one thing.
func sameFinding(f rules.Finding, g rules.Finding) bool { return f.ID == g.ID && f.Where == g.Where }

// candidates lists changes worth trying, the smallest first.
func candidates(m *facts.Facts, f rules.Finding, rule rules.Rule) []change {
	if slices.Contains(rule.Untried, f.ID) {
		return nil
	}
	var all []change
	for _, try := range rule.Tries {
		all = append(all, kinds[try](m, f)...)
	}
	return all
}

// kinds holds what lists the changes of a kind.
var kinds = map[rules.Try]func(*facts.Facts, rules.Finding) []change{
	rules.OtherRating: otherRatings,
	rules.ThickerRun:  thickerRuns,
	rules.LaidApart:   laidApart,
	rules.OtherFamily: otherFamily,
	rules.NewDevice:   newDevices,
	rules.ThickerPath: thickerPath,
}

// otherRatings tries the ratings of the device's window, the smallest first.
func otherRatings(m *facts.Facts, f rules.Finding) []change {
	var all []change
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
			all = append(all, change{
				text:  text,
				end:   e.Path,
				apply: func(j *job.Job) { deviceIn(e, j).Refit(a) },
			})
		}
	}
	return all
}

// deviceIn finds the device of an end in a copy of the job.
func deviceIn(e facts.End, j *job.Job) *job.Device {
	c := in(e.Run, j)
	if e.Node == e.From {
		return c.Device
	}
	return c.FarDevice
}

// in finds the run in a copy of the job.
func in(r *facts.Run, j *job.Job) *job.Circuit {
	i := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.Name == r.Name })
	return &j.Circuits[i]
}

// mostSteps is how many sizes up a remedy looks.
const mostSteps = 6

// thickerRuns tries the next sizes up of the run that the finding is about.
func thickerRuns(m *facts.Facts, f rules.Finding) []change {
	for _, r := range m.Runs {
		if r.Name == f.Circuit {
			return thicker(r)
		}
	}
	return nil
}

func thicker(r *facts.Run) []change {
	var all []change
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

func resized(r *facts.Run, size tables.Size) change {
	return change{
		text:  fmt.Sprintf("run %s in %s in place of %s", r.Name, size, r.Size),
		run:   r.Name,
		apply: func(j *job.Job) { in(r, j).Size = size },
	}
}

// thickerPath tries the next sizes up of each run on the way to the load, the
// one that loses most first.
func thickerPath(m *facts.Facts, f rules.Finding) []change {
	runs := slices.Clone(m.Path(f.Node, m.IsBattery))
	slices.SortStableFunc(runs, func(a, b *facts.Run) int { return ownDrop(b).Cmp(ownDrop(a)) })
	var all []change
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
func newDevices(m *facts.Facts, f rules.Finding) []change {
	return ofClassT(m, "fit a device of %s A at %s, close to the source, in air of 25 °C at most (%s marked 125 V d.c., where it breaks 20 kA)",
		func(e facts.End) bool { return e.Name == f.Circuit && e.Node == f.Node })
}

// otherFamily tries class T in place of a device of another family.
func otherFamily(m *facts.Facts, f rules.Finding) []change {
	return ofClassT(m, "fit %s A at %s of another family (%s marked 125 V d.c., where it breaks 20 kA, in air of 25 °C at most)",
		func(e facts.End) bool { return e.Fitted != nil && e.Path == f.Path && e.Fitted.Family != classT })
}

func ofClassT(m *facts.Facts, text string, at func(e facts.End) bool) []change {
	ratings, err := tables.Ratings(classT)
	if err != nil {
		return nil
	}
	var all []change
	for _, e := range m.Ends() {
		if !at(e) {
			continue
		}
		for _, a := range ratings {
			if a.Value.LessThan(e.DesignA) || a.Value.GreaterThan(e.Carried()) {
				continue
			}
			all = append(all, change{
				text:  fmt.Sprintf(text, a.Value, e.Node, classT),
				end:   e.Path,
				apply: func(j *job.Job) { fit(e, j, a.Value) },
			})
		}
	}
	return all
}

// laidApart tries the run of the finding away from those that it lies with.
func laidApart(m *facts.Facts, f rules.Finding) []change {
	for _, r := range m.Runs {
		own := decimal.NewFromInt(int64(r.Count()))
		if r.Name == f.Circuit && r.Grouped.GreaterThan(own) {
			return []change{{
				text:  fmt.Sprintf("lay %s apart from the others (grouped %s in place of %s)", r.Name, own, r.Grouped),
				run:   r.Name,
				apply: func(j *job.Job) { in(r, j).Grouped = own },
			}}
		}
	}
	return nil
}

// fit puts a device at an end in a copy of the job.
func fit(e facts.End, j *job.Job, ratingA decimal.Decimal) {
	d := &job.Device{
		Family: classT, RatingA: ratingA, AmbientC: decimal.NewNullDecimal(decimal.NewFromInt(25)),
		BreaksA:   decimal.NewNullDecimal(decimal.NewFromInt(20_000)),
		BreaksAtV: decimal.NewNullDecimal(decimal.NewFromInt(125)),
		RatedV:    decimal.NewNullDecimal(decimal.NewFromInt(125)),
	}
	if e.Fitted != nil {
		d.AlongMM = e.Fitted.AlongMM
	}
	if c := in(e.Run, j); e.Node == e.From {
		c.Device = d
	} else {
		c.FarDevice = d
	}
}
