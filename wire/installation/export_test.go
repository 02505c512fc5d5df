package installation

// Stepwise is the greatest fault at a node as the solver finds it, without columns.
func (s *Solved) Stepwise(node string) float64 {
	at := s.plan.index[node]
	x := s.strong[s.plan.partOf[at]]
	x.once.Do(x.prepare)
	return x.stepwise(s.plan.local[at]).ampere
}
