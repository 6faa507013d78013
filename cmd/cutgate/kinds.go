package main

import (
	"strings"

	"github.com/spf13/cobra"

	"cutgate/internal/render"
)

const kindsLong = `kinds lists the kinds of goods that can be worked out, with the pieces each is cut into.
With a kind it prints how it is worked out: the choices, with the usual values; the pieces; and
the formula and source of each size and count an order may state, and of what those are worked
from. With --all it prints the whole worksheet: every step, and the known slips. What several
pieces share is written once. The shop's own goods, from the house.cue of the working folder,
are included.`

const kindsExample = `  cutgate kinds
  cutgate kinds tablecloth
  cutgate kinds tablecloth --all`

func newKindsCmd(std streams) *cobra.Command {
	var look lookFlags
	var all bool
	c := &cobra.Command{
		Use:               "kinds [KIND]",
		Short:             "list the kinds of goods, or explain how one is worked out",
		Long:              kindsLong,
		Example:           kindsExample,
		ValidArgsFunction: completeKinds,
		RunE: func(_ *cobra.Command, args []string) error {
			return runKinds(std, look, all, strings.Join(args, " "))
		},
	}
	look.add(c)
	c.Flags().BoolVar(&all, "all", false, "print every step and the known slips too")
	return c
}

func runKinds(std streams, look lookFlags, all bool, name string) error {
	opts, err := look.options(std)
	if err != nil {
		return err
	}
	opts.All = all
	here, err := shopHere()
	if err != nil {
		return err
	}
	list := here.goods.All()
	if name == "" {
		return render.Kinds(std.out, list, opts)
	}
	var names []string
	for _, k := range list {
		names = append(names, k.Name)
	}
	i, err := kindNamed(name, names, here.form)
	if err != nil {
		return err
	}
	return render.KindPage(std.out, list[i], opts)
}
