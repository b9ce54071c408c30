package event

import (
	"encoding/json"
	"testing"

	"captally.example/captally/analyze"
)

// TestEveryKindHasAWeight: a kind that the report may have and this package forgets would stand anywhere in a list.
func TestEveryKindHasAWeight(t *testing.T) {
	var schema struct {
		Properties struct {
			Findings struct {
				Items struct {
					Properties struct{ Kind struct{ Enum []string } }
				}
			}
		}
	}
	if err := json.Unmarshal(analyze.Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	kinds := schema.Properties.Findings.Items.Properties.Kind.Enum
	if len(kinds) < 10 {
		t.Fatalf("only %d kinds were found in the schema", len(kinds))
	}
	for _, k := range kinds {
		if _, known := weights[k]; !known {
			t.Errorf("%s has no weight", k)
		}
	}
}

func TestCause(t *testing.T) {
	r := &analyze.Report{Sets: []analyze.Set{
		{ID: "s1", Phase: "work", Exercise: "heel raise", Side: "left"}, {ID: "s2", Phase: "work", Exercise: "Heel raise", Side: "right"},
		{ID: "s3", Phase: "work", Exercise: "row"},
	}}
	f := func(kind, set, cause string) analyze.Finding {
		return analyze.Finding{Kind: kind, Set: set, Cause: cause, Probability: 0.9}
	}
	list := []analyze.Finding{
		f("count-skipped", "s1", "session"), f("count-short", "s1", "session"), f("sides-uneven", "s2", "session"),
		f("count-over", "s3", "session"), f("caption-gap", "s3", "captions"), f("rest-short", "", "session"),
	}
	never := func(int) bool { return false }
	for i, want := range []int{-1, 0, 1, -1, -1, -1} {
		if got := Cause(r, list, i, never); got != want {
			t.Errorf("%s of %s follows from %d, want %d", list[i].Kind, list[i].Set, got, want)
		}
	}
	if got := Cause(r, list, 1, func(i int) bool { return i == 0 }); got != -1 {
		t.Errorf("a set that is short follows from %d, of which nothing can follow", got)
	}
}

func TestOff(t *testing.T) {
	r := &analyze.Report{Findings: []analyze.Finding{
		{Kind: "rest-over", Rest: "r1", Cause: "session"}, {Kind: "rest-short", Rest: "r2", Cause: "unsure"}, {Kind: "time-cue-off", Rest: "r3", Cause: "session"},
	}}
	for rest, want := range map[string]bool{"r1": true, "r2": false, "r3": false, "r4": false} {
		if got := Off(r, rest); got != want {
			t.Errorf("%s: %v, want %v", rest, got, want)
		}
	}
}
