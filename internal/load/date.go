package load

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// parseDate reads a year, a month and a day.
func parseDate(s string) (string, error) {
	const how = "write year, month and day, as 2026-12-18"
	if len(s) != len("2026-12-18") || s[4] != '-' || s[7] != '-' {
		return "", misspelt(how)
	}
	year, err1 := strconv.ParseUint(s[:4], 10, 16)
	month, err2 := strconv.ParseUint(s[5:7], 10, 8)
	day, err3 := strconv.ParseUint(s[8:], 10, 8)
	if err1 != nil || err2 != nil || err3 != nil {
		return "", misspelt(how)
	}
	if month < 1 || month > 12 || day < 1 || day > daysIn(year, month) {
		return "", misspelt("there is no such day")
	}
	return s, nil
}

// daysIn is how many days a month has.
func daysIn(year, month uint64) uint64 {
	return uint64(time.Date(int(year), time.Month(month)+1, 0, 0, 0, 0, 0, time.UTC).Day())
}

// otherDate returns the days that a date may mean which isn't written as the form
// has it, in the form's spelling: one where it can only be that, or the market says
// which part is the month; two where it can be either; none for any other text. The
// year must have four digits, so that it can't be taken for a day.
func otherDate(s, market string) []string {
	s = strings.ToLower(strings.TrimSpace(s))
	for _, midnight := range [...]string{" 00:00:00", "t00:00:00", "t00:00:00z"} { // a spreadsheet's
		s = strings.TrimSuffix(s, midnight)
	}
	parts := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune("/.- ,", r) })
	if len(parts) != 3 {
		return nil
	}
	var n [3]uint64
	named := -1
	for i, p := range parts {
		if m := monthNamed(p); m > 0 && named < 0 {
			n[i], named = m, i
			continue
		}
		for _, th := range [...]string{"st", "nd", "rd", "th"} {
			p = strings.TrimSuffix(p, th)
		}
		var err error
		if n[i], err = strconv.ParseUint(p, 10, 16); err != nil || len(p) > 4 || len(p) == 3 {
			return nil
		}
	}
	var days []string
	add := func(year, month, day int) {
		y, m, d := n[year], n[month], n[day]
		if y < 1900 || m < 1 || m > 12 || d < 1 || d > daysIn(y, m) {
			return
		}
		if text := fmt.Sprintf("%04d-%02d-%02d", y, m, d); !slices.Contains(days, text) {
			days = append(days, text)
		}
	}
	dotted := strings.Contains(s, ".") && named < 0
	switch {
	case named == 0:
		add(2, 0, 1)
	case named == 1 && n[0] > 31:
		add(0, 1, 2)
	case named == 1:
		add(2, 1, 0)
	case named == 2:
	case n[0] > 31:
		add(0, 1, 2)
	default:
		add(2, 1, 0)
		add(2, 0, 1)
		if len(days) == 2 {
			switch {
			case market == "UK" || market == "EU" || market == "AU":
				days = days[:1]
			case market == "US" && !dotted: // with points, the day stands first elsewhere
				days = days[1:]
			}
		}
	}
	return days
}

// monthNamed is the number of the month of that English name, in small letters,
// whole or cut short to three letters or more; 0 if it is none.
func monthNamed(name string) uint64 {
	if name == "sept" {
		return uint64(time.September)
	}
	for m := time.January; len(name) >= 3 && m <= time.December; m++ {
		if strings.HasPrefix(strings.ToLower(m.String()), name) {
			return uint64(m)
		}
	}
	return 0
}
