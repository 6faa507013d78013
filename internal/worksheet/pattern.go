package worksheet

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/length"
)

// A Paneling is a panel as it lies flat when its pieces are joined.
type Paneling struct {
	Name          string // "panel"
	Role          string // of its cloth
	Pieces        string // what it is joined of: "center/side"
	When          string
	Across, Along string // formulas of its size between what its edges take
	Raw           bool   // that is its size as cut, with what its edges take
	Main          bool   // the item's joins and holes are its own
	Turned        bool   // its piece lies turned on the cloth, which runs up it with its width
	Left, Right   string // what its sides are called, where they have names: "leading edge"
}

// An Edging is what lies along the edges of some pieces or panels, where that is so. Of
// several rows the first that speaks of an edge counts.
//
// An edge is "hem" and the hem's name; "seam" or "turn", the formula in braces of what it
// takes, and what there is to say of it; "raw" and what there is to say; or "later", the name
// of a hem, a colon and what there is to say, where the edge is cut to shape and hemmed after
// the first wash.
type Edging struct {
	Of                     string // names: "plate/front"
	When                   string
	Top, Foot, Left, Right string
	Shape                  Shape
	Radius                 string // the formula of a rounded corner's radius at the raw edge
}

// A Placing says where on a piece or a panel the places of a [Marking] are.
type Placing struct {
	Mark, From string // of the Marking; From may be left out
	Of         string // the piece or panel
	When       string
	Edge       Side // along which they are measured: from the left along Top and Foot, from the foot along the sides
	Raw        bool // measured from the raw edge, not from the finished one
	Through    bool // each is a line through the piece: a join, a rod
}

// A Hemming is a hem of a kind, for its pictures.
type Hemming struct {
	Name string // "sides"
	Word string // as people call it: "side hem"
	Of   func(*Item) *Hem
}

// Shape is the outline of a piece.
type Shape uint8

// The shapes.
const (
	Rectangle  Shape = iota
	Circle           // or an ellipse, where it is longer than it is wide
	HalfCircle       // its straight edge is at the foot
	Racetrack        // with half circles at both ends
	RoundFoot        // the corners at the foot are rounded
	RoundAll         // all corners are
	Crescent         // a shaped band on a block of cloth
)

// Side is an edge of a piece as it lies right side up.
type Side uint8

// The sides.
const (
	Top Side = iota
	Foot
	Left
	Right
)

// Making is what is done to an edge.
type Making uint8

// The makings.
const (
	Raw    Making = iota // nothing is taken by it
	Seamed               // sewn to something else
	Turned               // folded over
	Hemmed
)

// An Edge is one edge of a piece.
type Edge struct {
	Making Making
	Word   string        // "side hem", "seam"
	Takes  length.Length // from the raw edge to the finished one
	Later  length.Length // the same of a hem that is not made before the first wash
	Folds  []length.Length
	Sewn   []length.Length // stitch lines, from the raw edge
}

// all is what an edge takes, now and later.
func (e *Edge) all() length.Length { return e.Takes + e.Later }

// A Pattern is a piece as it is cut, or a panel as it lies flat when it is joined: what
// a picture shows. Its sizes are those that are cut: of cloth that is not washed yet,
// before it shrinks.
type Pattern struct {
	Name          string
	Cloth         *Cloth // nil where it has none
	Count         int64  // in one of the item; of a panel, how many panels
	Width, Length length.Length
	Round         [2]length.Rounding // how its width and length are shown
	Spare         length.Length      // of the length, cut off at the top: what the repeat leaves
	Edges         [4]Edge            // by Side
	Shape         Shape
	Radius        length.Length
	Left, Right   string // what its sides are called; "" where they are alike
	Joined        bool   // of several pieces
	Turned        bool   // of one that lies turned on the cloth
	Unwashed      bool   // sizes are larger than on the ticket's other lines, as the cloth will shrink
	Rows          []PatternRow
}

