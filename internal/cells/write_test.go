package cells

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"cutgate/internal/source"
)

// TestWriteWorkbook writes pages and holds what the library reads in them to what
// they say.
func TestWriteWorkbook(t *testing.T) {
	pages := []Page{
		{Name: "Orders", Title: "a row is an item <of> an order", Headings: []Heading{
			{Text: "order", Note: "the order's \"number\" & name"}, {Text: "finished drop"}, {Text: "corner", Words: []string{"mitred", `"folded"`, "square & fair"}},
			{Text: "many", Words: []string{strings.Repeat("word", 64)}, Note: "long"},
		}, Rows: [][]string{{"TW-1", "3/8", "", "_x0041_"}, {"TW-2", strings.Repeat("é", 15), " a ", "two\nlines\r"}, {"", "", "", strings.Repeat("w", 40)}}},
		{Name: "Bed & bath", Headings: []Heading{{Text: "name", Note: "of the cloth"}}},
		{Name: "bare", Headings: []Heading{{Text: "name"}}, Rows: [][]string{{"linen"}}},
	}
	var b, again bytes.Buffer
	if err := errors.Join(WriteWorkbook(&b, pages), WriteWorkbook(&again, pages)); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("it is not the same each time")
	}
	wholePackage(t, b.Bytes())
	f, err := excelize.OpenReader(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(byLibrary(t, b.Bytes()), Draw(b.Bytes())); d != "" {
		t.Errorf("(-the library +ours):\n%s", d)
	}
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for n, p := range pages {
		want := [][]string{{p.Title}, {}}
		if p.Title == "" {
			want[0] = nil
		}
		for _, h := range p.Headings {
			want[1] = append(want[1], h.Text)
		}
		want = append(want, p.Rows...)
		got, err := f.GetRows(p.Name)
		must(err)
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", p.Name, d)
		}
		panes, err := f.GetPanes(p.Name)
		must(err)
		if !panes.Freeze || panes.YSplit != 2 || panes.TopLeftCell != "A3" || panes.ActivePane != "bottomLeft" {
			t.Errorf("%s is frozen so: %+v", p.Name, panes)
		}
		notes, err := f.GetComments(p.Name)
		must(err)
		said := map[string]string{}
		for _, n := range notes {
			if n.Author != "cutgate" {
				t.Errorf("a note is by %s", n.Author)
			}
			text := n.Text
			for _, r := range n.Paragraph {
				text += r.Text
			}
			said[n.Cell] = text
		}
		choices, err := f.GetDataValidations(p.Name)
		must(err)
		offered := map[string]string{}
		for _, c := range choices {
			if c.Type != "list" || !c.AllowBlank || c.ShowErrorMessage {
				t.Errorf("words are offered so: %+v", c)
			}
			offered[c.Sqref] = strings.ReplaceAll(c.Formula1, "&quot;", `"`)
		}
		for i, h := range p.Headings {
			column := source.ColumnName(i + 1)
			if said[column+"2"] != h.Note {
				t.Errorf("the note at %s2 is %q", column, said[column+"2"])
			}
			delete(said, column+"2")
			words := ""
			if s := strings.ReplaceAll(strings.Join(h.Words, ","), `"`, `""`); s != "" && len(s) <= 255 {
				words = `"` + s + `"`
			}
			if at := column + "3:" + column + "200"; offered[at] != words {
				t.Errorf("%s offers %q, not %q", at, offered[at], words)
			}
			delete(offered, column+"3:"+column+"200")
			widths := map[string]float64{"OrdersA": 9, "OrdersB": 17, "OrdersC": 9, "OrdersD": 24, "Bed & bathA": 9, "bareA": 9}
			if width, err := f.GetColWidth(p.Name, column); err != nil || width != widths[p.Name+column] {
				t.Errorf("%s of %s is %v wide, %v", column, p.Name, width, err)
			}
			id, err := f.GetCellStyle(p.Name, column+"2")
			must(err)
			head, err := f.GetStyle(id)
			must(err)
			if !head.Font.Bold || head.Font.Family != "Calibri" || head.NumFmt != 49 || !head.Alignment.WrapText || head.Alignment.Vertical != "bottom" ||
				len(head.Border) != 1 || head.Border[0].Type != "bottom" || head.Border[0].Style != 2 || f.Styles.Borders.Border[1].Bottom.Color.RGB != "FF444444" {
				t.Errorf("a heading looks so: %+v", head)
			}
			id, err = f.GetColStyle(p.Name, column)
			must(err)
			if text, err := f.GetStyle(id); err != nil || text.NumFmt != 49 {
				t.Errorf("a column has the number format %+v", text)
			}
		}
		if len(said) > 0 || len(offered) > 0 {
			t.Errorf("and more: %v, %v", said, offered)
		}
		testBoxes(t, b.Bytes(), n+1, &p)
	}
}

