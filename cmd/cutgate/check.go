package main

import (
	"bufio"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/render"
	"cutgate/rules"
)

const checkLong = `check reads work orders and says what is wrong with them.

A path is a file, a folder that is searched for orders, or - for standard input,
which is also read where no path is given. A file holds one order or several.
--paths takes a list of paths from a file. Files without orders are skipped, so the
list may name every changed file; of those in a folder that is said. Mistakes in house
rules are reported.

An order with notes at most is clear to cut. One with a warning says to ask first. One
with an error is on hold: cutting would spoil cloth, or someone could be hurt.

Old orders need not all be fixed at once: --save-known saves their findings in a
file, and with --known the exit code depends only on what is new. The verdict stays:
a known mistake still spoils cloth.`

const checkExample = `  cutgate check bath.yaml
  cutgate check --as lines orders/
  export-orders | cutgate check --as jsonl -
  git diff --name-only -z --diff-filter=d | cutgate check --paths -
  cutgate check --save-known known.json orders/
  cutgate check --known known.json orders/`

type checkFlags struct {
	readFlags
	lookFlags
	as        string
	holdAt    string
	quiet     bool
	all       bool
	known     string
	saveKnown string
}

func newCheckCmd(std streams) *cobra.Command {
	var flags checkFlags
	c := &cobra.Command{
		Use:     "check [PATH...]",
		Short:   "say what is wrong with orders",
		Long:    checkLong,
		Example: checkExample,
		RunE: func(c *cobra.Command, args []string) error {
			return runCheck(c, std, flags, args)
		},
	}
	flags.readFlags.add(c)
	flags.addPaths(c)
	flags.lookFlags.add(c)
	addFormats(c, &flags.as, render.Formats(), "write the report as ", ", ")
	c.Flags().StringVar(&flags.holdAt, "hold-at", finding.Error.String(), "exit with 1 at this level or above: "+oneOf(levelWords()))
	completes(c, "hold-at", levelWords()...)
	c.Flags().BoolVarP(&flags.quiet, "quiet", "q", false, "leave out orders that are clear to cut")
	c.Flags().BoolVar(&flags.all, "all", false, "list each order that is clear to cut, however many there are")
	c.Flags().StringVar(&flags.known, "known", "", "exit with 1 only for findings that are not in this file of known findings")
	c.Flags().StringVar(&flags.saveKnown, "save-known", "", "save what is found in this file of known findings, and exit with 0; the report is printed only with --as")
	return c
}

func runCheck(c *cobra.Command, std streams, flags checkFlags, args []string) error {
	format, err := render.Named(render.Formats(), flags.as)
	if err != nil {
		return err
	}
	holdAt, err := parseHoldAt(flags.holdAt)
	if err != nil {
		return err
	}
	opts, err := flags.options(std)
	if err != nil {
		return err
	}
	opts.Quiet, opts.All, opts.HoldAt, opts.Rules, opts.Version, opts.Home = flags.quiet, flags.all, holdAt, rules.All(), version(), home()
	checker, inputs, err := flags.open(args, std, "nothing to check")
	if err != nil {
		return err
	}
	checker.Reuse = true // of an order that was reported nothing is kept but what was found
	inputs.Except = []string{flags.known, flags.saveKnown}
	known, err := readKnown(flags.known, inputs.Largest)
	if err != nil {
		return err
	}
	opts.Known = flags.known != ""
	saved, err := toSave(flags.saveKnown, append(slices.Clone(inputs.Paths), inputs.List))
	if err != nil {
		return err
	}

	progress := newProgress(std.err)
	to := progress.before(std.out)
	if saved.name != "" && !c.Flags().Changed("as") {
		to = io.Discard // what is saved is not read as well, unless a report is asked for
	}
	out := bufio.NewWriterSize(to, 64<<10)
	report := format.Writer(out, opts)
	var worst finding.Level
	failed := complaints{w: progress.before(std.err)}
	var all lint.Known
	var above shared
	err = checker.Run(c.Context(), inputs.All(), func(results []lint.Result) error {
		for i := range results {
			res := &results[i]
			if res.Err != nil {
				if err := out.Flush(); err != nil {
					return err
				}
				failed.add(res.Err)
				if remark(res.Err) {
					continue
				}
				if err := report.Failed(res.File.Name, res.Err); err != nil {
					return err
				}
				continue
			}
			failed.orders = true
			if flags.known != "" || flags.saveKnown != "" { // else nothing is kept of an order
				all.Add(res)
				known.SetAside(res)
			}
			for _, f := range res.Findings {
				worst = max(worst, f.Level)
			}
			above.setAside(res)
			if err := report.Order(res.Sheet, res.Findings, res.Aside); err != nil {
				return err
			}
		}
		progress.add(len(results))
		return out.Flush()
	})
	progress.end()
	failed.end(checker)
	if err == nil {
		err = report.Close()
	}
	if err == nil {
		err = out.Flush()
	}
	if err == nil {
		err = settleKnown(std, saved, known, &all, failed.any)
	}
	switch {
	case err != nil:
		return fmt.Errorf("checking orders: %w", err)
	case failed.any:
		return errSaid
	case saved.name != "": // that was the work, and it is done
		return nil
	case worst >= holdAt:
		return errFound
	}
	return nil
}
