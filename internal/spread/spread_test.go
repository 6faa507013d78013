package spread_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/lay"
	"cutgate/internal/length"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/spread"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// sheets works the orders of a text out.
func sheets(t *testing.T, name, text string) (list []*worksheet.Sheet) {
	t.Helper()
	checker, err := lint.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	format, ok := load.FormatOf(name)
	if !ok {
		t.Fatalf("%s: what is it?", name)
	}
	for _, r := range checker.CheckFile(&source.File{Name: name, Text: text}, format) {
		if r.Err != nil {
			t.Fatal(r.Err)
		}
		list = append(list, r.Sheet)
	}
	return list
}

// TestLaysAreTheClothToBuy holds the lays of every order of the test data to the length
// that the cloth to buy is worked from, whichever way the house has its cloth cut: one
// answer everywhere. Where bolts or flaws are stated the pieces are laid on those.
func TestLaysAreTheClothToBuy(t *testing.T) {
	laid := map[lay.Mode]int{}
	saved := map[lay.Mode]int{}
	root := "../../testdata/orders/clean"
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if _, ok := load.FormatOf(name); !ok {
			return nil
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		for _, stated := range sheets(t, name, string(text)) {
			for _, mode := range lay.Modes() {
				tables, err := stated.Tables.Revised(func(t *trade.Tables) error {
					t.House.Laid = mode.String()
					return nil
				})
				if err != nil {
					return err
				}
				work := worksheet.Work(stated.Order, tables, stated.Kinds)
				list, _, err := spread.Of(context.Background(), []*worksheet.Sheet{work}, spread.Options{Apart: true})
				if err != nil {
					return err
				}
				for _, s := range list {
					if len(s.Stuff.Bolts) > 0 {
						continue
					}
					for i := range work.Cloths {
						if c := &work.Cloths[i]; c.Name == s.Cloth || c.Order.Name.Value == s.Cloth {
							laid[mode]++
							if got := s.Lay().Length; got != c.Cuts {
								t.Errorf("%s, %s: %s is laid in %s, and the cloth to buy is worked from %s", name, mode, s.Cloth, got, c.Cuts)
							}
							if s.Lay().Length < s.Lays[lay.Rows].Length {
								saved[mode]++
							}
						}
					}
				}
			}
		}
		return nil
	})
	if err != nil || laid[lay.Rows] < 20 || laid[lay.Free] != laid[lay.Rows] || saved[lay.Guillotine] < 5 || saved[lay.Free] < 5 {
		t.Errorf("cloths are laid: %v, with less than rows: %v: %v", laid, saved, err)
	}
}

const week = `order: A
units: cm
cloths:
  ticking: {name: Blue Ticking, fiber: {cotton: 100}, width: 140, nap: none}
items:
  - {item: cushion cover, id: one, cloth: ticking, style: knife edge, pad: {width: 60, length: 60}, allowance: 1}
---
order: B
units: cm
cloths:
  blue: {name: blue ticking, fiber: {cotton: 100}, width: 140, nap: none}
items:
  - {item: cushion cover, id: two, quantity: 2, cloth: blue, style: boxed, pad: {width: 60, length: 60, depth: 8}, allowance: 1}
---
order: C
units: cm
cloths:
  blue: {name: blue ticking, fiber: {cotton: 100}, width: 137, nap: none}
items:
  - {item: cushion cover, id: three, cloth: blue, style: boxed, pad: {width: 60, length: 60, depth: 8}, allowance: 1}
`

