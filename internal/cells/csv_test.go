package cells

import (
	"encoding/csv"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/source"
)

// TestCSVPlaces reads the places of cells: within their quote marks, without the
// space around them.
func TestCSVPlaces(t *testing.T) {
	text := "a, b ,\"c \"\"d\"\"\"\r\n\r\n\"two\nlines\",é,\n"
	s, fault := CSV(text, 3, ',')
	if fault != nil {
		t.Fatal(fault)
	}
	type at [3]string // its name, its text, and what stands at its place
	var got []at
	for _, r := range s.Rows {
		for n := range r.Width() {
			c := r.Cell(n + 1)
			name := source.Cell{Column: c.Column, Row: r.Number}.String()
			got = append(got, at{name, c.Text, text[c.At.Start-3 : c.At.End-3]})
		}
	}
	want := []at{
		{"A1", "a", "a"}, {"B1", "b", "b"}, {"C1", `c "d"`, `c ""d""`},
		{"A3", "two\nlines", "two\nlines"}, {"B3", "é", "é"}, {"C3", "", ""},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestCSVFaults(t *testing.T) {
	for _, c := range []struct {
		text, at, cell, says string
	}{
		{"a,b\nc \"d\",e\n", `"`, "A2", "put the whole cell in quote marks"},
		{"a,b\n\"c\"d,e\n", `"`, "A2", "put the whole cell in quote marks"},
		{"a,b\n\n\"c, d\",72\",e\n", `"`, "B3", "put the whole cell in quote marks"},
		{"a,b\n\"c,d\ne,f\n", `"`, "A2", "is not closed"},
		{"a,b\n\"c", `"`, "A2", "is not closed"},
	} {
		s, fault := CSV(c.text, 0, ',')
		if fault == nil || !strings.Contains(fault.Detail, c.says) {
			t.Errorf("%q: the fault is %v", c.text, fault)
			continue
		}
		if got := c.text[fault.At.Start:fault.At.End]; got != c.at && !strings.HasPrefix(c.text[fault.At.Start:], c.at) {
			t.Errorf("%q: the fault is at %q", c.text, got)
		}
		if fault.Cell.String() != c.cell {
			t.Errorf("%q: the fault is in cell %v, not %s", c.text, fault.Cell, c.cell)
		}
		if len(s.Rows) != 1 {
			t.Errorf("%q: %d rows stand before the fault", c.text, len(s.Rows))
		}
	}
}

// TestCSVEmptyLast holds that an empty cell at the end of a row stands before the line's
// end, so that what is written into it is in the row.
func TestCSVEmptyLast(t *testing.T) {
	for text, want := range map[string]string{
		"a,\r\nb\r\n":     "a,new\r\nb\r\n",
		"a, \r\nb\r\n":    "a, new\r\nb\r\n",
		"a,\nb\n":         "a,new\nb\n",
		"\n\r\na,\r":      "\n\r\na,new\r",
		"a,\"\"\r\nb\r\n": "a,\"new\"\r\nb\r\n",
	} {
		s, fault := CSV(text, 0, ',')
		if fault != nil || len(s.Rows) == 0 {
			t.Fatalf("%q: the rows are %+v, %v", text, s.Rows, fault)
		}
		at := s.Rows[0].Cell(2).At
		if got := text[:at.Start] + "new" + text[at.End:]; got != want {
			t.Errorf("%q: %q, not %q", text, got, want)
		}
	}
}

// TestCSVLineEnds reads rows that end as old spreadsheets end them.
func TestCSVLineEnds(t *testing.T) {
	text := "a,b\r\r\"two\rlines\",d\r"
	s, fault := CSV(text, 0, ',')
	if fault != nil || len(s.Rows) != 2 || s.Rows[1].Number != 3 {
		t.Fatalf("the rows are %+v, %v", s.Rows, fault)
	}
	if c := s.Rows[1].Cells[1]; c.Text != "d" || text[c.At.Start:c.At.End] != "d" {
		t.Errorf("the last cell is %+v", c)
	}
}

// FuzzCSV holds the texts of cells to those of the standard library's reader, and
// their places to the text.
func FuzzCSV(f *testing.F) {
	for _, text := range []string{"a,b\n\"c\",d\n", "a;b\r\n\"\"\"\";\n\n;;\n", "\"x\ny\"\tz", " \"a\" , b\u00a0\n", "\"a\"\r\r\n,", "a,b\r\rc,\"d\re\"\r", "a\rb,\"c\r\nd\"\n"} {
		f.Add(text, uint8(0))
		f.Add(text, uint8(1))
		f.Add(text, uint8(2))
	}
	f.Fuzz(func(t *testing.T, text string, mark uint8) {
		comma := Commas()[int(mark)%len(Commas())]
		lines := text
		if !strings.Contains(text, "\n") {
			lines = strings.ReplaceAll(text, "\r", "\n")
		}
		r := csv.NewReader(strings.NewReader(lines))
		r.Comma, r.FieldsPerRecord, r.TrimLeadingSpace = comma, -1, comma != '\t'
		s, fault := CSV(text, 0, comma)
		last, end := 0, 0
		for _, row := range s.Rows {
			record, err := r.Read()
			if err != nil || len(record) != row.Width() || row.Number <= last {
				t.Fatalf("row %d has %d cells; the library reads %q, %v", row.Number, row.Width(), record, err)
			}
			last = row.Number
			for i := range record {
				c := row.Cell(i + 1)
				if c.At.Start < end || c.At.End < c.At.Start || c.At.End > len(text) {
					t.Fatalf("cell %d of row %d is at %v, after %d of %d", i+1, row.Number, c.At, end, len(text))
				}
				end = c.At.End
				// The library takes the CR out of a line end inside of a cell.
				if want := strings.TrimSpace(record[i]); strings.ReplaceAll(c.Text, "\r\n", "\n") != want {
					t.Fatalf("cell %d of row %d says %q, not %q", i+1, row.Number, c.Text, want)
				}
			}
		}
		if _, err := r.Read(); (err == io.EOF) != (fault == nil) {
			t.Fatalf("the fault is %v; the library's is %v", fault, err)
		}
	})
}
