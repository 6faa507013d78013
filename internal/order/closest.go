package order

import "github.com/agext/levenshtein"

// manyWords are more than anybody chooses from: names that the order itself gives.
const manyWords = 1000

// Closest returns which of the words a written one is the likeliest slip of: the
// one that takes the fewest letters put in, left out or changed, if those are
// fewer than below, and of several such the first; else "". Both are compared as
// fold makes them, and written is folded already. Among very many words none is looked for.
func Closest(written string, words []string, below int, fold func(string) string) (closest string) {
	if len(words) > manyWords {
		return ""
	}
	for _, w := range words {
		if d := levenshtein.Distance(written, fold(w), nil); d < below {
			closest, below = w, d
		}
	}
	return closest
}
