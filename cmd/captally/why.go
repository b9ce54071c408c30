package main

import (
	"math"
	"strconv"
	"strings"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// moment reads a time as a person writes it: "12:40", "1:02:03", "12:40.5", or seconds. It must lie in the recording.
func moment(s string, length caption.Time) (caption.Time, error) {
	fields := strings.Split(strings.TrimSpace(s), ":")
	total := 0.0
	for i, f := range fields {
		v, err := strconv.ParseFloat(f, 64)
		// Below the first place nothing reaches 60: 12:75 is a slip of the keyboard.
		if err != nil || math.IsNaN(v) || v < 0 || v > 1e6 || (i > 0 && v >= 60) || len(fields) > 3 {
			return 0, misuse("write it as 12:40, as 1:02:03 or in seconds, as 760", "--why knows no time %q", s)
		}
		total = float64(total*60) + v
	}
	at := caption.At(total)
	if at > length {
		return 0, misuse("the last caption ends at "+length.String(), "--why %s lies behind the end of the session", s)
	}
	return at, nil
}

// Words are shown that began within nearWords of a moment, but at least leastWords on each side of it.
const (
	nearWords  = 6 // seconds
	leastWords = 4
)

// wordsAround returns the words Track.Words[first:last] that surround a moment.
func wordsAround(words []caption.Word, at caption.Time) (first, last int) {
	middle := 0
	for middle < len(words) && words[middle].Time.At <= at {
		middle++
	}
	first, last = max(0, middle-leastWords), min(len(words), middle+leastWords)
	for first > 0 && (at-words[first-1].Time.At).Seconds() <= nearWords {
		first--
	}
	for last < len(words) && (words[last].Time.At-at).Seconds() <= nearWords {
		last++
	}
	return first, last
}

// phaseAt returns the phase that holds a moment, or nil.
func phaseAt(s *segment.Session, at caption.Time) *segment.Phase {
	for i := range s.Phases {
		if p := &s.Phases[i]; p.Start <= at && at < p.End {
			return p
		}
	}
	return nil
}

// setAt returns the set that holds a moment or, in its absence, the set to whose phase the moment belongs; -1 for none.
func setAt(s *segment.Session, at caption.Time) int {
	for i := range s.Sets {
		if span := s.Sets[i].Span; span.Start.At <= at && at <= span.End.At {
			return i
		}
	}
	p := phaseAt(s, at)
	if p == nil || p.Kind != segment.Work && p.Kind != segment.Balance {
		return -1
	}
	for i := range s.Sets {
		if span := s.Sets[i].Span; span.Start.At < p.End && p.Start < span.End.At {
			return i
		}
	}
	return -1
}

// restAt returns the rest that holds a moment; -1 for none.
func restAt(s *segment.Session, at caption.Time) int {
	for i := range s.Rests {
		if span := s.Rests[i].Span; span.Start.At <= at && at <= span.End.At {
			return i
		}
	}
	return -1
}
