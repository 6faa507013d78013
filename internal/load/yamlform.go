package load

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"cutgate/internal/order"
)

// yamlForm returns what a scalar is. Only what JSON would call a number is
// one; what looks like a date or a yes stays a text.
func yamlForm(y *yaml.Node) order.Form {
	switch {
	case y.Kind == yaml.MappingNode:
		return order.Map
	case y.Kind == yaml.SequenceNode:
		return order.List
	case y.Style&yaml.TaggedStyle != 0:
		return taggedForm(y.Tag, y.Value)
	case y.Style&^yaml.FlowStyle != 0:
		return order.Scalar
	}
	return plainForm(y.Value)
}

// taggedForm is yamlForm for a scalar with a tag.
func taggedForm(tag, value string) order.Form {
	switch form := plainForm(value); {
	case tag == "!!null":
		return order.Null
	case tag == "!!bool" && form == order.Truth, (tag == "!!int" || tag == "!!float") && form == order.Number:
		return form
	}
	return order.Scalar
}

func plainForm(value string) order.Form {
	switch value {
	case "", "~", "null", "Null", "NULL":
		return order.Null
	case "true", "True", "TRUE", "false", "False", "FALSE":
		return order.Truth
	}
	if isNumber(value) {
		return order.Number
	}
	return order.Scalar
}

// isNumber reports whether s is a decimal number, with leading zeros at will.
func isNumber(s string) bool {
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
