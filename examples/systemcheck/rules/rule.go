package rules

import "example.org/extralow/examples/systemcheck/facts"

// Rule is one rule with everything that is known about it.
type Rule struct {
	ID      string   // permanent; that of the package which judges, where one does
	Also    []string // further ids that it answers under
	Title   string   // what ought to be
	Why     string
	Sources []string // the documents of its law, besides those of a rule set and of the figures that it looks up
	Grade   Grade
	Forbids Act // what must not be done while it fails, where that is a danger
	Rank    int // its place in the order of danger, among those of its grade

	Danger    string            // what a failure would do
	First     string            // what to ask before anything is changed
	Advice    string            // what to do where no change that was tried helps
	AdviceFor map[string]string // the same of its further ids

	RestsOn Basis    // what its pass cannot do without
	Changes Changes  // what can change its answer
	Tries   []Try    // the changes that are tried for it, the smallest first
	Untried []string // further ids of it for which none is: another article leaves out what they compare
	OfSet   bool     // its figures are those that a rule set states
	Sags    bool     // it judges the volts that loads leave to a thing
	Slow    bool     // it works the faults out

	Worse []Growth // whatever grows so can only make its answer worse

	Judge  func(*facts.Facts) ([]Finding, error)
	Reason func(*facts.Facts, Finding) (why string, hopeless bool) // why a failure is one, and whether nothing of the kind fits; nil: it shows
	Advise func(*facts.Facts, Finding) string                      // advice with the job's own figures; nil or "": Advice holds
}

// Grade says what a failure would come to.
type Grade uint8

const (
	Minor        Grade = iota // a nuisance, a shorter life
	WillNotServe              // it trips, starves or does not last
	Dangerous                 // it burns, bursts, gasses, breaks loose or is an offence
)

// String returns the grade in words: "danger".
func (g Grade) String() string {
	return [...]string{Minor: "minor", WillNotServe: "will not serve", Dangerous: "danger"}[g]
}

// MarshalText writes the grade in words.
func (g Grade) MarshalText() ([]byte, error) { return []byte(g.String()), nil }

// Act is what a danger forbids until it is gone.
type Act uint8

const (
	Energise Act = iota // to switch any of it on; to charge it is to switch it on
	Charge
	Drive // or to put to sea
)

// String returns the act in words: "put to sea".
func (a Act) String() string {
	return [...]string{Energise: "energise", Charge: "charge", Drive: "drive or put to sea"}[a]
}

// Aboard returns the act in the words of a craft: "drive".
func (a Act) Aboard(craft string) string {
	switch {
	case a != Drive:
		return a.String()
	case craft == "boat":
		return "put to sea"
	default:
		return "drive"
	}
}

// Basis is what a pass rests on besides what the rule asks.
type Basis uint8

const (
	Currents   Basis = 1 << iota // that every case has an operating point
	Resistance                   // how large the resistance of each battery is
)

// String says on what, in words.
func (b Basis) String() string {
	return [...]string{"what the job states", "an operating point in every case", "the resistance of each battery", "an operating point in every case, and the resistance of each battery"}[b]
}

// Changes are the changes of a job that can change the answer of a rule.
type Changes uint8

const (
	Cables  Changes = 1 << iota // another cable
	Devices                     // another device
)

// String names them.
func (c Changes) String() string {
	return [...]string{"what the job states, and neither a cable nor a device", "another cable", "another device", "another cable or device"}[c]
}

// Try is a kind of change that may cure a failure.
type Try uint8

const (
	OtherRating Try = iota // a rating of the device's window
	ThickerRun             // the next sizes of the run itself
	LaidApart              // the run away from those that it lies with
	OtherFamily            // a device of another family
	NewDevice              // a device where none is
	ThickerPath            // the next sizes of any run on the way to the thing
)

// Growth is a key of the job file and the way in which its danger grows.
type Growth struct {
	Key string // "circuits.length_m": of every item of a list
	By  string // "×2", "÷1.5", "+10", "-10" at each step; "thinner"; "gone"
}

// advice is what to do about a failure where no change that was tried helps.
func (r Rule) advice(id string) string {
	if text, ok := r.AdviceFor[id]; ok {
		return text
	}
	return r.Advice
}

// Advised is what to do about a failure where no change that was tried helps; ""
// where nothing is known.
func (r Rule) Advised(m *facts.Facts, f Finding) string {
	if f.Advice != "" {
		return f.Advice
	}
	if r.Advise != nil {
		if text := r.Advise(m, f); text != "" {
			return text
		}
	}
	if text := r.advice(f.ID); text != "" {
		return r.First + text
	}
	return ""
}
