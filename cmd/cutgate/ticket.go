package main

import (
	"bufio"
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/render"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

const ticketLong = `ticket prints what the workroom needs to make an order up: what to cut and fold,
where seams and holes go, the iron's setting, the cloth to buy, the cautions, and how
every number was worked out. The numbers are the ones worked out, whatever the order
states. The ticket of an order on hold says not to cut, and why; the exit code is
then 1.

Rows are in the order of the work: measure, cut, join, side hems, foot, top, marks,
holes, make up, press, hang. Items that are alike appear once, with their
count. --as html writes a page to print on A4 or Letter, with a picture of each piece
as it is cut and boxes for what is measured at the bench; a folder's orders come one
to a sheet. --lay adds how the cloth is cut, and which order each piece is for: in
rows, unless the order or the house has it otherwise, and the orders in one cloth
together, unless the house lays them apart.`

const ticketExample = `  cutgate ticket bath.yaml
  cutgate ticket bath.yaml | lp
  cutgate ticket --as html bath.yaml > bath.html
  cutgate ticket --as html --without-workings monday/ > monday.html`

type ticketFlags struct {
	readFlags
	lookFlags
	as    string
	brief bool
	lay   bool
}

func newTicketCmd(std streams) *cobra.Command {
	var flags ticketFlags
	c := &cobra.Command{
		Use:     "ticket [PATH...]",
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
	addFormats(c, &flags.as, render.TicketFormats(), "write the tickets as ", " or ")
	c.Flags().BoolVar(&flags.brief, "without-workings", false, "leave out how the numbers were worked out")
	c.Flags().BoolVar(&flags.lay, "lay", false, "add where all pieces lie on their cloth, those of one cloth together")
	return c
}

func runTicket(c *cobra.Command, std streams, flags ticketFlags, args []string) error {
	opts, err := flags.options(std)
	if err != nil {
		return err
	}
	opts.Brief = flags.brief
	format, err := render.Named(render.TicketFormats(), flags.as)
	if err != nil {
		return err
	}
	checker, inputs, err := flags.open(args, std, "no order")
	if err != nil {
		return err
	}
	out := bufio.NewWriter(std.out)
	tickets := format.Writer(out, opts)
	hold := false
	laid := &render.Laid{Verdicts: map[*worksheet.Sheet]finding.Verdict{}}
	var sheets []*worksheet.Sheet // to lay
	failed := complaints{w: std.err}
	err = checker.Run(c.Context(), inputs.All(), func(results []lint.Result) error {
		for _, res := range results {
			if !failed.checked(&res) {
				continue
			}
			hold = hold || res.Verdict == finding.Hold
			if flags.lay {
				sheets = append(sheets, res.Sheet)
				laid.Verdicts[res.Sheet] = res.Verdict
			}
			if err := tickets.Order(res.Sheet, res.Findings, res.Aside); err != nil {
				return err
			}
		}
		return out.Flush()
	})
	if err == nil && flags.lay {
		err = layTickets(c.Context(), tickets, laid, sheets)
	}
	if err == nil {
		if err = tickets.Close(); err == nil {
			err = out.Flush()
		}
	}
	failed.end(checker)
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

// layTickets lays what all the orders cut, and adds that to their tickets.
func layTickets(ctx context.Context, tickets render.Tickets, laid *render.Laid, sheets []*worksheet.Sheet) (err error) {
	ctx, cancel := context.WithTimeout(ctx, layClock)
	defer cancel()
	if laid.Spreads, laid.Left, err = spread.Of(ctx, sheets, spread.Options{Effort: 1, Seed: 1}); err != nil {
		return err
	}
	return tickets.Lays(laid)
}
