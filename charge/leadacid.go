package charge

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// LeadAcidCell is a cell of a lead-acid battery while it is charged.
type LeadAcidCell struct {
	TenHourAh  decimal.Decimal `json:"ten_hour_ah"` // of the battery that the cell is in; of one string of several in parallel
	CurrentA   decimal.Decimal `json:"current_a"`   // into that battery; 0 to 4000
	SoCPercent decimal.Decimal `json:"soc_percent"`
	BatteryC   decimal.Decimal `json:"battery_c"`
	From       working.Working `json:"from,omitempty"` // the lines that gave any of it
}

// ChargingVoltage is what a voltmeter shows at a cell under charge, and what it
// means.
type ChargingVoltage struct {
	CellV    decimal.Decimal `json:"charging_cell_v"`
	GassingV decimal.Decimal `json:"gassing_cell_v"` // from here on the cell gasses at that current
	FinalV   decimal.Decimal `json:"final_cell_v"`   // it rises no further at that current
	Gasses   bool            `json:"gasses"`
	Working  working.Working `json:"working"`
}

// Voltage returns a cell's voltage under charge by the model of CIEMAT:
//
//	U_cr = v_0 + v_1 s + I/C_10 × (v_2 ÷ (1 + I^v_3) + v_4 ÷ (1 − s)^v_5 + v_6) × (1 − v_T (T_b − 25))
//	U_cg = (g_0 + g_1 ln(1 + I/C_10)) × (1 − g_T (T_b − 25))
//	U_cf = (e_0 + e_1 ln(1 + I/C_10)) × (1 − e_T (T_b − 25))
//	U_ch = min(U_cr, U_cf)   [V], to 0.0001
//
// s is the state of charge as a share. The rising law is infinite at full charge;
// the final voltage, which the same model gives to a cell that gasses, bounds it.
// It also takes I in A inside a power, so that it knows batteries of one size from
// another at the same current by capacity: between 30 and 2000 Ah that is less than
// 0.1 V a cell at the ten-hour current, seen from 100 Ah, and outside it is an error.
// Of batteries in parallel each carries its share of the current. A 20-hour rating
// is some 8 % more than the ten-hour one.
//
// Current 0 to twice C_10 in an hour, state of charge 0 to 99.9 %, temperature -20
// to 50 °C. Source: Copetti, Lorenzo and Chenlo 1993; the bounds are ours.
func (c LeadAcidCell) Voltage() (ChargingVoltage, error) {
	if err := c.check(); err != nil {
		return ChargingVoltage{}, err
	}
	w := working.Start(c.From)
	size, i := w.Given("C_10", c.TenHourAh), w.Given("I", c.CurrentA)
	s, t := w.Given("s", c.SoCPercent), w.Given("T_b", c.BatteryC)
	law, err := newChargeLaw(&w, t)
	if err == nil {
		err = law.gassing(&w, t)
	}
	if err != nil {
		return ChargingVoltage{}, err
	}
	law.tenHourAh = size.InexactFloat64()
	amps, missing := i.InexactFloat64(), 1-s.InexactFloat64()/100
	var v ChargingVoltage
	var out exit
	rising := w.Calc("U_cr", "v_0 + v_1 × s ÷ 100 + I ÷ C_10 × (v_2 ÷ (1 + I ^ v_3) + v_4 ÷ (1 − s ÷ 100) ^ v_5 + v_6) × (1 − v_T × (T_b − 25))",
		out.fixed(law.rising(amps, missing, law.steepness(missing)), 4), copetti)
	v.GassingV = w.Calc("U_cg", "(g_0 + g_1 × ln(1 + I ÷ C_10)) × (1 − g_T × (T_b − 25))", out.fixed(law.ofCurrent(law.g0, law.g1, law.gassingWarmth, amps), 4), copetti)
	v.FinalV = w.Calc("U_cf", "(e_0 + e_1 × ln(1 + I ÷ C_10)) × (1 − e_T × (T_b − 25))", out.fixed(law.ofCurrent(law.e0, law.e1, law.finalWarmth, amps), 4), copetti)
	v.CellV = w.Calc("U_ch", "min(U_cr, U_cf)", least(rising, v.FinalV), copetti)
	v.Gasses = v.CellV.GreaterThanOrEqual(v.GassingV)
	v.Working = slices.Clip(w)
	return v, out.err
}

var copetti = cite.Copetti.At("charge voltage", cite.SecondHand)

// leastStringAh and greatestStringAh are the sizes between which the law's power of
// the current in A matters less than 0.1 V a cell.
const leastStringAh, greatestStringAh = 30, 2000

