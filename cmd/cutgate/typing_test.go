package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/rules"
)

// TestTypingKeepsFindings types whole orders, from the first character to the last and
// lines anew amid the others, and counts how often a text can't be read
// and how often what was found before then vanishes.
func TestTypingKeepsFindings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		file   string
		format load.Format
		unread int // texts that can't be read, at least
		lost   int // of them, those that lose some of what was found, at most: it rests on what is typed
	}{
		{"quince-lane-morning-room.yaml", load.YAML, 150, 28},
		{"marlpit-kitchen.json", load.JSON, 150, 24},
		{"marlpit-kitchen.json", load.CUE, 150, 24}, // JSON is CUE as well
	} {
		t.Run(c.format.String(), func(t *testing.T) {
			t.Parallel()
			checker, err := lint.New(rules.All())
			if err != nil {
				t.Fatal(err)
			}
			text, err := os.ReadFile(filepath.Join("../../testdata/orders/faulty", c.file))
			if err != nil {
				t.Fatal(err)
			}
			ty := typist{checker: checker, name: c.file, format: c.format}
			whole := string(text)
			for i := 0; i <= len(whole); i += 3 {
				ty.check(whole[:i], i)
				if strings.Contains(whole[max(i-3, 0):i], "\n") {
					ty.keep()
				}
			}
			ty.check(whole, len(whole))
			all, at := ty.found, 0
			for i, line := range strings.SplitAfter(whole, "\n") {
				if body := strings.TrimRight(line, "\n"); i%8 == 1 {
					ty.last = all
					for k := 0; k <= len(body); k += 3 {
						ty.check(whole[:at]+body[:k]+whole[at+len(body):], at+k)
					}
				}
				at += len(line)
			}
			t.Logf("%d texts; %d can't be read, of which %d lose some of what was found, %d all of it", ty.texts, ty.unread, ty.lost, ty.vanished)
			if ty.unread < c.unread {
				t.Errorf("only %d texts can't be read: what does this test?", ty.unread)
			}
			if ty.lost > c.lost || ty.vanished > 6 {
				t.Errorf("findings vanish in %d texts, as in %s", ty.lost, ty.example)
			}
		})
	}
}

// A typist types texts and counts.
type typist struct {
	checker                       *lint.Checker
	name                          string
	format                        load.Format
	found                         []finding.Finding // of the present text
	readable                      bool
	last                          []finding.Finding // what should be found of a text that can't be read
	texts, unread, vanished, lost int
	example                       string
}

// keep makes what was found what should be found from now on.
func (ty *typist) keep() {
	if ty.readable {
		ty.last = ty.found
	}
}

// check checks a text, which was changed last at a place. Of what can't be read as a
// whole, errors on other lines should still be found.
func (ty *typist) check(text string, at int) {
	ty.texts++
	ty.found, ty.readable = nil, true
	for _, res := range ty.checker.CheckTyped(&source.File{Name: ty.name, Text: text}, ty.format, at) {
		for _, f := range res.Findings {
			if f.Rule == "form/unreadable" {
				ty.readable = false
			} else {
				ty.found = append(ty.found, f)
			}
		}
	}
	if ty.readable {
		return
	}
	ty.unread++
	line := strings.LastIndexByte(text[:at], '\n') + 1
	lost, had := "", false
	kept := false
	for _, l := range ty.last {
		if l.At.End > line && l.At.Start <= at || l.Level != finding.Error || l.Rule == "form/missing-field" {
			continue // it may be about what is being typed
		}
		had = true
		if slices.ContainsFunc(ty.found, func(f finding.Finding) bool { return f.Rule == l.Rule && f.Path == l.Path }) {
			kept = true
		} else {
			lost += "\n" + l.Path + ": " + l.Message
		}
	}
	if lost == "" {
		return
	}
	ty.lost++
	ty.example = text[:at] + "|" + text[at:] + lost
	if had && !kept {
		ty.vanished++
	}
}
