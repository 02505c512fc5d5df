package rules

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/randomjob"
	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// direction is one key of the file, the way in which its danger grows, and the
// rules that it bears on.
type direction struct {
	key   string // "circuits.length_m": of every item of a list
	grows string // "×2", "÷1.5", "+10", "-10" at each step; "thinner"; "gone"
	rules string
}

// directions are what the rules say of themselves: whatever grows so can only make
// those rules worse.
var directions = func() (all []direction) {
	for _, r := range Rules() {
		for _, g := range r.Worse {
			i := slices.IndexFunc(all, func(d direction) bool { return d.key == g.Key && d.grows == g.By })
			if i < 0 {
				i, all = len(all), append(all, direction{key: g.Key, grows: g.By})
			}
			all[i].rules = strings.TrimSpace(all[i].rules + " " + r.ID)
		}
	}
	return all
}()

// steps is how often the danger grows.
const steps = 4

// backwards are the directions and rules in which a growing danger turns what did
// not pass into a pass today, with what it is. One that no longer does has to be
// taken off.
var backwards = map[string]string{}

// TestDangerNeverHelps lets one danger grow at a time, in the samples and in jobs
// at random: what a rule no longer lets pass it never lets pass again. A failure
// may turn into what cannot be told.
func TestDangerNeverHelps(t *testing.T) {
	if testing.Short() {
		t.Skip("it judges hundreds of jobs")
	}
	seen := make([]map[string]string, len(directions))
	t.Run("directions", func(t *testing.T) {
		for i, d := range directions {
			seen[i] = map[string]string{}
			t.Run(d.key+" "+d.grows, func(t *testing.T) {
				t.Parallel()
				tried := 0
				for _, text := range dangerJobs(t, i) {
					tried += d.climb(t, text, rand.New(rand.NewPCG(uint64(i), 1)), seen[i])
				}
				assert.Positive(t, tried, "no job states it")
			})
		}
	})
	found := map[string]string{}
	for _, s := range seen {
		maps.Copy(found, s)
	}
	for what, how := range found {
		assert.Contains(t, backwards, what, how)
	}
	for what := range backwards {
		assert.Contains(t, found, what, "it no longer does: take it off")
	}
}

// dangerJobs are the sound samples, one of the others and two jobs at random, for
// each direction other ones.
func dangerJobs(t *testing.T, direction int) [][]byte {
	others := []string{"trailer-with-faults", "survey-launch-with-faults", "no-fuse-fits"}
	var all [][]byte
	for _, name := range []string{"clinic", "library-truck", "river-workboat", others[direction%len(others)]} {
		text, err := os.ReadFile(filepath.Join("..", "jobs", name+".yaml"))
		require.NoError(t, err)
		all = append(all, text)
	}
	return append(all, randomjob.Text(uint64(2*direction)), randomjob.Text(uint64(2*direction+1)))
}

// climb lets the danger of one item of a job grow, and notes each rule that passes
// again; it returns how many steps could be taken.
func (d direction) climb(t *testing.T, text []byte, r *rand.Rand, seen map[string]string) (tried int) {
	bad := map[string]bool{}
	which := r.IntN(1000)
	for step := range steps + 1 {
		file, err := job.Read("job.yaml", bytes.NewReader(text))
		require.NoError(t, err)
		j := file.Job()
		all := stated(reflect.ValueOf(&j).Elem(), strings.Split(d.key, "."), "")
		if len(all) == 0 {
			return tried
		}
		at := all[which%len(all)]
		if step > 0 && !at.grow(t, d.grows, step) {
			return tried
		}
		now, ok := verdictsOf(t, j, strings.Fields(d.rules))
		if !ok {
			return tried // it is no job any more, or nothing can be worked out
		}
		tried += min(step, 1)
		for id, isBad := range now {
			if step == 0 && d.twoSided(id) {
				isBad = false // it may be bad on the other side
			}
			if bad[id] && !isBad {
				what := fmt.Sprintf("%s %s: %s", d.key, d.grows, id)
				seen[what] = fmt.Sprintf("%s passes again in %s at step %d of %s", id, j.Name, step, strings.TrimPrefix(at.path, "."))
			}
			bad[id] = bad[id] || isBad
		}
	}
	return tried
}

// twoSided reports whether a rule has a limit in the other direction as well.
func (d direction) twoSided(id string) bool {
	return slices.ContainsFunc(directions, func(o direction) bool {
		return o.key == d.key && o.grows != d.grows && slices.Contains(strings.Fields(o.rules), id)
	})
}

