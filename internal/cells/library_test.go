package cells

import (
	"archive/zip"
	"bytes"
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"cutgate/internal/source"
)

// byLibrary draws a workbook that the library reads: github.com/xuri/excelize, which
// shares nothing with this package but for what a number is shown as.
func byLibrary(tb testing.TB, workbook []byte) string {
	tb.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(workbook))
	if err != nil {
		tb.Fatal(err)
	}
	must := func(err error) {
		tb.Helper()
		if err != nil {
			tb.Fatal(err)
		}
	}
	var b strings.Builder
	for _, name := range f.GetSheetList() {
		list, err := f.GetMergeCells(name, true)
		if err != nil {
			continue // a sheet of another kind
		}
		rows, err := f.GetRows(name, excelize.Options{RawCellValue: true})
		must(err)
		merged := map[string]string{}
		for _, m := range list {
			merged[m.GetStartAxis()] = m.GetStartAxis() + ":" + m.GetEndAxis()
		}
		width := 0
		for i := range rows {
			for n := len(rows[i]); n > 0 && strings.TrimSpace(rows[i][n-1]) == ""; n-- {
				rows[i] = rows[i][:n-1]
			}
			width = max(width, len(rows[i]))
		}
		for i, row := range rows {
			for k := 0; k < width && len(row) > 0; k++ {
				at := source.Cell{Column: k + 1, Row: i + 1}.String()
				text := ""
				if k < len(row) {
					text = row[k]
				}
				formula, err := f.GetCellFormula(name, at)
				must(err)
				kind, err := f.GetCellType(name, at)
				must(err)
				remark := ""
				switch {
				case formula != "" && text == "" && kind != excelize.CellTypeFormula:
					remark = "\tvalueless " + formula
				case formula != "":
					remark = "\tformula " + formula
				case merged[at] != "":
					remark = "\tmerged " + merged[at]
				}
				switch {
				case text == "" && formula == "":
				case kind == excelize.CellTypeBool:
					text = strconv.FormatBool(text == "1" || text == "true")
				case kind == excelize.CellTypeDate:
					text = dateOf(text)
				case text != "" && (kind == excelize.CellTypeNumber || kind == excelize.CellTypeUnset):
					text = libraryNumber(tb, f, name, at, text)
				}
				b.WriteString(source.Cell{Sheet: name, Column: k + 1, Row: i + 1}.String() + "\t" + flat(text) + flatRemark(remark) + "\n")
			}
		}
	}
	return b.String()
}

func flatRemark(remark string) string {
	if remark == "" {
		return ""
	}
	return "\t" + flat(remark[1:])
}

// libraryNumber writes a number as the style that the library finds shows it, and
// as the library reads its day.
func libraryNumber(tb testing.TB, f *excelize.File, sheet, at, raw string) string {
	tb.Helper()
	id, err := f.GetCellStyle(sheet, at)
	if err != nil {
		tb.Fatal(err)
	}
	how := asNumber
	if style, err := f.GetStyle(id); err == nil {
		how = builtIn[style.NumFmt]
		if style.CustomNumFmt != nil {
			how = showsCode(*style.CustomNumFmt)
		}
	}
	props, err := f.GetWorkbookProps()
	if err != nil {
		tb.Fatal(err)
	}
	since := props.Date1904 != nil && *props.Date1904
	if v, err := strconv.ParseFloat(raw, 64); how == asDate && err == nil && v >= 1 && v < lastDay {
		day, err := excelize.ExcelDateToTime(v, since)
		if err != nil {
			tb.Fatal(err)
		}
		return day.Format(time.DateOnly)
	}
	return shown(raw, how, since)
}

