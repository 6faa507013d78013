package table

import (
	"iter"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"cutgate/internal/form"
	"cutgate/internal/length"
	"cutgate/internal/syntax"
)

// A subject is what a column of a table is about.
type subject uint8

const (
	aboutOrder subject = iota
	aboutItem
	aboutCloth
	aboutMeasured // a cloth, as measured at the bench
	clothName
	clothOrder // the one order that a cloth is for
)

// A heading is what a heading of a table means: the path from its subject to a leaf.
// Own is false for another workroom's words.
type heading struct {
	about subject
	way   syntax.Path
	own   bool
	unit  length.Unit // of bare numbers under it; NoUnit for the order's own
}

// String returns the heading in the form's words: hems top turn, cut 2 width.
func (h heading) String() string {
	switch h.about {
	case clothName:
		return "cloth"
	case clothOrder:
		return "order"
	}
	var words []string
	if h.about == aboutMeasured {
		words = append(words, "measured")
	}
	if name := h.way[0].Name; h.about == aboutOrder && (name == "notes" || name == "waive") {
		words = append(words, "order")
	}
	for i, s := range h.way {
		switch {
		case s.Name == "" && i+1 == len(h.way) && s.Index == 0: // the one text of a list
		case s.Name == "":
			words = append(words, strconv.Itoa(s.Index+1))
		case i+1 < len(h.way) && h.way[i+1].Name == "":
			words = append(words, strings.ReplaceAll(singular(s.Name), "_", " "))
		default:
			words = append(words, strings.ReplaceAll(s.Name, "_", " "))
		}
	}
	return strings.Join(words, " ")
}

// singular returns the name of one entry of a list.
func singular(list string) string { return strings.TrimSuffix(list, "s") }

// A spoken word is a word of a heading, in lower case, and the heading from there on.
type spoken struct{ text, rest string }

// mostWords is more than the words of any heading of the form.
const mostWords = 12

// wordsOf splits a heading into words: at spaces, points, hyphens and
// underscores. A text with very many words is no heading, and yields none.
func wordsOf(heading string) (words []spoken) {
	in := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }
	for rest := heading; ; {
		i := strings.IndexFunc(rest, in)
		if i < 0 {
			return words
		}
		if len(words) == mostWords {
			return nil
		}
		rest = rest[i:]
		end := strings.IndexFunc(rest, func(r rune) bool { return !in(r) })
		if end < 0 {
			end = len(rest)
		}
		words = append(words, spoken{strings.ToLower(rest[:end]), rest})
		rest = rest[end:]
	}
}

// firstWord returns the first of a text's words, or "".
func firstWord(text string) string {
	in := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }
	i := strings.IndexFunc(text, in)
	if i < 0 {
		return ""
	}
	text = text[i:]
	if end := strings.IndexFunc(text, func(r rune) bool { return !in(r) }); end >= 0 {
		text = text[:end]
	}
	return strings.ToLower(text)
}

// joined joins words into a field's name.
func joined(words []spoken) string {
	var b strings.Builder
	for i, w := range words {
		if i > 0 {
			b.WriteByte('_')
		}
		b.WriteString(w.text)
	}
	return b.String()
}

// inBrackets takes off the end of a heading the unit of the numbers under it: finished
// width (cm), fiber linen (%). Only is the kind of leaf that can have the unit.
func inBrackets(text string) (rest string, unit length.Unit, only form.Leaf) {
	for _, marks := range [...]string{"()", "[]"} {
		i := strings.LastIndexByte(text, marks[0])
		if i < 0 || text[len(text)-1] != marks[1] {
			continue
		}
		in := strings.TrimSpace(text[i+1 : len(text)-1])
		rest = strings.TrimRightFunc(text[:i], unicode.IsSpace)
		if in == "%" {
			return rest, length.NoUnit, form.Percent
		}
		if unit, ok := length.ParseUnit(in); ok {
			return rest, unit, form.Length
		}
	}
	return text, length.NoUnit, form.NoLeaf
}

// bracketed returns a heading with the unit of the numbers under it.
func bracketed(heading string, unit length.Unit) string {
	if unit == length.NoUnit {
		return heading
	}
	return heading + " (" + unit.String() + ")"
}

// mostMeanings and longestMeaning are how many texts, and how long ones, are remembered: every
// row is tried as one of headings, and rows say much the same.
const (
	mostMeanings   = 4096
	longestMeaning = 64
)

// A meanings remembers what texts mean as headings.
type meanings struct {
	sync.Mutex
	of map[string]meaning
}

type meaning struct {
	heading
	known bool
}

// or is what a text means, looked up where that is not remembered.
func (m *meanings) or(text string, look func(string) (heading, bool)) (heading, bool) {
	m.Lock()
	is, ok := m.of[text]
	m.Unlock()
	if ok {
		return is.heading, is.known
	}
	is.heading, is.known = look(text)
	is.way = slices.Clip(is.way)
	m.Lock()
	defer m.Unlock()
	if m.of == nil {
		m.of = map[string]meaning{}
	}
	if len(m.of) < mostMeanings && len(text) <= longestMeaning {
		m.of[strings.Clone(text)] = is
	}
	return is.heading, is.known
}

