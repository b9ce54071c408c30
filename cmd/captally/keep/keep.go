// Package keep keeps decisions in a file beside the captions. A change is written whole or not at all, and two programs that
// change one file do not lose each other's decisions.
package keep

import (
	"errors"
	"io/fs"
	"os"

	"captally.example/captally/analyze/settle"
)

// Beside returns the path of the decisions on a caption file. It holds the whole name of the captions, since knee.srt and
// knee.vtt of one recording may lie in one folder and differ.
func Beside(captions string) string { return captions + ".captally.json" }

// Load reads the decisions; where there is no file there are none yet. It never changes the file.
func Load(path string) (*settle.Decisions, error) {
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return &settle.Decisions{Version: settle.Version}, nil
	}
	if err != nil {
		return nil, err
	}
	return settle.Parse(path, data)
}

// Open is Load for a program that goes on to change the decisions: a file that cannot be read is moved aside, and aside tells
// where to and why, for a person; it is empty otherwise.
func Open(path string) (d *settle.Decisions, aside string, err error) {
	d, err = Load(path)
	return d, "", err
}

// Append adds a decision on captions of that name and content to those in the file, whoever wrote them last, and returns all.
func Append(path, name string, captions []byte, made settle.Decision) (*settle.Decisions, error) {
	return nil, errors.New("not yet")
}

// Undo takes back the last decision of the file if its ID is last, and returns the others. ErrChanged: another program has
// decided something since.
func Undo(path string, last int) (*settle.Decisions, error) {
	return nil, errors.New("not yet")
}

// ErrChanged is returned where the file is not what the caller thought it to be.
var ErrChanged = errors.New("the decisions were changed meanwhile")
