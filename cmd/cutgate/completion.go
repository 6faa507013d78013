package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"
)

const completionLong = `completion prints a script that lets your shell complete commands and their
flags, order files, rules and kinds of goods. make install already installs it
for bash, zsh and fish.

Load the script into the running shell, or save it where your shell looks for
completions when it starts. The one for bash needs the package bash-completion,
which many systems have from the start.`

const completionExample = `  source <(cutgate completion bash)
  cutgate completion fish | source
  cutgate completion zsh > ~/.zfunc/_cutgate`

// shells lists the shells that have a script.
var shells = []struct {
	name  string
	print func(*cobra.Command, io.Writer) error
}{
	{"bash", func(root *cobra.Command, w io.Writer) error { return root.GenBashCompletionV2(w, true) }},
	{"zsh", func(root *cobra.Command, w io.Writer) error { return root.GenZshCompletion(w) }},
	{"fish", func(root *cobra.Command, w io.Writer) error { return root.GenFishCompletion(w, true) }},
	{"powershell", func(root *cobra.Command, w io.Writer) error { return root.GenPowerShellCompletionWithDesc(w) }},
}

func shellWords() (words []string) {
	for _, s := range shells {
		words = append(words, s.name)
	}
	return words
}

func newCompletionCmd(std streams) *cobra.Command {
	return &cobra.Command{
		Use:       "completion SHELL",
		Short:     "print a shell completion script",
		Long:      completionLong + "\n\nSHELL is one of " + oneOf(shellWords()) + ".",
		Example:   completionExample,
		ValidArgs: shellWords(),
		RunE: func(c *cobra.Command, args []string) error {
			return runCompletion(c.Root(), std, args)
		},
	}
}

func runCompletion(root *cobra.Command, std streams, args []string) error {
	if len(args) != 1 {
		return errors.New("completion is for one shell: name one of " + oneOf(shellWords()))
	}
	for _, s := range shells {
		if s.name != args[0] {
			continue
		}
		if err := s.print(root, std.out); err != nil {
			return fmt.Errorf("printing a script for %s: %w", s.name, err)
		}
		return nil
	}
	return fmt.Errorf("unknown shell %q%s", args[0], hint(args[0], shellWords()))
}
