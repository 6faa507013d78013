package main

import (
	"bufio"
	"embed"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"cutgate/internal/cells"
	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/worksheet"
	"cutgate/rules"
)

const newLong = `new prints a work order to fill in, with comments. Its figures are an example
that is clear to cut. Without a kind it lists the kinds.

As CSV or XLSX the order has a row for each item, under headings in the form's words; the
cloths are on a sheet of their own, or below. A workbook has the comments as notes on its
headings. Add rows for more items and orders, and columns for more fields: cut 1 width,
for example, is the width of the first cut.`

const newExample = `  cutgate new shower curtain > bath.yaml
  cutgate new curtain --as xlsx > sitting-room.xlsx`

// shop is what may be made in the working folder: the kinds of item, in the order of
// the form, with those of the house rules that it stands under.
type shop struct {
	form  *form.Form
	goods *worksheet.Kinds
	names []string
}

func shopHere() (*shop, error) {
	checker, err := (&readFlags{}).checker(rules.All())
	if err != nil {
		return nil, err
	}
	s := &shop{form: checker.Loader.Form, goods: goods.All()}
	h, err := checker.Houses.In(".")
	if err != nil {
		return nil, err
	}
	if h != nil && h.Form != nil {
		s.form = h.Form
	}
	if h != nil && h.Kinds != nil {
		s.goods = h.Kinds
	}
	s.names = s.form.Kinds()
	return s, nil
}

// blanks has the head that every new order begins with, and for each kind the
// rest.
//
//go:embed orders/*.yaml
var blanks embed.FS

// The forms that new prints an order in, the usual one first.
var newForms = []struct {
	name   string
	binary bool                                      // nothing for a screen
	print  func(io.Writer, *form.Form, string) error // of the order in YAML
}{
	{name: "yaml", print: func(w io.Writer, _ *form.Form, text string) error { _, err := io.WriteString(w, text); return err }},
	{name: "csv", print: printSheets(cells.WriteCSV)},
	{name: "xlsx", binary: true, print: printSheets(cells.WriteWorkbook)},
}

func newNewCmd(std streams) *cobra.Command {
	var as string
	c := &cobra.Command{
		Use:               "new [KIND]",
		Short:             "print an order to fill in",
		Long:              newLong,
		Example:           newExample,
		ValidArgsFunction: completeKinds,
		RunE: func(_ *cobra.Command, args []string) error {
			return runNew(std, strings.Join(args, " "), as)
		},
	}
	c.Flags().StringVar(&as, "as", newForms[0].name, "print it as "+oneOf(newWords()))
	completes(c, "as", newWords()...)
	return c
}

func newWords() (words []string) {
	for _, f := range newForms {
		words = append(words, f.name)
	}
	return words
}

func runNew(std streams, kind, as string) error {
	here, err := shopHere()
	if err != nil {
		return err
	}
	i := slices.Index(newWords(), as)
	if i < 0 {
		return fmt.Errorf("unknown format %q: one of %s", as, oneOf(newWords()))
	}
	if kind == "" {
		_, err = io.WriteString(std.out, strings.Join(here.names, "\n")+"\n")
		return err
	}
	n, err := kindNamed(kind, here.names, here.form)
	if err != nil {
		return err
	}
	known := here.names[n]
	way := newForms[i]
	if way.binary && isTerminal(std.out) {
		return fmt.Errorf("a workbook can't be shown on a screen: write it to a file, with > %s.%s", slug(known), way.name)
	}
	text, err := here.blankOrder(known)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(std.out)
	if err := way.print(out, here.form, text); err != nil {
		return err
	}
	return out.Flush()
}

