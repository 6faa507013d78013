package render_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/build"
	"cuelang.org/go/cue/cuecontext"
	"cuelang.org/go/cue/parser"
	cuejson "cuelang.org/go/encoding/json"
	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/order"
	"cutgate/internal/render"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
	"cutgate/schema"
)

// golden compares text with a file of testdata, which UPDATE=1 writes anew.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s: (-want +got)\n%s", name, d)
	}
}

const orderText = `order: MH-12
client: Moss Hall
cut: 13 5/8
hem: 3 in
`

func text(s string) order.Text { return order.Text{Value: s, Set: true} }

// sheet is an order of one pair of hangings, made up by hand.
func sheet(name string) *worksheet.Sheet {
	o := &order.Order{
		File:   &source.File{Name: name, Text: orderText},
		Root:   &order.Node{Form: order.Map, At: source.Range{Start: 0, End: len(orderText)}},
		Number: text("MH-12"), Client: text("Moss Hall"), Due: text("2027-04-30"), Notes: text("ring before delivery"),
		Cloths: []order.Entry[order.Cloth]{{Name: "reef", Of: order.Cloth{Name: text("reef stripe canvas")}}},
		Items: []order.Item{{
			ID: text("bath-2"), Kind: text("shower curtain"), Room: text("upstairs"),
			Join:  order.Join{Trim: order.Length{Value: length.Inch / 8, Set: true}},
			Holes: order.Holes{Block: order.Block{Set: true}, Make: text("grommet"), FromTop: order.Length{Value: length.Inch * 3 / 4, Set: true}},
			Press: order.Press{Steam: order.Flag{Value: false, Set: true}},
		}},
	}
	s := &worksheet.Sheet{Order: o, Tables: &trade.Tables{}, Unit: length.In}
	put := func(q worksheet.Quantity) *worksheet.Quantity {
		s.All = append(s.All, &q)
		return &q
	}
	inches := func(name worksheet.Name, of string, sixteenths length.Length) *worksheet.Quantity {
		return put(worksheet.Quantity{Name: name, Of: of, Value: worksheet.LengthOf(sixteenths * length.Inch / 16), Source: worksheet.Common})
	}
	number := func(name worksheet.Name, of string, n int64) *worksheet.Quantity {
		return put(worksheet.Quantity{Name: name, Of: of, Value: worksheet.CountOf(n), Source: worksheet.Common})
	}
	reef := worksheet.Cloth{Order: &o.Cloths[0].Of, Name: "reef"}
	side := inches(worksheet.CutWidth, "side", 228)
	side.Formula = "({finished width} - {center shows}) ÷ 2 + {seam allowance} + {side hem}"
	for _, term := range []struct {
		name  string
		value length.Length
	}{{"finished width", 84 * 16}, {"center shows", 940}, {"seam allowance", 10}, {"side hem", 16}} {
		side.Terms = append(side.Terms, worksheet.Term{Name: term.name, Value: worksheet.LengthOf(term.value * length.Inch / 16)})
	}
	inches(worksheet.FinishedWidth, "", 84*16)
	inches(worksheet.FinishedLength, "", 78*16)
	inches(worksheet.HoleSpacing, "", 6*16)
	put(worksheet.Quantity{Name: worksheet.PressSetting, Value: worksheet.DotsOf(2)})
	s.Items = []worksheet.Item{{
		Order: &o.Items[0], Panels: 2, Quantity: 3, Worked: true,
		Top:  worksheet.Hem{Turn: length.Inch * 3 / 2, Folds: 2, Takes: length.Inch * 3},
		Seam: &trade.Seam{Name: "flat felled"}, Allowance: length.Inch * 5 / 8, Joins: 1,
		Sheet:  s,
		Holes:  []length.Length{3 * length.Inch, 9 * length.Inch},
		Joined: []length.Length{41 * length.Inch},
		Pieces: []worksheet.Piece{{
			Name: "side", Cloth: &reef, Width: side, Length: inches(worksheet.CutLength, "", 87*16), Count: number(worksheet.PieceCount, "side", 2),
		}},
	}}
	put(worksheet.Quantity{Name: worksheet.HangingMass, Value: worksheet.MassOf(mass.Kilogram)})
	put(worksheet.Quantity{Name: worksheet.Fullness, Value: worksheet.RatioOf(length.NewRatio(9, 4))})
	reef.Needed = put(worksheet.Quantity{Name: worksheet.ClothNeeded, Of: "reef", Item: -1, Value: worksheet.LengthOf(174 * length.Inch)})
	s.Cloths = []worksheet.Cloth{reef}
	return s
}

