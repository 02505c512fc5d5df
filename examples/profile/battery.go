package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/extralow/charge"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// restRows are the rows of a table that give a chemistry's voltage at rest.
type restRows struct {
	table, rows, volts string          // volts is the column
	only               string          // of the column quantity; empty: there is none
	cells              decimal.Decimal // that a row's voltage is for
}

var (
	oneCell, sixCells = decimal.NewFromInt(1), decimal.NewFromInt(6)

	ofSealed = restRows{"ocv-lead-acid", "VRLA typical", "value_min", "voltage_12v", sixCells}
	restOf   = map[tables.Chemistry]restRows{
		"lead-acid flooded": {"ocv-lead-acid", "full 1.265", "value_min", "voltage_12v", sixCells},
		"lead-acid AGM":     ofSealed,
		"lead-acid gel":     ofSealed,
		"LiFePO4":           {"ocv-lithium-nickel", "Sunil 2025 ten points", "ocv_v_per_cell", "", oneCell},
		"NMC":               {"ocv-lithium-nickel", "Sunil 2025", "ocv_v_per_cell", "", oneCell},
	}
)

// origin is where the voltage at rest comes from.
type origin struct {
	text       string
	confidence cite.Confidence
}

// rest fills in the voltage at rest of so many cells.
func rest(b *charge.BatteryOnCharge, cells int) (from origin, err error) {
	if len(b.EMF) > 0 {
		return origin{"given", cite.Given}, nil
	}
	r, ok := restOf[b.Chemistry]
	if !ok {
		return from, unlisted("emf", "voltage at rest", b.Chemistry)
	}
	table, err := tables.TableOf(r.table)
	if err != nil {
		return from, err
	}
	column := func(name string) int { return slices.Index(table.Columns, name) }
	for _, row := range table.Cells() {
		of := tables.Chemistry(row[column("chemistry")])
		if row[column("table")] != r.rows || !of.Is(tables.LeadAcid) && of != b.Chemistry || r.only != "" && row[column("quantity")] != r.only {
			continue
		}
		volts := decimal.RequireFromString(row[column(r.volts)])
		b.EMF = append(b.EMF, charge.EMFPoint{
			SoCPercent: decimal.RequireFromString(row[column("soc_percent")]),
			EMFV:       volts.Mul(decimal.NewFromInt(int64(cells))).DivRound(r.cells, 4),
		})
		from.text = fmt.Sprintf("rows %q of table %s: %s (%s)", r.rows, r.table, row[column("source")], row[column("confidence")])
		if from.confidence, err = cite.ParseConfidence(row[column("confidence")]); err != nil {
			return from, err
		}
	}
	slices.SortFunc(b.EMF, func(x, y charge.EMFPoint) int { return x.SoCPercent.Cmp(y.SoCPercent) })
	return from, nil
}

// kept fills in the share of the charge that the battery keeps: step by step
// where a source has steps, else over the whole range. Between two bands the next,
// lower one holds.
func kept(b *charge.BatteryOnCharge) error {
	if len(b.Efficiency) > 0 {
		return nil
	}
	bands, err := tables.CoulombicEfficiencies(b.Chemistry)
	if errors.Is(err, tables.ErrNotListed) {
		return unlisted("coulombic_efficiency", "charge efficiency", b.Chemistry)
	}
	if err != nil {
		return err
	}
	steps := bandsOf(bands, "coulombic at low state of charge", "coulombic, incremental")
	if len(steps) == 0 {
		steps = bandsOf(bands, "coulombic, overall")
	}
	for i, band := range steps {
		from := band.FromPercent
		if i > 0 && steps[i-1].ToPercent.Valid {
			from = steps[i-1].ToPercent.Decimal
		}
		share := b.From.LookUp("η_q", stated(band))
		b.From.Note("from " + from.String() + " % up")
		b.Efficiency = append(b.Efficiency, charge.EfficiencyStep{FromPercent: from, Efficiency: share})
	}
	return nil
}

func bandsOf(all []tables.EfficiencyBand, kinds ...string) []tables.EfficiencyBand {
	var some []tables.EfficiencyBand
	for _, b := range all {
		if slices.Contains(kinds, b.Kind) {
			some = append(some, b)
		}
	}
	return some
}

// stated is the lowest figure that a band has.
func stated(b tables.EfficiencyBand) working.Figure {
	for _, f := range []working.Figure{b.Least, b.Usual} {
		if f.Stated() {
			return f
		}
	}
	return b.Greatest
}

// unlisted asks for what the tables do not have.
func unlisted(flag, what string, chemistry tables.Chemistry) error {
	return &working.InputError{Field: flag, Got: "unset", Want: "the data sheet's " + what + ": the tables have none for " + string(chemistry)}
}

// unlistedStages asks for what the tables do not have of the stages.
func unlistedStages(c charge.Characteristic) error {
	var faults []error
	want := func(flag, what string, needed bool, err error) {
		if needed && errors.Is(err, tables.ErrNotListed) {
			faults = append(faults, unlisted(flag, what, c.Chemistry))
		}
	}
	held := strings.Contains(c.Letters, "U")
	_, err := tables.CellVoltages(c.Chemistry, "absorption")
	want("absorption_cell_v", "absorption voltage of a cell", held && !c.AbsorptionV.Valid, err)
	_, err = tables.CellVoltages(c.Chemistry, "float")
	want("float_cell_v", "float voltage of a cell", c.Letters == "IUoU" && !c.FloatV.Valid, err)
	_, err = tables.Compensations(c.Chemistry)
	want("compensation_mv_per_c", "temperature compensation (0 for none)", held && !c.MilliVPerC.Valid, err)
	_, err = tables.AbsorptionRule(c.Chemistry, "tail current")
	want("tail_a", "tail current", (c.Letters == "IUoU" || c.Letters == "IUIa") && !c.TailA.Valid, err)
	return errors.Join(faults...)
}
