package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"cutgate/internal/finding"
	"cutgate/internal/lay"
	"cutgate/internal/lint"
	"cutgate/internal/render"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

const layLong = `lay shows where on the cloth each piece is cut: in rows right across, as most workrooms
cut, or as the order or the house has it laid, with the running length, the least length
any lay could take, and what other ways of cutting would save. Orders in one cloth are
laid together unless the house lays them apart; each piece says which order it is for, and
the saving is shown.

The grain runs along the bolt, and all pieces lie the same way up. Repeats are
matched, with all of one half of a half drop before the other unless the order's cuts go
by turns; flaws and the ends of bolts are avoided. Each one that is made is cut from one
dye lot, though not all of a set need be. Cloths count as one where name, width, repeat,
nap, shrinkage, bolts and the way of cutting agree.

The same orders are laid the same way on every machine: --effort counts steps, not
seconds. Whatever the --mode or the effort, the cloth to buy stays as on the ticket. The
exit code is 1 if an order is on hold or pieces don't fit.`

const layExample = `  cutgate lay bath.yaml
  cutgate lay --as svg bath.yaml > bath.svg
  cutgate lay --mode guillotine --turn "zip strip,boxing" seat.yaml
  cutgate lay --cloth kelp orders/`

// layClock is a safety stop for each unit of effort: far more than the steps take.
const layClock = 2 * time.Minute

type layFlags struct {
	readFlags
	lookFlags
	as     string
	mode   string
	cloth  string
	turn   []string
	apart  bool
	effort int64
	seed   uint64
}

func newLayCmd(std streams) *cobra.Command {
	var flags layFlags
	c := &cobra.Command{
		Use:     "lay [PATH...]",
		Short:   "lay out the pieces of orders on their cloth",
		Long:    layLong,
		Example: layExample,
		RunE: func(c *cobra.Command, args []string) error {
			return runLay(c, std, flags, args)
		},
	}
	flags.readFlags.add(c)
	flags.addPaths(c)
	flags.lookFlags.add(c)
	addFormats(c, &flags.as, render.LayFormats(), "write the lays as ", ", ")
	c.Flags().StringVar(&flags.mode, "mode", "", "how the cloth is cut, whatever the order or the house says: rows (right across), guillotine (every cut from edge to edge), free")
	c.Flags().StringVar(&flags.cloth, "cloth", "", "lay only the cloth of this name")
	c.Flags().StringSliceVar(&flags.turn, "turn", nil, "pieces that may be turned where the cloth has nap: none and no pattern, such as \"zip strip,boxing\"")
	c.Flags().BoolVar(&flags.apart, "apart", false, "lay each order by itself")
	c.Flags().Int64Var(&flags.effort, "effort", 1, "search this many times as long")
	c.Flags().Uint64Var(&flags.seed, "seed", 1, "number the search starts from")
	completes(c, "mode", modeWords()...)
	return c
}

func runLay(c *cobra.Command, std streams, flags layFlags, args []string) error {
	format, err := render.Named(render.LayFormats(), flags.as)
	if err != nil {
		return err
	}
	var mode *lay.Mode
	if flags.mode != "" {
		m, err := layMode(flags.mode)
		if err != nil {
			return err
		}
		mode = &m
	}
	if flags.effort < 1 {
		return fmt.Errorf("--effort can't be %d: write a whole number from 1 up", flags.effort)
	}
	opts, err := flags.options(std)
	if err != nil {
		return err
	}
	checker, inputs, err := flags.open(args, std, "no order")
	if err != nil {
		return err
	}
	laid := &render.Laid{Verdicts: map[*worksheet.Sheet]finding.Verdict{}}
	var sheets []*worksheet.Sheet
	hold := false
	failed := complaints{w: std.err}
	err = checker.Run(c.Context(), inputs.All(), func(results []lint.Result) error {
		for _, res := range results {
			if !failed.checked(&res) {
				continue
			}
			sheets = append(sheets, res.Sheet)
			laid.Verdicts[res.Sheet] = res.Verdict
			hold = hold || res.Verdict == finding.Hold
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("reading orders to lay: %w", err)
	}
	failed.end(checker)
	for i := range flags.turn {
		flags.turn[i] = strings.TrimSpace(flags.turn[i])
	}
	if len(sheets) > 0 {
		if err := turnable(flags.turn, sheets); err != nil {
			return err
		}
	}
	ctx, cancel := context.WithTimeout(c.Context(), layClock*time.Duration(flags.effort))
	defer cancel()
	laid.Spreads, laid.Left, err = spread.Of(ctx, sheets, spread.Options{
		Mode: mode, Only: flags.cloth, Apart: flags.apart, Turn: flags.turn, Effort: flags.effort, Seed: flags.seed,
	})
	if err != nil {
		return err
	}
	if len(laid.Spreads)+len(laid.Left) == 0 {
		if flags.cloth != "" {
			return fmt.Errorf("no order cuts anything from a cloth %q", flags.cloth)
		}
		if !failed.any {
			return errors.New("nothing to lay: no piece of these orders could be worked out")
		}
		return errSaid
	}
	if err := format.Writer(std.out, laid, opts); err != nil {
		return fmt.Errorf("writing lays: %w", err)
	}
	if failed.any {
		return errSaid
	}
	for _, s := range laid.Spreads {
		hold = hold || s.Lay().Left != nil
	}
	if hold {
		return errFound
	}
	return nil
}

func layMode(word string) (lay.Mode, error) {
	if m, ok := lay.ModeNamed(word); ok {
		return m, nil
	}
	return 0, fmt.Errorf("unknown way to cut %q%s", word, hint(word, modeWords()))
}

func modeWords() (words []string) {
	for _, m := range lay.Modes() {
		words = append(words, m.String())
	}
	return words
}

// turnable is an error where no order has a piece of one of the names.
func turnable(names []string, sheets []*worksheet.Sheet) error {
	var pieces []string
	for _, s := range sheets {
		for i := range s.Items {
			for _, p := range s.Items[i].Pieces {
				if !slices.Contains(pieces, p.Name) {
					pieces = append(pieces, p.Name)
				}
			}
		}
	}
	choose := "choose one of " + oneOf(pieces)
	if len(pieces) == 1 {
		choose = "there is only " + pieces[0]
	}
	for _, name := range names {
		if !slices.Contains(pieces, name) {
			return fmt.Errorf("no order has a piece %q%s", name, hintOr(name, pieces, choose))
		}
	}
	return nil
}
