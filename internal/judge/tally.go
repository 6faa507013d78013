package judge

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"text/tabwriter"
)

// A Tally is what became of many mistakes, and of orders without one.
type Tally struct {
	Cases  []Case   // that were to be kept
	Broken []string // mistakes that the program broke on, with the order; they are in no count

	rows  map[row]*Counts
	clean map[Set]*alarms
}

// A Case is one mistake and what became of it.
type Case struct {
	Seed  uint64
	Order int
	Set   Set
	*Mutation
	Verdict
}

// String says what was written wrong where, and what became of it.
func (c *Case) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "seed %d, order %d, %s: %s, %s", c.Seed, c.Order, c.Set, c.Hits, c.Kind)
	for _, w := range c.writes {
		fmt.Fprintf(&b, "; %s %q → %q", w.leaf.path, w.leaf.node.Text, w.text)
	}
	for _, says := range c.Contradicts {
		b.WriteString("\n    says " + says)
	}
	for _, f := range c.Findings {
		b.WriteString("\n    " + f)
	}
	fmt.Fprintf(&b, "\n    harm %d, likely %d", c.Harm, c.Likely)
	if c.Unsettled {
		b.WriteString(", and the correction does not come to rest")
	}
	return b.String()
}

// A row is one sort of mistake in one sort of order.
type row struct {
	set  Set
	hits Hits
	kind string // "" for all kinds
}

// Counts are what became of the mistakes of a row.
type Counts struct {
	Made  int
	Quiet int // contradict nothing; they are in no other count but the harm
	Found int
	One   int
	Field int // firm at the right field, and nowhere else
	Value int // and with the right value
	Rank  [3]int
	None  int // nothing firm, and no reading that is right, or only the third or a later one
	Wrong int // firm at a right field
	Both  int // of two mistakes

	Unsettled int // a correction was given up

	Harm   [2]int // orders in which the correction changes one right value, two or more
	Likely [2]int // the same where it may make choices
}

// alarms are the orders without a mistake that something is found in.
type alarms struct {
	orders, raised, spoilt int
	rules                  map[string]int
}

// NewTally returns a tally of nothing.
func NewTally() *Tally { return &Tally{rows: make(map[row]*Counts), clean: make(map[Set]*alarms)} }

// add counts what became of a mistake.
func (t *Tally) add(set Set, m *Mutation, v *Verdict) {
	for _, kind := range []string{"", m.Kind} {
		t.row(row{set, m.Hits, kind}).add(v)
	}
}

func (t *Tally) row(r row) *Counts {
	if t.rows[r] == nil {
		t.rows[r] = &Counts{}
	}
	return t.rows[r]
}

func (c *Counts) add(v *Verdict) {
	c.Made++
	harm(&c.Harm, v.Harm)
	harm(&c.Likely, v.Likely)
	count(&c.Unsettled, v.Unsettled)
	if len(v.Contradicts) == 0 {
		c.Quiet++
		return
	}
	count(&c.Found, v.Found)
	count(&c.One, v.One)
	count(&c.Both, v.Both)
	switch {
	case v.Wrong:
		c.Wrong++
	case v.Field:
		c.Field++
		count(&c.Value, v.Value)
	case v.Rank == 1 || v.Rank == 2:
		c.Rank[v.Rank-1]++
	default:
		c.None++
	}
}

func count(n *int, is bool) {
	if is {
		*n++
	}
}

func harm(to *[2]int, changed int) {
	if changed > 0 {
		to[min(changed, 2)-1]++
	}
}

// sober counts an order without a mistake, the rules that speak of it, and whether
// a correction changes it.
func (t *Tally) sober(set Set, rules []string, spoilt bool) {
	if t.clean[set] == nil {
		t.clean[set] = &alarms{rules: make(map[string]int)}
	}
	a := t.clean[set]
	a.orders++
	count(&a.raised, len(rules) > 0)
	count(&a.spoilt, spoilt)
	for _, r := range rules {
		a.rules[r]++
	}
}

// Add adds what another tally counted.
func (t *Tally) Add(o *Tally) {
	for r, c := range o.rows {
		to := t.row(r)
		for i, n := range c.ints() {
			*to.ints()[i] += *n
		}
	}
	t.Cases = append(t.Cases, o.Cases...)
	t.Broken = append(t.Broken, o.Broken...)
	for set, a := range o.clean {
		if t.clean[set] == nil {
			t.clean[set] = &alarms{rules: make(map[string]int)}
		}
		to := t.clean[set]
		to.orders += a.orders
		to.raised += a.raised
		to.spoilt += a.spoilt
		for r, n := range a.rules {
			to.rules[r] += n
		}
	}
}