// testBoxes holds that each note of a sheet has a box to show it in. Common practice,
// no source: spreadsheets show none without.
func testBoxes(t *testing.T, workbook []byte, n int, p *Page) {
	t.Helper()
	var drawn struct {
		Shapes []struct {
			Data struct {
				Kind   string `xml:"ObjectType,attr"`
				Row    int
				Column int
			} `xml:"ClientData"`
		} `xml:"shape"`
	}
	if text := unpacked(t, workbook)[fmt.Sprintf("xl/drawings/vmlDrawing%d.vml", n)]; text != "" {
		if err := xml.Unmarshal([]byte(text), &drawn); err != nil {
			t.Fatal(err)
		}
	}
	var want, got []int
	for i, h := range p.Headings {
		if h.Note != "" {
			want = append(want, i)
		}
	}
	for _, s := range drawn.Shapes {
		if s.Data.Kind == "Note" && s.Data.Row == 1 {
			got = append(got, s.Data.Column)
		}
	}
	if !slices.Equal(want, got) {
		t.Errorf("sheet %d has boxes at the columns %v, not %v", n, got, want)
	}
}

// wholePackage holds that each part is XML, is said what it is, and refers only to
// parts that are there: ECMA-376 part 2, 6.
func wholePackage(t *testing.T, workbook []byte) {
	t.Helper()
	all := unpacked(t, workbook)
	types := all["[Content_Types].xml"]
	for name, text := range all {
		d := xml.NewDecoder(strings.NewReader(text))
		for {
			if _, err := d.Token(); err != nil {
				if err != io.EOF {
					t.Errorf("%s: %v", name, err)
				}
				break
			}
		}
		extension := strings.TrimPrefix(path.Ext(name), ".")
		if !strings.Contains(types, `PartName="/`+name+`"`) && !(extension != "xml" && strings.Contains(types, `Extension="`+extension+`"`)) && name[0] != '[' {
			t.Errorf("nothing says what %s is", name)
		}
		if extension != "rels" {
			continue
		}
		var links struct {
			Relationship []struct {
				Target string `xml:",attr"`
			}
		}
		if err := xml.Unmarshal([]byte(text), &links); err != nil {
			t.Fatal(err)
		}
		for _, l := range links.Relationship {
			if target := path.Join(path.Dir(path.Dir(name)), l.Target); all[target] == "" {
				t.Errorf("%s refers to %s, which is not there", name, target)
			}
		}
	}
}

// unpacked is the parts of a workbook by their names.
func unpacked(t *testing.T, workbook []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, p := range z.File {
		r, err := p.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		all[p.Name] = string(text)
	}
	return all
}

// TestRewriteAtRandom changes some cells of workbooks of the library's, and holds
// that the library reads what it should in them, and that no other part has changed.
func TestRewriteAtRandom(t *testing.T) {
	changed := 0
	for seed := range uint64(15) {
		r := rand.New(rand.NewPCG(seed, 2))
		workbook := atRandom(t, r)
		was := Draw(workbook)
		var now strings.Builder
		for line := range strings.Lines(was) {
			at, rest, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "\t")
			if _, remark, _ := strings.Cut(rest, "\t"); remark == "" && r.IntN(4) == 0 && !strings.Contains(rest, "\x01") {
				rest = []string{"", "linen", "7", "14.25", "2%", "10 1/3", "true", "_x0041_", `<&>"'`, "2026-03-08"}[r.IntN(10)]
				changed++
			}
			now.WriteString(at + "\t" + rest + "\n")
		}
		out, err := Rewrite(workbook, was, now.String())
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if d := cmp.Diff(Draw(out), byLibrary(t, out)); d != "" {
			t.Fatalf("seed %d (-ours +the library):\n%s", seed, d)
		}
		a, b := unpacked(t, workbook), unpacked(t, out)
		maps.DeleteFunc(b, func(name, text string) bool {
			return text == a[name] || strings.HasPrefix(name, "xl/worksheets/sheet") || name == "xl/workbook.xml"
		})
		if len(b) > 0 {
			t.Errorf("seed %d: other parts have changed: %v", seed, slices.Collect(maps.Keys(b)))
		}
	}
	if changed < 200 {
		t.Errorf("only %d cells were changed", changed)
	}
}

