package source

import "testing"

// TestBytes has columns of bytes, which the GNU coding standards (Formatting Error
// Messages) count from 1.
func TestBytes(t *testing.T) {
	f := &File{Text: "\ufeffé: ½\r\nab\n"}
	for offset, want := range map[int]Position{0: {1, 1}, 3: {1, 1}, 5: {1, 3}, 7: {1, 5}, 11: {2, 1}, 12: {2, 2}} {
		if got := f.Bytes(offset); got != want {
			t.Errorf("byte %d is at %v, not %v", offset, got, want)
		}
	}
}
