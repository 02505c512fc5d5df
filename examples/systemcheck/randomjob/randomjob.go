// Package randomjob makes small job files at random, each sound by its making:
// sizes, ratings and limits stand well on the safe side of what is asked of
// them. Tests spoil them and see whether it is noticed.
package randomjob

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// Text returns the job file of a seed: always the same one, of three to
// twelve circuits, in YAML.
func Text(seed uint64) []byte {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, 1))}
	m.choose()
	return []byte(m.head() + m.batteries() + m.sources() + m.consumers() + m.circuits() + m.states() + m.end())
}

// maker is one job in the making.
type maker struct {
	*rand.Rand
	system
	craft     string
	lithium   bool
	count     int // batteries of the house bank
	engine    bool
	sun       bool
	inverterW int // 0: none
	loads     []load
	feedA     int // rating of the panel's feed
	leadA     int // and of a battery's lead
	inverterA int // and of the inverter's feed
}

// system is what depends on the voltage and on the system of sizes.
type system struct {
	volts   int
	per12   int // volts of a 12 V system to one of this
	gauge   bool
	cables  []cable
	routing string
}

// cable is a size and the greatest device that it is used under: well below its
// ampacity where it lies.
type cable struct {
	mostA int
	size  string
}

var (
	metric = []cable{{5, "2.5 mm2"}, {10, "4 mm2"}, {15, "6 mm2"}, {25, "10 mm2"}, {40, "16 mm2"}, {60, "25 mm2"}, {80, "35 mm2"}, {125, "70 mm2"}, {175, "95 mm2"}, {250, "150 mm2"}}
	gauges = []cable{{5, "AWG 12"}, {10, "AWG 10"}, {15, "AWG 10"}, {25, "AWG 8"}, {40, "AWG 6"}, {60, "AWG 4"}, {80, "AWG 2"}, {125, "AWG 2/0"}, {175, "AWG 3/0"}, {250, "AWG 4/0"}}
)

// load is something that draws current from the panel.
type load struct {
	name    string
	amperes float64 // at 12 V
	hours   int
	percent int
	words   string // further keys
}

var palette = []load{
	{"fridge", 4.5, 20, 40, "surge_w: 110, surge_s: 0.4, least_v: %d.0, critical: true"},
	{"lamps", 3, 5, 100, "least_v: %d.2, critical: false"},
	{"fan", 2, 6, 80, "least_v: %d.2, critical: false"},
	{"pump", 5, 1, 50, "surge_w: 150, surge_s: 0.3, least_v: %d.2, longest_run_s: 120, critical: false"},
	{"radio", 1.5, 6, 60, "least_v: %d.2, critical: true"},
	{"instruments", 1, 8, 100, "least_v: %d.2, critical: false"},
}

// choose settles what the job has.
func (m *maker) choose() {
	m.volts = 12 * (1 + m.IntN(2))
	m.per12 = m.volts / 12
	m.craft = []string{"vehicle", "trailer", "boat"}[m.IntN(3)]
	m.cables, m.routing = metric, "insulation_c: 90, insulation: EPR or XLPE 90 C, method: C, ambient_c: 35"
	if m.craft == "boat" {
		m.gauge, m.cables, m.routing = true, gauges, "insulation_c: 105, method: F, ambient_c: 35"
	}
	m.lithium = m.IntN(2) == 0
	m.count = 1 + m.IntN(2)
	m.sun, m.engine = m.IntN(3) == 0, m.craft != "trailer" && m.IntN(2) == 0
	if m.IntN(3) == 0 {
		m.inverterW = 200 + 50*m.IntN(5)
	}
	for _, i := range m.Perm(len(palette))[:1+m.IntN(3)] {
		m.loads = append(m.loads, palette[i])
	}
	m.rate()
}

// rate chooses the devices upstream: each bears its loads with room to spare, and
// is at least twice the one behind it.
func (m *maker) rate() {
	sum := 0.0
	for _, l := range m.loads {
		sum += 1.3 * l.amperes / float64(m.per12)
	}
	m.feedA = next(max(30, int(sum/0.7)))
	if m.bus() == "panel" {
		m.feedA = 60 // the chargers' currents pass it too
	}
	m.inverterA = next(int(float64(m.inverterW) / 0.85 / float64(10*m.per12) / 0.7))
	m.leadA = next(max(2*m.feedA, 2*m.inverterA))
}

