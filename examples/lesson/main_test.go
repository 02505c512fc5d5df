package main

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/extralow/battery"
	"example.org/extralow/charge"
	"example.org/extralow/examples/programtest"
	"example.org/extralow/protect"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working/workingtest"
	"example.org/extralow/wire"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var d = decimal.RequireFromString

func some(s string) decimal.NullDecimal { return decimal.NewNullDecimal(d(s)) }

var (
	program = programtest.Program(run)
	ask     = program.Ask
)

// sheets are what the golden files hold.
var sheets = map[string][]string{
	"questions.txt": nil,
	"answers.txt":   {"-answers"},
	"seed-7.txt":    {"-seed", "7", "-answers"},
}

func TestSheets(t *testing.T) {
	for name, args := range sheets {
		t.Run(name, func(t *testing.T) {
			status, out, errs := ask(args...)
			require.Zero(t, status, errs)
			assert.Empty(t, errs)
			programtest.Golden(t, name, out)
		})
	}
}

func TestHelp(t *testing.T) {
	status, out, errs := ask("-h")
	assert.Zero(t, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "-answers")
	assert.Contains(t, errs, "-seed")
}

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"-seed", "x"}, `lesson: seed is "x": want a whole number from 0 to 4294967295` + "\n"},
		{[]string{"-seed", "-1"}, `lesson: seed is "-1": want a whole number from 0 to 4294967295` + "\n"},
		{[]string{"-seed", "1.5"}, `lesson: seed is "1.5": want a whole number from 0 to 4294967295` + "\n"},
		{[]string{"-seed", "4294967296"}, `lesson: seed is "4294967296": want a whole number from 0 to 4294967295` + "\n"},
		{[]string{"-cheat"}, "lesson: flag provided but not defined: -cheat\n"},
		{[]string{"7"}, `lesson: "7" is no flag: want flags only, such as -seed 1` + "\n"},
	} {
		status, out, errs := ask(c.args...)
		assert.Equal(t, 2, status, "%q", c.args)
		assert.Empty(t, out, "%q", c.args)
		assert.Equal(t, c.want, errs, "%q", c.args)
	}
}

// asked is a question as it is printed. again asks the package function with
// the numbers that stand in the print; wrong is the mistake as arithmetic, on
// those numbers and the right answer, where it is no more than that.
type asked struct {
	asks  *regexp.Regexp
	again func(n []string) (decimal.Decimal, error)
	wrong func(n []string, right decimal.Decimal) decimal.Decimal
	below bool // the mistake is too small; else too large
}

// pattern turns a print into a pattern: # is a number, * a word.
func pattern(print string) *regexp.Regexp {
	quoted := regexp.QuoteMeta(print)
	quoted = strings.ReplaceAll(quoted, `#`, `([\d.]+)`)
	return regexp.MustCompile("^" + strings.ReplaceAll(quoted, `\*`, `[a-z ]+`) + "$")
}

