// Package review serves the page on which a therapist settles what looks odd in one session and takes the notes away.
//
//  1. [Listen] takes a port of the loopback interface, [Server.Serve] answers there.
//  2. A session is opened from a file that was named at the start or dropped on the page. It stays in memory as read; every
//     decision is written beside the captions at once, and what is shown is computed afresh from the captions and the
//     decisions on the disk, so that two pages on one file never lose each other's.
//  3. The page (folder page, embedded as it is) draws the state that it is sent. No figure is computed there.
//
// Health data never leaves the computer: see safety.go for who is answered.
package review

import (
	"time"

	"captally.example/captally/notes"
)

// Options say what a page is for. The zero value is a page with a place to drop a file.
type Options struct {
	File    *File         // the captions to begin with; nil for none
	Demo    File          // the built-in session
	Video   string        // path of the session's video or sound; empty for none
	Folder  string        // where decisions on files that were dropped are kept; empty for nowhere
	Profile notes.Profile // the therapist's own words for the notes
	Idle    time.Duration // stop after so long without a request; 0 for never
}

// A File is a caption file: its path, or for one that was dropped its bare name, and its bytes.
type File struct {
	Name string
	Data []byte
}
