package cue

import (
	"fmt"
	"testing"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// TestFaults says of values that can't be read what is wrong in plain words, at its place.
func TestFaults(t *testing.T) {
	for _, c := range [][2]string{
		{`"k\ud800"`, `5-11 \ud800 is half of a character; write the character itself`},
		{`"\ud83d\ude00\udc00"`, `16-22 \udc00 is half of a character; write the character itself`},
		{`"k\x41"`, `6-9 a backslash in quotes has a special meaning; write it twice`},
		{`"k\u12"`, `9-10 a backslash in quotes has a special meaning; write it twice`},
		{`"k\q"`, `6-7 a backslash in quotes has a special meaning; write it twice`},
		{`"a`, `3-4 a quote mark is not closed on its line`},
		{`9 1/2`, `5-6 this stands behind a field on its line; put a comma before another field, and words and lengths such as 9 1/2 in double quotes`},
		{`012`, `3-6 a number has to be plain, as 9.5, and can't begin with 0; put anything else in double quotes`},
		{`1..2`, `4-5 a number has to be plain, as 9.5, and can't begin with 0; put anything else in double quotes`},
		{`{`, `5-5 expected '}', found the end of the file`},
		{`”a”`, `3-6 words have to be in plain double quotes, as "kelp"`},
		{`3in`, `4-6 this stands behind a field on its line; put a comma before another field, and words and lengths such as 9 1/2 in double quotes`},
		{`@x`, `6-6 an @ can't stand here outside double quotes`},
		{`[1 2]`, `6-7 a comma is missing between two entries, or words or a length such as 9 1/2 are not in double quotes`},
		{`*`, `5-5 a value is missing before this`},
		{`}`, `3-4 a value is missing before this`},
		{"\"\"\"\n a\n  \"\"\"", `3-4 the lines of a text in three quote marks have to begin with the spaces that its last line begins with`},
	} {
		got := ""
		for _, root := range Read(&source.File{Name: "a", Text: "a: " + c[0] + "\n"}, new(order.Memory), false) {
			for _, f := range root.Flaws {
				got += fmt.Sprintf("%d-%d %s", f.At.Start, f.At.End, f.Detail)
			}
		}
		if got != c[1] {
			t.Errorf("%q: %s\nnot %s", c[0], got, c[1])
		}
	}
}
