package inspect

import (
	"fmt"
	"maps"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"example.org/extralow/examples/systemcheck/job"
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

// remedies returns the remedy of each finding that fails, "" for the others; as
// many are looked for at once as there are processors.
func (m *model) remedies(findings []Finding) []string {
	all := make([]string, len(findings))
	var next atomic.Int64
	var done sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		own := m.apart()
		done.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(findings)); i = next.Add(1) - 1 {
				if findings[i].Verdict() == working.Fails {
					all[i] = own.remedy(findings[i], findings)
				}
			}
		})
	}
	done.Wait()
	return all
}

// apart is the same model with a memory of its own.
func (m *model) apart() *model {
	own := *m
	own.faults, own.weakest, own.through = maps.Clone(m.faults), maps.Clone(m.weakest), maps.Clone(m.through)
	own.windows, own.backs = maps.Clone(m.windows), maps.Clone(m.backs)
	own.startVolts = maps.Clone(m.startVolts)
	own.ways, own.lines, own.meshes = maps.Clone(m.ways), maps.Clone(m.lines), maps.Clone(m.meshes)
	return &own
}

// remedy returns the smallest change that makes a finding pass without making
// a new one anywhere, in words; each change is tried by judging the job again.
func (m *model) remedy(f Finding, before []Finding) string {
	reason, empty := m.reason(f)
	for _, c := range m.candidates(f) {
		text, ok := m.cures(c, f, before)
		switch {
		case ok && empty:
			return reason + ". The smallest change: " + text
		case ok && f.ID == "P04":
			return askFirst + "failing that, " + text
		case ok:
			return text
		}
	}
	switch {
	case reason != "":
		return reason
	case f.ID == "P26":
		return m.prefill(f)
	case f.ID == "B03" && f.Where == "the house bank":
		return m.enlarge()
	case f.ID == "C08":
		return m.held(f)
	case f.ID == "C05" && strings.HasSuffix(f.Where, stopped):
		return "set sleep_v above the rested voltage of the battery that feeds it, or wake the converter by a signal that the engine runs"
	case f.ID == "P07" && m.boundless(f.at()) != "":
		return "ask whether " + m.boundless(f.at()) + " limits itself, and state self_limiting; if it does not, fit a device at it"
	case advice[f.ID] != "":
		return advice[f.ID]
	}
	return "no single change of this circuit cures it: plan it anew"
}

// at is the node of a finding about an end: "alternator" of "lead, at alternator".
func (f Finding) at() string {
	_, node, _ := strings.Cut(f.Where, ", at ")
	return node
}

// reason is why a device has the window that it has, and whether no standard
// rating is inside it; "" for a finding of another kind.
func (m *model) reason(f Finding) (reason string, empty bool) {
	if !slices.Contains([]string{"P01", "P02", "P03"}, f.ID) {
		return "", false
	}
	for _, e := range m.ends() {
		if e.device == nil || e.path != f.Path {
			continue
		}
		if r, err := m.window(e); err == nil {
			return r.window.Reason, len(r.window.InsideA) == 0
		}
	}
	return "", false
}

// prefill says what resistor keeps the current within what the contact bears.
func (m *model) prefill(f Finding) string {
	inv := m.job.Inverters[slices.IndexFunc(m.job.Inverters, func(v job.Inverter) bool { return v.Name == f.Where })]
	r, err := m.filling(inv, bears(m.weakestContact(inv.Name)))
	if err != nil {
		return "fill the input through a resistor before the contact closes, and state precharge_ohm"
	}
	return fmt.Sprintf("fill the input through a resistor before the contact closes, %s ohm or more; it takes %s J at each charge. State it as precharge_ohm",
		r.Ohm, r.EnergyJ.Round(2))
}

// cures tries a change on a copy of the job and returns it in words. A first
// look tells whether the finding stays; only where it does not, the trial is
// made whole and every rule asked that the change bears on.
func (m *model) cures(c change, f Finding, before []Finding) (text string, ok bool) {
	after, err := m.tried(c, f)
	if err != nil {
		return "", false
	}
	text = c.text
	if c.run != "" {
		refitted, err := after.refit(c.run)
		if err != nil {
			return "", false
		}
		text += refitted
	}
	if after.stays(f) || after.wholly(m, c) != nil {
		return "", false
	}
	for _, r := range quickFirst {
		if c.touches(r) && after.harms(r, f, before) {
			return "", false
		}
	}
	return text, true
}