// TestLibraryReadsTheSame draws workbooks that the library made, of cells of every
// kind at random, and holds the text to what the library reads in them.
func TestLibraryReadsTheSame(t *testing.T) {
	for seed := range uint64(25) {
		workbook := atRandom(t, rand.New(rand.NewPCG(seed, 1)))
		if d := cmp.Diff(byLibrary(t, workbook), Draw(workbook)); d != "" {
			t.Fatalf("seed %d (-the library +ours):\n%s", seed, d)
		}
	}
}

// atRandom is a workbook of the library's with cells of every kind.
func atRandom(t *testing.T, r *rand.Rand) []byte {
	f := newBook(t)
	since := r.IntN(2) == 0
	f.must(f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &since}))
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	names := []string{"Sheet1", "Bed 'n' bath", "Café", "chart"}
	for _, name := range names[1:3] {
		_, err := f.NewSheet(name)
		f.must(err)
	}
	codes := []string{"0.00", "0%", "# ?/?", "# ??/??", "dd/mm/yyyy", `yyyy\-mm\-dd`, "[h]:mm", `0.0" m"`, "@", "General", `"TRUE";"TRUE";"FALSE"`, `[$-409]mmmm\ d`}
	var styles []int
	for _, c := range codes {
		s := code(c)
		id, err := f.NewStyle(&s)
		f.must(err)
		styles = append(styles, id)
	}
	for n := range 50 {
		id, err := f.NewStyle(&excelize.Style{NumFmt: n})
		f.must(err)
		styles = append(styles, id)
	}
	texts := []string{"linen", " 10 1/2 ", "two\nlines", "a\ttab", "<b> & \"c\" 'd'", "_x0041_", "_x005F_x0041_", "\U0001F9F5 thread", "=A1", "naïve", "   ", "a\rb\r\nc", "\x01"}
	for _, name := range names[:3] {
		for range 40 + r.IntN(80) {
			at := source.Cell{Column: 1 + r.IntN(12), Row: 1 + r.IntN(30)}.String()
			switch r.IntN(9) {
			case 0, 1:
				f.must(f.SetCellValue(name, at, pick(texts...)))
			case 2, 3:
				f.must(f.SetCellValue(name, at, float64(r.IntN(60000))/8))
			case 4:
				f.must(f.SetCellValue(name, at, r.NormFloat64()*1e6))
			case 5:
				f.must(f.SetCellValue(name, at, r.IntN(2) == 0))
			case 6:
				f.must(f.SetCellValue(name, at, r.IntN(200)))
				f.must(f.SetCellFormula(name, at, pick("A1*2", `IF(B2>9,"lo ""ng",C$3)`, "SUM(A1:B2)")))
			case 7:
				f.must(f.SetCellFormula(name, at, pick("A1+1", "Café!B2")))
			case 8:
				f.must(f.SetCellRichText(name, at, []excelize.RichTextRun{{Text: pick(texts...)}, {Text: " bold", Font: &excelize.Font{Bold: true}}}))
			}
			if r.IntN(2) == 0 {
				f.must(f.SetCellStyle(name, at, at, styles[r.IntN(len(styles))]))
			}
		}
		f.must(f.SetCellFormula(name, "A40", "", excelize.FormulaOpts{}))
		f.must(f.SetCellValue(name, "P41", "merged"))
		f.must(f.MergeCell(name, "P41", "R43"))
	}
	f.must(f.SetSheetVisible(names[2], r.IntN(2) == 0))
	f.must(f.AddChartSheet(names[3], &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Name: "Sheet1!$A$1", Values: "Sheet1!$B$1:$B$4"}}}))
	return f.bytes()
}

