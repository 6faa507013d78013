package finding

// An Aside is what there is to say of an order beside its findings.
type Aside struct {
	Waived []Waived  // by place; they count neither for the verdict nor for the exit code
	Known  []Finding // by place; known before, so that they count for the verdict but not for the exit code
	Above  []Finding // by place; of cells of a table that several orders share, and reported with an order before
	House  *House    // the shop's own rules that it was checked by; nil where there were none
}

// Verdict is what the findings of an order come to, with those that are reported
// elsewhere or were known before: an order is no fitter to cut for it.
func (a *Aside) Verdict(found []Finding) Verdict { return VerdictOf(found, a.Known, a.Above) }

// A Waived is a finding that somebody waives on the order.
type Waived struct {
	Finding
	Because string
	By      string // "" where nobody signed
	Until   string // the last day, as year-month-day; "" without an end
}

// A House is a shop's own rules, and what they let through that would be reported
// otherwise.
type House struct {
	File    string
	Off     []string  // rules, and topics, that they skip
	Lowered []Lowered // those whose findings they hold for less than usual
}

// A Lowered is a rule, or a topic, whose findings a shop holds for less than usual.
type Lowered struct {
	Of string
	To Level
}
