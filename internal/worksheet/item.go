package worksheet

import (
	"cmp"
	"slices"
	"strings"
	"unsafe"

	"cutgate/internal/length"
	"cutgate/internal/order"
)

// Get is the quantity of that name on the sheet of the item; nil where it was not
// worked out. Of several pieces' it is not for Get to choose.
func (it *Item) Get(name Name) *Quantity {
	if it.kind == nil { // one that was put together by hand
		for i := 0; it.Sheet != nil && i < len(it.Sheet.All); i++ {
			if q := it.Sheet.All[i]; q.Item == it.Index && q.Name == name && q.Of == "" {
				return q
			}
		}
		return nil
	}
	if slot, ok := it.kind.slots[string(name)]; ok {
		return it.cells[slot].q
	}
	return nil
}

// cell is a term of the item; an empty one where its kind has no such term, or where the
// item was put together by hand.
func (it *Item) cell(term string) *cell {
	if it.kind == nil {
		return &cell{}
	}
	if slot, ok := it.kind.slots[term]; ok {
		return &it.cells[slot]
	}
	return &cell{}
}

// Has reports whether a term is there.
func (it *Item) Has(term string) bool { return it.cell(term).has }

// Doubtful reports whether a term rests on something that could not be read.
func (it *Item) Doubtful(term string) bool { return it.cell(term).doubtful }

// Length is a term that is a length; 0 where it is not there.
func (it *Item) Length(term string) length.Length { return it.cell(term).value.Length() }

// Count is a term that is a count; 0 where it is not there.
func (it *Item) Count(term string) int64 { return it.cell(term).value.N }

// Value is a term as it is.
func (it *Item) Value(term string) Value { return it.cell(term).value }

// Word is a term that is a word; "" where it is not there.
func (it *Item) Word(term string) string { return it.cell(term).word }

// Believes reports whether a term is a stated outcome that was taken for the
// maker's choice.
func (it *Item) Believes(term string) bool { return it.cell(term).believed }

// Ratio is a term that is a plain number; 0 where it is not there.
func (it *Item) Ratio(term string) length.Ratio { return it.cell(term).value.number() }

// Via is a term with its working.
func (it *Item) Via(term string) Term {
	c := it.cell(term)
	t := Term{Name: it.kind.shown[it.kind.slots[term]], Value: c.value}
	if c.q != nil && !it.kind.ends[it.kind.slots[term]] {
		t.via = c.q
	}
	return t
}

// Plain is a term as a number of its own.
func (it *Item) Plain(term string) Term {
	t := it.Via(term)
	t.via = nil
	return t
}

// Cloth is the cloth of a role; nil where the order names none that it has.
func (it *Item) Cloth(role string) *Cloth {
	if i := it.kind.Role(role); i >= 0 {
		return it.roles[i]
	}
	return nil
}

// ClothName is the name that the order gives for the i-th role.
func (it *Item) ClothName(i int) string {
	f := it.kind.roleFields[i]
	return f.leaf(unsafe.Pointer(it.Order)).(*order.Text).Value
}

// ClothNames are the cloths that the order names for the item, the face's first;
// "" for a role without one.
func (it *Item) ClothNames() (list []string) {
	for i := range it.kind.Roles {
		list = append(list, it.ClothName(i))
	}
	return list
}

// Disputed is the role that a cut belongs to, by the name of its piece, where the cut says
// that it is of another cloth of the order than any role has that such a piece is cut from;
// -1 where nothing is against it. What is cut from the lining's cloth is a lining under
// another name.
func (it *Item) Disputed(c *order.Cut) int {
	if !c.Cloth.Set || !c.Piece.Set || c.Cloth.Value == it.Order.Lining.Cloth.Value && it.Order.Lining.Set || it.Sheet.Cloth(c.Cloth.Value) == nil {
		return -1
	}
	of := -1
	for i := range it.kind.pieces {
		d := &it.kind.pieces[i]
		switch in := it.roles[d.role]; {
		case in == nil || !SamePiece(c.Piece.Value, d.Name):
		case in.Name == c.Cloth.Value:
			return -1
		case of < 0:
			of = d.role
		}
	}
	return of
}

