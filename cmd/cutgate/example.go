package main

import (
	"fmt"
	"io/fs"
	"path"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"

	"cutgate/internal/load"
	"cutgate/internal/render"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// exampleOf finds in the rule's fixture an order in which the rule finds
// something; nil where there is none.
func exampleOf(r *rule.Rule, fixtures fs.FS) (*render.Example, error) {
	topic, slug, _ := strings.Cut(r.ID, "/")
	text, err := fs.ReadFile(fixtures, path.Join(topic, "testdata", slug+".txtar"))
	if err != nil {
		return nil, fmt.Errorf("looking for an example of %s: %w", r.ID, err)
	}
	checker, err := newChecker([]*rule.Rule{r}, false)
	if err != nil {
		return nil, err
	}
	for _, f := range txtar.Parse(text).Files {
		format, ok := load.FormatOf(f.Name)
		if !ok || format != load.YAML || !strings.HasPrefix(f.Name, "wrong") {
			continue
		}
		for _, res := range checker.CheckFile(&source.File{Name: path.Base(f.Name), Text: string(f.Data)}, format) {
			if res.Err == nil && len(res.Findings) > 0 {
				return &render.Example{Sheet: res.Sheet, Found: res.Findings}, nil
			}
		}
	}
	return nil, nil
}