// stays reports whether a finding still fails.
func (m *model) stays(f Finding) bool {
	found, err := m.judge(rules[f.Rank-1 : f.Rank])
	return err != nil || slices.ContainsFunc(found, func(now Finding) bool { return now.same(f) && now.Verdict() == working.Fails })
}

// quickFirst are the rules that wiring bears on, those last that work the faults
// out: most changes that cure nothing show it before.
var quickFirst = func() []rule {
	slow := func(r rule) int { return slices.Index([]string{"P26", "P04", "P05", "P09", "P13"}, r.id) }
	all := slices.Clone(wired)
	slices.SortStableFunc(all, func(a, b rule) int { return slow(a) - slow(b) })
	return all
}()

// harms reports whether a rule finds what is worse than before, or cannot be
// asked.
func (m *model) harms(r rule, cured Finding, before []Finding) bool {
	found, err := m.judge([]rule{r})
	return err != nil || slices.ContainsFunc(found, func(now Finding) bool { return now.worse(cured, before) })
}

// ofCables are the rules that another cable can change and another device
// cannot: they ask of currents and voltages.
var ofCables = []string{"P14", "P15", "P17", "P26", "W01", "W02", "W03", "W04", "W09", "B01", "B02", "B05", "B20", "B22", "C03", "C04", "C05", "C10", "C14"}

// touches reports whether the change can alter what a rule finds.
func (c change) touches(r rule) bool { return c.run != "" || !slices.Contains(ofCables, r.id) }

// tried returns the model of the job with a change, as far as a first look at a
// finding needs it: of the voltages those in the case in which it was at its
// worst (where it fails in that, it fails), of the devices the one that is
// another.
func (m *model) tried(c change, f Finding) (*model, error) {
	after := *m
	after.job.Circuits = slices.Clone(m.job.Circuits)
	for i := range after.job.Circuits {
		after.job.Circuits[i].Device = cloned(after.job.Circuits[i].Device)
		after.job.Circuits[i].FarDevice = cloned(after.job.Circuits[i].FarDevice)
	}
	c.apply(&after.job)
	if c.run == "" {
		after.refitted(c.end)
		return &after, nil
	}
	if err := after.relaid(c.run); err != nil {
		return nil, err
	}
	return &after, after.solveCases(func(s setting) bool { return s.name == f.Corner })
}

// relaid puts a run in another size and finds what each carries then.
func (m *model) relaid(name string) error {
	runs := make([]*run, len(m.runs))
	for i, r := range m.laid {
		r.Circuit = m.job.Circuits[i]
		if runs[i] = &r; r.Name != name {
			continue
		}
		var err error
		if runs[i], err = newRun(r.Circuit, m.set, r.path); err != nil {
			return err
		}
		runs[i].between = r.between
	}
	m.runs = runs
	return m.warm()
}

// refitted puts another device at an end, and asks about that end alone. The
// currents stay as they are.
func (m *model) refitted(at string) {
	runs := make([]*run, len(m.runs))
	for i, r := range m.runs {
		own := *r
		own.Circuit = m.job.Circuits[i]
		runs[i] = &own
	}
	m.runs = runs
	m.windows, m.backs = maps.Clone(m.windows), map[string]backing{}
	delete(m.windows, at)
	m.only = map[string]bool{at: true}
}

// wholly makes a trial whole: of another cable every case, of another device
// every end that sees it, which has something else behind it than before.
func (m *model) wholly(before *model, c change) error {
	if c.run != "" {
		return m.solveCases(everyCase)
	}
	for i, r := range m.runs {
		for _, e := range []end{r.endAt(r.From), r.endAt(r.To)} {
			if !m.behind(e.node, r).same(before.behind(e.node, before.runs[i]), c.end) {
				m.only[e.path] = true
			}
		}
	}
	return nil
}