// ClothOf is the cloth of a role; nil where the order has none.
func (it *Item) ClothOf(role int) *Cloth { return it.roles[role] }

// An Entry is an outcome of the form, stated or not.
type Entry struct {
	*Outcome
	Quantity *Quantity   // nil where it could not be worked out
	Node     *order.Node // as written; nil where nothing is
	Set      bool
	Doubtful bool // it rests on a choice that could not be read
	Chosen   bool // once it is written it is a choice, and what rests on it is worked from it as written
}

// Entries are the outcomes that the form has for the item, in its order, without
// the cuts.
func (it *Item) Entries() []Entry {
	list := make([]Entry, len(it.kind.outcomes))
	for i := range it.kind.outcomes {
		o := &it.kind.outcomes[i]
		c := &it.cells[o.slot]
		e := Entry{Outcome: o.Outcome, Quantity: c.q, Doubtful: c.doubtful, Chosen: o.chosen}
		leaf := o.field.leaf(unsafe.Pointer(it.Order))
		_, e.Node, e.Set = statedOf(leaf)
		if s, ok := leaf.(*order.Setting); ok {
			e.Node, e.Set = s.Node, s.Set
		}
		list[i] = e
	}
	return list
}

// PieceOf is the piece that a cut of the order is of; nil where the item has none
// such. Doubtful is its count where that rests on a choice that could not be read.
func (it *Item) PieceOf(c *order.Cut) (p *Piece, doubtful bool) {
	for i := range it.Pieces {
		if p := &it.Pieces[i]; p.cutAs(c) {
			return p, it.cells[p.decl.count].doubtful
		}
	}
	return nil, false
}

// NarrowFor is the cloth that a cut of no piece of the item fits neither way; nil where it
// fits, or that can't be told.
func (it *Item) NarrowFor(c *order.Cut) *Cloth {
	if p, _ := it.PieceOf(c); p != nil || it.Unread || !c.Width.Set || !c.Length.Set || it.Disputed(c) >= 0 {
		return nil
	}
	cloth := it.Face
	if c.Cloth.Set {
		cloth = it.Sheet.Cloth(c.Cloth.Value)
	}
	if cloth == nil || cloth.Width <= 0 || min(c.Width.Value, c.Length.Value) <= cloth.Width || it.Sheet.Doubted(cloth.Order.Width.Node) {
		return nil
	}
	return cloth
}

// Spare is what the repeat leaves of each of a piece.
func (it *Item) Spare(p *Piece) length.Length {
	if d := p.decl; d != nil && d.spare >= 0 && it.cells[d.spare].has {
		return it.cells[d.spare].value.Length()
	}
	return 0
}

// Fits reports whether no piece of the item is wider than its cloth.
func (it *Item) Fits() bool {
	for i := range it.Pieces {
		if p := &it.Pieces[i]; p.Cloth != nil && p.Cloth.Width > 0 && p.Width.Value.Length() > p.Cloth.Width {
			return false
		}
	}
	return true
}

// Unmade are the pieces that items of this kind may have, and that this one does not though
// it has a cloth for them, and no word of it says that it can't.
func (it *Item) Unmade() (names []string) {
	for i := range it.kind.pieces {
		d := &it.kind.pieces[i]
		if name := d.Name; it.ClothName(d.role) != "" && !it.excluded(d.width) && !slices.ContainsFunc(it.Pieces, func(p Piece) bool { return p.Name == name }) {
			names = append(names, name)
		}
	}
	return names
}

