package table

import (
	"strconv"
	"strings"
	"time"
)

// The ways that spreadsheets write a date which they made of something else.
var madeDates = []string{time.DateOnly, "2-Jan", "2-Jan-06", "2-Jan-2006", "1/2/2006", "1/2/06", "2/1/2006", "2/1/06", "2.1.2006", "2.1.06", "2. Jan"}

// MadeDate reports whether a text is a date, as spreadsheets make one of 3/8 that
// somebody types, and which fraction that was: one that people cut by, with the
// parts in either order. It is "" where that can't be told.
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

// isCut reports whether part/of is a fraction in lowest terms of an inch that
// tapes have.
func isCut(part, of int) bool {
	return part%2 == 1 && part < of && (of == 2 || of == 4 || of == 8 || of == 16)
}
