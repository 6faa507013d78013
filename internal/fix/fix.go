// Package fix makes the fixes of what is found in a text, round by round, until
// nothing more is to be made.
//
// # Law
//
// In one round the findings are gone through by place, rule and message. Of a
// finding's alternative fixes the first that is sure enough is taken, whole or
// not at all: one whose edits overlap those taken before waits for the next
// round, and an edit that another fix has made already is made once. The text
// that comes of it is then checked anew. A text that can no longer be read, one
// that was there before, and one that is not settled after [MaxRounds] are given
// up: then the text that came in stands. But where fixes undo each other that are not all
// certain, it is begun anew without those that are not. What is only to be shown is never made.
//
// # What it is not
//
// It knows no rule and no format, reads no file and writes none: what is found in
// a text is the caller's to say.
package fix

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/source"
)

// MaxRounds is how many rounds of fixes a text is given to settle.
const MaxRounds = 10

// A Check says what is found in a text. An error means that the text can't be
// read, or can't be read any more.
type Check func(text string) ([]finding.Finding, error)

// A Result is a text that has settled.
type Result struct {
	Text    string
	Applied []Applied // by round and place
	Rounds  int       // that changed something
	Found   []finding.Finding
	Left    []finding.Finding // those of Found with fixes, none of them sure enough
}

// Applied is a fix that was made.
type Applied struct {
	Finding finding.Finding // its places are in the text that the round began with
	Fix     finding.Fix
	Round   int            // from 1
	Edits   []finding.Edit // those of the fix that none before it has made
	Now     []source.Range // where the text of each of them stands in the end
}

// Unsettled is the error of fixes that were given up. The text stands as it was.
type Unsettled struct {
	Rules []string // whose fixes they are, each once
	Why   string
	Err   error // why the text could no longer be read; nil otherwise

	unsure []string // those of them whose fixes are not certain
}

// Error names the rules.
func (e *Unsettled) Error() string {
	s := "the fixes of " + strings.Join(e.Rules, ", ") + " " + e.Why
	if e.Err != nil {
		s += ": " + e.Err.Error()
	}
	return s
}

// Unwrap returns why the text could no longer be read.
func (e *Unsettled) Unwrap() error { return e.Err }

// Of returns the fix of f that is taken where fixes must be as sure as least:
// the first such, or nil.
func Of(f *finding.Finding, least finding.Sureness) *finding.Fix {
	least = max(least, finding.Likely)
	for i := range f.Fixes {
		if fix := &f.Fixes[i]; fix.Sureness >= least && len(fix.Edits) > 0 {
			return fix
		}
	}
	return nil
}

// Settle makes all fixes that are as sure as least. With an error the Result has
// the text that came in and nothing else.
func Settle(text string, least finding.Sureness, check Check) (Result, error) {
	passed := map[string]bool{} // the rules of which only the certain fixes are made
	for {
		res, err := settle(text, least, check, passed)
		var u *Unsettled
		if !errors.As(err, &u) || len(u.unsure) == 0 {
			return res, err
		}
		for _, r := range u.unsure {
			passed[r] = true
		}
	}
}

func settle(text string, least finding.Sureness, check Check, passed map[string]bool) (Result, error) {
	was := Result{Text: text}
	seen := []string{text}
	rules := [][]string{nil} // that made each of the texts seen
	var done []Applied
	for {
		now, round := seen[len(seen)-1], len(seen)
		found, err := check(now)
		if err != nil && round == 1 {
			return was, fmt.Errorf("checking a text before its fixes: %w", err)
		}
		if err != nil {
			return was, &Unsettled{Rules: rules[round-1], Why: "leave a text that can't be checked", Err: err}
		}
		list, taken, err := choose(now, found, least, passed)
		if err != nil {
			return was, err
		}
		if len(taken) == 0 {
			return Result{Text: now, Applied: done, Rounds: round - 1, Found: found, Left: left(found)}, nil
		}
		for i := range taken {
			taken[i].Round = round
		}
		if round > MaxRounds {
			return was, &Unsettled{Rules: rulesOf(taken), Why: fmt.Sprintf("have not settled after %d rounds", MaxRounds)}
		}
		next := finding.Apply(now, edits(list))
		rules = append(rules, rulesOf(taken))
		if at := slices.Index(seen, next); at >= 0 {
			all := slices.Concat(rules[at+1:]...)
			slices.Sort(all)
			u := &Unsettled{Rules: slices.Compact(all), Why: "undo each other"}
			for _, a := range slices.Concat(done, taken) {
				if a.Round > at && a.Fix.Sureness < finding.Certain {
					u.unsure = append(u.unsure, a.Finding.Rule)
				}
			}
			return was, u
		}
		place(list, taken, done)
		done = append(done, taken...)
		seen = append(seen, next)
	}
}

// left are the findings whose fixes are not sure enough. None of them has one
// that is, as none was taken.
func left(found []finding.Finding) (list []finding.Finding) {
	for _, f := range found {
		if len(f.Fixes) > 0 {
			list = append(list, f)
		}
	}
	return list
}

// rulesOf are the rules whose fixes were taken, each once.
func rulesOf(taken []Applied) []string {
	var list []string
	for i := range taken {
		list = append(list, taken[i].Finding.Rule)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// inOrder sorts findings by place, rule and message.
func inOrder(found []finding.Finding) []finding.Finding {
	return slices.SortedStableFunc(slices.Values(found), func(a, b finding.Finding) int {
		return cmp.Or(
			cmp.Compare(a.At.Start, b.At.Start),
			strings.Compare(a.Rule, b.Rule),
			cmp.Compare(a.At.End, b.At.End),
			strings.Compare(a.Message, b.Message),
		)
	})
}
