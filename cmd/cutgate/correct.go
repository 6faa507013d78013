package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/diff"
	"github.com/spf13/cobra"

	"cutgate/internal/finding"
	"cutgate/internal/fix"
	"cutgate/internal/house"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

const correctLong = `correct writes the corrected values into work orders, and says what it changed.
Everything else stays exactly as it was: comments, layout, quote marks and the way
a length was written. A file is replaced as a whole or not at all.

Only values the arithmetic leaves no choice about are changed. --likely also makes
the choices check proposes: review them. Advice, and anything about safety, is
never changed. --fill writes in the outcomes left blank, or missing from a block
that is there.

Standard input is corrected to standard output, with the list of changes on
standard error.`

const correctExample = `  cutgate correct --diff bath.yaml
  cutgate correct bath.yaml
  cutgate correct --fill orders/
  export-order | cutgate correct - > order.yaml`

type correctFlags struct {
	readFlags
	lint.Correcting
	diff   bool
	holdAt string
}

func newCorrectCmd(std streams) *cobra.Command {
	var flags correctFlags
	c := &cobra.Command{
		Use:     "correct [PATH...]",
		Short:   "write the corrected values into orders",
		Long:    correctLong,
		Example: correctExample,
		RunE: func(_ *cobra.Command, args []string) error {
			return runCorrect(std, flags, args)
		},
	}
	flags.readFlags.add(c)
	flags.addPaths(c)
	c.Flags().BoolVar(&flags.diff, "diff", false, "show what would be changed, as a unified diff, and write nothing")
	c.Flags().BoolVar(&flags.Fill, "fill", false, "write in the outcomes left blank")
	c.Flags().BoolVar(&flags.Likely, "likely", false, "make the likely choices too")
	c.Flags().StringVar(&flags.holdAt, "hold-at", finding.Error.String(), "exit with 1 if a finding at this level or above is left: "+oneOf(levelWords()))
	completes(c, "hold-at", levelWords()...)
	return c
}

func runCorrect(std streams, flags correctFlags, args []string) error {
	holdAt, err := parseHoldAt(flags.holdAt)
	if err != nil {
		return err
	}
	checker, inputs, err := flags.open(args, std, "nothing to correct")
	if err != nil {
		return err
	}
	inputs.Whole = true

	checker.Reuse = true // only what was found is read of what is left
	c := &corrector{std: std, flags: flags, checker: checker, says: bufio.NewWriter(std.out)}
	if slices.Contains(inputs.Paths, lint.Stdin) && !flags.diff {
		c.says = bufio.NewWriter(std.err)
	}
	failed := complaints{w: std.err}
	for in, err := range inputs.All() {
		var wrote error
		if err == nil {
			err, wrote = c.correct(&in)
		}
		if flushed := c.says.Flush(); wrote == nil {
			wrote = flushed
		}
		if wrote != nil {
			return fmt.Errorf("correcting orders: %w", wrote)
		}
		if err != nil {
			failed.add(err)
		}
	}
	failed.orders = c.orders
	failed.end(checker)
	if !flags.diff {
		fmt.Fprintln(c.says, c.done.sum(holdAt))
	}
	if err := c.says.Flush(); err != nil {
		return fmt.Errorf("correcting orders: %w", err)
	}
	switch {
	case failed.any:
		return errSaid
	case c.done.holds(holdAt):
		return errFound
	}
	return nil
}

// A corrector corrects one text after the other.
type corrector struct {
	std     streams
	flags   correctFlags
	checker *lint.Checker
	says    *bufio.Writer // what was changed
	done    tally
	orders  bool // there were some
	sweeper
}

// A tally counts what was changed and what is left.
type tally struct {
	changes int
	left    [finding.Error + 1]int // findings by level
	likely  int                    // findings that a choice would correct
}

