package main

import (
	"embed"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
)

const newLong = `new prints a work order to fill in, with comments. Its figures are an example
that is clear to cut. Without a kind it lists the kinds.`

const newExample = `  cutgate new shower curtain > bath.yaml`

// The kinds of item, in the order of the form.
var kinds = []string{
	"shower curtain", "curtain", "valance", "Roman shade", "cushion cover", "tablecloth", "runner", "napkin",
	"duvet cover", "pillowcase", "bedspread", "bed skirt", "tie-back",
}

// blanks has the head that every new order begins with, and for each kind the
// rest.
//
//go:embed orders/*.yaml
var blanks embed.FS

func newNewCmd(std streams) *cobra.Command {
	return &cobra.Command{
		Use:               "new [KIND]",
		Short:             "print an order to fill in",
		Long:              newLong,
		Example:           newExample,
		ValidArgsFunction: completeKinds,
		RunE: func(_ *cobra.Command, args []string) error {
			return runNew(std, strings.Join(args, " "))
		},
	}
}

func runNew(std streams, kind string) error {
	text := strings.Join(kinds, "\n") + "\n"
	if kind != "" {
		known, err := kindNamed(kind)
		if err != nil {
			return err
		}
		if text, err = blankOrder(known); err != nil {
			return err
		}
	}
	_, err := io.WriteString(std.out, text)
	return err
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