// TestSharedFormulas holds what a shared formula is in other cells to what the
// library makes of it. It moves a reference to another sheet too, as a spreadsheet
// does and the library does not.
func TestSharedFormulas(t *testing.T) {
	kind, ref := excelize.STCellFormulaTypeShared, "C3:E9"
	for _, formula := range []string{
		"A1+B2", "$A1+B$2*$C$3", `IF(A1>9,"A1 ""B2""",-B2%)`, "SUM(A1:B2,$A:$B)", "LOG10(A1)^2", "A1&B1&\"x\"", "1.5E3*A1", "MAX((A1,B2))", "TRUE",
	} {
		f := newBook(t)
		f.set("A1", 1)
		for row := 3; row <= 9; row++ {
			for column := 3; column <= 5; column++ {
				f.set(source.Cell{Column: column, Row: row}.String(), row*column)
			}
		}
		f.must(f.SetCellFormula("Sheet1", "C3", formula, excelize.FormulaOpts{Type: &kind, Ref: &ref}))
		workbook := f.bytes()
		if got := Draw(workbook); !strings.Contains(got, "Sheet1!E9\t45\tformula ") {
			t.Errorf("%s is not shared:\n%s", formula, got)
		} else if d := cmp.Diff(byLibrary(t, workbook), got); d != "" {
			t.Errorf("%s (-the library +ours):\n%s", formula, d)
		}
	}
	for _, c := range [][2]string{
		{"'A1 B2'!A1*Cloths!$B2", "'A1 B2'!C4*Cloths!$B5"},
		{"Rates[[#This Row],[A1]]+A1", "Rates[[#This Row],[A1]]+C4"},
		{"SUM(A:B,1:2,$A:B,1:$2)", "SUM(C:D,4:5,$A:D,4:$2)"},
		{"rate*A1+tax_A1+é1", "rate*C4+tax_A1+é1"},
		{"XFC1", "#REF!"},
		{"A1048574&\"", "#REF!&\""},
	} {
		f := shared{c[0], 3, 3}
		if got := f.at(5, 6); got != c[1] {
			t.Errorf("%s is %s two columns on and three rows down, not %s", c[0], got, c[1])
		}
	}
}

