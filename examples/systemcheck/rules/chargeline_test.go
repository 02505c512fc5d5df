package rules_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// An alternator that cables join to the house bank charges it over a line with
// the limit of a charge line, 0.2 V (EN 1648-2): at the 135 A that the vehicle
// leaves of 180 A, or at what the bank draws where that is less.
func TestAlternatorsChargeLine(t *testing.T) {
	j := straight(t)
	f := found(t, judge(t, j), "W02", "alternator, line to the batteries")
	assert.Equal(t, working.Fails, f.Verdict())
	assert.Equal(t, "0.2", f.Limit.String())
	into, _ := f.Working.Value("I") // through the last run
	assert.Equal(t, "135", into.String())
	for _, name := range []string{"alternator lead", "battery A lead", "battery B lead"} {
		c := circuit(&j, name)
		c.Size, c.LengthM, c.ContactsMilliohm, c.Return, c.ChassisMilliohm = size(t, "120 mm2"), d("0.5"), d("0.1"), "cable", decimal.NullDecimal{}
		c.ReturnSize = tables.Size{}
	}
	assert.Equal(t, working.Passes, found(t, judge(t, j), "W02", "alternator, line to the batteries").Verdict())

	// through thin cable the bank takes less: (14.2 − 12.8) V over what is in the
	// way, the two batteries of 3 mΩ side by side among it
	circuit(&j, "alternator lead").LengthM, circuit(&j, "alternator lead").Size = d("20"), size(t, "16 mm2")
	f = found(t, judge(t, j), "W02", "alternator, line to the batteries")
	drawn, _ := f.Working.Value("I")
	assert.True(t, drawn.IsPositive() && drawn.LessThan(d("33")), drawn) // 1.4 V ÷ (2 × 20 m × 1.05 mΩ/m)
}

// A starter battery on the way does not end the line.
func TestChargeLinePastTheStarterBattery(t *testing.T) {
	j := read(t, "clinic.yaml")
	alike(&j, 2)
	split := *circuit(&j, "alternator lead")
	split.Name, split.From, split.To, split.Purpose, split.LengthM = "split charge line", "starter battery", "main bus", "charge line", d("6")
	split.Switch = &job.Switch{Kind: "contactor", RatingA: d("300"), MakesA: null("3000"), Load: "resistive"}
	j.Circuits = append(slices.Clone(j.Circuits), split)
	f := found(t, judge(t, j), "W02", "alternator, line to the batteries")
	var parts []string
	for _, s := range f.Working {
		if s.Kind == working.Part {
			parts = append(parts, s.Name)
		}
	}
	assert.Equal(t, []string{"alternator lead", "split charge line", "battery A lead", "The whole path"}, parts)
	assert.Equal(t, working.Fails, f.Verdict())
}

// A converter's input has no limit in volts of its own, however it is marked, and
// an alternator on its starter battery alone has no charge line.
func TestNoChargeLine(t *testing.T) {
	j := read(t, "clinic.yaml")
	circuit(&j, "converter feed").Purpose = "charge line"
	circuit(&j, "converter feed").LengthM = d("12")
	r := judge(t, j)
	f := found(t, r, "W02", "converter feed")
	assert.Equal(t, working.NotApplicable, f.Verdict())
	assert.Contains(t, f.Silent, "C10")
	assert.Zero(t, about(r, "W02", "alternator"))

	j = read(t, "clinic.yaml")
	circuit(&j, "fridge").Purpose = "charge line"
	assert.Contains(t, found(t, judge(t, j), "W02", "fridge").Silent, "no charger")
}

// A solar controller's line is one too: 15 A over 6 mm² and 20 m lose more than
// 0.2 V; one that senses the battery makes up for it.
func TestControllersChargeLine(t *testing.T) {
	j := read(t, "clinic.yaml")
	i := slices.IndexFunc(j.Circuits, func(c job.Circuit) bool { return c.From == "roof array" })
	j.Circuits[i].LengthM = d("20")
	assert.True(t, slices.ContainsFunc(bad(judge(t, j)), func(f string) bool { return strings.HasPrefix(f, "W02 roof array, line") }))
	j.Solar[0].RemoteSense = true
	assert.Contains(t, found(t, judge(t, j), "W02", "roof array, line to the batteries").Silent, "senses")
}
