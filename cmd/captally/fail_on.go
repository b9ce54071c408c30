package main

import (
	"slices"
	"strings"

	"captally.example/captally/analyze"
	"github.com/urfave/cli/v2"
)

// findingKinds are the kinds and causes that --fail-on takes, beside "any".
var findingKinds = []string{
	"count-skipped", "count-repeated", "count-restarted", "count-jumped", "count-lost", "count-short", "count-over",
	"time-short", "time-over", "time-cue-off", "sides-uneven", "rest-short", "rest-over", "rest-missing",
	"caption-doubled", "caption-gap", "caption-misheard",
	"session", "unsure", "captions",
}

// A failing says which findings make check fail.
type failing []string

func failOn(c *cli.Context) (failing, error) {
	if !c.IsSet("fail-on") {
		return nil, nil
	}
	words := strings.Split(c.String("fail-on"), ",")
	for _, w := range words {
		if w == "any" || slices.Contains(findingKinds, w) {
			continue
		}
		if near := nearest(w, append([]string{"any"}, findingKinds...)); near != "" {
			return nil, misuse("did you mean "+near+"?", "--fail-on knows no findings %q", w)
		}
		return nil, misuse("any, or one of "+strings.Join(findingKinds, ", "), "--fail-on knows no findings %q", w)
	}
	return words, nil
}

// count returns how many of the findings make check fail.
func (f failing) count(findings []analyze.Finding) int {
	n := 0
	for _, x := range findings {
		if slices.Contains(f, "any") || slices.Contains(f, x.Kind) || slices.Contains(f, x.Cause) {
			n++
		}
	}
	return n
}