// verdictsOf tells of each rule whether anything fails or cannot be told.
func verdictsOf(t *testing.T, j job.Job, ids []string) (bad map[string]bool, ok bool) {
	m, err := facts.New(j)
	if err != nil {
		return nil, false
	}
	bad = map[string]bool{}
	for _, id := range ids {
		rule, ok := Find(id)
		require.True(t, ok, "no rule is called %s", id)
		found, err := Ask(m, rule)
		if err != nil {
			return nil, false
		}
		bad[id] = slices.ContainsFunc(found, noPass)
	}
	return bad, true
}

// handedOver is said of what another rule has found already: that one fails.
var handedOver = regexp.MustCompile(`see [WPBC][0-9]{2}`)

func noPass(f Finding) bool {
	switch f.Verdict() {
	case working.Fails, working.CannotTell:
		return true
	default:
		return handedOver.MatchString(f.Silent)
	}
}

// place is a value of a job that is stated, and its range.
type place struct {
	path        string
	value       reflect.Value
	least, most decimal.Decimal
}

// stated finds the values of a key that the job states.
func stated(in reflect.Value, keys []string, path string) (all []place) {
	switch {
	case in.Kind() == reflect.Pointer && in.IsNil():
		return nil
	case in.Kind() == reflect.Pointer:
		return stated(in.Elem(), keys, path)
	case in.Kind() == reflect.Slice:
		for i := range in.Len() {
			all = append(all, stated(in.Index(i), keys, fmt.Sprintf("%s[%d]", path, i))...)
		}
		return all
	}
	for i := range in.NumField() {
		field := in.Type().Field(i)
		name, _, _ := strings.Cut(strings.TrimPrefix(field.Tag.Get("job"), "?"), "|")
		switch {
		case field.Anonymous:
			all = append(all, stated(in.Field(i), keys, path)...)
		case name != keys[0]:
		case len(keys) > 1:
			all = append(all, stated(in.Field(i), keys[1:], path+"."+name)...)
		case !in.Field(i).IsZero():
			least, most, _ := strings.Cut(strings.TrimSuffix(field.Tag.Get("want"), " whole"), "..")
			p := place{path + "." + name, in.Field(i), decimal.NewFromInt(-1000), decimal.NewFromInt(1_000_000)}
			if most != "" {
				p.least, p.most = decimal.RequireFromString(least), decimal.RequireFromString(most)
			}
			all = append(all, p)
		}
	}
	return all
}

// grow makes the danger so many steps greater; it is not ok beyond what a file may
// state.
func (p place) grow(t *testing.T, how string, step int) bool {
	switch x := p.value.Addr().Interface().(type) {
	case *decimal.Decimal:
		*x = grown(t, *x, how, step)
		return !x.LessThan(p.least) && !x.GreaterThan(p.most)
	case *decimal.NullDecimal:
		x.Decimal = grown(t, x.Decimal, how, step)
		return !x.Decimal.LessThan(p.least) && !x.Decimal.GreaterThan(p.most)
	case *tables.Size:
		return thinner(t, x, step)
	default:
		require.Equal(t, "gone", how)
		p.value.SetZero()
		return step == 1
	}
}

// grown is a value after so many steps.
func grown(t *testing.T, x decimal.Decimal, how string, step int) decimal.Decimal {
	by := decimal.RequireFromString(strings.TrimLeft(how, "×÷+"))
	for range step {
		switch {
		case strings.HasPrefix(how, "×"):
			x = x.Mul(by)
		case strings.HasPrefix(how, "÷"):
			x = x.DivRound(by, 6)
		case strings.HasPrefix(how, "+"), strings.HasPrefix(how, "-"):
			x = x.Add(by)
		default:
			require.Fail(t, "no such direction", how)
		}
	}
	if how == "×3" || how == "×2" {
		return x // whole numbers stay whole
	}
	return x.Round(4)
}

// thinner takes the size so many steps down.
func thinner(t *testing.T, s *tables.Size, step int) bool {
	all := []string{"0.5 mm2", "1 mm2", "1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2", "25 mm2", "35 mm2", "50 mm2", "70 mm2", "95 mm2", "120 mm2"}
	if strings.HasPrefix(s.String(), "AWG") {
		all = []string{"AWG 16", "AWG 14", "AWG 12", "AWG 10", "AWG 8", "AWG 6", "AWG 4", "AWG 2", "AWG 1/0", "AWG 2/0", "AWG 3/0"}
	}
	at := slices.Index(all, s.String()) - step
	if at < 0 {
		return false
	}
	var err error
	*s, err = tables.ParseSize(all[at])
	require.NoError(t, err)
	return true
}