// A PatternRow is a row of places on a pattern, along an edge.
type PatternRow struct {
	Name    string
	Edge    Side
	From    string // what its figures are measured from
	Start   length.Length
	At      []length.Length // from there
	Below   length.Length   // how far the places lie below the finished top; 0 for on the edge
	Holes   bool
	Through bool
}

// Net is a pattern's size between what its edges take.
func (p *Pattern) Net() (across, along length.Length) {
	return p.Width - p.Edges[Left].Takes - p.Edges[Right].Takes, p.Length - p.Spare - p.Edges[Top].Takes - p.Edges[Foot].Takes
}

// The declarations as they were read.
type (
	paneling struct {
		*Paneling
		role          int
		when          []guard
		across, along *bound
	}
	edging struct {
		*Edging
		of     []string
		when   []guard
		edges  [4]edgeOf
		radius *bound
	}
	placing struct {
		*Placing
		when []guard
	}
	edgeOf struct {
		making Making
		hem    *Hemming
		takes  *bound
		word   string
	}
	picturing struct {
		panels   []paneling
		edgings  []edging
		placings []placing
	}
)

// picture reads what the kind says of its pictures.
func (k *kind) picture() (*picturing, error) {
	r := new(picturing)
	for i := range k.Panels {
		p := paneling{Paneling: &k.Panels[i], role: k.Kind.Role(k.Panels[i].Role)}
		var err error
		if p.when, err = k.guards(p.When); err == nil {
			if p.across, err = k.bind(p.Across, Length); err == nil {
				p.along, err = k.bind(p.Along, Length)
			}
		}
		if err == nil && p.role < 0 {
			err = fmt.Errorf("there is no cloth %s", p.Role)
		}
		if err != nil {
			return nil, &Fault{"panel", p.Name, err}
		}
		r.panels = append(r.panels, p)
	}
	for i := range k.Edgings {
		e := edging{Edging: &k.Edgings[i], of: strings.Split(k.Edgings[i].Of, "/")}
		var err error
		if e.when, err = k.guards(e.When); err == nil && e.Radius != "" {
			e.radius, err = k.bind(e.Radius, Length)
		}
		for side, text := range [...]string{e.Top, e.Foot, e.Left, e.Right} {
			if err == nil {
				e.edges[side], err = k.edge(text)
			}
		}
		if err != nil {
			return nil, &Fault{"edge", e.Of, err}
		}
		r.edgings = append(r.edgings, e)
	}
	for i := range k.Placings {
		p := placing{Placing: &k.Placings[i]}
		var err error
		if p.when, err = k.guards(p.When); err != nil {
			return nil, &Fault{"place", p.Mark, err}
		}
		r.placings = append(r.placings, p)
	}
	return r, nil
}

// edge reads what an edge is.
func (k *kind) edge(text string) (e edgeOf, err error) {
	if text == "" {
		return e, nil
	}
	what, rest, _ := strings.Cut(text, " ")
	switch what {
	case "raw":
		e.word = rest
		return e, nil
	case "hem", "later":
		if what == "later" {
			rest, e.word, _ = strings.Cut(rest, ": ")
		}
		i := slices.IndexFunc(k.Hems, func(h Hemming) bool { return h.Name == rest })
		if i < 0 {
			return e, fmt.Errorf("there is no hem %q", rest)
		}
		if e.hem = &k.Hems[i]; what == "hem" {
			e.making = Hemmed
		}
		return e, nil
	case "seam":
		e.making = Seamed
	case "turn":
		e.making = Turned
	default:
		return e, errors.New("an edge is a hem, a seam, a turn or raw, not " + what)
	}
	end := strings.LastIndex(rest, "}")
	if end < 0 {
		return e, errors.New("nothing says what the " + what + " takes")
	}
	e.word = strings.TrimSpace(rest[end+1:])
	if e.word == "" {
		e.word = what
	}
	e.takes, err = k.bind(rest[:end+1], Length)
	return e, err
}

// pictured is what the item's kind says of its pictures.
func (it *Item) pictured() *picturing {
	r, err := it.kind.pictures()
	mustRead(it.kind.Name, err)
	return r
}

