package paper_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/paper"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAuditIsNarrow: the largest figures and the longest words of a load keep to
// 80 columns, and no line ends in blanks.
func TestAuditIsNarrow(t *testing.T) {
	r := paper.Report{Audit: facts.Audit{
		EnergyWh: d("480000"),
		Loads: []facts.LoadAudit{{
			Load: "an apparatus with quite a long name", PowerW: decimal.NewNullDecimal(d("12345.678")), HoursADay: d("12.3456789"),
			DutyPercent: d("33.333333"), EnergyWh: d("123456.7"), SharePercent: d("100"), SurgeW: decimal.NewNullDecimal(d("40000")),
			StartA: d("3876.5"), AloneH: decimal.NewNullDecimal(d("1234.5")), TooFast: true, Class: "intermittent", MustRun: true,
		}},
		Idle: []facts.IdleAudit{{Inverter: "an inverter with a long name", IdleW: d("499.123456"), OnHours: d("23.987654"), EnergyWh: d("11976")}},
	}}
	var out strings.Builder
	require.NoError(t, paper.Text(&out, "job.yaml", r, ""))
	for line := range strings.Lines(out.String()) {
		line = strings.TrimSuffix(line, "\n")
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
	table, _, ok := strings.Cut(out.String()[strings.Index(out.String(), "Load audit"):], "Duty and share")
	require.True(t, ok)
	assert.NotContains(t, table, " \n")
	assert.Contains(t, table, "intermittent*")
}
