package diagnose

import "testing"

func TestMisspelt(t *testing.T) {
	for _, c := range []struct {
		stated, right string
		want          blunder // none, where it is the zero one
	}{
		{"84", "48", digitsTurned},
		{"8", "8 1/8", noFraction},
		{"1/8", "8 1/8", noWhole},
		{"8", "8⅛", noFraction},
		{"⅛", "8⅛", noWhole},
		{"1⅛", "⅛", strayWhole},
		{"9⅛", "8⅛", blunder{}},
		{"20 lb 8 oz", "2 lb 8 oz", tenfold},
		{"21 lb 8 oz", "2 lb 8 oz", blunder{}},
	} {
		got, ok := new(writer).misspelt(c.stated, c.right)
		if ok != (c.want != blunder{}) || ok && got != c.want {
			t.Errorf("%s for %s: %+v, %t; want %+v", c.stated, c.right, got, ok, c.want)
		}
	}
}
