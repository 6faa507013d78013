package finding

import (
	"cmp"
	"slices"
	"strings"
)

// Apply returns text with the edits made. They may come in any order, but must
// be valid for the text by [ValidEdits]; of two insertions at one place the
// earlier in the list comes first.
func Apply(text string, edits []Edit) string {
	sorted := slices.Clone(edits)
	slices.SortStableFunc(sorted, func(a, b Edit) int { return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.End, b.End)) })
	var b strings.Builder
	b.Grow(len(text))
	done := 0
	for _, e := range sorted {
		b.WriteString(text[done:e.Start])
		b.WriteString(e.Text)
		done = e.End
	}
	b.WriteString(text[done:])
	return b.String()
}
