package form

import "cuelang.org/go/cue"

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
