// Command fit finds what words speak for in the labelled sessions, and writes the tables of segment/topic.
//
// usage: go run ./corpus/fit [-unchecked] segment/topic
//
//	go run ./corpus/fit causes analyze/belieffitted.go
//
// It writes sections.txt and edges.txt into the folder and prints the share of seconds that the phases get right, once with what was
// fitted on all sessions and once, for each session, with what was fitted on the others ("left out");
// with -unchecked it prints nothing, which saves minutes. The second form fits how far the causes of odd numbers can be relied on, for
// package analyze, and prints how reliable they are. The same sessions give the same bytes.
package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"captally.example/captally/corpus"
	"captally.example/captally/segment/topic"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, errs io.Writer) int {
	check := true
	if len(args) > 0 && args[0] == "-unchecked" {
		check, args = false, args[1:]
	}
	if check && len(args) == 2 && args[0] == "causes" {
		if err := fitCauses(out, args[1]); err != nil {
			fmt.Fprintln(errs, "fit: error:", err)
			return 1
		}
		return 0
	}
	if len(args) != 1 {
		fmt.Fprintln(errs, "usage: go run ./corpus/fit [-unchecked] segment/topic\n       go run ./corpus/fit causes analyze/belieffitted.go")
		return 2
	}
	labelled, err := labelledSessions()
	if err != nil {
		fmt.Fprintln(errs, "fit: error:", err)
		return 1
	}
	fitted := fitAll(labelled, "")
	if check {
		if err := compare(out, labelled, fitted); err != nil {
			fmt.Fprintln(errs, "fit: error:", err)
			return 1
		}
	}
	for _, f := range []struct {
		name  string
		table *topic.Table
	}{{"sections.txt", fitted.Sections}, {"edges.txt", fitted.Edges}} {
		if err := write(filepath.Join(args[0], f.name), f.table, len(labelled)); err != nil {
			fmt.Fprintln(errs, "fit: error:", err)
			return 1
		}
	}
	return 0
}

func write(name string, t *topic.Table, sessions int) error {
	var b strings.Builder
	fmt.Fprintf(&b, "# Written by corpus/fit from %d readings of labelled sessions; run it again instead of editing this file.\n", sessions)
	if err := t.Write(&b); err != nil {
		return err
	}
	return os.WriteFile(name, []byte(b.String()), 0o644)
}

// labelledSessions returns the labelled sessions that are not held back, in each hearing.
func labelledSessions() ([]*labelled, error) {
	var out []*labelled
	heldBack := corpus.HeldBack()
	for _, s := range [][]corpus.Session{corpus.Sessions(), corpus.Recognised(), corpus.More(), corpus.MoreRecognised()} {
		for i := range s {
			if slices.Contains(heldBack, s[i].Name) {
				continue
			}
			l, err := newLabelled(&s[i])
			if err != nil {
				return nil, err
			}
			out = append(out, l)
		}
	}
	return out, nil
}
