package editor

import (
	"errors"
	"slices"

	"cutgate/internal/form"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/source"
)

// ordersOf keeps the results of texts that are orders. An editor may send every
// file of a kind, and what is none of ours is none of our business.
func ordersOf(l *load.Loader, f *source.File, format load.Format, results []lint.Result) []lint.Result {
	if load.IsTable(format) { // one heading row is for all of its orders
		if !l.HasOrders(f, format, load.Options{}) {
			return nil
		}
		return results
	}
	return slices.DeleteFunc(results, func(r lint.Result) bool {
		var broken *lint.Broken
		switch {
		case r.Order == nil && errors.As(r.Err, &broken):
			return !l.Begun(f.Text) // reading would break again
		case r.Order == nil:
			return !l.HasOrders(f, format, load.Options{})
		}
		return !l.IsOrder(r.Order)
	})
}

// fieldNamed returns the field of that name, or nil.
func fieldNamed(fields []form.Question, name string) *form.Question {
	for i := range fields {
		if fields[i].Name == name {
			return &fields[i]
		}
	}
	return nil
}
