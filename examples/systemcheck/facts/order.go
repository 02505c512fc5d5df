package facts

import (
	"slices"

	"example.org/extralow/battery"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// StatesOf are the plain cases in which a load runs on the batteries alone and
// the voltage holds.
func (m *Facts) StatesOf(l job.Load) []Solved {
	return slices.DeleteFunc(slices.Clone(m.Cases), func(c Solved) bool {
		return !c.alone() || !slices.Contains(c.State.Loads, l.Name) || c.CollapsedAt() != ""
	})
}

// LostOnTheWay lays out what is lost between the nearest battery and a node;
// nothing where the node is its posts.
func (m *Facts) LostOnTheWay(c Solved, node string) (wire.PathDrop, error) {
	path := m.ToBattery(node, "")
	if len(path) == 0 {
		return wire.PathDrop{}, nil
	}
	return c.Along(path)
}

// Others are what draws on the bank of a load that must run and need not run as
// long. An inverter measures at its own terminals, and one that feeds a load
// that must run sheds nothing. Where the device of a load measures is not known:
// at the bank, which is strict.
func (m *Facts) Others(than job.Load, c Solved) ([]battery.ShedLoad, error) {
	var all []battery.ShedLoad
	for _, inv := range m.Job.Inverters {
		if !m.Joined(inv.Name, than.Node()) || m.feedsMustRun(inv.Name) {
			continue
		}
		laid, err := m.LostOnTheWay(c, inv.Name)
		if err != nil {
			return nil, err
		}
		all = append(all, battery.ShedLoad{Name: inv.Name, AtV: decimal.NewNullDecimal(inv.CutOutV), DropV: laid.DropV, From: laid.Working})
	}
	for _, l := range m.Job.Loads {
		if !l.MustRun && m.Joined(l.Node(), than.Node()) && (l.Inverter == "" || m.feedsMustRun(l.Inverter)) {
			all = append(all, battery.ShedLoad{Name: l.Name, AtV: l.ShedsV})
		}
	}
	return all, nil
}

func (m *Facts) feedsMustRun(inverter string) bool {
	return slices.ContainsFunc(m.Job.Loads, func(l job.Load) bool { return l.MustRun && l.Inverter == inverter })
}

func (m *Facts) Inverter(name string) (job.Inverter, bool) {
	i := slices.IndexFunc(m.Job.Inverters, func(inv job.Inverter) bool { return inv.Name == name })
	if i < 0 {
		return job.Inverter{}, false
	}
	return m.Job.Inverters[i], true
}
