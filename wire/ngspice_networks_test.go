package wire_test

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"example.org/extralow/wire"
)

// spiceCase is a network that ngspice solves too. All of them are installations
// of our own invention.
type spiceCase struct {
	name, shows   string
	net           drawing
	start         string // where ngspice starts constant powers and limited sources: "12" or "12 node=24"
	fault         string // a short circuit at this node, loads left out; empty: none
	faultMilliohm string // 0: bolted
	tied          string // the return of a part that has nothing to do with the common one
}

// drawing is a network as it is drawn, part by part. A source or load stands at
// a node, or at "node/return" where it has a return of its own.
type drawing wire.Network

func ends(at string) (node, back string) {
	node, back, _ = strings.Cut(at, "/")
	return node, back
}

func (n drawing) battery(name, at, emf, milliohm string) drawing {
	node, back := ends(at)
	n.Sources = append(n.Sources, wire.NodeSource{Name: name, Node: node, Return: back, EMFV: d(emf), Milliohm: d(milliohm)})
	return n
}

func (n drawing) limited(name, at, emf, milliohm, limit string) drawing {
	node, back := ends(at)
	n.Sources = append(n.Sources, wire.NodeSource{Name: name, Node: node, Return: back, EMFV: d(emf), Milliohm: d(milliohm), LimitA: some(limit)})
	return n
}

func (n drawing) cable(name, from, to, milliohm string) drawing {
	n.Branches = append(n.Branches, wire.Branch{Name: name, From: from, To: to, Milliohm: d(milliohm)})
	return n
}

func (n drawing) amperes(name, at, current string) drawing {
	node, back := ends(at)
	n.Loads = append(n.Loads, wire.NodeLoad{Name: name, Node: node, Return: back, CurrentA: some(current)})
	return n
}

func (n drawing) watts(name, at, power string) drawing {
	node, back := ends(at)
	n.Loads = append(n.Loads, wire.NodeLoad{Name: name, Node: node, Return: back, PowerW: some(power)})
	return n
}

func (n drawing) ohms(name, at, resistance string) drawing {
	node, back := ends(at)
	n.Loads = append(n.Loads, wire.NodeLoad{Name: name, Node: node, Return: back, Ohm: some(resistance)})
	return n
}

