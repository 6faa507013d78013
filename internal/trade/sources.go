package trade

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/mass"
)

// Sources calls add with the source of every figure of the tables, and with what the
// figure is of: "fiber linen", "house clearance".
func (t *Tables) Sources(add func(source, what string)) {
	v := reflect.ValueOf(t).Elem()
	for i := range v.NumField() {
		table := v.Type().Field(i)
		name := strings.TrimSuffix(strings.ToLower(table.Name), "s")
		if rows := v.Field(i); rows.Kind() == reflect.Slice {
			for j := range rows.Len() {
				row := rows.Index(j)
				for k := range row.NumField() {
					if f := row.Type().Field(k); f.Type.Kind() == reflect.String && strings.HasSuffix(f.Name, "Source") {
						add(row.Field(k).String(), name+" "+called(row.Field(0).Interface()))
					}
				}
			}
		}
	}
	for _, field := range slices.Sorted(maps.Keys(t.House.Sources)) {
		add(t.House.Sources[field], "house "+strings.ReplaceAll(field, "_", " "))
	}
	for _, h := range t.House.Hems {
		add(h.Source, "house hem of a "+h.Item)
	}
}

// called is what a row is known by, as people write it.
func called(key any) string {
	switch key := key.(type) {
	case length.Length:
		return key.Format(length.MM, length.Nearest)
	case mass.Linear:
		return key.Format(true)
	}
	return fmt.Sprint(key)
}
