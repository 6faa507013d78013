package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"cutgate/internal/lay"
	"cutgate/internal/length"
)

// unit is what a whole number of an instance is taken for.
const unit = length.Millimetre

// methods are the published methods that gaps are printed of.
var methods = []string{"GRASP", "SRA", "ISH"}

// An instance is one set of rectangles, and what is known of it.
type instance struct {
	Name  string `json:"name"`
	Group string `json:"group"` // of those whose mean is compared; "" for one by itself
	Width int64  `json:"width"`
	N     int    `json:"n"`
	Items []struct {
		W int64 `json:"w"`
		H int64 `json:"h"`
		N int64 `json:"n"`
	} `json:"items"`
	Bound     int64 `json:"lower_bound"`
	Reference struct {
		Bound      float64            `json:"lb_used"`
		GroupBound float64            `json:"group_lb_mean"`
		Gaps       map[string]float64 `json:"avg_pct"`
		GroupGaps  map[string]float64 `json:"group_avg_pct"`
	} `json:"reference"`
}

// readSet reads a file of instances.
func readSet(dir, name string) (list []instance, err error) {
	text, err := os.ReadFile(filepath.Join(dir, name+".json"))
	if err != nil {
		return nil, fmt.Errorf("reading a set: %w", err)
	}
	if err := json.Unmarshal(text, &list); err != nil {
		return nil, fmt.Errorf("reading the set %s: %w", name, err)
	}
	return list, nil
}

// order is an instance as pieces and cloth.
func (in *instance) order() (*lay.Cloth, []lay.Piece) {
	pieces := make([]lay.Piece, 0, len(in.Items))
	for _, it := range in.Items {
		pieces = append(pieces, lay.Piece{Width: unit.Mul(it.W), Length: unit.Mul(it.H), Count: it.N})
	}
	return &lay.Cloth{Width: unit.Mul(in.Width)}, pieces
}
