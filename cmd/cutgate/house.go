package main

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"cutgate/internal/house"
	"cutgate/internal/lint"
	"cutgate/internal/render"
	"cutgate/internal/source"
	"cutgate/rules"
)

const houseLong = `house shows what is in force for an order, or for the orders of the working
folder: what is done where an order does not say, the levels that differ from the usual, the
shop's own rules, and where each comes from: the trade's table with its source, or the
line of house.cue that replaces it.

house.cue is looked for in the order's folder, then in those above it; the nearest
one counts. With --worked, the items of an order are shown as the shop's own rules
see them. A rule that takes longer than 2 s for an order, or 10 s to read, is stopped.`

const houseExample = `  cutgate house
  cutgate house orders/bath.yaml
  cutgate house --worked orders/bath.yaml`

// The words of house --as.
var houseFormats = []string{"text", "json"}

type houseFlags struct {
	readFlags
	lookFlags
	as     string
	worked bool
}

func newHouseCmd(std streams) *cobra.Command {
	var flags houseFlags
	c := &cobra.Command{
		Use:     "house [ORDER]",
		Short:   "show the house rules in force, and where each comes from",
		Long:    houseLong,
		Example: houseExample,
		Args:    atMostOne("order"),
		RunE: func(c *cobra.Command, args []string) error {
			return runHouse(c, std, flags, args)
		},
	}
	flags.readFlags.add(c)
	flags.lookFlags.add(c)
	c.Flags().StringVar(&flags.as, "as", houseFormats[0], "write it as "+oneOf(houseFormats))
	completes(c, "as", houseFormats...)
	c.Flags().BoolVar(&flags.worked, "worked", false, "show the order's items as the shop's own rules see them")
	return c
}

func runHouse(c *cobra.Command, std streams, flags houseFlags, args []string) error {
	if !slices.Contains(houseFormats, flags.as) {
		return fmt.Errorf("unknown format %q: one of %s", flags.as, oneOf(houseFormats))
	}
	opts, err := flags.options(std)
	if err != nil {
		return err
	}
	if flags.worked {
		return showWorked(c, std, flags, args)
	}
	checker, err := flags.checker(rules.All())
	if err != nil {
		return err
	}
	folder, err := folderOf(args)
	if err != nil {
		return err
	}
	var h *house.House
	if checker.Houses != nil {
		if h, err = checker.Houses.In(folder); err != nil {
			(&complaints{w: std.err}).add(err)
			return errSaid
		}
	}
	doubt(std.err, checker)
	list, err := house.Practices(h, checker.Tables)
	if err != nil {
		return err
	}
	if flags.as == houseFormats[1] {
		err = render.HouseJSON(std.out, h, list, checker.Rules)
	} else {
		err = render.House(std.out, h, list, checker.Rules, opts)
	}
	if err != nil {
		return fmt.Errorf("showing house rules: %w", err)
	}
	return nil
}

// folderOf is the folder whose house rules are asked for.
func folderOf(args []string) (string, error) {
	if len(args) == 0 || args[0] == lint.Stdin {
		return ".", nil
	}
	info, err := os.Stat(args[0])
	if err != nil {
		return "", withoutCall(err)
	}
	if info.IsDir() {
		return args[0], nil
	}
	return filepath.Dir(args[0]), nil
}

// showWorked writes the items of orders as the shop's own rules see them.
func showWorked(c *cobra.Command, std streams, flags houseFlags, args []string) error {
	checker, inputs, err := flags.open(args, std, "no order")
	if err != nil {
		return err
	}
	out := bufio.NewWriter(std.out)
	failed := complaints{w: std.err}
	err = checker.Run(c.Context(), inputs.All(), func(results []lint.Result) error {
		for _, res := range results {
			if !failed.checked(&res) {
				continue
			}
			var h *house.House
			if checker.Houses != nil {
				if h, err = checker.Houses.Of(res.File.Name); err != nil {
					return err
				}
			}
			text, err := house.Worked(h, res.Sheet)
			if err != nil {
				return err
			}
			fmt.Fprintf(out, "// %s\n%s", source.Show(res.File.Name), source.ShowLines(text))
		}
		return out.Flush()
	})
	failed.end(checker)
	switch {
	case err != nil:
		return fmt.Errorf("showing what rules see: %w", err)
	case failed.any:
		return errSaid
	}
	return nil
}