// TestTogether lays orders of one cloth together, not those of another width, and says
// which piece is for which.
func TestTogether(t *testing.T) {
	work := sheets(t, "week.yaml", strings.ReplaceAll(week, "knife edge, pad: {width: 60, length: 60}", "boxed, pad: {width: 60, length: 60, depth: 8}"))
	list, left, err := spread.Of(context.Background(), work, spread.Options{})
	if err != nil || len(left) > 0 {
		t.Fatal(left, err)
	}
	if len(list) != 2 || len(list[0].Orders) != 2 || len(list[1].Orders) != 1 {
		t.Fatalf("there are %d spreads", len(list))
	}
	s := list[0]
	want := map[[3]int64]int64{} // by order, item and copy
	for o, sheet := range s.Orders {
		for i := range sheet.Items {
			it := &sheet.Items[i]
			for n := range it.Quantity {
				for j := range it.Pieces {
					want[[3]int64{int64(o), int64(i), n}] += it.Pieces[j].Count.Value.N
				}
			}
		}
	}
	for _, p := range s.Lay().Pieces {
		c := &s.Cuts[p.Piece]
		want[[3]int64{int64(c.Order), int64(c.Item), c.N}]--
	}
	for of, n := range want {
		if n != 0 {
			t.Errorf("order %d, item %d, copy %d: %d pieces too few", of[0]+1, of[1]+1, of[2]+1, n)
		}
	}
	var alone length.Length
	apart, _, err := spread.Of(context.Background(), work[:2], spread.Options{Apart: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range apart {
		alone += a.Lays[lay.Rows].Length
	}
	if len(apart) != 2 || s.Alone != alone || s.Lays[lay.Rows].Length > alone {
		t.Errorf("together %s, said to be %s alone; apart they take %s", s.Lays[lay.Rows].Length, s.Alone, alone)
	}
}

// TestHouseLaysApart lays orders of one cloth apart where the house of either does not lay
// them together.
func TestHouseLaysApart(t *testing.T) {
	work := sheets(t, "week.yaml", week)[:2]
	apart, err := work[1].Tables.Revised(func(t *trade.Tables) error {
		t.House.LayTogether = false
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		sheets []*worksheet.Sheet
		want   int
	}{{work, 1}, {[]*worksheet.Sheet{work[0], worksheet.Work(work[1].Order, apart, work[1].Kinds)}, 2}} {
		list, _, err := spread.Of(context.Background(), c.sheets, spread.Options{})
		if err != nil || len(list) != c.want {
			t.Errorf("there are %d lays, not %d: %v", len(list), c.want, err)
		}
	}
}

// TestTogetherAsLaid compares lays that are cut from edge to edge with such lays of each
// order by itself.
func TestTogetherAsLaid(t *testing.T) {
	work := sheets(t, "week.yaml", week)[:2]
	list, _, err := spread.Of(context.Background(), work, spread.Options{Mode: new(lay.Guillotine)})
	if err != nil || len(list) != 1 {
		t.Fatal(len(list), err)
	}
	var alone length.Length
	for _, s := range work {
		one, _, err := spread.Of(context.Background(), []*worksheet.Sheet{s}, spread.Options{Mode: new(lay.Guillotine)})
		if err != nil {
			t.Fatal(err)
		}
		alone += one[0].Lay().Length
	}
	if list[0].Alone != alone || list[0].Lay().Length > alone {
		t.Errorf("together %s, said to be %s alone; apart they take %s", list[0].Lay().Length, list[0].Alone, alone)
	}
}

// TestLotsWhole cuts each of two cushions from one lot. No bolt has room for both.
func TestLotsWhole(t *testing.T) {
	text := `order: A
units: cm
cloths:
  ticking: {fiber: {cotton: 100}, width: 140, nap: none, bolts: [{lot: K1, length: 130}, {lot: K2, length: 130}]}
items:
  - {item: cushion cover, id: one, quantity: 2, cloth: ticking, style: boxed, pad: {width: 60, length: 60, depth: 8}, allowance: 1}
`
	list, left, err := spread.Of(context.Background(), sheets(t, "a.yaml", text), spread.Options{})
	if err != nil || len(left) > 0 {
		t.Fatal(left, err)
	}
	s := list[0]
	bolt := map[int64]int{}
	for _, p := range s.Lay().Pieces {
		n := s.Cuts[p.Piece].N
		if was, ok := bolt[n]; ok && was != p.Bolt {
			t.Errorf("cushion %d is cut from two lots", n+1)
		}
		bolt[n] = p.Bolt
	}
	if len(bolt) != 2 || bolt[0] == bolt[1] {
		t.Errorf("the cushions are on bolts %v; one has no room for both", bolt)
	}
}

// TestTurning turns pieces only of a cloth that is said to have neither nap nor pattern.
func TestTurning(t *testing.T) {
	for _, c := range []struct {
		says  string
		turns bool
	}{
		{"nap: none", true},
		{"nap: one way", false},
		{"washed: true", false},
		{"nap: none, repeat: {length: 10}", false},
		{"nap: none, edge_stripe: true", false},
		{"nap: none, shrinks: {length: 3%, width: 1%}", false},
	} {
		text := strings.Replace(strings.Split(week, "---")[1], "nap: none", c.says, 1)
		list, _, err := spread.Of(context.Background(), sheets(t, "b.yaml", text), spread.Options{Mode: new(lay.Free), Turn: []string{"boxing"}})
		if err != nil || len(list) != 1 {
			t.Fatal(err)
		}
		if got := !list[0].Stuff.Directed; got != c.turns || (list[0].NotTurns == "") != got {
			t.Errorf("%s: turns %t, %q", c.says, got, list[0].NotTurns)
		}
	}
}

// TestAsMarked lays pieces as wide as they are cut: up to a sixteenth of an inch, by the marks
// on a tape. The square of a piped cushion is as long as it is wide. Three fronts of 18 1/32 in
// still come out of a cloth of three times that.
func TestAsMarked(t *testing.T) {
	for _, c := range []struct {
		name, cloth, item string
		across            []length.Length // where the first row's pieces begin
	}{
		{"squares", "width: 54, selvedge: 1/2", "quantity: 4, style: boxed, pad: {width: 20, length: 22, depth: 3}, allowance: 1/2, piping: {cord: 3/16}", nil},
		{"to the last thread", "width: 54 3/32", "quantity: 3, style: knife edge, pad: {width: 17 1/32, length: 20}, allowance: 1/2", []length.Length{0, length.Inch * 577 / 32, length.Inch * 577 / 16}},
	} {
		text := "order: A\nunits: in\ncloths: {c: {" + c.cloth + "}}\nitems:\n  - {item: cushion cover, cloth: c, " + c.item + "}\n"
		list, _, err := spread.Of(context.Background(), sheets(t, "a.yaml", text), spread.Options{})
		if err != nil || len(list) != 1 {
			t.Fatal(len(list), err)
		}
		var across []length.Length
		for _, p := range list[0].Lay().Pieces {
			if p.Y == 0 {
				across = append(across, p.X)
			}
			if mark := length.Inch / 16; c.across == nil && (p.X%mark != 0 || p.Width%mark != 0) {
				t.Errorf("%s: %s, %s wide, lies %s across", c.name, list[0].Cuts[p.Piece].Name, p.Width, p.X)
			}
			if list[0].Cuts[p.Piece].Name == "piping square" && p.Width != p.Length {
				t.Errorf("%s: a square is %s by %s", c.name, p.Width, p.Length)
			}
		}
		if c.across != nil && !slices.Equal(across, c.across) {
			t.Errorf("%s: the first row begins at %v, not %v", c.name, across, c.across)
		}
	}
}

// TestHalfDropSides lays a shower curtain of a center and its sides in a half drop: both sides
// meet the center half a repeat further on, and lie side by side. By hand, 5 repeats for the
// center, as many for the sides, and half of one before those.
func TestHalfDropSides(t *testing.T) {
	work := sheets(t, "a.yaml", `order: A
units: in
cloths: {duck: {width: 60, selvedge: 1/2, repeat: {length: 20, match: half drop}}}
items:
  - {item: shower curtain, cloth: duck, finished: {width: 81 1/2, length: 84}, hems: {top: {turn: 2}, bottom: {turn: 3}, sides: {turn: 1/2}}, join: {layout: center and sides, allowance: 5/8}}
`)
	list, _, err := spread.Of(context.Background(), work, spread.Options{})
	if err != nil || len(list) != 1 {
		t.Fatal(len(list), err)
	}
	s := list[0]
	for _, p := range s.Lay().Pieces {
		want := length.Length(0)
		if s.Cuts[p.Piece].Name == "side" {
			want = 110 * length.Inch
		}
		if p.Y != want {
			t.Errorf("a %s begins at %s, not %s", s.Cuts[p.Piece].Name, p.Y, want)
		}
	}
	if got, want := s.Lay().Length, 210*length.Inch; got != want || work[0].Cloths[0].Cuts != want {
		t.Errorf("the lay is %s and the cuts take %s, not %s", got, work[0].Cloths[0].Cuts, want)
	}
}

// TestItemNames tells items apart: those without an id, and those of one, by their number in the order.
func TestItemNames(t *testing.T) {
	item := func(text string) string {
		return "  - {item: " + text + ", cloth: c, pad: {width: 20, length: 20}, style: knife edge}\n"
	}
	head := "order: A\nunits: in\ncloths: {c: {width: 54}}\nitems:\n"
	for _, c := range []struct{ items, want string }{
		{item("cushion cover"), "cushion cover"},
		{item("cushion cover") + item("cushion cover, id: seat"), "cushion cover/seat"},
		{item("cushion cover") + item("cushion cover, id: seat") + item("cushion cover"), "item 1, cushion cover/seat/item 3, cushion cover"},
		{item("cushion cover, id: seat") + item("cushion cover, id: seat"), "item 1, seat/item 2, seat"},
		{item("cushion cover, id: seat") + "  - {item: tablecloth, id: seat, cloth: c, table: {width: 20, length: 20}, drop: 6, hem: {turn: 1, folds: 2}}\n", "seat cushion cover/seat tablecloth"},
	} {
		list, _, err := spread.Of(context.Background(), sheets(t, "a.yaml", head+c.items), spread.Options{})
		if err != nil || len(list) != 1 {
			t.Fatal(len(list), err)
		}
		var names []string
		for i := range list[0].Orders[0].Items {
			names = append(names, list[0].ItemName(&spread.Cut{Copy: worksheet.Copy{Item: i}}))
		}
		if got := strings.Join(names, "/"); got != c.want {
			t.Errorf("%q, not %q", got, c.want)
		}
	}
}

// TestHalfDropLetters says of each width of a half drop whether it is A or B, as the ticket has them
// marked: by turns down the cloth where the cuts are half a repeat more than whole ones, and
// else all of A before all of B. By hand, A starts at a whole repeat and B half of one on.
func TestHalfDropLetters(t *testing.T) {
	for _, c := range []struct {
		name, unit, repeat, sizes, cut, quantity string
		letters                                  string
		tall                                     bool // each begins where the one before ends, though that is no place of the repeat
	}{
		{"by turns", "in", "25", "finished: {width: 66, length: 91}", "112 1/2", "1", "ABA", false},
		{"by turns through two", "in", "25", "finished: {width: 66, length: 91}", "112 1/2", "2", "ABABAB", false},
		{"no half of a repeat that can be marked", "cm", "61.5", "finished: {width: 160, length: 240}", "276.8", "2", "ABABAB", true},
		{"what is left of each is enough", "in", "25", "finished: {width: 66, length: 91}", "125", "1", "AAB", false},
		{"what is left is not enough", "in", "25", "finished: {width: 66, length: 112}", "125", "1", "AAB", false},
	} {
		width := map[string]string{"in": "54", "cm": "137"}[c.unit]
		work := sheets(t, "a.yaml", "order: T\nunits: "+c.unit+"\ncloths: {c: {width: "+width+", selvedge: 1/2, repeat: {length: "+c.repeat+", match: half drop}}}\nitems:\n"+
			"  - {item: curtain, cloth: c, quantity: "+c.quantity+", panels: 1, "+c.sizes+", heading: {style: pencil pleat, fullness: 2.25, allowance: 4}, hems: {sides: {turn: 1 1/2}, bottom: {turn: 4}}, join: {allowance: 5/8}, cuts: [{piece: width, width: "+width+", length: "+c.cut+", count: 3}]}\n")
		for _, mode := range lay.Modes() {
			list, _, err := spread.Of(context.Background(), work, spread.Options{Mode: &mode})
			if err != nil || len(list) != 1 {
				t.Fatal(len(list), err)
			}
			s, letters := list[0], ""
			repeat := s.Stuff.Repeat
			for _, p := range s.Lay().Pieces {
				letter := s.Cuts[p.Piece].Drop
				letters += letter
				if at := p.Y % repeat; !c.tall && c.letters != "AAB" && (at == 0) != (letter == "A") || at != 0 && at != repeat/2 && !c.tall {
					t.Errorf("%s, %s: %s begins %s on in the repeat", c.name, mode, letter, at)
				}
			}
			if mode == lay.Rows && letters != c.letters {
				t.Errorf("%s: %s, not %s", c.name, letters, c.letters)
			}
			if got, want := s.Lay().Length, work[0].Cloths[0].Cuts; got != want {
				t.Errorf("%s, %s: the lay is %s, and the cuts take %s", c.name, mode, got, want)
			}
		}
	}
}

// TestSplitWidthOfAHalfDrop lays each width that is split for both letters of a half drop as long
// as the ticket has it, and then the other letter. By hand, of 320 cm and a repeat of 64, 342 cm
// long: 22 cm more than the others, so that what follows begins 32 cm on.
func TestSplitWidthOfAHalfDrop(t *testing.T) {
	for _, c := range []struct {
		items   string
		letters string
		long    int
		reach   string
	}{
		{"quantity: 1", "AAB", 1, "992 cm"},
		{"quantity: 2", "AAABBB", 2, "1974 cm"},
		{"quantity: 3", "AAAABBBBA", 3, "2966 cm"},
		{"quantity: 1|quantity: 1", "AAABBA", 2, "2006 cm"}, // each has one A more
	} {
		text := "order: T\nunits: cm\ncloths: {c: {width: 137, selvedge: 1, repeat: {length: 64, match: half drop}}}\nitems:\n"
		for _, q := range strings.Split(c.items, "|") {
			text += "  - {item: curtain, cloth: c, " + q + ", track: {width: 200}, heading: {style: pencil pleat, fullness: 1.75}, finished: {length: 280}, hems: {sides: {turn: 4}, bottom: {turn: 10}}}\n"
		}
		work := sheets(t, "a.yaml", text)
		list, _, err := spread.Of(context.Background(), work, spread.Options{})
		if err != nil || len(list) != 1 {
			t.Fatal(len(list), err)
		}
		s, letters, long := list[0], "", 0
		for _, p := range s.Lay().Pieces {
			letters += s.Cuts[p.Piece].Drop
			if cut, takes := s.Size(p.Piece); cut == "137 cm × 342 cm" && takes == cut {
				long++
			}
		}
		reach := s.Lay().Length.Format(s.Unit, length.Nearest)
		if letters != c.letters || long != c.long || reach != c.reach {
			t.Errorf("%s: %s with %d long ones on %s, not %s with %d on %s", c.items, letters, long, reach, c.letters, c.long, c.reach)
		}
		if cuts := work[0].Cloths[0].Cuts; s.Lay().Length > cuts {
			t.Errorf("%s: the lay is %s, and the cuts take %s", c.items, s.Lay().Length, cuts)
		}
	}
}

// TestNothingLeft leaves an item out of which a piece comes to less than nothing, says so in the
// order's unit, and lays the others.
func TestNothingLeft(t *testing.T) {
	work := sheets(t, "week.yaml", `order: BW-1
units: in
cloths: {lawn: {width: 54}}
items:
  - {item: napkin, cloth: lawn, quantity: 4, finished: {width: 18, length: 18}}
---
order: BW-2
units: in
cloths: {reef: {width: 60}}
items:
  - {item: shower curtain, cloth: reef, finished: {width: 8.4, length: 78}, join: {layout: center and sides}, cuts: [{piece: center}, {piece: side}]}
`)
	list, left, err := spread.Of(context.Background(), work, spread.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(list) != 1 || list[0].Cloth != "lawn" {
		t.Errorf("there are %d spreads", len(list))
	}
	if want := "the side of the shower curtain comes to -23 3/4 in, and can't be so wide"; len(left) != 1 || left[0].Why != want {
		t.Errorf("left out: %v\nwant: %s", left, want)
	}
}
