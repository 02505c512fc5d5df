package tables

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// CellVoltage is what one source asks of a cell in a stage of charging.
type CellVoltage struct {
	Stage      string          `json:"stage"`
	Condition  string          `json:"condition"`
	Least      working.Figure  `json:"least"`    // V a cell
	Greatest   working.Figure  `json:"greatest"` // V a cell
	ReferenceC decimal.Decimal `json:"voltage_reference_c"`
}

type cellVoltageRow struct {
	chemistry string
	voltage   CellVoltage
}

var cellVoltages = load("charge-voltages", func(r *record) cellVoltageRow {
	label := []string{r.text("chemistry"), r.text("stage")}
	if c := r.text("condition"); c != "" {
		label = append(label, c)
	}
	return cellVoltageRow{r.text("chemistry"), CellVoltage{
		r.text("stage"), r.text("condition"),
		r.figure("v_per_cell_min", "V", label...), r.figure("v_per_cell_max", "V", label...),
		r.number("reference_c"),
	}}
})

var chargeStages = indexed("stage", cellVoltages, func(r cellVoltageRow) string { return r.voltage.Stage })

// CellVoltages returns what each source asks of a cell in a stage ("absorption",
// "float", "equalise", "boost", "limit"; [Names] "stage"). Sources differ and all of them are
// returned, in the order of the table: the rows of the chemistry's own name or,
// where there are none, of the nearest more general one. No row is
// [ErrNotListed].
func CellVoltages(chemistry Chemistry, stage string) ([]CellVoltage, error) {
	if _, err := chargeStages().of(stage); err != nil {
		return nil, errors.Join(chemistry.Check("chemistry"), err)
	}
	rows, err := chemistryRows(cellVoltages(), chemistry, func(r cellVoltageRow, name string) bool {
		return r.chemistry == name && r.voltage.Stage == stage
	})
	if err != nil {
		return nil, fmt.Errorf("%s voltage of %s: %w", stage, chemistry, err)
	}
	all := make([]CellVoltage, len(rows))
	for i, r := range rows {
		all[i] = r.voltage
	}
	return all, nil
}

// GreatestCellVoltage returns the highest voltage that any source asks of a cell, in
// whichever stage: of the rows of the chemistry's own name or, where there are none, of
// the nearest more general one. No cell is charged higher. No row is [ErrNotListed].
func GreatestCellVoltage(chemistry Chemistry) (working.Figure, error) {
	rows, err := chemistryRows(cellVoltages(), chemistry, func(r cellVoltageRow, name string) bool { return r.chemistry == name })
	if err != nil {
		return working.Figure{}, fmt.Errorf("highest voltage of a cell of %s: %w", chemistry, err)
	}
	highest := slices.MaxFunc(rows, func(a, b cellVoltageRow) int { return a.voltage.Greatest.Value.Cmp(b.voltage.Greatest.Value) })
	return highest.voltage.Greatest, nil
}

// Compensation is a temperature coefficient of the charging voltage.
type Compensation struct {
	Condition  string              `json:"condition"`
	Slope      working.Figure      `json:"slope"` // mV/°C a cell, negative: lower when hot
	ReferenceC decimal.Decimal     `json:"voltage_reference_c"`
	LowC       decimal.NullDecimal `json:"compensation_low_c"`  // it holds from here
	HighC      decimal.NullDecimal `json:"compensation_high_c"` // to here
}

type compensationRow struct {
	chemistry    string
	compensation Compensation
}

var compensations = load("temperature-compensation", func(r *record) compensationRow {
	return compensationRow{r.text("chemistry"), Compensation{
		r.text("condition"), r.figure("mv_per_c_per_cell", "mV/°C", r.text("chemistry"), r.text("condition")),
		r.number("reference_c"), r.optional("low_limit_c"), r.optional("high_limit_c"),
	}}
})

// Compensations returns the temperature coefficients that sources give for a
// chemistry and for its more general names, in the order of the table: they
// differ, and the caller names one by its condition.
func Compensations(chemistry Chemistry) ([]Compensation, error) {
	rows, err := everyRow(compensations(), chemistry, "temperature compensation", func(r compensationRow) string { return r.chemistry })
	if err != nil {
		return nil, err
	}
	all := make([]Compensation, len(rows))
	for i, r := range rows {
		all[i] = r.compensation
	}
	return all, nil
}

type chemistryFigure struct {
	chemistry, name, condition string
	figure                     working.Figure
}

var acceptanceLaws = load("acceptance-laws", func(r *record) chemistryFigure {
	f := chemistryFigure{chemistry: r.text("chemistry"), name: r.text("parameter"), condition: r.text("condition")}
	if r.optional("value").Valid {
		f.figure = r.figure("value", unitOf(r.text("unit")), r.text("parameter"))
	}
	return f
})

