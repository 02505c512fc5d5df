package paper

import (
	"io"

	"example.org/extralow/examples/systemcheck/rules"
)

// sets is the JSON form of a job under every rule set.
type sets struct {
	Format   int      `json:"format"`
	Job      string   `json:"job"`
	Sets     []oneSet `json:"sets"`
	Strict   []strict `json:"strictest"`
	Cautions []string `json:"cautions"`
}

type oneSet struct {
	RuleSet   string    `json:"rules"`
	Yardstick bool      `json:"yardstick"` // it is not written for this craft
	Verdicts  []setRule `json:"verdicts"`
}

type setRule struct {
	ID       string   `json:"id"`
	Title    string   `json:"title"`
	Fails    int      `json:"fails"`
	Passes   int      `json:"passes"`
	Silent   int      `json:"silent"`
	Tightest *finding `json:"tightest,omitempty"` // none where the set is silent
}

// strict names the rule set that is strictest by a rule; "" where each is silent.
type strict struct {
	ID      string `json:"id"`
	RuleSet string `json:"rules"`
}

// SetsJSON writes how a job fares under every rule set for other programs.
func SetsJSON(out io.Writer, name string, all []rules.SetVerdict) error {
	doc := sets{Format: format, Job: name, Cautions: cautions}
	for _, v := range all {
		one := oneSet{RuleSet: v.Set.Name, Yardstick: v.Yardstick}
		for _, r := range v.Rules {
			one.Verdicts = append(one.Verdicts, jsonRule(r))
		}
		doc.Sets = append(doc.Sets, one)
	}
	for _, r := range all[0].Rules {
		set, _, _ := rules.StrictestSet(all, r.ID)
		doc.Strict = append(doc.Strict, strict{r.ID, set.Set.Name})
	}
	return encode(out, doc)
}

func jsonRule(r rules.RuleVerdict) setRule {
	one := setRule{ID: r.ID, Title: r.Title, Fails: r.Fails, Passes: r.Passes, Silent: r.Silent}
	if r.Tightest.ID != "" {
		f := jsonFinding(r.Tightest)
		one.Tightest = &f
	}
	return one
}
