package tables_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"testing"

	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEveryTraitIsStated: each chemistry has each trait or has it not, and says by
// whom; the wide names have a trait where a kind of theirs does, so that not to
// know the kind is never the lenient side.
func TestEveryTraitIsStated(t *testing.T) {
	for _, c := range tables.Chemistries() {
		for _, trait := range tables.Traits() {
			from, _, err := c.TraitSource(trait)
			require.NoError(t, err)
			assert.NotEqual(t, cite.Unstated, from.Confidence, "%s %s", c, trait)
			for _, wide := range tables.Chemistries() {
				if c.Is(wide) && c.Has(trait) {
					assert.True(t, wide.Has(trait), "%s %s: %s does", wide, trait, c)
				}
			}
		}
	}
	_, _, err := tables.LiFePO4.TraitSource("glows")
	assert.ErrorContains(t, err, `trait is "glows": want one of gasses, freezes, `)
	_, _, err = tables.Chemistry("lithium").TraitSource(tables.Gasses)
	assert.Len(t, working.Inputs(err), 1)
}

// TestTraits compares with what the documents print: IEC 62485-2 has gas for lead
// and vented nickel-cadmium; practice forbids a charge of lithium below freezing and
// allows lead and nickel a slow one.
func TestTraits(t *testing.T) {
	for trait, of := range map[tables.Trait][]tables.Chemistry{
		tables.Gasses:             {"lead-acid flooded", "lead-acid AGM", "lead-acid gel", "lead-acid VRLA", "lead-acid", "NiCd"},
		tables.Freezes:            {"lead-acid flooded", "lead-acid AGM", "lead-acid gel", "lead-acid VRLA", "lead-acid"},
		tables.FlatVoltage:        {"LiFePO4", "Li-ion", "NiCd", "NiMH"},
		tables.HarmedByColdCharge: {"LiFePO4", "NMC", "Li-ion"},
		tables.ManagementUnit:     {"LiFePO4", "NMC", "Li-ion"},
		tables.FallsWithRate:      {"lead-acid flooded", "lead-acid AGM", "lead-acid gel", "lead-acid VRLA", "lead-acid", "NiCd", "NiMH"},
	} {
		for _, c := range tables.Chemistries() {
			assert.Equal(t, slices.Contains(of, c), c.Has(trait), "%s %s", c, trait)
		}
		assert.True(t, tables.Chemistry("").Has(trait), "nothing is known of it: %s", trait)
	}
	assert.True(t, tables.LiFePO4.Is(tables.LiIon) && tables.LiIon.Is(tables.LiIon) && tables.AGM.Is(tables.VRLA) && tables.AGM.Is(tables.LeadAcid))
	assert.False(t, tables.LiIon.Is(tables.LiFePO4) || tables.LeadAcid.Is(tables.VRLA) || tables.Flooded.Is(tables.VRLA))
	assert.False(t, tables.Chemistry("").Is(""))
}

// TestEveryChemistryOfTheDataIsNamed: a table that names a chemistry names one of
// the list, or says that it is for any.
func TestEveryChemistryOfTheDataIsNamed(t *testing.T) {
	names, err := fs.Glob(os.DirFS("data"), "*.csv")
	require.NoError(t, err)
	for _, name := range names {
		f, err := os.Open("data/" + name)
		require.NoError(t, err)
		rows, err := csv.NewReader(f).ReadAll()
		f.Close()
		require.NoError(t, err)
		at := slices.Index(rows[0], "chemistry")
		if at < 0 {
			continue
		}
		for _, row := range rows[1:] {
			if c := tables.Chemistry(row[at]); c != "any" && c != "generic" {
				assert.NoError(t, c.Check("chemistry"), name)
			}
		}
	}
}

// TestChemistryAsText: what is written reads back; a name that no table has is
// refused with the list and the nearest.
func TestChemistryAsText(t *testing.T) {
	type battery struct {
		Chemistry tables.Chemistry `json:"chemistry"`
	}
	for _, c := range append(tables.Chemistries(), "") {
		text, err := json.Marshal(battery{c})
		require.NoError(t, err)
		var back battery
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, c, back.Chemistry)
	}
	var read battery
	err := json.Unmarshal([]byte(`{"chemistry": "LiFePo4"}`), &read)
	assert.ErrorContains(t, err, "nearest: LiFePO4")
	assert.Empty(t, read.Chemistry)
}

