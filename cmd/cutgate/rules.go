package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/render"
	"cutgate/internal/rule"
	"cutgate/rules"
)

const rulesLong = `rules lists what is checked. With a rule's name it explains the rule: what it
checks and why, the formula, and who in the trade says so. With a topic's name it
lists the rules of the topic. With --sources it lists every publication that the
tables, the kinds of goods and the rules rely on, and for what.`

const rulesExample = `  cutgate rules
  cutgate rules length
  cutgate rules length/cut-length-off
  cutgate rules --sources`

func newRulesCmd(std streams) *cobra.Command {
	var look lookFlags
	var sources bool
	c := &cobra.Command{
		Use:               "rules [RULE]",
		Short:             "list the rules, or explain one",
		Long:              rulesLong,
		Example:           rulesExample,
		Args:              atMostOne("rule"),
		ValidArgsFunction: completeRules,
		RunE: func(_ *cobra.Command, args []string) error {
			if sources {
				return runSources(std, look)
			}
			return runRules(std, look, args)
		},
	}
	look.add(c)
	c.Flags().BoolVar(&sources, "sources", false, "list every source and what relies on it")
	return c
}

func runRules(std streams, look lookFlags, args []string) error {
	opts, err := look.options(std)
	if err != nil {
		return err
	}
	list := rules.All()
	var one *rule.Rule
	if len(args) > 0 {
		if one, list, err = chooseRules(args[0], list); err != nil {
			return err
		}
	}
	if one == nil {
		return render.Catalogue(std.out, list, opts)
	}
	ex, err := exampleOf(one, rules.All(), rules.Fixtures)
	if err != nil {
		return err
	}
	return render.RulePage(std.out, one, ex, opts)
}

func runSources(std streams, look lookFlags) error {
	opts, err := look.options(std)
	if err != nil {
		return err
	}
	tables, err := form.Tables()
	if err != nil {
		return err
	}
	return render.Sources(std.out, goods.All().All(), tables, rules.All(), opts)
}

// chooseRules finds the rule or the topic of that name.
func chooseRules(name string, all []*rule.Rule) (*rule.Rule, []*rule.Rule, error) {
	var topic []*rule.Rule
	var names []string
	for _, r := range all {
		if r.ID == name {
			return r, nil, nil
		}
		if r.Topic() == name {
			topic = append(topic, r)
		}
		if n := len(names); n == 0 || names[n-1] != r.Topic() {
			names = append(names, r.Topic())
		}
	}
	if len(topic) > 0 {
		return nil, topic, nil
	}
	for _, r := range all {
		if strings.HasSuffix(r.ID, "/"+name) {
			return nil, nil, fmt.Errorf("unknown rule %q: did you mean %s?", name, r.ID)
		}
		names = append(names, r.ID)
	}
	return nil, nil, fmt.Errorf("unknown rule %q%s", name, hintOr(name, names, "cutgate rules lists them"))
}
