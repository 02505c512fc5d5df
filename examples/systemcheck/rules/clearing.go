package rules

import (
	"slices"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofClearing = []Rule{
	{
		ID: "P09", Also: []string{"P10", "P11"}, Title: "The device opens before the cable is hurt",
		Danger:  "the fault goes on while the cable burns",
		Why:     "the smallest fault, at the far end, is the one that a fuse takes longest to clear",
		Sources: []string{"IEC 60364-4-43", "IEC 60364-5-54", "IEC 60949"},
		Grade:   Dangerous, Rank: 90,
		RestsOn: Resistance,
		Changes: Cables | Devices, Slow: true,
		Tries:  []Try{OtherRating, ThickerRun, LaidApart, OtherFamily},
		Advice: "fit a faster or smaller device, or a thicker or shorter cable",
		AdviceFor: map[string]string{
			"P11": "fit a faster or smaller device, a fuse in place of the breaker, or a thicker cable",
		},
		Worse: []Growth{
			{"circuits.length_m", "×3.5"}, {"circuits.device.rating_a", "×1.6"},
			{"circuits.far_device.rating_a", "×1.6"}, {"circuits.device.opens_a", "×2"},
			{"circuits.device.opens_by_s", "×10"}, {"batteries.high_milliohm", "×3"},
		},
		Judge: clears,
	},
	{
		ID: "P08", Title: "The device rides through a start",
		Danger:  "the device opens, now or after some starts, when a motor starts",
		Why:     "a start draws several times the running current",
		Sources: []string{"data sheet"},
		Grade:   WillNotServe, Rank: 430,
		RestsOn: Currents,
		Changes: Cables | Devices,
		Tries:   []Try{OtherRating, ThickerRun, LaidApart, OtherFamily},
		Advice:  "fit a slower device, or a larger one with a thicker cable, or start the load unloaded",
		Worse: []Growth{
			{"circuits.device.rating_a", "÷1.6"}, {"loads.surge_w", "×2"}, {"loads.surge_s", "×10"},
		},
		Judge: ridesThrough,
	},
}

// clears asks of each device whether it opens, at the smallest fault at the far
// end of the run that it guards, before the cable is hurt; a breaker also at
// the largest.
func clears(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, e := range m.Ends() {
		back := m.Behind(e.Node, e.Run)
		if e.Bare() {
			c, corner, ok, err := clearedFor(m, e, back)
			if err != nil {
				return nil, working.In(e.Path, err)
			}
			if ok {
				all = append(all, Finding{Check: c, Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Run.Path, Case: corner})
			}
			continue
		}
		if e.Fitted == nil || !back.Fed {
			continue
		}
		if missing := unknownFault(m, e, back); missing != "" {
			all = append(all, Finding{Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Path, Check: working.Check{ID: "P09", Missing: missing}})
			continue
		}
		over, err := m.Overrated(e)
		if err != nil {
			return nil, err
		}
		if over {
			all = append(all, Finding{Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Path, Check: working.Check{ID: "P09", Silent: overratedText(e)}})
			continue
		}
		f, corner, err := m.FarFault(e, back)
		if err != nil {
			return nil, working.In(e.Path, err)
		}
		if f.Cable.K.IsZero() && !f.LimitedA.Valid {
			continue // no battery reaches this end but through the run itself
		}
		checks, err := facts.Article(e.Fitted).Clears(f)
		if err == nil {
			checks, err = orNamed(e, checks, func(e facts.End) ([]working.Check, error) {
				f, _, err := m.FarFault(e, back)
				if err != nil {
					return nil, err
				}
				return facts.Article(e.Fitted).Clears(f)
			})
		}
		if err != nil {
			return nil, working.In(e.Path, err)
		}
		for _, c := range checks {
			all = append(all, Finding{Check: c, Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Path, Case: corner})
		}
	}
	return all, nil
}

// orNamed adds to what cannot be told of a run whose insulation is not named what that
// name would do, where it would do.
func orNamed(e facts.End, checks []working.Check, again func(facts.End) ([]working.Check, error)) ([]working.Check, error) {
	named, ok := e.Named()
	if !ok || !slices.ContainsFunc(checks, untold) {
		return checks, nil
	}
	better, err := again(named)
	if err != nil || slices.ContainsFunc(better, func(c working.Check) bool { return c.Verdict() != working.Passes }) {
		return checks, err
	}
	for i := range checks {
		if untold(checks[i]) {
			checks[i].Missing = "ask what its insulation is made of, and state insulation: as " + named.Insulation + " it passes; or " + checks[i].Missing
		}
	}
	return checks, nil
}

func untold(c working.Check) bool { return c.Verdict() == working.CannotTell }

// overratedText refers to the rule that finds a rating above what its conductor
// bears.
func overratedText(e facts.End) string {
	if e.Cables != nil {
		return "its rating is too high in the first place: see P24"
	}
	return "its rating is too high in the first place: see P02"
}

// unknownFault says what is missing to judge a fault that no battery feeds.
func unknownFault(m *facts.Facts, e facts.End, back facts.Backing) string {
	switch {
	case back.Battery && e.Nameless():
		return namelessText
	case back.Battery:
		return ""
	case e.Unrated():
		return noAmpacityText
	}
	if source, _ := m.Boundless(e.Node); source != "" && back.LimitA.GreaterThan(e.Carried()) {
		return "ask the maker what current " + source + " drives into a short circuit, and state short_a: it does not limit itself"
	}
	return ""
}

const namelessText = "ask what the insulation is made of, and state insulation: one that hot may bear anything in a fault"

// clearedFor asks of a run without a device whether the one behind it opens
// before this run is hurt. It is not ok where none needs to.
func clearedFor(m *facts.Facts, e facts.End, back facts.Backing) (c working.Check, corner string, ok bool, err error) {
	switch len(back.Guards) {
	case 0:
		return c, "", false, nil
	case 1:
	default:
		missing := "several devices feed it together, and none sees the whole fault: fit one at " + e.Node
		return working.Check{ID: "P09", Missing: missing}, "", true, nil
	}
	if e.Nameless() {
		return working.Check{ID: "P09", Missing: namelessText}, "", true, nil
	}
	guard := back.Guards[0]
	if !m.Behind(guard.Node, guard.Run).Battery && !m.Behind(guard.Far, guard.Run).Battery {
		return c, "", false, nil
	}
	f, corner, err := m.OfBattery(e, guard)
	if err != nil || f.Cable.K.IsZero() {
		return c, corner, false, err
	}
	checks, err := facts.Article(guard.Fitted).Clears(f)
	if err == nil {
		checks, err = orNamed(e, checks, func(e facts.End) ([]working.Check, error) {
			f, _, err := m.OfBattery(e, guard)
			if err != nil {
				return nil, err
			}
			return facts.Article(guard.Fitted).Clears(f)
		})
	}
	if err != nil {
		return c, corner, false, err
	}
	i, ok := working.Strictest(checks...)
	if !ok {
		return checks[0], corner, true, nil
	}
	return checks[i], corner, true, nil
}

// ridesThrough asks of each device between a load that starts hard and every
// battery of its bank whether it stays closed meanwhile: each may be left alone
// with the start.
func ridesThrough(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, l := range m.Job.Loads {
		if !facts.StartsHard(l) {
			continue
		}
		bank := m.OwnBank(l.Node())
		for _, e := range m.Ends() {
			if e.Fitted == nil || !m.Between(e.Run, l.Node(), bank) {
				continue
			}
			c, err := surgeThrough(m, e, l)
			if err != nil {
				return nil, working.In(e.Path, err)
			}
			all = append(all, Finding{Check: c, Where: e.Where() + ", when " + l.Name + " starts", Circuit: e.Name, Node: e.Node, Path: e.Path})
		}
	}
	runs, err := holdsRuns(m)
	return append(all, runs...), err
}

// holdsRuns asks of each device that carries more while loads of short duty run than in
// the mean whether it stays closed for as long as the longest of them runs.
func holdsRuns(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, e := range m.Ends() {
		longest := m.ShortOn(e.Run)
		if e.Fitted == nil || !longest.IsPositive() || !e.Peak.A.GreaterThan(e.DesignA) {
			continue
		}
		var w working.Working
		w.Step("I_bf", e.Peak.A, cite.Kirchhoff.At("", cite.Published))
		c, err := facts.Article(e.Fitted).RidesThrough(protect.Surge{CurrentA: e.Peak.A, DurationS: longest, From: w})
		if err != nil {
			return nil, working.In(e.Path, err)
		}
		all = append(all, Finding{Check: c, Where: e.Where() + ", while short loads run", Circuit: e.Name, Node: e.Node, Path: e.Path, Case: e.Peak.In})
	}
	return all, nil
}

// surgeThrough judges one device while one load starts on top of the run's
// design current.
func surgeThrough(m *facts.Facts, e facts.End, l job.Load) (working.Check, error) {
	if l.Cranking {
		l.SurgeS = decimal.NewNullDecimal(facts.CranksFor())
	}
	if !l.SurgeS.Valid {
		return working.Check{ID: "P08", Missing: "ask how many seconds " + l.Name + " takes to start, or time it with a clamp meter that holds the peak"}, nil
	}
	w, ok := m.Starting(e.Run, l)
	if !ok {
		return working.Check{ID: "P08", Silent: "no state runs it"}, nil
	}
	surge, _ := w.Value("I_sg")
	return facts.Article(e.Fitted).RidesThrough(protect.Surge{CurrentA: surge, DurationS: l.SurgeS.Decimal, From: w})
}
