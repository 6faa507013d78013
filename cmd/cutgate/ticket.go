package main

import (
	"bufio"
	"fmt"

	"github.com/spf13/cobra"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/render"
)

const ticketLong = `ticket prints what the workroom needs to make an order up: what to cut and fold,
where seams and holes go, the iron's setting, the cloth to buy, the cautions, and how
every number was worked out. The numbers are the ones worked out, whatever the order
states. The ticket of an order on hold says not to cut, and why; the exit code is
then 1.`

const ticketExample = `  cutgate ticket bath.yaml
  cutgate ticket bath.yaml | lp`

type ticketFlags struct {
	readFlags
	lookFlags
}

func newTicketCmd(std streams) *cobra.Command {
	var flags ticketFlags
	c := &cobra.Command{
		Use:     "ticket [ORDER...]",
		Short:   "print what to cut and how",
		Long:    ticketLong,
		Example: ticketExample,
		RunE: func(c *cobra.Command, args []string) error {
			return runTicket(c, std, flags, args)
		},
	}
	flags.readFlags.add(c)
	flags.addPaths(c)
	flags.lookFlags.add(c)
	return c
}

func runTicket(c *cobra.Command, std streams, flags ticketFlags, args []string) error {
	opts, err := flags.options(std)
	if err != nil {
		return err
	}
	checker, inputs, err := flags.open(args, std, "no order")
	if err != nil {
		return err
	}
	out := bufio.NewWriter(std.out)
	var hold, begun bool
	failed := complaints{w: std.err}
	err = checker.Run(c.Context(), inputs.All(), func(results []lint.Result) error {
		for _, res := range results {
			if res.Err != nil {
				failed.add(res.Err)
				continue
			}
			if begun {
				fmt.Fprint(out, "\n\n")
			}
			begun = true
			hold = hold || res.Verdict == finding.Hold
			if err := render.Ticket(out, res.Sheet, res.Findings, res.Aside, opts); err != nil {
				return err
			}
		}
		return out.Flush()
	})
	doubt(std.err, checker)
	switch {
	case err != nil:
		return fmt.Errorf("printing tickets: %w", err)
	case failed.any:
		return errSaid
	case hold:
		return errFound
	}
	return nil
}
