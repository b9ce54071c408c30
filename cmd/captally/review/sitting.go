package review

import (
	"sync"

	"captally.example/captally/cmd/captally/keep"
	"captally.example/captally/notes"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// A sitting is one session under review: the captions as read, which do not change, and the place of the decisions on them.
type sitting struct {
	id        string
	data      []byte
	track     *caption.Track
	session   *segment.Session // as decoded, without decisions; never changed
	profile   notes.Profile
	decisions string // path of the file that keeps them

	aside string // what became of decisions that could not be read, empty for none

	mu sync.Mutex // one decision at a time

	memory  sync.Mutex      // of the two below
	last    *settledSession // the last that was computed
	lastKey string          // its decisions as they are written
}

func newSitting(f File, decisions string, profile notes.Profile) (*sitting, error) {
	track, err := caption.Parse(f.Data, f.Name, caption.Options{MaxBytes: maxFile})
	if err != nil {
		return nil, err
	}
	_, aside, err := keep.Open(decisions)
	if err != nil {
		return nil, err
	}
	return &sitting{id: idOf(f.Data), data: f.Data, track: track, session: segment.Decode(track), profile: profile, decisions: decisions, aside: aside}, nil
}
