package main

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"time"

	"cutgate/internal/cells"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/render"
	"cutgate/internal/source"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
	"cutgate/rules"
)

// A growing is a text of something many times over.
type growing struct {
	what   string
	many   int // of it, in the smaller of the two texts
	format load.Format
	text   func(n int) string
	do     work // checks and reports the orders where nothing else is said
}

// A work is what is done with a text of very many.
type work func(*lint.Checker, *source.File, load.Format) error

// The start of an order, and a right item of it.
const (
	growHead = "order: TR-1\nunits: in\ncloths:\n  lawn: {width: 60, fiber: {cotton: 100}}\nitems:\n"
	growItem = "  - {item: napkin, cloth: lawn, finished: {width: 12, length: 12}, hem: {turn: 1/4}}\n"
	growDoc  = "---\norder: TR-%d\nunits: in\ncloths:\n  lawn: {width: 60}\nitems:\n"
	growCUE  = `order: "TR-1", units: "in", cloths: lawn: width: 60, a0: 12` + "\n%s" + `items: [{item: "napkin", cloth: "lawn", finished: {width: a%d, length: 12}, hem: turn: "1/4"}]` + "\n"
)

// growings are what a file may have very many of.
func growings() []growing {
	// of is so many texts, and each so many of one form with their numbers in it; with is a
	// right item that says more.
	of := func(n int, text func(i int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(text(i))
		}
		return b.String()
	}
	each := func(n int, format string) string {
		return of(n, func(i int) string { return fmt.Sprintf(format, i) })
	}
	with := func(more string) string { return strings.Replace(growItem, "}}\n", "}, "+more+"}\n", 1) }
	line := func(i int) string {
		return fmt.Sprintf(`{"order":"TR-%d","units":"in","cloths":{"lawn":{"width":60}},"items":[{"item":"napkin","cloth":"lawn","finished":{"width":12,"length":12},"hem":{"turn":"1/4"}}]}`, i)
	}
	return []growing{
		{"right documents of a YAML file", 20_000, load.YAML, func(n int) string {
			return each(n, "---\norder: TR-%d\nunits: in\nnotes: \"*\"\n")
		}, nil},
		{"broken documents of a YAML file", 5_000, load.YAML, func(n int) string {
			return each(n, "---\norder: TR-%d\nunits: {\n")
		}, nil},
		{"items that lack what they need", 2_500, load.YAML, func(n int) string {
			return growHead + each(n, "  - {item: napkin, id: n%d}\n")
		}, nil},
		{"right items", 1_000, load.YAML, func(n int) string {
			return growHead + strings.Repeat(growItem, n)
		}, nil},
		{"unknown fields of an order", 10_000, load.YAML, func(n int) string {
			return growHead + growItem + each(n, "field%d: 1\n")
		}, nil},
		{"cloths that no item has", 5_000, load.YAML, func(n int) string {
			return "order: TR-1\nunits: in\ncloths:\n" + each(n, "  lawn%d: {width: 60}\n") +
				"items:\n" + strings.Replace(growItem, "lawn", "lawn0", 1)
		}, nil},
		{"orders on a line of JSON", 5_000, load.JSON, func(n int) string {
			return "[" + strings.TrimSuffix(of(n, func(i int) string { return line(i) + "," }), ",") + "]"
		}, nil},
		{"orders in a list of YAML", 5_000, load.YAML, func(n int) string {
			return of(n, func(i int) string { return "- " + line(i) + "\n" })
		}, nil},
		{"columns of a table", 50_000, load.CSV, func(n int) string {
			return "order,units,item,cloth,finished width" + each(n, ",more %d") +
				"\nTR-1,in,napkin,lawn,12" + strings.Repeat(",1", n) + "\n"
		}, nil},
		{"rows of a table", 5_000, load.CSV, func(n int) string {
			return "order,units,item,cloth,finished width\n" + each(n, "TR-%d,in,napkin,lawn,12\n")
		}, nil},
		{"orders of a table with a cloth each", 5_000, load.CSV, func(n int) string {
			return "order,units,item,cloth,finished width\n" + each(n, "TR-%d,in,napkin,lawn,12\n") +
				"\ncloth,order,width\n" + each(n, "lawn,TR-%d,60\n")
		}, nil},
		{"sheets of a workbook", 12_500, load.Workbook, sheets, nil},
		{"waivers of an order", 10_000, load.YAML, func(n int) string {
			return growHead + growItem + "waive:\n" + strings.Repeat("  - {rule: hem/shallow, because: as agreed}\n", n)
		}, nil},
		{"waivers of an order with as many findings", 2_500, load.YAML, func(n int) string {
			return growHead + strings.Repeat(with("fold: 1"), n) +
				"waive:\n" + strings.Repeat("  - {rule: form/unknown-field, because: as agreed}\n", n)
		}, nil},
		{"items with an unknown field and a waiver each", 1_000, load.YAML, func(n int) string {
			return growHead + strings.Repeat(with("fold: 1, waive: [{rule: form/unknown-field, because: as agreed}]"), n)
		}, nil},
		{"unknown fields that stand for another", 5_000, load.YAML, func(n int) string {
			return growHead + growItem + "notes: &said as ever\n" + each(n, "field%d: *said\n")
		}, nil},
		{"items with a cloth each", 1_000, load.YAML, func(n int) string {
			return "order: TR-1\nunits: in\ncloths:\n" + each(n, "  lawn%d: {width: 60}\n") +
				"items:\n" + each(n, strings.Replace(growItem, "lawn", "lawn%d", 1))
		}, nil},
		{"bolts of a lot each, with as many items", 500, load.YAML, func(n int) string {
			return strings.Replace(growHead, "}}\n", "}, bolts: ["+of(n, func(i int) string { return fmt.Sprintf("{lot: L%d, length: %d}, ", i, 13+i) })+"]}\n", 1) +
				strings.Repeat(growItem, n)
		}, nil},
		{"items with a wrong outcome each", 500, load.YAML, func(n int) string {
			return growHead + strings.Repeat(with("cuts: [{piece: piece, width: 13, length: 13 1/2, count: 1}]"), n)
		}, nil},
		{"unknown fields of a letter more, one an item", 1_000, load.YAML, func(n int) string {
			return growHead + strings.Repeat(with("quantty: 1"), n)
		}, nil},
		{"flaws of a bolt beyond all sense, with as many items", 500, load.YAML, func(n int) string {
			return strings.Replace(growHead, "items:", "measured:\n  lawn: {flaws: ["+of(n, func(i int) string { return fmt.Sprintf("{from: %d000000, to: 1}, ", i+1) })+"]}\nitems:", 1) +
				strings.Repeat(growItem, n)
		}, nil},
		{"documents to correct", 2_000, load.YAML, func(n int) string {
			return each(n, growDoc+strings.Replace(growItem, "lawn", "Lawn", 1))
		}, corrects},
		{"blanks to fill in", 2_000, load.YAML, func(n int) string {
			return growHead + strings.Repeat(with("cuts: [{piece: piece, width: , length: }]"), n)
		}, corrects},
		{"measurements of no cloth", 5_000, load.YAML, func(n int) string {
			return growHead + growItem + "measured:\n" + each(n, "  lwan%d: {width: 59}\n")
		}, nil},
		{"cloths that were measured", 2_000, load.YAML, func(n int) string {
			return "order: TR-1\nunits: in\ncloths:\n" + each(n, "  lawn%d: {width: 60}\n") +
				"items:\n" + each(n, strings.Replace(growItem, "lawn", "lawn%d", 1)) + "measured:\n" + each(n, "  lawn%d: {width: 59}\n")
		}, nil},
		{"misspelt fields of an order", 5_000, load.YAML, func(n int) string {
			return growHead + growItem + each(n, "cloth%d: 1\n")
		}, nil},
		{"lots to lay as many items on", 500, load.YAML, func(n int) string {
			return strings.Replace(growHead, "}}\n", "}, bolts: ["+of(n, func(i int) string { return fmt.Sprintf("{lot: L%d, length: %d}, ", i, 13+i) })+"]}\n", 1) +
				strings.Repeat(growItem, n)
		}, lays},
		{"bolts of two lots to lay as many items on", 500, load.YAML, func(n int) string {
			return strings.Replace(growHead, "}}\n", "}, bolts: ["+of(n, func(i int) string { return fmt.Sprintf("{lot: L%d, length: 100}, ", i%2) })+"]}\n", 1) +
				strings.Repeat(growItem, n)
		}, lays},
		{"CUE references from one to the next", 2_500, load.CUE, func(n int) string {
			return fmt.Sprintf(growCUE, of(n, func(i int) string { return fmt.Sprintf("a%d: a%d\n", i+1, i) }), n)
		}, nil},
		{"cuts of an item", 5_000, load.YAML, func(n int) string {
			return growHead + strings.Replace(growItem, "}}\n", "}, cuts: ["+strings.Repeat("{piece: piece, width: 12 1/2, length: 12 1/2, count: 1}, ", n)+"]}\n", 1)
		}, nil},
		{"items with a wrong cut and wrong holes", 500, load.YAML, func(n int) string {
			return growHead + strings.Repeat("  - {item: shower curtain, cloth: lawn, finished: {width: 66, length: 74}, hems: {top: {turn: 1 1/2}, bottom: {turn: 3}, sides: {turn: 1/2}}, "+
				"cuts: [{piece: center, width: 50}], holes: {make: grommet, count: 11, spacing: 5, from_side: 3}}\n", n)
		}, nil},
		{"items with a choice to weigh", 1_000, load.YAML, func(n int) string {
			return growHead + strings.Repeat("  - {item: bed skirt, cloth: lawn, bed: {width: 60, length: 80}, drop: 14, deck: {inset: 1 1/2}}\n", n)
		}, nil},
		{"aliases of an item", 1_000, load.YAML, func(n int) string {
			return growHead + strings.Replace(growItem, "- {", "- &one {", 1) + strings.Repeat("  - *one\n", n)
		}, nil},
		{"items with a waiver each", 1_000, load.YAML, func(n int) string {
			return growHead + strings.Repeat(with("waive: [{rule: form/too-little-given, because: as agreed}]"), n)
		}, nil},
	}
}