// excluded reports whether the words of an item say that it has no such term: it is of another
// style than each way to work the term out is for, or than what that needs.
func (it *Item) excluded(slot int) bool {
	n := slot - len(it.kind.given)
	if n < 0 || n >= len(it.kind.steps) || it.cells[slot].has {
		return false
	}
	for i := range it.kind.steps[n].rows {
		r := &it.kind.steps[n].rows[i]
		against := func(g guard) bool {
			switch word := it.cells[g.slot].word; {
			case g.no || g.a != nil:
				return false
			case g.word != nil:
				return word != "" && !slices.Contains(g.word, word)
			}
			return it.excluded(g.slot)
		}
		without := func(slot int) bool { return r.bound.needs(slot) && it.excluded(slot) }
		if !slices.ContainsFunc(r.when, against) && !(r.bound != nil && slices.ContainsFunc(r.bound.slots, without)) {
			return false
		}
	}
	return true
}

// An Other is a word of an item by which it lacks a piece that others of its kind have.
type Other struct {
	Field, Word string // Field is "" where it is not for one word alone
	Stated      bool
	Words       []string // those with which an item has the piece
}

// Elsewhere is the word by which an item does not have a piece that others of its kind have;
// where that may be one of several, the one that the order does not say.
func (it *Item) Elsewhere(piece string) (o Other, ok bool) {
	at := slices.IndexFunc(it.kind.pieces, func(d piecing) bool { return d.Name == piece })
	if at < 0 || !it.excluded(it.kind.pieces[at].width) {
		return o, false
	}
	var list []Other
	for _, r := range it.kind.steps[it.kind.pieces[at].width-len(it.kind.given)].rows {
		against := slices.DeleteFunc(slices.Clone(r.when), func(g guard) bool { return !it.against(g) })
		if len(against) != 1 {
			continue
		}
		says, ok := it.wordIn(against[0].slot)
		if !ok {
			return o, true
		}
		i := slices.IndexFunc(list, func(o Other) bool { return o.Field == says.Field })
		if i < 0 {
			i, list = len(list), append(list, says)
		}
		for _, w := range against[0].word {
			if !slices.Contains(list[i].Words, w) {
				list[i].Words = append(list[i].Words, w)
			}
		}
	}
	if len(list) > 1 {
		list = slices.DeleteFunc(list, func(o Other) bool { return o.Stated })
	}
	if len(list) == 1 {
		o = list[0]
	}
	return o, true
}

// wordIn is the word that a slot has, and the one field that may say it; false where that is
// not one.
func (it *Item) wordIn(slot int) (o Other, ok bool) {
	if slot >= len(it.kind.given) || len(it.kind.given[slot].fields) != 1 {
		return o, false
	}
	g := &it.kind.given[slot]
	t, is := g.fields[0].leaf(unsafe.Pointer(it.Order)).(*order.Text)
	return Other{Field: g.From[0], Word: it.cells[slot].word, Stated: is && t.Set}, true
}

// Nothing is what of a piece comes to nothing or less: its width, its length, or its count,
// which may come to nothing; "" where all is well.
func (p *Piece) Nothing() string {
	switch {
	case p.Width != nil && p.Width.Value.Length() <= 0:
		return "width"
	case p.Length != nil && p.Length.Value.Length() <= 0:
		return "length"
	case p.Count != nil && p.Count.Value.N < 0:
		return "count"
	}
	return ""
}

// Nothing is a piece of the item that comes to nothing or less; nil where there is none. Such
// an item can't be made, and no piece of it is to be cut.
func (it *Item) Nothing() *Piece {
	for i := range it.Pieces {
		if p := &it.Pieces[i]; p.Nothing() != "" {
			return p
		}
	}
	return nil
}

// NothingIn says which piece of the item comes to nothing or less.
func (it *Item) NothingIn() string {
	p := it.Nothing()
	q, be := p.Width, "so wide"
	switch p.Nothing() {
	case "length":
		q, be = p.Length, "so long"
	case "count":
		q, be = p.Count, "so many"
	}
	return p.Name + " of the " + it.Order.Kind.Value + " comes to " + q.Value.Format(it.Sheet.Unit, q.Round) + ", and can't be " + be
}

// Nothing is an item with pieces of a cloth of which one comes to nothing or less; nil where
// there is none.
func (s *Sheet) Nothing(c *Cloth) *Item {
	for i := range s.Items {
		it := &s.Items[i]
		if slices.ContainsFunc(it.Pieces, func(p Piece) bool { return p.Cloth == c }) && it.Nothing() != nil {
			return it
		}
	}
	return nil
}

