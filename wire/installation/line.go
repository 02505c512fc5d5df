package installation

import (
	"errors"
	"fmt"
	"math"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// line is a circuit in numbers.
type line struct {
	Circuit
	ampacities []wire.Ampacity // of each section, of the cables that share; none: see unrated
	unrated    error           // why the rules give it no ampacity
	stretches  []stretch
	rest       float64 // contacts and return, mΩ
	back       float64 // return alone, mΩ
	cables     float64 // side by side
	sharing    float64 // of these, that are counted on for current and volts
}

// stretch is a section in numbers.
type stretch struct {
	length             float64 // m, out and back
	ambient, rated     float64 // °C
	bears              float64 // °C, of the insulation: no cooler than the column that rated is of
	ampacity           float64 // A, of the cables that share, before terminals; 0: unknown
	listed, listedAt   float64 // resistance of the table in mΩ/m, and at what °C
	zero               float64 // °C of zero resistance, as a positive number
	inAmbient, inRated float64 // resistance of the whole stretch there, mΩ
	cold               float64 // and at 20 °C
}

var twenty = decimal.NewFromInt(20)

// lines turns the circuits into numbers, or says what is wrong with their cables.
func (in Installation) lines() ([]line, error) {
	all := make([]line, len(in.Circuits))
	var faults []error
	for i, c := range in.Circuits {
		var err error
		if all[i], err = c.line(in.Rule); err != nil {
			faults = append(faults, working.In(fmt.Sprintf("circuits[%d]", i), err))
		}
	}
	return all, errors.Join(faults...)
}

// line asks the rules what the circuit carries and the tables what it resists.
func (c Circuit) line(rule tables.AmpacityRule) (line, error) {
	l := line{Circuit: c, cables: float64(max(1, c.Cables)), sharing: 1, back: c.ReturnMilliohm.Decimal.InexactFloat64()}
	l.rest = l.back + c.JointsMilliohm.InexactFloat64()
	if !c.Unlike {
		l.sharing = l.cables
	}
	if len(c.Sections) == 0 {
		return l, nil
	}
	route, err := wire.Route{Sections: c.Sections}.Ampacity(rule)
	if len(working.Inputs(err)) > 0 {
		return l, errors.Join(err, c.checkGroups())
	}
	if l.unrated = err; err == nil {
		if err := l.share(route.Sections); err != nil {
			return l, errors.Join(err, c.checkGroups())
		}
	}
	faults := []error{c.checkGroups()}
	for i := range c.Sections {
		s, err := l.stretch(i)
		faults = append(faults, working.In(fmt.Sprintf("sections[%d].conductor", i), err))
		l.stretches = append(l.stretches, s)
	}
	return l, errors.Join(append(faults, l.checkShort())...)
}

// checkShort keeps what has next to no resistance from standing between two nodes.
func (l *line) checkShort() error {
	if least := leastMilliohm.InexactFloat64(); len(l.stretches) < len(l.Sections) || l.bolted() >= least {
		return nil
	}
	return &working.InputError{Field: "sections", Got: "so short that they have less than 0.001 mΩ", Want: "0.001 mΩ or more, or one node for both ends"}
}

// checkGroups wants each of the cables side by side counted.
func (c Circuit) checkGroups() error {
	return each("sections", c.Sections, func(s wire.Section) error {
		if s.Conductor.Grouped >= c.Cables {
			return nil
		}
		return &working.InputError{Field: "conductor.grouped", Got: fmt.Sprint(s.Conductor.Grouped), Want: "each of the cables side by side counted"}
	})
}

// share sets the ampacity of the cables that share the current.
func (l *line) share(of []wire.Ampacity) error {
	for _, a := range of {
		if l.sharing > 1 {
			var err error
			if a, err = a.InParallel(l.Cables); err != nil {
				return err
			}
		}
		l.ampacities = append(l.ampacities, a)
	}
	return nil
}

// stretch turns a section into numbers. One that the rules give no ampacity is as
// hot as its insulation bears, whatever flows.
func (l *line) stretch(i int) (stretch, error) {
	section := l.Sections[i]
	r, err := section.Conductor.Resistance(twenty)
	if errors.Is(err, tables.ErrNotListed) {
		return stretch{}, &working.InputError{Field: "size", Got: section.Conductor.Size.String(), Want: "a size of the table: " + err.Error()}
	}
	if err != nil {
		return stretch{}, err
	}
	value := func(symbol string) float64 {
		v, _ := r.Working.Value(symbol)
		return v.InexactFloat64()
	}
	s := stretch{length: 2 * section.LengthM.InexactFloat64(), listed: value("R_ref"), listedAt: value("T_ref"), zero: value("T_0"),
		rated: section.Conductor.InsulationC.InexactFloat64()}
	s.bears = s.rated
	if l.ReturnMilliohm.Valid {
		s.length /= 2
	}
	s.ambient = s.rated
	if l.ampacities != nil {
		a := l.ampacities[i]
		s.ambient, s.rated, s.ampacity = a.AmbientC.InexactFloat64(), a.InsulationC.InexactFloat64(), a.CableA.InexactFloat64()
	}
	s.inAmbient, s.inRated, s.cold = s.milliohm(s.ambient), s.milliohm(s.bears), s.milliohm(20)
	return s, nil
}

// hottest is as far as the resistance of copper is reckoned.
const hottest = 250

// milliohm is that of the stretch at a temperature, its resistance a metre to
// 0.0001 mΩ as the tables' is.
func (s stretch) milliohm(celsius float64) float64 {
	at := math.Min(celsius, hottest)
	return s.length * math.Round(s.listed*(s.zero+at)/(s.zero+s.listedAt)*1e4) / 1e4
}

// settles is the temperature that a steady current ends at, to 0.1 °C.
func (s stretch) settles(ampere float64) float64 {
	if s.ampacity == 0 {
		return s.rated
	}
	share := ampere / s.ampacity
	return math.Round((s.ambient+(s.rated-s.ambient)*share*share)*10) / 10
}

// loaded is the resistance with the stretches as hot as a current makes them.
func (l *line) loaded(ampere float64) float64 {
	return l.with(func(s stretch) float64 { return s.milliohm(s.settles(ampere)) })
}

func (l *line) atAmbient() float64 { return l.with(func(s stretch) float64 { return s.inAmbient }) }

// atRated is the resistance with the stretches as hot as their insulation bears.
func (l *line) atRated() float64 { return l.with(func(s stretch) float64 { return s.inRated }) }

// with adds contacts and return to the stretches.
func (l *line) with(milliohm func(stretch) float64) float64 {
	sum := 0.0
	for _, s := range l.stretches {
		sum += milliohm(s)
	}
	return sum/l.sharing + l.rest
}

// bolted is the least resistance: all cables at 20 °C, no contacts.
func (l *line) bolted() float64 {
	sum := 0.0
	for _, s := range l.stretches {
		sum += s.cold
	}
	return sum/l.cables + l.back
}
