package goods

import "testing"

// TestKinds holds that every formula and guard can be read and has its dimension.
func TestKinds(t *testing.T) {
	if err := All().Read(); err != nil {
		t.Error(err)
	}
	if n := len(All().All()); n < 2 {
		t.Errorf("there are only %d kinds", n)
	}
}
