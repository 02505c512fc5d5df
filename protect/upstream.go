package protect

import (
	"errors"
	"fmt"
	"strings"

	"example.org/extralow/tables"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// Upstream is what stands behind a conductor that has no device of its own: the devices
// that feed it side by side, and what sources give that limit themselves.
type Upstream struct {
	Devices   []UpstreamDevice `json:"devices,omitempty"`
	SourcesA  decimal.Decimal  `json:"source_limit_a"` // 0 to 10 000
	AmpacityA decimal.Decimal  `json:"ampacity_a"`     // of the conductor; above 0 to 10 000
	SetName   string           `json:"rules"`          // of the rule set, to name it where it is silent
	From      working.Working  `json:"from,omitempty"` // the lines that gave the ampacity
}

// UpstreamDevice is one of them, and where it stands.
type UpstreamDevice struct {
	Name string `json:"name"`
	Device
}

// Check is P03 for that conductor: all devices open within their conventional time at no
// more together than a multiple of its ampacity:
//
//	I_2 = I_s + k_2 × I_n1 + k_2 × I_n2 + ... ≤ k_o × I_z
//
// Of a device whose standard fixes no such current it cannot be told. Where the rule sets
// no multiple the check does not apply. Source: IEC 60364-4-43, 433.1 and 433.4.
func (u Upstream) Check(rule tables.DeviceRule) (working.Check, error) {
	if err := u.check(); err != nil {
		return working.Check{}, err
	}
	if !rule.OperatingCurrent.Stated() {
		return notApplicable("P03", opensTitle, silence(u.SetName, "the current that opens a device against its conductor")), nil
	}
	law := rule.OperatingCurrent.Source
	w := working.Start(u.From)
	sum, terms := w.Given("I_s", u.SourcesA), []string{"I_s"}
	for i, d := range u.Devices {
		c, err := d.ConventionalCurrents()
		if errors.Is(err, tables.ErrNotListed) {
			return cannotTell("P03", opensTitle, fmt.Sprintf("ask the maker at what current a %s A %s opens within an hour", d.RatingA, d.Family), nil), nil
		}
		if err != nil {
			return working.Check{}, working.In(fmt.Sprintf("devices[%d]", i), err)
		}
		w.Part("Behind it: " + d.Name)
		w = append(w, c.Working...)
		own := fmt.Sprintf("I_2.%d", i+1)
		sum = sum.Add(w.Calc(own, "I_2", c.OpensA, law))
		terms = append(terms, own)
	}
	w.Part("All together")
	w.Calc("I_2", strings.Join(terms, " + "), sum, law)
	ampacity := w.Given("I_z", u.AmpacityA)
	w.Calc("I_2z", "k_o × I_z", w.LookUp("k_o", rule.OperatingCurrent).Mul(ampacity), law)
	return w.Check("P03", opensTitle, "I_2", "I_2z"), nil
}

func (u Upstream) check() error {
	faults := []error{
		working.Between("source_limit_a", u.SourcesA, 0, 10_000), working.Above("ampacity_a", u.AmpacityA, 0, 10_000),
	}
	for i, d := range u.Devices {
		faults = append(faults, working.In(fmt.Sprintf("devices[%d]", i), d.check()))
	}
	return errors.Join(faults...)
}
