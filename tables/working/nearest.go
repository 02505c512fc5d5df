package working

import "strings"

const (
	shortestWord = 2  // any letter is one slip from any other
	longestWord  = 40 // a longer word is no slip
)

// Nearest returns the choice that is fewest slips away from a word other than
// itself, where that is no more than one slip in three letters: of a list of
// names the one that was probably meant. Upper and lower case count as the same.
func Nearest(word string, choices ...string) (best string, ok bool) {
	if len(word) < shortestWord || len(word) > longestWord {
		return "", false
	}
	least := max(1, len(word)/3) + 1
	for _, c := range choices {
		if c == word || max(len(c)-len(word), len(word)-len(c)) >= least {
			continue
		}
		if n := slips(strings.ToLower(word), strings.ToLower(c)); n < least {
			best, least = c, n
		}
	}
	return best, best != ""
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
