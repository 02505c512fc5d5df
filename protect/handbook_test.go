package protect_test

import (
	"testing"

	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"example.org/extralow/tables/working/workingtest"
	"github.com/shopspring/decimal"
)

// asks ties each question of testdata/handbook.csv to the function that answers
// it, in the book's own units.
var asks = workingtest.Asks{
	"Need.Window least": func(r workingtest.Row) (workingtest.Answers, error) {
		w, err := need(r.D("input_current"), d("1000")).Window(rulesOf("us-rv").Device, "NFPA 70 240.6(A)")
		return workingtest.Answer("ampacity_needed", w.LeastA, w.Working), err
	},
	"Need.Window best": func(r workingtest.Row) (workingtest.Answers, error) {
		rule := rulesOf("us-rv").Device
		rule.OfAmpacity = whole
		w, err := need(r.D("subarray_current"), r.D("ampacity")).Window(rule, "NFPA 70 240.6(A)")
		return workingtest.Answer("fuse", w.BestA.Decimal, w.Working), err
	},
	"Need.Window greatest": func(r workingtest.Row) (workingtest.Answers, error) {
		rule := tables.DeviceRule{OfAmpacity: working.Figure{Value: r.D("ratio"), Source: whole.Source}}
		w, err := need(d("1"), r.D("ampacity_105c")).Window(rule, "NFPA 70 240.6(A)")
		return workingtest.Answer("max_fuse", w.GreatestAllowedA.Decimal, w.Working), err
	},
	"Need.Window boat": func(r workingtest.Row) (workingtest.Answers, error) {
		w, err := need(d("1"), r.D("table5_ampacity")).Window(rulesOf("us-boat").Device, "NFPA 70 240.6(A)")
		if err != nil {
			return workingtest.Answers{}, err
		}
		largest := w.AllowedA[len(w.AllowedA)-1]
		return workingtest.Answer("max_rating", w.GreatestAllowedA.Decimal, w.Working).And("largest_standard_rating", largest), nil
	},
	"Need.Window k3": func(r workingtest.Row) (workingtest.Answers, error) {
		ampacity := d("1000")
		n := protect.Need{DesignA: d("1"), AmpacityA: ampacity, OperatingRatio: decimal.NewNullDecimal(r.D("fusing_factor"))}
		w, err := n.Window(tables.DeviceRule{OperatingCurrent: rulesOf("european").Device.OperatingCurrent}, "IEC 60269 gG")
		if err != nil {
			return workingtest.Answers{}, err
		}
		return workingtest.Answer("k3", ampacity.DivRound(w.GreatestAllowedA.Decimal, 6), w.Working), nil
	},
	"SolarArray.LeastRating": func(r workingtest.Row) (workingtest.Answers, error) {
		a, err := protect.SolarArray{Count: 1, ShortA: r.D("isc")}.LeastRating(1)
		return workingtest.Answer("continuous_current", a.LastingA, a.Working).And("device_current", a.LeastA), err
	},
	"SmallWire.Check": func(r workingtest.Row) (workingtest.Answers, error) {
		c, err := protect.SmallWire{Size: sizeOf("AWG " + r.Text("awg")), RatingA: d("10")}.Check(small("nec-small"))
		return workingtest.Answer("max_fuse", c.Limit, c.Working), err
	},
	"FaultArea": func(r workingtest.Row) (workingtest.Answers, error) {
		a, err := protect.FaultArea(r.D("fault_current"), r.D("time"), r.D("k"))
		return workingtest.Answer("min_area", a.AreaMM2, a.Working), err
	},
	"Place.Check": func(r workingtest.Row) (workingtest.Answers, error) {
		along := r.D("distance").Mul(d("25.4")) // the book's inches
		c, err := protect.Place{AlongMM: decimal.NewNullDecimal(along), Sheathed: r.Text("sheathed") == "1"}.Check(rulesOf("us-boat").Place)
		return workingtest.Answer("distance", c.Limit, c.Working), err
	},
	"ByCranking": func(r workingtest.Row) (workingtest.Answers, error) {
		c, err := protect.ByCranking(r.D("system_voltage"), r.D("total_cca"))
		return workingtest.Answer("main_aic", c.MainA, c.Working).And("branch_aic", c.BranchA), err
	},
	"Device.OpeningTime": func(r workingtest.Row) (workingtest.Answers, error) {
		o, err := device(r).OpeningTime(r.D("current"))
		a := workingtest.Answer("opening_max", o.GreatestS.Decimal, o.Working)
		return a.And("opening_min", o.LeastS.Decimal), err
	},
	"Device.ConventionalCurrents": func(r workingtest.Row) (workingtest.Answers, error) {
		c, err := device(r).ConventionalCurrents()
		a := workingtest.Answer("non_fusing_current", c.HoldsA.Decimal, c.Working).And("fusing_current", c.OpensA)
		a = a.And("non_tripping_current", c.HoldsA.Decimal).And("tripping_current", c.OpensA)
		return a.And("conventional_time", c.TimeS.Div(d("3600"))), err
	},
	"Device.ReleaseCurrents": func(r workingtest.Row) (workingtest.Answers, error) {
		c, err := device(r).ReleaseCurrents()
		return workingtest.Answer("no_trip_current", c.NoTripA, c.Working).And("trip_current", c.TripA), err
	},
	"Device.Carries": func(r workingtest.Row) (workingtest.Answers, error) {
		c, err := device(r).Carries(r.D("ambient"))
		return workingtest.Answer("permitted_current", c.CurrentA, c.Working), err
	},
	"Switch.Check": func(r workingtest.Row) (workingtest.Answers, error) {
		c, err := protect.Switch{
			SystemV: r.D("nominal_voltage"), CurrentA: r.D("continuous_current"), Load: r.Text("load"), RatingA: d("10"),
		}.Check()
		return workingtest.Answer("switch_rating", c.Demand, c.Working), err
	},
	"tables.AircraftProtector": func(r workingtest.Row) (workingtest.Answers, error) {
		size := sizeOf("AWG " + r.Text("wire_awg"))
		breaker, err := tables.AircraftProtector(size, "breaker")
		if err != nil {
			return workingtest.Answers{}, err
		}
		fuse, err := tables.AircraftProtector(size, "fuse")
		return workingtest.Answer("breaker", breaker.Value, nil).And("fuse", fuse.Value), err
	},
	"FaultHeating.Constant": func(r workingtest.Row) (workingtest.Answers, error) {
		k, err := protect.FaultHeating{Name: r.Text("conductor"), InitialC: decimal.NewNullDecimal(r.D("initial")), FinalC: r.D("final")}.Constant()
		return workingtest.Answer("k", k.K, k.Working), err
	},
	"Cable.Withstand": func(r workingtest.Row) (workingtest.Answers, error) {
		a, err := protect.Cable{K: r.D("k"), AreaMM2: r.D("area")}.Withstand(d("10000"))
		return workingtest.Answer("i2t_max", a.EnergyA2S, a.Working), err
	},
	"ConnectedUnit.Checks": func(r workingtest.Row) (workingtest.Answers, error) {
		checks, err := protect.ConnectedUnit{LeastSupplyV: some("11"), GreatestSupplyV: d("15"), Code: r.Text("code")}.Checks()
		if err != nil {
			return workingtest.Answers{}, err
		}
		return workingtest.Answer("u_s_min", checks[0].Demand, checks[0].Working).And("u_s_max", checks[1].Limit), nil
	},
	"SeriesPair.Selective": func(r workingtest.Row) (workingtest.Answers, error) {
		upper, lower := r.D("upstream"), r.D("downstream")
		holds, opens := gateAt(upper, "0.1", true), gateAt(lower, "0.1", false)
		c, err := protect.SeriesPair{
			Upper: protect.Device{Family: "IEC 60269 gG", RatingA: upper},
			Lower: protect.Device{Family: "IEC 60269 gG", RatingA: lower},
		}.Selective(opens)
		a := workingtest.Answer("imin_0p1s_upstream", holds, c.Working).And("imax_0p1s_downstream", opens)
		selective := "0" // not shown to be
		if c.Verdict() == working.Passes {
			selective = "1"
		}
		return a.AndText("selective", selective), err
	},
}