// sheets is the drawn text of a workbook of so many sheets.
func sheets(n int) string {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	put := func(name, text string) {
		w, err := z.Create(name)
		if err == nil {
			_, err = io.WriteString(w, text)
		}
		if err != nil {
			panic(err) // a buffer takes everything
		}
	}
	const (
		head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
		main = `http://schemas.openxmlformats.org/spreadsheetml/2006/main`
		rels = `http://schemas.openxmlformats.org/officeDocument/2006/relationships`
		pack = `http://schemas.openxmlformats.org/package/2006/`
	)
	var types, list, links strings.Builder
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&types, `<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`, i)
		fmt.Fprintf(&list, `<sheet name="S%d" sheetId="%d" r:id="rId%d"/>`, i, i, i)
		fmt.Fprintf(&links, `<Relationship Id="rId%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, i, rels, i)
	}
	put("[Content_Types].xml", head+`<Types xmlns="`+pack+`content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>`+
		`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>`+types.String()+`</Types>`)
	put("_rels/.rels", head+`<Relationships xmlns="`+pack+`relationships"><Relationship Id="rId1" Type="`+rels+`/officeDocument" Target="xl/workbook.xml"/></Relationships>`)
	put("xl/workbook.xml", head+`<workbook xmlns="`+main+`" xmlns:r="`+rels+`"><sheets>`+list.String()+`</sheets></workbook>`)
	put("xl/_rels/workbook.xml.rels", head+`<Relationships xmlns="`+pack+`relationships">`+links.String()+`</Relationships>`)
	for i := 1; i <= n; i++ {
		put(fmt.Sprintf("xl/worksheets/sheet%d.xml", i), head+`<worksheet xmlns="`+main+`"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>item</t></is></c></row></sheetData></worksheet>`)
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return out.String()
}