// itemHeading returns what a heading over items means.
func (rd *Reader) itemHeading(text string) (heading, bool) {
	if !rd.headings().begin[firstWord(text)] {
		return heading{}, false
	}
	return rd.overItems.or(text, rd.lookItem)
}

// clothHeading returns what a heading over cloths means.
func (rd *Reader) clothHeading(text string) (heading, bool) {
	if !rd.headings().begin[firstWord(text)] {
		return heading{}, false
	}
	return rd.overCloths.or(text, rd.lookCloth)
}

func (rd *Reader) lookItem(text string) (heading, bool) {
	text, unit, only := inBrackets(text)
	words := wordsOf(text)
	if len(words) == 0 {
		return heading{}, false
	}
	top := rd.form.Order.Of
	items := top.Fields[top.Index["items"]].Is.List
	head := func(s form.Synonyms) (heading, bool) {
		at := guide{s, only}
		if words[0].text == "order" && len(words) > 1 {
			if w, ok := at.head(top, words[1:]); ok {
				return heading{about: aboutOrder, way: w, unit: unit}, true
			}
		}
		if w, ok := at.to(items, words); ok {
			return heading{about: aboutItem, way: w, unit: unit}, true
		}
		w, ok := at.head(top, words)
		return heading{about: aboutOrder, way: w, unit: unit}, ok
	}
	return rd.eitherWords(head)
}

func (rd *Reader) lookCloth(text string) (heading, bool) {
	text, unit, only := inBrackets(text)
	words := wordsOf(text)
	switch {
	case len(words) == 0:
		return heading{}, false
	case only != form.NoLeaf && len(words) == 1:
	case len(words) == 1 && words[0].text == "cloth":
		return heading{about: clothName, own: true}, true
	case len(words) == 1 && words[0].text == "order":
		return heading{about: clothOrder, own: true}, true
	case rd.ofCloth(words):
		words = words[1:] // cloth width is its width
	}
	top := rd.form.Order.Of
	head := func(s form.Synonyms) (heading, bool) {
		at := guide{s, only}
		if len(words) == 1 && only == form.NoLeaf && slices.Contains(at.meanings(words[0].text), "cloth") {
			return heading{about: clothName}, true
		}
		if words[0].text == "measured" {
			w, ok := at.to(top.Fields[top.Index["measured"]].Is.Named, words[1:])
			return heading{about: aboutMeasured, way: w, unit: unit}, ok
		}
		w, ok := at.to(top.Fields[top.Index["cloths"]].Is.Named, words)
		return heading{about: aboutCloth, way: w, unit: unit}, ok
	}
	return rd.eitherWords(head)
}

// means are the fields that a text means in the words of any workroom.
func (rd *Reader) means(text string) []string { return form.Meanings(text, rd.form.Words.Fields) }

// ofCloth reports whether words say something of a cloth, as fabric width does.
func (rd *Reader) ofCloth(words []spoken) bool {
	return len(words) > 1 && (words[0].text == "cloth" || slices.Contains(rd.form.Words.Fields[words[0].text], "cloth"))
}

// eitherWords looks a heading up by the form's own words, then by other workrooms'.
func (rd *Reader) eitherWords(head func(form.Synonyms) (heading, bool)) (heading, bool) {
	if h, ok := head(form.Synonyms{}); ok {
		h.own = true
		return h, true
	}
	return head(rd.form.Words)
}

// A guide follows words to a leaf of the form. Without synonyms it knows the form's own
// words only.
type guide struct {
	words form.Synonyms
	only  form.Leaf // the kind of leaf to look for; NoLeaf for any
}

// head leads to a field of the order as a whole, apart from its cloths and items.
func (g guide) head(top *form.Group, words []spoken) (syntax.Path, bool) {
	w, ok := g.in(top, words)
	if !ok || slices.Contains([]string{"items", "cloths", "measured"}, w[0].Name) {
		return nil, false
	}
	return w, true
}

// to leads from a shape to a leaf.
func (g guide) to(s *form.Shape, words []spoken) (syntax.Path, bool) {
	switch {
	case s.Reads != form.NoLeaf:
		return syntax.Path{}, len(words) == 0 && (g.only == form.NoLeaf || g.only == s.Reads)
	case s.List != nil:
		index := 0
		if len(words) > 0 {
			if n, err := strconv.Atoi(words[0].text); err == nil && 0 < n && n <= maxListed {
				index, words = n-1, words[1:]
			}
		}
		return further(syntax.Step{Index: index}, s.List, words, g)
	case s.Named != nil:
		if len(words) == 0 {
			return nil, false
		}
		return further(syntax.Step{Name: words[0].rest, Index: syntax.OwnWord}, s.Named, nil, g)
	case s.Of != nil:
		return g.in(s.Of, words)
	}
	for _, kind := range s.Known {
		if w, ok := g.in(s.ByWord[kind], words); ok {
			return w, true
		}
	}
	return nil, false
}

// maxListed is the largest number of entries of a list in a row.
const maxListed = 99

