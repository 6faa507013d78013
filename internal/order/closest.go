package order

import "github.com/agext/levenshtein"

// manyWords are more than anybody chooses from: names that the order itself gives.
const manyWords = 1000

// Closest returns which of the words a written one is the likeliest slip of: the
// one that takes the fewest letters put in, left out, changed or turned round, if those are
// fewer than below, and of several such the first; else "". Both are compared as
// fold makes them, and written is folded already. Among very many words none is looked for.
func Closest(written string, words []string, below int, fold func(string) string) (closest string) {
	if len(words) > manyWords {
		return ""
	}
	for _, w := range words {
		d := levenshtein.Distance(written, fold(w), nil)
		if d == 2 && turned(written, fold(w)) {
			d = 1
		}
		if d < below {
			closest, below = w, d
		}
	}
	return closest
}

// turned reports whether two words differ by two letters beside one another that changed
// places.
func turned(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}
