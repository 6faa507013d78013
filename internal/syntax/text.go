package syntax

import (
	"strconv"
	"strings"
	"unicode"

	"cutgate/internal/source"
)

// ByteOrderMark is what some editors put before a text.
const ByteOrderMark = "\ufeff"

// IsUTF16 reports whether a text begins with a byte-order mark of UTF-16, or of UTF-32 that
// begins as that does.
func IsUTF16(text string) bool {
	return strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff")
}

// IsUTF32 reports whether a text begins with a byte-order mark of UTF-32.
func IsUTF32(text string) bool {
	return strings.HasPrefix(text, "\xff\xfe\x00\x00") || strings.HasPrefix(text, "\x00\x00\xfe\xff")
}

// LineEnd returns where the line of i ends.
func LineEnd(text string, i int) int {
	if end := strings.IndexAny(text[i:], "\r\n"); end >= 0 {
		return i + end
	}
	return len(text)
}

// IsNumber reports whether s is a decimal number, with leading zeros at will.
func IsNumber(s string) bool {
	s = strings.TrimPrefix(s, "-")
	digits := 0
	for len(s) > digits && s[digits]-'0' <= 9 {
		digits++
	}
	s = s[digits:]
	if after, ok := strings.CutPrefix(s, "."); ok {
		places := 0
		for len(after) > places && after[places]-'0' <= 9 {
			places++
		}
		if places == 0 {
			return false
		}
		s, digits = after[places:], digits+places
	}
	if digits == 0 {
		return false
	}
	if s != "" && (s[0] == 'e' || s[0] == 'E') {
		s = strings.TrimLeft(s[1:], "+-")
		return s != "" && strings.Trim(s, "0123456789") == ""
	}
	return s == ""
}

// Quoted returns the quote mark that stands on both sides of r, or 0.
func Quoted(text string, r source.Range) byte {
	if r.Start == 0 || r.End >= len(text) || text[r.Start-1] != text[r.End] {
		return 0
	}
	if q := text[r.End]; q == '"' || q == '\'' {
		return q
	}
	return 0
}

// Around returns the range r with the quote marks around it, if they are those.
func Around(text string, r source.Range, quote byte) source.Range {
	if quote != 0 && Quoted(text, r) == quote {
		return source.Range{Start: r.Start - 1, End: r.End + 1}
	}
	return r
}

// Escape writes text for the inside of a pair of double quotes.
func Escape(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case Unprintable(r):
			hex := strconv.FormatInt(int64(r), 16)
			b.WriteString(`\u` + strings.Repeat("0", 4-len(hex)) + hex)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Quote writes text in double quotes.
func Quote(text string) string { return `"` + Escape(text) + `"` }

// IsTruth reports whether text is the word true or false, which is always taken for
// the truth value.
func IsTruth(text string) bool { return text == "true" || text == "false" }

// Unprintable reports whether a text can't hold r as it is in every syntax:
// control characters, what may count as the end of a line, a byte-order mark, and the
// two that are no characters, which YAML does not take.
func Unprintable(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || r == '\ufeff' || r&^1 == 0xfffe
}
