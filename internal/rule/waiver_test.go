package rule_test

import (
	"testing"

	"cutgate/internal/rule"
)

// TestSays holds names and reasons to have letters that can be seen. Which letters of
// Unicode fill a place without being seen is from the Unicode Character Database:
// those of Default_Ignorable_Code_Point with a general category of letters.
func TestSays(t *testing.T) {
	for text, want := range map[string]bool{
		"RM": true, "r": true, "王": true, "as agreed, 3 May": true, "Ø": true,
		"": false, " ": false, "...": false, "11": false, "-": false, "\u200b": false, "\u200d\u2060\ufeff": false,
		"\u3164": false, "\u115f\u1160": false, "\uffa0": false, "\x00\x1b": false, "\u202e": false, "\u00ad": false, "\U000e0041": false, "\u02bc": false, "\u0301": false,
	} {
		if got := rule.Says(text); got != want {
			t.Errorf("%q: %t", text, got)
		}
	}
}
