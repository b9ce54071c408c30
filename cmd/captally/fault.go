package main

import (
	"errors"
	"fmt"
	"io"
)

// A fault ends a command: what went wrong, what to do about it, and the exit code.
// Texts are lower case without a full stop. An empty text exits without a word.
type fault struct {
	code int
	text string
	hint string // empty for none
}

func (f *fault) Error() string { return f.text }

// misuse is a fault of the command line.
func misuse(hint, format string, args ...any) *fault {
	return &fault{code: exitMisuse, text: fmt.Sprintf(format, args...), hint: hint}
}

// unreadable is a fault of a file.
func unreadable(hint, format string, args ...any) *fault {
	return &fault{code: exitUnreadable, text: fmt.Sprintf(format, args...), hint: hint}
}

// toFault returns the fault in err; what is none came of a file.
func toFault(err error) *fault {
	var f *fault
	if errors.As(err, &f) {
		return f
	}
	return unreadable("", "%v", err)
}

// print writes the fault in the two forms in which everything that goes wrong is told:
//
//	captally: error: ...
//	captally: hint: ...
func (f *fault) print(w io.Writer) {
	if f.text != "" {
		fmt.Fprintf(w, "captally: error: %s\n", plain(f.text))
	}
	if f.hint != "" {
		fmt.Fprintf(w, "captally: hint: %s\n", plain(f.hint))
	}
}
