package finding

// An Aside is what was found in an order and is not reported as a finding. It
// counts neither for the verdict nor for the exit code.
type Aside struct {
	Waived []Waived // by place
	Known  int      // how many were known before
}

// A Waived is a finding that somebody waives on the order.
type Waived struct {
	Finding
	Because string
	By      string // "" where nobody signed
	Until   string // the last day, as year-month-day; "" without an end
}
