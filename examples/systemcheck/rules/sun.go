package rules

import (
	"fmt"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofSun = []Rule{
	{
		ID: "C07", Title: "The modules' voltage in the cold",
		Danger:  "the controller is destroyed, and may pass the string's voltage to the battery",
		Why:     "open-circuit voltage rises in the cold",
		Sources: []string{"NFPA 70"},
		Grade:   Dangerous, Forbids: Charge, Rank: 270,
		Advice: "put fewer modules in series, or fit a controller for a higher voltage",
		Worse: []Growth{
			{"coldest_c", "-7"}, {"solar.in_series", "×2"}, {"solar.open_v", "×1.3"}, {"solar.controller_v", "÷1.4"},
		},
		Judge: coldString,
	},
	{
		ID: "P20", Also: []string{"P21", "P22"}, Title: "Strings in parallel are guarded",
		Danger:  "the other strings feed a faulty module until it burns",
		Why:     "from three strings on they can push more into one than its modules bear",
		Sources: []string{"NFPA 70"},
		Grade:   Dangerous, Rank: 320,
		Advice: "fit a device in each string, within the limit on the module's plate",
		AdviceFor: map[string]string{
			"P21": "fit a string device of the rating named",
			"P22": "fit a string device within the limit on the module's plate",
		},
		Worse: []Growth{
			{"solar.strings", "×2"},
		},
		Judge: stringDevices,
	},
	{
		ID: "C08", Title: "The bank holds through the month",
		Danger:  "the bank sinks from day to day until it is empty",
		Why:     "what the sources put back in their hours must cover a day's use, in the worst month too",
		Sources: []string{"Woodbridge 1935", "Kirchhoff's laws"},
		Grade:   WillNotServe, Rank: 600,
		Advice: useLess,
		Worse: []Growth{
			{"batteries.capacity_ah", "÷1.6"}, {"batteries.ageing_percent", "÷1.15"}, {"solar.losses_percent", "×2"},
			{"loads.power_w", "×1.6"}, {"loads.current_a", "×1.6"}, {"loads.hours_a_day", "×1.6"},
		},
		Judge:  holdsBalance,
		Advise: driveMore,
	},
}

// arrays runs one question over every solar array.
func arrays(m *facts.Facts, id string, ask func(s job.Solar) ([]working.Check, error)) ([]Finding, error) {
	if len(m.Job.Solar) == 0 {
		return []Finding{{Where: "the roof", Path: "solar", Check: working.Check{ID: id, Silent: "the job has no solar modules"}}}, nil
	}
	var all []Finding
	for i, s := range m.Job.Solar {
		path := fmt.Sprintf("solar[%d]", i)
		checks, err := ask(s)
		if err != nil {
			return nil, working.In(path, err)
		}
		for _, c := range checks {
			all = append(all, Finding{Check: c, Where: s.Name, Path: path})
		}
	}
	return all, nil
}

// coldString compares the voltage of a string on the coldest morning with what
// its controller bears.
func coldString(m *facts.Facts) ([]Finding, error) {
	return arrays(m, "C07", func(s job.Solar) ([]working.Check, error) {
		cold, err := facts.ModuleOf(s).ColdVoltage(decimal.NewNullDecimal(decimal.Min(m.OutsideC(), decimal.NewFromInt(25))), facts.Whole(s.InSeries))
		if err != nil {
			return nil, err
		}
		c, err := cold.CheckController(s.ControllerV)
		return []working.Check{c}, err
	})
}

// stringDevices asks whether strings in parallel need devices of their own, and
// whether those fitted suit the modules.
func stringDevices(m *facts.Facts) ([]Finding, error) {
	return arrays(m, "P20", func(s job.Solar) ([]working.Check, error) {
		return protect.SolarArray{
			Count: facts.Whole(s.Strings), ShortA: s.ShortA, ModuleFuseA: s.ModuleFuseA, FittedA: s.StringFuseA,
		}.Checks()
	})
}

// holdsBalance compares the lowest state of charge of the best and of the worst
// month with the floor that the design sets; nothing may be shed, and the last week
// must put back what it took.
func holdsBalance(m *facts.Facts) ([]Finding, error) {
	months, err := m.Ledgers()
	if err != nil {
		return nil, err
	}
	var all []Finding
	for _, month := range months {
		f := Finding{Where: "the house bank", Path: "states", Case: facts.Aged, Month: month.Month}
		if month.Name != "" {
			f.Where += ", " + month.Name
		}
		if f.Check, err = holds(m, month); err != nil {
			return nil, err
		}
		all = append(all, f)
	}
	return all, nil
}

func holds(m *facts.Facts, month facts.MonthLedger) (working.Check, error) {
	if month.Cold != "" {
		return working.Check{ID: "C08", Missing: month.Cold}, nil
	}
	c, err := month.Check(m.Floor())
	if err != nil || c.Verdict() == working.Fails {
		return c, err
	}
	week, err := month.CheckWeek()
	if err != nil || week.Verdict() == working.Fails {
		return week, err
	}
	return c, nil
}
