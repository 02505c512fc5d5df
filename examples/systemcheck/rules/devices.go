package rules

import (
	"fmt"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofDevices = []Rule{
	{
		ID: "P07", Title: "A device guards the conductor",
		Danger:  "a short circuit burns the cable from end to end",
		Why:     "a conductor that a battery can feed has no limit to its fault current but a fuse",
		Sources: []string{"IEC 60364-4-43", "33 CFR 183"},
		Grade:   Dangerous, Rank: 20,
		Changes: Cables | Devices,
		Tries:   []Try{NewDevice},
		Worse: []Growth{
			{"circuits.device", "gone"}, {"circuits.far_device", "gone"},
		},
		Judge:  deviceDue,
		Advise: askLimit,
	},
	{
		ID: "P02", Title: "The device protects the conductor",
		Danger:  "an overload heats the cable past its insulation and no device opens",
		Why:     "a device rated above the cable makes the cable the fuse",
		Sources: []string{"IEC 60364-4-43"},
		Grade:   Dangerous, Rank: 40,
		Changes: Cables | Devices,
		OfSet:   true,
		Tries:   []Try{OtherRating, ThickerRun, LaidApart, OtherFamily},
		Worse: []Growth{
			{"circuits.size", "thinner"}, {"circuits.ambient_c", "+15"}, {"circuits.grouped", "×3"},
			{"circuits.terminal_c", "-15"}, {"circuits.insulation_c", "-10"}, {"circuits.device.rating_a", "×1.6"},
			{"circuits.far_device.rating_a", "×1.6"},
		},
		Judge:  protects,
		Reason: ofItsWindow,
	},
	{
		ID: "P04", Title: "The device can break the fault",
		Danger:  "the device arcs or bursts on a short circuit and the fault goes on",
		Why:     "a breaking capacity holds at a voltage and is the most that the device can interrupt",
		Sources: []string{"Kirchhoff's laws", "data sheet"},
		Grade:   Dangerous, Rank: 60,
		Changes: Cables | Devices, Slow: true,
		Tries:  []Try{OtherFamily},
		First:  "ask the maker for the breaking capacity at your voltage; failing that, ",
		Advice: "fit a family with a higher one (UL 248-15 class T breaks 20 kA at 125 V d.c.)",
		Worse: []Growth{
			{"circuits.device.breaks_a", "÷3"}, {"circuits.far_device.breaks_a", "÷3"},
			{"circuits.device.breaks_at_v", "÷2"}, {"batteries.low_milliohm", "÷3"}, {"batteries.full_v", "×1.1"},
		},
		Judge: breaks,
	},
	{
		ID: "P05", Title: "The device is rated for the voltage",
		Danger:  "it arcs and does not clear the fault",
		Why:     "a device for a lower voltage cannot put out the arc",
		Sources: []string{"data sheet"},
		Grade:   Dangerous, Rank: 80,
		Changes: Cables | Devices, Slow: true,
		Tries:  []Try{OtherFamily},
		Advice: "fit a device rated for the highest voltage of the circuit",
		Worse: []Growth{
			{"circuits.device.rated_v", "÷2"}, {"circuits.far_device.rated_v", "÷2"}, {"batteries.full_v", "×1.1"},
		},
		Judge: ratedVolts,
	},
	{
		ID: "P06", Title: "The device stands close to its source",
		Danger:  "the length before the device is unprotected",
		Why:     "what lies between source and device has no protection",
		Sources: []string{"33 CFR 183", "ABYC E-11", "common practice"},
		Grade:   Dangerous, Rank: 240,
		Changes: Cables | Devices,
		OfSet:   true,
		Advice:  "move the device nearer to its source, or sheathe the conductor where the rule gives more length for it",
		Worse: []Growth{
			{"circuits.device.along_mm", "×3"}, {"circuits.far_device.along_mm", "×3"},
		},
		Judge: closeEnough,
	},
	{
		ID: "P23", Title: "The device is within the cap for a small conductor",
		Danger:  "a thin conductor is left without the margin that the code wants",
		Why:     "some codes cap the device by the size, whatever the ampacity",
		Sources: []string{"common practice"},
		Grade:   WillNotServe, Rank: 260,
		Changes: Cables | Devices,
		OfSet:   true,
		Tries:   []Try{OtherRating, ThickerRun, LaidApart, OtherFamily},
		Advice:  "fit a device of that rating, or run a larger size",
		Judge:   withinCap,
	},
	{
		ID: "P01", Title: "The device carries its load",
		Danger:  "the device opens in normal use",
		Why:     "a device loaded near its rating ages and opens when it is warm",
		Sources: []string{"IEC 60364-4-43", "ISO 8820-2", "data sheet"},
		Grade:   WillNotServe, Rank: 420,
		RestsOn: Currents | Resistance,
		Changes: Cables | Devices,
		Tries:   []Try{OtherRating, ThickerRun, LaidApart, OtherFamily},
		Worse: []Growth{
			{"circuits.device.rating_a", "÷1.6"}, {"circuits.far_device.rating_a", "÷1.6"},
			{"circuits.device.ambient_percent", "÷1.4"}, {"chargers.max_a", "×1.6"},
			{"inverters.efficiency_percent", "÷1.15"}, {"loads.power_w", "×1.6"}, {"loads.current_a", "×1.6"},
			{"loads.longest_run_s", "×5"},
		},
		Judge:  carriesLoad,
		Reason: ofItsWindow,
	},
	{
		ID: "P03", Title: "The device opens in time on an overload",
		Danger:  "a lasting overload of up to half more than the ampacity is not cleared",
		Why:     "a device need not open at its rating, only at its conventional operating current",
		Sources: []string{"IEC 60364-4-43"},
		Grade:   Dangerous, Rank: 450,
		Changes: Cables | Devices,
		OfSet:   true,
		Tries:   []Try{OtherRating, ThickerRun, LaidApart, OtherFamily},
		Worse: []Growth{
			{"circuits.size", "thinner"},
		},
		Judge:  opensInTime,
		Reason: ofItsWindow,
	},
}

// deviceDue asks of each end that a source can feed whether a device guards the
// conductor there: one of its own, or what stands behind the end.
func deviceDue(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, e := range m.Ends() {
		back := m.Behind(e.Node, e.Run)
		if !back.Fed {
			continue
		}
		if e.Fitted == nil && !back.Unlimited && e.Unrated() {
			all = append(all, Finding{Check: working.Check{ID: "P07", Missing: noAmpacityText}, Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Run.Path, RuleSet: m.Set.Name})
			continue
		}
		due := protect.ConductorEnd{Fitted: e.Fitted != nil, Cranking: e.Cranking && m.Cranks(e.Run), AmpacityA: e.Carried(), From: e.Ampacity.Working}
		if !back.Unlimited {
			left, err := leftInFault(m, e, back)
			if err != nil {
				return nil, working.In(e.Run.Path, err)
			}
			due.LimitA = decimal.NewNullDecimal(left)
		}
		c, err := due.Check(m.PlaceRule(e))
		if err != nil {
			return nil, working.In(e.Run.Path, err)
		}
		all = append(all, Finding{Check: c, Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Run.Path, RuleSet: m.Set.Name})
	}
	return all, nil
}

// leftInFault is what goes on flowing into a run behind an end. What draws
// beyond a lead of a battery or a source takes no more than that carries, or there is
// nothing, and only a fault can overload it: in that a device in
// the path of another battery is as good as open where that battery's least fault opens it
// before the lead is hurt, and the sum of the others and of limited sources remains.
func leftInFault(m *facts.Facts, e facts.End, back facts.Backing) (decimal.Decimal, error) {
	if e.Fitted != nil || back.LimitA.LessThanOrEqual(e.Carried()) || m.OverloadedBeyond(e) || e.Nameless() {
		return back.LimitA, nil
	}
	left := back.OwnA
	for _, guard := range back.Guards {
		opens, err := opensFor(m, e, guard)
		if err != nil {
			return left, err
		}
		if !opens {
			left = left.Add(guard.Fitted.RatingA)
		}
	}
	return left, nil
}

// opensFor reports whether the least fault at the far end of a run opens a device behind
// it before the run is hurt. A check that does not apply shows nothing.
func opensFor(m *facts.Facts, e, guard facts.End) (bool, error) {
	f, _, err := m.OfBattery(e, guard)
	if err != nil || f.Cable.K.IsZero() {
		return false, err
	}
	checks, err := facts.Article(guard.Fitted).Clears(f)
	if err != nil {
		return false, err
	}
	opens := false
	for _, c := range checks {
		if v := c.Verdict(); v == working.Fails || v == working.CannotTell {
			return false, nil
		}
		opens = opens || c.Verdict() == working.Passes
	}
	return opens, nil
}

// noAmpacityText is of a run whose ampacity nobody can tell.
const noAmpacityText = "the rule set gives the conductor no ampacity: judge the job by one that does"

// windowChecks are the three checks of a window: that the device carries its load, that
// it protects the conductor as that holds overall, that it opens in time; and the
// second as the rule set has it by name, where that is the laxer.
type windowChecks struct {
	Checks []working.Check
	named  *working.Check
}

func JudgeWindow(f facts.DeviceWindow, ratingA decimal.Decimal) windowChecks {
	all := f.Window.Checks(ratingA)
	j := windowChecks{Checks: all[:3]}
	if len(all) > 3 {
		named := all[1]
		all[1], j.named = all[3], &named
	}
	if f.Bundled != nil {
		among := f.Bundled.Checks(ratingA)
		all[1] = among[1]
		if len(among) > 3 {
			all[1] = among[3]
		}
	}
	return j
}

// fitted runs one question over every end that has a device.
func fitted(m *facts.Facts, ask func(e facts.End) (working.Check, error)) ([]Finding, error) {
	var all []Finding
	for _, e := range m.Ends() {
		if e.Fitted == nil {
			continue
		}
		c, err := ask(e)
		if err != nil {
			return nil, err
		}
		all = append(all, Finding{Check: c, Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Path, RuleSet: m.Set.Name})
	}
	return all, nil
}

// ofWindow returns one of the three checks of the window: 0 it carries its
// load, 1 it protects the conductor, 2 it opens in time.
func ofWindow(m *facts.Facts, which int) ([]Finding, error) {
	return fitted(m, func(e facts.End) (working.Check, error) {
		f, err := m.Window(e)
		if err != nil {
			return working.Check{}, err
		}
		r := JudgeWindow(f, e.Fitted.RatingA)
		c := r.Checks[which]
		switch {
		case which == 2 && c.Verdict() == working.NotApplicable:
		case which > 0 && e.Unrated():
			c = working.Check{ID: c.ID, Missing: noAmpacityText}
		case which == 1 && e.Cables != nil:
			c = working.Check{ID: c.ID, Silent: parallelText}
		case which == 0 && !e.Unrated() && e.DesignA.GreaterThan(e.Carried()):
			c = working.Check{ID: c.ID, Silent: "the cable itself does not carry the load: see W01"}
		case which == 2 && r.Checks[1].Verdict() == working.Fails:
			c = working.Check{ID: c.ID, Silent: overratedText(e)}
		}
		return c, nil
	})
}

func carriesLoad(m *facts.Facts) ([]Finding, error) { return ofWindow(m, 0) }

// protects judges each device by the set's own rule, and overall where that is
// the laxer: what passes by name alone fails.
func protects(m *facts.Facts) ([]Finding, error) {
	all, err := ofWindow(m, 1)
	if err != nil {
		return nil, err
	}
	if of := m.Set.Device.OfAmpacity; of.Stated() && of.Value.LessThanOrEqual(facts.One) {
		return all, nil
	}
	for i := range all {
		all[i].RuleSet = tables.RuleSets()[0].Name // whose clause it is
		all[i].Where += ", overall"
	}
	named, err := fitted(m, func(e facts.End) (working.Check, error) {
		f, err := m.Window(e)
		switch {
		case err != nil:
			return working.Check{}, err
		case e.Unrated():
			return working.Check{ID: "P02", Missing: noAmpacityText}, nil
		case e.Cables != nil:
			return working.Check{ID: "P02", Silent: parallelText}, nil
		}
		return *JudgeWindow(f, e.Fitted.RatingA).named, nil
	})
	return append(named, all...), err
}

// opensInTime judges each device, and for a run without one those behind it.
func opensInTime(m *facts.Facts) ([]Finding, error) {
	all, err := ofWindow(m, 2)
	if err != nil || !m.Set.Device.OperatingCurrent.Stated() {
		return all, err
	}
	for _, e := range m.Ends() {
		back := m.Behind(e.Node, e.Run)
		if !e.Bare() || len(back.Guards) == 0 {
			continue
		}
		c, err := openedBehind(m, e, back)
		if err != nil {
			return nil, working.In(e.Run.Path, err)
		}
		all = append(all, Finding{Check: c, Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Run.Path, RuleSet: m.Set.Name})
	}
	return all, nil
}

// openedBehind asks so of the devices behind a run, and of what sources give that limit
// themselves.
func openedBehind(m *facts.Facts, e facts.End, back facts.Backing) (working.Check, error) {
	switch {
	case e.Unrated():
		return working.Check{ID: "P03", Missing: noAmpacityText}, nil
	case back.LimitA.GreaterThan(e.Carried()):
		return working.Check{ID: "P03", Silent: "no device protects it in the first place: see P07"}, nil
	}
	u := protect.Upstream{SourcesA: back.OwnA, AmpacityA: e.Carried(), SetName: m.Set.Name, From: e.Ampacity.Working}
	for _, g := range back.Guards {
		u.Devices = append(u.Devices, protect.UpstreamDevice{Name: g.Where(), Device: protect.Device{Family: g.Fitted.Family, RatingA: g.Fitted.RatingA}})
	}
	return u.Check(m.Set.Device)
}

// breaks compares each device's breaking capacity with the greatest fault that
// it may have to interrupt, fed from either side.
func breaks(m *facts.Facts) ([]Finding, error) { return breaking(m, 0) }

// ratedVolts compares its rated voltage with the highest at which the job works.
func ratedVolts(m *facts.Facts) ([]Finding, error) { return breaking(m, 1) }

func breaking(m *facts.Facts, which int) ([]Finding, error) {
	return fitted(m, func(e facts.End) (working.Check, error) {
		through, err := m.ThroughDevice(e)
		if err != nil {
			return working.Check{}, err
		}
		fault, _ := through.Value("I_k")
		duty := protect.BreakingDuty{
			GreatestFaultA: decimal.NewNullDecimal(fault), HighestV: m.HighestV(e.Node), Family: e.Fitted.Family, NoLithium: !m.Lithium(),
			BreaksA: e.Fitted.BreaksA, BreaksAtV: e.Fitted.BreaksAtV, RatedV: e.Fitted.RatedV,
			BackedUpA: m.BackedUp(e), BackedUpAtV: e.Fitted.BackedUpAtV, From: through,
		}
		checks, err := duty.Checks()
		if err != nil {
			return working.Check{}, working.In(e.Path, err)
		}
		if c := checks[which]; which > 0 || c.Verdict() != working.Fails {
			return c, nil
		}
		return atItsWord(m, e, duty, checks[0])
	})
}

// atItsWord keeps a device from failing by nothing but a multiple that stands for what
// nobody stated: the short circuit of a source that does not limit itself.
func atItsWord(m *facts.Facts, e facts.End, duty protect.BreakingDuty, fails working.Check) (working.Check, error) {
	name, assumed := m.Boundless(e.Node)
	known := duty.GreatestFaultA.Decimal.Sub(assumed)
	if name == "" || !known.IsPositive() {
		return fails, nil
	}
	duty.GreatestFaultA, duty.From = decimal.NewNullDecimal(known), nil
	checks, err := duty.Checks()
	if err != nil || checks[0].Verdict() == working.Fails {
		return fails, err
	}
	return working.Check{ID: fails.ID, Missing: "ask for the greatest short-circuit current of " + name + " and state short_a: it does not limit itself"}, nil
}

// closeEnough compares the length of conductor before each device with what the
// set allows, wherever that length bears less than what can reach it: no device
// stands behind it, or one too large for it.
func closeEnough(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for _, e := range m.Ends() {
		back := m.Behind(e.Node, e.Run)
		if e.Fitted == nil || !back.Unlimited && back.LimitA.LessThanOrEqual(e.Carried()) {
			continue
		}
		c, err := protect.Place{
			AlongMM: decimal.NewNullDecimal(e.Fitted.AlongMM), Sheathed: e.Sheathed, AtBattery: m.IsBattery(e.Node), SetName: m.Set.Name,
		}.Check(m.PlaceRule(e))
		if err != nil {
			return nil, working.In(e.Path, err)
		}
		all = append(all, Finding{Check: c, Where: e.Where(), Circuit: e.Name, Node: e.Node, Path: e.Path, RuleSet: m.Set.Name})
	}
	return all, nil
}

// withinCap compares each device with the cap that the rule set puts on a small
// conductor, whatever its ampacity.
func withinCap(m *facts.Facts) ([]Finding, error) {
	if len(m.Set.Device.BySize) == 0 {
		return notHere("P23", "the circuits", "circuits", fmt.Sprintf("%s caps no device by the size of its conductor at %s V", m.Set.Name, m.Job.SystemV)), nil
	}
	return fitted(m, func(e facts.End) (working.Check, error) {
		over, err := m.Overrated(e)
		if over || err != nil {
			return working.Check{ID: "P23", Silent: overratedText(e)}, err
		}
		c, err := protect.SmallWire{Size: e.Size, RatingA: e.Fitted.RatingA, SetName: m.Set.Name}.Check(m.Set.Device)
		return c, working.In(e.Path, err)
	})
}

// ofItsWindow is why a device has the window that it has, and whether no standard
// rating is inside it.
func ofItsWindow(m *facts.Facts, f Finding) (why string, empty bool) {
	for _, e := range m.Ends() {
		if e.Fitted == nil || e.Path != f.Path {
			continue
		}
		if r, err := m.Window(e); err == nil {
			return r.Window.Reason, len(r.Window.InsideA) == 0
		}
	}
	return "", false
}

// askLimit asks whether an alternator that drives a conductor without end limits
// itself.
func askLimit(m *facts.Facts, f Finding) string {
	source, _ := m.Boundless(f.Node)
	if source == "" {
		return ""
	}
	return "ask whether " + source + " limits itself, and state self_limiting; if it does not, fit a device at it"
}