// TestRewritten holds the text of parts after a change: only the changed cells are
// others, and the word that formulas be worked out anew.
func TestRewritten(t *testing.T) {
	const sheet, book = "xl/worksheets/orders.xml", "xl/book.xml"
	p := parts(`<!-- by hand --> <row x:r="7" r="1" ht="20"><c r="A1" s="1" t="s" x:note='>'><v>1</v></c><c r='C1'><f>A1</f><v>2</v></c></row>` + "\r\n" +
		`<row r="2" s="1" customFormat="1"><c r="A2"><v>0.5</v></c></row><row><c/><c/><c><v>3</v></c></row>`)
	p[sheet] = strings.Replace(p[sheet], "<sheetData>", `<cols><col min="2" max="2" width="9" style="1"/><col/><col min="1" max="16384" style="0"/></cols><sheetData>`, 1)
	const was = "Orders!A1\tcloth lining\nOrders!B1\t\nOrders!C1\t2\tformula A1\nOrders!A2\t0.5\nOrders!B2\t\nOrders!C2\t\nOrders!A3\t\nOrders!B3\t\nOrders!C3\t3\n"
	for _, c := range []struct{ name, old, now, part, partOld, partNow string }{
		{"a text", "A1\tcloth lining", "A1\tlinen & wool", sheet,
			`<c r="A1" s="1" t="s" x:note='>'><v>1</v></c>`, `<c r="A1" s="1" t="inlineStr"><is><t xml:space="preserve">linen &amp; wool</t></is></c>`},
		{"a number", "A2\t0.5", "A2\t0.75", sheet, `<c r="A2"><v>0.5</v></c>`, `<c r="A2" s="0"><v>0.75</v></c>`},
		{"a missing cell takes its column's style", "B1\t", "B1\t25%", sheet, `<c r='C1'>`, `<c r="B1" s="1"><v>0.25</v></c><c r='C1'>`},
		{"or its row's", "C2\t", "C2\t25%", sheet, `<v>0.5</v></c></row>`, `<v>0.5</v></c><c r="C2" s="1"><v>0.25</v></c></row>`},
		{"an empty cell", "B3\t", "B3\t7", sheet, `<c/><c/>`, `<c/><c r="B3" s="0"><v>7</v></c>`},
		{"a last cell", "C3\t3", "C3\tthree", sheet, `<c><v>3</v></c>`, `<c r="C3" s="0" t="inlineStr"><is><t xml:space="preserve">three</t></is></c>`},
		{"formulas", "A2\t0.5", "A2\t0.75", book, `</sheets>`, `</sheets><calcPr fullCalcOnLoad="1"/>`},
	} {
		out, err := Rewrite(zipped(t, p), was, strings.Replace(was, c.old, c.now, 1))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if d := cmp.Diff(strings.Replace(p[c.part], c.partOld, c.partNow, 1), unpacked(t, out)[c.part]); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
	now := strings.Replace(was, "A2\t0.5", "A2\t0.75", 1)
	for _, c := range [][2]string{
		{`</sheets><definedNames/><calcPr calcId="1" fullCalcOnLoad='0' iterate="1"/><oleSize/>`, `</sheets><definedNames/><calcPr fullCalcOnLoad="1" calcId="1" iterate="1"/><oleSize/>`},
		{`</sheets><definedNames><a/></definedNames><extLst/>`, `</sheets><definedNames><a/></definedNames><calcPr fullCalcOnLoad="1"/><extLst/>`},
	} {
		p[book] = strings.Replace(parts("")[book], "</sheets>", c[0], 1)
		out, err := Rewrite(zipped(t, p), was, now)
		if err != nil {
			t.Errorf("%s: %v", c[0], err)
		} else if got := unpacked(t, out)[book]; !strings.Contains(got, c[1]) {
			t.Errorf("%s became %s", c[0], got)
		}
	}
	for _, c := range []struct{ name, was, now string }{
		{"a formula", was, strings.Replace(was, "C1\t2\t", "C1\t3\t", 1)},
		{"fewer cells", was, strings.Replace(was, "Orders!C3\t3\n", "", 1)},
		{"another sheet", was, strings.ReplaceAll(was, "Orders", "Cloths")},
		{"no drawing", was, "\t\tit is broken\n"},
		{"a drawing of another workbook", now, now},
	} {
		if out, err := Rewrite(zipped(t, p), c.was, c.now); err == nil || out != nil {
			t.Errorf("%s is written", c.name)
		}
	}
}