// unitOf turns the unit of a data file into the one of the vocabulary.
func unitOf(text string) string {
	return strings.NewReplacer("ratio", "", "1/h", "A/Ah").Replace(text)
}

// AcceptPerHour returns the most current that a chemistry takes without gassing
// for each ampere-hour missing. Only lead-acid has such a law; else it is
// [ErrNotListed].
func AcceptPerHour(chemistry Chemistry) (working.Figure, error) {
	return oneFigure(acceptanceLaws(), chemistry, "greatest current by missing ampere-hour")
}

// oneFigure returns the first row of that name for the chemistry.
func oneFigure(rows []chemistryFigure, chemistry Chemistry, name string) (working.Figure, error) {
	found, err := chemistryRows(rows, chemistry, func(r chemistryFigure, kind string) bool {
		return r.chemistry == kind && r.name == name
	})
	if err != nil {
		return working.Figure{}, fmt.Errorf("%s of %s: %w", name, chemistry, err)
	}
	return found[0].figure, nil
}

var absorptionRules = load("absorption-rules", func(r *record) chemistryFigure {
	f := chemistryFigure{r.text("chemistry"), r.text("rule"), r.text("condition"), r.figure("value", unitOf(r.text("unit")), r.text("chemistry"), r.text("rule"))}
	f.figure.Note = r.text("note")
	return f
})

var absorptionNames = indexed("absorption_rule", absorptionRules, func(r chemistryFigure) string { return r.name })

// AbsorptionRule returns what is usual at the end of a charge: "tail current" (A
// for each Ah of capacity) or "absorption time" (h for each Ah of capacity over
// the bulk current).
func AbsorptionRule(chemistry Chemistry, rule string) (working.Figure, error) {
	if _, err := absorptionNames().of(rule); err != nil {
		return working.Figure{}, errors.Join(chemistry.Check("chemistry"), err)
	}
	return oneFigure(absorptionRules(), chemistry, rule)
}

// RechargeFactor is one rule for the time that a charge takes.
type RechargeFactor struct {
	Condition string         `json:"condition"`
	Formula   string         `json:"formula"`
	Factor    working.Figure `json:"factor,omitzero"`
}

type rechargeRow struct {
	chemistry string
	factor    RechargeFactor
}

var rechargeFactors = load("charge-time-factors", func(r *record) rechargeRow {
	row := rechargeRow{r.text("chemistry"), RechargeFactor{Condition: r.text("condition"), Formula: r.text("formula")}}
	if r.optional("value").Valid {
		label := strings.TrimSuffix(r.text("chemistry")+", "+r.text("condition"), ", ")
		row.factor.Factor = r.figure("value", unitOf(r.text("unit")), label)
	}
	return row
})

// RechargeFactors returns every published factor k of t = k × Ah ÷ A for a
// chemistry and for its more general names, in the order of the table: rules of
// thumb that differ.
func RechargeFactors(chemistry Chemistry) ([]RechargeFactor, error) {
	rows, err := everyRow(chargingTimes(), chemistry, "recharge factor", func(r rechargeRow) string { return r.chemistry })
	if err != nil {
		return nil, err
	}
	all := make([]RechargeFactor, len(rows))
	for i, r := range rows {
		all[i] = r.factor
	}
	return all, nil
}

// chargingTimes are the rows of t = k Q ÷ I.
func chargingTimes() []rechargeRow {
	return slices.DeleteFunc(slices.Clone(rechargeFactors()), func(r rechargeRow) bool { return r.factor.Formula != "t = k Q / I" })
}

// StandingLoadFactor returns the factor of the rule that sizes a charger with a
// standing load: I = L + k Q ÷ t.
func StandingLoadFactor() working.Figure { return factorOf("I = L + k Q / t") }

// PlateCurrent returns the slow charging current for each positive plate.
func PlateCurrent() working.Figure { return factorOf("I = k p") }

// factorOf returns the factor of the first rule of that formula; the library
// asks only for rules that its data have.
func factorOf(formula string) working.Figure {
	rows := rechargeFactors()
	i := slices.IndexFunc(rows, func(r rechargeRow) bool { return r.factor.Formula == formula })
	if i < 0 {
		panic("no factor of " + formula)
	}
	return rows[i].factor.Factor
}

type letterRow struct {
	code, kind, parts, ends, meaning string
}

var letterRows = load("charge-letters", func(r *record) letterRow {
	r.source()
	return letterRow{r.text("code"), r.text("kind"), r.text("parts"), r.text("ends"), r.text("meaning")}
})

// CharacteristicMeaning returns what the letters of a charging characteristic
// stand for: "IUoU" is "bulk, absorption and float".
func CharacteristicMeaning(letters string) (string, error) {
	r, err := characteristics().first(letters)
	return r.meaning, err
}