var whole = working.Figure{Value: d("1"), Source: cite.Arithmetic.At("", cite.Published)}

func need(designA, ampacityA decimal.Decimal) protect.Need {
	return protect.Need{DesignA: designA, AmpacityA: ampacityA}
}

func device(r workingtest.Row) protect.Device {
	return protect.Device{Family: r.Text("family"), RatingA: r.D("rating")}
}

// small is a rule that caps devices by the size of their conductor, and no more.
func small(code string) tables.DeviceRule {
	all, err := tables.SmallConductors(code)
	if err != nil {
		panic(err)
	}
	return tables.DeviceRule{BySize: all}
}

func rulesOf(key string) tables.RuleSet {
	r, err := tables.RuleSetOf(key)
	if err != nil {
		panic(err)
	}
	return r
}

func sizeOf(text string) tables.Size {
	s, err := tables.ParseSize(text)
	if err != nil {
		panic(err)
	}
	return s
}

// gateAt returns the current of the gG gate at a time, on one side.
func gateAt(ratingA decimal.Decimal, timeS string, least bool) decimal.Decimal {
	gates, err := tables.Gates("IEC 60269 gG", ratingA)
	if err != nil {
		panic(err)
	}
	for _, g := range gates {
		side := g.GreatestS
		if least {
			side = g.LeastS
		}
		if side.Valid && side.Decimal.Equal(d(timeS)) {
			return g.Current.Value
		}
	}
	return decimal.Decimal{}
}

func TestHandbook(t *testing.T) { workingtest.Handbook(t, asks, 27) }

// TestPages checks the arithmetic printed in the Examples.
func TestPages(t *testing.T) { workingtest.Pages(t) }
