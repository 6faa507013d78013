// Package lint is the one pipeline: a file's orders are loaded and worked out,
// the rules that it was given are run, and what they found is put in order.
// Command line and editor both come through here.
//
// # Law
//
// What is found depends on the text, the tables, the rules and the levels
// alone, and comes out in the order of the input, however many orders are
// checked at a time.
//
// # What it is not
//
// It chooses no rules, prints nothing and changes no file.
package lint

import (
	"cutgate/internal/form"
	"cutgate/internal/goods"
	"fmt"
	"runtime/debug"
	"slices"
	"sync"

	"cutgate/internal/diagnose"
	"cutgate/internal/finding"
	"cutgate/internal/house"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// FormTopic is the topic of the rules about the form itself. They alone are run
// on an order that could not be read.
const FormTopic = "form"

// A Checker checks orders. It may be used by many goroutines at once; its
// fields must not change after its first use.
type Checker struct {
	Rules    []*rule.Rule
	Tables   *trade.Tables
	Loader   *load.Loader
	Levels   map[string]finding.Level // by rule or by topic, in place of a rule's own; a rule's wins
	TrustCUE bool                     // CUE orders may compute and import
	Today    string                   // year-month-day, for waivers that have an end; "" where none is past
	Kinds    *worksheet.Kinds         // of goods; nil for the program's own
	Houses   *house.Finder            // finds the house rules that a file stands under; nil for none anywhere
	AsStated bool                     // stated values are taken as they are: which of them may be wrong is not asked
	// Reuse lets Run take back the memory of the results that emit was handed: nothing of
	// them may then be read once it returns, but for texts, findings and asides. What
	// Correct returns has no sheets then.
	Reuse bool

	once   sync.Once
	steps  []step
	last   []step         // those about waivers
	names  []string       // of all rules and topics
	signed []string       // the rules that are waived only by name and until a day
	houses sync.Map       // *house.House → *Checker by its rules
	note   *finding.House // what the checker of a house lets through
}

// New returns a checker with the trade's tables and the given rules.
func New(rules []*rule.Rule) (*Checker, error) {
	loader, err := load.New()
	if err != nil {
		return nil, fmt.Errorf("starting the loader: %w", err)
	}
	tables, err := form.Tables()
	if err != nil {
		return nil, fmt.Errorf("reading the trade's tables: %w", err)
	}
	return &Checker{Rules: rules, Loader: loader, Tables: tables}, nil
}

// A step is a rule that is not off, with the level of its findings.
type step struct {
	rule  *rule.Rule
	level finding.Level
	form  bool
}

// A Result is what came of one order, or of an input that gave none.
type Result struct {
	File     *source.File
	Order    *order.Order
	Sheet    *worksheet.Sheet
	Findings []finding.Finding // by place
	Aside    finding.Aside     // what there is to say beside them
	Verdict  finding.Verdict
	Err      error // why the input could not be read or the order not checked; all but File may then be missing
}

// A Broken is the error of an order that a rule, or the working out, could not
// cope with: a fault of the program, not of the order.
type Broken struct {
	Stage string // "rule width/panels-short", "reading", "working out"
	Order string // its number; "" before it is known
	File  string
	Value any    // of the panic
	Stack []byte // where it happened
}

// Error says what broke on which order.
func (b *Broken) Error() string {
	name := b.File
	if b.Order != "" {
		name = fmt.Sprintf("order %s in %s", b.Order, b.File)
	}
	return fmt.Sprintf("%s crashed on %s: %v", b.Stage, name, b.Value)
}

// CheckFile checks every order of a text that was read. It does no input or
// output of its own, but for house rules, which are read once.
func (c *Checker) CheckFile(f *source.File, format load.Format) []Result {
	return c.checkFile(f, format, 0)
}

// CheckTyped is CheckFile for a text that somebody is typing, at an offset or, where it
// is -1, nobody knows where: an order of which a part is only half typed is checked
// without that part.
func (c *Checker) CheckTyped(f *source.File, format load.Format, at int) []Result {
	if at >= 0 {
		at++
	}
	return c.checkFile(f, format, at)
}

func (c *Checker) checkFile(f *source.File, format load.Format, typedAt int) (results []Result) {
	var m memory
	c.checkEach(f, format, typedAt, &m.orders, func() *memory { return &m }, func(res Result) { results = append(results, res) })
	return results
}

// memory is what orders and what came of them lie in.
type memory struct {
	orders order.Memory
	sheets worksheet.Memory
}

func (m *memory) reset() {
	m.orders.Reset()
	m.sheets.Reset()
}

// checkEach checks the orders of a text one after the other and hands over what came of
// each, which lies in the memory that was given for it and in that of the text.
func (c *Checker) checkEach(f *source.File, format load.Format, typedAt int, text *order.Memory, given func() *memory, emit func(Result)) {
	c, err := c.under(f)
	if err != nil {
		emit(Result{File: f, Err: err})
		return
	}
	var roots []syntax.Root
	err = reading(f, func() {
		roots = c.Loader.Roots(f, format, load.Options{TrustCUE: c.TrustCUE, TypedAt: typedAt, Memory: text})
	})
	if err != nil {
		emit(Result{File: f, Err: err})
	}
	for i := range roots {
		m := given()
		var o *order.Order
		err := reading(f, func() {
			o = c.Loader.OrderOf(f, format, &roots[i], &m.orders)
			if typedAt == 0 { // else it may be only begun
				o = c.Loader.Refuse(o, format, &m.orders)
			}
		})
		if err != nil {
			emit(Result{File: f, Err: err})
			return
		}
		roots[i] = syntax.Root{}
		emit(c.order(o, &m.sheets))
	}
}

// reading reads from a file, and returns what breaks on it as an error.
func reading(f *source.File, read func()) (err error) {
	defer func() {
		if v := recover(); v != nil {
			err = &Broken{Stage: "reading", File: f.Name, Value: v, Stack: debug.Stack()}
		}
	}()
	read()
	return nil
}

// CheckOrder checks an order that was loaded.
func (c *Checker) CheckOrder(o *order.Order) Result {
	c, err := c.under(o.File)
	if err != nil {
		return Result{File: o.File, Order: o, Err: err}
	}
	return c.order(o, new(worksheet.Memory))
}

// order checks an order by the rules of c itself.
func (c *Checker) order(o *order.Order, m *worksheet.Memory) (res Result) {
	c.once.Do(c.plan)
	res = Result{File: o.File, Order: o, Aside: finding.Aside{House: c.note}}
	var pass *rule.Pass
	defer func() {
		if v := recover(); v != nil {
			if s, ok := v.(stopped); ok {
				res.Err = s.err
				return
			}
			stage := "working out"
			if pass != nil {
				stage = "rule " + pass.Rule().ID
			}
			res.Err = &Broken{Stage: stage, Order: o.Number.Value, File: o.File.Name, Value: v, Stack: debug.Stack()}
		}
	}()
	kinds := c.Kinds
	if kinds == nil {
		kinds = goods.All()
	}
	res.Sheet = worksheet.WorkIn(m, o, c.Tables, kinds)
	if c.Loader != nil {
		res.Sheet.Words = c.Loader.WordsOf
	}
	if !c.AsStated {
		diagnose.Order(res.Sheet)
	}
	pass = rule.NewPass(res.Sheet)
	pass.Rules = c.Rules
	for i := range c.steps {
		if s := &c.steps[i]; o.Root != nil || s.form {
			pass.Run(s.rule, s.level)
		}
	}
	res.Findings = tidy(pass.Found())
	if pass.Waivers = c.waivers(o); len(pass.Waivers) > 0 {
		res.Findings, res.Aside.Waived = c.waive(pass.Waivers, res.Findings)
		before := len(pass.Found())
		for i := range c.last {
			pass.Run(c.last[i].rule, c.last[i].level)
		}
		res.Findings = tidy(append(res.Findings, pass.Found()[before:]...))
	}
	res.Verdict = finding.VerdictOf(res.Findings)
	return res
}

// plan settles which rules run and at which levels.
func (c *Checker) plan() {
	for _, r := range c.Rules {
		if topic := r.Topic(); !slices.Contains(c.names, topic) {
			c.names = append(c.names, topic)
		}
		c.names = append(c.names, r.ID)
		level := r.Level
		if l, ok := c.Levels[r.Topic()]; ok {
			level = l
		}
		if l, ok := c.Levels[r.ID]; ok {
			level = l
		}
		if r.Topic() == SafetyTopic && max(r.Level, level) == finding.Error {
			c.signed = append(c.signed, r.ID)
		}
		switch {
		case level == finding.Off:
		case r.Topic() == WaiverTopic:
			c.last = append(c.last, step{rule: r, level: level})
		default:
			c.steps = append(c.steps, step{r, level, r.Topic() == FormTopic})
		}
	}
}

// tidy sorts findings by place and drops those that say the same of the same
// place for the same rule.
func tidy(list []finding.Finding) []finding.Finding {
	if len(list) < 2 {
		return list
	}
	slices.SortStableFunc(list, finding.Compare)
	return slices.CompactFunc(list, func(a, b finding.Finding) bool { return finding.Compare(a, b) == 0 })
}
