// Package keep keeps decisions in a file beside the captions. A change is written whole or not at all, and two programs that
// change one file do not lose each other's decisions.
package keep

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/whole"
)

// mostBytes is the size of the largest file that is read; an hour's decisions with two edited forms of notes have some 0.1 MB.
const mostBytes = 16 << 20

// ErrChanged is returned where the file is not what the caller took it to be.
var ErrChanged = errors.New("the decisions were changed meanwhile")

// Beside returns the path of the decisions on a caption file. It holds the whole name of the captions, since knee.srt and
// knee.vtt of one recording may lie in one folder and differ.
func Beside(captions string) string { return captions + ".captally.json" }

// ByContent returns the path of the decisions on captions that came without their place, in a folder for such.
func ByContent(folder string, captions []byte) string {
	return filepath.Join(folder, SumOf(captions)+".captally.json")
}

// Of returns the path of the decisions on a caption file: beside it, unless there are none and the folder has some on the same
// content. also names those in the folder where both are there, empty otherwise. folder may be empty for none.
func Of(captions string, data []byte, folder string) (path, also string) {
	beside := Beside(captions)
	if folder == "" {
		return beside, ""
	}
	dropped := ByContent(folder, data)
	switch {
	case !there(dropped):
		return beside, ""
	case !there(beside):
		return dropped, ""
	}
	return beside, dropped
}

func there(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// SumOf returns what Decisions.Captions holds for captions of that content.
func SumOf(captions []byte) string {
	sum := sha256.Sum256(captions)
	return hex.EncodeToString(sum[:])
}

// Load reads the decisions; where there is no file there are none yet. It never changes the file. A file with a fault is a
// *settle.Fault.
func Load(path string) (*settle.Decisions, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return &settle.Decisions{Version: settle.Version}, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > mostBytes {
		return nil, &settle.Fault{Name: path, Line: 1, Text: fmt.Sprintf("larger than %d MB, which no file of decisions is", mostBytes>>20)}
	}
	return settle.Parse(path, data)
}

// Open is Load for a program that goes on to change the decisions: a file with a fault is moved aside, and aside tells where to
// and why, for a person; it is empty otherwise. A file that cannot be read at all, or is of a later captally, stays, and is an error.
func Open(path string) (d *settle.Decisions, aside string, err error) {
	d, err = Load(path)
	var fault *settle.Fault
	if !errors.As(err, &fault) || fault.Newer {
		return d, "", err
	}
	err = locked(path, func() error {
		if d, err = Load(path); err == nil || !errors.As(err, &fault) || fault.Newer { // changed by another program
			return err
		}
		to, err := moveAside(path)
		if err != nil {
			return err
		}
		d = &settle.Decisions{Version: settle.Version}
		aside = fmt.Sprintf("What was settled before could not be read (%v). That file is kept as %s, and you begin anew.", fault, to)
		return nil
	})
	return d, aside, err
}

// moveAside gives a file a name beside its own that none has.
func moveAside(path string) (string, error) {
	for n := 1; n <= 1000; n++ {
		to := fmt.Sprintf("%s.broken-%d", path, n)
		if _, err := os.Lstat(to); err == nil {
			continue
		}
		return to, os.Rename(path, to)
	}
	return "", fmt.Errorf("%s: there are a thousand broken ones already", path)
}

// Append adds decisions on captions of that name and content, made at one go, to those in the file, whoever wrote them last, and
// returns all. Where fits refuses what would then be in the file, nothing is kept; it may be nil. A file with a fault is left as it
// is, and is an error; see Open.
func Append(path, name string, captions []byte, fits func(*settle.Decisions) error, made ...settle.Decision) (*settle.Decisions, error) {
	return change(path, func(d *settle.Decisions) error {
		d.Captions, d.Name = SumOf(captions), filepath.Base(name)
		for i, x := range made {
			x.Together = i > 0
			if err := d.Add(x); err != nil {
				return err
			}
		}
		if fits == nil {
			return nil
		}
		return fits(d)
	})
}

// Undo takes back what was decided last, in which the last decision must have the ID last, and returns it. The error is ErrChanged
// where another is the last one.
func Undo(path string, last int) (undone []settle.Decision, err error) {
	_, err = change(path, func(d *settle.Decisions) error {
		if x, some := d.Last(); !some || x.ID != last {
			return ErrChanged
		}
		undone = d.Undo()
		return nil
	})
	return undone, err
}

// Save writes decisions that were read at a revision and changed since. The error is ErrChanged where the file has another
// revision by now.
func Save(path string, d *settle.Decisions, revision int) error {
	return locked(path, func() error {
		now, err := Load(path)
		if err != nil {
			return err
		}
		if now.Revision != revision {
			return ErrChanged
		}
		return write(path, d, nil)
	})
}

// change reads the file, changes the decisions and writes them, while no other program does.
func change(path string, with func(*settle.Decisions) error) (*settle.Decisions, error) {
	return changeWatched(path, with, nil)
}

// changeWatched is change for one who wants to be told how far it has come.
func changeWatched(path string, with func(*settle.Decisions) error, step func(string)) (*settle.Decisions, error) {
	var d *settle.Decisions
	err := locked(path, func() (err error) {
		if d, err = Load(path); err != nil {
			return err
		}
		if err = with(d); err != nil {
			return err
		}
		return write(path, d, step)
	})
	if err != nil {
		return nil, err
	}
	return d, nil
}

// write writes the file anew and sweeps up what a program that was killed has left. The lock is held, so nobody else is writing.
func write(path string, d *settle.Decisions, step func(string)) error {
	whole.Sweep(path)
	return whole.Write(path, settle.Encode(d), step)
}
