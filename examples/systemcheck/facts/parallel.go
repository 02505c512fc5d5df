package facts

import (
	"example.org/extralow/wire"
)

// Count is how many cables lie side by side in a run.
func (r *Run) Count() int {
	if r.Cables == nil {
		return 1
	}
	return Whole(r.Cables.Count)
}

// Sharing is how many of them share the current evenly. Of cables that are not
// alike one alone is counted on, for amperes as for volts.
func (r *Run) Sharing() int {
	if r.Cables == nil || !r.Cables.Identical {
		return 1
	}
	return r.Count()
}

// together is the ampacity of the cables that share the current, as if they
// were one.
func (r *Run) together(one wire.Ampacity) (wire.Ampacity, error) {
	if r.NoAmps != nil || r.Sharing() == 1 {
		return one, nil
	}
	return one.InParallel(r.Sharing())
}
