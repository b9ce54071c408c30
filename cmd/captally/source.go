package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"captally.example/captally/analyze"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// standardInput is the argument that stands for standard input, inputName what reports call it.
const (
	standardInput = "-"
	inputName     = "standard input"
)

// maxSize is the size of the largest file that is read, in bytes: the captions of an hour have some 0.3 MB,
// a recogniser's JSON of an hour some 5.
const maxSize = 32 << 20

// A reading is one caption file on its way to a report.
type reading struct {
	data    []byte // the file as it came
	track   *caption.Track
	session *segment.Session
	report  *analyze.Report
	settled *settledFrom // nil where nothing was settled
}

// readTrack reads a file, or in where name is "-", into words with times.
func readTrack(name string, in io.Reader) (*reading, error) {
	data, err := readBytes(name, in)
	if err != nil {
		return nil, err
	}
	if name == standardInput {
		name = inputName
	}
	track, err := caption.Parse(data, name, caption.Options{MaxBytes: maxSize})
	if err != nil {
		return nil, unreadable("", "%v", err)
	}
	return &reading{data: data, track: track}, nil
}

// readReport goes all the way from a file to its report, with what was settled of it unless unsettled is set.
func readReport(name string, in io.Reader, unsettled bool) (*reading, error) {
	r, err := readTrack(name, in)
	if err != nil {
		return nil, err
	}
	r.measure()
	if name == standardInput || unsettled {
		return r, nil
	}
	return r, r.settle(name)
}

func (r *reading) measure() {
	r.session = segment.Decode(r.track)
	r.report = analyze.Measure(r.session, analyze.Options{})
}

func readBytes(name string, in io.Reader) ([]byte, error) {
	if name == standardInput {
		return readLimited(inputName, in)
	}
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, unreadable("", "%s: there is no such file", name)
	case err != nil:
		return nil, pathFault(name, err)
	case info.IsDir():
		return nil, unreadable(folderHint(name), "%s is a folder", name)
	case info.Size() > maxSize:
		return nil, tooLarge(name)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, pathFault(name, err)
	}
	defer f.Close()
	return readLimited(name, f)
}

func readLimited(name string, r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxSize+1))
	if err != nil {
		return nil, pathFault(name, err)
	}
	if len(data) > maxSize {
		return nil, tooLarge(name)
	}
	return data, nil
}

// pathFault tells the cause without the name of the system call.
func pathFault(name string, err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return unreadable("", "%s: %v", name, err)
}

func tooLarge(name string) error {
	return unreadable("is it the video itself? Give the caption file that belongs to it",
		"%s: larger than %d MB, which no caption file of one session is", name, maxSize>>20)
}

// folderHint names the caption files of a folder where there are some.
func folderHint(folder string) string {
	for _, pattern := range []string{"*.vtt", "*.srt", "*.txt"} {
		if found, _ := filepath.Glob(filepath.Join(folder, pattern)); len(found) > 0 {
			return fmt.Sprintf("name the files in it: captally measure %s%c%s", quoted(filepath.Clean(folder)), filepath.Separator, pattern)
		}
	}
	return "name the caption file itself"
}
