package yaml

import (
	"fmt"
	"testing"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// TestFaults says of values that can't be read what is wrong in plain words, at its place.
func TestFaults(t *testing.T) {
	for _, c := range [][2]string{
		{"1\nunits:in", `15-16 put a plain space behind this colon`},
		{"1\nc:\u00a0x", `11-12 put a plain space behind this colon`},
		{"b: c: d", `5-15 a field can't start here; line it up with the others, or put words that contain a colon in quotes`},
		{"1\nroom:4\ne: c: d", `14-15 put a plain space behind this colon`},
		{"'TR's'", `11-12 a single quote mark inside single quotes ends them; write it twice, or use double quotes`},
		{"{x: 'TR's 7', y: 1}", `15-16 a single quote mark inside single quotes ends them; write it twice, or use double quotes`},
		{"a\u0085b", `9-11 an invisible character (U+0085) ends the line here; take it out`},
		{"a\u2028b", `9-12 an invisible character (U+2028) ends the line here; take it out`},
		{"a\u2029b", `9-12 an invisible character (U+2029) ends the line here; take it out`},
		{"x\n? b", ``},
		{"a\uffffb", `9-12 it has U+FFFF, which is no character; take it out`},
		{"a\ufffeb", `9-12 it has U+FFFE, which is no character; take it out`},
		{"a\x7fb", `9-10 it has a control character (U+007F); take it out`},
		{"\"\\x\"", `5-12 a backslash in double quotes has a special meaning; write it twice, or use single quotes`},
		{"\"\\ud800\"", `5-16 a backslash in double quotes stands for half of a character, or for none; write the character itself`},
		{"\"\\u12\"", `5-14 a backslash in double quotes has a special meaning; write it twice, or use single quotes`},
		{"'a", `5-10 a quote mark is not closed`},
		{"{a", `5-10 a { is not closed, or a comma is missing between its fields`},
		{"[a", `5-10 a [ is not closed, or a comma is missing between its entries`},
		{"\n - {a: 1, b: \n - {c: 2}", `10-21 a } is missing: the { on this line is not closed`},
		{"\n - {a: 1}\n - {a: \"}\", b: \n - {c: 2}", `20-33 a } is missing: the { on this line is not closed`},
		{"\n - {a: 1, b: [c, \n - {c: 2}", `10-25 a } is missing: the { on this line is not closed`},
		{"? a", `5-11 an entry can't start with ? here; put it in quotes`},
		{">x", `5-10 nothing can stand behind a > or a | that starts an entry; put it in quotes`},
		{"|0\n a", `5-10 nothing can stand behind a > or a | that starts an entry; put it in quotes`},
		{"! a", ``},
		{"!<a", `5-11 an entry that starts with ! has a special meaning; put it in quotes`},
		{"!a! b", `5-13 an entry that starts with ! has a special meaning; put it in quotes`},
		{"&", `5-9 an entry that starts with & or * has to have a name behind it; put it in quotes`},
		{"*", `5-9 an entry that starts with & or * has to have a name behind it; put it in quotes`},
		{"%a", `5-10 an entry can't start with this character; put it in quotes`},
		{"@a", `5-10 an entry can't start with this character; put it in quotes`},
		{"a: b", `5-12 a field can't start here; line it up with the others, or put words that contain a colon in quotes`},
		{"- a", `5-11 a list entry can't go here`},
		{"*a", `8-10 nothing is called &a before this`},
		{"\"a\n---\nb\"", `5-10 a quote mark is not closed18-22 a field can't start here; line it up with the others, or put words that contain a colon in quotes`},
	} {
		got := ""
		for _, root := range Read(&source.File{Name: "a", Text: "k: 1\na: " + c[0] + "\nb: 2\n"}, new(order.Memory)) {
			for _, f := range root.Flaws {
				got += fmt.Sprintf("%d-%d %s", f.At.Start, f.At.End, f.Detail)
			}
		}
		if got != c[1] {
			t.Errorf("%q: %s\nnot %s", c[0], got, c[1])
		}
	}
}
