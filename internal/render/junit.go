package render

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// junit is the XML that test runners of the JUnit family write.
//
// An order is a suite, as it is orders that are held. In it every finding that
// holds it is a failed test of its own, as viewers list failures by their message
// and a test has room for one; every waived finding is a skipped one, as is one that
// was known before; and every
// item without a finding that holds is a test that passed, so that an order that
// is clear to cut shows. What does not hold goes into the suite's output.
//
// The form wants a host and a time: they are those of nobody and of never, so that
// the same findings give the same bytes. The counts of all suites together may be
// left out, so only one order is held at a time.
type junit struct {
	out    sink
	opts   Options
	begun  bool
	suites int

	// The names of tests in the suites of one file and class, which stand one after
	// the other. Viewers know a test by its class and name, whatever its suite.
	file, class string
	names       map[string]int // how many were called so
}

func newJUnit(w io.Writer, o Options) Report { return &junit{out: sink{w: w}, opts: o} }

// A suite is an order, or a file that could not be checked. Its fields are in the
// order of the form.
type suite struct {
	XMLName    xml.Name   `xml:"testsuite"`
	ID         int        `xml:"id,attr"`
	Package    string     `xml:"package,attr"`
	Name       string     `xml:"name,attr"`
	Timestamp  string     `xml:"timestamp,attr"`
	Hostname   string     `xml:"hostname,attr"`
	Tests      int        `xml:"tests,attr"`
	Failures   int        `xml:"failures,attr"`
	Errors     int        `xml:"errors,attr"`
	Skipped    int        `xml:"skipped,attr"`
	Time       string     `xml:"time,attr"`
	Properties properties `xml:"properties"`
	Cases      []testCase `xml:"testcase"`
	Out        string     `xml:"system-out"`
	Err        string     `xml:"system-err"`

	class string // of its tests
}

type properties struct {
	List []property `xml:"property"`
}

type property struct {
	Name  string `xml:"name,attr"`
	Value string `xml:"value,attr"`
}

type testCase struct {
	Name    string   `xml:"name,attr"`
	Class   string   `xml:"classname,attr"`
	Time    string   `xml:"time,attr"`
	Skipped *outcome `xml:"skipped"`
	Error   *outcome `xml:"error"`
	Failure *outcome `xml:"failure"`
}

// An outcome is why a test did not pass.
type outcome struct {
	Message string `xml:"message,attr"`
	Type    string `xml:"type,attr,omitempty"`
	Text    string `xml:",chardata"`
}

// The time of a test, and the day and the host that are none.
const (
	noTime = "0"
	noDay  = "1970-01-01T00:00:00"
	noHost = "localhost"
)

// newSuite begins the suite of a file. The class of its tests is the number of an
// order, which has it wherever it is kept, or else the file.
func (r *junit) newSuite(file, name, class string) *suite {
	if r.names == nil || r.file != file || r.class != class {
		r.file, r.class, r.names = file, class, make(map[string]int)
	}
	return &suite{
		ID: r.suites, Package: token(file), Name: token(name), Timestamp: noDay, Hostname: noHost, Time: noTime, class: token(class),
	}
}

// token is text as it can be a name: on one line, harmless, never empty.
func token(text string) string {
	return cmp.Or(strings.Join(strings.Fields(source.Show(text)), " "), "-")
}

// add adds a test to a suite. Its name becomes unlike those before it.
func (r *junit) add(s *suite, c testCase) {
	name := token(c.Name)
	c.Name, c.Class, c.Time = name, s.class, noTime
	for n := r.names[name]; n > 0 && r.names[c.Name] > 0; n++ {
		c.Name = name + " (" + strconv.Itoa(n+1) + ")"
	}
	r.names[name]++
	s.Cases = append(s.Cases, c)
	s.Tests++
	switch {
	case c.Skipped != nil:
		s.Skipped++
	case c.Error != nil:
		s.Errors++
	case c.Failure != nil:
		s.Failures++
	}
}

// write writes a suite.
func (r *junit) write(s *suite) error {
	r.begin()
	r.suites++
	text, err := xml.MarshalIndent(s, "  ", "  ")
	if err != nil {
		return fmt.Errorf("writing a suite: %w", err)
	}
	// Line ends stand in no attribute, where they would have to be escaped.
	r.out.write(bytes.ReplaceAll(text, []byte("&#xA;"), []byte("\n")))
	r.out.print("\n")
	return r.out.err
}

