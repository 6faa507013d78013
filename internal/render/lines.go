package render

import (
	"io"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// lines is the form of the GNU coding standards for messages about a place in a
// file, which editors can jump to. Columns count bytes, as those standards have it and
// as editors do that read such lines. A place in a table has its cell too; of a
// workbook, line and column are the cell's row and column.
type lines struct {
	unsaid
	out  sink
	opts Options
}

func newLines(w io.Writer, o Options) Report { return &lines{out: sink{w: w}, opts: o} }

func (l *lines) Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error {
	if l.opts.skipped(found, &aside) {
		return nil
	}
	var b strings.Builder
	for i := range found {
		line(&b, s.Order.File, &found[i])
	}
	for i := range aside.Known {
		line(&b, s.Order.File, &aside.Known[i], knownBefore)
	}
	for i := range aside.Waived {
		if w := &aside.Waived[i]; w.Level == finding.Error {
			line(&b, s.Order.File, &w.Finding, "waived: "+reason(w))
		}
	}
	l.out.print(b.String())
	return l.out.err
}

// line writes a finding as a line, with what more there is to say of it.
func line(b *strings.Builder, file *source.File, f *finding.Finding, more ...string) {
	p := file.Bytes(f.At.Start)
	b.WriteString(source.Show(file.Name) + ":" + strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Column) + ": ")
	b.WriteString(source.Show(f.Message))
	b.WriteString(" [" + f.Level.String() + ", " + f.Rule)
	if c, ok := file.Cell(f.At.Start); ok {
		b.WriteString(", " + source.Show(c.String()))
	}
	for _, text := range more {
		b.WriteString(", " + source.Show(text))
	}
	b.WriteString("]\n")
}

// knownBefore is what is said of a finding that was known before.
const knownBefore = "known before"

func (l *lines) Close() error { return l.out.err }
