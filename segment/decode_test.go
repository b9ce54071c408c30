package segment

import (
	"testing"

	"captally.example/captally/segment/caption"
)

// setsOf returns the sets of a session whose captions are the SubRip file src.
func setsOf(t *testing.T, src string) []Set {
	t.Helper()
	track, err := caption.Parse([]byte(src), "test.srt", caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return Decode(track).Sets
}
