package json

import (
	"fmt"
	"testing"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// TestFaults says of texts that can't be read what is wrong in plain words, at its place.
func TestFaults(t *testing.T) {
	for _, c := range [][2]string{
		{`{"client": "k\ud800lp", "a": 1}`, `13-19 \ud800 is half of a character; write the character itself`},
		{`{"client": "\udc00"}`, `12-18 \udc00 is half of a character; write the character itself`},
		{`{"client": "\ud83d\u0041"}`, `12-18 \ud83d is half of a character; write the character itself`},
		{`{"client": "a\xb"}`, `13-15 a backslash in quotes has a special meaning; write it twice`},
		{`{"client": "a\u12g4"}`, `13-15 a backslash in quotes has a special meaning; write it twice`},
		{`{"a\q": 1}`, `3-5 a backslash in quotes has a special meaning; write it twice`},
		{`{"order": , "units": "in"}`, `10-11 nothing stands before this ,; write null to leave a field blank`},
		{`{"order": }`, `10-11 nothing stands before this }; write null to leave a field blank`},
		{`{"order": 1,}`, `11-12 nothing stands before or behind this comma; take it out`},
		{`{"items": [1,]}`, `12-13 nothing stands before or behind this comma; take it out`},
		{`{"items": [,1]}`, `11-12 nothing stands before or behind this comma; take it out`},
		{`{,"a": 1}`, `1-2 nothing stands before or behind this comma; take it out`},
		{`{"order" "A"}`, `9-10 a name has no colon after it`},
		{`{"order": "A" "units": "in"}`, `14-15 a comma is missing before this, or a length such as "9 1/2" is not in double quotes`},
		{`{"width": 9 1/2}`, `12-13 a comma is missing before this, or a length such as "9 1/2" is not in double quotes`},
		{`{"width": [9 1/2]}`, `13-14 a comma is missing before this, or a length such as "9 1/2" is not in double quotes`},
		{`{"width": 1/2}`, `11-12 a comma is missing before this, or a length such as "9 1/2" is not in double quotes`},
		{`{order: 1}`, `1-2 a name has to be in double quotes, and so have words and lengths such as 9 1/2`},
		{`{'order': 1}`, `1-2 words have to be in plain double quotes, as "kelp"`},
		{`{"order": TR-1}`, `10-11 words, and lengths such as 9 1/2, have to be in double quotes`},
		{`{"order": nul}`, `13-14 words, and lengths such as 9 1/2, have to be in double quotes`},
		{`{"order": nope}`, `11-12 words, and lengths such as 9 1/2, have to be in double quotes`},
		{`{"order": -}`, `11-12 a number has to be plain, as 9.5; put anything else in double quotes, as "9 1/2"`},
		{`{"order": 1.}`, `12-13 a number has to be plain, as 9.5; put anything else in double quotes, as "9 1/2"`},
		{`{"order": 1e}`, `12-13 a number has to be plain, as 9.5; put anything else in double quotes, as "9 1/2"`},
		{`{"order": 012}`, `11-12 a number can't begin with 0; put the number of an order in double quotes`},
		{`{"order": +1}`, `10-11 words, and lengths such as 9 1/2, have to be in double quotes`},
		{`{"order": .5}`, `10-11 words, and lengths such as 9 1/2, have to be in double quotes`},
		{`{"order"}`, `8-9 a name has no colon after it`},
		{`{"order":`, `9-9 it ends too early; a bracket or a quote mark is not closed`},
		{`{"order": "a`, `12-12 it ends too early; a bracket or a quote mark is not closed`},
		{`{"order": 1]`, `11-12 there is no bracket that this one closes`},
		{`[1}`, `2-3 there is no bracket that this one closes`},
		{`{1: 2}`, `1-2 a name has to be in double quotes`},
		{`{"a": 1} x`, `9-10 this stands behind the bracket that closes the order`},
		{`{"a": 1}}`, `8-9 there is no bracket that this one closes`},
		{`{"a": “x”}`, `6-9 words have to be in plain double quotes, as "kelp"`},
		{`{"a": 1;}`, `7-8 a comma is missing before this, or a length such as "9 1/2" is not in double quotes`},
		{`nope`, `1-2 it is not JSON; if it is YAML, let the file's name end in .yaml`},
		{"{\"client\": \"a\nb\"}", `13-14 a quote mark is not closed on its line`},
		{"{\"client\": \"a\tb\"}", `13-14 there is a control character in quotes; take it out, or write a tab as \t`},
		{"{\"client\": \"a\x01b\"}", `13-14 there is a control character in quotes; take it out, or write a tab as \t`},
	} {
		got := ""
		for _, root := range Read(&source.File{Name: "a", Text: c[0]}, new(order.Memory)) {
			for _, f := range root.Flaws {
				got += fmt.Sprintf("%d-%d %s", f.At.Start, f.At.End, f.Detail)
			}
		}
		if got != c[1] {
			t.Errorf("%q: %s\nnot %s", c[0], got, c[1])
		}
	}
}