// next is the least rating of the standard that is no smaller.
func next(a int) int {
	for _, r := range []int{30, 40, 50, 60, 80, 100, 125, 150, 175, 200, 225, 250, 300} {
		if r >= a {
			return r
		}
	}
	return 400
}

// size is the cable that is used under a device.
func (m *maker) size(deviceA int) string {
	for _, c := range m.cables {
		if deviceA <= c.mostA {
			return c.size
		}
	}
	return m.cables[len(m.cables)-1].size
}

func (m *maker) head() string {
	rules := "european"
	if m.craft == "boat" {
		rules = "us-voluntary-craft"
	}
	return fmt.Sprintf("job: Random job\nsystem_v: %d\nrules: %s\ncraft: %s\ncoldest_c: %d\nbank_c: 15\n", m.volts, rules, m.craft, -8+m.IntN(12))
}

// dayWh is what the loads take in a day, generously.
func (m *maker) dayWh() float64 {
	sum := 1.2 * float64(m.inverterW)
	for _, l := range m.loads {
		sum += 14 * l.amperes * float64(l.hours*l.percent) / 100
	}
	return sum
}

// capacityAh makes the bank three times as large as a day asks.
func (m *maker) capacityAh() int {
	usable := 0.64
	if !m.lithium {
		usable = 0.4
	}
	ah := 3 * m.dayWh() / usable / float64(m.volts*m.count)
	return max(120, 10*int(ah/10+1))
}

// massKg is little for what a battery of the bank holds: 70 Wh/kg of lead-acid,
// 150 Wh/kg of lithium iron phosphate.
func (m *maker) massKg() int {
	whPerKg := 70
	if m.lithium {
		whPerKg = 150
	}
	return m.volts*m.capacityAh()/whPerKg + 1
}

func (m *maker) batteries() string {
	kind := "chemistry: LiFePO4, nominal_v: %.1f, rated_h: 5, full_v: %.1f, empty_v: %.1f, depth_percent: 80, cut_out_v: %.1f, least_charge_c: 0, cold_guard: true"
	volts := []any{12.8 * float64(m.per12), 13.4 * float64(m.per12), 12.9 * float64(m.per12), 9.6 * float64(m.per12)}
	if !m.lithium {
		kind = "chemistry: lead-acid AGM, nominal_v: %.0f, rated_h: 20, full_v: %.1f, empty_v: %.1f, depth_percent: 50"
		volts = []any{float64(m.volts), 12.8 * float64(m.per12), 12.2 * float64(m.per12)}
	}
	var b strings.Builder
	b.WriteString("batteries:\n")
	for i := range m.count {
		fmt.Fprintf(&b, "  - {name: battery %d, bank: house, %s, capacity_ah: %d, low_milliohm: %d, high_milliohm: %d, ageing_percent: 80, max_discharge_a: 300, max_charge_a: 100, length_mm: 330, width_mm: 172, height_mm: 220, mass_kg: %d}\n",
			i+1, fmt.Sprintf(kind, volts...), m.capacityAh(), 3*m.per12, 6*m.per12, m.massKg())
	}
	if m.engine {
		fmt.Fprintf(&b, "  - {name: starter battery, bank: starter, chemistry: lead-acid flooded, nominal_v: %d, capacity_ah: 100, rated_h: 20, low_milliohm: %d, high_milliohm: %d, full_v: %.1f, empty_v: %.1f, depth_percent: 30, ageing_percent: 80}\n",
			m.volts, 4*m.per12, 8*m.per12, 12.7*float64(m.per12), 12.3*float64(m.per12))
	}
	return b.String()
}

// chargeV suits lithium iron phosphate and sealed lead-acid alike.
func (m *maker) chargeV() float64 { return 14.3 * float64(m.per12) }

func (m *maker) sources() string {
	var b strings.Builder
	if m.engine {
		fmt.Fprintf(&b, "alternators:\n  - {name: alternator, rated_a: 120, idle_a: 80, hot_percent: 80, vehicle_a: 20, runs_at_v: %.1f, variable: false, self_limiting: true, clamps_load_dump: true}\n", 14.2*float64(m.per12))
	}
	b.WriteString("chargers:\n")
	if m.engine {
		fmt.Fprintf(&b, "  - {name: converter, kind: converter, fed_at: converter input, max_a: 15, output_v: %.1f, efficiency_percent: 90, least_input_v: %d, wakes_by: engine signal}\n", m.chargeV(), 10*m.per12)
	}
	fmt.Fprintf(&b, "  - {name: mains charger, kind: mains, max_a: 30, output_v: %.1f, efficiency_percent: 90}\n", m.chargeV())
	if m.sun {
		fmt.Fprintf(&b, "solar:\n  - {name: array, place: Leeds, module_w: 120, open_v: 22.4, short_a: 6.9, working_v: 18.6, power_percent_per_c: -0.4, open_percent_per_c: -0.3, in_series: %d, strings: 1, module_fuse_a: 15, controller_v: 150, tracking: true, max_a: 15, output_v: %.1f, efficiency_percent: 95, losses_percent: 18, cell_c: 45}\n",
			1+m.per12, m.chargeV())
	}
	return b.String()
}

