package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"captally.example/captally/analyze"
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
		fmt.Fprintf(t.out, "\n%s captally check tells what they are.\n", sentence)
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
	o.table.add(r.Source.Name, clock(r.Source.Duration), r.Source.Timing, strconv.Itoa(len(r.Sets)), strconv.Itoa(r.Totals.Reps),
		minutes(r.Totals.Tension.Value), strconv.Itoa(len(r.Rests)), strconv.Itoa(f.session), strconv.Itoa(f.unsure), strconv.Itoa(f.captions))
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

// A sheet is a CSV file (RFC 4180) with a row for each set and rest, in order of time.
type sheet struct{ csv *csv.Writer }

var sheetTitles = []string{"file", "row", "id", "phase", "exercise", "region", "side", "start_s", "end_s", "prescribed_reps", "prescribed_s",
	"reps", "reps_low", "reps_high", "last_number", "length_s", "length_low_s", "length_high_s",
	"under_tension_s", "under_tension_low_s", "under_tension_high_s", "pace_s", "verdict"}

func newSheet(out io.Writer) *sheet {
	w := csv.NewWriter(out)
	w.UseCRLF = true
	_ = w.Write(sheetTitles) // the output remembers failures
	return &sheet{w}
}

func (s *sheet) end() { s.csv.Flush() }

func (s *sheet) report(r *analyze.Report) {
	for _, row := range inOrder(r) {
		cells := map[string]string{"file": cell(r.Source.Name)}
		if row.set != nil {
			setCells(cells, row.set)
		} else {
			restCells(cells, row.rest)
		}
		line := make([]string, len(sheetTitles))
		for i, title := range sheetTitles {
			line[i] = cells[title]
		}
		_ = s.csv.Write(line)
	}
	s.csv.Flush()
}

func setCells(cells map[string]string, s *analyze.Set) {
	cells["row"], cells["id"], cells["phase"] = "set", s.ID, s.Phase
	cells["exercise"], cells["region"], cells["side"] = cell(s.Exercise), cell(s.Region), s.Side
	cells["start_s"], cells["end_s"] = decimal(s.Start), decimal(s.End)
	if d := s.Prescribed; d != nil {
		cells["prescribed_reps"], cells["prescribed_s"] = whole(d.Reps), known(d.Seconds)
	}
	p := s.Performed
	for title, n := range map[string]*int{"reps": p.Reps, "reps_low": p.RepsLow, "reps_high": p.RepsHigh} {
		if n != nil {
			cells[title] = strconv.Itoa(*n)
		}
	}
	if p.Seconds != nil {
		cells["length_s"] = decimal(*p.Seconds)
	}
	cells["last_number"], cells["pace_s"] = whole(s.LastNumber), known(s.Pace)
	cells["under_tension_s"], cells["under_tension_low_s"], cells["under_tension_high_s"] = decimal(s.Tension.Value), decimal(s.Tension.Low), decimal(s.Tension.High)
}

func restCells(cells map[string]string, r *analyze.Rest) {
	cells["row"], cells["id"], cells["phase"], cells["verdict"] = "rest", r.ID, "rest", r.Verdict
	cells["start_s"], cells["end_s"] = decimal(r.Start), decimal(r.End)
	if r.Prescribed != nil {
		cells["prescribed_s"] = decimal(*r.Prescribed)
	}
	cells["length_s"], cells["length_low_s"], cells["length_high_s"] = decimal(r.Length.Value), decimal(r.Length.Low), decimal(r.Length.High)
}

func decimal(s float64) string { return strconv.FormatFloat(s, 'f', -1, 64) }

// known and whole leave the cell empty where 0 stands for unknown.
func known(s float64) string {
	if s == 0 {
		return ""
	}
	return decimal(s)
}

func whole(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// cell keeps a spreadsheet from taking words for a formula (OWASP, "CSV Injection": =, +, -, @, tab and line ends).
func cell(s string) string {
	s = plain(s)
	if strings.IndexAny(s, "=+-@") == 0 {
		return "'" + s
	}
	return s
}
