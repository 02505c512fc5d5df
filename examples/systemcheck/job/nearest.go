package job

import "strings"

const (
	shortestWord = 2   // any letter is one slip from any other
	longestWord  = 40  // a longer word is no slip
	mostHints    = 100 // beyond so many faults nobody reads a hint, and finding them takes time
)

// nearest returns the choice that is fewest slips away from a word other than
// itself, where that is no more than one slip in three letters.
func (w *walker) nearest(word string, choices []string) (best string, ok bool) {
	if len(word) < shortestWord || len(word) > longestWord || len(w.faults) >= mostHints {
		return "", false
	}
	least := max(1, len(word)/3) + 1
	for _, c := range choices {
		if c == word || abs(len(c)-len(word)) >= least {
			continue
		}
		if n := slips(strings.ToLower(word), strings.ToLower(c)); n < least {
			best, least = c, n
		}
	}
	return best, best != ""
}

// orNearest returns "; nearest: length_m" where a choice is near.
func (w *walker) orNearest(word string, choices []string) string {
	if near, ok := w.nearest(word, choices); ok {
		return "; nearest: " + near
	}
	return ""
}

// slips counts the letters put in, left out or changed between two words
// (Levenshtein's distance).
func slips(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			changed := diagonal
			if a[i] != b[j] {
				changed++
			}
			diagonal = row[j+1]
			row[j+1] = min(changed, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

func abs(n int) int { return max(n, -n) }
