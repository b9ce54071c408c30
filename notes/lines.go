package notes

import (
	"fmt"
	"math"
	"strings"

	"captally.example/captally/analyze"
)

// The parts of a description, in order.
const (
	partTitle       = "title"
	partWho         = "who"
	partNeed        = "need"
	partEffort      = "effort"
	partTime        = "time"
	partExercises   = "exercises"
	partAfter       = "after"
	partChapters    = "chapters"
	partCorrections = "corrections"
	partCautions    = "cautions"
	partClinic      = "clinic"
	partLeftOut     = "left out"
)

// A writer gathers the lines of a description.
type writer struct {
	lines []Line
	part  string
	wording
}

func (w *writer) begin(part, heading string) {
	w.part = part
	w.line(Heading, Standing, heading)
}

func (w *writer) line(form, source, text string) {
	w.lines = append(w.lines, Line{Part: w.part, Form: form, Text: oneLine(text), Source: source})
}

func (w *writer) lineAt(form, source, text string, at float64) {
	w.lines = append(w.lines, Line{Part: w.part, Form: form, Text: oneLine(text), Source: source, At: &at})
}

// lines writes the description of a session, line by line.
func lines(r *analyze.Report, n *Notes, p Profile) []Line {
	h := p.Headings.withDefaults()
	w := &writer{lines: []Line{}, wording: p.wording()}
	w.opening(n, h, p, r.Source.Raw)
	w.length(r)
	w.exercises(n, h)
	w.quoted(partAfter, h.After, n.After, "[how many days a week?]")
	w.chapters(n, h)
	w.corrections(n, h)
	w.cautions(n, h)
	w.clinic(p)
	return w.lines
}

// opening writes what comes before the exercises; raw says that the captions are those of a recogniser, which may turn a warning into its opposite.
func (w *writer) opening(n *Notes, h Headings, p Profile, raw bool) {
	w.part = partTitle
	if n.Title != nil {
		w.lineAt(Plain, Said, upper(n.Title.Text), n.Title.At)
	} else {
		w.line(Plain, Blank, "[what is this video called?]")
	}
	if raw {
		w.line(Plain, Blank, "[nobody has put these captions right, it seems: check what is said here, and the warnings most of all, against the video]")
	}
	var level []Quote
	if n.Level != nil {
		level = []Quote{*n.Level}
	}
	w.quoted(partWho, h.Who, level, "[who is this for?]")
	if own := p.level(n.Level); own != "" {
		w.line(Item, Standing, stop("Our level: "+own))
	}
	w.quoted(partNeed, h.Need, n.Equipment, "[what do people need?]")
	w.quoted(partEffort, h.Effort, n.Effort, "[how hard should it feel?]")
}

// quoted writes a heading and what was said under it, or a blank.
func (w *writer) quoted(part, heading string, said []Quote, blank string) {
	w.begin(part, heading)
	for _, q := range said {
		w.lineAt(Item, Said, stop(upper(lead(q.Text))), q.At)
	}
	if len(said) == 0 {
		w.line(Item, Blank, blank)
	}
}

func (w *writer) length(r *analyze.Report) {
	w.part = partTime
	if r.Source.Duration > 0 {
		w.line(Plain, Measured, fmt.Sprintf("It takes %s in all.", w.minutes(r.Source.Duration)))
	}
	for _, part := range []struct {
		name    string
		seconds float64
	}{{"The warm-up", r.Totals.WarmUp}, {"The cool-down", r.Totals.CoolDown}} {
		if part.seconds > 0 {
			w.line(Plain, Measured, fmt.Sprintf("%s takes %s.", part.name, w.minutes(part.seconds)))
		}
	}
}

func (w *writer) exercises(n *Notes, h Headings) {
	w.begin(partExercises, h.Exercises)
	for i, e := range n.Exercises {
		w.exercise(i, e)
	}
	if len(n.Exercises) == 0 {
		w.line(Item, Blank, "[which exercises, and how many of each?]")
	}
}

