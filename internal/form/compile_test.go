package form

import (
	"bytes"
	"os"
	"testing"

	"cutgate/schema"
)

// TestCompiled holds the compiled schemas against the schemas. UPDATE=1 writes
// them anew.
func TestCompiled(t *testing.T) {
	want, err := Compile()
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(schema.Compiled, want) {
		return
	}
	if os.Getenv("UPDATE") == "" {
		t.Fatal("schema/compiled.json is stale: run UPDATE=1 go test ./internal/form -run TestCompiled")
	}
	if err := os.WriteFile("../../schema/compiled.json", want, 0o644); err != nil {
		t.Fatal(err)
	}
}