func (m *maker) consumers() string {
	var b strings.Builder
	if m.inverterW > 0 {
		fmt.Fprintf(&b, "inverters:\n  - {name: inverter, rated_w: %d, surge_w: %d, efficiency_percent: 88, idle_w: 6, cut_out_v: %d, isolated: true, input_uf: 5000, precharge_ohm: 10, works_from_v: %d, works_to_v: %d}\n",
			m.inverterW, 2*m.inverterW, 10*m.per12, 10*m.per12, 17*m.per12)
	}
	b.WriteString("loads:\n")
	for i, l := range m.loads {
		draws := fmt.Sprintf("current_a: %.2f, behaves: current", l.amperes/float64(m.per12))
		if m.IntN(2) == 0 {
			draws = fmt.Sprintf("power_w: %.1f, behaves: power", 12*l.amperes)
		}
		fmt.Fprintf(&b, "  - {name: %s, at: outlet %d, %s, hours_a_day: %d, duty_percent: %d, %s}\n", l.name, i+1, draws, l.hours, l.percent, fmt.Sprintf(l.words, 10*m.per12))
	}
	if m.inverterW > 0 {
		fmt.Fprintf(&b, "  - {name: tools, inverter: inverter, power_w: %d, behaves: power, hours_a_day: 1, duty_percent: 60, surge_w: %d, surge_s: 0.5, longest_run_s: 300, critical: false}\n", m.inverterW*6/10, m.inverterW)
	}
	return b.String()
}

// run is one circuit.
func (m *maker) run(name, from, to string, metres float64, size string, contacts float64, purpose, devices string) string {
	return fmt.Sprintf("  - {name: %s, from: %s, to: %s, length_m: %.2f, size: %s, strands: 5, %s, grouped: 1, sheathed: true, return: cable, contacts_milliohm: %.1f, purpose: %s, %s}\n",
		name, from, to, metres, size, m.routing, contacts, purpose, devices)
}

// classT is a device that opens quickly and breaks whatever a bank gives.
func classT(end string, ratingA, alongMM int) string {
	curve := fmt.Sprintf(", opens_a: %d, opens_by_s: 0.2", min(10*ratingA, 600+4*ratingA))
	return fmt.Sprintf("%s: {family: UL 248-15 T 300 V, rating_a: %d, ambient_percent: 100, rated_v: 125, breaks_a: 50000, breaks_at_v: 125%s, along_mm: %d}", end, ratingA, curve, alongMM)
}

func blade(family string, end string, ratingA, alongMM int) string {
	return fmt.Sprintf("%s: {family: %s, rating_a: %d, ambient_percent: 100, rated_v: 58, breaks_a: 10000, breaks_at_v: 58, along_mm: %d}", end, family, ratingA, alongMM)
}

// bus is where the sources meet: the panel itself, where one battery feeds nothing
// else.
func (m *maker) bus() string {
	if m.count == 1 && m.inverterW == 0 {
		return "panel"
	}
	return "bus"
}

// between is a length at random.
func (m *maker) between(least, most float64) float64 { return least + m.Float64()*(most-least) }

func (m *maker) circuits() string {
	var b strings.Builder
	b.WriteString("circuits:\n")
	from := "battery 1"
	if m.bus() == "bus" {
		from = "bus"
		b.WriteString(m.leads())
	}
	b.WriteString(m.run("panel feed", from, "panel", m.between(0.5, 2), m.size(2*m.feedA), 0.8, "supply",
		classT("device", m.feedA, 60)+fmt.Sprintf(", switch: {kind: isolator, rating_a: %d, short_time_a: 500}", 2*m.feedA)))
	for i, l := range m.loads {
		rating := 10
		if l.amperes/float64(m.per12) < 3 {
			rating = 5
		}
		b.WriteString(m.run(l.name, "panel", fmt.Sprintf("outlet %d", i+1), m.between(1, 3.5), m.size(rating+5), 3, "supply",
			blade("ISO 8820-3 C", "device", rating, 0)))
	}
	if m.inverterW > 0 {
		b.WriteString(m.run("inverter feed", "bus", "inverter", m.between(0.5, 1.5), m.size(m.inverterA+50), 0.4, "supply",
			classT("device", m.inverterA, 60)+", switch: {kind: isolator, rating_a: 200, short_time_a: 500}"))
	}
	return b.String() + m.chargingRuns()
}

