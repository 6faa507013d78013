package cells

import (
	"encoding/binary"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"
)

// TestBounds draws workbooks that are small and unpack to very many of one thing, and
// holds that this takes little memory and is soon over. A tenth of the bounds, and of
// the things, shows it in a tenth of the time.
func TestBounds(t *testing.T) {
	for _, bound := range []*int{&maxUnpacked, &maxCells, &maxTexts} {
		was := *bound
		t.Cleanup(func() { *bound = was })
		*bound /= 10
	}
	most := uint64(9 * maxUnpacked) // over all the time that it takes: most of it is free again soon
	many := func(n int, text string) string { return strings.Repeat(text, n) }
	with := func(name, old, now string) map[string]string {
		p := parts(`<row><c t="s"><v>1</v></c></row>`)
		if !strings.Contains(p[name], old) {
			t.Fatalf("%s has no %s", name, old)
		}
		p[name] = strings.Replace(p[name], old, now, 1)
		return p
	}
	const sheet, texts, book, styles = "xl/worksheets/orders.xml", "xl/sharedStrings.xml", "xl/book.xml", "xl/styles.xml"
	var unlike strings.Builder
	for n := range maxCells + 1 {
		fmt.Fprintf(&unlike, `<row><c><f t="shared" si="%d">1</f></c></row>`, n)
	}
	for _, c := range []struct {
		name  string
		parts map[string]string
		says  string // "" where it is drawn
	}{
		{"cells with nothing but a format", with(sheet, "</row>", "</row>"+many(10_000, "<row>"+many(15, `<c s="1"/>`)+"</row>")), ""},
		{"formats far out", with(sheet, "</row>", "</row>"+many(10, `<row><c s="1"/>`+many(lastColumn-1, "<c/>")+"</row>")), ""},
		{"formulas with an empty text", with(sheet, "</row>", "</row>"+many(40_000, `<row><c t="str"><f>""</f><v/></c></row>`)), ""},
		{"formulas beside", with(sheet, "</row>", many(900, "<c/>")+many(40, "<c><f>A1</f></c>")+"</row>"+many(600, `<row><c><v>1</v></c>`+many(40, "<c><f>A1</f></c>")+"</row>")), "more than 20000 cells"},
		{"formulas that are shared by no others", with(sheet, "</row>", "</row>"+unlike.String()), "more than 20000 cells"},
		{"texts", with(texts, "<si>", many(100_000, "<si><t>a</t></si>")+"<si>"), ""},
		{"more texts", with(texts, "<si>", many(maxTexts, "<si/>")+"<si>"), "more than 150000 texts"},
		{"a long text in many cells", replaced(with(texts, "cloth lining", many(1<<20/10, "x")), sheet, "</row>", "</row>"+many(200, `<row><c t="s"><v>1</v></c></row>`)), "larger than 6 MB"},
		{"a long formula in many cells", with(sheet, "</row>", `<c><f t="shared" si="0">`+many(1<<20/10, "A")+"</f><v>1</v></c></row>"+many(200, `<row><c><f t="shared" si="0"/><v>1</v></c></row>`)), "larger than 6 MB"},
		{"runs of a text", with(texts, "<t>cloth lining</t>", many(50_000, "<r><t>a</t></r>")), ""},
		{"sections of a value", with(sheet, "<v>1</v>", "<v>"+many(100_000, "<!-- -->1")+"</v>"), "damaged"},
		{"elements in one another", with(sheet, "<v>", many(100_000, "<a>")+"<v>"), "damaged"},
		{"attributes", with(sheet, "<row", "<row"+many(100_000, ` a=""`)), "damaged"},
		{"merged cells", with(sheet, "</sheetData>", "</sheetData><mergeCells>"+many(30_000, `<mergeCell ref="A1:B2"/>`)+"</mergeCells>"), ""},
		{"styles", with(styles, "<cellXfs", "<numFmts>"+many(20_000, `<numFmt numFmtId="200" formatCode="0"/>`)+"</numFmts><cellXfs"), ""},
		{"a long format code", with(styles, "<cellXfs", `<numFmts><numFmt numFmtId="200" formatCode="`+many(1_000_000, "[")+`"/></numFmts><cellXfs`), ""},
		{"sheets of charts", replaced(with(book, "</sheets>", many(100_000, `<sheet name="a" r:id="rId2"/>`)+"</sheets>"), "xl/_rels/book.xml.rels", "<Relationship ", many(maxRelations-3, `<Relationship Id="rId0"/>`)+"<Relationship "), "more than 500 sheets"},
		{"sheets of one part", with(book, "</sheets>", many(500, `<sheet name="more" r:id="rId1"/>`)+"</sheets>"), "its list of sheets is damaged"},
	} {
		t.Run(c.name, func(t *testing.T) {
			workbook := zipped(t, c.parts)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			start := time.Now()
			drawn := Draw(workbook)
			took := time.Since(start)
			runtime.ReadMemStats(&after)
			if held := after.TotalAlloc - before.TotalAlloc; held > most {
				t.Errorf("it takes %d MB", held>>20)
			} else if testing.Verbose() {
				t.Logf("%d MB, %v", held>>20, took)
			}
			if took > 6*time.Second {
				t.Errorf("it takes %v", took)
			}
			_, fault := Drawn(drawn)
			if c.says == "" && fault != nil || c.says != "" && (fault == nil || !strings.Contains(fault.Detail, c.says)) {
				t.Errorf("the fault is %v", fault)
			}
		})
	}
}

