// Package ruletest is the test kit for rules: a topic's one test calls [Run],
// which holds every rule of the topic, and every case of its fixture, to the
// laws that all rules keep.
//
// # Fixtures
//
// A rule's fixture is testdata/slug.txtar. It opens with prose; then each case
// is a folder:
//
//	wrong-side-panels/order.yaml        the order; several formats say the same
//	wrong-side-panels/want              order.yaml:12:20: message, a line each
//	wrong-side-panels/fixed/order.yaml  after all certain fixes, where there are some
//
// A case whose name begins with wrong has findings, one that begins with right
// has none, and one that begins with borderline is on the edge; a rule has at
// least one of each. Only the rule itself is run, and those that it is about, and
// only what it finds itself is looked at. The day is [Today]. With UPDATE=1 in the
// environment, want and fixed are written anew.
package ruletest

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode"
	"unicode/utf8"

	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/rule"
)

// Today is the day of the fixtures.
const Today = "2026-06-15"

// Run tests a topic: its list of rules and its folder, which is "." for the
// topic's own test. Others are the rules whose findings those of the topic are
// about, where they are about any.
func Run(t *testing.T, rules []*rule.Rule, dir string, others ...*rule.Rule) {
	t.Helper()
	if len(rules) == 0 {
		t.Fatal("the topic has no rules")
	}
	testList(t, rules, dir)
	testTogether(t, slices.Concat(rules, without(others, rules)), dir)
	for _, r := range rules {
		_, slug, _ := strings.Cut(r.ID, "/")
		t.Run(slug, func(t *testing.T) {
			testRule(t, r, dir, slug)
			testFixture(t, r, filepath.Join(dir, "testdata", slug+".txtar"), others)
		})
	}
}

// without returns the rules of the list that are not among the left-out ones.
func without(list, out []*rule.Rule) []*rule.Rule {
	return slices.DeleteFunc(slices.Clone(list), func(r *rule.Rule) bool {
		return slices.ContainsFunc(out, func(o *rule.Rule) bool { return o.ID == r.ID })
	})
}

// Checker returns a checker with the real loader and tables and the given rules.
func Checker(t testing.TB, rules ...*rule.Rule) *lint.Checker {
	t.Helper()
	p, err := parts()
	if err != nil {
		t.Fatal(err)
	}
	return &lint.Checker{Rules: rules, Loader: p.Loader, Tables: p.Tables, Today: Today}
}

var parts = sync.OnceValues(func() (*lint.Checker, error) { return lint.New(nil) })

// testList holds the list to the folder: one topic, each rule once, and no file
// or fixture without a rule in the list.
func testList(t *testing.T, rules []*rule.Rule, dir string) {
	t.Helper()
	known := make(map[string]bool)
	for _, r := range rules {
		topic, slug, _ := strings.Cut(r.ID, "/")
		if topic != rules[0].Topic() {
			t.Errorf("%s is not of the topic %s", r.ID, rules[0].Topic())
		}
		if known[slug] {
			t.Errorf("%s is in the list twice", r.ID)
		}
		known[slug] = true
	}
	list, err := os.ReadFile(filepath.Join(dir, "rules.go"))
	if err != nil {
		t.Error(err)
	}
	for _, pattern := range []string{"*.go", "testdata/*.txtar"} {
		files, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			t.Error(err)
		}
		for _, file := range files {
			name := filepath.Base(file)
			slug := strings.ReplaceAll(strings.TrimSuffix(name, filepath.Ext(name)), "_", "-")
			special := name == "doc.go" || name == "rules.go" || strings.HasSuffix(name, "_test.go")
			if text, err := os.ReadFile(file); err == nil && strings.Contains(string(text), "[]rule.Guard{") {
				special = true // a table of them
			}
			// A rule that was left out stays in a comment of the list, with the reason.
			if !special && !known[slug] && !strings.Contains(string(list), rules[0].Topic()+"/"+slug) {
				t.Errorf("%s: no rule %s/%s in the list", file, rules[0].Topic(), slug)
			}
		}
	}
}

// testTogether runs all rules over all orders of the topic's fixtures, so that a
// rule meets orders that were not written for it.
func testTogether(t *testing.T, rules []*rule.Rule, dir string) {
	t.Helper()
	files, err := Fixtures(os.DirFS(dir))
	if err != nil {
		t.Error(err)
	}
	checker := Checker(t, rules...)
	for _, f := range files {
		format, ok := load.FormatOf(f.Name)
		if !ok {
			continue // which its own rule's test reports
		}
		for _, res := range checker.CheckFile(f, format) {
			if broken := (*lint.Broken)(nil); errors.As(res.Err, &broken) {
				t.Errorf("%v\n%s", res.Err, broken.Stack)
			}
		}
	}
}

// testRule holds the rule's own words to the form.
func testRule(t *testing.T, r *rule.Rule, dir, slug string) {
	t.Helper()
	if slug == "" || strings.Trim(slug, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
		t.Errorf("the ID %q is not topic/slug in lower case and hyphens", r.ID)
	}
	file := filepath.Join(dir, strings.ReplaceAll(slug, "-", "_")+".go")
	if _, err := os.Stat(file); err != nil && !r.Table {
		t.Errorf("the rule is not in a file of its own: %v", err)
	}
	if r.Run == nil && r.Each == nil && r.Off == nil {
		t.Fatal("the rule has nothing to run")
	}
	if first, _ := utf8.DecodeRuneInString(r.Title); !isPhrase(r.Title) || unicode.IsUpper(first) {
		t.Errorf("the title %q is not a lower-case phrase", r.Title)
	}
	testDoc(t, r)
}

// isPhrase reports whether s is one line without a full stop.
func isPhrase(s string) bool {
	return s != "" && s == strings.TrimSpace(s) && !strings.ContainsAny(s, "\n") && !strings.HasSuffix(s, ".")
}

func testDoc(t *testing.T, r *rule.Rule) {
	t.Helper()
	want, next := rule.Headings(), 0
	for _, s := range r.Sections() {
		if s.Heading == "" {
			t.Errorf("the doc begins before its first heading, %s on a line of its own: %q", want[0], s.Text)
			continue
		}
		if s.Text == "" {
			t.Errorf("the doc says nothing under %s", s.Heading)
		}
		i := slices.Index(want, s.Heading)
		if i < next {
			t.Errorf("the doc's heading %s is out of order or there twice; the order is %s", s.Heading, strings.Join(want, ", "))
		}
		for _, missed := range want[min(next, i):i] {
			testMissing(t, missed)
		}
		next = i + 1
	}
	for _, missed := range want[next:] {
		testMissing(t, missed)
	}
}

func testMissing(t *testing.T, heading string) {
	t.Helper()
	if heading != "Correction" {
		t.Errorf("the doc has no heading %s on a line of its own", heading)
	}
}
