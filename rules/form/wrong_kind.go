package form

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

var wrongKind = &rule.Rule{
	ID:    "form/wrong-kind",
	Title: "field filled in the wrong way",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Run:   runWrongKind,
	Doc: `
Checks
Whether each field is filled in as it should be: in parts, as a list, as true or false, or
as one figure or word.

Because
Anything else can only be guessed at: a hem that says just “4 in” does not say how often
it is folded.

Working
Each field takes one of these.

Correction
Where a list belongs, a single entry is put in brackets.

Source
common practice, no source
`,
}

func runWrongKind(p *rule.Pass) {
	for _, f := range flaws(p, order.WrongKind) {
		p.Report(finding.Finding{
			At:      f.At,
			Message: and(wrongKindOf(f), f.Detail),
			Stated:  f.Text,
			Fixes:   listOfOne(p, f),
		})
	}
}

// wrongKindOf says what a field holds and what it takes.
func wrongKindOf(f *order.Flaw) string {
	name := begin(field(f))
	switch scalar := strings.TrimSpace(f.Text) != ""; {
	case f.Wanted == order.WantList && scalar:
		return fmt.Sprintf("%s takes a list: put %s in square brackets.", name, quote(f.Text))
	case strings.HasPrefix(f.Wanted, "a list") && f.Node != nil && f.Node.Form == order.Map:
		return fmt.Sprintf("%s takes a list: put each entry in square brackets or after a dash.", name)
	case f.Name == "cloth" && f.Node != nil && f.Node.Form == order.Map:
		return fmt.Sprintf("%s is given in parts: list the cloth under `cloths`, and write its name here.", name)
	case f.Name == "fiber" && scalar:
		as := fibersIn(f.Text)
		if as == "" {
			return fmt.Sprintf("%s says %s: write each fiber with its percent, as in %s.", name, quote(f.Text), f.Wanted)
		}
		return fmt.Sprintf("%s says %s: write it as %s.", name, quote(f.Text), as)
	case grouped(f.Wanted) && scalar && strings.Count(f.Wanted, "…") == 1 && strings.IndexFunc(f.Text, unicode.IsLetter) == 0:
		return fmt.Sprintf("%s says %s: write it as %s.", name, quote(f.Text), strings.Replace(f.Wanted, "…", clip(f.Text), 1))
	case grouped(f.Wanted) && scalar:
		return fmt.Sprintf("%s says %s: write it as %s.", name, quote(f.Text), f.Wanted)
	}
	return fmt.Sprintf("%s %s: write %s.", name, says(f), f.Wanted)
}

var (
	sharesFirst = regexp.MustCompile(`^\s*(\d{1,3})\s*%?\s*([\pL]+)\s*(?:[,;/+&]|and\b)?`)
	sharesLast  = regexp.MustCompile(`^\s*([\pL]+)\s*(\d{1,3})\s*%?\s*(?:[,;/+&]|and\b)?`)
)

// fibersIn is a cloth's fibers as the form has them, from a text that names each with its
// share, or a single one without; "" for any other.
func fibersIn(text string) string {
	var list []string
	for _, shares := range [...]*regexp.Regexp{sharesFirst, sharesLast} {
		rest, sum := strings.ToLower(text), 0
		list = list[:0]
		for m := shares.FindStringSubmatch(rest); m != nil; m = shares.FindStringSubmatch(rest) {
			share, fiber := m[1], m[2]
			if shares == sharesLast {
				share, fiber = fiber, share
			}
			n, _ := strconv.Atoi(share) // of three digits at most
			sum += n
			list = append(list, fiber+": "+share)
			rest = rest[len(m[0]):]
		}
		if strings.TrimSpace(rest) == "" && sum == 100 {
			return "{" + strings.Join(list, ", ") + "}"
		}
	}
	if fiber := strings.ToLower(strings.TrimSpace(text)); fiber != "" && strings.IndexFunc(fiber, func(r rune) bool { return !unicode.IsLetter(r) }) < 0 {
		return "{" + fiber + ": 100}"
	}
	return ""
}

// listOfOne puts the one entry of a list of words in brackets.
func listOfOne(p *rule.Pass, f *order.Flaw) []finding.Fix {
	n := f.Node
	if f.Wanted != order.WantList || !p.Editable(n) || n.Form != order.Scalar && n.Form != order.Number || n.Text == "" {
		return nil
	}
	at := n.At
	if n.Quote != 0 {
		at = source.Range{Start: at.Start - 1, End: at.End + 1}
	} else if strings.ContainsAny(n.Text, ",[]{}:#\n") {
		return nil
	}
	return []finding.Fix{{
		Title: "Put it in square brackets", Sureness: finding.Certain,
		Edits: []finding.Edit{{Range: at, Text: "[" + p.Order.File.Text[at.Start:at.End] + "]"}},
	}}
}
