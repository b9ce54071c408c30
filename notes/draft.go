package notes

import (
	"captally.example/captally/analyze"
)

// Draft writes the notes of a session. The profile's zero value is a clinic that has told nothing of itself.
func Draft(r *analyze.Report, p Profile) *Notes {
	r = p.renamed(r)
	n := &Notes{
		Version:   1,
		Title:     quote(r.Session.Title),
		Level:     quote(r.Session.Level),
		Equipment: quotes(r.Session.Equipment),
		Effort:    quotes(r.Session.Effort),
		Cautions:  cautions(r, p),
		After:     quotes(r.Session.After),
		Exercises: exercises(r),
		duration:  r.Source.Duration,
		american:  p.wording().american,
	}
	n.Chapters = chapters(r)
	n.Corrections = corrections(r, p.wording())
	n.Lines = lines(r, n, p)
	n.Text = Text(n)
	return n
}

func quote(q *analyze.Quote) *Quote {
	if q == nil {
		return nil
	}
	return &Quote{Text: q.Text, At: q.At}
}

func quotes(qs []analyze.Quote) []Quote {
	out := []Quote{}
	for _, q := range qs {
		out = append(out, Quote{Text: q.Text, At: q.At})
	}
	return out
}
