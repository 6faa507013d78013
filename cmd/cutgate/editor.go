package main

import (
	"errors"

	"github.com/spf13/cobra"

	"cutgate/internal/editor"
	"cutgate/internal/lint"
	"cutgate/rules"
)

const editorLong = `editor is a language server: an editor starts it and talks with it on standard
input and output, by the Language Server Protocol 3.17. It tells what is wrong
with an order while the order is typed, saved or not, under the house rules that
lie above the file.

It answers with the working of a number, corrects what is wrong, offers the
fields and the words that may stand somewhere, and shows what is worked out for a
field that is left blank. It changes no file: the editor does.

In the editor's settings for language servers, name this command and the kinds of
file that hold orders. A file that is no order is left alone.`

const editorExample = `  command: cutgate editor
  file types: `

func newEditorCmd(std streams) *cobra.Command {
	var flags readFlags
	c := &cobra.Command{
		Use:     "editor",
		Short:   "check orders in an editor while they are typed",
		Long:    editorLong,
		Example: editorExample + oneOf(textWords()),
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return runEditor(c, std, flags)
		},
	}
	flags.addRules(c)
	return c
}

func runEditor(c *cobra.Command, std streams, flags readFlags) error {
	if isTerminal(std.in) {
		return errors.New("an editor starts this and talks with it on standard input: see cutgate editor --help")
	}
	s := &editor.Server{Name: programName, Open: func() (*lint.Checker, error) { return flags.checker(rules.All()) }}
	return s.Serve(c.Context(), std.in, std.out)
}
