package diagnose

import (
	"fmt"
	"testing"

	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

func TestUnround(t *testing.T) {
	for _, c := range []struct {
		text string
		sort worksheet.Sort
		want float64
	}{
		{"300 g/m2", worksheet.Areal, 0},
		{"160 g/m2", worksheet.Areal, 0.3},
		{"159 g/m2", worksheet.Areal, 1.5},
		{"237.34 g/m2", worksheet.Areal, 3},
		{"7.5 oz/yd2", worksheet.Areal, 0},
		{"35 g/m", worksheet.Linear, 0},
		{"13 lb 15 oz", worksheet.Mass, 1},
	} {
		if got := unround(c.text, c.sort); got != c.want {
			t.Errorf("%s: %v, want %v", c.text, got, c.want)
		}
	}
}

// TestHandRounding holds that an outcome which agrees only as people round by hand counts
// less the more of the others are finer than that, and no more where others are so too.
func TestHandRounding(t *testing.T) {
	loader, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	const wrong = "napkin of 40 cut 52"
	cost := func(napkins ...string) float64 {
		text := "order: T\nunits: cm\ncloths: {lawn: {width: 150}}\nitems:\n"
		for _, n := range napkins {
			var size, cut string
			if _, err := fmt.Sscanf(n, "napkin of %s cut %s", &size, &cut); err != nil {
				t.Fatal(err)
			}
			text += fmt.Sprintf("  - {item: napkin, cloth: lawn, finished: {width: %s, length: 40}, hem: {turn: 0.5}, cuts: [{piece: piece, width: %s, length: 42, count: 1}]}\n", size, cut)
		}
		o := loader.Orders(&source.File{Name: "t.yaml", Text: text}, load.YAML, load.Options{})[0]
		return handRounding(worksheet.Work(o, tables, goods.All()))
	}
	even := cost(wrong, "napkin of 40 cut 42")
	one, two := cost(wrong, "napkin of 40.3 cut 42.3"), cost(wrong, "napkin of 40.3 cut 42.3", "napkin of 41.2 cut 43.2")
	if even != handRounded || one <= even || two <= one {
		t.Errorf("with even ones %v, with a fine one %v, with two %v", even, one, two)
	}
	if byHand := cost(wrong, "napkin of 40.3 cut 42.3", "napkin of 40.3 cut 42.5"); byHand >= one {
		t.Errorf("with one rounded by hand %v, without it %v", byHand, one)
	}
	if right := cost("napkin of 40.3 cut 42.3"); right != handRounded {
		t.Errorf("where nothing disagrees %v", right)
	}
}
