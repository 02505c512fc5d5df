package rules

import (
	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/protect"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

var ofSelectivity = []Rule{
	{
		ID: "P13", Also: []string{"P12", "P25"}, Title: "The device nearer the load opens first",
		Danger:  "a fault in one circuit puts out those beside it as well",
		Why:     "of two devices in series the one at the fault should open and leave the other closed",
		Sources: []string{"IEC 60269-1", "IEC 60269-2", "data sheet"},
		Grade:   WillNotServe, Rank: 460,
		Changes: Cables | Devices, Slow: true,
		Tries: []Try{OtherRating}, Untried: []string{"P25"},
		Advice: "fit the larger rating nearer the source",
		AdviceFor: map[string]string{
			"P12": "fit ratings further apart, the larger nearer the source",
			"P25": "fit a lower device that lets less through, or an upper one that takes more before it opens",
		},
		Judge: selective,
	},
}

// selective judges every two devices in series on the way from a source to
// what it feeds, each pair once. Where the upper one guards one battery of several,
// those carry the current together, and the upper device bears a share; it is
// judged with one of them missing, as everything is (a management unit opens when
// it likes): of two batteries the other bears it all.
func selective(m *facts.Facts) ([]Finding, error) {
	var all []Finding
	seen := map[[2]string]bool{}
	for _, chain := range m.Chains() {
		for i, lower := range chain.Devices {
			for _, upper := range chain.Devices[i+1:] {
				pair := [2]string{lower.Path, upper.Path}
				if seen[pair] || !m.Asks(lower) && !m.Asks(upper) {
					continue
				}
				seen[pair] = true
				left, corner := m.LeftBeside(chain, lower, upper)
				c, err := opensFirst(m, lower, upper, left)
				if err != nil {
					return nil, working.In(lower.Path, err)
				}
				all = append(all, Finding{Check: c, Where: lower.Where() + ", under " + upper.Where(), Circuit: lower.Name, Node: lower.Node, Path: lower.Path, Case: corner})
			}
		}
	}
	return all, nil
}

const (
	sameRunText   = "both stand at the ends of one run: whichever opens, the same goes dark"
	unsettledText = "the gates of the two do not settle which opens first, and no ratio rule is for their kind: ask the makers for a test table of the pair"
)

// opensFirst judges one pair by the ratio rule where it is for both, and by the
// gates up to the greatest fault behind the lower. Energies settle the short
// circuit, where both open within a fraction of a second, and no ratio: what the
// gates show of smaller currents stands beside them.
// Of several upper devices side by side, so many are left: together they are one
// of the sum of their ratings. Of their energies one counts, on the strict side.
func opensFirst(m *facts.Facts, lower, upper facts.End, left int64) (working.Check, error) {
	if lower.Run == upper.Run {
		return working.Check{ID: "P13", Silent: sameRunText}, nil
	}
	if over, err := m.Overrated(lower); over || err != nil {
		return working.Check{ID: "P13", Silent: overratedText(lower)}, err
	}
	pair := protect.SeriesPair{Upper: facts.Article(upper.Fitted), Lower: facts.Article(lower.Fitted)}
	together := protect.SeriesPair{Upper: facts.SideBySide(pair.Upper, left), Lower: pair.Lower}
	ratio, err := together.Ratio("gG16")
	if err != nil || ratio.Verdict() == working.Fails {
		return ratio, err
	}
	gates, err := byGates(m, together, lower)
	if err != nil || gates.Verdict() == working.Fails {
		return gates, err
	}
	if total := lower.Fitted.TotalA2S; total.Valid {
		c, err := pair.Energies(total.Decimal, upper.Fitted.PreArcingA2S)
		if err != nil || c.Verdict() != working.CannotTell {
			return c, err
		}
	}
	if ratio.Verdict() == working.Passes {
		return ratio, nil
	}
	return gates, nil
}

// byGates leaves a pair alone that its gates do not settle: they are wide, and
// most pairs of good practice overlap in them.
func byGates(m *facts.Facts, pair protect.SeriesPair, lower facts.End) (working.Check, error) {
	through, err := m.ThroughDevice(lower)
	if err != nil {
		return working.Check{}, err
	}
	fault, _ := through.Value("I_k")
	c, err := pair.Selective(decimal.Max(fault, facts.Least))
	if c.Verdict() == working.CannotTell {
		c.Missing, c.Silent = "", unsettledText
	}
	return c, err
}
