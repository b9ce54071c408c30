package review

import (
	"strconv"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/event"
	"captally.example/captally/cmd/captally/figures"
)

// A stretch is one phase as the strip shows it.
type stretch struct {
	Kind  string  `json:"kind"`
	Start float64 `json:"start_s"`
	End   float64 `json:"end_s"`
	Key   string  `json:"key"`            // names it in a decision
	Clock string  `json:"clock"`          //
	From  string  `json:"start_text"`     //
	To    string  `json:"end_text"`       //
	Mark  string  `json:"mark,omitempty"` // what stands in it: a set's number in the table
	Text  string  `json:"text"`           // in words: "set 3, heel raises, left, 4:14 to 5:01"
}

// A setRow is one set as the table shows it; the texts are ready, the figures fill the form that changes it.
type setRow struct {
	ID        string  `json:"id"`
	Key       string  `json:"key"` // names it in a decision
	Number    int     `json:"number"`
	Start     float64 `json:"start_s"`
	End       float64 `json:"end_s"`
	Clock     string  `json:"clock"`
	Phase     string  `json:"phase"`
	Exercise  string  `json:"exercise"`
	Side      string  `json:"side"`
	Announced string  `json:"announced"`
	Dose      string  `json:"dose"` // announced, the figure alone
	Unit      string  `json:"unit"` // of Dose: "reps", "seconds" or ""
	Done      string  `json:"done"`
	DoneOnly  string  `json:"done_only"` // the figure alone
	DoneUnit  string  `json:"done_unit"` // of DoneOnly: "reps" or "seconds"
	StartText string  `json:"start_text"`
	EndText   string  `json:"end_text"`
	Middle    string  `json:"middle_text"` // where it would be split
	Range     string  `json:"range"`
	Tension   string  `json:"tension"`
	Within    string  `json:"within"` // the limits of Tension
	Pace      string  `json:"pace"`
	Flags     []flag  `json:"flags"`
}

// A restRow is one rest as the table shows it.
type restRow struct {
	ID        string  `json:"id"`
	Start     float64 `json:"start_s"`
	End       float64 `json:"end_s"`
	Clock     string  `json:"clock"`
	After     int     `json:"after,omitempty"` // the number of the set before it
	Announced string  `json:"announced"`
	Given     string  `json:"given"`
	Range     string  `json:"range"`
	Verdict   string  `json:"verdict"`
	Flags     []flag  `json:"flags"`
}

// A total is one line of the session's sums.
type total struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

func setRows(r *analyze.Report, flags map[string][]flag) []setRow {
	rows := []setRow{}
	for i, s := range r.Sets {
		value, limit := done(s.Performed)
		_, number := numberOf(s)
		row := setRow{ID: s.ID, Key: setKey(s), Number: i + 1, Start: s.Start, End: s.End, Clock: figures.Clock(s.Start), Phase: s.Phase, Exercise: s.Exercise, Side: s.Side,
			Announced: figures.Dose(s.Prescribed), Done: value, DoneOnly: number, StartText: tenths(s.Start), EndText: tenths(s.End), Middle: tenths((s.Start + s.End) / 2), Range: limit, Tension: figures.Length(s.Tension), Within: limits(s.Tension), Pace: figures.Seconds(s.Pace),
			DoneUnit: unitOf(s), Flags: append([]flag{}, flags[s.ID]...)}
		row.Dose, row.Unit = doseParts(s.Prescribed)
		rows = append(rows, row)
	}
	return rows
}

// doseParts are the figure and the unit of a dose for the form that changes it.
func doseParts(d *analyze.Dose) (figure, unit string) {
	switch {
	case d == nil:
		return "", ""
	case d.Reps > 0:
		return strconv.Itoa(d.Reps), "reps"
	}
	return strconv.FormatFloat(d.Seconds, 'f', -1, 64), "seconds"
}

func restRows(r *analyze.Report, flags map[string][]flag) []restRow {
	verdicts := map[string]string{"kept": "kept", "over": "longer than announced", "short": "shorter than announced", "unstated": ""}
	rows := []restRow{}
	for _, x := range r.Rests {
		row := restRow{ID: x.ID, Start: x.Start, End: x.End, Clock: figures.Clock(x.Start), Given: figures.Length(x.Length), Range: limits(x.Length), Verdict: verdicts[x.Verdict], After: setBefore(r, x), Flags: append([]flag{}, flags[x.ID]...)}
		if x.Prescribed != nil {
			row.Announced = figures.Seconds(*x.Prescribed)
			if x.Verdict != "kept" && !event.Off(r, x.ID) {
				row.Verdict = "perhaps " + row.Verdict
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// stretches returns the phases for the strip, the sets among them with the numbers that they have in the table.
func stretches(r *analyze.Report) []stretch {
	out := []stretch{}
	for _, p := range r.Phases {
		s := stretch{Kind: p.Kind, Start: p.Start, End: p.End, Key: phaseKey(p), Clock: figures.Clock(p.Start), From: tenths(p.Start), To: tenths(p.End), Text: p.Kind}
		if p.Label != "" {
			s.Text += ", " + p.Label
		}
		for i, set := range r.Sets {
			if middle := (set.Start + set.End) / 2; (p.Kind == "work" || p.Kind == "balance") && middle >= p.Start && middle < p.End {
				s.Mark = strconv.Itoa(i + 1)
				s.Text = strings.Join(present("set "+s.Mark, p.Kind, set.Exercise, set.Side), ", ")
			}
		}
		s.Text += ", " + figures.Clock(p.Start) + " to " + figures.Clock(p.End)
		out = append(out, s)
	}
	return out
}

func totals(r *analyze.Report) []total {
	t := r.Totals
	tension := figures.Minutes(t.Tension.Value)
	if a, b := figures.Minutes(t.Tension.Low), figures.Minutes(t.Tension.High); a != b {
		tension += " (" + a + " to " + b + ")"
	}
	out := []total{{"sets", strconv.Itoa(t.Sets)}, {"repetitions", strconv.Itoa(t.Reps)}, {"under tension", tension}}
	for _, x := range []struct {
		name string
		s    float64
	}{{"warm-up", t.WarmUp}, {"work", t.Work}, {"balance", t.Balance}, {"rest", t.Rest}, {"cool-down", t.CoolDown}, {"talk", t.Talk}} {
		if x.s > 0 {
			out = append(out, total{x.name, figures.Minutes(x.s)})
		}
	}
	return out
}

// present returns the texts that are not empty.
func present(texts ...string) []string {
	out := []string{}
	for _, t := range texts {
		if t != "" {
			out = append(out, t)
		}
	}
	return out
}