var spiceCases = []spiceCase{
	{
		name: "one_feeder", shows: "a battery, a fuse, a cable and one load of constant current",
		net: drawing{}.battery("bank", "posts", "12.8", "5").
			cable("fuse", "posts", "fuse_out", "0.6").cable("feed", "fuse_out", "end", "11.4").
			amperes("heater", "end", "40"),
	},
	{
		name: "shared_feeders", shows: "two levels of shared feeders: each load lowers the voltage of its neighbours", start: "12",
		net: drawing{}.battery("bank", "posts", "12.6", "6.5").
			cable("main", "posts", "busbar", "1.2").cable("cab_feeder", "busbar", "cab_panel", "7.5").cable("rear_feeder", "busbar", "rear_panel", "5.2").
			cable("radio_run", "cab_panel", "radio", "40").cable("lamp_run", "cab_panel", "lamps", "62").
			cable("fridge_run", "rear_panel", "fridge", "24").cable("pump_run", "rear_panel", "pump", "55").cable("fan_run", "rear_panel", "fan", "80").
			watts("radio", "radio", "60").ohms("lamps", "lamps", "2.4").
			watts("fridge", "fridge", "95").amperes("pump", "pump", "9").amperes("fan", "fan", "3.5"),
	},
	{
		name: "two_inverters", shows: "two inverters of constant power on one busbar: each makes the other draw more", start: "12",
		net: drawing{}.battery("bank", "posts", "12.9", "2.5").
			cable("main", "posts", "busbar", "0.9").cable("big_lead", "busbar", "big", "0.7").cable("small_lead", "busbar", "small", "1.6").
			watts("big", "big", "2600").watts("small", "small", "900"),
	},
	{
		name: "edge_of_collapse", shows: "12 V behind 10 milliohm brings at most 3600 W, at 6 V; 3599.99 W are drawn", start: "12",
		net: drawing{}.battery("bank", "posts", "12", "4").cable("feed", "posts", "end", "6").watts("inverter", "end", "3599.99"),
	},
	{
		name: "chassis_return", shows: "loads that share a chassis return, a frame joint and an engine earth strap", start: "12",
		net: drawing{}.battery("bank", "plus", "12.6", "5").
			cable("lamp_wire", "plus", "lamp", "20").cable("pump_wire", "plus", "pump", "10").cable("winch_wire", "plus", "winch", "1.8").
			cable("frame", "rear_frame", "mid_frame", "1.5").cable("frame_joint", "mid_frame", "front_frame", "0.8").
			cable("earth_strap", "front_frame", wire.CommonReturn, "0.4").cable("second_strap", "mid_frame", wire.CommonReturn, "2.2").
			ohms("lamp", "lamp/rear_frame", "2.6").amperes("pump", "pump/rear_frame", "15").watts("winch", "winch/front_frame", "1500"),
	},
	{
		name: "twenty_four_volt", shows: "two 12 V blocks in series, 24 V loads and a 12 V load on the centre tap", start: "24",
		net: drawing{}.battery("lower", "middle", "12.6", "3").battery("upper", "plus/middle", "12.55", "3.4").
			cable("main", "plus", "panel", "1.1").cable("lift_run", "panel", "lift", "9.3").cable("tap_run", "middle", "tap", "14").
			watts("inverter", "panel", "2400").amperes("lift", "lift", "85").amperes("radio", "tap", "6"),
	},
	{
		name: "two_banks", shows: "a starter and a house bank joined by a relay, fed by an alternator at its limit", start: "13",
		net: drawing{}.battery("starter", "starter_posts", "12.5", "6").battery("house", "house_posts", "12.7", "3.2").
			limited("alternator", "starter_posts", "14.3", "12", "90").
			cable("starter_relay", "starter_posts", "relay", "4.2").cable("relay_house", "relay", "house_posts", "5.1").cable("panel_feed", "house_posts", "panel", "2.9").
			watts("fridge", "panel", "120").ohms("headlamps", "starter_posts", "1.1"),
	},
	{
		name: "idle_source", shows: "a converter whose voltage is below the busbar's gives nothing; a charger below its limit gives its share",
		net: drawing{}.battery("bank", "posts", "13.3", "4").limited("converter", "busbar", "13.0", "8", "30").limited("charger", "busbar", "13.6", "10", "60").
			cable("main", "posts", "busbar", "1.5").amperes("load", "busbar", "20"),
	},
	{
		name: "waking_source", shows: "the load pulls the busbar below a converter's voltage, and it gives its share", start: "13",
		net: drawing{}.battery("bank", "posts", "13.3", "4").limited("converter", "busbar", "13.0", "8", "60").
			cable("main", "posts", "busbar", "1.5").watts("inverter", "busbar", "1400"),
	},
	{
		name: "limited_source_fault", shows: "a converter alone feeds a bolted fault: no more than its limit", fault: "end", faultMilliohm: "0",
		net: drawing{}.limited("converter", "out", "14.4", "15", "40").cable("run", "out", "end", "22").amperes("fan", "end", "4"),
	},
	{
		name: "limited_source_high_fault", shows: "a converter feeds a fault of 600 milliohm: less than its limit", start: "14", fault: "end", faultMilliohm: "600",
		net: drawing{}.limited("converter", "out", "14.4", "15", "40").cable("run", "out", "end", "22").amperes("fan", "end", "4"),
	},
	{name: "two_hundred_nodes", shows: "two hundred nodes: trunks, tees, rings and loads of all three kinds", start: "24", net: twoHundredNodes()},
	{
		name: "unequal_leads", shows: "four batteries on leads of unequal length: the nearest gives most",
		net: drawing{}.battery("a", "a_posts", "12.8", "3").battery("b", "b_posts", "12.8", "3").battery("c", "c_posts", "12.8", "3").battery("d", "d_posts", "12.8", "3").
			cable("a_lead", "a_posts", "busbar", "0.5").cable("b_lead", "b_posts", "busbar", "0.8").cable("c_lead", "c_posts", "busbar", "1.5").cable("d_lead", "d_posts", "busbar", "2.6").
			amperes("inverter", "busbar", "200"),
	},
	{name: "diagonal_1", shows: "four batteries of 1 milliohm, links of 1 milliohm, take-off from opposite ends", net: sideBySide(4, "1", "4"), tied: "minus1"},
	{name: "same_end_1", shows: "four batteries of 1 milliohm, links of 1 milliohm, take-off from one end", net: sideBySide(4, "1", "1"), tied: "minus1"},
	{name: "diagonal_01", shows: "four batteries of 1 milliohm, links of 0.1 milliohm, take-off from opposite ends", net: sideBySide(4, "0.1", "4"), tied: "minus1"},
	{name: "row_of_sixteen", shows: "sixteen batteries of 1 milliohm, links of 0.1 milliohm, take-off from opposite ends", net: sideBySide(16, "0.1", "16"), tied: "minus1"},
	{name: "random_mesh", shows: "twenty-five nodes at random: loops, batteries that differ, a limited source", start: "13", net: drawing(random(rand.New(rand.NewPCG(9, 10)), 25))},
	{name: "random_loops", shows: "forty nodes at random: loops, one battery, loads and chargers of every kind", start: "12.3", net: drawing(random(rand.New(rand.NewPCG(11, 13)), 40))},
	{name: "same_end_01", shows: "four batteries of 1 milliohm, links of 0.1 milliohm, take-off from one end", net: sideBySide(4, "0.1", "1"), tied: "minus1"},
	{
		name: "split_busbar", shows: "a split busbar whose halves a link and two feeders close to a loop", start: "12",
		net: drawing{}.battery("left_bank", "left_posts", "13.2", "2.2").battery("right_bank", "right_posts", "13.1", "2.8").
			cable("left_main", "left_posts", "left_bar", "0.6").cable("right_main", "right_posts", "right_bar", "0.9").cable("bar_link", "left_bar", "right_bar", "0.05").
			cable("left_feeder", "left_bar", "panel", "3.3").cable("right_feeder", "right_bar", "panel", "4.1").
			watts("inverter", "left_bar", "1800").amperes("winch", "right_bar", "140").ohms("heater", "panel", "0.35"),
	},
	{
		name: "charger_constant_current", shows: "a charger in constant current feeds the loads and charges the bank", start: "13",
		net: drawing{}.battery("bank", "posts", "12.9", "4.5").cable("main", "posts", "busbar", "1.3").cable("charge_lead", "charger", "busbar", "3.7").
			amperes("charger", "charger", "-70").watts("fridge", "busbar", "85").ohms("lamps", "busbar", "3.3"),
	},
	{
		name: "bolted_fault_full_cold", shows: "a bolted fault behind two batteries full and cold, an alternator and a charger", fault: "panel", faultMilliohm: "0",
		net: drawing{}.battery("starter", "starter_posts", "13.1", "4.1").battery("house", "house_posts", "13.5", "1.6").
			limited("alternator", "starter_posts", "14.6", "20", "120").limited("charger", "busbar", "14.6", "25", "50").
			cable("relay", "starter_posts", "busbar", "3.4").cable("main", "house_posts", "busbar", "0.35").cable("feeder", "busbar", "panel", "2.7").
			watts("inverter", "busbar", "2000"),
	},
	{
		name: "smallest_fault_aged_warm", shows: "the smallest fault: one battery low and aged, hot cable, 8 milliohm at the fault", fault: "end", faultMilliohm: "8",
		net: drawing{}.battery("bank", "posts", "11.9", "9.5").cable("main", "posts", "panel", "1.4").cable("run", "panel", "end", "37.5").ohms("lamp", "end", "6"),
	},
	{
		name: "fault_at_centre_tap", shows: "a bolted fault at the centre tap of a 24 V bank that a second 24 V bank also feeds", fault: "middle", faultMilliohm: "0",
		net: drawing{}.battery("lower", "middle", "12.6", "3").battery("upper", "plus/middle", "12.6", "3").battery("second", "plus", "25.2", "3"),
	},
	{
		name: "mixed_loads", shows: "constant currents, constant powers and resistances side by side", start: "12",
		net: drawing{}.battery("bank", "posts", "12.4", "7").cable("main", "posts", "panel", "2.1").
			cable("run1", "panel", "end1", "18").cable("run2", "panel", "end2", "26").cable("run3", "panel", "end3", "33").
			amperes("pump", "end1", "8").watts("computer", "end1", "90").ohms("lamp", "end1", "4.7").
			watts("fridge", "end2", "70").ohms("heater", "end2", "1.9").
			amperes("fan", "end3", "2.5").watts("router", "end3", "18"),
	},
	{
		name: "wide_range", shows: "the thinnest sense wire beside the thickest busbar: 1 ohm and 1 microohm", start: "12",
		net: drawing{}.battery("bank", "posts", "12.8", "2").cable("bar1", "posts", "middle", "0.001").cable("bar2", "middle", "far", "0.001").
			cable("sense", "posts", "meter", "1000").cable("sense_far", "meter", "far", "1000").
			watts("inverter", "far", "3000").ohms("meter", "meter", "1000000"),
	},
	{
		name: "own_return", shows: "an isolated part with a return of its own", tied: "starter_minus", start: "12",
		net: drawing{}.battery("starter", "starter_plus/starter_minus", "12.6", "4").cable("lead", "starter_plus", "motor", "1.1").cable("earth", "block", "starter_minus", "0.7").
			watts("motor", "motor/block", "3000"),
	},
	{
		name: "series_chargers_tap", shows: "two 12 V chargers in series across a 24 V bank: the bank keeps the upper one idle, the lower feeds the tap", start: "12.7 plus=26.4",
		net: drawing{}.battery("bank", "plus", "26.4", "5").limited("low", "mid", "12.8", "10", "20").limited("high", "plus/mid", "12.8", "10", "20").
			amperes("lamps", "plus", "10").watts("radio", "mid", "30"),
	},
	{
		name: "series_chargers_bank", shows: "two 12 V chargers in series charge a 24 V bank: the smaller limit holds for both", start: "12 plus=26.4",
		net: drawing{}.battery("bank", "plus", "26.4", "5").limited("low", "mid", "14.4", "10", "20").limited("high", "plus/mid", "14.4", "10", "30").
			amperes("lamps", "plus", "10"),
	},
	{
		name: "series_converters_fault", shows: "a bolted fault across two converters in series: the smaller limit holds", start: "0 mid=-14.2", fault: "plus", faultMilliohm: "0",
		net: drawing{}.limited("low", "mid", "14.4", "10", "20").limited("high", "plus/mid", "14.4", "10", "30"),
	},
	{
		name: "weak_and_backup", shows: "a small supply cannot carry the load; a strong converter, 1.8 V below it, does", start: "11.9",
		net: drawing{}.battery("trickle", "bus", "13.8", "15000").limited("converter", "bus", "12", "2", "100").watts("monitor", "bus", "20"),
	},
	{
		name: "tap_lifted", shows: "a load on the upper half lifts the centre tap's cable, so that the lower half's charger gives nothing", start: "12.8",
		net: drawing{}.battery("lower", "mid", "12.8", "4").battery("upper", "plus/mid", "12.8", "4").limited("charger", "tap", "12.8", "1", "70").
			cable("tap_run", "mid", "tap", "60").amperes("pump", "plus/tap", "8"),
	},
	{
		name: "hand_bus_fault", shows: "the bus fault worked by hand in ngspice_test.go", fault: "bus", faultMilliohm: "0", net: twoLimitedTwoBatteries(),
	},
	{
		name: "hand_panel_fault", shows: "the panel fault worked by hand in ngspice_test.go", fault: "panel", faultMilliohm: "0", net: twoLimitedTwoBatteries(),
	},
}