var characteristics = indexed("characteristic", where(letterRows, func(r letterRow) bool { return r.kind == "curve" }),
	func(r letterRow) string { return r.code })

// EfficiencyBand is a coulombic efficiency that holds over a range of charge.
type EfficiencyBand struct {
	Kind        string              `json:"kind"`
	FromPercent decimal.Decimal     `json:"from_percent"`
	ToPercent   decimal.NullDecimal `json:"to_percent"`
	Least       working.Figure      `json:"least,omitzero"`    // zero where the source gives none
	Usual       working.Figure      `json:"usual,omitzero"`    // zero where the source gives none
	Greatest    working.Figure      `json:"greatest,omitzero"` // zero where the source gives none
}

type efficiencyRow struct {
	chemistry string
	band      EfficiencyBand
}

var coulombicRows = load("coulombic-efficiency", func(r *record) efficiencyRow {
	row := efficiencyRow{r.text("chemistry"), EfficiencyBand{
		Kind: r.text("kind"), FromPercent: r.number("soc_min_percent"), ToPercent: r.optional("soc_max_percent"),
	}}
	for column, figure := range map[string]*working.Figure{
		"efficiency_min": &row.band.Least, "efficiency_typ": &row.band.Usual, "efficiency_max": &row.band.Greatest,
	} {
		if r.optional(column).Valid {
			*figure = r.figure(column, "", r.text("chemistry"), r.text("kind"))
		}
	}
	return row
})

// CoulombicEfficiencies returns what sources say of the share of the charge that
// a battery keeps, for a chemistry and for its more general names.
func CoulombicEfficiencies(chemistry Chemistry) ([]EfficiencyBand, error) {
	rows, err := everyRow(coulombicRows(), chemistry, "coulombic efficiency", func(r efficiencyRow) string { return r.chemistry })
	if err != nil {
		return nil, err
	}
	all := make([]EfficiencyBand, len(rows))
	for i, r := range rows {
		all[i] = r.band
	}
	return all, nil
}

type coldRate struct {
	chemistry string
	from, to  decimal.Decimal // °C; it holds from, and below, these
	rate      working.Figure
}

// coldCondition is how a table writes a stretch of temperature: "0 to 5 C",
// "below 0 C".
var coldCondition = regexp.MustCompile(`^(?:below|(-?\d+) to) (-?\d+) C$`)

// coldRates gathers the rows that hold the charging rate down in the cold.
var coldRates = sync.OnceValue(func() []coldRate {
	var all []coldRate
	add := func(chemistry, condition string, rate working.Figure) {
		m := coldCondition.FindStringSubmatch(condition)
		if m == nil {
			return
		}
		from := decimal.NewFromInt(-273)
		if m[1] != "" {
			from = decimal.RequireFromString(m[1])
		}
		rate.Unit = "A/Ah"
		all = append(all, coldRate{chemistry, from, decimal.RequireFromString(m[2]), rate})
	}
	for _, r := range batteryLimits() {
		if r.parameter == "charge_rate_limit" {
			add(r.chemistry, r.span.Condition, r.span.Typical)
		}
	}
	for _, r := range terminations() {
		if r.name == "greatest charging current" {
			add(r.chemistry, r.condition, r.figure)
		}
	}
	return all
})

var terminations = load("charge-termination", func(r *record) chemistryFigure {
	return chemistryFigure{r.text("chemistry"), r.text("criterion"), r.text("condition"), r.figure("value", unitOf(r.text("unit")), r.text("criterion"), r.text("condition"))}
})

// ColdChargeRate returns the greatest charging current for each ampere-hour of
// capacity that a source allows at a cold battery's temperature: the smallest of
// the chemistry's own figures and of its more general names'. It is
// [ErrNotListed] where none holds the rate down at that temperature.
func ColdChargeRate(chemistry Chemistry, batteryC decimal.Decimal) (working.Figure, error) {
	if err := errors.Join(chemistry.Check("chemistry"), inKelvins("battery_c", batteryC)); err != nil {
		return working.Figure{}, err
	}
	var lowest working.Figure
	for _, r := range coldRates() {
		own := chemistry.Is(Chemistry(r.chemistry))
		within := batteryC.GreaterThanOrEqual(r.from) && batteryC.LessThan(r.to)
		if own && within && (!lowest.Stated() || r.rate.Value.LessThan(lowest.Value)) {
			lowest = r.rate
		}
	}
	if !lowest.Stated() {
		return working.Figure{}, fmt.Errorf("charging rate of %s at %s °C: %w", chemistry, batteryC, ErrNotListed)
	}
	return lowest, nil
}
