package main

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"captally.example/captally/analyze"
)

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
		cells["prescribed_reps"], cells["prescribed_s"] = wholeNumber(d.Reps), known(d.Seconds)
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
	cells["last_number"], cells["pace_s"] = wholeNumber(s.LastNumber), known(s.Pace)
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

// known and wholeNumber leave the cell empty where 0 stands for unknown.
func known(s float64) string {
	if s == 0 {
		return ""
	}
	return decimal(s)
}

func wholeNumber(n int) string {
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
