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
// file, which editors can jump to. A place in a table has its cell too; of a
// workbook, line and column are the cell's row and column.
type lines struct {
	out  sink
	opts Options
}

func newLines(w io.Writer, o Options) Report { return &lines{sink{w: w}, o} }

func (l *lines) Order(s *worksheet.Sheet, found []finding.Finding, _ finding.Aside) error {
	if l.opts.skipped(found) {
		return nil
	}
	var b strings.Builder
	for i := range found {
		f := &found[i]
		p := s.Order.File.Position(f.At.Start)
		b.WriteString(s.Order.File.Name)
		b.WriteByte(':')
		b.WriteString(strconv.Itoa(p.Line))
		b.WriteByte(':')
		b.WriteString(strconv.Itoa(p.Column))
		b.WriteString(": ")
		b.WriteString(source.Show(f.Message))
		b.WriteString(" [" + f.Level.String() + ", " + f.Rule)
		if c, ok := s.Order.File.Cell(f.At.Start); ok {
			b.WriteString(", " + source.Show(c.String()))
		}
		b.WriteString("]\n")
	}
	l.out.print(b.String())
	return l.out.err
}

func (l *lines) Close() error { return l.out.err }
