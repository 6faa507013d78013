// Package browser measures pages in a real browser, for tests.
package browser

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Measured opens a page in a window of that size, "1400,1000", and returns what its own
// script found: that writes it to the page's end, in a pre that begins with "measured ".
// The test is skipped where Chromium is not installed, or can't be run.
func Measured(t *testing.T, page, window string) string {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("there is no chromium to measure in")
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "page.html")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 3*time.Minute)
	defer cancel()
	open := func() ([]byte, error) {
		return exec.CommandContext(ctx, path, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--hide-scrollbars",
			"--user-data-dir="+filepath.Join(dir, "browser"), "--window-size="+window, "--dump-dom", "file://"+file).Output()
	}
	out, err := open()
	if ended := (*exec.ExitError)(nil); errors.As(err, &ended) && !ended.Exited() { // the browser itself broke
		out, err = open()
	}
	if err != nil {
		t.Skipf("%s can't be run here: %v", path, err)
	}
	_, told, ok := strings.Cut(string(out), "<pre>measured ")
	told, _, end := strings.Cut(told, "</pre>")
	if !ok || !end {
		t.Fatalf("nothing was measured: %.300s", out)
	}
	return told
}