// further takes a step and leads on from there.
func further(first syntax.Step, s *form.Shape, words []spoken, g guide) (syntax.Path, bool) {
	w, ok := g.to(s, words)
	return append(syntax.Path{first}, w...), ok
}

// in leads from a group to a leaf. It tries the longest matching name first.
func (g guide) in(of *form.Group, words []spoken) (syntax.Path, bool) {
	for n := len(words); n > 0; n-- {
		name := joined(words[:n])
		meant := g.meanings(name)
		for i := range of.Fields {
			f := &of.Fields[i]
			if f.Name != name && (f.Is.List == nil || singular(f.Name) != name) && !slices.Contains(meant, f.Name) {
				continue
			}
			if w, ok := further(syntax.Step{Name: f.Name}, &f.Is, words[n:], g); ok {
				return w, true
			}
		}
	}
	return nil, false
}

// meanings returns the fields that a name means in other workrooms' words.
func (g guide) meanings(name string) []string {
	if g.words.Fields == nil {
		return nil
	}
	return form.Meanings(name, g.words.Fields)
}

// nearestHeading returns the heading of the form that a text is most likely a misspelling
// of, or "".
func nearestHeading(text string, list []string) string {
	number := ""
	for _, w := range wordsOf(text) {
		if n, err := strconv.Atoi(w.text); err == nil && 0 < n && n <= maxListed && number == "" {
			number = w.text
		}
	}
	if number == "" {
		if own := form.Nearest(text, list); own != "" {
			return own
		}
		first := firstWord(text) // of a list, whose first entry needs no number
		own := form.Nearest(strings.Replace(strings.ToLower(text), first, first+" 1", 1), list)
		return strings.Replace(own, " 1", "", 1)
	}
	// list has headings for the first entry of a list only.
	own := form.Nearest(strings.Replace(text, number, "1", 1), list)
	return strings.Replace(own, "1", number, 1)
}

// sameWords returns the headings that have the words of a text in any order, and at most one
// more: hems bottom turn for bottom hem. One word alone tells enough only if headings begin with
// it, as track does.
func sameWords(text string, list []string) (may []string) {
	plain := func(text string) []string {
		return slices.DeleteFunc(form.Spoken(text), func(w string) bool { _, err := strconv.Atoi(w); return err == nil })
	}
	words := plain(text)
	if len(words) == 0 {
		return nil
	}
	for _, h := range list {
		has := plain(h)
		if len(words) == 1 && has[0] != words[0] {
			continue
		}
		if len(has) <= len(words)+1 && !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(has, w) }) {
			may = append(may, h)
		}
	}
	return may
}

// headings lists the headings in the form's own words, one for each leaf, and for the
// first entry of a list. Headings that end in a name of the writer's own are left out.
type headings struct {
	items, cloths []string
	first         map[string]bool // the words they begin with
	begin         map[string]bool // the words that any heading begins with, in other workrooms' words too
}

// listHeadings lists the headings.
func (rd *Reader) listHeadings() *headings {
	top := rd.form.Order.Of
	list := &headings{
		cloths: []string{"cloth", "order"},
		first:  map[string]bool{"fiber": true}, // followed by a name of the writer's own
	}
	add := func(to *[]string, about subject, s *form.Shape, first syntax.Path) {
		for _, w := range leafWays(s, first) {
			if h := (heading{about: about, way: w}).String(); !slices.Contains(*to, h) {
				*to = append(*to, h)
			}
		}
	}
	for i := range top.Fields {
		switch f := &top.Fields[i]; f.Name {
		case "items":
			add(&list.items, aboutItem, f.Is.List, nil)
		case "cloths":
			add(&list.cloths, aboutCloth, f.Is.Named, nil)
		case "measured":
			add(&list.cloths, aboutMeasured, f.Is.Named, nil)
		default:
			add(&list.items, aboutOrder, &f.Is, syntax.Path{{Name: f.Name}})
		}
	}
	for _, h := range slices.Concat(list.items, list.cloths) {
		list.first[firstWord(h)] = true
	}
	list.begin = make(map[string]bool)
	for _, words := range []iter.Seq[string]{maps.Keys(list.first), maps.Keys(rd.form.Words.Fields)} {
		for w := range words {
			for _, either := range form.Numbers(firstWord(w)) {
				list.begin[either] = true
			}
		}
	}
	return list
}

// leafWays returns the paths to the leaves of a shape, each after the path first. Entries
// that the writer names are left out.
func leafWays(s *form.Shape, first syntax.Path) (list []syntax.Path) {
	on := func(next syntax.Step) syntax.Path { return append(slices.Clone(first), next) }
	switch {
	case s.Reads != form.NoLeaf:
		return []syntax.Path{first}
	case s.List != nil:
		return leafWays(s.List, on(syntax.Step{}))
	case s.Of != nil:
		for i := range s.Of.Fields {
			list = append(list, leafWays(&s.Of.Fields[i].Is, on(syntax.Step{Name: s.Of.Fields[i].Name}))...)
		}
	case s.ByWord != nil:
		for _, kind := range s.Known {
			list = append(list, leafWays(&form.Shape{Of: s.ByWord[kind]}, first)...)
		}
	}
	return list
}
