package job

import "example.org/extralow/tables/working"

// mostHints: beyond so many faults nobody reads a hint, and finding them takes time.
const mostHints = 100

// nearest returns the choice that was probably meant.
func (w *walker) nearest(word string, choices []string) (best string, ok bool) {
	if len(w.faults) >= mostHints {
		return "", false
	}
	return working.Nearest(word, choices...)
}

// orNearest returns "; nearest: length_m" where a choice is near.
func (w *walker) orNearest(word string, choices []string) string {
	if near, ok := w.nearest(word, choices); ok {
		return "; nearest: " + near
	}
	return ""
}