var drilled = []asked{
	{
		asks: pattern("A * draws # A at the end of a two-core cable # m long. Each core has # mΩ/m when warm; all joints of the loop together have # mΩ. How many volts are lost?"),
		again: func(n []string) (decimal.Decimal, error) {
			drop, err := wire.Run{CurrentA: d(n[0]), LengthM: d(n[1]), MilliohmPerM: d(n[2]), JointsMilliohm: d(n[3])}.Drop()
			return drop.DropV, err
		},
		wrong: func(n []string, right decimal.Decimal) decimal.Decimal { // one core less
			return right.Sub(d(n[0]).Mul(d(n[1])).Mul(d(n[2])).Shift(-3))
		},
		below: true,
	},
	{
		asks: pattern("A feeder of # mm2, flexible (class 5), is # m long one way, out and back in the same cable. It carries # A and works at # °C. How many volts does it lose, joints left out?"),
		again: func(n []string) (decimal.Decimal, error) {
			r, err := wire.Conductor{Size: size(n[0]), Class: tables.Flexible, PlainCopper: true}.Resistance(d(n[3]))
			if err != nil {
				return decimal.Decimal{}, err
			}
			drop, err := wire.Run{LengthM: d(n[1]), CurrentA: d(n[2]), MilliohmPerM: r.MilliohmPerM}.Drop()
			return drop.DropV, err
		},
		wrong: func(n []string, _ decimal.Decimal) decimal.Decimal { // IEC 60228 table 3, class 5, at 20 °C
			cold := map[string]string{"6": "3.30", "10": "1.91", "16": "1.21"}[n[0]]
			return d("2").Mul(d(n[1])).Mul(d(n[2])).Mul(d(cold)).Shift(-3)
		},
		below: true,
	},
	{
		asks: pattern("A cable of # mm2 with 90 °C insulation lies in a duct (method B) with others, # circuits in all, in a space of # °C. Its terminals bear 90 °C. What may it carry by the European rule set?"),
		again: func(n []string) (decimal.Decimal, error) {
			return european(n[0], n[2], n[1], "90")
		},
	},
	{
		asks: pattern("A cable of # mm2 with 90 °C insulation lies alone in a duct (method B) in a space of # °C. It ends on an isolator whose terminals bear # °C. What may it carry by the European rule set?"),
		again: func(n []string) (decimal.Decimal, error) {
			return european(n[0], n[1], "1", n[2])
		},
	},
	{
		asks: pattern("A fridge and its fan take # A for hours through a cable that may carry # A as installed. Which is the smallest blade fuse (ISO 8820-3 C) for it by the European rule set, loaded as practice does?"),
		again: func(n []string) (decimal.Decimal, error) {
			w, err := window("ISO 8820-3 C", protect.Need{DesignA: d(n[0]), AmpacityA: d(n[1])})
			return w.BestA.Decimal, err
		},
		below: true,
	},
	{
		asks: pattern("A cable may carry # A as installed; its load is # A. Which is the largest gG link (IEC 60269 gG) that protects it by the European rule set?"),
		again: func(n []string) (decimal.Decimal, error) {
			w, err := window("IEC 60269 gG", protect.Need{DesignA: d(n[1]), AmpacityA: d(n[0]), Brief: true})
			return w.InsideA[len(w.InsideA)-1], err
		},
	},
	{
		asks: pattern("A bank of LiFePO4 lacks # Ah. The charger gives # A, and loads of # A run meanwhile. How long does it take to refill, by the recharge factor of the tables, #?"),
		again: func(n []string) (decimal.Decimal, error) {
			return refilled(charge.Refill{Chemistry: "LiFePO4", MissingAh: d(n[0]), CurrentA: d(n[1]), LoadA: decimal.NewNullDecimal(d(n[2]))})
		},
		wrong: func(n []string, _ decimal.Decimal) decimal.Decimal {
			return d(n[3]).Mul(d(n[0])).Div(d(n[1])).RoundUp(4)
		},
		below: true,
	},
	{
		asks: pattern("A bank of lead-acid flooded lacks # Ah. The charger gives # A and no load runs. How long does it take to refill, by the largest recharge factor of the tables, #?"),
		again: func(n []string) (decimal.Decimal, error) {
			return refilled(charge.Refill{Chemistry: "lead-acid flooded", MissingAh: d(n[0]), CurrentA: d(n[1]), LoadA: decimal.NewNullDecimal(decimal.Zero)})
		},
		wrong: func(n []string, _ decimal.Decimal) decimal.Decimal { return d(n[0]).DivRound(d(n[1]), 4) },
		below: true,
	},
	{
		asks: pattern("# lithium batteries stand side by side, each of # V full and # mΩ when new. From the bank to the main fuse and back there are # mΩ, cold. Which current must the fuse be able to break?"),
		again: func(n []string) (decimal.Decimal, error) {
			count, err := strconv.Atoi(n[0])
			if err != nil {
				return decimal.Decimal{}, err
			}
			bank := battery.Bank{Series: 1}
			for range count {
				bank.Batteries = append(bank.Batteries, battery.BankBattery{
					Name: "one", Chemistry: "LiFePO4", NominalV: d("12.8"), CapacityAh: d("1"),
					FullV: d(n[1]), EmptyV: d("12"), LowMilliohm: some(n[2]), HighMilliohm: some("99"), LeadMilliohm: some("0"),
				})
			}
			f, err := bank.Fault(battery.FaultPath{LowMilliohm: d(n[3]), HighMilliohm: some(n[3]), LimitedA: some("0")})
			return f.GreatestA.Decimal, err
		},
		wrong: func(n []string, _ decimal.Decimal) decimal.Decimal { // Ohm's law for one battery
			return d(n[1]).Shift(3).Div(d(n[2]).Add(d(n[3]))).RoundUp(2)
		},
		below: true,
	},
	{
		asks: pattern("An inverter on a # V bank gives # W at an efficiency of # %, draws # W besides for itself, and switches off below # V at its terminals. Which steady current must its cables bear?"),
		again: func(n []string) (decimal.Decimal, error) {
			draw, err := battery.Inverter{EfficiencyPercent: some(n[2]), IdleW: some(n[3])}.Draw(d(n[1]), d(n[4]))
			return draw.CurrentA, err
		},
		below: true,
	},
}

