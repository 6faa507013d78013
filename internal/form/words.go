package form

import (
	"slices"
	"strings"
	"unicode"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/trade"
)

// Synonyms map other workrooms' words, in folded spelling, to the form's own.
type Synonyms struct {
	Fields, Values map[string][]string
	Iron           map[string]string       // the settings of irons, in dots
	Goods          map[string][]trade.Word // words that are a kind of goods where a field tells which
}

// synonyms sorts other workrooms' words by where they are meant.
func synonyms(words []trade.Word) Synonyms {
	s := Synonyms{map[string][]string{}, map[string][]string{}, map[string]string{}, map[string][]trade.Word{}}
	for _, w := range words {
		other := Fold(w.Other)
		if w.Where == "iron" {
			s.Iron[other] = w.Form
			continue
		}
		if w.Where == "goods" {
			s.Goods[other] = append(s.Goods[other], w)
			continue
		}
		if w.Where != "value" {
			s.Fields[other] = append(s.Fields[other], Fold(w.Form))
		}
		if w.Where != "field" {
			s.Values[other] = append(s.Values[other], Fold(w.Form))
		}
	}
	return s
}

// Fold spells a word as field names are spelled: in lower case, with underscores for
// spaces and hyphens.
func Fold(s string) string {
	plain := true
	for i := 0; i < len(s) && plain; i++ {
		c := s[i]
		plain = c != ' ' && c != '-' && c < 0x80 && (c < 'A' || c > 'Z')
	}
	if plain {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '-', '\u2010', '\u2011', '\u00a0':
			return '_'
		}
		return r
	}, strings.ToLower(strings.TrimSpace(s)))
}

// Spoken returns the words of a name or a heading, in lower case and the singular; nil for a
// text that is too long to be one.
func Spoken(text string) (words []string) {
	if len(text) > longestName {
		return nil
	}
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) }) {
		words = append(words, strings.TrimSuffix(w, "s"))
	}
	return words
}

// longestName is more than the length of any name or heading of the form.
const longestName = 64

// Numbers returns a folded word with its likely plurals and singulars.
func Numbers(w string) []string {
	all := []string{w, w + "s", w + "es"}
	if t, ok := strings.CutSuffix(w, "s"); ok {
		all = append(all, t)
	}
	if t, ok := strings.CutSuffix(w, "es"); ok {
		all = append(all, t)
	}
	return all
}

// Meanings returns the words that s may mean, folded, the likeliest first: s itself, in
// singular and plural, and what other has for it. A width is not the number of widths.
func Meanings(s string, other map[string][]string) (all []string) {
	for _, w := range Numbers(Fold(s)) {
		if w == "widths" && Fold(s) == "width" {
			continue
		}
		all = append(append(all, w), other[w]...)
	}
	return all
}

// Meant returns which of the form's own words s means: one spelled in another case, with
// hyphens, in the other number, or another workroom's word for it.
func Meant(s string, own []string, other map[string][]string) (string, bool) {
	for _, w := range Meanings(s, other) {
		if i := slices.IndexFunc(own, func(o string) bool { return Fold(o) == w }); i >= 0 {
			return own[i], true
		}
	}
	return "", false
}

// Nearest returns the word of own that s is most likely a misspelling of, or "".
func Nearest(s string, own []string) string {
	s = Fold(s)
	if len(s) > longestName {
		return ""
	}
	closest := func(word string, words []string) string {
		most := max(len(word)/3, min(2, len(word)/2)) // letters that differ
		if len(word) == 4 {
			most = 1 // rods are no room
		}
		return order.Closest(word, words, most+1, Fold)
	}
	near := closest(s, own)
	if a, b := strings.Split(s, "_"), strings.Split(Fold(near), "_"); len(a) == len(b) && len(a) > 1 {
		for i, word := range a { // cloth width is no slip of flat width
			if len(word) > 2 && closest(word, b[i:i+1]) == "" {
				return ""
			}
		}
	}
	return near
}

// Has reports whether a name, in the singular or plural, is that of a field anywhere in the form.
func (f *Form) Has(name string) bool {
	names := Numbers(Fold(name))
	var in func(s *Shape) bool
	in = func(s *Shape) bool {
		switch {
		case s == nil:
			return false
		case s.Of != nil:
			return slices.ContainsFunc(s.Of.Fields, func(f Field) bool { return slices.Contains(names, f.Name) || in(&f.Is) })
		case s.ByWord != nil:
			return slices.ContainsFunc(s.Known, func(kind string) bool { return in(&Shape{Of: s.ByWord[kind]}) })
		}
		return in(s.Named) || in(s.List)
	}
	return in(f.Order)
}

// MeantUnit is Meant for the order's units, which have many names.
func MeantUnit(s string, own []string) (string, bool) {
	u, ok := length.ParseUnit(strings.TrimSpace(s))
	if !ok || !slices.Contains(own, u.String()) {
		return "", false
	}
	return u.String(), true
}