func (r *junit) begin() {
	if !r.begun {
		r.out.print(xml.Header + "<testsuites>\n")
	}
	r.begun = true
}

func (r *junit) Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error {
	if r.opts.skipped(found, &aside) {
		return nil
	}
	file := s.Order.File
	suite := r.newSuite(file.Name, number(s), cmp.Or(s.Order.Number.Value, file.Name))
	suite.Properties.List = []property{{"verdict", aside.Verdict(found).String()}}
	if h := aside.House; h != nil {
		suite.Properties.List = append(suite.Properties.List, property{"house rules", token(h.File)})
		if lets := houseLets(h); lets != "" {
			suite.Properties.List = append(suite.Properties.List, property{"house rules let through", token(lets)})
		}
	}
	subjects := subjectsOf(s)
	subjects.headings[0] = headName
	name := func(f *finding.Finding) string {
		m := s.Order.Mark(f.Path, f.Rule, f.Stated)
		return subjects.headings[subjects.at(f.Path)] + ": " + f.Rule + " " + m.Path
	}
	var out strings.Builder
	var failed, skipped []testCase
	held := make([]bool, len(subjects.headings))
	for i := range found {
		f := &found[i]
		if !r.opts.holds(f.Level) {
			line(&out, file, f)
			continue
		}
		held[subjects.at(f.Path)] = true
		failed = append(failed, testCase{Name: name(f), Failure: &outcome{Message: source.Show(f.Message), Type: f.Rule, Text: details(file, f)}})
	}
	for i := range aside.Known {
		f := &aside.Known[i]
		if !r.opts.holds(f.Level) {
			line(&out, file, f, knownBefore)
			continue
		}
		held[subjects.at(f.Path)] = true
		skipped = append(skipped, testCase{Name: name(f), Skipped: &outcome{Message: source.Show(knownBefore + ": " + f.Message), Text: details(file, f)}})
	}
	for i := range s.Order.Items {
		if at := subjects.items + i; !held[at] {
			r.add(suite, testCase{Name: subjects.headings[at]})
		}
	}
	for i := range aside.Waived {
		w := &aside.Waived[i]
		r.add(suite, testCase{Name: name(&w.Finding), Skipped: &outcome{Message: source.Show("waived: " + reason(w)), Text: details(file, &w.Finding)}})
	}
	for _, c := range slices.Concat(skipped, failed) {
		r.add(suite, c)
	}
	if len(suite.Cases) == 0 {
		r.add(suite, testCase{Name: headName})
	}
	suite.Out = out.String()
	return r.write(suite)
}

// headName is what the order itself is called among its items and cloths.
const headName = "order"

// details is where a finding is, and all that there is to say of it beside its
// message.
func details(file *source.File, f *finding.Finding) string {
	where := at(file, f.At)
	if c, ok := file.Cell(f.At.Start); ok {
		where = file.Name + ", cell " + c.String()
	}
	var b strings.Builder
	b.WriteString("\n" + source.Show(where) + "\n")
	for _, row := range Rows(file, f) {
		if row.Label != LabelRule { // the outcome's type says it
			b.WriteString(token(row.Label+": "+row.Text) + "\n")
		}
	}
	return b.String()
}

// Failed is a suite of one test, that of reading the file, with an error.
func (r *junit) Failed(file string, why error) error {
	s := r.newSuite(file, file, file)
	first, rest, _ := strings.Cut(why.Error(), "\n")
	said := &outcome{Message: source.Show(first), Type: "not checked"}
	for line := range strings.Lines(rest) {
		said.Text += token(line) + "\n"
	}
	r.add(s, testCase{Name: "can be checked", Error: said})
	return r.write(s)
}

func (r *junit) Close() error {
	r.begin()
	r.out.print("</testsuites>\n")
	return r.out.err
}

// at is where a range of a file begins: file:line:column.
func at(file *source.File, r source.Range) string {
	p := file.Position(r.Start)
	return source.Show(file.Name) + ":" + strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Column)
}
