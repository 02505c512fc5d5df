package installation

// CaseKind keeps apart what counts for what.
type CaseKind uint8

const (
	Normal      CaseKind = iota // makes the design current, heats
	Brief                       // a start, a peak: volts and devices
	BatteryLost                 // a fault with a current of its own; heats
	Cranking                    // an engine is started
	Unequal                     // a full bank feeds an empty one through a link; heats, but nothing switches it
	AtLimit                     // a thing by itself at the most that it can: counts as normal, where states run it for its own line
	kinds       = iota
)

var kindWords = []string{"normal", "brief", "battery lost", "cranking", "unequal banks", "at its limit"}

// heats reports whether cables are as hot as a case of the kind makes them.
func (k CaseKind) heats() bool { return k != Brief && k != Cranking }

// String returns the kind in words.
func (k CaseKind) String() string { return word(k, kindWords) }

// MarshalText makes JSON show the words of [CaseKind.String].
func (k CaseKind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// UnmarshalText reads the words of [CaseKind.String] back.
func (k *CaseKind) UnmarshalText(text []byte) error { return parse(k, "kind", text, kindWords) }

// EveryBattery stands in [Case].NewBattery for all of them.
const EveryBattery = "every battery"

// Case is one that can occur. Batteries are nearly empty and aged in it, and
// switches as they usually stand, unless it says otherwise.
type Case struct {
	Name           string   `json:"name"`
	Kind           CaseKind `json:"kind"`
	State          int      `json:"state"`           // index; -1: none, a thing by itself
	Loads          bool     `json:"loads"`           // of the state run
	Sources        bool     `json:"sources"`         // of the state work
	Always         bool     `json:"always"`          // so do those that work in every state
	Full           bool     `json:"full"`            // batteries full, and at their low resistance
	Fuller         string   `json:"fuller"`          // a battery: those on its side of the links are full, the others nearly empty
	BatteryMissing string   `json:"battery_missing"` // one that has switched itself off
	NewBattery     string   `json:"new_battery"`     // one at its low resistance, or "every battery"
	Starting       string   `json:"starting"`        // a load that starts, or cranks
	Peaks          bool     `json:"peaks"`           // short loads at their peak, not at what heats in its place
	Alone          string   `json:"alone"`           // the one battery that is left
	Open           string   `json:"open"`            // a circuit whose switch stands open
	Closed         string   `json:"closed"`          // a circuit whose switch, usually open, is closed
	AllClosed      bool     `json:"all_closed"`      // every switch closed
	AtLimitOf      string   `json:"at_limit_of"`     // a load or a source that does by itself the most that it can
	Input          bool     `json:"input"`           // of that source, its input

	load, source int // that AtLimitOf names: its number, from 1
}
