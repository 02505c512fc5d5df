package inspect

import (
	"slices"
	"strings"

	"example.org/extralow/examples/systemcheck/job"
)

// bank is the batteries that cables join while each link between banks stands open,
// whatever the file calls them: what is called a starter battery and stands beside
// one of the house serves the house.
type bank struct {
	name      string
	part      int // of the network, with the links open
	house     bool
	batteries []job.Battery
}

// findBanks finds them: that of the house first, the others as the file lists them.
// Batteries of the house are one bank, whatever switch parts them.
func (m *model) findBanks() []bank {
	house := bank{name: "the house bank", house: true}
	own := map[int]bool{}
	for _, b := range m.job.Batteries {
		if b.Bank == "house" {
			house.part = m.sides[b.Name]
			own[house.part] = true
		}
	}
	all := []bank{house}
	for _, b := range m.job.Batteries {
		part := m.sides[b.Name]
		i := slices.IndexFunc(all, func(k bank) bool { return k.house && own[part] || !k.house && k.part == part })
		if i < 0 {
			i, all = len(all), append(all, bank{part: part})
		}
		all[i].batteries = append(all[i].batteries, b)
	}
	for i := range all[1:] {
		all[i+1].name = batteryNames(all[i+1].batteries)
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

// house is the batteries of the house bank.
func (m *model) house() []job.Battery { return slices.Clone(m.banks[0].batteries) }

// isHouse reports whether a node is a battery of the house bank.
func (m *model) isHouse(node string) bool {
	return slices.ContainsFunc(m.banks[0].batteries, func(b job.Battery) bool { return b.Name == node })
}

// bankWith is the bank of a battery.
func (m *model) bankWith(battery string) bank {
	return m.banks[slices.IndexFunc(m.banks, func(k bank) bool {
		return slices.ContainsFunc(k.batteries, func(b job.Battery) bool { return b.Name == battery })
	})]
}

// reachesBank reports whether what is at a node charges a bank: through a link too,
// unless that is usually open.
func (m *model) reachesBank(node string, k bank) bool {
	return slices.ContainsFunc(k.batteries, func(b job.Battery) bool { return m.joined(node, b.Name) })
}

// drawsOn reports whether what is at a node draws on a bank: on that of the house
// through a link too, on another while the links are open.
func (m *model) drawsOn(k bank, node string) bool {
	if k.house {
		return m.ofHouse(node)
	}
	return m.sides[node] == k.part
}

// several are the banks of more than one battery.
func (m *model) several() []bank {
	return slices.DeleteFunc(slices.Clone(m.banks), func(k bank) bool { return len(k.batteries) < 2 })
}

// at names a thing beside the bank that it is judged with; of the house bank that
// goes without saying.
func (k bank) at(thing string) string {
	if k.house {
		return thing
	}
	return thing + " on " + k.name
}