// findings are two of an item, one of a cloth and one of the head.
func findings() []finding.Finding {
	at := func(part string) source.Range {
		i := strings.Index(orderText, part)
		return source.Range{Start: i, End: i + len(part)}
	}
	return []finding.Finding{
		{Rule: "head/client-named", Level: finding.Note, At: at("Moss Hall"), Path: "client", Message: "The client is named."},
		{
			Rule: "width/side-panels-off", Level: finding.Error, At: at("13 5/8"), Path: "items[0].cuts[1].width",
			Message: "Side panels are 13 5/8 in wide; with a flat felled seam of 5/8 in and a double hem of 1/2 in they should be 14 1/4 in.",
			Stated:  "13 5/8", Corrected: "14 1/4", Slip: "the center panel's own two allowances were forgotten",
			Working: []string{"(finished width - center shows) ÷ 2 + seam allowance + side hem", "(84 in - 58 3/4 in) ÷ 2 + 5/8 in + 1 in = 14 1/4 in"},
			Source:  "common practice, no source",
			Related: []finding.Related{{Range: at("3 in"), Message: "the hem"}},
			Fixes: []finding.Fix{{Title: "Cut the side panels 14 1/4 in wide", Sureness: finding.Certain,
				Edits: []finding.Edit{{Range: at("13 5/8"), Text: "14 1/4"}}}},
		},
		{
			Rule: "hem/shallow", Level: finding.Warning, At: at("3 in"), Path: "items[0].hems.bottom.turn",
			Message: "The hem \x1b[31mis shallow.", Stated: "3 in",
			Fixes: []finding.Fix{
				{Title: "Turn the hem 4 in", Sureness: finding.Likely, Edits: []finding.Edit{{Range: at("3 in"), Text: "4 in"}}},
				{Title: "Hang weights in the hem", Sureness: finding.Shown},
			},
		},
		{Rule: "cloth/narrow", Level: finding.Note, At: at("3 in"), Path: "cloths.reef.width", Message: "The cloth is narrow."},
	}
}

// waived are two findings by one waiver, and one by a waiver that somebody signed.
func waived() []finding.Waived {
	all := findings()
	return []finding.Waived{
		{Finding: all[0], Because: "everybody knows them"},
		{Finding: all[1], Because: "the client's own panels are used, which were cut for the room upstairs", By: "RM", Until: "2027-01-31"},
		{Finding: all[0], Because: "everybody knows them"},
	}
}

// houseRules are a shop's own rules that switch a rule off and hold others for less.
func houseRules() *finding.House {
	return &finding.House{File: "moss/house.cue", Off: []string{"hem/shallow"}, Lowered: []finding.Lowered{{Of: "cloth", To: finding.Note}}}
}