// TestUnlikeLibrary draws what the library reads otherwise than spreadsheets show it,
// by ECMA-376 part 1: a cell without a style has the first, 18.3.1.4; a merged cell
// has what is in the first, and the others nothing, 18.3.1.55; what stands for a
// character is written with four hexadecimal digits, 22.9.2.19; a text that is in its cell
// stands in <is>, 18.3.1.53; a what-if table is a formula without a text, and a formula may
// fill more cells than its own, 18.3.1.40.
func TestUnlikeLibrary(t *testing.T) {
	p := parts(`<row><c><f>C1</f><v>1</v></c><c/><c s="1"><v>2</v></c><c><v>3</v></c><c t="inlineStr"><is><t>_xtra1_ _xD800_</t></is></c>` +
		`<c><is><t>9 1/2</t></is></c><c><f t="dataTable" ref="G1:H1" r1="A1"/><v>4</v></c><c><v>5</v></c></row>`)
	p["xl/worksheets/orders.xml"] = strings.NewReplacer("<sheetData>", `<cols><col min="1" max="5" style="1"/></cols><sheetData>`,
		"</sheetData>", `</sheetData><mergeCells><mergeCell ref="A1:B1"/></mergeCells>`).Replace(p["xl/worksheets/orders.xml"])
	const want = "Orders!A1\t1\tformula C1\nOrders!B1\t\nOrders!C1\t200%\nOrders!D1\t3\nOrders!E1\t_xtra1_ _xD800_\nOrders!F1\t9 1/2\nOrders!G1\t4\tformula TABLE\nOrders!H1\t5\tformula TABLE\n"
	if d := cmp.Diff(want, Draw(zipped(t, p))); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// TestUnlike draws workbooks that say the same in other ways: with other prefixes,
// in the strict namespaces, with other names for parts, without what may be left
// out. ECMA-376 part 1 has the first and the last, part 2 the names, ISO/IEC
// 29500-1 the strict namespaces.
func TestUnlike(t *testing.T) {
	const rows = `<row r="2"><c r="B2" t="s"><v>1</v></c><c r="C2" s="1"><v>0.5</v></c></row>` +
		`<row r="3"><c r="B3" t="inlineStr"><is><t>in</t></is></c><c r="C3" t="b"><v>1</v></c><c r="D3" t="d"><v>2026-03-08T00:00:00</v></c></row>` +
		`<row r="4"><c r="A4" t="str"><f>B2</f><v>cloth &amp; lining</v></c><c r="B4" t="e"><v>#REF!</v></c></row>`
	const want = "Orders!A2\t\nOrders!B2\tcloth lining\nOrders!C2\t50%\nOrders!D2\t\n" +
		"Orders!A3\t\nOrders!B3\tin\nOrders!C3\ttrue\nOrders!D3\t2026-03-08\n" +
		"Orders!A4\tcloth & lining\tformula B2\nOrders!B4\t#REF!\nOrders!C4\t\nOrders!D4\t\n"
	plain := parts(rows)
	bare := parts(`<row/><row><c/><c t="s"><v>1</v></c><c s="1"><v>0.5</v></c></row>` +
		`<row><c/><c t="inlineStr"><is><t>in</t></is></c><c t="b"><v>1</v></c><c t="d"><v>2026-03-08T00:00:00</v></c></row>` +
		`<row><c t="str"><f>B2</f><v>cloth &amp; lining</v></c><c t="e"><v>#REF!</v></c></row>`)
	each := func(change func(name, text string) (string, string)) map[string]string {
		changed := map[string]string{}
		for name, text := range plain {
			name, text = change(name, text)
			changed[name] = text
		}
		return changed
	}
	for _, c := range []struct {
		name  string
		parts map[string]string
		other bool // the library can't read it so
	}{
		{name: "plain", parts: plain},
		{name: "no names of rows and cells", parts: bare},
		{name: "only names of cells", parts: parts(strings.NewReplacer(` r="2"`, "", ` r="3"`, "", ` r="4"`, "").Replace(rows)), other: true},
		{name: "strict", parts: each(func(name, text string) (string, string) {
			return name, strings.NewReplacer(mainSpace, "http://purl.oclc.org/ooxml/spreadsheetml/main", linkSpace, "http://purl.oclc.org/ooxml/officeDocument/relationships").Replace(text)
		})},
		{name: "a byte order mark", parts: each(func(name, text string) (string, string) { return name, "\ufeff" + text })},
		{name: "backslashes", parts: each(func(name, text string) (string, string) { return strings.ReplaceAll(name, "/", `\`), text })},
		{name: "whole names of parts", parts: each(func(name, text string) (string, string) {
			return name, strings.ReplaceAll(strings.ReplaceAll(text, `Target="xl/`, `Target="/xl/`), `Target="worksheets`, `Target="/xl/worksheets`)
		})},
		{name: "prefixes", other: true, parts: each(func(name, text string) (string, string) {
			if !strings.HasPrefix(name, "xl/") || strings.HasSuffix(name, ".rels") {
				return name, text
			}
			text = strings.NewReplacer("<?", "<?", "</", "</x:", "<", "<x:").Replace(text)
			return name, strings.ReplaceAll(text, "xmlns=", "xmlns:x=")
		})},
		{name: "another case", other: true, parts: each(func(name, text string) (string, string) { return strings.ToUpper(name), text })},
		{name: "comments and sections", parts: each(func(name, text string) (string, string) {
			return name, strings.NewReplacer("cloth lining", "cl<!-- < -->oth <![CDATA[lin]]>ing", "#REF!", "&#35;&#x52;EF!", "<sheetData>", "<sheetData>\n <!-- <row> --> ").Replace(text)
		})},
		{name: "runs and how they are said", parts: each(func(name, text string) (string, string) {
			return name, strings.Replace(text, "<t>cloth lining</t>", `<r><t>cloth</t></r><r><rPr><b/></rPr><t xml:space="preserve"> lining</t></r><rPh sb="0" eb="1"><t>KUROSU</t></rPh>`, 1)
		})},
	} {
		workbook := zipped(t, c.parts)
		if d := cmp.Diff(want, Draw(workbook)); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
		changed, err := Rewrite(workbook, want, strings.NewReplacer("B2\tcloth lining", "B2\t<wool>", "50%", "25%", "D4\t", "D4\t7").Replace(want))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if c.other {
			continue
		}
		for _, w := range [][]byte{workbook, changed} {
			if d := cmp.Diff(byLibrary(t, w), Draw(w)); d != "" {
				t.Errorf("%s (-the library +ours):\n%s", c.name, d)
			}
		}
	}
}

// parts are the parts of a workbook with one sheet, Orders, that has these rows.
func parts(rows string) map[string]string {
	link := func(kind, target string, n int) string {
		return fmt.Sprintf(`<Relationship Id="rId%d" Type="%s/%s" Target="%s"/>`, n, linkSpace, kind, target)
	}
	const head, links = xmlHead, `<Relationships xmlns="` + linksSpace + `">`
	return map[string]string{
		"_rels/.rels": head + links + link("officeDocument", "xl/book.xml", 1) + `</Relationships>`,
		"xl/_rels/book.xml.rels": head + links + link("worksheet", "worksheets/orders.xml", 1) + link("styles", "styles.xml", 2) +
			link("sharedStrings", "sharedStrings.xml", 3) + `</Relationships>`,
		"xl/book.xml": head + `<workbook xmlns="` + mainSpace + `" xmlns:r="` + linkSpace + `"><sheets><sheet name="Orders" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/styles.xml": head + `<styleSheet xmlns="` + mainSpace + `"><cellStyleXfs count="1"><xf numFmtId="14"/></cellStyleXfs>` +
			`<cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="9"/></cellXfs></styleSheet>`,
		"xl/sharedStrings.xml":      head + `<sst xmlns="` + mainSpace + `"><si><t/></si><si><t>cloth lining</t></si></sst>`,
		"xl/worksheets/orders.xml":  head + `<worksheet xmlns="` + mainSpace + `"><sheetData>` + rows + `</sheetData></worksheet>`,
		"[Content_Types].xml":       head + `<Types xmlns="` + typesSpace + `"/>`,
		"xl/worksheets/ignored.txt": "",
	}
}

// zipped is a workbook of such parts, not compressed.
func zipped(tb testing.TB, parts map[string]string) []byte {
	tb.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, text := range parts {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name})
		if err == nil {
			_, err = w.Write([]byte(text))
		}
		if err != nil {
			tb.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		tb.Fatal(err)
	}
	return b.Bytes()
}

// FuzzSheet holds that whatever is in the parts of a workbook, it is drawn or refused,
// soon; that what is drawn can be read and changed; and that the library reads the
// same texts in the same cells, where it reads them at all.
func FuzzSheet(f *testing.F) {
	f.Add(`<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="1"><v>0.5</v></c></row>`, "<si><t>a</t></si>", `<xf numFmtId="9"/>`)
	f.Add(`<row><c t="inlineStr"><is><r><t>_x0041_</t></r></is></c><c t="str"><f t="shared" si="1" ref="B1:B2">A1</f><v/></c></row>`+
		`<row r="5"><c r="B5"><f t="shared" si="1"/><v>7</v></c></row>`, "<si/>", `<xf numFmtId="14"/>`)
	f.Add(`<row r="3"><c r="A3" t="b"><v>1</v></c><c r="AB3" t="d"><v>2026-03-08</v></c><c t="e"><v>#N/A</v></c></row>`, "<si><r><t>b</t></r><rPh><t>c</t></rPh></si>", "")
	f.Fuzz(func(t *testing.T, rows, texts, styles string) {
		p := parts(rows)
		p["xl/sharedStrings.xml"] = `<sst xmlns="` + mainSpace + `">` + texts + `</sst>`
		p["xl/styles.xml"] = `<styleSheet xmlns="` + mainSpace + `"><cellXfs><xf numFmtId="0"/>` + styles + `</cellXfs></styleSheet>`
		workbook := zipped(t, p)
		start := time.Now()
		was := Draw(workbook)
		if took := time.Since(start); took > 10*time.Second {
			t.Fatalf("it takes %v", took)
		}
		sheets, fault := Drawn(was)
		if fault != nil {
			if fault.At != (source.Range{}) {
				t.Fatalf("what was drawn can't be read: %q", was)
			}
			return
		}
		if len(sheets) == 0 {
			return
		}
		row := sheets[0].Rows[0]
		c := row.Cell(1)
		out, err := Rewrite(workbook, was, was[:c.At.Start]+"17"+was[c.At.End:])
		if err != nil && c.Remark == Plain && !strings.Contains(rows, "<f") {
			t.Fatalf("a change can't be written: %v", err)
		}
		for _, w := range [][]byte{workbook, out} {
			if w != nil {
				sameAsLibrary(t, w)
			}
		}
	})
}

// sameAsLibrary holds the texts of the first sheet to what the library reads, where
// it reads any: it passes over what it can't read, and _xnone_, which stands for no
// character.
func sameAsLibrary(t *testing.T, workbook []byte) {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(workbook))
	if err != nil {
		return
	}
	rows, err := f.GetRows("Orders", excelize.Options{RawCellValue: true})
	if err != nil {
		return
	}
	b, err := open(workbook)
	if err != nil {
		t.Fatal(err)
	}
	s, err := b.scanSheet(&b.sheets[0])
	if err != nil {
		t.Fatal(err)
	}
	for e := s.step(); e != sheetEnd; e = s.step() {
		if e != aCell || strings.Contains(s.cell.value, "_x") {
			continue
		}
		got := ""
		if s.row <= len(rows) && s.cell.column <= len(rows[s.row-1]) {
			got = rows[s.row-1][s.cell.column-1]
		}
		if got != "" && got != s.cell.value {
			t.Fatalf("%s is %q, and %q by the library", source.Cell{Column: s.cell.column, Row: s.row}, s.cell.value, got)
		}
	}
}

// BenchmarkDraw draws a workbook of some thousand rows, and BenchmarkLibrary has the
// library read the rows of the same, and nothing more.
func BenchmarkDraw(b *testing.B) {
	workbook := large(b)
	b.SetBytes(int64(len(workbook)))
	for b.Loop() {
		if len(Draw(workbook)) < 1000*1000 {
			b.Fatal("too little was drawn")
		}
	}
}

func BenchmarkLibrary(b *testing.B) {
	workbook := large(b)
	b.SetBytes(int64(len(workbook)))
	for b.Loop() {
		f, err := excelize.OpenReader(bytes.NewReader(workbook))
		if err != nil {
			b.Fatal(err)
		}
		if rows, err := f.GetRows("Sheet1"); err != nil || len(rows) < 4000 {
			b.Fatal("too little was read")
		}
	}
}

// large is a workbook of the library's with the rows of some thousand orders, part
// text and part numbers.
func large(b *testing.B) []byte {
	f := excelize.NewFile()
	for row := 1; row <= 4000; row++ {
		cells := []any{fmt.Sprintf("AH-%d", row), "Alder Cottage", "2026-12-18", "UK", "home", "in", "napkin", "NA-1", 6, "linen", 18 + row%3,
			18.5, 0.375, 2, "mitred", "12 3/4", "Otterbourne", true, 0.02, "French seam"}
		if err := f.SetSheetRow("Sheet1", "A"+strconv.Itoa(row), &cells); err != nil {
			b.Fatal(err)
		}
	}
	buffer, err := f.WriteToBuffer()
	if err != nil {
		b.Fatal(err)
	}
	return buffer.Bytes()
}
