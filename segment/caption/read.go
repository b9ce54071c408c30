package caption

import (
	"errors"
	"fmt"
	"io"
	"strings"
)

// Options limit what is read. The zero value works.
type Options struct {
	MaxBytes  int64 // largest file, in bytes, at most 1 GB; 0 means 64 MB
	MaxCues   int   // most cues or blocks; 0 means 200,000
	KeepClock bool  // leave a clock that starts at ten o'clock as it is, instead of taking the whole hours off
}

const (
	defaultMaxBytes = 64 << 20
	defaultMaxCues  = 200_000
)

func (o Options) maxBytes() int64 {
	if o.MaxBytes > 0 {
		return min(o.MaxBytes, 1<<30)
	}
	return defaultMaxBytes
}

func (o Options) maxCues() int {
	if o.MaxCues > 0 {
		return o.MaxCues
	}
	return defaultMaxCues
}

// What a caller may want to tell apart. Each is wrapped in an [Error] with the file's name.
var (
	ErrEmpty   = errors.New("the file is empty")
	ErrNotText = errors.New("not a caption file")
	ErrNoTimes = errors.New("no times found")
	ErrTooBig  = errors.New("too large")
)

// An Error says why a file could not be read at all.
type Error struct {
	Name string // the file
	Line int    // from 1; 0 for the file as a whole
	Msg  string // what was found and what was expected
	Err  error  // one of the Err values above
}

func (e *Error) Error() string {
	if e.Line > 0 {
		return fmt.Sprintf("%s:%d: %s", e.Name, e.Line, e.Msg)
	}
	return e.Name + ": " + e.Msg
}

func (e *Error) Unwrap() error { return e.Err }

// Read reads a caption or transcript file to its end; name is used in messages. See [Parse].
func Read(r io.Reader, name string, opt Options) (*Track, error) {
	b, err := io.ReadAll(io.LimitReader(r, opt.maxBytes()+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	return Parse(b, name, opt)
}

// Parse reads a caption or transcript file of any known format, told by its content and never by its name.
// It keeps every word that it can and reports each guess in [Track.Warnings]; it fails with an [*Error] only
// where there is nothing to read. The same bytes give the same Track.
func Parse(b []byte, name string, opt Options) (*Track, error) {
	r, err := parse(b, name, opt)
	if err != nil {
		return nil, err
	}
	t := r.build(name)
	t.options = opt
	return t, nil
}

// parse does the first half of the work: from bytes to cues and pieces.
func parse(b []byte, name string, opt Options) (*reading, error) {
	fail := func(err error, msg string) (*reading, error) {
		return nil, &Error{Name: name, Msg: msg, Err: err}
	}
	if int64(len(b)) > opt.maxBytes() {
		return fail(ErrTooBig, fmt.Sprintf("more than %d bytes, the limit for a caption file", opt.maxBytes()))
	}
	if err := refuse(b); err != nil {
		err.Name = name
		return nil, err
	}
	r := &reading{maxCues: opt.maxCues(), keepClock: opt.KeepClock}
	err := r.readFormat(b)
	if err == nil && len(r.cues) == 0 {
		err = &Error{Msg: nothingIn(r.format), Err: ErrNoTimes}
	}
	if err != nil {
		err.Name = name
		return nil, err
	}
	return r, nil
}

// nothingIn says that a file without a caption has none, in the words of somebody who exported it from a program.
func nothingIn(format string) string {
	const arrow = "no line with times such as 00:00:01.000 --> 00:00:04.000"
	kind, missing := "a transcript", "no line with a time such as [0:47]"
	switch format {
	case "webvtt":
		kind, missing = "a WebVTT file", arrow
	case "subrip":
		kind, missing = "a SubRip file", arrow
	case "ttml":
		kind, missing = "a TTML file", "no words with times"
	case "json":
		kind, missing = "what a speech recogniser writes", "no words with times"
	case "ssa":
		kind, missing = "an SSA or ASS file", "no line that begins with Dialogue: and has times"
	case "lrc":
		kind, missing = "an LRC file", "no line with a time such as [00:47.00]"
	case "stl":
		kind, missing = "an EBU STL file", "no captions"
	case "table":
		kind, missing = "a table", "no line with a start, an end and words"
	}
	return "this looks like " + kind + ", but it has " + missing
}

// tooMany says that a file holds more captions than most.
func tooMany(most int) string { return fmt.Sprintf("more captions than the limit of %d", most) }

// readFormat finds out what the file is and reads its cues.
func (r *reading) readFormat(b []byte) *Error {
	if isSTL(b) {
		r.format = "stl"
		err := readSTL(r, b)
		r.dropCarried()
		return err
	}
	r.src = rareLineEnds(decode(b, &r.warn))
	if err := refuseText(r.src); err != nil {
		return err
	}
	r.format = sniff(r.src)
	switch r.format {
	case "webvtt", "subrip":
		return readCues(r)
	case "ttml":
		err := readTTML(r)
		r.dropCarried()
		return err
	case "json":
		return readJSON(r)
	case "html":
		return &Error{Msg: "this is a saved web page; copy the transcript out of it into a plain text file", Err: ErrNotText}
	}
	r.warnOpenEnd()
	switch r.format {
	case "ssa":
		err := readSSA(r)
		r.dropCarried()
		return err
	case "lrc":
		return readLRC(r)
	case "table":
		return readTable(r)
	}
	return readTranscript(r)
}

// warnOpenEnd warns where the last line of the file has no line end.
func (r *reading) warnOpenEnd() {
	if r.src == "" {
		return
	}
	if last := r.src[len(r.src)-1]; last != '\n' && last != '\r' {
		ends := strings.Count(r.src, "\n") + strings.Count(r.src, "\r") - strings.Count(r.src, "\r\n")
		r.warn.add(ends+1, openEnd)
	}
}

// addCue opens a cue, to which the pieces that follow belong.
func (r *reading) addCue(c rawCue) *Error {
	if len(r.cues) >= r.maxCues {
		return &Error{Line: c.line, Msg: tooMany(r.maxCues), Err: ErrTooBig}
	}
	c.first, c.last = len(r.pieces), len(r.pieces)
	r.cues = append(r.cues, c)
	return nil
}

// addPiece adds a piece to the last cue.
func (r *reading) addPiece(p piece) {
	r.pieces = append(r.pieces, p)
	r.cues[len(r.cues)-1].last = len(r.pieces)
}
