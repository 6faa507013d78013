package form

import (
	"cuelang.org/go/cue"
	"cuelang.org/go/cue/ast"
)

// LeafName is what the schema calls a kind of leaf.
func LeafName(k Leaf) string { return leaves[k].name }

// Schema evaluates the schemas.
func Schema() (cue.Value, error) {
	files, err := schemaFiles()
	if err != nil {
		return cue.Value{}, err
	}
	return schemaValue(files)
}

// AnyItem evaluates the schemas as they are but for an order's items, which may be
// anything.
func AnyItem() (cue.Value, error) {
	files, err := schemaFiles()
	if err != nil {
		return cue.Value{}, err
	}
	definitions(files)["#Item"].Value = ast.NewIdent("_")
	return schemaValue(files)
}
