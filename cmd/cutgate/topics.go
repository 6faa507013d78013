package main

import (
	_ "embed"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// A topic is something to read about that is no command.
type topic struct{ name, short, text string }

// The texts of the topics. Help prints them, and the manual's pages carry them; that of
// the editor is the command's own.
var (
	//go:embed topics/orders.txt
	ordersText string
	//go:embed topics/tables.txt
	tablesText string
	//go:embed topics/house-rules.txt
	houseRulesText string
	//go:embed topics/waivers.txt
	waiversText string
	//go:embed topics/pipelines.txt
	pipelinesText string
	//go:embed topics/editor.txt
	editorText string

	topics = []topic{
		{"orders", "how an order is written, and corrected", ordersText},
		{"tables", "orders in a spreadsheet", tablesText},
		{"house-rules", "a shop's own allowances, levels and rules", houseRulesText},
		{"waivers", "accepting a finding, and what was known before", waiversText},
		{"pipelines", "checks before a commit and in a pipeline", pipelinesText},
	}
)

// newTopicCmd is a topic as a command that can't be run.
func newTopicCmd(t *topic) *cobra.Command {
	return &cobra.Command{Use: t.name, Short: t.short, Long: strings.TrimRight(t.text, "\n")}
}

// topicNamed is the command of a topic whose words somebody wrote, or nil.
func topicNamed(root *cobra.Command, words []string) *cobra.Command {
	name := strings.ReplaceAll(strings.Join(words, "-"), " ", "-") // they may have been in quotes
	i := slices.IndexFunc(root.Commands(), func(c *cobra.Command) bool { return c.IsAdditionalHelpTopicCommand() && c.Name() == name })
	if i < 0 {
		return nil
	}
	return root.Commands()[i]
}
