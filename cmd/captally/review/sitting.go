package review

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"captally.example/captally/analyze/settle"
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
	own       bool   // it lies in a folder of captally's own, which is made when it is needed

	remarks []string // on the decisions, for a person: that some could not be read, or that there are others

	mu sync.Mutex // one decision at a time

	memory  sync.Mutex      // of the two below
	last    *settledSession // the last that was computed
	lastKey string          // its decisions as they are written
}

// newSitting reads captions. The decisions on them are in a folder of captally's own, or else beside the captions.
func newSitting(f File, decisions string, own bool, profile notes.Profile) (*sitting, error) {
	track, err := caption.Parse(f.Data, f.Name, caption.Options{MaxBytes: maxFile})
	if err != nil {
		return nil, err
	}
	_, aside, err := keep.Open(decisions)
	if err != nil {
		return nil, unread(err)
	}
	return &sitting{id: idOf(f.Data), data: f.Data, track: track, session: segment.Decode(track), profile: profile, decisions: decisions, own: own, remarks: present(aside)}, nil
}

// load reads the decisions, which another window or a person may have changed.
func (s *sitting) load() (*settle.Decisions, error) {
	made, err := keep.Load(s.decisions)
	if err != nil {
		return nil, unread(err)
	}
	return made, nil
}

func unread(err error) error {
	return fmt.Errorf("what you settled before cannot be read: %w; put that file right or move it away, and open the captions again", plainly(err))
}

// append keeps decisions made at one go, all or none.
func (s *sitting) append(fits func(*settle.Decisions) error, made []settle.Decision) error {
	if s.own {
		if err := os.MkdirAll(filepath.Dir(s.decisions), 0o700); err != nil {
			return s.unwritten(err)
		}
	}
	_, err := keep.Append(s.decisions, bareName(s.track.Name), s.data, fits, made...)
	return s.unwritten(err)
}

// unwritten says that decisions could not be saved where it was the disk that refused them.
func (s *sitting) unwritten(err error) error {
	var inPath *fs.PathError
	var renamed *os.LinkError
	switch {
	case errors.As(err, &inPath):
		err = inPath.Err
	case errors.As(err, &renamed):
		err = renamed.Err
	default:
		return err
	}
	return fmt.Errorf("this was not saved: %s cannot be written (%v); what you settled before is as it was", s.decisions, err)
}

// plainly tells an error of the disk without the name of the system call.
func plainly(err error) error {
	var inPath *fs.PathError
	if errors.As(err, &inPath) {
		return fmt.Errorf("%s: %w", inPath.Path, inPath.Err)
	}
	return err
}