// report writes orders with findings and without, and with some set aside, in one
// format.
func report(t *testing.T, format string, o render.Options) string {
	t.Helper()
	f, err := render.Named(render.Formats(), format)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	r := f.Writer(&b, o)
	for _, c := range []struct {
		name  string
		found []finding.Finding
		aside finding.Aside
	}{
		{"moss/hall.yaml", findings(), finding.Aside{}},
		{"moss/clear.yaml", nil, finding.Aside{}},
		{"a-folder-with-a-long-name/and-a-file-with-a-longer-one.yaml", nil, finding.Aside{}},
		{"moss/waived.yaml", nil, finding.Aside{Waived: waived()}},
		{"moss/known.yaml", findings()[2:], finding.Aside{Waived: waived()[:1], Known: findings()[:2], House: houseRules()}},
	} {
		if err := r.Order(sheet(c.name), c.found, c.aside); err != nil {
			t.Fatal(err)
		}
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestFormats(t *testing.T) {
	o := render.Options{Rules: rules(), Known: true}
	for _, f := range render.Formats() {
		golden(t, "report."+f.Name, report(t, f.Name, o))
		if again := report(t, f.Name, o); again != report(t, f.Name, o) {
			t.Errorf("%s: two reports of the same differ", f.Name)
		}
	}
}

func TestQuiet(t *testing.T) {
	for _, f := range render.Formats() {
		if got := report(t, f.Name, render.Options{Quiet: true}); strings.Contains(got, "clear.yaml") {
			t.Errorf("%s: a quiet report has an order that is clear to cut:\n%s", f.Name, got)
		}
	}
}

func TestEmptyReports(t *testing.T) {
	want := map[string]string{"text": "no orders checked\n", "lines": "", "json": "{\n  \"orders\": []\n}\n", "jsonl": "", "junit": xml.Header + "<testsuites>\n</testsuites>\n"}
	for _, f := range render.Formats() {
		var b bytes.Buffer
		if err := f.Writer(&b, render.Options{}).Close(); err != nil {
			t.Fatal(err)
		}
		if f.Name == "sarif" {
			golden(t, "empty.sarif", b.String())
		} else if d := cmp.Diff(want[f.Name], b.String()); d != "" {
			t.Errorf("%s: %s", f.Name, d)
		}
	}
}

func TestColor(t *testing.T) {
	plain, colored := report(t, "text", render.Options{}), report(t, "text", render.Options{Color: true})
	if strings.Contains(plain, "\x1b") {
		t.Error("there is a control character in a report without colour")
	}
	if !strings.Contains(colored, "\x1b[1;31mHOLD") {
		t.Error("an error is not coloured")
	}
	var b strings.Builder
	for rest := colored; rest != ""; {
		before, after, found := strings.Cut(rest, "\x1b[")
		b.WriteString(before)
		if rest = after; found {
			_, rest, _ = strings.Cut(rest, "m")
		}
	}
	if d := cmp.Diff(plain, b.String()); d != "" {
		t.Errorf("colour changes more than the colour: %s", d)
	}
}

// TestWidth holds every line of text to the width that was asked for.
func TestWidth(t *testing.T) {
	for _, width := range []int{72, 80, 100} {
		var ticket bytes.Buffer
		o := render.Options{Width: width}
		if err := writeTicket(&ticket, sheet("a.yaml"), findings(), finding.Aside{Waived: waived(), House: houseRules()}, o); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(report(t, "text", o) + ticket.String()) {
			if w := source.Width(strings.TrimSuffix(line, "\n")); w > width {
				t.Errorf("%d cells in a line of %d: %q", w, width, line)
			}
		}
	}
}

func TestTicket(t *testing.T) {
	for name, found := range map[string][]finding.Finding{"hold": findings(), "ask": findings()[2:], "clear": nil, "waived": nil} {
		var aside finding.Aside
		if name == "waived" {
			aside = finding.Aside{Waived: waived(), House: houseRules()}
		}
		var b bytes.Buffer
		if err := writeTicket(&b, sheet("moss/hall.yaml"), found, aside, render.Options{}); err != nil {
			t.Fatal(err)
		}
		golden(t, "ticket-"+name+".text", b.String())
	}
}

// TestReportSchema holds the JSON report to its schema.
func TestReportSchema(t *testing.T) {
	ctx := cuecontext.New()
	def := definition(t, ctx, "#Report")
	fits := func(text string) error {
		expr, err := cuejson.Extract("report.json", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return def.Unify(ctx.BuildExpr(expr)).Validate(cue.Concrete(true))
	}
	text := report(t, "json", render.Options{})
	if err := fits(text); err != nil {
		t.Error(err)
	}
	for _, word := range []string{`"verdict"`, `"because"`, `"known"`} {
		if fits(strings.Replace(text, word, `"judgement"`, 1)) == nil {
			t.Errorf("the schema takes anything for %s", word)
		}
	}
	var b bytes.Buffer
	r, err := render.Named(render.Formats(), "json")
	if err != nil {
		t.Fatal(err)
	}
	out, workbooks := r.Writer(&b, render.Options{}), 0
	for _, res := range fixtureOrders(t) {
		if res.File.Table == nil {
			continue
		}
		if res.File.Table.Workbook {
			workbooks++
		}
		if err := out.Order(res.Sheet, res.Findings, res.Aside); err != nil {
			t.Fatal(err)
		}
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	if err := fits(b.String()); err != nil {
		t.Errorf("of tables: %v", err)
	}
	for _, part := range []string{`"cell": "G2"`, `"cell": "Orders!G2"`, `"edits": [
                {
                  "cell": "Orders!G2",
                  "text": "3/8"
                }`} {
		if workbooks == 0 || !strings.Contains(b.String(), part) {
			t.Errorf("the report on tables does not have %s", part)
		}
	}
}

// definition compiles the schema and returns a definition of it.
func definition(t *testing.T, ctx *cue.Context, name string) cue.Value {
	t.Helper()
	entries, err := schema.Files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	inst := build.NewContext().NewInstance("schema", nil)
	for _, e := range entries {
		text, err := schema.Files.ReadFile(e.Name())
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(e.Name(), ".cue") {
			file, err := parser.ParseFile(e.Name(), text)
			if err != nil {
				t.Fatal(err)
			}
			if err := inst.AddSyntax(file); err != nil {
				t.Fatal(err)
			}
		}
	}
	v := ctx.BuildInstance(inst)
	if err := v.Err(); err != nil {
		t.Fatal(err)
	}
	return v.LookupPath(cue.ParsePath(name))
}

const ruleDoc = `
Checks
That a hem is folded twice, and that what is folded once is finished in another
way.

A second paragraph.

Because
A raw edge frays.

Working
folds = 2

Source
Common practice.
`

func rules() []*rule.Rule {
	return []*rule.Rule{
		{ID: "hem/one-fold", Title: "hem is folded once", Level: finding.Warning, Fix: rule.Always, Doc: ruleDoc},
		{ID: "hem/shallow", Title: "hem is too shallow to hang straight, whatever the cloth of the curtain weighs", Level: finding.Error},
		{ID: "hole/odd-count", Title: "odd number of eyelets", Level: finding.Note},
	}
}

func TestCatalogue(t *testing.T) {
	var b bytes.Buffer
	if err := render.Catalogue(&b, rules(), render.Options{}); err != nil {
		t.Fatal(err)
	}
	golden(t, "catalogue.text", b.String())
}

func TestRulePage(t *testing.T) {
	var b bytes.Buffer
	ex := &render.Example{Sheet: sheet("order.yaml"), Found: findings()[1:2]}
	if err := render.RulePage(&b, rules()[0], ex, render.Options{}); err != nil {
		t.Fatal(err)
	}
	golden(t, "rule.text", b.String())
}

// writeTicket writes the ticket of one order as a text.
func writeTicket(w io.Writer, s *worksheet.Sheet, found []finding.Finding, aside finding.Aside, o render.Options) error {
	t := render.TicketFormats()[0].Writer(w, o)
	if err := t.Order(s, found, aside); err != nil {
		return err
	}
	return t.Close()
}
