package cells

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// A filling fills a workbook for a test.
type filling struct {
	*testing.T
	*excelize.File
}

func newBook(t *testing.T) filling { return filling{t, excelize.NewFile()} }

func (f filling) set(cell string, value any) {
	f.Helper()
	f.must(f.SetCellValue("Sheet1", cell, value))
}

func (f filling) style(cell string, s excelize.Style) {
	f.Helper()
	id, err := f.NewStyle(&s)
	f.must(err)
	f.must(f.SetCellStyle("Sheet1", cell, cell, id))
}

func (f filling) must(err error) {
	f.Helper()
	if err != nil {
		f.Fatal(err)
	}
}

func (f filling) bytes() []byte {
	f.Helper()
	b, err := f.WriteToBuffer()
	f.must(err)
	return b.Bytes()
}

func code(c string) excelize.Style { return excelize.Style{CustomNumFmt: &c} }

// TestDraw draws a cell of every kind. The number formats are those of ECMA-376
// part 1, 18.8.30 and 18.8.31.
func TestDraw(t *testing.T) {
	f := newBook(t)
	f.set("A1", "text\nin two lines")
	f.set("B1", " 10 1/2 ")
	f.set("C1", 13.625)
	f.set("D1", 0.1+0.2)
	f.set("E1", true)
	f.set("F1", 1e21)
	f.set("A3", 0.02)
	f.style("A3", excelize.Style{NumFmt: 9})
	f.set("B3", 10+1.0/3)
	f.style("B3", excelize.Style{NumFmt: 13})
	f.set("C3", 10.3)
	f.style("C3", code("# ?/?"))
	f.set("D3", time.Date(2026, 3, 8, 0, 0, 0, 0, time.UTC))
	f.set("E3", 46089)
	f.style("E3", code(`[$-809]dd\ mmmm\ yyyy;@`))
	f.set("F3", 72)
	f.style("F3", code(`0.0" dyed in m"`))
	f.set("A4", 5)
	f.must(f.SetCellFormula("Sheet1", "A4", "C1*2"))
	f.set("B4", "merged")
	f.must(f.MergeCell("Sheet1", "B4", "C5"))
	f.set("D4", "'3/8")
	f.set("E4", -0.125)
	f.style("E4", excelize.Style{NumFmt: 12})
	f.must(f.SetCellFormula("Sheet1", "F4", `IF(A4>9,"long","")`))
	f.set("A6", 1)
	f.style("A6", code(`"TRUE";"TRUE";"FALSE"`))
	f.set("B6", 0)
	f.style("B6", code(`"WAHR";"WAHR";"FALSCH"`))
	f.set("C6", 2)
	f.style("C6", code(`"in";"in";"in"`))
	got := Draw(f.bytes())
	want := `Sheet1!A1	text in two lines
Sheet1!B1	 10 1/2 
Sheet1!C1	13.625
Sheet1!D1	0.3
Sheet1!E1	true
Sheet1!F1	1000000000000000000000
Sheet1!A3	2%
Sheet1!B3	10 1/3
Sheet1!C3	10 3/10
Sheet1!D3	2026-03-08
Sheet1!E3	2026-03-08
Sheet1!F3	72
Sheet1!A4	5	formula C1*2
Sheet1!B4	merged	merged B4:C5
Sheet1!C4	
Sheet1!D4	'3/8
Sheet1!E4	-1/8
Sheet1!F4		formula IF(A4>9,"long","")
Sheet1!A6	true
Sheet1!B6	false
Sheet1!C6	2
Sheet1!D6	
Sheet1!E6	
Sheet1!F6	
`
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// TestRefused holds that workbooks which are broken, locked, or larger than any of
// orders are refused with a word on what to do, and soon.
func TestRefused(t *testing.T) {
	far := withSheet(t, `<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`)
	wide := withSheet(t, `<row r="1"><c r="XFD1"><v>1</v></c></row>`)
	row := strings.Repeat("<c><v>1</v></c>", 900)
	many := withSheet(t, strings.Repeat("<row>"+row+"</row>", 230))
	locked := newBook(t)
	locked.set("A1", "item")
	var b bytes.Buffer
	locked.must(locked.Write(&b, excelize.Options{Password: "otter"}))
	whole := newBook(t).bytes()
	for _, c := range []struct {
		name string
		data []byte
		says string
	}{
		{"nothing", nil, "it is not an .xlsx workbook"},
		{"a text", []byte("item,cloth\n"), "it is not an .xlsx workbook"},
		{"a part", whole[:len(whole)/2], "or only part of one"},
		{"another archive", archive(t, "a.txt", 10), "it is not an .xlsx workbook"},
		{"a bomb", archive(t, "xl/worksheets/sheet1.xml", 65<<20), "larger than 64 MB"},
		{"a part twice", withPart(t, archive(t, "xl/workbook.xml", 10), "xl/Workbook.xml", ""), "two parts called xl/Workbook.xml"},
		{"a password", b.Bytes(), "it has a password"},
		{"a far cell", far, "goes beyond row 20000"},
		{"a wide row", wide, "or column ALL"},
		{"many cells", many, "more than 200000 cells"},
	} {
		t.Run(c.name, func(t *testing.T) {
			sheets, fault := Drawn(Draw(c.data))
			if fault == nil || !strings.Contains(fault.Detail, c.says) || len(sheets) > 0 {
				t.Errorf("the fault is %v", fault)
			}
		})
	}
}

// archive is a zip archive of one part with so many zeros.
func archive(t *testing.T, name string, size int64) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.CopyN(w, zeros{}, size); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// withSheet is a workbook whose sheet has these rows.
func withSheet(t *testing.T, rows string) []byte {
	t.Helper()
	return withPart(t, newBook(t).bytes(), "xl/worksheets/sheet1.xml",
		`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>`+rows+`</sheetData></worksheet>`)
}

// withPart is a workbook with another text for one of its parts.
func withPart(t *testing.T, workbook []byte, name, text string) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	for _, p := range in.File {
		if p.Name != name {
			if err := out.Copy(p); err != nil {
				t.Fatal(err)
			}
		}
	}
	w, err := out.Create(name)
	if err == nil {
		_, err = io.WriteString(w, text)
	}
	if err = errors.Join(err, out.Close()); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

// TestRewrite changes cells of every kind, and holds that all else is as it was:
// styles, widths, notes, choices, merged cells, formulas, other sheets.
func TestRewrite(t *testing.T) {
	f := newBook(t)
	f.set("A1", "13 5/8")
	f.style("A1", excelize.Style{NumFmt: 49, Font: &excelize.Font{Bold: true, Color: "AA0000"}})
	f.set("B1", 13.625)
	f.style("B1", code("0.000"))
	f.set("C1", 13.625)
	f.style("C1", excelize.Style{NumFmt: 13})
	f.set("D1", 0.02)
	f.style("D1", excelize.Style{NumFmt: 9})
	f.set("E1", time.Date(2026, 3, 8, 0, 0, 0, 0, time.UTC))
	f.set("F1", false)
	f.set("G1", 7)
	f.must(f.SetCellFormula("Sheet1", "G1", "B1*2"))
	f.set("H1", "keep\nthis")
	f.set("I2", "last")
	f.must(f.MergeCell("Sheet1", "A4", "C5"))
	f.must(f.SetColWidth("Sheet1", "B", "B", 33))
	f.must(f.AddComment("Sheet1", excelize.Comment{Cell: "B1", Text: "by hand"}))
	choice := excelize.NewDataValidation(true)
	choice.SetSqref("A1:A9")
	f.must(choice.SetDropList([]string{"plain", "French"}))
	f.must(f.AddDataValidation("Sheet1", choice))
	asShown, every := false, 0.25
	f.must(f.SetCalcProps(&excelize.CalcPropsOptions{FullPrecision: &asShown, IterateDelta: &every}))
	_, err := f.NewSheet("Notes")
	f.must(err)
	f.must(f.SetCellStr("Notes", "C3", "mine"))
	data := f.bytes()

	was := Draw(data)
	now := strings.NewReplacer(
		"A1\t13 5/8", "A1\t14 1/4", "B1\t13.625", "B1\t14.25", "C1\t13 5/8", "C1\t14 1/4", "D1\t2%", "D1\t3%",
		"E1\t2026-03-08", "E1\t3/8", "F1\tfalse", "F1\ttrue", "A2\t", "A2\t4 yd", "B2\t", "B2\t87",
	).Replace(was)
	out, err := Rewrite(data, was, now)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(now, Draw(out)); d != "" {
		t.Errorf("the workbook says something else (-want +got):\n%s", d)
	}
	g, err := excelize.OpenReader(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	for cell, want := range map[string]excelize.CellType{
		"A1": excelize.CellTypeInlineString, "B1": excelize.CellTypeUnset, "C1": excelize.CellTypeUnset, "D1": excelize.CellTypeUnset,
		"E1": excelize.CellTypeInlineString, "F1": excelize.CellTypeBool, "A2": excelize.CellTypeInlineString, "B2": excelize.CellTypeUnset,
	} {
		if kind, err := g.GetCellType("Sheet1", cell); err != nil || kind != want {
			t.Errorf("%s has a value of kind %d, not %d, %v", cell, kind, want, err)
		}
	}
	if d := cmp.Diff(about(t, f.File), about(t, g)); d != "" {
		t.Errorf("what should stay has changed (-was +now):\n%s", d)
	}
	if props, err := g.GetCalcProps(); err != nil || props.FullCalcOnLoad == nil || !*props.FullCalcOnLoad {
		t.Error("the formulas are not worked out anew when it is opened")
	} else if props.FullPrecision == nil || *props.FullPrecision || props.IterateDelta == nil || *props.IterateDelta != every {
		t.Error("how the formulas are worked out has changed")
	}
}

// about is what there is to say of a workbook, but for the texts of its cells.
func about(t *testing.T, f *excelize.File) (all []any) {
	t.Helper()
	add := func(v any, err error) {
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, v)
	}
	for _, cell := range []string{"A1", "B1", "C1", "D1", "E1", "F1", "G1", "H1"} {
		id, err := f.GetCellStyle("Sheet1", cell)
		add(id, err)
		add(f.GetStyle(id))
		add(f.GetCellFormula("Sheet1", cell))
	}
	add(f.GetCellValue("Sheet1", "G1"))
	add(f.GetCellValue("Sheet1", "H1"))
	add(f.GetColWidth("Sheet1", "B"))
	add(f.GetComments("Sheet1"))
	add(f.GetDataValidations("Sheet1"))
	add(f.GetMergeCells("Sheet1"))
	add(f.GetRows("Notes"))
	add(f.GetSheetList(), nil)
	return all
}

// FuzzDrawn holds that any text is read without a panic, and that places lie in it.
func FuzzDrawn(f *testing.F) {
	f.Add("Orders!A1\titem\nOrders!B1\t\tmerged B1:C1\n'Bed ''s'!ZZ9\t x \tformula A1\n")
	f.Add("\t\tit is broken\n")
	f.Add("A1\tx\n!A1\tx\n'!A1\t\nS!A0\t\nS!A99999999999\t")
	f.Fuzz(func(t *testing.T, text string) {
		sheets, fault := Drawn(text)
		if fault != nil {
			if fault.At.Start < 0 || fault.At.End < fault.At.Start || fault.At.End > len(text) {
				t.Fatalf("the fault is at %v", fault.At)
			}
			return
		}
		for _, s := range sheets {
			for _, r := range s.Rows {
				for _, c := range r.Cells {
					if text[c.At.Start:c.At.End] != c.Text {
						t.Fatalf("%q is not at its place", c.Text)
					}
				}
			}
		}
	})
}

// FuzzDraw holds that no bytes make drawing a workbook panic.
func FuzzDraw(f *testing.F) {
	b := excelize.NewFile()
	if err := b.SetCellValue("Sheet1", "B2", 1.5); err != nil {
		f.Fatal(err)
	}
	buf, err := b.WriteToBuffer()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(buf.Bytes())
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, data []byte) { Drawn(Draw(data)) })
}