func (w *writer) exercise(i int, e Exercise) {
	text, told := exerciseTitle(e.Name, i), w.dose(e.Sets)
	switch {
	case told != "" && !e.unclear:
		text += ": " + told + sides(e.Side)
	case e.Side != "":
		text += "," + strings.TrimPrefix(sides(e.Side), ",")
	}
	text += "."
	switch {
	case e.Rest > 0 && e.between:
		text += fmt.Sprintf(" Rest for %s between sets.", w.seconds(e.Rest))
	case e.Rest > 0:
		text += fmt.Sprintf(" Then rest for %s.", w.seconds(e.Rest))
	}
	if e.Name == "" && (told == "" || e.unclear) {
		w.lineAt(Item, Measured, text, e.at)
	} else {
		w.lineAt(Item, Said, text, e.at)
	}
	if e.Name == "" {
		w.line(Detail, Blank, fmt.Sprintf("[what is exercise %d, at %s, called?]", i+1, clock(e.Start)))
	}
	if e.blank() {
		w.line(Detail, Measured, "In the video it is "+performed(e)+".")
	} else if len(e.differs) > 0 {
		w.line(Detail, Measured, "In the video it is "+list(e.differs)+".")
	}
	switch {
	case told == "":
		w.line(Detail, Blank, "[how many, or how long? nothing was announced]")
	case e.unclear:
		w.line(Detail, Blank, "[how many, or how long? is it "+told+"?]")
	}
	for _, o := range e.Options {
		w.lineAt(Detail, Said, "Another way: "+stop(lower(lead(o.Text))), o.At)
	}
}

// sides says which side an exercise works, in the words that follow a dose.
func sides(side string) string {
	switch side {
	case "each":
		return " on each side"
	case "left", "right":
		return " on the " + side
	case "alternate":
		return ", left and right by turns"
	}
	return ""
}

// performed writes what was done in the video.
func performed(e Exercise) string {
	low, high, unit := math.Inf(1), math.Inf(-1), "seconds"
	for _, x := range e.lasted {
		low, high = math.Min(low, math.Round(x)), math.Max(high, math.Round(x))
	}
	if len(e.lasted) == 0 {
		unit = "times"
		for _, n := range e.done {
			low, high = math.Min(low, float64(n)), math.Max(high, float64(n))
		}
	}
	if math.IsInf(low, 1) {
		return "not counted"
	}
	if low == high {
		return fmt.Sprintf("%.0f %s", low, unit)
	}
	return fmt.Sprintf("%.0f to %.0f %s", low, high, unit)
}

func (w *writer) chapters(n *Notes, h Headings) {
	w.begin(partChapters, h.Chapters)
	for _, c := range n.Chapters {
		w.lineAt(Timed, Measured, clock(c.Start)+" "+c.Title, c.Start)
	}
}

func (w *writer) corrections(n *Notes, h Headings) {
	if len(n.Corrections) == 0 {
		return
	}
	w.begin(partCorrections, h.Corrections)
	for _, c := range n.Corrections {
		w.lineAt(Item, Measured, c.Text, c.At)
	}
}

func (w *writer) cautions(n *Notes, h Headings) {
	w.begin(partCautions, h.Cautions)
	var refs []string
	for _, c := range n.Cautions {
		text := stop(upper(lead(c.Text)))
		if c.At != nil {
			w.lineAt(Item, Said, text, *c.At)
		} else {
			w.line(Item, Standing, text)
		}
		if c.Reference != "" && !strings.Contains(strings.Join(refs, "; "), c.Reference) {
			refs = append(refs, c.Reference)
		}
	}
	if len(refs) > 0 {
		w.line(Plain, Standing, "(Warning signs after: "+strings.Join(refs, "; ")+".)")
	}
}

func (w *writer) clinic(p Profile) {
	w.part = partClinic
	for _, x := range []struct{ text, blank string }{
		{p.Clinic, "[which clinic?]"},
		{p.Qualification, "[who teaches this, and what is their training?]"},
	} {
		if x.text != "" {
			w.line(Plain, Standing, x.text)
		} else {
			w.line(Plain, Blank, x.blank)
		}
	}
}

// plainMarks stand before and after a line of each form in plain text.
var plainMarks = map[string][2]string{Heading: {"", ":"}, Item: {"- ", ""}, Detail: {"  ", ""}}

// Text writes the description ready to paste: the lines, with an empty line between its parts.
func Text(n *Notes) string {
	var b strings.Builder
	for i, l := range n.Lines {
		if i > 0 && l.Part != n.Lines[i-1].Part {
			b.WriteByte('\n')
		}
		b.WriteString(plainMarks[l.Form][0] + l.Text + plainMarks[l.Form][1] + "\n")
	}
	return b.String()
}