// A CutSize is what was worked out for a size of a cut. It is doubtful where it rests on a
// choice that could not be read.
type CutSize struct {
	*Quantity
	Doubtful bool
	slot     int
}

// SizesOf are the width and the length of a piece, the way round that a cut states them.
func (it *Item) SizesOf(p *Piece, c *order.Cut) (width, length CutSize) {
	width = CutSize{p.Width, it.cells[p.decl.width].doubtful, p.decl.width}
	length = CutSize{p.Length, it.cells[p.decl.length].doubtful, p.decl.length}
	if it.Turned(p, c) {
		return length, width
	}
	return width, length
}

// ClothField is the field that says what cloth a cut is of; where none is stated for its
// piece alone, the field that could.
func (it *Item) ClothField(c *order.Cut) (field string) {
	last := -1
	for i := range it.kind.pieces {
		if d := &it.kind.pieces[i]; SamePiece(c.Piece.Value, d.Name) && d.role > last {
			last, field = d.role, it.kind.Roles[d.role].Field
		}
	}
	return field
}

// Sewn is how much of a piece is sewn in one of the item: how many, which may be a half
// one more, and how long, without what the repeat leaves.
func (it *Item) Sewn(p *Piece) (count length.Ratio, long length.Length) {
	count, long = length.NewRatio(p.Count.Value.N, 1), p.Length.Value.Length()
	if d := p.decl; d != nil {
		if d.sewn >= 0 && it.cells[d.sewn].has {
			count = it.cells[d.sewn].value.number()
		}
		if d.net >= 0 && it.cells[d.net].has {
			long = min(long, it.cells[d.net].value.Length())
		}
	}
	return count, long
}

// Fullest is the most fullness that suits the item's heading in its cloth, and who says so.
func (it *Item) Fullest() (length.Ratio, string) {
	if it.Face != nil && it.Face.Class != nil && it.Face.Class.Name == "sheer" {
		return it.Heading.SheerMost, it.Heading.SheerSource
	}
	return it.Heading.Most, it.Heading.Source
}

// Is reports whether the item's kind is or does something: "hangs", "over a tub".
func (it *Item) Is(what string) bool { return it.kind != nil && slices.Contains(it.kind.Fitted, what) }

// AsCounted is what a piece is called where it is counted: a width of it, where widths of it
// are joined side by side.
func (p *Piece) AsCounted() string {
	if p.decl != nil && p.decl.Widths {
		return p.Name + " width"
	}
	return p.Name
}

// Centered are the names of the pieces that a motif may be centered on.
func (it *Item) Centered() (names []string) {
	for i := range it.Pieces {
		if p := &it.Pieces[i]; p.decl != nil && p.decl.Across != "" && p.Cloth != nil && p.Cloth.Repeat > 0 {
			names = append(names, p.Name)
		}
	}
	return names
}

// A Layer is a cloth of an item beside its face, and what it is for: lining, liner.
type Layer struct {
	Role  string
	Apart bool // it is not sewn to the rest
	*Cloth
}

// Layers are the cloths of an item that are not its face.
func (it *Item) Layers() (list []Layer) {
	for i, c := range it.roles {
		if c != nil && c != it.Face {
			role := &it.kind.Roles[i]
			list = append(list, Layer{cmp.Or(role.Called, role.Name), role.Apart, c})
		}
	}
	return list
}

// Stands is how many dots of heat a cloth stands, by its fiber and its care label; 0 where
// neither says.
func (s *Sheet) Stands(c *Cloth) int64 {
	dots := int64(c.Cap)
	if iron := c.Order.Care.Iron; iron.Set && !iron.Value.None {
		if d := s.Dots(iron.Value); d > 0 && (dots == 0 || d < dots) {
			dots = d
		}
	}
	return dots
}

