package tables

import (
	"slices"

	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// TerminalRule says what a code makes of terminals that bear less heat than the
// insulation of the cable that ends on them. The zero rule is silence: 33 CFR 183
// and the voluntary small-craft code say nothing of it.
type TerminalRule struct {
	Ratings []TerminalRating `json:"unstated,omitempty"` // of terminals that state none, the smallest equipment first
	Tables  []TerminalTable  `json:"tables,omitempty"`
}

// TerminalRating is the temperature, in °C, that terminals bear which state
// none: those of equipment up to a rating or, where that is not known, those that
// take conductors up to a size. Without either it is that of all other equipment.
type TerminalRating struct {
	Terminal working.Figure      `json:"terminal"`
	ToA      decimal.NullDecimal `json:"rated_to_a"`
	ToSize   Size                `json:"to_size,omitzero"`
}

// TerminalTable names the table of ampacities that takes another's place at
// terminals that bear less than its insulation.
type TerminalTable struct {
	Table  string      `json:"table"`
	Takes  string      `json:"takes"`
	Source cite.Source `json:"source"`
}

var (
	terminalRatings = load("terminal-temperatures", func(r *record) namedRating {
		return namedRating{r.text("id"), TerminalRating{
			r.figure("terminal_c", "°C", r.text("condition")), r.optional("rated_to_a"), Size{r.text("size_to")},
		}}
	})
	terminalTables = load("terminal-tables", func(r *record) TerminalTable {
		return TerminalTable{r.text("table"), r.text("takes"), r.source()}
	})
)

type namedRating struct {
	id string
	TerminalRating
}

// terminalRule returns the rule of a code, with those of the table swaps that
// concern its tables.
func terminalRule(id string, tables ...string) TerminalRule {
	var rule TerminalRule
	for _, r := range terminalRatings() {
		if r.id == id {
			rule.Ratings = append(rule.Ratings, r.TerminalRating)
		}
	}
	for _, t := range terminalTables() {
		if slices.Contains(tables, t.Table) && slices.Contains(tables, t.Takes) {
			rule.Tables = append(rule.Tables, t)
		}
	}
	return rule
}

// Unstated returns the temperature, in °C, that the code takes for terminals
// that state none, by the rating of the equipment or, where that is not known, by
// the size of its conductor. Where neither is known it is the least. It is not ok
// where the code is silent: then nothing of it fails on an unstated terminal.
func (r TerminalRule) Unstated(s Size, equipmentA decimal.NullDecimal) (terminal working.Figure, ok bool) {
	for _, rating := range r.Ratings {
		if rating.holdsFor(s, equipmentA) {
			return rating.Terminal, true
		}
	}
	return working.Figure{}, false
}

func (t TerminalRating) holdsFor(s Size, equipmentA decimal.NullDecimal) bool {
	switch {
	case !t.ToA.Valid && t.ToSize.IsZero():
		return true
	case t.ToA.Valid && equipmentA.Valid:
		return equipmentA.Decimal.LessThanOrEqual(t.ToA.Decimal)
	}
	area, err := s.Area()
	return err != nil || area.Value.LessThanOrEqual(sizes()[t.ToSize].Value)
}

// AtTerminals returns the column that stands for c where its cable ends on
// terminals that bear terminalC: c itself where they bear its insulation; else of
// the table that the code names for c's (the zero source where it names none, and
// then of c's own table, as our deduction) the column of the same method that is
// no hotter than the terminals. Where none is that cool it is the coolest, and its
// InsulationC stays above terminalC: the ampacity must come down further by the
// square-root law.
func (r AmpacityRule) AtTerminals(c AmpacityColumn, terminalC decimal.Decimal) (column AmpacityColumn, from cite.Source) {
	if terminalC.GreaterThanOrEqual(c.InsulationC) {
		return c, cite.Source{}
	}
	table := c.Table
	if i := slices.IndexFunc(r.Terminals.Tables, func(t TerminalTable) bool { return t.Table == c.Table }); i >= 0 {
		table, from = r.Terminals.Tables[i].Takes, r.Terminals.Tables[i].Source
	}
	column = c
	for _, other := range columns() {
		if other.Table == table && other.Method == c.Method && column.hotterAt(terminalC, other) {
			column = other
		}
	}
	return column, from
}

// hotterAt reports whether the other column serves terminals better: it is the
// hottest that they bear, or cooler than one that they do not.
func (c AmpacityColumn) hotterAt(terminalC decimal.Decimal, other AmpacityColumn) bool {
	if c.InsulationC.GreaterThan(terminalC) {
		return other.InsulationC.LessThan(c.InsulationC)
	}
	return other.InsulationC.LessThanOrEqual(terminalC) && other.InsulationC.GreaterThan(c.InsulationC)
}
