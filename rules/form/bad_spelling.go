package form

import (
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var badSpelling = &rule.Rule{
	ID:    "form/bad-spelling",
	Title: "number that can't be read",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runBadSpelling,
	Doc: `
Checks
Whether lengths, counts, weights, percentages, iron settings and dates can be read
as written.

Because
A number that can't be read can't be checked, and is easily misread at the
cutting table too. A fullness in percent is one of these: some mean 2 to 1 by
100 %, others 1 to 1.

Working
A length is a number with or without a unit: 68, 9 1/2, 9-1/2 in, 6' 2", 1.5 m,
137cm. Other measures are a number and a unit. The name of a size, such as queen, is
no measurement.

Correction
Letters typed for digits, O for 0 and l or I for 1, are corrected with --likely where
that makes a length; what can be worked out is written as worked out, with --likely too.

Source
common practice, no source; Decorating Basics, Fullness and what it means, for
fullness in percent
`,
}

func runBadSpelling(p *rule.Pass) {
	for _, f := range flaws(p, order.BadSpelling) {
		if slices.ContainsFunc(p.Sheet.Misread, func(m worksheet.Misread) bool { return f.Node != nil && m.Node == f.Node }) {
			continue // it was swapped with another figure, which is told
		}
		out := finding.Finding{At: f.At, Stated: f.Text}
		detail := f.Detail
		switch {
		case inBase(f.Text):
			detail = "programs read this as a number in base eight; write it in plain digits"
		case detail == "":
			detail = "write " + f.Wanted
		}
		if sizeNames[strings.ToLower(strings.TrimSpace(f.Text))] && f.Wanted == order.WantLength {
			detail = "a size name is not a measurement, and no two tables agree on it: measure the thing itself"
		}
		out.Message = begin(field(f)) + " " + says(f)
		if right, ok := digits(p, f); ok {
			out.Message += ": did you mean " + right + "?"
			out.Corrected = right
			if p.Editable(f.Node) {
				out.Fixes = []finding.Fix{{
					Title: "Write " + right, Sureness: finding.Likely, Edits: []finding.Edit{p.Set(f.Node, right)},
				}}
			}
		} else {
			out.Message += ": " + detail + "."
			if strings.TrimSpace(f.Text) != "" {
				workedOut(p, f, &out)
			}
		}
		p.Report(out)
	}
}

// sizeNames are names of beds and bedding that stand where a measurement is asked for.
var sizeNames = map[string]bool{"single": true, "twin": true, "twin xl": true, "full": true, "double": true, "queen": true, "king": true,
	"super king": true, "california king": true, "cal king": true, "small double": true, "emperor": true, "standard": true, "euro": true, "crib": true, "cot": true}

// inBase reports whether a text begins as programs write numbers in eights, as 0o14,
// which is 12; so nobody can tell which number was meant.
func inBase(text string) bool {
	return len(text) > 2 && text[0] == '0' && text[1]|0x20 == 'o' && text[2]-'0' <= 7
}

// asDigits are letters that are taken for digits.
var asDigits = strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1")

// spelled are counts and times in words, in digits. A pair may be two items or one of two panels.
var spelled = map[string]string{"one": "1", "single": "1", "once": "1", "two": "2", "pair": "2", "double": "2", "twice": "2", "three": "3", "triple": "3",
	"four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10", "eleven": "11", "twelve": "12", "dozen": "12"}

// digits writes a number that stands in words, or a length with digits for the letters that
// look like them, in digits, and reports whether it can be read then.
func digits(p *rule.Pass, f *order.Flaw) (string, bool) {
	if n, ok := spelled[strings.TrimPrefix(strings.ToLower(strings.TrimSpace(f.Text)), "a ")]; ok && !(n == "2" && f.Name == "quantity") && (strings.HasPrefix(f.Wanted, "a whole") || strings.HasPrefix(f.Wanted, "a plain")) {
		return n, true
	}
	if f.Wanted != order.WantLength || inBase(f.Text) {
		return "", false
	}
	number, unit := f.Text, ""
	if i := strings.LastIndexByte(number, ' '); i >= 0 {
		number, unit = number[:i], number[i:]
	}
	for _, text := range [...]string{asDigits.Replace(number) + unit, asDigits.Replace(f.Text)} {
		if _, _, err := length.Parse(text, p.Sheet.Unit); err == nil && text != f.Text {
			return text, true
		}
	}
	return "", false
}