// Patterns are the pictures of an item: each panel as it is joined, and each piece that
// is not a panel by itself.
func (it *Item) Patterns() (list []Pattern) {
	if it.kind == nil {
		return nil
	}
	alone := map[string]bool{} // pieces that are a whole panel
	panels := it.pictured().panels
	for i := range panels {
		d := &panels[i]
		if !hold(d.when, it) {
			continue
		}
		across, ok := d.across.eval(it)
		along, ok2 := d.along.eval(it)
		if !ok || !ok2 {
			continue
		}
		var of []*Piece
		for i := range it.Pieces {
			if p := &it.Pieces[i]; slices.Contains(strings.Split(d.Pieces, "/"), p.Name) {
				of = append(of, p)
			}
		}
		if len(of) == 0 {
			continue
		}
		p := Pattern{Name: d.Name, Cloth: it.roles[d.role], Count: it.Panels, Left: d.Left, Right: d.Right, Turned: d.Turned}
		it.edge(&p, d.Name)
		net := [2]length.Length{length.Length(across.Int(length.Nearest)), length.Length(along.Int(length.Nearest))}
		p.Width, p.Length = p.before(false, net[0]), p.before(true, net[1])
		if !d.Raw {
			p.Width += p.Edges[Left].all() + p.Edges[Right].all()
			p.Length += p.Edges[Top].all() + p.Edges[Foot].all()
		}
		if d.Turned {
			if of[0].Length == nil {
				continue
			}
			p.Round = [2]length.Rounding{of[0].Length.Round, of[0].Width.Round}
		} else if n := of[0].Count.Value.N; len(of) == 1 && of[0].Length != nil && n%it.Panels == 0 && Near(p.Width, of[0].Width.Value.Length(), it.Step()) {
			// It is one piece: what is cut is what is hung.
			p.Name, p.Count = of[0].Name, n
			p.cut(it, of[0])
			alone[of[0].Name] = true
		} else {
			p.Joined = true
			cut := Pattern{Name: of[0].Name}
			if cut.cut(it, of[0]); of[0].Length != nil && Near(p.Length, cut.Length-cut.Spare, it.Step()) {
				p.Length, p.Round[1] = cut.Length-cut.Spare, cut.Round[1] // as its pieces are rounded
			}
		}
		if d.Main {
			it.own(&p)
		}
		it.place(&p, d.Name)
		if d.Main {
			list = slices.Insert(list, 0, p)
		} else {
			list = append(list, p)
		}
	}
	for i := range it.Pieces {
		of := &it.Pieces[i]
		if alone[of.Name] || of.Length == nil {
			continue
		}
		p := Pattern{Name: of.Name, Cloth: of.Cloth, Count: of.Count.Value.N}
		p.cut(it, of)
		it.edge(&p, of.Name)
		it.place(&p, of.Name)
		list = append(list, p)
	}
	return list
}

// cut gives a pattern the size that a piece is cut to.
func (p *Pattern) cut(it *Item, of *Piece) {
	if of.Length == nil {
		return
	}
	p.Width, p.Length = of.Width.Value.Length(), of.Length.Value.Length()
	p.Round = [2]length.Rounding{of.Width.Round, of.Length.Round}
	p.Spare = it.Spare(of)
}

// before is a length on a pattern before the first wash.
func (p *Pattern) before(along bool, l length.Length) length.Length {
	if p.Cloth == nil {
		return l
	}
	long, wide := p.Cloth.Shrinks()
	share := wide
	if along != p.Turned {
		share = long
	}
	if share.IsZero() || share.Cmp(one) >= 0 {
		return l
	}
	p.Unwashed = true
	return l.QuoRatio(one.Sub(share), length.Nearest)
}

