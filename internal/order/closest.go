package order

import "github.com/agext/levenshtein"

// Closest returns which of the words a written one is the likeliest slip of: the
// one that takes the fewest letters put in, left out or changed, if those are
// fewer than below, and of several such the first; else "". Both are compared as
// fold makes them, and written is folded already.
func Closest(written string, words []string, below int, fold func(string) string) (closest string) {
	for _, w := range words {
		if d := levenshtein.Distance(written, fold(w), nil); d < below {
			closest, below = w, d
		}
	}
	return closest
}
