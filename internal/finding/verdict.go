package finding

// A Verdict is what the findings of an order come to.
type Verdict uint8

// The verdicts, best first.
const (
	Clear Verdict = iota // nothing above a note
	Ask                  // a warning
	Hold                 // an error
)

var verdictNames = [...]string{"clear to cut", "ask first", "hold"}

func (v Verdict) String() string { return verdictNames[v] }

// Verdicts are the verdicts, best first.
func Verdicts() []Verdict { return []Verdict{Clear, Ask, Hold} }

// VerdictOf returns what the findings come to, those that are new and those that
// were known before alike: what was wrong yesterday is no fitter to cut today.
func VerdictOf(lists ...[]Finding) Verdict {
	worst := Clear
	for _, findings := range lists {
		for i := range findings {
			switch findings[i].Level {
			case Error:
				return Hold
			case Warning:
				worst = Ask
			}
		}
	}
	return worst
}
