package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"
)

func newHelpCmd() *cobra.Command {
	return &cobra.Command{
		Use:               "help [COMMAND | TOPIC]",
		Short:             "explain a command, or a topic",
		ValidArgsFunction: completeCommands,
		RunE: func(c *cobra.Command, args []string) error {
			root := c.Root()
			if t := topicNamed(root, args); t != nil {
				return t.Help()
			}
			about, rest, err := root.Find(args)
			if err != nil {
				return err
			}
			if len(rest) > 0 {
				return unknownCommand(root, rest[0])
			}
			about.InitDefaultHelpFlag() // else only a command that runs has it
			return about.Help()
		},
	}
}

// unknownCommand is the error of a word that stands where a command's name should.
func unknownCommand(root *cobra.Command, word string) error {
	var names, texts []string
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		} else if c.IsAdditionalHelpTopicCommand() {
			texts = append(texts, c.Name())
		}
	}
	return fmt.Errorf("unknown command or topic %q%s", word, hintOr(word, slices.Concat(texts, names), "the commands are "+oneOf(names)+"; the topics "+oneOf(texts)))
}

// completeCommands offers the commands.
func completeCommands(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var words []string
	for _, sub := range c.Root().Commands() {
		if len(args) == 0 && (sub.IsAvailableCommand() || sub.IsAdditionalHelpTopicCommand()) {
			words = append(words, cobra.CompletionWithDesc(sub.Name(), sub.Short))
		}
	}
	return words, cobra.ShellCompDirectiveNoFileComp
}
