package trade

import (
	"bytes"
	"encoding/json"
	"maps"
	"regexp"
	"slices"

	"cutgate/internal/length"
)

// Read reads the tables as they are compiled, and returns the edition for inch orders.
func Read(text []byte) (*Tables, error) {
	inches, metric := new(Tables), &Tables{metric: true}
	for _, t := range []*Tables{inches, metric} {
		if err := json.Unmarshal(t.Pick(text), t); err != nil {
			return nil, err
		}
	}
	return Editions(inches, metric), nil
}

// Editions joins the tables for inch orders and those for metric orders, and returns the
// edition for inch orders.
func Editions(inches, metric *Tables) *Tables {
	inches.metric, metric.metric = false, true
	inches.other, metric.other = metric, inches
	return inches
}

// For returns the edition for orders in that unit.
func (t *Tables) For(u length.Unit) *Tables {
	if t.metric != u.Metric() && t.other != nil {
		return t.other
	}
	return t
}

// pair is a length for inch orders and one for metric orders, as JSON.
var pair = regexp.MustCompile(`"([0-9][0-9./ ]* (?:in|ft|yd)) / ([0-9][0-9.]* (?:mm|cm|m))"`)

// Pick returns a text of JSON with the length of the tables' own edition in place of
// each pair, "1/2 in / 12 mm".
func (t *Tables) Pick(text []byte) []byte {
	one := []byte(`"$1"`)
	if t.metric {
		one = []byte(`"$2"`)
	}
	out := make([]byte, 0, len(text))
	for { // only strings that may be one are looked at closely, which are few
		slash := bytes.Index(text, []byte(" / "))
		if slash < 0 {
			return append(out, text...)
		}
		start := max(0, bytes.LastIndexByte(text[:slash], '"'))
		end := slash + len(" / ")
		if n := bytes.IndexByte(text[end:], '"'); n >= 0 {
			end += n + 1
		}
		out = append(append(out, text[:start]...), pair.ReplaceAll(text[start:end], one)...)
		text = text[end:]
	}
}

// Revised returns a copy of the tables, with do called on both editions. The rows that
// a shop may change, and the sources, are copies too.
func (t *Tables) Revised(do func(*Tables) error) (*Tables, error) {
	c := t.clone()
	if t.other != nil {
		c.other = t.other.clone()
		c.other.other = c
		if err := do(c.other); err != nil {
			return nil, err
		}
	}
	return c, do(c)
}

func (t *Tables) clone() *Tables {
	c := *t
	c.Headings, c.Seams, c.Classes = slices.Clone(t.Headings), slices.Clone(t.Seams), slices.Clone(t.Classes)
	c.House.Hems, c.House.Sources = slices.Clone(t.House.Hems), maps.Clone(t.House.Sources)
	if c.own = maps.Clone(t.own); c.own == nil {
		c.own = map[string]bool{}
	}
	if c.House.Sources == nil {
		c.House.Sources = map[string]string{}
	}
	return &c
}
