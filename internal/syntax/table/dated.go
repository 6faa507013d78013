package table

import (
	"strconv"
	"strings"
	"time"
)

// The ways spreadsheets write a date that they made of something else.
var madeDates = []string{time.DateOnly, "2-Jan", "2-Jan-06", "2-Jan-2006", "1/2/2006", "1/2/06", "2/1/2006", "2/1/06", "2.1.2006", "2.1.06", "2. Jan"}

// MadeDate reports whether a text is a date of the kind that spreadsheets make of a typed
// 3/8, and which fraction was typed: one that is found on tape measures, with its parts
// in either order. The fraction is "" if that can't be told.
func MadeDate(text string) (fraction string, ok bool) {
	for _, layout := range madeDates {
		t, err := time.Parse(layout, text)
		if err != nil {
			continue
		}
		ok = true
		day, month := t.Day(), int(t.Month())
		switch {
		case isCut(month, day):
			return strconv.Itoa(month) + "/" + strconv.Itoa(day), true
		case isCut(day, month):
			return strconv.Itoa(day) + "/" + strconv.Itoa(month), true
		}
	}
	return "", ok && !strings.ContainsAny(text, " ")
}

// isCut reports whether part/of is a fraction of an inch, in lowest terms, that tape
// measures show.
func isCut(part, of int) bool {
	return part%2 == 1 && part < of && (of == 2 || of == 4 || of == 8 || of == 16)
}