// HemCalled is the hem of that name of the item's kind; nil where there is none.
func (it *Item) HemCalled(name string) *Hem {
	if it.kind == nil {
		return nil
	}
	for i := range it.kind.Hems {
		if h := &it.kind.Hems[i]; h.Name == name {
			return h.Of(it)
		}
	}
	return nil
}

// HemOf is a hem as the item has it: stated, or the house's for the kind and the
// edge.
func (it *Item) HemOf(h *order.Hem, edge, where string) Hem {
	out := Hem{Order: h, Folds: 2}
	if h.Set {
		out.Turn, out.Folds = h.Turn.Value, Or(h.Folds, 2)
		out.Takes = takes(h)
		return out
	}
	row := it.Sheet.Tables.HemFor(it.kind.Name, edge, where)
	if row == nil {
		return out
	}
	out.Turn, out.Folds, out.House = row.Turn, row.Folds, true
	out.Takes = row.Turn.Mul(row.Folds)
	return out
}

// takes is what a hem takes of the cut: turn × folds, or the first turn and the
// others.
func takes(h *order.Hem) length.Length {
	folds := Or(h.Folds, 2)
	if h.First.Set && folds > 0 { // a first turn makes the other at least the second
		return h.First.Value + h.Turn.Value.Mul(max(1, folds-1))
	}
	return h.Turn.Value.Mul(folds)
}

// StatedCut is the order's first cut of that piece, or nil.
func (it *Item) StatedCut(piece string) *order.Cut {
	for i := range it.Order.Cuts {
		if SamePiece(it.Order.Cuts[i].Piece.Value, piece) {
			return &it.Order.Cuts[i]
		}
	}
	return nil
}

// SamePiece reports whether the form's two words can mean the same piece. A width may
// be called a piece, and what is cut of a bed skirt or a cornice either.
func SamePiece(stated, piece string) bool {
	return stated == piece || slices.Contains(mainPieces, stated) && slices.Contains(mainPieces, piece)
}

var mainPieces = []string{"piece", "width", "skirt", "cover"}

// IsHalf reports whether a cut is half a width of cloth wide.
func IsHalf(cut, cloth length.Length) bool { return Near(cut, cloth/2, length.Millimetre) }

// OffHem reports whether grommets reach to the inner fold of a stated top hem, or past
// it: how far they are from the top edge is then in doubt.
func (it *Item) OffHem() bool {
	h, turn := &it.Order.Holes, it.Order.Hems.Top.Turn
	r := h.Reach()
	return r > 0 && h.FromTop.Set && turn.Set && h.FromTop.Value+r >= turn.Value
}

// Near reports whether two lengths are less than a step apart.
func Near(a, b, step length.Length) bool { return a-b < step && b-a < step }

// Step is what people measure by in the order's units: 1/16 in or 1 mm.
func (it *Item) Step() length.Length { return length.Step(it.Sheet.Unit) }

// Rounder is a length up to a rounder one: to the quarter, the half and the whole inch,
// to half and whole centimetres. What is rounded off is trimmed at the table.
func (it *Item) Rounder(term string) []length.Length {
	if !it.Has(term) {
		return nil
	}
	return it.Rounded(it.Length(term))[1:]
}

// Rounded is a length as it is, and up to each of the rounder ones.
func (it *Item) Rounded(l length.Length) []length.Length {
	if it.Sheet.Unit.Metric() {
		return []length.Length{l, l.Round(length.Centimetre/2, length.Up), l.Round(length.Centimetre, length.Up)}
	}
	return []length.Length{l, l.Round(length.Inch/4, length.Up), l.Round(length.Inch/2, length.Up), l.Round(length.Inch, length.Up)}
}

// CutOf is a run down a cloth taken through shrinkage and repeat.
func (c *Cloth) CutOf(run length.Length) length.Length {
	if c == nil {
		return run
	}
	if !c.shrinkLength.IsZero() && c.shrinkLength.Cmp(one) < 0 {
		run = run.QuoRatio(one.Sub(c.shrinkLength), length.Up)
	}
	if c.Repeat <= 0 {
		return run
	}
	return c.Repeat.Mul(length.CeilDiv(run, c.Repeat))
}