func (c *Counts) ints() []*int {
	return []*int{&c.Made, &c.Quiet, &c.Found, &c.One, &c.Field, &c.Value, &c.Rank[0], &c.Rank[1], &c.None, &c.Wrong, &c.Both, &c.Unsettled,
		&c.Harm[0], &c.Harm[1], &c.Likely[0], &c.Likely[1]}
}

// Of returns what became of the mistakes of all kinds in one sort of order.
func (t *Tally) Of(set Set, hits Hits) Counts { return *t.row(row{set, hits, ""}) }

// Alarms are how many orders without a mistake there were, and in how many of them
// something was found.
func (t *Tally) Alarms(set Set) (orders, raised int) {
	if a := t.clean[set]; a != nil {
		return a.orders, a.raised
	}
	return 0, 0
}

// Share is part of the mistakes that contradict anything, in percent.
func (c *Counts) Share(part int) float64 {
	return 100 * float64(part) / float64(max(1, c.Made-c.Quiet))
}

// Print prints the tally: kinds by themselves for ordinary orders, and all kinds
// together for each sort of order.
func (t *Tally) Print(w io.Writer) {
	fmt.Fprint(w, `n: mistakes. Quiet: % of n that contradict nothing on the order. The next eight columns are % of the others.
Firm: a fix is offered, at the mistake alone. Value: it writes what stood there. 1st, 2nd: the reading that is right, of several.
Wrong: a fix is offered for a right value. Harm: orders in which the correction changes one right value, two or more; likely: where it may make choices.

`)
	rows := slices.SortedFunc(maps.Keys(t.rows), func(a, b row) int {
		return cmp.Or(cmp.Compare(a.set, b.set), cmp.Compare(a.hits, b.hits), cmp.Compare(kindIndex(a.kind), kindIndex(b.kind)), strings.Compare(a.kind, b.kind))
	})
	tab := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(tab, "\tn\tquiet\tfound\tone\tfirm\tvalue\t1st\t2nd\t3rd, none\twrong\tboth\tharm 1\t2+\tlikely 1\t2+")
	for _, r := range rows {
		what := "  " + r.kind
		switch {
		case r.kind == "":
			what = r.set.String() + ": " + r.hits.String()
		case r.set != Ordinary || r.hits == Units || r.hits > Worked:
			continue
		}
		c := t.rows[r]
		both := "-"
		if r.hits > Worked {
			both = percent(c.Share(c.Both))
		}
		fmt.Fprintf(tab, "%s\t%d\t%s", what, c.Made, percent(100*float64(c.Quiet)/float64(max(1, c.Made))))
		for _, n := range []int{c.Found, c.One, c.Field, c.Value, c.Rank[0], c.Rank[1], c.None, c.Wrong} {
			fmt.Fprintf(tab, "\t%s", percent(c.Share(n)))
		}
		fmt.Fprintf(tab, "\t%s\t%d\t%d\t%d\t%d\n", both, c.Harm[0], c.Harm[1], c.Likely[0], c.Likely[1])
	}
	tab.Flush()
	unsettled := 0
	for r, c := range t.rows {
		if r.kind == "" {
			unsettled += c.Unsettled
		}
	}
	fmt.Fprintf(w, "\nCorrections that did not come to rest: %d. Orders that the program broke on: %d.\n", unsettled, len(t.Broken))
	for _, set := range slices.Sorted(maps.Keys(t.clean)) {
		a := t.clean[set]
		fmt.Fprintf(w, "%s, without a mistake: something is found in %d of %d orders, and a correction changes %d", set, a.raised, a.orders, a.spoilt)
		for _, r := range slices.Sorted(maps.Keys(a.rules)) {
			fmt.Fprintf(w, "; %s %d", r, a.rules[r])
		}
		fmt.Fprintln(w)
	}
}

func percent(x float64) string { return fmt.Sprintf("%.1f", x) }

func kindIndex(name string) int {
	if name == "" {
		return -1
	}
	i := slices.IndexFunc(kinds, func(k kind) bool { return k.name == name })
	if i < 0 {
		return len(kinds)
	}
	return i
}
