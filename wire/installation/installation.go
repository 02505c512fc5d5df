package installation

import (
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
)

// Installation is all conductors of a job with what feeds them and what they feed.
// Nodes are names: a battery and a source stand at the node of their own name.
type Installation struct {
	Rule      tables.AmpacityRule `json:"ampacity_rule"`
	Circuits  []Circuit           `json:"circuits,omitempty"`
	Batteries []Battery           `json:"batteries,omitempty"`
	Sources   []Source            `json:"sources,omitempty"`
	Loads     []Load              `json:"loads,omitempty"`
	States    []State             `json:"states,omitempty"` // of use: what runs together
}

// Circuit is a run between two nodes. Its resistance is the sum of its sections',
// out and back, its ampacity their least. Without sections it is a frame, a busbar
// or a switch of a stated resistance, of which no ampacity is known here. Where the
// poles are drawn apart (nodes named as returns), what lies between its two nodes
// is stated: a cable has ReturnMilliohm 0 there, a chassis no sections.
type Circuit struct {
	Name           string              `json:"name"`
	From           string              `json:"from_node"`
	To             string              `json:"to_node"`
	Sections       []wire.Section      `json:"sections,omitempty"`
	JointsMilliohm decimal.Decimal     `json:"joints_milliohm"` // every contact of the loop together
	ReturnMilliohm decimal.NullDecimal `json:"return_milliohm"` // chassis or bus in place of the return cable
	Cables         int                 `json:"parallel_cables"` // side by side, out and back alike; 0 is one
	Unlike         bool                `json:"unlike"`          // those are not alike: one alone is counted on, all of them for the greatest fault
	Switch         Switch              `json:"switch"`
	Basis          working.Working     `json:"basis,omitempty"` // the lines that gave joints or return; nil where they are given
}

// Battery is a battery or a series string at the node of its name. Batteries of one bank
// in one part of the installation, and those that no link parts, stand in for each other.
type Battery struct {
	Name         string          `json:"name"`
	Bank         string          `json:"bank"`
	Return       string          `json:"return"` // node of its minus post; empty: the common return
	FullV        decimal.Decimal `json:"full_v"` // rested
	EmptyV       decimal.Decimal `json:"empty_v"`
	LeastV       decimal.Decimal `json:"least_rested_v"` // lowest rested voltage at which it is still connected: for the smallest fault
	LowMilliohm  decimal.Decimal `json:"low_milliohm"`   // full, new, warm
	HighMilliohm decimal.Decimal `json:"high_milliohm"`  // empty, aged, cold
	From         working.Working `json:"from,omitempty"` // the lines that gave its figures; nil where they are given
}

// Source holds a voltage at the node of its name up to a limit: a charger, a
// converter, an alternator, a solar controller. Its line is laid for GreatestA.
type Source struct {
	Name         string              `json:"name"`
	Return       string              `json:"return"`           // empty: the common return
	HeldV        decimal.Decimal     `json:"held_v"`           // the highest of ordinary operation
	LeastHeldV   decimal.NullDecimal `json:"held_least_v"`     // while it runs beside loads; unset: HeldV
	GreatestA    decimal.Decimal     `json:"limit_a"`          // of an alternator cold
	LimitsItself bool                `json:"limits_itself"`    // false: a short circuit draws ShortA, or a tabled multiple of GreatestA
	ShortA       decimal.NullDecimal `json:"short_a"`          // that a short circuit draws; unset: not known
	Always       bool                `json:"always"`           // may work in every state, as the sun does by day
	OwnLoadsA    decimal.NullDecimal `json:"vehicle_a"`        // what the vehicle itself draws at its node while it is on
	FedAt        string              `json:"fed_at,omitempty"` // node of its input; empty: fed from outside
	InputW       decimal.NullDecimal `json:"rated_input_w"`    // that its input takes at full output
	InputA       decimal.NullDecimal `json:"input_a"`          // the most that its input takes: full output at its lowest voltage
	From         working.Working     `json:"from,omitempty"`
}

// Demand is how much a load draws: exactly one of the three, or none where the
// place of the field says what that means.
type Demand struct {
	CurrentA decimal.NullDecimal `json:"current_a"` // constant
	PowerW   decimal.NullDecimal `json:"power_w"`   // constant: its current rises as the voltage falls
	Ohm      decimal.NullDecimal `json:"ohm"`
	From     working.Working     `json:"from,omitempty"`
}

// Load draws at a node, which is not stated anew for each of its demands.
type Load struct {
	Name        string              `json:"name"`
	Node        string              `json:"node"`
	Return      string              `json:"return"`       // empty: the common return
	Takes       Demand              `json:"takes"`        // while it runs
	Starts      Demand              `json:"starts"`       // while it starts, or cranks; none: as it runs
	Full        Demand              `json:"full"`         // the most that it can, whatever a state asks; none: not stated
	StartLasts  bool                `json:"start_lasts"`  // the start takes so long that it heats
	EquivalentA decimal.NullDecimal `json:"equivalent_a"` // of a short duty: what heats in its place
	LeastV      decimal.NullDecimal `json:"lowest_v"`     // at which it works: a constant power draws most there
	Cranks      bool                `json:"cranks"`       // an engine's starter: no state lists it
}

// State is a way of use.
type State struct {
	Name    string    `json:"name"`
	Sources []Supply  `json:"sources,omitempty"`
	Loads   []LoadUse `json:"loads,omitempty"`
}

// Supply is a source that works in a state.
type Supply struct {
	Source   string              `json:"source"`
	CurrentA decimal.NullDecimal `json:"current_a"` // the most that it gives then; unset: GreatestA
	From     working.Working     `json:"from,omitempty"`
}

// LoadUse is a load that runs in a state.
type LoadUse struct {
	Load  string `json:"load"`
	Takes Demand `json:"takes"` // then; none: the load's own
}