// sideBySide is a row of batteries drawn with both poles: the load is taken from the
// first plus and the given minus post.
func sideBySide(batteries int, linkMilliohm, minus string) drawing {
	var n drawing
	for i := 1; i <= batteries; i++ {
		n = n.battery(fmt.Sprint("battery", i), fmt.Sprintf("plus%d/minus%[1]d", i), "12.8", "1")
	}
	for i := 1; i < batteries; i++ {
		for _, pole := range []string{"plus", "minus"} {
			n = n.cable(fmt.Sprintf("%s_link%d%d", pole, i, i+1), fmt.Sprint(pole, i), fmt.Sprint(pole, i+1), linkMilliohm)
		}
	}
	return n.amperes("inverter", "plus1/minus"+minus, "100")
}

// twoLimitedTwoBatteries is the installation of [TestFaultByHand].
func twoLimitedTwoBatteries() drawing {
	return drawing{}.battery("left", "left_posts", "13.5", "3").battery("right", "right_posts", "13.5", "3").
		limited("alternator", "bus", "14.4", "1", "25").limited("charger", "bus", "14.4", "1", "30").
		cable("left_lead", "left_posts", "bus", "0.247").cable("right_lead", "right_posts", "bus", "0.247").
		cable("run", "bus", "panel", "13.37")
}

