package rules

import (
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofBay = []Rule{
	{
		ID: "B14", Also: []string{"B15", "B16"}, Title: "The axles bear the job",
		Danger:  "an overloaded axle: an offence, longer stopping, a burst tyre",
		Why:     "each axle and the whole have a limit of their own on the plate",
		Sources: []string{"law of moments"},
		Grade:   Dangerous, Forbids: Drive, Rank: 330,
		Advice: "move mass behind the front axle, or carry less",
		AdviceFor: map[string]string{
			"B15": "move mass forward of the rear axle, or carry less",
			"B16": "carry less, or have the vehicle plated for more by those who may",
		},
		Worse: []Growth{
			{"weights.front_limit_kg", "÷1.2"}, {"weights.rear_limit_kg", "÷1.2"}, {"weights.gross_limit_kg", "÷1.2"},
			{"weights.items.mass_kg", "×2"},
		},
		Judge: axles,
	},
	{
		ID: "B21", Title: "The front axle or coupling keeps its load",
		Danger:  "the front wheels hardly steer or brake; a trailer light on its coupling sways until it jack-knifes",
		Why:     "what stands behind the rear axle lifts the front; its maker or a code states the least",
		Sources: []string{"law of moments"},
		Grade:   Dangerous, Forbids: Drive, Rank: 340,
		Advice: "move mass forward, above all what stands behind the rear axle",
		Worse: []Growth{
			{"weights.front_least_kg", "×1.5"},
		},
		Judge: frontKeeps,
	},
	{
		ID: "B08", Title: "The bay lets its gas out",
		Danger:  "hydrogen gathers and a spark sets it off",
		Why:     "lead-acid cells give off hydrogen while they charge",
		Sources: []string{"IEC 62485-2"},
		Grade:   Dangerous, Forbids: Charge, Rank: 350,
		Advice: "enlarge both openings, the inlet low and the outlet high",
		Worse: []Growth{
			{"bay.opening_cm2", "÷4"},
		},
		Judge: vented,
	},
	{
		ID: "B13", Title: "The batteries stay where they are in a crash",
		Danger:  "a battery becomes a projectile",
		Why:     "the force on a fixing is mass times the acceleration that the approval body asks",
		Sources: []string{"law of moments"},
		Grade:   Dangerous, Forbids: Drive, Rank: 360,
		Advice: "use more or stronger fixings with plates under the floor; an engineer or an approved kit decides",
		Worse: []Growth{
			{"batteries.mass_kg", "×3"}, {"bay.fixing_n", "÷3"}, {"bay.gravities", "×1.5"}, {"bay.centre_mm", "×2"},
		},
		Judge: heldDown,
	},
	{
		ID: "B09", Title: "The bay stays as cool as its cables were judged at",
		Danger:  "cables and devices are hotter than their ratings were reckoned for",
		Why:     "what stands in a bay heats it, on the mean of a day and at full load",
		Sources: []string{"VDE 0660-500"},
		Grade:   Dangerous, Rank: 370,
		RestsOn: Currents | Resistance,
		Advice:  "move what makes heat out of the bay, open it to moving air, or judge the cables at the higher ambient",
		Worse: []Growth{
			{"bay.outside_c", "+6"}, {"circuits.in_bay_m", "×3"},
		},
		Judge: coolEnough,
	},
	{
		ID: "B10", Also: []string{"B11", "B12"}, Title: "The batteries fit their space",
		Danger:  "the lid does not close, a strap crosses the posts, a cable is bent too sharply",
		Why:     "the delivered case counts, with clearances and the bend of the cable, not the drawn one",
		Sources: []string{"arithmetic", "common practice"},
		Grade:   Minor, Rank: 620,
		Advice: "move a wall, turn the cases, or choose a smaller case",
		AdviceFor: map[string]string{
			"B11": "move a wall, turn the cases, or choose a smaller case",
			"B12": "raise the lid, or choose a lower case",
		},
		Worse: []Growth{
			{"batteries.length_mm", "×1.2"}, {"batteries.height_mm", "×1.2"}, {"bay.length_mm", "÷1.1"},
			{"bay.width_mm", "÷1.1"}, {"bay.height_mm", "÷1.1"},
		},
		Judge: fits,
	},
	{
		ID: "B07", Title: "The battery does not freeze",
		Danger:  "ice splits the cells, and acid runs out when they thaw",
		Why:     "the emptier a lead-acid battery, the nearer its acid is to water: judged at the least charge that the design lets it have",
		Sources: []string{"OD1002"},
		Grade:   Dangerous, Forbids: Charge, Rank: 630,
		Advice: "use less of the bank before it is charged again, or house it where it stays warmer",
		Worse: []Growth{
			{"coldest_c", "-7"},
		},
		Judge: freezes,
	},
}

// inBay runs one question of the bay; a job that describes none has no answer.
func inBay(m *facts.Facts, id string, ask func(b job.Bay) ([]working.Check, error)) ([]Finding, error) {
	where := Finding{Where: "the bay", Path: "bay"}
	if m.Job.Bay == nil {
		where.Check = working.Check{ID: id, Silent: "the job does not describe the bay"}
		return []Finding{where}, nil
	}
	checks, err := ask(*m.Job.Bay)
	if err != nil {
		return nil, working.In("bay", err)
	}
	var all []Finding
	for _, c := range checks {
		f := where
		f.Check = c
		all = append(all, f)
	}
	return all, nil
}

// undescribed asks for the bay where what is not known of it decides a danger.
func undescribed(id, with string) []Finding {
	return []Finding{{Where: "the bay", Path: "bay", Check: working.Check{ID: id, Missing: "measure the space in which the house batteries stand and describe it as bay, " + with}}}
}

// vented compares the opening of the bay with what the gas of all its batteries
// asks; lithium cells give off none in use.
func vented(m *facts.Facts) ([]Finding, error) {
	if m.AsksForVent() {
		return undescribed("B08", "with the free area of its smaller vent opening and the fixings that hold each of them in a crash: its batteries gas, flooded ones whenever they charge, sealed ones when they are overcharged"), nil
	}
	return inBay(m, "B08", func(b job.Bay) ([]working.Check, error) {
		gassing := slices.DeleteFunc(m.Standing(), func(x job.Battery) bool { return !x.Chemistry.Has(tables.Gasses) })
		switch {
		case len(gassing) == 0:
			return []working.Check{{ID: "B08", Silent: "lithium cells give off no gas in use"}}, nil
		case !b.OpeningCM2.Valid:
			return []working.Check{{ID: "B08", Missing: "measure the free area of the smaller vent opening, in cm2"}}, nil
		}
		c, err := m.GasOf(gassing).CheckOpening(b.OpeningCM2.Decimal)
		return []working.Check{c}, err
	})
}

// coolEnough compares the temperature in the bay with the ambient at which its
// cables were judged: with the mean of the duty, and with everything in it at
// full load.
func coolEnough(m *facts.Facts) ([]Finding, error) {
	return inBay(m, "B09", func(b job.Bay) ([]working.Check, error) {
		box := facts.BoxOf(b)
		full, mean, err := m.BayLoss(b)
		if err != nil {
			return nil, err
		}
		var all []working.Check
		for _, loss := range []working.Working{mean, full} {
			box.From = loss
			c, err := box.CheckTemperature(decimal.NewNullDecimal(loss[len(loss)-1].Value), decimal.NewNullDecimal(b.OutsideC), decimal.NewNullDecimal(m.JudgedAt(b)))
			if err != nil {
				return nil, err
			}
			all = append(all, c)
		}
		worst, _ := working.Strictest(all...)
		return all[worst : worst+1], nil
	})
}

// fits compares the measured space with what the cases want, axis by axis: every
// place as large as the largest case wants it, for any may stand there.
func fits(m *facts.Facts) ([]Finding, error) {
	return inBay(m, "B10", func(b job.Bay) ([]working.Check, error) {
		all := []working.Check{places(m, b)}
		var byAxis [3][]working.Check
		var unmeasured []string
		for _, x := range m.Standing() {
			if !x.LengthMM.Valid || !x.WidthMM.Valid || !x.HeightMM.Valid {
				unmeasured = append(unmeasured, x.Name)
				continue
			}
			f, err := facts.Fitting(x, b).Fit()
			if err != nil {
				return nil, err
			}
			for axis, c := range f.Checks {
				byAxis[axis] = append(byAxis[axis], c)
			}
		}
		for _, checks := range byAxis {
			if worst, ok := working.Strictest(checks...); ok {
				all = append(all, checks[worst])
			}
		}
		if len(unmeasured) > 0 {
			all = append(all, working.Check{ID: "B10", Missing: "measure the delivered case of " + strings.Join(unmeasured, ", ") + " over everything, with a rule: length, width, height with terminals"})
		}
		return all, nil
	})
}

// places compares the batteries in the bay with the places for them. A
// battery of several cases takes more than one.
func places(m *facts.Facts, b job.Bay) working.Check {
	var w working.Working
	w.Given("n_bt", decimal.NewFromInt(int64(len(m.Standing()))))
	along, across := w.Given("n_x", b.Along), w.Given("n_yr", b.Across)
	w.Calc("n_pl", "n_x × n_yr", along.Mul(across), facts.Sums)
	return w.Check("B10", "", "n_bt", "n_pl")
}

// heldDown compares the force on each fixing of the heaviest battery with what it
// bears.
func heldDown(m *facts.Facts) ([]Finding, error) {
	switch {
	case m.AsksForVent():
		return notHere("B13", "the bay", "bay", "the job does not describe the bay: see B08"), nil
	case m.Job.Bay == nil && m.Job.Craft != "boat":
		return undescribed("B13", "with the fixings that hold each of them in a crash"), nil
	}
	return inBay(m, "B13", func(b job.Bay) ([]working.Check, error) {
		var all, checks []working.Check
		var unweighed []string
		for _, x := range m.Standing() {
			if !x.MassKg.Valid {
				unweighed = append(unweighed, x.Name)
				continue
			}
			c, err := battery.HoldDown{
				MassKg: x.MassKg.Decimal, Times: b.Gravities, Fixings: int(b.Fixings.IntPart()),
				HeightMM: decimal.NewNullDecimal(b.CentreMM), SpacingMM: b.RowsMM, StrengthN: b.FixingN,
			}.Check()
			if err != nil {
				return nil, err
			}
			checks = append(checks, c)
		}
		if worst, ok := working.Strictest(checks...); ok {
			all = append(all, checks[worst])
		}
		if len(unweighed) > 0 {
			all = append(all, working.Check{ID: "B13", Missing: "weigh " + strings.Join(unweighed, ", ")})
		}
		return all, nil
	})
}

// axles compares each axle and the whole with the plate. A boat has none.
func axles(m *facts.Facts) ([]Finding, error) {
	all, err := onAxles(m, "B14", []string{"front axle", "rear axle", "gross mass"})
	if f, ok := unweighed(m); ok && err == nil {
		all = append(all, f)
	}
	return all, err
}

// unweighed finds house batteries that were neither on the scales nor are among
// the items: what is added weighs less than they do.
func unweighed(m *facts.Facts) (Finding, bool) {
	w := m.Job.Weights
	if w == nil || w.Weighed || m.Job.Craft == "boat" {
		return Finding{}, false
	}
	var items, bank decimal.Decimal
	for _, i := range w.Items {
		items = items.Add(i.MassKg)
	}
	for _, b := range m.House() {
		bank = bank.Add(b.MassKg.Decimal)
	}
	f := Finding{Where: "the house batteries", Path: "weights.items", Check: working.Check{ID: "B14", Missing: fmt.Sprintf(
		"the house batteries weigh %s kg and all items together %s kg: say with batteries_weighed that they were in it on the scales, or list them among the items", bank, items)}}
	return f, items.LessThan(bank)
}

// frontKeeps compares what is left on the front axle or coupling with the least
// that it must keep.
func frontKeeps(m *facts.Facts) ([]Finding, error) {
	return onAxles(m, "B21", []string{"front axle or coupling"})
}

// onAxles names the checks of the axles from the one of that id on.
func onAxles(m *facts.Facts, id string, where []string) ([]Finding, error) {
	f := Finding{Where: "the vehicle", Path: "weights"}
	switch {
	case m.Job.Craft == "boat":
		f.Check = working.Check{ID: id, Silent: "a boat has no axles"}
		return []Finding{f}, nil
	case m.Job.Weights == nil && id == "B14":
		f.Check = working.Check{ID: id, Missing: "weigh each axle, or axle and coupling, ready for the road (a public weighbridge), read the plate, and state weights"}
		return []Finding{f}, nil
	case m.Job.Weights == nil:
		f.Check = working.Check{ID: id, Silent: "the job states no weights: see B14"}
		return []Finding{f}, nil
	}
	loaded, err := facts.Vehicle(*m.Job.Weights).Axles()
	if err != nil {
		return nil, working.In(f.Path, err)
	}
	first := slices.IndexFunc(loaded.Checks, func(c working.Check) bool { return c.ID == id })
	var all []Finding
	for i, name := range where {
		all = append(all, Finding{Check: loaded.Checks[first+i], Where: name, Path: f.Path})
	}
	return all, nil
}

// freezes compares the freezing point of each lead-acid battery, at the depth that
// the design uses, with the coldest that it stands in. Sealed ones are judged as flooded ones, whose acid is the weaker.
func freezes(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	for i, b := range m.Job.Batteries {
		f := Finding{Where: b.Name, Path: fmt.Sprintf("batteries[%d]", i)}
		f.Check = working.Check{ID: "B07", Silent: "no acid in it"}
		if b.Chemistry.Has(tables.Freezes) {
			var err error
			left := decimal.NewFromInt(100).Sub(b.DepthPercent)
			if f.Check, err = battery.CheckFreezing(left, decimal.NewNullDecimal(m.StoodC(b))); err != nil {
				return nil, working.In(f.Path, err)
			}
		}
		all = append(all, f)
	}
	return all, nil
}