// leads are those of the batteries, side by side and alike. Each bears what all
// sources of the other side give together.
func (m *maker) leads() string {
	var b strings.Builder
	length := m.between(0.4, 0.8)
	for i := range m.count {
		b.WriteString(m.run(fmt.Sprintf("lead %d", i+1), fmt.Sprintf("battery %d", i+1), "bus", length, m.size(m.leadA+75), 0.3, "supply",
			classT("device", m.leadA, 100)))
	}
	return b.String()
}

func (m *maker) chargingRuns() string {
	var b strings.Builder
	if m.engine {
		b.WriteString(m.run("converter output", "converter", m.bus(), m.between(0.5, 1.2), m.size(40), 0.8, "charge line", classT("far_device", 30, 60)))
		b.WriteString(m.run("converter feed", "starter battery", "converter input", m.between(1, 4), m.size(60), 1.5, "supply", blade("ISO 8820-5 SF30", "device", 40, 100)))
		b.WriteString(m.run("alternator lead", "alternator", "starter battery", m.between(0.8, 1.5), m.size(250), 0.5, "supply", blade("ISO 8820-5 SF51", "far_device", 150, 100)))
	}
	b.WriteString(m.run("mains charger output", "mains charger", m.bus(), m.between(0.5, 1.2), m.size(60), 0.8, "charge line", classT("far_device", 50, 60)))
	if m.sun {
		b.WriteString(m.run("array output", "array", m.bus(), m.between(0.5, 1.4), m.size(40), 0.8, "charge line", classT("far_device", 30, 60)))
	}
	return b.String()
}

func (m *maker) states() string {
	var loads, sun []string
	for _, l := range m.loads {
		loads = append(loads, l.name)
	}
	if m.inverterW > 0 {
		loads = append(loads, "tools")
	}
	if m.sun {
		sun = []string{"array"}
	}
	s := fmt.Sprintf("states:\n  - {name: in use, hours_a_day: 8, sources: [%s], loads: [%s]}\n", strings.Join(sun, ", "), strings.Join(loads, ", "))
	if m.engine {
		s += fmt.Sprintf("  - {name: driving, hours_a_day: 3, engine: road, sources: [alternator, converter], loads: [%s]}\n", m.loads[0].name)
	}
	return s + fmt.Sprintf("  - {name: on the mains, hours_a_day: 12, sources: [mains charger], loads: [%s]}\n", m.loads[0].name)
}

func (m *maker) end() string {
	s := m.bay() + "needs: {autonomy_days: 1, refill_h: 16}\n"
	switch m.craft {
	case "vehicle":
		s = "weights: {wheelbase_m: 3.4, front_kg: 1200, rear_kg: 1100, front_least_kg: 600, front_limit_kg: 1800, rear_limit_kg: 2200, gross_limit_kg: 3500, items: [{name: bank, mass_kg: 80, behind_m: 2}, {name: the rest, mass_kg: 200, behind_m: 2.5}]}\n" + s
	case "trailer":
		s = "weights: {wheelbase_m: 3.5, front_kg: 80, rear_kg: 900, front_least_kg: 60, front_limit_kg: 150, rear_limit_kg: 1800, gross_limit_kg: 1800, items: [{name: bank, mass_kg: 80, behind_m: 3.4}, {name: the rest, mass_kg: 200, behind_m: 3.3}]}\n" + s
	}
	return s
}

// bay is the space of the bank, with room to spare.
func (m *maker) bay() string {
	return fmt.Sprintf("bay: {length_mm: 650, width_mm: %d, height_mm: 310, tolerance_mm: 3, case_tolerance_mm: 3, along: 1, across: %d, gap_mm: 12, wall_mm: 20, above_mm: 50, cable_mm: 16, bend_times: 5, lug_mm: 30, outside_c: 28, position: free on all sides, material: painted sheet steel, opening_cm2: 400, fixings: 4, gravities: 10, centre_mm: 110, rows_mm: 150, fixing_n: 6000}\n",
		90+190*m.count, m.count)
}