// same reports whether two things that stand behind an end are alike and no
// device at a place is one of their guards.
func (b backing) same(c backing, place string) bool {
	return b.limitA.Equal(c.limitA) && b.ownA.Equal(c.ownA) &&
		b.unlimited == c.unlimited && b.fed == c.fed && b.battery == c.battery &&
		slices.EqualFunc(b.guards, c.guards, func(g, h end) bool { return g.path == h.path && g.path != place })
}

// worse reports whether a finding is the one to cure, still there, or one that
// was not there before.
func (f Finding) worse(cured Finding, before []Finding) bool {
	if v := f.Verdict(); v != working.Fails && v != working.CannotTell {
		return false
	}
	stood := slices.ContainsFunc(before, func(b Finding) bool { return b.same(f) && b.Verdict() == f.Verdict() })
	return f.same(cured) || !stood
}

// refit gives the devices of a run that no longer suit it the best rating of
// their window, and says so.
func (m *model) refit(name string) (text string, err error) {
	for _, e := range m.ends() {
		if e.device == nil || e.Name != name {
			continue
		}
		r, err := m.window(e)
		if err != nil {
			return "", err
		}
		unfit := slices.ContainsFunc(r.judge(e.device.RatingA).checks, func(c working.Check) bool { return c.Verdict() == working.Fails })
		if unfit && r.window.BestA.Valid {
			e.device.Refit(r.window.BestA.Decimal)
			text += fmt.Sprintf(", with %s A at %s", e.device.RatingA, e.node)
			delete(m.windows, e.path)
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

// same reports whether two findings answer one rule about one thing.
func (f Finding) same(g Finding) bool { return f.ID == g.ID && f.Where == g.Where }

// candidates lists changes worth trying, the smallest first.
func (m *model) candidates(f Finding) []change {
	switch f.ID {
	case "P12", "P13", "P27":
		return m.otherRatings(f)
	case "P01", "P02", "P03", "P08", "P09", "P11", "P23", "P24":
		return slices.Concat(m.otherRatings(f), m.thickerRuns(f), m.laidApart(f), m.otherFamily(f))
	case "P04", "P05":
		return m.otherFamily(f)
	case "P07":
		return m.newDevices(f)
	case "W01":
		return append(m.thickerRuns(f), m.laidApart(f)...)
	case "W03":
		return m.thickerRuns(f)
	case "W02", "W04", "B05", "C10":
		return m.thickerPath(f)
	default:
		return nil
	}
}

// otherRatings tries the ratings of the device's window, the smallest first.
func (m *model) otherRatings(f Finding) []change {
	var all []change
	for _, e := range m.ends() {
		if e.device == nil || e.path != f.Path {
			continue
		}
		r, err := m.window(e)
		if err != nil {
			return nil
		}
		for _, a := range r.window.InsideA {
			text := fmt.Sprintf("fit %s A in place of %s A (%s)", a, e.device.RatingA, e.device.Family)
			if e.device.OwnCurve() {
				text = fmt.Sprintf("fit %s A with the curve of its standard (%s) in place of this article of %s A", a, e.device.Family, e.device.RatingA)
			}
			all = append(all, change{
				text:  text,
				end:   e.path,
				apply: func(j *job.Job) { e.deviceIn(j).Refit(a) },
			})
		}
	}
	return all
}

// deviceIn finds the device of an end in a copy of the job.
func (e end) deviceIn(j *job.Job) *job.Device {
	c := e.in(j)
	if e.node == e.From {
		return c.Device
	}
	return c.FarDevice
}

// in finds the run in a copy of the job.
func (r *run) in(j *job.Job) *job.Circuit {
	i := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.Name == r.Name })
	return &j.Circuits[i]
}

// mostSteps is how many sizes up a remedy looks.
const mostSteps = 6

// thickerRuns tries the next sizes up of the run that the finding is about.
func (m *model) thickerRuns(f Finding) []change {
	for _, r := range m.runs {
		if strings.HasPrefix(f.Path, r.path) {
			return thicker(r)
		}
	}
	return nil
}

func thicker(r *run) []change {
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

func resized(r *run, size tables.Size) change {
	return change{
		text:  fmt.Sprintf("run %s in %s in place of %s", r.Name, size, r.Size),
		run:   r.Name,
		apply: func(j *job.Job) { r.in(j).Size = size },
	}
}

// thickerPath tries the next sizes up of each run on the way to the load, the
// one that loses most first.
func (m *model) thickerPath(f Finding) []change {
	runs := slices.Clone(m.path(m.nodeOf(f.Where), m.isBattery))
	slices.SortStableFunc(runs, func(a, b *run) int { return b.ownDrop().Cmp(a.ownDrop()) })
	var all []change
	for _, r := range runs {
		all = append(all, thicker(r)...)
	}
	return all
}

// ownDrop is what a run loses at its design current.
func (r *run) ownDrop() decimal.Decimal {
	return r.designA.Mul(r.hotMilliohm)
}

// nodeOf is the node of a thing named in a finding.
func (m *model) nodeOf(name string) string {
	for _, l := range m.job.Loads {
		if l.Name == name {
			return l.Node()
		}
	}
	for _, c := range m.job.Chargers {
		if strings.HasPrefix(name, c.Name+", input") {
			return c.FedAt
		}
		if strings.HasPrefix(name, c.Name) {
			return c.Name
		}
	}
	return name
}

// classT is the family that a remedy proposes where the one fitted does not do, or
// none is fitted: quick, and with the highest breaking capacity of the tables.
const classT = "UL 248-15 T 300 V"

// newDevices tries class T at an end that has no device.
func (m *model) newDevices(f Finding) []change {
	return m.ofClassT("fit a device of %s A at %s, close to the source, in air of 25 °C at most (%s marked 125 V d.c., where it breaks 20 kA)",
		func(e end) bool { return e.where() == f.Where })
}

// otherFamily tries class T in place of a device of another family.
func (m *model) otherFamily(f Finding) []change {
	return m.ofClassT("fit %s A at %s of another family (%s marked 125 V d.c., where it breaks 20 kA, in air of 25 °C at most)",
		func(e end) bool { return e.device != nil && e.path == f.Path && e.device.Family != classT })
}

func (m *model) ofClassT(text string, at func(e end) bool) []change {
	ratings, err := tables.Ratings(classT)
	if err != nil {
		return nil
	}
	var all []change
	for _, e := range m.ends() {
		if !at(e) {
			continue
		}
		for _, a := range ratings {
			if a.Value.LessThan(e.designA) || a.Value.GreaterThan(e.carried()) {
				continue
			}
			all = append(all, change{
				text:  fmt.Sprintf(text, a.Value, e.node, classT),
				end:   e.path,
				apply: func(j *job.Job) { e.fit(j, a.Value) },
			})
		}
	}
	return all
}

// laidApart tries the run of the finding away from those that it lies with.
func (m *model) laidApart(f Finding) []change {
	for _, r := range m.runs {
		own := decimal.NewFromInt(int64(r.count()))
		if strings.HasPrefix(f.Path, r.path) && r.Grouped.GreaterThan(own) {
			return []change{{
				text:  fmt.Sprintf("lay %s apart from the others (grouped %s in place of %s)", r.Name, own, r.Grouped),
				run:   r.Name,
				apply: func(j *job.Job) { r.in(j).Grouped = own },
			}}
		}
	}
	return nil
}

// fit puts a device at an end in a copy of the job.
func (e end) fit(j *job.Job, ratingA decimal.Decimal) {
	d := &job.Device{
		Family: classT, RatingA: ratingA, AmbientC: decimal.NewNullDecimal(decimal.NewFromInt(25)),
		BreaksA:   decimal.NewNullDecimal(decimal.NewFromInt(20_000)),
		BreaksAtV: decimal.NewNullDecimal(decimal.NewFromInt(125)),
		RatedV:    decimal.NewNullDecimal(decimal.NewFromInt(125)),
	}
	if e.device != nil {
		d.AlongMM = e.device.AlongMM
	}
	if c := e.in(j); e.node == e.From {
		c.Device = d
	} else {
		c.FarDevice = d
	}
}
