package table

import (
	"strings"
	"testing"

	"cutgate/internal/form"
)

func reader(t *testing.T) *Reader {
	t.Helper()
	f, err := form.New()
	if err != nil {
		t.Fatal(err)
	}
	return NewReader(f)
}

// TestHeadings holds that every heading that the form has is understood as itself,
// however it is spaced.
func TestHeadings(t *testing.T) {
	rd := reader(t)
	for _, over := range []struct {
		list []string
		look func(string) (heading, bool)
	}{{rd.headings().items, rd.itemHeading}, {rd.headings().cloths, rd.clothHeading}} {
		if len(over.list) < 20 {
			t.Errorf("there are only %d headings", len(over.list))
		}
		for _, text := range over.list {
			for _, written := range []string{text, strings.ToUpper(text), strings.ReplaceAll(text, " ", "_"), strings.ReplaceAll(text, " ", ".")} {
				if h, ok := over.look(written); !ok || !h.own || h.String() != text {
					t.Errorf("%q is taken for %q, own %t", written, h, h.own)
				}
			}
		}
	}
}

func TestHeadingWords(t *testing.T) {
	rd := reader(t)
	for text, want := range map[string]string{
		"cut 12 width": "cut 12 width", "cuts 2 width": "cut 2 width", "cut width": "cut 1 width", "cuts[2].width": "cut 2 width",
		"order notes": "order notes", "notes": "notes", "Order": "order", "waive rule": "waive 1 rule", "order waive 2 because": "order waive 2 because",
		"hem turn": "hem turn", "hems top turn": "hems top turn", "lining hem turn": "lining hem turn",
		"eyelets count": "holes count", "colour": "", "items": "item", "cut 0 width": "", "cut 100 width": "", "": "", "hems": "",
		"order item": "", "order items": "",
		"finished width (cm)": "finished width", "cut 2 length [ in ]": "cut 2 length", "track above floor(\")": "track above floor",
		"finished width (kg)": "", "finished width (%)": "", "heading fullness (in)": "", "order (in)": "", "finished width (cm) (in)": "", "(in)": "", ")": "",
	} {
		h, ok := rd.itemHeading(text)
		got := ""
		if ok {
			got = h.String()
		}
		if got != want {
			t.Errorf("%q is taken for %q, not %q", text, got, want)
		}
	}
	for text, want := range map[string]string{
		"fiber linen": "fiber linen", "Fiber Poly-Cotton": "fiber Poly-Cotton", "fibre wool": "fiber wool", "measured repeat length": "measured repeat length",
		"bolts 2 lot": "bolt 2 lot", "fire": "fire", "fire 2": "fire 2", "cloth": "cloth", "fabric": "cloth", "order": "order", "fiber": "", "measured": "",
		"fiber linen (%)": "fiber linen", "measured width (mm)": "measured width", "fiber linen (in)": "", "width (%)": "", "cloth (in)": "", "order (%)": "",
	} {
		h, ok := rd.clothHeading(text)
		got := ""
		if ok {
			got = h.String()
		}
		if got != want {
			t.Errorf("over cloths %q is taken for %q, not %q", text, got, want)
		}
	}
}
