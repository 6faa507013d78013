package render_test

import (
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/render"
)

// A junitReport is as much of a JUnit report as the tests look at.
type junitReport struct {
	Suites []junitSuite `xml:"testsuite"`
}

type junitSuite struct {
	ID       int    `xml:"id,attr"`
	Name     string `xml:"name,attr"`
	Package  string `xml:"package,attr"`
	Tests    int    `xml:"tests,attr"`
	Failures int    `xml:"failures,attr"`
	Errors   int    `xml:"errors,attr"`
	Skipped  int    `xml:"skipped,attr"`
	Cases    []struct {
		Name    string        `xml:"name,attr"`
		Class   string        `xml:"classname,attr"`
		Skipped *junitOutcome `xml:"skipped"`
		Error   *junitOutcome `xml:"error"`
		Failure *junitOutcome `xml:"failure"`
	} `xml:"testcase"`
	Out string `xml:"system-out"`
}

type junitOutcome struct {
	Message string `xml:"message,attr"`
	Type    string `xml:"type,attr"`
	Text    string `xml:",chardata"`
}

func junitOf(t *testing.T, o render.Options, results []lint.Result) (r junitReport) {
	t.Helper()
	if err := xml.Unmarshal([]byte(reportOf(t, "junit", o, results)), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// TestJUnitSchema holds reports to the usual schema of JUnit reports, that of Windy
// Road for Ant's tasks, by xmllint.
func TestJUnitSchema(t *testing.T) {
	schema := schemaFile(t, "JUnit.xsd")
	lint, err := exec.LookPath("xmllint")
	if err != nil {
		t.Fatalf("the schemas are here, but no xmllint: %v", err)
	}
	fits := func(text string) ([]byte, error) {
		name := filepath.Join(t.TempDir(), "report.xml")
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return exec.Command(lint, "--noout", "--nonet", "--schema", schema, name).CombinedOutput()
	}
	waived := checkedText(t, "den.yaml", waivedText)
	for what, text := range map[string]string{
		"made up":  report(t, "junit", render.Options{}),
		"orders":   reportOf(t, "junit", render.Options{}, realOrders(t)),
		"fixtures": reportOf(t, "junit", render.Options{HoldAt: finding.Note}, fixtureOrders(t)),
		"waived":   reportOf(t, "junit", render.Options{}, waived),
		"failed":   reportOf(t, "junit", render.Options{}, slices.Concat(failures(), waived)),
		"empty":    reportOf(t, "junit", render.Options{}, nil),
		"tables":   tableReport(t, "junit"),
		"unsaid":   reportOf(t, "junit", render.Options{}, checkedText(t, "unsaid.yaml", "")),
	} {
		if out, err := fits(text); err != nil {
			t.Errorf("%s: %v: %.2000s", what, err, out)
		}
	}
	text := reportOf(t, "junit", render.Options{}, waived)
	for _, word := range []string{" hostname=", " type=", "<skipped", " tests="} {
		if !strings.Contains(text, word) {
			t.Errorf("there is no %s in a report", word)
		}
		if _, err := fits(strings.Replace(text, word, word[:1]+"x"+word[1:], 1)); err == nil {
			t.Errorf("the schema takes anything for %s", word)
		}
	}
}

// TestJUnitHolds requires a failure for each finding that holds, and no other.
func TestJUnitHolds(t *testing.T) {
	results := slices.Concat(realOrders(t), fixtureOrders(t), checkedText(t, "den.yaml", waivedText))
	levels, waived := countLevels(results)
	for _, at := range finding.Levels() {
		r := junitOf(t, render.Options{HoldAt: at}, results)
		held, below := 0, 0
		for _, l := range finding.Levels() {
			if l >= at {
				held += levels[l.String()]
			} else {
				below += levels[l.String()]
			}
		}
		failures, skipped, lines := 0, 0, 0
		if len(r.Suites) != len(results) {
			t.Errorf("%d suites of %d orders", len(r.Suites), len(results))
		}
		for i, s := range r.Suites {
			names := map[string]bool{}
			got := junitSuite{Tests: len(s.Cases)}
			for _, c := range s.Cases {
				if names[c.Name] {
					t.Errorf("%s: two tests are called %q", s.Package, c.Name)
				}
				names[c.Name] = true
				if c.Failure != nil {
					got.Failures++
					if !strings.Contains(c.Name, c.Failure.Type) || !strings.Contains(c.Failure.Text, s.Package) {
						t.Errorf("%s: %q does not say which rule found it where: %s", s.Package, c.Name, c.Failure.Text)
					}
				}
				if c.Skipped != nil {
					got.Skipped++
				}
			}
			if s.ID != i || s.Tests == 0 || s.Tests != got.Tests || s.Failures != got.Failures || s.Skipped != got.Skipped || s.Errors != 0 {
				t.Errorf("%s: the counts %+v are not those of its tests, %+v", s.Package, s, got)
			}
			failures, skipped, lines = failures+got.Failures, skipped+got.Skipped, lines+strings.Count(s.Out, "\n")
		}
		if failures != held || skipped != waived || lines != below {
			t.Errorf("at %s: %d failures of %d, %d skipped of %d, %d lines of %d", at, failures, held, skipped, waived, lines, below)
		}
	}
}

// TestJUnitNames requires that no two tests have the same class and name, which is
// what viewers know them by, in whatever suite they are.
func TestJUnitNames(t *testing.T) {
	twice := waivedText + "---\n" + waivedText
	for what, results := range map[string][]lint.Result{
		"unreadable files":       slices.Concat(checkedText(t, "a.yaml", "{"), checkedText(t, "b.yaml", "{")),
		"orders without numbers": checkedText(t, "a.yaml", strings.ReplaceAll(twice, "order: QL-7\n", "")),
		"orders of one number":   checkedText(t, "a.yaml", twice),
	} {
		known := map[[2]string]bool{}
		for _, s := range junitOf(t, render.Options{HoldAt: finding.Note}, results).Suites {
			for _, c := range s.Cases {
				if known[[2]string{c.Class, c.Name}] {
					t.Errorf("%s: two are %q of %q", what, c.Name, c.Class)
				}
				known[[2]string{c.Class, c.Name}] = true
			}
		}
		if len(known) < 2 {
			t.Errorf("%s: only %d tests", what, len(known))
		}
	}
}

func TestJUnitWaived(t *testing.T) {
	r := junitOf(t, render.Options{}, checkedText(t, "den.yaml", waivedText))
	for _, c := range r.Suites[0].Cases {
		if c.Skipped != nil && c.Skipped.Message != "waived: the client's rings are 7 (RM, until 2027-01-31)" {
			t.Errorf("waived because %q", c.Skipped.Message)
		}
	}
}

func TestJUnitFailures(t *testing.T) {
	for _, s := range junitOf(t, render.Options{}, failures()[:2]).Suites {
		if s.Errors != 1 || s.Cases[0].Error == nil || !strings.HasPrefix(s.Cases[0].Error.Message, "there is no file") || s.Cases[0].Error.Text != "and no other\n" {
			t.Errorf("a file that could not be checked is %+v", s)
		}
	}
}

// TestJUnitControls requires that no character of an order breaks the report: XML
// 1.0 allows few of those below a space, and no way to write the others.
func TestJUnitControls(t *testing.T) {
	odd := "\x00\x01\x08\x0b\x1b[31m\x1f\x7f\u0085\u2028\ufffe\uffff]]>&<\"'\xff\t\n"
	s := sheet("a" + odd + "b.yaml")
	s.Order.Number = text(odd)
	s.Order.Items[0].ID = text(odd)
	found := findings()
	for i := range found {
		found[i].Message += odd
		found[i].Stated = odd
		found[i].Working = []string{odd}
	}
	waived := []finding.Waived{{Finding: found[1], Because: odd}}
	res := lint.Result{File: s.Order.File, Sheet: s, Findings: found, Aside: finding.Aside{Waived: waived}}
	xml := reportOf(t, "junit", render.Options{}, []lint.Result{res})
	if i := strings.IndexFunc(xml, func(r rune) bool { return r < ' ' && r != '\n' || r == 0xfffe || r == 0xffff }); i >= 0 {
		t.Errorf("%q stands in the report", xml[i:i+1])
	}
	if r := junitOf(t, render.Options{}, []lint.Result{res}); r.Suites[0].Failures != 1 || r.Suites[0].Skipped != 1 {
		t.Errorf("%+v", r.Suites[0])
	}
}
