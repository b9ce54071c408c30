package main

import (
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"strconv"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/figures"
)

// A reportWriter prints reports in one form.
type reportWriter interface {
	report(r *analyze.Report)
	end()
}

// jsonReport prints one report, indented.
type jsonReport struct{ out *output }

func (j jsonReport) report(r *analyze.Report) { writeJSON(j.out, r, "  ") }
func (j jsonReport) end()                     {}

// jsonLines prints one report a line.
type jsonLines struct{ out *output }

func (j jsonLines) report(r *analyze.Report) { writeJSON(j.out, r, "") }
func (j jsonLines) end()                     {}

// writeJSON leaves <, > and & as they are: the result is read by programs, not put into a web page.
func writeJSON(out *output, v any, indent string) {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", indent)
	if err := e.Encode(v); err != nil && out.failed == nil {
		out.failed = err
	}
}

// oneTable prints the sets, rests and totals of a session.
type oneTable struct{ out io.Writer }

func (t oneTable) report(r *analyze.Report) {
	fmt.Fprintln(t.out, plain(heading(r)))
	fmt.Fprintln(t.out)
	printDone(t.out, r)
	printTotals(t.out, r)
	if len(r.Findings) > 0 {
		sentence, _ := verdict(r)
		fmt.Fprintf(t.out, "\n%s\n", wrap("", sentence+" captally check tells what they are."))
	}
}

func (t oneTable) end() {}

// An overview is a table with a row a session.
type overview struct {
	out   io.Writer
	table table
}

func newOverview(out io.Writer) *overview {
	return &overview{out, table{columns: []column{
		{title: "file", shrink: true, ending: true}, {title: "length", right: true}, {title: "times"}, {title: "sets", right: true}, {title: "reps", right: true},
		{title: "tension", right: true}, {title: "rests", right: true}, {title: "session", right: true}, {title: "unsure", right: true}, {title: "captions", right: true},
	}}}
}

func (o *overview) report(r *analyze.Report) {
	f := tally(r.Findings)
	o.table.add(r.Source.Name, figures.Clock(r.Source.Duration), r.Source.Timing, strconv.Itoa(len(r.Sets)), strconv.Itoa(r.Totals.Reps),
		figures.Minutes(r.Totals.Tension.Value), strconv.Itoa(len(r.Rests)), strconv.Itoa(f.session), strconv.Itoa(f.unsure), strconv.Itoa(f.captions))
}

func (o *overview) end() {
	if len(o.table.rows) == 0 {
		return
	}
	shortenPaths(o.table.rows)
	o.table.print(o.out)
	fmt.Fprint(o.out, "\nThe last three columns count the findings by cause: the session itself, unsure, the captions\n"+
		"only. One session in full: captally check FILE\n")
}

// shortenPaths leaves the folder out of the first cells where all have the same.
func shortenPaths(rows [][]string) {
	folder := filepath.Dir(rows[0][0])
	for _, row := range rows {
		if filepath.Dir(row[0]) != folder {
			return
		}
	}
	for _, row := range rows {
		row[0] = filepath.Base(row[0])
	}
}
