package tables

import (
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// RuleSet holds, as data, what one published code asks. Each set judges on its
// own: what it does not say is the zero figure, and is never borrowed from
// another set.
type RuleSet struct {
	Key     string   `json:"key"`
	Name    string   `json:"name"`
	Applies string   `json:"applies"` // to what; elsewhere it serves as a yardstick
	Craft   []string `json:"craft,omitempty"`

	Ampacity AmpacityRule   `json:"ampacity_rule"`
	Device   DeviceRule     `json:"device_rule"`
	Place    PlaceRule      `json:"place_rule"`
	Drop     DropRule       `json:"drop_rule"`
	Size     SizeRule       `json:"size_rule"`
	Return   working.Figure `json:"return_cables,omitzero"` // cables of a circuit that bring its current back, at least: a hull or frame is none
	Guards   SafeguardRule  `json:"safeguard_rule"`
}

// AmpacityRule names the tables of a set: ampacities for metric and for gauge
// sizes, and factors. An empty name means that the set is silent.
type AmpacityRule struct {
	Metric      []string     `json:"metric_tables,omitempty"`
	Gauge       []string     `json:"gauge_tables,omitempty"`
	Ambient     string       `json:"ambient_table,omitempty"`
	Grouping    string       `json:"grouping_table,omitempty"`
	EngineSpace string       `json:"engine_space_table,omitempty"`
	Terminals   TerminalRule `json:"terminal_rule,omitzero"`
}

// AmpacityRules returns the names that [AmpacityRuleOf] takes: the keys of the
// rule sets, and of single codes that no set takes its ampacities from.
func AmpacityRules() []string { return ampacityRules().all() }

// AmpacityRuleOf returns the rule of ampacities of that name: that of a rule set
// by its key, "iec60364-5-52" (three loaded conductors, so that two carry no less),
// "bs7671-4f1a" or "bs7671-4f2a" (flexible cables for 60 and for 90 °C).
func AmpacityRuleOf(name string) (AmpacityRule, error) {
	r, err := ampacityRules().first(name)
	return r.clone(), err
}

// clone returns the rule with lists of its own: what a caller changes is the
// caller's.
func (r AmpacityRule) clone() AmpacityRule {
	r.Metric, r.Gauge = slices.Clone(r.Metric), slices.Clone(r.Gauge)
	r.Terminals.Ratings, r.Terminals.Tables = slices.Clone(r.Terminals.Ratings), slices.Clone(r.Terminals.Tables)
	return r
}

type namedAmpacity struct {
	name string
	AmpacityRule
}

var ampacityRules = indexed("ampacity_rule", func() []namedAmpacity {
	var all []namedAmpacity
	for _, set := range ruleSets() {
		all = append(all, namedAmpacity{set.Key, set.Ampacity})
	}
	return append(all,
		namedAmpacity{"iec60364-5-52", AmpacityRule{
			Metric: []string{"IEC 60364-5-52"}, Ambient: "IEC 60364-5-52 B.52.14", Grouping: "IEC 60364-5-52 simplified",
		}},
		namedAmpacity{"bs7671-4f1a", AmpacityRule{
			Metric: []string{"BS 7671 4F1A"}, Ambient: "BS 7671 16th ambient", Grouping: "BS 7671 4C1", Terminals: terminalRule("bs7671"),
		}},
		namedAmpacity{"bs7671-4f2a", AmpacityRule{
			Metric: []string{"BS 7671 4F2A"}, Ambient: "BS 7671 4F2A", Grouping: "BS 7671 4C1", Terminals: terminalRule("bs7671"),
		}})
}, func(r namedAmpacity) string { return r.name })

// DeviceRule says how a device's rating stands to its conductor and its load.
type DeviceRule struct {
	OfAmpacity       working.Figure `json:"of_ampacity,omitzero"`       // rating ÷ ampacity, at most
	OperatingCurrent working.Figure `json:"operating_current,omitzero"` // I2 ÷ ampacity, at most
	LoadOfRating     working.Figure `json:"load_of_rating,omitzero"`    // continuous load ÷ rating, at most
	BriefRun         working.Figure `json:"brief_run,omitzero"`         // longest run of a load that does not last
	BySize           []SizeRating   `json:"by_size,omitempty"`          // for small conductors that the code names, by itself
}

// Cap returns the greatest rating that the rule allows on a size, whatever its
// ampacity; it is not ok where the rule names none.
func (r DeviceRule) Cap(s Size) (limit working.Figure, ok bool) {
	i := slices.IndexFunc(r.BySize, func(x SizeRating) bool { return x.Size == s })
	if i < 0 {
		return working.Figure{}, false
	}
	return r.BySize[i].Rating, true
}

// SizeRating is the greatest rating of a device, in A, on a conductor of one
// size.
type SizeRating struct {
	Size   Size           `json:"size"`
	Rating working.Figure `json:"rating"`
}

// PlaceRule gives the greatest length of conductor between a source and its
// device, in mm.
type PlaceRule struct {
	Due       working.Figure `json:"devices_due,omitzero"`       // devices at each end of a conductor that a source can feed
	Bare      working.Figure `json:"bare_length,omitzero"`       // unsheathed, any source
	Sheathed  working.Figure `json:"sheathed_length,omitzero"`   // in a sheath or enclosure all the way
	AtBattery working.Figure `json:"at_battery_length,omitzero"` // on a battery's terminal, in a sheath
	Charging  working.Figure `json:"charging_length,omitzero"`   // between a charger or an alternator and its device, unless it limits itself
}

// DropRule gives the greatest voltage drop, in V at a nominal voltage or in
// percent of it, and the drop constant where the set has a formula of its own.
type DropRule struct {
	Charge   working.Figure `json:"charge_drop,omitzero"` // line that charges an auxiliary battery
	Critical working.Figure `json:"critical_drop,omitzero"`
	Other    working.Figure `json:"other_drop,omitzero"`
	Constant working.Figure `json:"drop_constant,omitzero"` // Ω mm²/m or Ω cmil/ft, of the set's own formula
}

// SizeRule gives the smallest conductors, run by themselves and in a sheath.
type SizeRule struct {
	Single   MinSize `json:"single_size,omitzero"`
	Sheathed MinSize `json:"sheathed_size,omitzero"`
}

// MinSize is a smallest size with its source; the zero MinSize is silence.
type MinSize struct {
	Size   Size        `json:"size"`
	Source cite.Source `json:"source"`
}

// RuleSets returns every set, the default first.
func RuleSets() []RuleSet {
	all := slices.Clone(ruleSets())
	for i := range all {
		all[i] = all[i].clone()
	}
	return all
}

// RuleSetOf returns the set of that key.
func RuleSetOf(key string) (RuleSet, error) {
	r, err := ruleSetKeys().first(key)
	return r.clone(), err
}

// clone returns the set with lists of its own.
func (r RuleSet) clone() RuleSet {
	r.Craft, r.Ampacity, r.Device.BySize = slices.Clone(r.Craft), r.Ampacity.clone(), slices.Clone(r.Device.BySize)
	return r
}

var ruleSetKeys = indexed("rules", func() []RuleSet { return ruleSets() }, func(r RuleSet) string { return r.Key })

// At returns the set as it stands at a nominal voltage: a figure in volts that
// is tied to another one falls silent.
func (r RuleSet) At(systemV decimal.Decimal) RuleSet {
	r.Drop.Charge = silencedAt(r.Drop.Charge, systemV)
	r.Drop.Critical = silencedAt(r.Drop.Critical, systemV)
	r.Drop.Other = silencedAt(r.Drop.Other, systemV)
	r.Device.BySize = slices.DeleteFunc(slices.Clone(r.Device.BySize), func(s SizeRating) bool {
		return !silencedAt(s.Rating, systemV).Stated()
	})
	return r
}

// Yardstick reports whether the set does not apply to that craft ("vehicle",
// "trailer", "boat") and serves only to compare.
func (r RuleSet) Yardstick(craft string) bool { return !slices.Contains(r.Craft, craft) }

// rule is a figure of a code that rule sets pick by its id.
type rule struct {
	id     string
	figure working.Figure
	atV    decimal.NullDecimal // nominal voltage that it is tied to
}

var (
	dropLimits = load("voltage-drop-limits", func(r *record) rule {
		unit := strings.Replace(r.text("unit"), "percent", "%", 1)
		return rule{r.text("id"), r.figure("value", unit, r.text("circuit")), r.optional("system_v")}
	})
	returnRules = load("return-rules", func(r *record) rule {
		return rule{id: r.text("id"), figure: r.figure("returns_due", "", r.text("applies_to"))}
	})
	isolationRules = load("isolation-rules", func(r *record) rule {
		if r.text("unit") != "switch" { // words, or a condition
			return rule{id: r.text("id")}
		}
		return rule{id: r.text("id"), figure: r.figure("value", "")}
	})
	safeguards = load("safeguards", func(r *record) rule {
		return rule{id: r.text("id"), figure: r.figure("safeguards_due", "")}
	})
	deviceRules = load("device-rules", func(r *record) rule {
		unit := strings.NewReplacer("ratio", "", "count", "").Replace(r.text("unit"))
		return rule{r.text("id"), r.figure("value", unit), r.optional("system_v")}
	})
)

// pick returns the figure of that id. Rule sets are part of the library, so an
// id that the data lack is a mistake in it.
func pick(rules []rule, id string) working.Figure {
	i := slices.IndexFunc(rules, func(r rule) bool { return r.id == id })
	if i < 0 {
		panic("no rule " + id)
	}
	return rules[i].figure
}

func dropLimit(id string) working.Figure  { return pick(dropLimits(), id) }
func safeguard(id string) working.Figure  { return pick(safeguards(), id) }
func deviceRule(id string) working.Figure { return pick(deviceRules(), id) }

// silencedAt returns the figure, or the zero figure where it is tied to
// another nominal voltage.
func silencedAt(f working.Figure, systemV decimal.Decimal) working.Figure {
	for i := range tiedRules() {
		r := &tiedRules()[i]
		if r.figure.Source == f.Source && r.figure.Value.Equal(f.Value) && !r.atV.Decimal.Equal(systemV) {
			return working.Figure{}
		}
	}
	return f
}

// tiedRules are those that hold at one nominal voltage.
var tiedRules = sync.OnceValue(func() []rule {
	return slices.DeleteFunc(slices.Concat(dropLimits(), deviceRules()), func(r rule) bool { return !r.atV.Valid })
})

type sizeRow struct {
	id   string
	rule MinSize
}

var minimumSizes = load("minimum-sizes", func(r *record) sizeRow {
	return sizeRow{r.text("id"), MinSize{Size{r.text("size")}, r.source(r.text("use"))}}
})

func minimumSize(id string) MinSize {
	rows := minimumSizes()
	i := slices.IndexFunc(rows, func(r sizeRow) bool { return r.id == id })
	if i < 0 {
		panic("no minimum size " + id)
	}
	return rows[i].rule
}

var ruleSets = sync.OnceValue(func() []RuleSet {
	boatAmpacity := AmpacityRule{Gauge: []string{"33 CFR 183.425 table 5"}, EngineSpace: "33 CFR 183.425 note 1"}
	voluntary := boatAmpacity // the code prints the regulation's table, and derates bundles too
	voluntary.Grouping = "ABYC E-11 bundles"
	return []RuleSet{
		{
			Key: "european", Name: "European leisure and work vehicles (EN 1648, BS 7671, IEC 60364)",
			Applies: "caravans, motor caravans and work vehicles", Craft: []string{"vehicle", "trailer"},
			Ampacity: AmpacityRule{
				Metric:  []string{"BS 7671 4D1A", "BS 7671 4E1A"},
				Ambient: "BS 7671 16th ambient", Grouping: "BS 7671 4C1",
				Terminals: terminalRule("bs7671", "BS 7671 4D1A", "BS 7671 4E1A"),
			},
			Device: DeviceRule{OfAmpacity: deviceRule("iec-433-1"), OperatingCurrent: deviceRule("iec-433-2")},
			Place:  PlaceRule{Bare: deviceRule("bare-200"), Sheathed: laidSafely(deviceRule("iec-434-2-1"))},
			Drop:   DropRule{Charge: dropLimit("en1648-2-charge"), Critical: dropLimit("en1648-2-other"), Other: dropLimit("en1648-2-other"), Constant: constantOf("copper", "design_resistivity_50c", "EN 1648-2")},
			Guards: SafeguardRule{Edge: safeguard("bs7671-edge")},
		},
		{
			Key: "iso-craft", Name: "Small craft (ISO 10133, ISO 13297)",
			Applies: "boats up to 24 m", Craft: []string{"boat"},
			Ampacity: AmpacityRule{Metric: []string{"ISO 10133 annex A"}, Grouping: "ISO 13297 annex A", EngineSpace: "ISO 10133 annex A"},
			Device:   DeviceRule{OfAmpacity: deviceRule("iso13297-dc-ratio")},
			Place:    PlaceRule{Bare: deviceRule("iso10133-200"), Charging: deviceRule("iso13297-charger")},
			Drop:     DropRule{Critical: dropLimit("iso10133-critical"), Other: dropLimit("iso10133-other"), Constant: constantOf("copper", "drop_constant", "ISO 10133:2012")},
			Size:     SizeRule{Single: minimumSize("iso10133-single"), Sheathed: minimumSize("iso10133-sheathed")},
			Return:   pick(returnRules(), "iso10133-return"),
			Guards:   SafeguardRule{Isolator: pick(isolationRules(), "iso10133-switch")},
		},
		{
			Key: "us-boat", Name: "US boats with petrol engines (33 CFR 183)",
			Applies: "boats with petrol engines for propulsion or power", Craft: []string{"boat"},
			Ampacity: boatAmpacity,
			Device:   DeviceRule{OfAmpacity: deviceRule("cfr33-ratio")},
			Place:    PlaceRule{Due: deducedAnEnd(deviceRule("cfr33-due")), Bare: deviceRule("cfr33-7in"), Sheathed: deviceRule("cfr33-40in"), AtBattery: deviceRule("cfr33-72in")},
			Size:     SizeRule{Single: minimumSize("cfr33-single"), Sheathed: minimumSize("cfr33-sheathed")},
			Guards:   SafeguardRule{Edge: safeguard("cfr33-edge"), Ignition: safeguard("cfr33-ignition")},
		},
		{
			Key: "us-voluntary-craft", Name: "US voluntary small-craft code (ABYC E-11)",
			Applies: "boats", Craft: []string{"boat"},
			Ampacity: voluntary,
			Device:   DeviceRule{OfAmpacity: deviceRule("abyc-ratio")},
			Place:    PlaceRule{Bare: deviceRule("abyc-7in"), Sheathed: deviceRule("abyc-40in"), AtBattery: deviceRule("abyc-72in")},
			Drop:     DropRule{Critical: dropLimit("abyc-critical"), Other: dropLimit("abyc-other"), Constant: constantOf("copper", "drop_constant", "ABYC E-11")},
			Return:   pick(returnRules(), "abyc-return"),
		},
		{
			Key: "us-rv", Name: "US recreational vehicles (NFPA 70 articles 551 and 552)",
			Applies: "recreational vehicles and park trailers", Craft: []string{"vehicle", "trailer"},
			Ampacity: AmpacityRule{Terminals: terminalRule("nfpa70")},
			Device:   DeviceRule{LoadOfRating: inverse(deviceRule("nec-continuous")), BriefRun: deviceRule("nec-continuous-run"), BySize: smallConductors("nec-rv")},
			Place:    PlaceRule{Bare: deviceRule("rv-18in")},
			Drop:     DropRule{Critical: advised("nfpa70-branch", "critical"), Other: advised("nfpa70-total", "other")},
			Size:     SizeRule{Single: minimumSize("nfpa70-552"), Sheathed: minimumSize("nfpa70-552")},
			Return:   pick(returnRules(), "nfpa70-552-return"),
		},
		{
			Key: "au-nz", Name: "AU/NZ caravans (AS/NZS 3001.2)",
			Applies: "caravans and other connectable vehicles", Craft: []string{"vehicle", "trailer"},
			Place: PlaceRule{Bare: deviceRule("asnzs-200"), Sheathed: deviceRule("asnzs-1000")},
			Drop:  DropRule{Critical: dropLimit("asnzs3001-elv"), Other: dropLimit("asnzs3001-elv")},
		},
	}
})

// advised returns a limit that NFPA 70 advises. It tells branch circuits from
// the whole way; to hold critical and other circuits to them is our reading.
func advised(id, circuits string) working.Figure {
	f := dropLimit(id)
	f.Note = "advice, not a rule; to take it for " + circuits + " circuits is our reading"
	return f
}

// deducedAnEnd says what of a rule on devices is our own reading.
func deducedAnEnd(f working.Figure) working.Figure {
	f.Note = "the clause asks a device at the source of each conductor; one at each end that a source can feed is deduced"
	return f
}

// laidSafely says what IEC 60364-4-43 asks of the length before the device: the
// distance alone does not make it safe, so that it holds for a sheathed lead only.
func laidSafely(f working.Figure) working.Figure {
	f.Note = "only where that length cannot well be shorted, as it is laid, and lies away from what burns"
	return f
}

// SmallConductors returns the greatest ratings of devices that a code allows on
// its small copper conductors, least copper first: code "nec-small" (NFPA 70
// clause 240.4(D)) or "nec-rv" (its articles 551 and 552, at 12 V).
func SmallConductors(code string) ([]SizeRating, error) {
	if err := unlisted("code", code, smallCodes); err != nil {
		return nil, err
	}
	return smallConductors(code), nil
}

var smallCodes = []string{"nec-small", "nec-rv"}

var _ = also("code", func() []string { return smallCodes }, func(code string) string { return code })

func smallConductors(code string) []SizeRating {
	var all []SizeRating
	for _, s := range Sizes(AWG) {
		id := code + "-" + strings.TrimPrefix(s.String(), string(AWG)+" ")
		if i := slices.IndexFunc(deviceRules(), func(r rule) bool { return r.id == id }); i >= 0 {
			all = append(all, SizeRating{s, deviceRules()[i].figure})
		}
	}
	return all
}

// constantOf returns the constant that one document gives.
func constantOf(material, quantity, document string) working.Figure {
	all, _ := Constants(material, quantity)
	for _, f := range all {
		if f.Source.Key == document {
			return f
		}
	}
	panic("no " + quantity + " in " + document)
}

// inverse turns "rating at least 1.25 times the load" into "load at most 0.8 of
// the rating".
func inverse(f working.Figure) working.Figure {
	f.Note = "printed as a rating of at least " + f.Value.String() + " times the load"
	f.Value = decimal.NewFromInt(1).DivRound(f.Value, 4)
	return f
}
