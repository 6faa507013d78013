package main

import (
	"strings"

	"github.com/spf13/cobra"

	"cutgate/internal/load"
	"cutgate/rules"
)

// completes offers words for a flag of c.
func completes(c *cobra.Command, flag string, words ...string) {
	// The flag is there: whoever calls this has just added it.
	_ = c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
}

// completeOrders offers files that hold orders, and folders.
func completeOrders(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	var endings []string
	for _, f := range load.Formats() {
		for _, e := range f.Extensions {
			endings = append(endings, strings.TrimPrefix(e, "."))
		}
	}
	return endings, cobra.ShellCompDirectiveFilterFileExt
}

// completeRules offers topics, and the rules of a topic whose name is there.
func completeRules(_ *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var words []string
	last := ""
	for _, r := range rules.All() {
		topic := r.Topic()
		if topic != last && strings.HasPrefix(topic, begun) {
			words = append(words, topic)
		}
		last = topic
		if strings.HasPrefix(begun, topic) && strings.HasPrefix(r.ID, begun) {
			words = append(words, cobra.CompletionWithDesc(r.ID, r.Title))
		}
	}
	return words, cobra.ShellCompDirectiveNoFileComp
}

// completeKinds offers kinds of item, as one word each.
func completeKinds(_ *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	var words []string
	here, err := shopHere()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	for _, k := range here.names {
		if len(args) == 0 && strings.HasPrefix(slug(k), begun) {
			words = append(words, slug(k))
		}
	}
	return words, cobra.ShellCompDirectiveNoFileComp
}
