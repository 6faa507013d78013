package diagnose

import (
	"math"
	"strings"
	"unicode/utf8"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// A blunder is a way to write a number down wrong, with its cost.
type blunder struct {
	name string
	cost float64
}

// stray is no known way to write a number down wrong.
func (b blunder) stray() bool { return b.name == "" && b != littleOff && b != otherWord }

// swap is two values written for each other.
func (b blunder) swap() bool { return b.name == swapped.name || b.name == twoSwapped.name }

// Ways to write a number down wrong.
var (
	tenfold      = blunder{"the decimal place is wrong", 2.5}
	hundredfold  = blunder{"the decimal place is wrong", 3.0}
	digitsTurned = blunder{"two digits were swapped", 2.5}
	inchesForCm  = blunder{"inches were written as centimeters, or the reverse", 2.5}
	smallInches  = blunder{"inches were written as centimeters, or the reverse", 3.2}
	inchesForMm  = blunder{"inches were written as millimeters, or the reverse", 2.8}
	feet         = blunder{"feet were written for inches, or the reverse", 3.0}
	feetForYards = blunder{"feet were written for yards, or the reverse", 3.0}
	yards        = blunder{"inches were written for yards, or the reverse", 3.0}
	roughInch    = blunder{"an inch was taken as 2.5 cm; it is 2.54", 3.0}
	twice        = blunder{"it was doubled", 2.5}
	halved       = blunder{"it was halved", 2.5}
	noFraction   = blunder{"the fraction was dropped", 2.8}
	noWhole      = blunder{"the whole number before the fraction was dropped", 2.8}
	strayWhole   = blunder{"a stray whole number stands before the fraction", 2.8}
	lostSpace    = blunder{"the space before the fraction was lost", 2.8}
	oneOff       = blunder{"it is one off", 3.0}
	littleOff    = blunder{"", 3.6}
	digitLost    = blunder{"a digit was dropped", 3.2}
	digitTwice   = blunder{"a digit was written twice", 3.2}
	twinLost     = blunder{"a digit was dropped", 2.7}
	post         = blunder{"the spaces were counted; there is one more than there are spaces", 2.2}
	oneMore      = blunder{"one too many was counted", 2.2}
	hemIn        = blunder{"a hem was counted in it, or left off", 3.2}
	hemWrong     = blunder{hemIn.name, 4.0} // in an outcome, whose own slips are declared
	swapped      = blunder{worksheet.SidesSwapped, 3.0}
	twoSwapped   = blunder{worksheet.TwoSwapped, swapped.cost}
	besides      = blunder{worksheet.TwoSwapped, 3.4} // in one block of the form
	otherWord    = blunder{"", baseWord}
)

// ofThePen are the names of slips in writing one number down.
var ofThePen = []string{littleOff.name, oneOff.name, digitsTurned.name, digitLost.name, digitTwice.name, noFraction.name, noWhole.name, strayWhole.name, lostSpace.name, post.name, oneMore.name}

// A writer knows how numbers are written at a place of the form.
type writer struct {
	sheet  *worksheet.Sheet
	node   *order.Node
	style  length.Style    // of a length there
	unit   length.Unit     // of a bare number
	stands worksheet.Value // what is read there, in the order's units
	hems   []length.Length // that may be counted in a size, or left off
	of     blunder         // what that is called

	worked bool // it is an outcome

	room    [3]string // for texts
	letters [64]byte  // for misspellings
}

// blunder is the cheapest way in which right may have been written as stated; false
// where none is known. Texts are those of right.
func (w *writer) blunder(stated, right worksheet.Value, texts []string) (best blunder, ok bool) {
	best.cost = math.Inf(1)
	try := func(b blunder, is bool) {
		if is && b.cost < best.cost {
			best, ok = b, true
		}
	}
	a, b := number(stated), number(right)
	if a <= 0 || b <= 0 || stated.Sort == worksheet.Dots {
		return best, false
	}
	if stated.Sort == worksheet.Count {
		try(post, stated.N == right.N-1)
		try(oneMore, stated.N == right.N+1)
	}
	if stated.Sort == worksheet.Mass && math.Abs(a/b-1) < 0.03 {
		return best, false // not written wrong, but weighed otherwise
	}
	is := func(f float64) bool { return w.times(stated, right, f) }
	try(tenfold, is(10) || is(0.1))
	try(hundredfold, is(100) || is(0.01) || is(1000) || is(0.001))
	try(twice, is(2))
	try(halved, is(0.5))
	if stated.Sort == worksheet.Percent {
		try(oneOff, math.Abs(math.Abs(a-b)-0.01) < 1e-6)
	}
	if stated.Sort == worksheet.Length {
		inches := min(a, b) / float64(length.Inch)
		switch {
		case !is(2.54) && !is(1/2.54) && !w.inOther(stated.Length(), right.Length()):
		case inches < 5:
			try(smallInches, true)
		default:
			try(inchesForCm, true)
		}
		try(inchesForMm, is(25.4) || is(1/25.4))
		if w.unit == length.Yd || w.style.Unit() == length.Yd {
			try(feetForYards, is(3) || is(1/3.0))
			try(yards, is(36) || is(1/36.0))
		} else if !w.style.Unit().Metric() {
			try(feet, is(12) || is(1/12.0))
		}
		try(roughInch, w.style.Unit().Metric() && math.Abs(a-b*250/254) < float64(length.Millimetre))
		one, fine := float64(length.Inch), float64(length.Inch)/2
		if u := w.style.Unit(); u.Metric() {
			one, fine = float64(length.Centimetre), float64(length.Centimetre)/2
		}
		off, hair := math.Abs(a-b), float64(length.Step(w.style.Unit()))/2
		if w.worked {
			hair *= 2.02 // the right one was rounded too
		}
		try(oneOff, math.Abs(off-one) < hair)
		try(littleOff, math.Abs(off-fine) < hair || math.Abs(off-2*one) < hair)
		for _, h := range w.hems {
			try(w.of, math.Abs(off-float64(h)) < hair)
		}
	}
	for _, text := range texts {
		b, ok := w.misspelt(w.node.Text, text)
		try(b, ok)
	}
	return best, ok
}

// inOther reports whether stated is a length as somebody would write it who takes inches for
// centimeters, or the reverse: rounded as people round there.
func (w *writer) inOther(stated, right length.Length) bool {
	in, u := length.In, w.style.Unit()
	switch u {
	case length.In:
		in = length.CM
	case length.CM:
	default:
		return false
	}
	meant := stated.MulRatio(length.RatioOf(in.Length(), u.Length()), length.Nearest)
	off := max(meant-right, right-meant)
	for _, g := range worksheet.TapeMarks(in) {
		if meant%g == 0 {
			return 2*off <= g && 50*off < right
		}
	}
	return false
}

// times reports whether stated is right times a factor, as people would have written
// it.
func (w *writer) times(stated, right worksheet.Value, f float64) bool {
	a, b := number(stated), number(right)
	if r := a / (b * f); math.Abs(r-1) < 0.001 || stated.Sort == worksheet.Mass && math.Abs(r-1) < 0.02 {
		return true
	}
	if r := a / (b * f); stated.Sort != worksheet.Length || math.Abs(r-1) > 0.04 && math.Abs(a-b*f) > 3e6 {
		return false
	}
	// Worked on from the right value as it was printed, or printed afterwards.
	v := worksheet.LengthOf(length.Length(math.Round(b * f)))
	if w.wrote(v) {
		return true
	}
	return math.Abs(a-b*f) < float64(length.Step(w.style.Unit()))
}

// texts are the ways in which a person would have written a value at the place: rounded
// to the nearest and up, and to what a tape shows. They hold until the next ones.
func (w *writer) texts(v worksheet.Value) []string {
	if v.Sort != worksheet.Length {
		w.room[0] = w.sheet.Print(w.node, v, length.Nearest)
		return w.room[:1]
	}
	w.room[0] = w.style.Print(v.Length(), length.Nearest)
	if w.even(v.Length()) {
		return w.room[:1]
	}
	texts := w.room[:1]
	for _, text := range [...]string{w.style.Print(v.Length(), length.Up), w.style.Print(v.Length().Round(length.Step(w.style.Unit()), length.Nearest), length.Nearest)} {
		if !contains(texts, text) {
			texts = append(texts, text)
		}
	}
	return texts
}

// even reports whether a length needs no rounding to be written at the place.
func (w *writer) even(l length.Length) bool {
	u := w.style.Unit()
	return (u.Metric() || u == length.In) && l%length.Step(u) == 0
}

// wrote reports whether a person would have written a value as it stands at the place.
func (w *writer) wrote(v worksheet.Value) bool {
	most := length.Inch / 4 // more than a length is rounded by
	if w.style.Unit() == length.Yd {
		most = length.Yard / 8
	}
	if v.Sort != worksheet.Length {
		return w.sheet.Print(w.node, v, length.Nearest) == w.node.Text
	}
	if w.unit == w.sheet.Unit && max(v.N-w.stands.N, w.stands.N-v.N) > int64(most) {
		return false
	}
	return w.style.Print(v.Length(), length.Nearest) == w.node.Text || !w.even(v.Length()) && w.style.Print(v.Length(), length.Up) == w.node.Text
}

// number is a value as a floating point number.
func number(v worksheet.Value) float64 {
	if v.Sort == worksheet.Ratio || v.Sort == worksheet.Percent {
		return float64(v.R.Num) / float64(max(v.R.Den, 1))
	}
	return float64(v.N)
}

// misspelt is the cheapest way in which one text may have been meant by another.
func (w *writer) misspelt(stated, right string) (best blunder, ok bool) {
	best.cost = math.Inf(1)
	if stated == right {
		return best, false
	}
	if d := len(stated) - len(right); (d > 1 || d < -1) && !strings.ContainsAny(right, "./,"+fractionSigns) {
		return best, false // no more than a digit is lost, or stands twice, where there is no part of one
	}
	try := func(b blunder, is bool) {
		if is && b.cost < best.cost {
			best, ok = b, true
		}
	}
	try(lostSpace, strings.Contains(stated, "/") && strings.ReplaceAll(stated, " ", "") == strings.ReplaceAll(right, " ", ""))
	misspellings(w.letters[:0], right, stated, func(text []byte, b blunder) { try(b, string(text) == stated) })
	return best, ok
}

// misspellings gives the texts that a text may become when it is written down wrong,
// those that may be like; any where that is empty. They hold until the next one, as they
// are put into room as far as there is any.
func misspellings(room []byte, text, like string, give func(text []byte, b blunder)) {
	add := func(b blunder, parts ...string) {
		if like != "" {
			sum := 0
			for _, part := range parts {
				sum += len(part)
			}
			if sum != len(like) || !strings.HasPrefix(like, parts[0]) {
				return
			}
		}
		t := room[:0]
		for _, part := range parts {
			t = append(t, part...)
		}
		if len(t) > 0 && string(t) != text {
			give(t, b)
		}
	}
	start, end := numeral(text)
	for i := start; i+1 < end; i++ {
		if !digit(text[i]) {
			continue
		}
		j := i + 1
		if j < end && (text[j] == '.' || text[j] == ',') {
			j++
		}
		if j < end && digit(text[j]) && text[i] != text[j] {
			add(digitsTurned, text[:i], text[j:j+1], text[i+1:j], text[i:i+1], text[j+1:])
		}
	}
	if strings.ContainsAny(text[end:], "0123456789") { // pounds and ounces
		add(tenfold, text[:end], "0", text[end:])
	}
	for i := start; i < end; i++ {
		if !digit(text[i]) {
			continue
		}
		lost, twin := digitLost, i > start && text[i] == text[i-1]
		if twin {
			lost = twinLost
		}
		add(lost, text[:i], text[i+1:])
		add(digitTwice, text[:i+1], text[i:])
	}
	if slash := strings.IndexByte(text, '/'); slash > 0 {
		if space := strings.LastIndexAny(text[:slash], " -"); space > 0 {
			tail := slash + 1
			for tail < len(text) && digit(text[tail]) {
				tail++
			}
			add(noFraction, text[:space], text[tail:])
			add(noWhole, text[space+1:])
		} else {
			for _, whole := range []string{"1", "2", "3"} {
				add(strayWhole, whole, " ", text)
			}
		}
	}
	if sign, after := fractionSign(text); sign > 0 {
		add(noFraction, text[:sign], text[after:])
		add(noWhole, text[sign:])
	} else if sign == 0 {
		for _, whole := range []string{"1", "2", "3"} {
			add(strayWhole, whole, text)
		}
	}
	if point := strings.IndexAny(text, ".,"); point > 0 && point < end {
		add(noFraction, text[:point], text[end:])
		add(noWhole, "0", text[point:])
		add(noWhole, text[point:])
	}
}

// fractionSigns are fractions that are written as one sign.
const fractionSigns = "¼½¾⅛⅜⅝⅞"

// fractionSign is where such a fraction stands in a text; below zero where there is none.
func fractionSign(text string) (start, end int) {
	start = strings.IndexAny(text, fractionSigns)
	if start >= 0 {
		_, n := utf8.DecodeRuneInString(text[start:])
		end = start + n
	}
	return start, end
}

// numeral is where the number of a text stands.
func numeral(text string) (start, end int) {
	for start < len(text) && !digit(text[start]) {
		start++
	}
	end = start
	for end < len(text) && (digit(text[end]) || strings.IndexByte(" ./,-", text[end]) >= 0 && end+1 < len(text) && digit(text[end+1])) {
		end++
	}
	return start, end
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

// meant gives the texts of which a text may be a misspelling. Decimals says whether a whole
// number there may have lost them; in inches people write fractions.
func meant(text string, decimals bool, give func(text string)) {
	add := func(t string) {
		if t != "" && t != text {
			give(t)
		}
	}
	misspellings(make([]byte, 0, 64), text, "", func(t []byte, b blunder) {
		switch b {
		case digitsTurned, digitLost, twinLost, digitTwice, noWhole: // which undo one another
			add(string(t))
		}
	})
	start, end := numeral(text)
	whole := end // where the whole number ends that digits may be missing in
	slash := strings.IndexByte(text, '/')
	if slash > 0 {
		whole = max(start, strings.LastIndexAny(text[:slash], " -"))
	}
	for i := start; i <= whole && whole > start; i++ { // a digit was dropped
		if i < whole && !digit(text[i]) {
			continue
		}
		for d := '0'; d <= '9'; d++ {
			if i == start && d == '0' {
				continue
			}
			add(text[:i] + string(d) + text[i:])
		}
	}
	sign, _ := fractionSign(text)
	if slash < 0 && sign < 0 && end > start {
		for _, f := range []string{"1/2", "1/4", "3/4", "1/8", "3/8", "5/8", "7/8"} {
			if !strings.ContainsAny(text[start:end], ".,") {
				add(text[:end] + " " + f + text[end:])
			}
		}
		if decimals && !strings.ContainsAny(text[start:end], ".,") {
			for d := '1'; d <= '9'; d++ {
				add(text[:end] + "." + string(d) + text[end:])
			}
		}
	}
	if point := strings.IndexAny(text, ".,"); point >= 0 && strings.Trim(text[:point], "0") == "" {
		for _, whole := range []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "12", "15"} {
			add(whole + text[point:])
		}
	}
	if sign == 0 {
		for _, whole := range []string{"1", "2", "3", "4", "5", "6", "8", "10", "12"} {
			add(whole + text)
		}
	}
	if slash > 0 {
		from := slash
		for from > 0 && digit(text[from-1]) {
			from--
		}
		for i := from + 1; i < slash; i++ {
			add(text[:i] + " " + text[i:])
		}
		if from == start {
			for _, whole := range []string{"1", "2", "3", "4", "5", "6", "8", "10", "12"} {
				add(text[:start] + whole + " " + text[start:])
			}
		}
	}
}