// grow checks and reports each text, and one of twice as much, and prints the times
// and their ratio: 2 where the work grows with the text, 4 where with its square.
func grow(w io.Writer, s *settings) error {
	if s.profile != "" {
		stop, err := startProfile(s.profile)
		if err != nil {
			return err
		}
		defer stop()
	}
	checker, err := lint.New(rules.All())
	if err != nil {
		return err
	}
	checker.Today = time.Now().Format(time.DateOnly)
	out := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintf(out, "what\tof it\ttime\ttwice as much\tratio\t\n")
	for _, g := range growings() {
		if !strings.Contains(g.what, s.only) {
			continue
		}
		var took [2]time.Duration
		for i := range took {
			text := g.text(g.many << i)
			for range s.runs {
				t, err := once(checker, text, g)
				if err != nil {
					return fmt.Errorf("%s: %w", g.what, err)
				}
				if took[i] == 0 || t < took[i] {
					took[i] = t
				}
			}
		}
		fmt.Fprintf(out, "%s\t%d\t%.2f s\t%.2f s\t%.1f\t\n", g.what, g.many, took[0].Seconds(), took[1].Seconds(), float64(took[1])/float64(took[0]))
	}
	return out.Flush()
}

// once does the work on a text, and says how long that took.
func once(checker *lint.Checker, text string, g growing) (time.Duration, error) {
	do := g.do
	if do == nil {
		do = reports
	}
	start := time.Now()
	if g.format == load.Workbook {
		text = cells.Draw([]byte(text))
	}
	err := do(checker, &source.File{Name: "many", Text: text}, g.format)
	return time.Since(start), err
}

// reports checks a text and reports it in every form.
func reports(checker *lint.Checker, f *source.File, format load.Format) error {
	results := checker.CheckFile(f, format)
	for _, as := range render.Formats() {
		r := as.Writer(io.Discard, render.Options{Rules: checker.Rules})
		for i := range results {
			res := &results[i]
			if res.Err != nil {
				return res.Err
			}
			if err := r.Order(res.Sheet, res.Findings, res.Aside); err != nil {
				return err
			}
		}
		if err := r.Close(); err != nil {
			return err
		}
	}
	return nil
}

// corrects makes the likely fixes of a text, and fills in what is blank.
func corrects(checker *lint.Checker, f *source.File, format load.Format) error {
	_, err := checker.Correct(f, format, lint.Correcting{Likely: true, Fill: true})
	return err
}

// lays lays what the orders of a text cut.
func lays(checker *lint.Checker, f *source.File, format load.Format) error {
	var sheets []*worksheet.Sheet
	for _, res := range checker.CheckFile(f, format) {
		sheets = append(sheets, res.Sheet)
	}
	_, _, err := spread.Of(context.Background(), sheets, spread.Options{})
	return err
}
