package worksheet

import (
	"strings"
	"sync"

	"cutgate/internal/length"
)

// A Condition is what a rule asks of an item, in the words of a step's When: "height,
// {drop} > {height}". It holds only for kinds that have its terms.
type Condition string

// asked are the conditions that were read before.
var asked sync.Map // of conditionOf, to conditionRead

type conditionOf struct {
	kind *kind
	text Condition
}

type conditionRead struct {
	guards []guard
	err    error
}

// on reads the condition for a kind.
func (c Condition) on(k *kind) conditionRead {
	if v, ok := asked.Load(conditionOf{k, c}); ok {
		return v.(conditionRead)
	}
	var r conditionRead
	r.guards, r.err = k.guards(string(c))
	asked.Store(conditionOf{k, c}, r)
	return r
}

// Meets reports whether a condition holds for the item and rests on nothing that could
// not be read. It does not for an item whose kind lacks one of its terms.
func (it *Item) Meets(c Condition) bool {
	if !it.Worked {
		return false
	}
	r := c.on(it.kind)
	if r.err != nil || !hold(r.guards, it) {
		return false
	}
	for _, slot := range guarded(r.guards) {
		if it.cells[slot].doubtful {
			return false
		}
	}
	return true
}

// Say puts the item's terms into a sentence, where they stand in braces.
func (it *Item) Say(text string) string {
	var b strings.Builder
	for {
		before, rest, ok := strings.Cut(text, "{")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		term, after, _ := strings.Cut(rest, "}")
		if c := it.cell(term); c.word != "" {
			b.WriteString(c.word)
		} else {
			round := length.Nearest
			if c.q != nil {
				round = c.q.Round
			}
			b.WriteString(c.value.Format(it.Sheet.Unit, round))
		}
		text = after
	}
}
