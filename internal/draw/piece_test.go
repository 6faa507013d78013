package draw_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"cutgate/internal/draw"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
)

func TestShow(t *testing.T) {
	checker, _ := lint.New(nil)
	var out bytes.Buffer
	out.WriteString("<!doctype html><meta charset=utf-8><style>figure{display:inline-block;margin:8px;border:1px solid #ccc}</style>" + draw.Shared())
	for _, g := range []string{"clean", "demo"} {
		fs, _ := filepath.Glob("../../testdata/orders/" + g + "/*.yaml")
		for _, f := range fs {
			b, _ := os.ReadFile(f)
			for _, r := range checker.CheckFile(&source.File{Name: f, Text: string(b)}, load.YAML) {
				for i := range r.Sheet.Items {
					out.WriteString("<h3>" + f + "</h3>")
					for _, p := range r.Sheet.Items[i].Patterns() {
						out.WriteString("<figure>")
						draw.Piece(&out, &p, r.Sheet.Unit)
						out.WriteString("</figure>")
					}
				}
			}
		}
	}
	os.WriteFile("/tmp/pages/show.html", out.Bytes(), 0o644)
}