// replaced is the parts with another text in one of them.
func replaced(parts map[string]string, name, old, now string) map[string]string {
	parts[name] = strings.Replace(parts[name], old, now, 1)
	return parts
}

// TestLonger holds that a part which is longer than it says is not read.
func TestLonger(t *testing.T) {
	const name = "_rels/.rels"
	p := parts("")
	long := withPart(t, zipped(t, p), name, p[name]+strings.Repeat(" ", 1<<20))
	if _, fault := Drawn(Draw(long)); fault != nil {
		t.Fatal(fault)
	}
	said := 0
	for i := range len(long) - 4 {
		if int(binary.LittleEndian.Uint32(long[i:])) == len(p[name])+1<<20 {
			binary.LittleEndian.PutUint32(long[i:], uint32(len(p[name])))
			said++
		}
	}
	if _, fault := Drawn(Draw(long)); said == 0 || fault == nil || fault.Detail != "its part _rels/.rels is damaged; open it in a spreadsheet and save it again" {
		t.Errorf("its length is said %d times, and the fault is %v", said, fault)
	}
}

// TestDamaged breaks each part of a workbook in several ways, and holds that what is
// wrong is said, with what to do.
func TestDamaged(t *testing.T) {
	row := func(row string) map[string]string { return parts(`<row r="2"><c r="B2"><v>1</v></c></row>` + row) }
	ways := map[string]map[string]string{
		"a row twice":                  row(`<row r="2"><c r="B2"><v>1</v></c></row>`),
		"a row before":                 row(`<row r="1"><c r="B1"><v>1</v></c></row>`),
		"a cell twice":                 row(`<row r="3"><c r="B3"><v>1</v></c><c r="B3"><v>1</v></c></row>`),
		"a cell of another row":        row(`<row r="3"><c r="B2"><v>1</v></c></row>`),
		"a cell without a column":      row(`<row r="3"><c r="3"><v>1</v></c></row>`),
		"a text that is not there":     row(`<row r="3"><c r="B3" t="s"><v>2</v></c></row>`),
		"a text before the first":      row(`<row r="3"><c r="B3" t="s"><v>-1</v></c></row>`),
		"a text without a number":      row(`<row r="3"><c r="B3" t="s"><v>one</v></c></row>`),
		"a reference to nothing":       row(`<row r="3"><c r="B3" t="str"><v>&nbsp;</v></c></row>`),
		"a character that is none":     row(`<row r="3"><c r="B3" t="str"><v>&#0;</v></c></row>`),
		"a control character":          row("<row r=\"3\"><c r=\"B3\" t=\"str\"><v>\x01</v></c></row>"),
		"another character set":        row("<row r=\"3\"><c r=\"B3\" t=\"str\"><v>caf\xe9</v></c></row>"),
		"another element's end":        row(`<row r="3"><c r="B3"></row></c>`),
		"an attribute without a value": row(`<row r><c/></row>`),
		"attributes together":          row(`<row r="3"s="1"></row>`),
		"a tag in a tag":               row(`<row <c/>></row>`),
		"a document type":              replaced(row(""), "xl/worksheets/orders.xml", "<worksheet", "<!DOCTYPE a [<!ENTITY b \"c\">]><worksheet"),
		"a sheet without a name":       replaced(row(""), "xl/book.xml", `name="Orders"`, `name=""`),
		"a sheet with a tab":           replaced(row(""), "xl/book.xml", `name="Orders"`, `name="a&#9;b"`),
		"a sheet without a part":       replaced(row(""), "xl/book.xml", `r:id="rId1"`, `r:id="rId9"`),
	}
	for name := range row("") {
		for _, at := range []int{0, 60, -3} {
			p := row("")
			if !strings.HasSuffix(name, "l") && !strings.HasSuffix(name, "s") || strings.HasPrefix(name, "[") {
				continue
			}
			at = (at + len(p[name])) % len(p[name])
			p[name] = p[name][:at]
			ways[fmt.Sprintf("%s cut off at %d", name, at)] = p
		}
		if p := row(""); strings.HasPrefix(name, "xl/") && strings.HasSuffix(name, "l") {
			delete(p, name)
			ways[name+" missing"] = p
		}
	}
	for name, p := range ways {
		_, fault := Drawn(Draw(zipped(t, p)))
		if fault == nil || !strings.HasSuffix(fault.Detail, "; open it in a spreadsheet and save it again") {
			t.Errorf("%s: the fault is %v", name, fault)
		}
	}
}
