package render

import (
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// KindPage writes how a kind is worked out: its pieces, its choices and their usual
// values, and how each size and count that an order may state is worked out, with what its
// formula is made of and its source. With all set it is the whole worksheet: every step,
// and the known slips. What is said alike of several terms is written once, and what only
// some orders have stands by itself.
func KindPage(w io.Writer, k *worksheet.Kind, o Options) error {
	p := kindPage{sheet: newSheet(o), kind: k, all: o.All}
	p.line(p.ink(headInk, k.Name))
	p.head("Cloths")
	for _, r := range k.Roles {
		says := "`" + r.Field + "`"
		if r.Else != "" {
			says += ", or the cloth of the " + r.Else
		}
		p.row(r.Name, says)
	}
	p.choices()
	p.head("Pieces")
	for _, q := range k.Pieces {
		p.row(q.Name, "{"+q.Width+"} across × {"+q.Length+"} along, of the "+q.Role+" cloth")
	}
	p.steps()
	if o.All {
		p.slips()
	}
	if len(p.sources) > 0 {
		p.head("Sources")
		for i, s := range p.sources {
			p.para(2, strconv.Itoa(i+1), plainInk, 6, s, plainInk)
		}
	}
	if !o.All {
		p.line("")
		p.para(0, "", plainInk, 0, "For every step and the known slips: cutgate kinds "+k.Name+" --all", plainInk)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

type kindPage struct {
	sheet
	kind    *worksheet.Kind
	all     bool // every step, and the slips
	sources []string
}

func (p *kindPage) head(text string) {
	p.line("")
	p.para(0, "", plainInk, 0, text, headInk)
}

// row writes a text beside its label, or below one that is too long for that.
func (p *kindPage) row(label, text string) {
	const column = 24
	if 2+source.Width(label)+2 > column {
		p.para(2, "", plainInk, 2, label, plainInk)
		label = ""
	}
	p.para(2, label, plainInk, column, text, plainInk)
}

// choices writes what the kind is worked from, a row for each block of the form.
func (p *kindPage) choices() {
	says := map[string][]string{}
	var blocks []string
	for i := range p.kind.Given {
		g := &p.kind.Given[i]
		if term := unstated(g.Term); term != g.Term && slices.ContainsFunc(p.kind.Given, func(other worksheet.Given) bool { return other.Term == term }) {
			continue
		}
		block, text := tables, unstated(g.Term)
		usual := silence(g)
		if len(g.From) > 0 && !strings.Contains(g.From[0], "/") {
			block = blockOf(g.From[0])
			text += inBlock(block, g)
			if usual != "" {
				text += ", usually " + usual
			} else if g.House != "" {
				text += ", usually the house's `" + g.House + "`"
			}
		} else if usual != "" {
			text += " " + usual
		} else if g.House != "" {
			text += " as the house's `" + g.House + "`"
		} else {
			continue
		}
		if says[block] == nil {
			blocks = append(blocks, block)
		}
		if !slices.Contains(says[block], text) {
			says[block] = append(says[block], text)
		}
	}
	p.head("Choices")
	p.para(2, "", plainInk, 2, "What you write on the order, by its fields. For an example to fill in: cutgate new "+p.kind.Name, faintInk)
	for _, b := range blocks {
		label := "`" + b + "`"
		switch b {
		case tables:
			label = "from the tables"
		case itself:
			label = "on the item itself"
		}
		p.row(label, strings.Join(says[b], "; "))
	}
}

// What stands for a block where a choice is taken from the tables, or is a field of the item.
const (
	tables = "tables"
	itself = "item"
)

// blockOf is the block of the form that a field stands in.
func blockOf(field string) string {
	if i := strings.LastIndex(field, "."); i >= 0 {
		return field[:i]
	}
	return itself
}

// inBlock names the fields that a choice is taken from, where its own name does not.
func inBlock(block string, g *worksheet.Given) string {
	var fields []string
	for _, f := range g.From {
		short := strings.TrimPrefix(f, block+".")
		if len(g.From) == 1 && strings.HasSuffix(unstated(g.Term), strings.ReplaceAll(short, "_", " ")) {
			return ""
		}
		fields = append(fields, "`"+short+"`")
	}
	return " (" + strings.Join(fields, ", ") + ")"
}

// A workedTerm is a term as a page explains it.
type workedTerm struct {
	name    string
	rows    []workedRow
	reads   []string // what it is worked from, where that is no formula
	sources []string // of that
	when    []string // what it asks there
	also    []string // what else is worked out in the same way, without the words that both names end in
	needs   []string // what an order must say for it to be there
}

type workedRow struct {
	formula string
	sources []string
	when    []string
	loose   bool // it may do without some of what the formula names
}

// steps writes how each term is worked out: first what most orders have, then what rests
// on one choice, by the choice.
func (p *kindPage) steps() {
	terms, shrinks := p.terms()
	count := map[string]int{}
	for _, t := range terms {
		for _, n := range t.needs {
			count[n]++
		}
	}
	var heads []string
	under := map[string][]*workedTerm{}
	for _, t := range terms {
		head := ""
		for _, n := range t.needs {
			if count[n] > max(1, count[head]) {
				head = n
			}
		}
		if under[head] == nil && head != "" {
			heads = append(heads, head)
		}
		under[head] = append(under[head], t)
	}
	p.head("Worked out")
	p.para(2, "", plainInk, 2, "Of several lines, use the first that fits. Leave out what is in square brackets if the order has none.", faintInk)
	if shrinks != "" {
		p.para(2, "", plainInk, 2, "For cloth that shrinks, divide each cut by (1 - shrinkage)"+p.cite(shrinks)+".", faintInk)
	}
	for _, head := range append([]string{""}, heads...) {
		if head != "" {
			p.head("With " + asked(head))
		}
		for _, t := range under[head] {
			p.term(t, head)
		}
	}
}

// term writes the rows of one term under a heading.
func (p *kindPage) term(t *workedTerm, head string) {
	label := t.name
	for i, r := range t.rows {
		p.row(label, r.formula+t.conditions(i, head)+p.cite(r.sources...))
		label = ""
	}
	if len(t.also) > 0 {
		p.row("", "likewise: "+strings.Join(t.also, ", "))
	}
}

// cite gives the numbers of sources, in brackets.
func (p *kindPage) cite(sources ...string) string {
	var numbers []string
	for _, s := range sources {
		switch s {
		case "", worksheet.Common, "the order", "plain arithmetic":
			continue
		}
		i := slices.Index(p.sources, s)
		if i < 0 {
			i = len(p.sources)
			p.sources = append(p.sources, s)
		}
		if n := strconv.Itoa(i + 1); !slices.Contains(numbers, n) {
			numbers = append(numbers, n)
		}
	}
	if numbers == nil {
		return ""
	}
	return " (" + strings.Join(numbers, ", ") + ")"
}

// terms gathers the steps by their terms, but for a count that is simply there with its
// piece. A formula for cloth that shrinks is left out where the same term has another;
// shrinks is its source.
func (p *kindPage) terms() (list []*workedTerm, shrinks string) {
	at := map[string]*workedTerm{}
	for i := range p.kind.Steps {
		s := &p.kind.Steps[i]
		when := guards(s.When)
		if forShrinking(s.Formula, when) && slices.ContainsFunc(p.kind.Steps[i+1:], func(other worksheet.Step) bool { return other.Term == s.Term }) {
			shrinks = s.Source
			continue
		}
		t := at[s.Term]
		if t == nil {
			t = &workedTerm{name: s.Term}
			at[s.Term] = t
			list = append(list, t)
		}
		t.add(p, s, when)
	}
	list = slices.DeleteFunc(list, func(t *workedTerm) bool {
		return len(t.rows) == 0 && len(t.reads) == 1 && t.reads[0] == pieces
	})
	for _, t := range list {
		if len(t.rows) == 0 {
			t.rows = []workedRow{{formula: t.worked(), sources: t.sources, when: t.when, loose: true}}
		}
	}
	p.needed(list, at)
	if !p.all {
		kept := map[*workedTerm]bool{}
		for _, t := range list {
			if p.stated(t.name) {
				keep(t, at, kept)
			}
		}
		list = slices.DeleteFunc(list, func(t *workedTerm) bool { return !kept[t] })
	}
	return foldAlike(list), shrinks
}

// keep adds a term, and those that its formulas are made of, to what a short page has. One
// that is only as stated is a choice, and stands among them.
func keep(t *workedTerm, at map[string]*workedTerm, kept map[*workedTerm]bool) {
	kept[t] = true
	for _, r := range t.rows {
		for _, m := range inBraces.FindAllStringSubmatch(r.formula, -1) {
			if of := at[m[1]]; of != nil && !kept[of] && (len(of.rows) != 1 || of.rows[0].formula != asStated) {
				keep(of, at, kept)
			}
		}
	}
}

// asStated is the formula of a term that counts as the order has it.
const asStated = "as stated"

// pieces stand for their sizes and counts where a term is worked from them.
const pieces = "the pieces"

// add puts a step to a term. Where the row before says the same they are one, under what
// both ask.
func (t *workedTerm) add(p *kindPage, s *worksheet.Step, when []string) {
	r := workedRow{formula: s.Formula, sources: []string{s.Source}, when: when}
	if s.Formula == "{"+s.Term+" stated}" {
		r.formula = asStated
	}
	last := len(t.rows) - 1
	switch {
	case s.Formula == "":
		if t.sources == nil {
			t.when = when
		} else {
			t.when = slices.DeleteFunc(t.when, func(g string) bool { return !slices.Contains(when, g) })
		}
		t.sources = append(t.sources, s.Source)
		for _, term := range s.Reads {
			if p.ofPiece(term) {
				term = pieces
			}
			if term = unstated(term); !slices.Contains(t.reads, term) {
				t.reads = append(t.reads, term)
			}
		}
	case last >= 0 && t.rows[last].formula == r.formula:
		t.rows[last].sources = append(t.rows[last].sources, s.Source)
		t.rows[last].when = slices.DeleteFunc(t.rows[last].when, func(g string) bool { return !slices.Contains(when, g) })
	default:
		t.rows = append(t.rows, r)
	}
}

// worked says what a term without a formula is worked from.
func (t *workedTerm) worked() string {
	switch {
	case len(t.reads) == 0:
		return "from the order"
	case len(t.reads) == 1 && t.reads[0] == t.name:
		return asStated
	}
	var reads []string
	for _, term := range t.reads {
		if term != pieces {
			term = "{" + term + "}"
		}
		reads = append(reads, term)
	}
	return "from " + strings.Join(reads, ", ")
}

// stated reports whether an order may state a term that is worked out, in a cut or in a
// field of its own.
func (p *kindPage) stated(term string) bool {
	if slices.ContainsFunc(p.kind.Pieces, func(q worksheet.Piecing) bool {
		return slices.Contains([]string{q.Width, q.Length, q.Count}, term)
	}) {
		return true
	}
	return slices.ContainsFunc(p.kind.Outcomes, func(o worksheet.Outcome) bool { return o.Term == term })
}

// ofPiece reports whether a term is a size or the count of a piece.
func (p *kindPage) ofPiece(term string) bool {
	return slices.ContainsFunc(p.kind.Pieces, func(q worksheet.Piecing) bool {
		return slices.Contains([]string{q.Width, q.Length, q.Count, q.Net, q.Takes}, term)
	})
}

// guards are what a step's When asks, each by itself.
func guards(when string) (list []string) {
	for g := range strings.SplitSeq(when, ", ") {
		if len(list) > 0 && strings.Count(list[len(list)-1], "{") > strings.Count(list[len(list)-1], "}") {
			list[len(list)-1] += ", " + g
		} else if g != "" {
			list = append(list, g)
		}
	}
	return list
}

// forShrinking reports whether a formula is one for cloth that shrinks.
func forShrinking(formula string, when []string) bool {
	return slices.ContainsFunc(when, func(g string) bool {
		return strings.HasSuffix(formula, " ÷ (1 - {"+g+"})")
	})
}

// isWord reports whether a guard asks for a word: "heading: tabs".
func isWord(guard string) bool { return strings.Contains(guard, ": ") && !strings.Contains(guard, "{") }

// isThere reports whether a guard asks that a term is there.
func isThere(guard string) bool {
	return !isWord(guard) && !strings.Contains(guard, "{") && !strings.HasPrefix(guard, "no ")
}

var (
	inBraces   = regexp.MustCompile(`\{([^}]*)\}`)
	inBrackets = regexp.MustCompile(`\[[^]]*\]`)
)

// takes are the terms that a row can't do without.
func (r workedRow) takes() (terms []string) {
	for _, m := range inBraces.FindAllStringSubmatch(inBrackets.ReplaceAllString(r.formula, ""), -1) {
		terms = append(terms, m[1])
	}
	return terms
}

// needed notes on each term what an order must say for any of its rows to count: a word,
// or a block that names a cloth of its own.
func (p *kindPage) needed(list []*workedTerm, at map[string]*workedTerm) {
	given := map[string]string{}
	for i := range p.kind.Given {
		g := &p.kind.Given[i]
		for _, r := range p.kind.Roles {
			block, ok := strings.CutSuffix(r.Field, ".cloth")
			if ok && len(g.From) > 0 && silence(g) == "" && !slices.ContainsFunc(g.From, func(f string) bool {
				return !strings.HasPrefix(f, block+".") && !strings.HasPrefix(f, r.Name+"/")
			}) && (r.Else == "" || strings.HasPrefix(g.From[0], block+".")) {
				given[g.Term] = "`" + block + "`"
			}
		}
	}
	for _, t := range list {
		for i, r := range t.rows {
			var needs []string
			var of []string
			if !r.loose {
				of = r.takes()
			}
			for _, g := range r.when {
				if isWord(g) {
					needs = append(needs, g)
				} else if isThere(g) {
					of = append(of, g)
				}
			}
			for _, term := range of {
				if given[term] != "" {
					needs = append(needs, given[term])
				} else if u := at[term]; u != nil && u != t {
					needs = append(needs, u.needs...)
				}
			}
			if i == 0 {
				t.needs = needs
			} else {
				t.needs = slices.DeleteFunc(t.needs, func(n string) bool { return !slices.Contains(needs, n) })
			}
		}
		slices.Sort(t.needs)
		t.needs = slices.Compact(t.needs)
	}
}

// foldAlike leaves out the terms that are worked like one before, but for the cloth or
// the edge that they name, and notes them there. Lines that one before has too are
// written as one.
func foldAlike(list []*workedTerm) (kept []*workedTerm) {
	seen := map[string]*workedTerm{}
	for _, t := range list {
		same := false
		for n, key := range t.keys() {
			if first := seen[key]; first != nil && !same {
				first.also = append(first.also, strings.Join(strings.Fields(t.name)[:n], " "))
				same = true
			} else if first == nil {
				seen[key] = t
			}
		}
		if same {
			continue
		}
		for _, before := range kept {
			if t.foldInto(before) {
				break
			}
		}
		kept = append(kept, t)
	}
	return kept
}

// foldInto puts one line for those that another term has all of, where they are several.
func (t *workedTerm) foldInto(before *workedTerm) bool {
	if len(before.rows) < 2 {
		return false
	}
	at := slices.IndexFunc(t.rows, func(r workedRow) bool { return r.formula == before.rows[0].formula })
	if at < 0 || len(t.rows)-at != len(before.rows) || !slices.EqualFunc(t.rows[at:], before.rows, func(a, b workedRow) bool { return a.formula == b.formula }) {
		return false
	}
	t.rows = append(t.rows[:at:at], workedRow{formula: "as for {" + before.name + "}", sources: t.rows[at].sources})
	return true
}

// keys are a term's formulas without the words that say which cloth or edge, each way
// that its name may begin with such: none, one or two words of it.
func (t *workedTerm) keys() (keys []string) {
	var b strings.Builder
	for _, r := range t.rows {
		b.WriteString(r.formula + "\n")
	}
	if !strings.Contains(b.String(), "{") {
		return nil
	}
	text := strings.ReplaceAll(b.String(), "{face ", "{")
	words := strings.Fields(t.name)
	for n := range min(3, len(words)) {
		bare := text
		if n > 0 {
			bare = strings.ReplaceAll(text, "{"+strings.Join(words[:n], " ")+" ", "{")
		}
		keys = append(keys, strings.Join(words[n:], " ")+"\n"+bare)
	}
	return keys
}

// conditions say what a row asks beyond its heading and the terms that it takes.
func (t *workedTerm) conditions(i int, head string) string {
	r := t.rows[i]
	takes := r.takes()
	var has, is string
	for _, g := range r.when {
		term, no := strings.CutPrefix(g, "no ")
		switch {
		case g == head || r.formula == asStated && g == t.name+" stated" || slices.Contains(takes, g) || isThere(g) && t.always(g) || t.ruledOut(i, g):
		case no:
			has += ", without {" + term + "}"
		case isThere(g):
			has += ", with {" + term + "}"
		case is == "":
			is = ", if " + asked(g)
		default:
			is += " and " + asked(g)
		}
	}
	return has + is
}

// always reports whether every row asks it.
func (t *workedTerm) always(guard string) bool {
	return !slices.ContainsFunc(t.rows, func(r workedRow) bool { return !slices.Contains(r.when, guard) })
}

// ruledOut reports whether a row before has counted where a "no …" fails.
func (t *workedTerm) ruledOut(i int, guard string) bool {
	term, no := strings.CutPrefix(guard, "no ")
	return no && slices.ContainsFunc(t.rows[:i], func(before workedRow) bool {
		return !slices.ContainsFunc(before.when, func(g string) bool { return g != term && !slices.Contains(t.rows[i].when, g) })
	})
}

// asked words a guard.
func asked(guard string) string {
	if !isWord(guard) {
		return guard
	}
	term, words, _ := strings.Cut(guard, ": ")
	return term + " " + worksheet.Any(strings.Split(words, "/"))
}

// slips writes the slips that are known, by what they are made in.
func (p *kindPage) slips() {
	var names, places []string
	in, at := map[string][]string{}, map[string][]string{}
	for _, s := range p.kind.Slips {
		if s.Name == "" || s.Two || slices.Contains(in[s.Name], s.Of) {
			continue
		}
		if in[s.Name] == nil {
			names = append(names, s.Name)
		}
		in[s.Name] = append(in[s.Name], s.Of)
	}
	for _, name := range names {
		place := strings.Join(in[name], ", ")
		if at[place] == nil {
			places = append(places, place)
		}
		at[place] = append(at[place], name)
	}
	if len(places) > 0 {
		p.head("Known slips")
	}
	for _, place := range places {
		p.row(place, strings.Join(at[place], " / "))
	}
}

// unstated is the term for a choice without what sets it apart from what is worked out.
func unstated(term string) string { return strings.TrimSuffix(term, " stated") }

// silence is what a choice is where an order does not say it, in both systems where
// they differ.
func silence(g *worksheet.Given) string {
	inches, metric := g.Silence(length.In), g.Silence(length.CM)
	if strings.HasPrefix(metric, "0.") && strings.HasSuffix(metric, " cm") {
		metric = g.Silence(length.MM)
	}
	switch {
	case inches == "":
		return ""
	case g.As != "":
		return "the same as the " + g.As
	case inches == metric:
		return inches
	}
	return inches + " or " + metric
}
