package ticket_test

import (
	"fmt"
	"strings"
	"testing"
)

// TestSaid holds what a ticket has to say, and what it may not, of orders of a few lines.
func TestSaid(t *testing.T) {
	const head = "order: SD-1\nclient: Saxby Grange\nunits: %s\nmarket: UK\nuse: %s\ncloths:\n  sateen: {fiber: {cotton: 100}, width: 54 in, selvedge: 1/2 in, weight: 140 g/m2}\n  drop: {fiber: {cotton: 100}, width: 54 in, selvedge: 1/2 in, repeat: {length: 25 in, match: half drop}}\nitems:\n"
	for _, c := range []struct {
		name, units, use, items string
		says, never             []string
	}{
		{"tie-backs with a curtain", "in", "nursery", `  - item: curtain
    cloth: sateen
    track: {kind: pole, width: 80, above_floor: 96}
    heading: {style: pencil pleat, fullness: 2}
    finished: {length: 95}
    tie_backs: {count: 2, width: 3, length: 20}
`, []string{"A tie-back is a loop", "4 tie-back rings", "fix an interfacing", "pole 80 in, pole 96 in above the floor", "not the pole alone", " lb ", " kg)"}, []string{"track"}},
		{"masses are said once", "cm", "home", `  - {item: valance, id: bay, cloth: sateen, board: {width: 150, return: 10}, finished: {length: 35}}
  - {item: valance, id: hall, cloth: sateen, board: {width: 200, return: 10}, finished: {length: 35}}
`, []string{" (bay) and ", " (hall): the fixing in the wall must carry it, and the board", "mm long"}, []string{"rod", "to the inch"}},
		{"a seat's cushion at home", "cm", "home", `  - {item: cushion cover, cloth: sateen, style: boxed, pad: {width: 50, length: 45, depth: 5}}
`, []string{"Fire, UK, home: cover and filling"}, nil},
		{"a shade's lining goes in before its foot is turned", "in", "home", `  - {item: Roman shade, cloth: drop, finished: {width: 80, length: 54}, mount: outside, join: {layout: center and sides}, lining: {cloth: sateen}}
`, []string{"side B, center A, side B", "before the foot is turned", "pocket tape"}, []string{"A B A B", "where the panels meet"}},
		{"a bagged valance has no hems", "in", "home", `  - {item: valance, cloth: sateen, board: {width: 60, return: 4}, finished: {length: 15}, lining: {cloth: sateen, made: bagged}}
`, []string{"right sides together, 2 in from the edge at the sides and 3 in at the foot"}, []string{"turned twice"}},
		{"round ends", "in", "home", `  - {item: cushion cover, cloth: sateen, style: bolster, pad: {diameter: 8, length: 20}}
`, []string{"2 ends, circles 9 in across"}, []string{"9 in wide"}},
		{"a gathered bed skirt", "in", "home", `  - {item: bed skirt, cloth: sateen, bed: {width: 60, length: 80, height: 14}, join: {seam: French}}
`, []string{"gather one width of the skirt between two marks", "to the sides and the foot of the deck", "wrong sides together first"}, nil},
		{"snaps", "in", "home", `  - {item: duvet cover, cloth: sateen, duvet: {width: 86, length: 86}, closure: {kind: snaps}}
`, []string{"snap tape, "}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, _ := documentFrom(t, fmt.Sprintf(head, c.units, c.use)+c.items)
			var b strings.Builder
			hung := 0
			for _, it := range d.Items {
				for _, r := range it.Rows {
					fmt.Fprintln(&b, r.Label, r.Text)
				}
			}
			for _, text := range d.Cautions {
				fmt.Fprintln(&b, text)
				if strings.HasPrefix(text, "Hanging mass") {
					hung++
				}
			}
			if hung > 1 {
				t.Errorf("the hanging mass is said %d times", hung)
			}
			for _, want := range c.says {
				if !strings.Contains(b.String(), want) {
					t.Errorf("%q is not said:\n%s", want, &b)
				}
			}
			for _, not := range c.never {
				if strings.Contains(b.String(), not) {
					t.Errorf("%q is said:\n%s", not, &b)
				}
			}
		})
	}
	// A row that is sewn before another stands before it.
	d, _ := documentFrom(t, fmt.Sprintf(head, "in", "home")+"  - {item: Roman shade, cloth: sateen, finished: {width: 30, length: 54}, mount: outside, lining: {cloth: sateen}}\n")
	at := map[string]int{}
	for i, r := range d.Items[0].Rows {
		for _, text := range [...]string{"needle", "turn the lining in", "bottom "} {
			if strings.HasPrefix(r.Text, text) {
				at[text] = i + 1
			}
		}
	}
	if n, l, f := at["needle"], at["turn the lining in"], at["bottom "]; n == 0 || l < n || f < l {
		t.Errorf("needle, lining and foot are in rows %d, %d and %d", n, l, f)
	}
}