// twoHundredNodes is a lorry's 24 V installation of two hundred nodes: a trunk
// of twenty, from each a tee of nine more, and every fourth tee's end joined to
// the next one's, so that rings close.
func twoHundredNodes() drawing {
	n := drawing{}.battery("front_bank", "t0", "25.4", "3").battery("rear_bank", "t19", "25.2", "4").limited("charger", "t8", "28", "20", "55")
	for t := range 20 {
		if t > 0 {
			n = n.cable(fmt.Sprint("trunk", t), fmt.Sprint("t", t-1), fmt.Sprint("t", t), fmt.Sprint("0.", 3+t%5))
		}
		before := fmt.Sprint("t", t)
		for i := range 9 {
			node := fmt.Sprint("t", t, "_", i)
			n = n.cable("to_"+node, before, node, fmt.Sprint(2+(t+3*i)%7, ".", (7*t+i)%10))
			switch load := "at_" + node; (t + i) % 4 {
			case 0:
				n = n.watts(load, node, fmt.Sprint(5+(3*t+i)%11))
			case 1:
				n = n.ohms(load, node, fmt.Sprint(40+(5*t+7*i)%60))
			case 2:
				n = n.amperes(load, node, fmt.Sprint("0.", 1+(t+2*i)%7))
			}
			before = node
		}
		if t%4 == 3 {
			n = n.cable(fmt.Sprint("ring", t), fmt.Sprint("t", t-1, "_8"), before, "6.5")
		}
	}
	return n
}
