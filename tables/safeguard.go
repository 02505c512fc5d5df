package tables

import "example.org/extralow/tables/working"

// SafeguardRule is how many safeguards are due where an inspector looks for one: 1,
// or the zero figure where the code says nothing.
type SafeguardRule struct {
	Edge     working.Figure `json:"edge_guards,omitzero"`         // grommet, sheath or gland of a cable that passes an edge, a bulkhead or another hard surface
	Isolator working.Figure `json:"isolators,omitzero"`           // switches that part a bank from what draws on it
	Reach    working.Figure `json:"isolators_in_reach,omitzero"`  // of an isolator, for a hand without tools
	Ignition working.Figure `json:"ignition_protected,omitzero"`  // of what stands where petrol vapour or liquefied gas may gather
	Sensor   working.Figure `json:"returns_past_sensor,omitzero"` // of a return to a battery whose negative post has a current sensor
}

// SafeguardPractice returns what the trade itself looks for, whatever the code says:
// common practice, without a published source. No set holds it, and whoever judges by
// it where a set is silent says so.
func SafeguardPractice() SafeguardRule {
	return SafeguardRule{
		Edge: safeguard("practice-edge"), Isolator: safeguard("practice-isolator"), Reach: safeguard("practice-reach"),
		Ignition: safeguard("practice-ignition"), Sensor: safeguard("practice-sensor"),
	}
}
