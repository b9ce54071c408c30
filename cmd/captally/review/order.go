package review

import (
	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/event"
)

// weight is how much a finding matters with what follows from it: half as much in the warm-up and the cool-down, whose moves
// are hardly ever prescribed.
func weight(r *analyze.Report, j judged) float64 {
	most := event.Matters(j.Finding)
	for _, f := range j.follow {
		most = max(most, event.Matters(f))
	}
	if set := setOf(r, j.Finding); set != nil && (set.Phase == "warm-up" || set.Phase == "cool-down") {
		most /= 2
	}
	return most
}
