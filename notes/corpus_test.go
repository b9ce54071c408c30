package notes

import (
	"testing"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// reportOf goes from a file of the corpus to its report.
func reportOf(t *testing.T, f corpus.File) (*caption.Track, *analyze.Report) {
	t.Helper()
	tr, err := caption.Parse(f.Data, f.Name, caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return tr, analyze.Measure(segment.Decode(tr), analyze.Options{})
}

func draftOf(t *testing.T, f corpus.File) *Notes {
	t.Helper()
	_, r := reportOf(t, f)
	return Draft(r, Profile{})
}