func size(mm2 string) tables.Size {
	s, err := tables.ParseSize(mm2 + " mm2")
	if err != nil {
		panic(err)
	}
	return s
}

func european(mm2, ambientC, grouped, terminalC string) (decimal.Decimal, error) {
	set, err := tables.RuleSetOf("european")
	if err != nil {
		return decimal.Decimal{}, err
	}
	count, err := strconv.Atoi(grouped)
	if err != nil {
		return decimal.Decimal{}, err
	}
	a, err := wire.Conductor{
		Size: size(mm2), Class: tables.Flexible, Method: "B", InsulationC: d("90"),
		AmbientC: some(ambientC), Grouped: count, TerminalC: some(terminalC),
	}.Ampacity(set.Ampacity)
	return a.AmpacityA, err
}

func window(family string, n protect.Need) (protect.Window, error) {
	set, err := tables.RuleSetOf("european")
	if err != nil {
		return protect.Window{}, err
	}
	return n.Window(set.Device, family)
}

func refilled(r charge.Refill) (decimal.Decimal, error) {
	times, err := r.Times()
	most := decimal.Zero
	for _, one := range times {
		most = decimal.Max(most, one.TimeH)
	}
	return most, err
}

// TestAnswers reads each question as it is printed, asks the package function
// again with the numbers that stand there, and compares the answers; the
// mistake must be another number, on the side that does harm.
func TestAnswers(t *testing.T) {
	for seed := range uint64(150) {
		questions, err := drill(seed)
		require.NoError(t, err)
		require.Len(t, questions, len(drilled))
		for i, q := range questions {
			workingtest.Guard(t, q.lines)
			m := drilled[i].asks.FindStringSubmatch(q.asks)
			require.NotNil(t, m, q.asks)
			again, err := drilled[i].again(m[1:])
			require.NoError(t, err, q.asks)
			assert.True(t, again.Equal(q.answer), "%s is %s, said %s", q.asks, again, q.answer)
			assert.Equal(t, drilled[i].below, q.wrong.LessThan(q.answer), "%s: %s for %s", q.asks, q.wrong, q.answer)
			assert.False(t, q.wrong.Equal(q.answer), q.asks)
			if drilled[i].wrong != nil {
				wrong := drilled[i].wrong(m[1:], q.answer)
				within := wrong.Sub(q.wrong).Abs().LessThanOrEqual(d("0.0002"))
				assert.True(t, within, "%s: the mistake is %s, said %s", q.asks, wrong, q.wrong)
			}
		}
	}
}

// TestPages checks the width and the arithmetic of the print, that each answer
// stands in it, and that the sheet for the class holds none.
func TestPages(t *testing.T) {
	for _, seed := range []uint64{0, 1, 2, 3, 99, 4294967295} {
		questions, err := drill(seed)
		require.NoError(t, err)
		_, plain, errs := ask("-seed", fmt.Sprint(seed))
		require.Empty(t, errs)
		assert.NotContains(t, plain, "Answer: ")
		_, solved, errs := ask("-seed", fmt.Sprint(seed), "-answers")
		require.Empty(t, errs)
		for _, q := range questions {
			assert.Contains(t, flat(plain), q.asks)
			assert.Contains(t, flat(solved), "Answer: "+q.name+" "+q.amount(q.answer)+".")
		}
		workingtest.Page(t, fmt.Sprint(seed), solved)
		programtest.Narrow(t, plain+solved)
		assert.Regexp(t, `\nCaution: [^\n]+\n$`, plain)
		assert.Regexp(t, `\nCaution: [^\n]+\n$`, solved)
	}
}

// flat undoes the breaking of lines.
func flat(page string) string { return strings.Join(strings.Fields(page), " ") }

// TestSeeds wants one sheet for one seed, and different sheets for different
// seeds.
func TestSeeds(t *testing.T) {
	seen := map[string]bool{}
	for seed := range 40 {
		_, out, _ := ask("-seed", fmt.Sprint(seed))
		_, again, _ := ask("-seed", fmt.Sprint(seed))
		assert.Equal(t, out, again)
		_, body, _ := strings.Cut(out, "\n")
		seen[body] = true
	}
	assert.Len(t, seen, 40)
}
