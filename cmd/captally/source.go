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

// A reading is one caption file on its way to a report.
type reading struct {
	data    []byte // the file as it came
	track   *caption.Track
	session *segment.Session
	report  *analyze.Report
	settled *settledFrom // nil where nothing was settled
}

// readTrack reads a file, or in where name is "-", into words with times.
func readTrack(name string, in io.Reader, most limits) (*reading, error) {
	data, err := readBytes(name, in, most)
	if err != nil {
		return nil, err
	}
	if name == standardInput {
		name = inputName
	}
	track, err := caption.Parse(data, name, caption.Options{MaxBytes: most.bytes, MaxCues: most.cues})
	if err != nil {
		return nil, unreadable("", "%v", err)
	}
	return &reading{data: data, track: track}, nil
}

// readReport goes all the way from a file to its report, with what was settled of it unless unsettled is set.
func readReport(name string, in io.Reader, most limits, unsettled bool) (*reading, error) {
	r, err := readTrack(name, in, most)
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

func readBytes(name string, in io.Reader, most limits) ([]byte, error) {
	if name == standardInput {
		return readLimited(inputName, in, most)
	}
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, unreadable("", "%s: there is no such file", name)
	case err != nil:
		return nil, pathFault(name, err)
	case info.IsDir():
		return nil, unreadable(folderHint(name), "%s is a folder", name)
	case info.Size() > most.bytes:
		return nil, most.tooLarge(name)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, pathFault(name, err)
	}
	defer f.Close()
	return readLimited(name, f, most)
}

func readLimited(name string, r io.Reader, most limits) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, most.bytes+1))
	if err != nil {
		return nil, pathFault(name, err)
	}
	if int64(len(data)) > most.bytes {
		return nil, most.tooLarge(name)
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

// folderHint names the caption files of a folder where there are some.
func folderHint(folder string) string {
	for _, pattern := range []string{"*.vtt", "*.srt", "*.txt"} {
		if found, _ := filepath.Glob(filepath.Join(folder, pattern)); len(found) > 0 {
			return fmt.Sprintf("name the files in it: captally measure %s%c%s", quoted(filepath.Clean(folder)), filepath.Separator, pattern)
		}
	}
	return "name the caption file itself"
}