// BeforeWash is the width to cut so that l is left after the first wash.
func (c *Cloth) BeforeWash(l length.Length) length.Length {
	if c.shrinkWidth.IsZero() || c.shrinkWidth.Cmp(one) >= 0 {
		return l
	}
	return l.QuoRatio(one.Sub(c.shrinkWidth), length.Up)
}

// AfterWash is what is left of a width after the first wash.
func (c *Cloth) AfterWash(l length.Length) length.Length {
	return l.MulRatio(one.Sub(c.shrinkWidth), length.Down)
}

// Shrinks is the part of the length and of the width that the first wash takes; 0
// for cloth that is washed before it is cut.
func (c *Cloth) Shrinks() (along, across length.Ratio) { return c.shrinkLength, c.shrinkWidth }

// Lacks are the fields of the form without which no piece of the item can be worked
// out, or only a part of one, which is named: those that its terms need and that are not
// stated. A part of it is not lacking where the order says how many are cut.
func (it *Item) Lacks() (fields []string, piece string) {
	if !it.Worked {
		return nil, ""
	}
	need := it.needs(&fields)
	for i := range it.kind.pieces {
		d := &it.kind.pieces[i]
		wide, long := it.cells[d.width].has, it.cells[d.length].has
		counted := it.Order.Widths.Set || slices.ContainsFunc(it.Order.Cuts, func(c order.Cut) bool { return SamePiece(c.Piece.Value, d.Name) && c.Count.Set })
		if it.roles[d.role] != nil && (wide || long) && !counted && !(wide && long && it.cells[d.count].has) {
			need(d.width)
			need(d.length)
			need(d.count)
			if len(fields) > 0 {
				return fields, d.Name
			}
		}
	}
	switch {
	case len(it.Pieces) > 0 && it.Pieces[0].Length == nil:
		need(it.Pieces[0].decl.length)
		piece = it.Pieces[0].Name
	case len(it.Pieces) == 0 && len(it.kind.pieces) > 0:
		first := slices.IndexFunc(it.kind.pieces, func(d piecing) bool { return !it.excluded(d.width) })
		d := &it.kind.pieces[max(first, 0)]
		if need(d.width); len(fields) == 0 && !it.cells[d.width].impossible {
			need(it.kind.pieces[0].width)
		}
	}
	return fields, piece
}

// LacksFor are the fields of the form without which a piece, which the words of the item allow,
// can't be worked out.
func (it *Item) LacksFor(piece string) (fields []string) {
	if at := slices.IndexFunc(it.kind.pieces, func(d piecing) bool { return d.Name == piece }); at >= 0 {
		d, need := &it.kind.pieces[at], it.needs(&fields)
		need(d.width)
		need(d.length)
		need(d.count)
	}
	return fields
}

// needs is what adds the fields that a term needs and that are not stated.
func (it *Item) needs(fields *[]string) (need func(slot int)) {
	var seen map[int]bool // nil while nothing lacks
	need = func(slot int) {
		if slot < 0 || seen[slot] || it.cells[slot].has {
			return
		}
		if seen == nil {
			seen = map[int]bool{}
		}
		seen[slot] = true
		for i := range it.kind.given {
			g := &it.kind.given[i]
			if g.slot != slot {
				continue
			}
			if g.as >= 0 {
				need(g.as)
			} else if g.Choice != nil && !slices.Contains(*fields, g.From[0]) && !strings.Contains(g.From[0], "/") {
				*fields = append(*fields, g.From[0])
			}
			return
		}
		for i := range it.kind.steps {
			s := &it.kind.steps[i]
			if s.slot != slot {
				continue
			}
			for j := range s.rows { // the row that is meant where nothing else is said
				r := &s.rows[j]
				if j < len(s.rows)-1 && !hold(r.when, it) {
					continue
				}
				for _, read := range r.reads() {
					if r.bound == nil || r.bound.needs(read) {
						need(read)
					}
				}
				return
			}
		}
	}
	return need
}
