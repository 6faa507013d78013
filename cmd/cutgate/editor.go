package main

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"cutgate/internal/editor"
	"cutgate/internal/lint"
	"cutgate/rules"
)

const editorExample = `  command: cutgate editor
  file types: `

func newEditorCmd(std streams) *cobra.Command {
	var flags readFlags
	c := &cobra.Command{
		Use:     "editor",
		Short:   "check orders in an editor as you type",
		Long:    strings.TrimRight(editorText, "\n"),
		Example: editorExample + oneOf(textWords()),
		Args:    takesNone,
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