// TestLookUpsRefuseUnknownChemistries: one mistake, one kind of error, in every
// look-up that takes a chemistry.
func TestLookUpsRefuseUnknownChemistries(t *testing.T) {
	const none tables.Chemistry = "lithium"
	ten := decimal.NewFromInt(10)
	for name, err := range map[string]error{
		"limits": second(tables.BatteryLimits(none, "charge_temperature")), "resistance": erring2(tables.InternalResistance(none, ten, ten)),
		"gas": second(tables.GasCurrent(none, "float")), "traction": second(tables.TractionGasCurrent(none, "W taper")),
		"cold": second(tables.ColdCapacity(none, ten)), "peukert": erring2(tables.PeukertExponents(none)),
		"volts": second(tables.CellVoltages(none, "float")), "compensation": second(tables.Compensations(none)),
		"accept": second(tables.AcceptPerHour(none)), "absorption": second(tables.AbsorptionRule(none, "tail current")),
		"recharge": second(tables.RechargeFactors(none)), "efficiency": second(tables.CoulombicEfficiencies(none)),
		"cold charge": second(tables.ColdChargeRate(none, ten)), "self-discharge": erring2(tables.SelfDischarge(none)),
		"cycles": second(tables.CycleLives(none, ten)), "voltage": second(tables.ChargeByVoltage(none, ten, ten)),
		"density": second(tables.ChargeByDensity(none, decimal.NewFromInt(1), decimal.NewFromInt(1))), "line": second(tables.ChargeByVoltageInterpolated("Sunil 2025", none, ten)),
	} {
		require.Len(t, working.Inputs(err), 1, "%s: %v", name, err)
		assert.Equal(t, "chemistry", working.Inputs(err)[0].Field, name)
		assert.Contains(t, working.Inputs(err)[0].Want, "lead-acid flooded, ", name)
	}
}

func erring2[T, U any](_ T, _ U, err error) error { return err }

// A cold charge harms lithium for good; which of its kinds stays open here.
func ExampleChemistry_Has() {
	c := tables.LiFePO4
	fmt.Println(c.Has(tables.HarmedByColdCharge), c.Has(tables.Gasses), c.Has(tables.FlatVoltage), c.Is(tables.LiIon))
	// Output:
	// true false true true
}

func ExampleChemistry_Is() {
	fmt.Println(tables.AGM.Is(tables.VRLA), tables.AGM.Is(tables.LeadAcid), tables.LeadAcid.Is(tables.AGM))
	// Output:
	// true true false
}

func ExampleChemistry_Check() {
	fmt.Println(tables.Chemistry("lead-acid gell").Check("chemistry"))
	// Output:
	// chemistry is "lead-acid gell": want one of lead-acid flooded, lead-acid AGM, lead-acid gel, lead-acid VRLA, lead-acid, LiFePO4, NMC, Li-ion, NiCd, NiMH; nearest: lead-acid gel
}

func ExampleChemistry_TraitSource() {
	from, note, err := tables.Gel.TraitSource(tables.Gasses)
	fmt.Println(from, note, err)
	// Output:
	// IEC 62485-2, table 1, lead-acid VRLA a fifth of a vented type's, by its emission factor <nil>
}

func ExampleTraits() {
	fmt.Println(tables.Traits())
	// Output:
	// [gasses freezes flat_voltage harmed_by_cold_charge management_unit falls_with_rate]
}

func ExampleChemistry_UnmarshalText() {
	var c tables.Chemistry
	fmt.Println(json.Unmarshal([]byte(`"LiFePO4"`), &c), c)
	// Output:
	// <nil> LiFePO4
}

func ExampleChemistry_MarshalText() {
	text, err := json.Marshal(tables.AGM)
	fmt.Println(string(text), err)
	// Output:
	// "lead-acid AGM" <nil>
}
