// Package caption reads caption and transcript files into words with times.
//
// A [Track] is the whole reading of one file: its words in the order in which they were said, each
// once, with the span of time in which each was begun; the cues (or the blocks of a transcript) they
// came from; what was heard and is no word; and a warning for every guess.
package caption

import (
	"fmt"
	"time"
)

// A Time is an offset from the start of the recording.
type Time time.Duration

// At returns the Time that lies s seconds after the start of the recording, rounded to the millisecond.
func At(s float64) Time {
	ms := float64(s * 1000)
	if ms < 0 {
		return Time(int64(ms-0.5)) * Time(time.Millisecond)
	}
	return Time(int64(ms+0.5)) * Time(time.Millisecond)
}

// Seconds returns the offset in seconds.
func (t Time) Seconds() float64 { return time.Duration(t).Seconds() }

// String returns the time as a person reads it on a player: "0:47", "12:40", "1:02:03"; fractions are cut off.
func (t Time) String() string {
	s := int64(time.Duration(t) / time.Second)
	sign := ""
	if s < 0 {
		sign, s = "-", -s
	}
	if s >= 3600 {
		return fmt.Sprintf("%s%d:%02d:%02d", sign, s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%s%d:%02d", sign, s/60, s%60)
}

// Evidence says what a word's time rests on.
type Evidence uint8

const (
	EvidenceUnknown Evidence = iota
	OnWord                   // the file gives a time for the word itself
	WithinCue                // the word stands in a caption cue of some seconds
	WithinBlock              // the word stands in a block of a transcript with a time every half minute or so
)

// A Spread is an instant that is known only within limits: the truth lies in [Low, High] 9 times in 10.
// Low <= At <= High; At need not be the middle.
type Spread struct {
	At, Low, High Time
	From          Evidence
}

// Timing is the kind of clock that a whole file gives.
type Timing uint8

const (
	TimingUnknown Timing = iota
	TimingWord           // a time on (nearly) every word
	TimingCue            // a time for each cue of a few seconds
	TimingBlock          // a time every 8 s or more
)

// String returns the name used in reports: "word", "cue", "block" or "unknown".
func (t Timing) String() string {
	switch t {
	case TimingWord:
		return "word"
	case TimingCue:
		return "cue"
	case TimingBlock:
		return "block"
	}
	return "unknown"
}

// A Word is one word as it was written.
type Word struct {
	Text    string  // as written, without the punctuation around it, entities decoded
	Fold    string  // Text for matching: lower case, digits of any script as 0-9, plain hyphens and apostrophes
	After   string  // the punctuation that follows it ("," "." "?" "..." ), empty for none
	Time    Spread  // when the word begins
	Cue     int     // index into Track.Cues
	Line    int     // line of the file, from 1
	Speaker string  // empty where the file does not say
	Doubt   float64 // the recogniser's own doubt in [0,1], or the reader's (odd digits, a loop); 0 where there is none
}

// A Cue is a stretch of words that the file places in time as one: a caption cue, or a block of a transcript.
type Cue struct {
	Start, End  Time
	Line        int // line of its time in the file, from 1
	First, Last int // its words are Track.Words[First:Last], Last exclusive
}

// An Event is something in the captions that is not a spoken word, such as "[Music]".
type Event struct {
	Text string
	At   Time
	Line int
}

// A Warning is a guess that the reader made, or something it could not read.
type Warning struct {
	Line  int    // first line of the file that it concerns, from 1; 0 for the file as a whole
	Text  string // what was wrong and what was made of it, lower case, no full stop
	Count int    // how many places it concerns, at least 1
}

// A Track is one caption file as read.
type Track struct {
	Name     string // the file's name, for messages
	Format   string // "webvtt", "subrip", "ttml", "ssa", "stl", "lrc", "json", "table", "transcript"
	Timing   Timing
	Language string // BCP 47 tag where the file gives one, else empty
	Title    string // a heading that stands before the first time, else empty
	Duration Time   // end of the last cue
	Cues     []Cue
	Words    []Word
	Events   []Event
	Warnings []Warning

	options Options // with which it was read
}
