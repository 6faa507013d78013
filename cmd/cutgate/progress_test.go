package main

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"time"
)

func TestProgress(t *testing.T) {
	var b bytes.Buffer
	now := time.Now()
	p := &progress{w: &b, start: now.Add(-2 * time.Second), next: now.Add(time.Hour)}
	p.add(10)
	if b.Len() > 0 {
		t.Errorf("it shows before its time: %q", b.String())
	}
	p.next = now
	p.add(10)
	if got := b.String(); !strings.HasPrefix(got, "20 orders checked, ") || !strings.HasSuffix(got, " a second") {
		t.Errorf("it shows %q", got)
	}
	b.Reset()
	out := p.before(&b)
	for range 2 {
		if _, err := io.WriteString(out, "found\n"); err != nil {
			t.Fatal(err)
		}
	}
	if got, want := b.String(), "\r\x1b[Kfound\nfound\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	p.end()
	b.Reset()
	p.next = now
	p.add(10)
	if b.Len() > 0 {
		t.Errorf("it shows after its end: %q", b.String())
	}
}
