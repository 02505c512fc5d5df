package inspect

import (
	"fmt"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/protect"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// unit is a load at a node or an inverter, as a thing that its supply can
// starve or destroy.
type unit struct {
	name, node, path            string
	leastV                      decimal.NullDecimal // that rule W04 holds it to
	worksFromV, worksToV, bearV decimal.NullDecimal
	code                        string
}

func (m *model) units() []unit {
	var all []unit
	for i, l := range m.job.Loads {
		if l.At != "" {
			all = append(all, unit{l.Name, l.At, indexed("loads", i), l.LeastV, l.WorksFromV, l.WorksToV, l.SurvivesV, l.SupplyCode})
		}
	}
	for i, v := range m.job.Inverters {
		all = append(all, unit{v.Name, v.Name, indexed("inverters", i), decimal.NewNullDecimal(v.CutOutV), v.WorksFromV, v.WorksToV, v.SurvivesV, v.SupplyCode})
	}
	return all
}

// indexed is the path of an entry of a list of the job file.
func indexed(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i) }

// suitsSupply compares the range of supply voltage of each unit that states one
// with the lowest voltage that reaches it and the highest in its part of the
// network.
func suitsSupply(m *model) ([]Finding, error) {
	var all []Finding
	for _, u := range m.units() {
		found, err := m.range_(u)
		if err != nil {
			return nil, working.In(u.path, err)
		}
		all = append(all, found...)
	}
	return all, nil
}
