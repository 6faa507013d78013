package main

import (
	"errors"

	"github.com/spf13/cobra"

	"cutgate/internal/editor"
	"cutgate/internal/lint"
	"cutgate/rules"
)

const editorLong = `editor is a language server: an editor starts it and talks with it on standard
input and output, by the Language Server Protocol 3.17. It shows what is wrong
with an order as you type, saved or not, under the house rules in the folders above
the file.

It shows the working of a number, corrects what is wrong, offers the fields and words
that fit a place, and shows the value worked out for a blank field. It changes no
file: the editor does.

In the editor's settings for language servers, name this command and the kinds of
file that hold orders. Files that are not orders are ignored.`

const editorExample = `  command: cutgate editor
  file types: `

func newEditorCmd(std streams) *cobra.Command {
	var flags readFlags
	c := &cobra.Command{
		Use:     "editor",
		Short:   "check orders in an editor as you type",
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
		return errors.New("your editor starts this and talks to it on standard input: see cutgate editor --help")
	}
	s := &editor.Server{Name: programName, Open: func() (*lint.Checker, error) { return flags.checker(rules.All()) }}
	return s.Serve(c.Context(), std.in, std.out)
}
