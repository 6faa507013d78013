package rule_test

import (
	"testing"

	"cutgate/internal/order"
	"cutgate/internal/rule"
)

func TestNames(t *testing.T) {
	for _, c := range []struct {
		name, id string
		want     bool
	}{
		{"hole/odd-count", "hole/odd-count", true},
		{"hole", "hole/odd-count", true},
		{"hole/odd", "hole/odd-count", false},
		{"hol", "hole/odd-count", false},
		{"hole/", "hole/odd-count", false},
		{"odd-count", "hole/odd-count", false},
		{"", "hole/odd-count", false},
		{"", "/odd-count", false},
	} {
		if got := rule.Names(c.name, c.id); got != c.want {
			t.Errorf("Names(%q, %q) is %t", c.name, c.id, got)
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"hole", "hole/odd-count", "hole/count-off", "width", "width/count-off", "safety/cord-in-nursery"}
	for name, want := range map[string]string{
		"hole/od-count":      "hole/odd-count",
		"Hole/Odd Count":     "hole/odd-count",
		"odd_count":          "hole/odd-count",
		"count-off":          "hole/count-off",
		"holes":              "hole",
		"widht":              "",
		"with":               "width",
		"cord-in-nurserry":   "",
		"safety/cord-nusery": "safety/cord-in-nursery",
		"the eyelets":        "",
		"x":                  "",
		"":                   "",
	} {
		if got := rule.Nearest(name, names); got != want {
			t.Errorf("Nearest(%q) is %q, want %q", name, got, want)
		}
	}
}

func TestWaiverHolds(t *testing.T) {
	why := order.Waiver{Because: order.Text{Value: "agreed", Set: true}}
	for name, c := range map[string]struct {
		use  rule.WaiverUse
		want bool
	}{
		"whole":     {rule.WaiverUse{Waiver: &why}, true},
		"unread":    {rule.WaiverUse{Waiver: &why, Unread: true}, false},
		"unknown":   {rule.WaiverUse{Waiver: &why, Unknown: true}, false},
		"past":      {rule.WaiverUse{Waiver: &why, Past: true}, false},
		"no reason": {rule.WaiverUse{Waiver: &order.Waiver{Because: order.Text{Value: " ", Set: true}}}, false},
	} {
		if got := c.use.Holds(); got != c.want {
			t.Errorf("%s: holds is %t", name, got)
		}
	}
}
