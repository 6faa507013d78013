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
)

const newLong = `new prints a work order to fill in, with comments. Its figures are an example
that is clear to cut. Without a kind it lists the kinds.

As a sheet the order has a row for each item, below headings in the form's words,
and the cloths are on a sheet of their own, or below. A workbook has the comments
as notes on its headings. More items, and more orders, are more rows; more columns
may be added, as cut 1 width for the width of the first cut.`

const newExample = `  cutgate new shower curtain > bath.yaml
  cutgate new curtain --as xlsx > sitting-room.xlsx`

// The kinds of item, in the order of the form.
var kinds = []string{
	"shower curtain", "curtain", "valance", "Roman shade", "cushion cover", "tablecloth", "runner", "placemat", "napkin",
	"duvet cover", "pillowcase", "bedspread", "bed skirt", "tie-back", "cornice",
}

// blanks has the head that every new order begins with, and for each kind the
// rest.
//
//go:embed orders/*.yaml
var blanks embed.FS

// The forms that new prints an order in, the usual one first.
var newForms = []struct {
	name   string
	binary bool                          // nothing for a screen
	print  func(io.Writer, string) error // of the order in YAML
}{
	{name: "yaml", print: func(w io.Writer, text string) error { _, err := io.WriteString(w, text); return err }},
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
	i := slices.Index(newWords(), as)
	if i < 0 {
		return fmt.Errorf("unknown form %q to print: one of %s", as, oneOf(newWords()))
	}
	if kind == "" {
		_, err := io.WriteString(std.out, strings.Join(kinds, "\n")+"\n")
		return err
	}
	known, err := kindNamed(kind)
	if err != nil {
		return err
	}
	form := newForms[i]
	if form.binary && isTerminal(std.out) {
		return fmt.Errorf("a workbook is nothing for a screen: write it to a file, with > %s.%s", slug(known), form.name)
	}
	text, err := blankOrder(known)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(std.out)
	if err := form.print(out, text); err != nil {
		return err
	}
	return out.Flush()
}

// kindNamed returns the kind of item that a person means, who may write hyphens
// for spaces and capitals as they like.
func kindNamed(kind string) (string, error) {
	for _, k := range kinds {
		if slug(k) == slug(kind) {
			return k, nil
		}
	}
	return "", fmt.Errorf("unknown kind of item %q%s", kind, hint(kind, kinds))
}

func slug(kind string) string { return strings.ReplaceAll(strings.ToLower(kind), " ", "-") }

// blankOrder returns the order of a kind that is to be filled in.
func blankOrder(kind string) (string, error) {
	head, err := blanks.ReadFile("orders/head.yaml")
	if err != nil {
		return "", err
	}
	rest, err := blanks.ReadFile("orders/" + slug(kind) + ".yaml")
	if err != nil {
		return "", err
	}
	return strings.Replace(string(head), "KIND", kind, 1) + string(rest), nil
}
