package main

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/render"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// exampleOf finds in the rule's fixture an order in which the rule finds
// something; nil where there is none. A rule about what others find is run with
// all rules.
func exampleOf(r *rule.Rule, all []*rule.Rule, fixtures fs.FS) (*render.Example, error) {
	topic, slug, _ := strings.Cut(r.ID, "/")
	text, err := fs.ReadFile(fixtures, path.Join(topic, "testdata", slug+".txtar"))
	if err != nil {
		return nil, fmt.Errorf("looking for an example of %s: %w", r.ID, err)
	}
	run := []*rule.Rule{r}
	if r.Topic() == lint.WaiverTopic {
		run = all
	}
	checker, err := lint.New(run)
	if err != nil {
		return nil, err
	}
	for _, f := range txtar.Parse(text).Files {
		format, ok := load.FormatOf(f.Name)
		if !ok || format != load.YAML || !strings.HasPrefix(f.Name, "wrong") {
			continue
		}
		for _, res := range checker.CheckFile(&source.File{Name: path.Base(f.Name), Text: string(f.Data)}, format) {
			found := slices.DeleteFunc(res.Findings, func(f finding.Finding) bool { return f.Rule != r.ID })
			if res.Err == nil && len(found) > 0 {
				return &render.Example{Sheet: res.Sheet, Found: found}, nil
			}
		}
	}
	return nil, nil
}