func (c LeadAcidCell) check() error {
	errs := []error{
		working.Between("ten_hour_ah", c.TenHourAh, leastStringAh, greatestStringAh), working.Between("current_a", c.CurrentA, 0, 2*greatestStringAh),
		working.Between("soc_percent", c.SoCPercent, 0, 100), working.Between("battery_c", c.BatteryC, -20, 50),
	}
	if c.SoCPercent.GreaterThan(fullest) {
		errs = append(errs, &working.InputError{Field: "soc_percent", Got: c.SoCPercent.String(), Want: "at most 99.9: the law has no end at full charge"})
	}
	if c.CurrentA.GreaterThan(c.TenHourAh.Mul(decimal.NewFromInt(2))) {
		errs = append(errs, &working.InputError{Field: "current_a", Got: c.CurrentA.String(), Want: "at most twice ten_hour_ah in an hour"})
	}
	return errors.Join(errs...)
}

var fullest = decimal.New(999, -1)

// chargeLaw is the voltage of a lead-acid battery under charge as the time loop
// sees it: of so many cells in series and strings in parallel.
type chargeLaw struct {
	v              [7]float64
	e0, e1, g0, g1 float64
	warmth         float64 // 1 − v_T × (T_b − 25), and so on
	finalWarmth    float64
	gassingWarmth  float64
	cells, strings float64
	tenHourAh      float64 // of a string
	ofAmps         power   // I^v_3
	ofMissing      power   // (1 − s)^−v_5
}

// newChargeLaw adds the lines of the law's constants.
func newChargeLaw(w *working.Working, t decimal.Decimal) (*chargeLaw, error) {
	l := &chargeLaw{cells: 1, strings: 1}
	const rising, final = "charge voltage per cell", "final charge voltage per cell"
	var ofRising, ofFinal float64
	into := []lawConstant{{rising, "cT", "v_T", &ofRising}, {final, "e0", "e_0", &l.e0}, {final, "e1", "e_1", &l.e1}, {final, "eT", "e_T", &ofFinal}}
	for i := range l.v {
		into = append(into, lawConstant{rising, fmt.Sprintf("c%d", i), fmt.Sprintf("v_%d", i), &l.v[i]})
	}
	if err := lookUp(w, into); err != nil {
		return nil, err
	}
	l.ofAmps, l.ofMissing = newPower(l.v[3]), newPower(-l.v[5])
	l.warmth, l.finalWarmth = warmth(ofRising, t), warmth(ofFinal, t)
	return l, nil
}

// gassing adds the lines of the constants of the gassing voltage.
func (l *chargeLaw) gassing(w *working.Working, t decimal.Decimal) error {
	const gassing = "gassing voltage per cell"
	var ofGassing float64
	err := lookUp(w, []lawConstant{{gassing, "g0", "g_0", &l.g0}, {gassing, "g1", "g_1", &l.g1}, {gassing, "gT", "g_T", &ofGassing}})
	l.gassingWarmth = warmth(ofGassing, t)
	return err
}

// lawConstant is a constant of the tables, its symbol and where its value goes.
type lawConstant struct {
	quantity, name, symbol string
	into                   *float64
}

func lookUp(w *working.Working, all []lawConstant) error {
	for _, c := range all {
		f, err := tables.LeadAcidConstant(c.quantity, c.name)
		if err != nil {
			return err
		}
		*c.into = w.LookUp(c.symbol, f).InexactFloat64()
	}
	return nil
}

func warmth(perC float64, t decimal.Decimal) float64 {
	return 1 - perC*t.Sub(roomC).InexactFloat64()
}

// steepness is v_4 ÷ (1 − s)^v_5, of the missing share 1 − s.
func (l *chargeLaw) steepness(missing float64) float64 { return l.v[4] * math.Pow(missing, -l.v[5]) }

// rising is U_cr of a string's current.
func (l *chargeLaw) rising(amps, missing, steepness float64) float64 {
	return l.v[0] + l.v[1]*(1-missing) + amps/l.tenHourAh*(l.v[2]/(1+math.Pow(amps, l.v[3]))+steepness+l.v[6])*l.warmth
}

// ofCurrent is U_cf or U_cg of a string's current.
func (l *chargeLaw) ofCurrent(still, moving, warmth, amps float64) float64 {
	return (still + moving*math.Log1p(amps/l.tenHourAh)) * warmth
}

// power is x^y of arguments of which each comes near the last: as far as a fiftieth
// from where it was worked out the binomial series serves, to 1e-9 of it.
type power struct {
	y, x, value float64
	series      [5]float64
}

func newPower(y float64) power {
	p := power{y: y}
	term := 1.0
	for i := range p.series {
		term *= (y - float64(i)) / float64(i+1)
		p.series[i] = term
	}
	return p
}