// edge finds what lies along the edges of a pattern.
func (it *Item) edge(p *Pattern, name string) {
	var said [4]bool
	edgings := it.pictured().edgings
	for i := range edgings {
		d := &edgings[i]
		if !slices.Contains(d.of, name) || !hold(d.when, it) {
			continue
		}
		if d.Shape != Rectangle && p.Shape == Rectangle {
			p.Shape = d.Shape
			if d.radius != nil {
				if r, ok := d.radius.eval(it); ok {
					p.Radius = p.before(false, length.Length(r.Int(length.Nearest)))
				}
			}
		}
		for side, text := range [...]string{d.Top, d.Foot, d.Left, d.Right} {
			if text == "" || said[side] {
				continue
			}
			if e, ok := it.edgeAs(p, &d.edges[side], Side(side)); ok {
				p.Edges[side], said[side] = e, true
			}
		}
	}
}

// edgeAs is an edge as it is on the item.
func (it *Item) edgeAs(p *Pattern, d *edgeOf, side Side) (Edge, bool) {
	scale := func(l length.Length) length.Length { return p.before(side == Top || side == Foot, l) }
	e := Edge{Making: d.making, Word: it.Say(d.word)}
	switch d.making {
	case Raw:
		if d.hem != nil {
			e.Later = scale(d.hem.Of(it).Takes)
		}
	case Hemmed:
		h := d.hem.Of(it)
		if h.Takes <= 0 {
			return e, true
		}
		e.Word, e.Takes = d.hem.Word, scale(h.Takes)
		first := h.Turn
		if h.Order != nil && h.Order.First.Set {
			first = h.Order.First.Value
		}
		for at := first; at <= h.Takes && h.Turn > 0 && len(e.Folds) < 4; at += h.Turn {
			e.Folds = append(e.Folds, scale(at))
		}
		stitch := h.Turn
		if h.Order != nil && h.Order.Stitch.Set {
			stitch -= h.Order.Stitch.Value
		}
		e.Sewn = []length.Length{scale(h.Takes + stitch)}
	case Seamed, Turned:
		takes, ok := d.takes.eval(it)
		if !ok {
			return e, false
		}
		l := length.Length(takes.Int(length.Nearest))
		e.Takes = scale(l)
		if l <= 0 {
			return Edge{}, true
		}
		if d.making == Seamed {
			e.Sewn = []length.Length{e.Takes}
		} else {
			e.Folds = []length.Length{e.Takes}
		}
	}
	return e, true
}

// own adds an item's joins and holes to its panel.
func (it *Item) own(p *Pattern) {
	from := p.Left
	if from == "" {
		from = "left finished edge"
	}
	if len(it.Joined) > 0 {
		row := PatternRow{Name: "joins", Edge: Foot, From: from, Start: p.Edges[Left].Takes, At: p.across(it.Joined), Through: true}
		if later := p.Edges[Left].Later; later > 0 { // there is no finished edge yet
			row.From = "left cut edge"
			for i := range row.At {
				row.At[i] += later
			}
		}
		p.Rows = append(p.Rows, row)
	}
	if len(it.Holes) > 0 {
		h := &it.Order.Holes
		p.Rows = append(p.Rows, PatternRow{Name: "holes", Edge: Top, From: from, Start: p.Edges[Left].Takes, At: p.across(it.Holes), Below: p.before(true, h.FromTop.Value), Holes: true})
	}
}

func (p *Pattern) across(list []length.Length) []length.Length {
	out := make([]length.Length, len(list))
	for i, l := range list {
		out[i] = p.before(false, l)
	}
	return out
}

// place adds the rows of marks that lie on a pattern.
func (it *Item) place(p *Pattern, name string) {
	placings := it.pictured().placings
	for i := range placings {
		d := &placings[i]
		if d.Of != name || !hold(d.when, it) {
			continue
		}
		for _, m := range it.Marks() {
			if m.Name != d.Mark || d.From != "" && m.From != d.From {
				continue
			}
			row := PatternRow{Name: m.Name, Edge: d.Edge, From: m.From, Through: d.Through}
			side := Left
			if d.Edge == Left || d.Edge == Right {
				side = Foot
			}
			if !d.Raw {
				row.Start = p.Edges[side].Takes
			}
			for _, l := range m.At {
				row.At = append(row.At, p.before(side == Foot, l))
			}
			p.Rows = append(p.Rows, row)
		}
	}
}
