package facts

import (
	"slices"
	"strings"

	"example.org/extralow/examples/systemcheck/job"
)

// Bank is the batteries that cables join while each link between banks stands open,
// whatever the file calls them: what is called a starter battery and stands beside
// one of the house serves the house.
type Bank struct {
	Name      string
	part      int // of the network, with the links open
	House     bool
	Batteries []job.Battery
}

// findBanks finds them: that of the house first, the others as the file lists them.
// Batteries of the house are one bank, whatever switch parts them.
func (m *Facts) findBanks() []Bank {
	house := Bank{Name: "the house bank", House: true}
	own := map[int]bool{}
	for _, b := range m.Job.Batteries {
		if b.Bank == "house" {
			house.part = m.sides[b.Name]
			own[house.part] = true
		}
	}
	all := []Bank{house}
	for _, b := range m.Job.Batteries {
		part := m.sides[b.Name]
		i := slices.IndexFunc(all, func(k Bank) bool { return k.House && own[part] || !k.House && k.part == part })
		if i < 0 {
			i, all = len(all), append(all, Bank{part: part})
		}
		all[i].Batteries = append(all[i].Batteries, b)
	}
	for i := range all[1:] {
		all[i+1].Name = batteryNames(all[i+1].Batteries)
	}
	return all
}

func batteryNames(batteries []job.Battery) string {
	var all []string
	for _, b := range batteries {
		all = append(all, b.Name)
	}
	return strings.Join(all, " and ")
}

// House is the batteries of the house bank.
func (m *Facts) House() []job.Battery { return slices.Clone(m.Banks[0].Batteries) }

// IsHouse reports whether a node is a battery of the house bank.
func (m *Facts) IsHouse(node string) bool {
	return slices.ContainsFunc(m.Banks[0].Batteries, func(b job.Battery) bool { return b.Name == node })
}

// BankWith is the bank of a battery.
func (m *Facts) BankWith(battery string) Bank {
	return m.Banks[slices.IndexFunc(m.Banks, func(k Bank) bool {
		return slices.ContainsFunc(k.Batteries, func(b job.Battery) bool { return b.Name == battery })
	})]
}

// reachesBank reports whether what is at a node charges a bank: through a link too,
// unless that is usually open.
func (m *Facts) reachesBank(node string, k Bank) bool {
	return slices.ContainsFunc(k.Batteries, func(b job.Battery) bool { return m.Joined(node, b.Name) })
}

// drawsOn reports whether what is at a node draws on a bank: on that of the house
// through a link too, on another while the links are open.
func (m *Facts) drawsOn(k Bank, node string) bool {
	if k.House {
		return m.OfHouse(node)
	}
	return m.sides[node] == k.part
}

// Several are the banks of more than one battery.
func (m *Facts) Several() []Bank {
	return slices.DeleteFunc(slices.Clone(m.Banks), func(k Bank) bool { return len(k.Batteries) < 2 })
}

// Droppable are the batteries that others of their bank stand in for.
func (m *Facts) Droppable() []job.Battery {
	var all []job.Battery
	for _, k := range m.Several() {
		all = append(all, k.Batteries...)
	}
	return all
}

// at names a thing beside the bank that it is judged with; of the house bank that
// goes without saying.
func (k Bank) at(thing string) string {
	if k.House {
		return thing
	}
	return thing + " on " + k.Name
}
