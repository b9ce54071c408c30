package corpus_test

import (
	"slices"
	"testing"

	"captally.example/captally/corpus"
)

// TestHeldBack checks that each session that is held back is there.
func TestHeldBack(t *testing.T) {
	names := corpus.HeldBack()
	if len(names) < 10 {
		t.Errorf("%d sessions held back: too few to tell anything", len(names))
	}
	for _, set := range [][]corpus.Session{corpus.More(), corpus.MoreRecognised()} {
		for _, name := range names {
			if !slices.ContainsFunc(set, func(s corpus.Session) bool { return s.Name == name }) {
				t.Errorf("no session %s", name)
			}
		}
	}
}
