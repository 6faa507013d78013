package main

import (
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/source"
)

// shared are the findings of a table's orders so far. A heading stands above many
// orders, and a cloth's row is many orders' too: what is wrong with it is reported once.
type shared struct {
	file *source.File
	said map[saying]bool
}

// A saying is what a rule says of a place.
type saying struct {
	rule, message string
	at            source.Range
}

// setAside takes out of an order's findings those that an order before it in the table
// has of the same cell. They still count for its verdict.
func (s *shared) setAside(res *lint.Result) {
	if res.File.Table == nil {
		return
	}
	if s.file != res.File {
		s.file, s.said = res.File, map[saying]bool{}
	}
	res.Findings = slices.DeleteFunc(res.Findings, func(f finding.Finding) bool {
		it := saying{f.Rule, f.Message, f.At}
		if s.said[it] {
			res.Aside.Above = append(res.Aside.Above, f)
			return true
		}
		s.said[it] = true
		return false
	})
}
