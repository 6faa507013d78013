package diagnose

import (
	"testing"

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