// kindNamed returns which of the kinds a person means, who may write hyphens for
// spaces and capitals as they like, and use another workroom's words.
func kindNamed(said string, kinds []string, f *form.Form) (int, error) {
	if i := slices.IndexFunc(kinds, func(k string) bool { return slug(k) == slug(said) }); i >= 0 {
		return i, nil
	}
	kind, field, word := f.KindOf(said)
	if i := slices.Index(kinds, kind); i >= 0 && field == "" {
		return i, nil
	}
	if kind != "" {
		return 0, fmt.Errorf("unknown kind of goods %q: it is a %s with %s: %s", said, kind, field, word)
	}
	return 0, fmt.Errorf("unknown kind of goods %q%s", said, hint(said, kinds))
}

func slug(kind string) string { return strings.ReplaceAll(strings.ToLower(kind), " ", "-") }

// blankOrder returns the order of a kind that is to be filled in.
func (s *shop) blankOrder(kind string) (string, error) {
	head, err := blanks.ReadFile("orders/head.yaml")
	if err != nil {
		return "", err
	}
	rest, err := blanks.ReadFile("orders/" + slug(kind) + ".yaml")
	if err != nil { // it is the shop's own
		rest = s.blankItem(kind)
	}
	return strings.Replace(string(head), "KIND", kind, 1) + string(rest), nil
}

// clothToFill is a cloth as the orders of a shop's own kinds have it.
const clothToFill = `units: in                       # what a bare number means: in, cm, mm, m, ft or yd

cloths:
  face:                         # a name of your own, used below
    fiber: {cotton: 100}        # percent by weight, generic names
    width: 118                  # edge to edge
    selvedge: 1/2               # each edge
    sold_by: 1/4 yd

items:
`

// blankItem is the cloth and the item of an order for a kind of the shop's own: a
// choice is in the middle of its range, or what it is where an order is silent, and
// what is worked out is blank.
func (s *shop) blankItem(kind string) []byte {
	all := s.goods.All()
	k := all[slices.IndexFunc(all, func(k *worksheet.Kind) bool { return k.Name == kind })]
	item := &filling{}
	item.put("item", kind)
	item.put("cloth", "face")
	for _, r := range k.Roles[1:] {
		item.put(r.Field, "face")
	}
	for i := range k.Given {
		g := &k.Given[i]
		if len(g.From) == 0 || strings.Contains(g.From[0], "/") {
			continue
		}
		value := g.Silence(length.In)
		if c := g.Choice; g.As != "" || value == "" && c != nil && c.High > 0 {
			value = ((c.Low+c.High)/2).Round(length.Inch/2, length.Nearest).Format(length.In, length.Nearest)
		}
		item.put(g.From[0], strings.TrimSuffix(value, " in"))
	}
	for i := range k.Outcomes {
		item.put(k.Outcomes[i].Field, "")
	}
	var b strings.Builder
	b.WriteString(clothToFill)
	for i, f := range item.fields {
		start := "    "
		if i == 0 {
			start = "  - "
		}
		b.WriteString(start + f.String() + "\n")
	}
	b.WriteString("    cuts:\n")
	for _, p := range k.Pieces {
		b.WriteString("      - {piece: " + p.Name + ", width: , length: , count: }\n")
	}
	return []byte(b.String())
}

// A filling is a group of fields with what stands in them; those of a group within it
// stand on one line.
type filling struct {
	name, value string
	fields      []*filling
}

func (f *filling) put(path, value string) {
	name, rest, more := strings.Cut(path, ".")
	i := slices.IndexFunc(f.fields, func(of *filling) bool { return of.name == name })
	if i < 0 {
		i = len(f.fields)
		f.fields = append(f.fields, &filling{name: name})
	}
	if more {
		f.fields[i].put(rest, value)
	} else if f.fields[i].value == "" {
		f.fields[i].value = value
	}
}

func (f *filling) String() string {
	if f.fields == nil {
		return strings.TrimRight(f.name+": "+f.value, " ")
	}
	var parts []string
	for _, of := range f.fields {
		parts = append(parts, of.name+": "+of.value)
	}
	return f.name + ": {" + strings.Join(parts, ", ") + "}"
}
