package main

import (
	"io"
	"os"
	"strings"
	"unicode"
)

// isTerminal says whether w is a screen that a person looks at.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// wantsColour follows the habit that NO_COLOR, set to anything, turns colours off (no-color.org).
func wantsColour(w io.Writer) bool {
	return isTerminal(w) && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

// Colours stress what the words already say.
const (
	bold   = "\x1b[1m"
	red    = "\x1b[31m"
	yellow = "\x1b[33m"
	green  = "\x1b[32m"
	reset  = "\x1b[0m"
)

// paint returns s in a colour where the output takes colours.
func (o *output) paint(colour, s string) string {
	if o.plain {
		return s
	}
	return colour + s + reset
}

// plain replaces what could steer a terminal: captions and file names come from anywhere.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return ' '
		}
		return r
	}, s)
}
