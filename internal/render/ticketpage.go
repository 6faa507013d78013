package render

import (
	_ "embed"
	"html/template"
	"strings"
	"sync"

	"cutgate/internal/draw"
	"cutgate/internal/finding"
	"cutgate/internal/source"
	"cutgate/internal/ticket"
	"cutgate/internal/worksheet"
)

//go:embed ticket.html
var ticketHTML string

// ticketPage is tickets as one page to print: nothing on it is fetched from elsewhere,
// and nothing runs on it.
type ticketPage struct {
	out   sink
	opts  Options
	begun bool
}

// pageParts are the parts of the page, read when a page is first asked for.
var pageParts = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("ticket").Funcs(pageFuncs).Parse(ticketHTML))
})

var pageFuncs = template.FuncMap{
	"show":   func(text string) string { return unbroken(source.Show(text)) },
	"banner": func(v finding.Verdict) string { return banners[v] },
	"named":  named,
	"house":  houseText,
	"alike":  alike,
	"drawn": func(d *ticket.Document, p ticket.Picture) (template.HTML, error) {
		var b strings.Builder
		err := draw.Piece(&b, p.Pattern, d.Unit)
		return template.HTML(b.String()), err // draw escapes the texts in it
	},
	"shared": func() template.HTML { return template.HTML(draw.Shared()) },
	"key":    func() template.HTML { return template.HTML(draw.Key()) },
	"same":   func(rows []ticket.Row, i int) bool { return i > 0 && rows[i].Label == rows[i-1].Label },
	"inc":    func(i int) int { return i + 1 },
}

// unbroken keeps a number with its fraction and its unit on one line.
func unbroken(text string) string {
	var words []string
	for c := range chunks(text) {
		words = append(words, strings.ReplaceAll(c, " ", "\u00a0"))
	}
	return strings.ReplaceAll(strings.Join(words, " "), " ·", "\u00a0·")
}

// onePage is a ticket, and what is not on its document.
type onePage struct {
	*ticket.Document
	Clear, Workings bool
}

func (t *ticketPage) Order(s *worksheet.Sheet, found []finding.Finding, aside finding.Aside) error {
	t.begin()
	d := ticket.Of(s, found, aside)
	d.Notes = strings.TrimSpace(d.Notes)
	t.part("order", onePage{d, d.Verdict == finding.Clear, !t.opts.Brief && len(d.Workings) > 0})
	return t.out.err
}

// A laidCloth is a cloth on a page: its lay in words, and its picture.
type laidCloth struct {
	Words    string
	Pictures []template.HTML // none of one that can't be drawn on sheets of paper
	Left     bool            // it was not laid, and the words say why
}

func (t *ticketPage) Lays(l *Laid) error {
	t.begin()
	var list []laidCloth
	for _, s := range l.Spreads {
		text := &layText{sheet: newSheet(Options{}), laid: l}
		text.spread(s)
		one := laidCloth{Words: text.String()}
		for _, p := range draw.LaysInline(s, l.warn) {
			one.Pictures = append(one.Pictures, template.HTML(p)) // draw escapes the texts in it
		}
		list = append(list, one)
	}
	for _, left := range l.Left {
		text := newSheet(Options{})
		text.para(0, "NOT LAID", headInk, ticketValue, notLaid(left), plainInk)
		list = append(list, laidCloth{Words: text.String(), Left: true})
	}
	t.part("lays", list)
	return t.out.err
}

func (t *ticketPage) begin() {
	if !t.begun {
		t.begun = true
		t.part("begin", nil)
	}
}

// part writes a part of the page.
func (t *ticketPage) part(name string, of any) {
	if t.out.err == nil {
		t.out.err = pageParts().ExecuteTemplate(t.out.w, name, of)
	}
}

func (t *ticketPage) Close() error {
	t.begin()
	t.part("end", nil)
	return t.out.err
}