// correct corrects a file, or standard input. What was changed is said once it is
// written. The first error says what was left as it was, the second that the
// output can't be written.
func (c *corrector) correct(in *lint.Input) (failed, wrote error) {
	name, file := in.File.Name, in.Unread
	if passes, err := c.checker.Take(in); passes || err != nil {
		return err, nil
	}
	c.orders = true
	if file && !c.flags.diff {
		c.sweep(filepath.Dir(name))
	}
	was := in.File.Text
	t := texts{checker: c.checker, how: c.flags.Correcting, name: name}
	text := t.correct(was, in.Format)
	if c.flags.diff {
		shown := source.Show(name)
		_, wrote = c.says.WriteString(source.ShowLines(string(diff.Diff(shown, []byte(was), shown, []byte(text)))))
		t.said = nil
	} else {
		holds, err := in.Pack(text)
		switch {
		case err == nil && !file:
			_, wrote = io.WriteString(c.std.out, holds)
		case err == nil && text != was:
			before, _ := in.Pack(was) // it is what was read
			err = rewriteFile(name, []byte(before), []byte(holds))
		}
		if err != nil {
			return errors.Join(t.failed, leftAlone(name, err)), nil
		}
	}
	for _, line := range t.said {
		fmt.Fprintln(c.says, line)
	}
	c.done.add(&t.done)
	return t.failed, wrote
}

func leftAlone(name string, err error) error {
	return fmt.Errorf("%s was left as it was: %w", name, err)
}

// texts corrects the texts of one file.
type texts struct {
	checker *lint.Checker
	how     lint.Correcting
	name    string

	said   []string // a line for each change
	done   tally
	failed error
}

// correct corrects a text; one of JSON Lines line by line, so that one order does
// not hold up the others.
func (t *texts) correct(text string, format load.Format) string {
	if format != load.JSONLines {
		return t.one(&source.File{Name: t.name, Text: text}, format)
	}
	var b strings.Builder
	base, n, none := 0, 1, true
	for line := range strings.Lines(text) {
		body := strings.TrimRight(line, "\r\n")
		if strings.Trim(body, " \t\r\ufeff") != "" {
			none = false
			body = t.one(&source.File{Name: t.name, Text: body, FirstLine: n, Base: base}, format)
		}
		b.WriteString(body)
		b.WriteString(line[len(strings.TrimRight(line, "\r\n")):])
		base, n = base+len(line), n+1
	}
	if none {
		t.one(&source.File{Name: t.name, Text: text}, format) // says so
	}
	return b.String()
}

// one corrects a text as a whole.
func (t *texts) one(f *source.File, format load.Format) string {
	res, err := t.checker.Correct(f, format, t.how)
	var wrong *house.Error
	switch {
	case errors.As(err, &wrong):
		t.failed = wrong // for each order alike
	case err != nil:
		name := t.name
		if f.FirstLine > 0 {
			name += ":" + strconv.Itoa(f.FirstLine)
		}
		t.failed = errors.Join(t.failed, leftAlone(name, err))
	}
	for i := range res.Changes {
		t.said = append(t.said, t.line(res.File, &res.Changes[i]))
	}
	t.done.changes += len(res.Changes)
	for i := range res.Results {
		for k := range res.Results[i].Findings {
			found := &res.Results[i].Findings[k]
			t.done.left[found.Level]++
			if fix.Of(found, finding.Likely) != nil {
				t.done.likely++
			}
		}
	}
	return res.File.Text
}

// line says what was changed: where, what, from what to what, and by which rule.
func (t *texts) line(f *source.File, c *lint.Change) string {
	was, rule := c.Was, c.Rule
	if was == "" {
		was = "blank"
	}
	if c.Sureness < finding.Certain {
		rule += ", " + c.Sureness.String()
	}
	at := t.name + ":" + strconv.Itoa(f.Position(c.At.Start).Line)
	if cell, ok := f.Cell(c.At.Start); ok {
		at = t.name + ":" + cell.String()
	}
	return source.Show(at + "  " + strings.TrimSpace(c.Field+" "+was) + " → " + c.Now + "  " + rule)
}

func (t *tally) add(more *tally) {
	t.changes += more.changes
	for i, n := range more.left {
		t.left[i] += n
	}
	t.likely += more.likely
}

// holds reports whether something is left at a level or above.
func (t *tally) holds(level finding.Level) bool {
	return slices.ContainsFunc(t.left[level:], func(n int) bool { return n > 0 })
}

// sum is how many changes were made and what is left, gravest first; notes only
// where they hold an order.
func (t *tally) sum(holdAt finding.Level) string {
	parts := []string{worksheet.Many(t.changes, "change")}
	for _, l := range slices.Backward(finding.Levels()) {
		if n := t.left[l]; n > 0 && l >= min(finding.Warning, holdAt) {
			parts = append(parts, worksheet.Many(n, l.String())+" left")
		}
	}
	if t.likely > 0 {
		parts = append(parts, strconv.Itoa(t.likely)+" more with --likely")
	}
	return strings.Join(parts, " · ")
}
