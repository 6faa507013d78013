package yaml

import (
	"go.yaml.in/yaml/v3"

	"cutgate/internal/order"
	"cutgate/internal/syntax"
)

// formOf returns what a scalar is. Only what JSON would call a number is
// one; what looks like a date or a yes stays a text.
func formOf(y *yaml.Node) order.Form {
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

// taggedForm is formOf for a scalar with a tag.
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
	if syntax.IsNumber(value) {
		return order.Number
	}
	return order.Scalar
}