func (p *power) of(x float64) float64 {
	if x == 0 {
		return 0
	}
	d := (x - p.x) / p.x
	if !(math.Abs(d) < 0.02) {
		p.x, p.value, d = x, math.Pow(x, p.y), 0
	}
	c := &p.series
	return p.value * (1 + d*(c[0]+d*(c[1]+d*(c[2]+d*(c[3]+d*c[4])))))
}

// terminal is a voltage at the battery, and how it changes with an ampere and with
// an ampere-hour more.
type terminal struct{ volts, perA, perAh float64 }

// at is the voltage of the whole battery at a current into it, of which so much
// charge is missing.
func (l *chargeLaw) at(amps, missing, steepness float64) terminal {
	amps /= l.strings
	x, p := amps/l.tenHourAh, l.ofAmps.of(amps)
	bracket := l.v[2]/(1+p) + steepness + l.v[6]
	rising := l.v[0] + l.v[1]*(1-missing) + x*bracket*l.warmth
	perA := l.warmth / l.tenHourAh * (bracket - l.v[2]*l.v[3]*p/((1+p)*(1+p)))
	perShare := l.v[1] + x*l.warmth*l.v[5]*steepness/missing
	if rising >= l.e0*l.finalWarmth { // the final voltage is no less than that
		if highest := l.ofCurrent(l.e0, l.e1, l.finalWarmth, amps); rising >= highest {
			rising, perA, perShare = highest, l.finalWarmth*l.e1/(l.tenHourAh+amps), 0
		}
	}
	return terminal{l.cells * rising, l.cells * perA / l.strings, l.cells * perShare / (l.tenHourAh * l.strings)}
}

// chargeLaw adds the lines of the law that a lead-acid battery's voltage follows
// under charge; of other batteries there is none.
func (b BatteryOnCharge) chargeLaw(w *working.Working) (*chargeLaw, error) {
	if !b.Chemistry.Is(tables.LeadAcid) {
		return nil, nil
	}
	l, err := newChargeLaw(w, b.BatteryC)
	if err != nil {
		return nil, err
	}
	n, m := w.Given("n_c", count(b.Cells)), w.Given("n_par", count(b.Strings))
	l.cells, l.strings = n.InexactFloat64(), m.InexactFloat64()
	l.tenHourAh = w.Calc("C_10", "C ÷ n_par", b.CapacityAh.DivRound(m, 6), sums).InexactFloat64()
	return l, nil
}

// checkLeadAcid checks what the voltage of a lead-acid battery under charge needs.
func (b BatteryOnCharge) checkLeadAcid() error {
	if !b.Chemistry.Is(tables.LeadAcid) {
		return nil
	}
	err := errors.Join(working.Between("cells", count(b.Cells), 1, 400), working.Between("strings", count(b.Strings), 1, 1000))
	if err != nil || len(b.EMF) == 0 {
		return err
	}
	var errs []error
	strings := count(b.Strings)
	if c := b.CapacityAh; c.LessThan(strings.Mul(decimal.NewFromInt(leastStringAh))) || c.GreaterThan(strings.Mul(decimal.NewFromInt(greatestStringAh))) {
		errs = append(errs, &working.InputError{Field: "capacity_ah", Got: c.String(), Want: fmt.Sprintf("%d to %d Ah in each of the strings, within which the law of lead-acid's voltage holds", leastStringAh, greatestStringAh)})
	}
	low, high, err := b.window()
	charged := err == nil && !b.BatteryC.LessThan(low.Value) && !b.BatteryC.GreaterThan(high.Value)
	if charged && (b.BatteryC.LessThan(decimal.NewFromInt(-20)) || b.BatteryC.GreaterThan(decimal.NewFromInt(50))) {
		errs = append(errs, &working.InputError{Field: "battery_c", Got: b.BatteryC.String(), Want: "-20 to 50 °C, within which the law of lead-acid's voltage holds"})
	}
	full, n := b.EMF[len(b.EMF)-1].EMFV, count(b.Cells)
	if full.LessThan(n.Mul(leastRestV)) || full.GreaterThan(n.Mul(greatestRestV)) {
		errs = append(errs, &working.InputError{Field: "cells", Got: n.String(), Want: "cells that rest at 1.9 to 2.3 V each when full, not the " + full.String() + " V of emf together"})
	}
	return errors.Join(errs...)
}

// leastRestV and greatestRestV are what a lead-acid cell may rest at when full:
// anything else means that the cells were miscounted.
var leastRestV, greatestRestV = decimal.New(19, -1), decimal.New(23, -1)
